//! What makes a problem unusable before anyone tries to solve it.

use super::problem::{Outlet, Problem};

/// No number of a problem may be larger than this, in either direction. It leaves room for sums
/// and for 10,000 times the usual quantities.
pub const LARGEST_NUMBER: i64 = 10_000_000_000;

/// Everything that is wrong with a problem, in sentences; empty when it can be planned.
pub fn problem_flaws(problem: &Problem) -> Vec<String> {
    let mut flaws = Vec::new();
    if problem.days.is_empty() {
        flaws.push("the problem has no day to plan for".to_string());
    }
    days(problem, &mut flaws);
    lots(problem, &mut flaws);
    for outlet in &problem.outlets {
        indices(problem, outlet, &mut flaws);
        numbers(outlet, &mut flaws);
    }
    totals(problem, &mut flaws);
    flaws
}

/// Refuses a number below `least` or beyond the largest number.
fn within(flaws: &mut Vec<String>, least: i64, number: i64, what: impl FnOnce() -> String) {
    if number < least || number > LARGEST_NUMBER {
        let what = what();
        flaws.push(format!(
            "{what} is {number}; it must lie between {least} and {LARGEST_NUMBER}"
        ));
    }
}

fn days(problem: &Problem, flaws: &mut Vec<String>) {
    for (day, limit) in problem.days.iter().enumerate() {
        within(flaws, 0, limit.hands_minutes, || {
            format!("hands minutes of day {day}")
        });
        within(flaws, 0, limit.freeze_grams, || {
            format!("freezing limit of day {day}")
        });
        within(flaws, 0, limit.dryer_trays, || {
            format!("dryer trays of day {day}")
        });
        if limit.canner_loads.len() != problem.canners.len() {
            flaws.push(format!(
                "day {day} gives loads for {} canners, but there are {}",
                limit.canner_loads.len(),
                problem.canners.len()
            ));
        }
        for loads in &limit.canner_loads {
            within(flaws, 0, *loads, || format!("canner loads of day {day}"));
        }
    }
}

fn lots(problem: &Problem, flaws: &mut Vec<String>) {
    for lot in &problem.lots {
        if lot.kind >= problem.classes.len() {
            flaws.push(format!(
                "lot '{}' names class {}, but there are {}",
                lot.name,
                lot.kind,
                problem.classes.len()
            ));
        }
        within(flaws, 0, lot.grams, || {
            format!("weight of lot '{}'", lot.name)
        });
        within(flaws, 0, lot.waste_points_per_kg, || {
            format!("waste points of lot '{}'", lot.name)
        });
        within(flaws, -LARGEST_NUMBER, lot.first_day, || {
            format!("first day of lot '{}'", lot.name)
        });
        within(flaws, -LARGEST_NUMBER, lot.last_day, || {
            format!("last day of lot '{}'", lot.name)
        });
        if lot.last_day < lot.first_day {
            flaws.push(format!(
                "lot '{}' ends on day {} before it begins on day {}",
                lot.name, lot.last_day, lot.first_day
            ));
        }
    }
}

fn indices(problem: &Problem, outlet: &Outlet, flaws: &mut Vec<String>) {
    let name = &outlet.name;
    if outlet.good.is_some_and(|good| good >= problem.goods.len()) {
        flaws.push(format!("outlet '{name}' makes a good that is not listed"));
    }
    if outlet.canner.is_some_and(|c| c >= problem.canners.len()) {
        flaws.push(format!("outlet '{name}' needs a canner that is not listed"));
    }
    if outlet
        .inputs
        .iter()
        .flat_map(|input| &input.classes)
        .any(|class| *class >= problem.classes.len())
    {
        flaws.push(format!("outlet '{name}' takes a class that is not listed"));
    }
    if outlet
        .containers
        .iter()
        .any(|(index, _)| *index >= problem.containers.len())
    {
        flaws.push(format!(
            "outlet '{name}' needs a container that is not listed"
        ));
    }
    if outlet
        .ingredients
        .iter()
        .any(|(index, _)| *index >= problem.ingredients.len())
    {
        flaws.push(format!(
            "outlet '{name}' needs an ingredient that is not listed"
        ));
    }
    if let Some(allowed) = &outlet.days_allowed
        && allowed.len() != problem.days.len()
    {
        flaws.push(format!(
            "outlet '{name}' allows or forbids {} days, but there are {}",
            allowed.len(),
            problem.days.len()
        ));
    }
}

fn numbers(outlet: &Outlet, flaws: &mut Vec<String>) {
    let name = &outlet.name;
    let singles = [
        ("yield", outlet.yields),
        ("fewest per day", outlet.min_per_day),
        ("most per day", outlet.max_per_day),
        ("set-up minutes", outlet.setup_minutes),
        ("minutes per batch", outlet.minutes_per_batch),
        ("canner load", outlet.loads_hundredths),
        ("freezer room", outlet.freezer_ml),
        ("freezing weight", outlet.freeze_grams),
        ("dryer trays", outlet.dryer_trays),
    ];
    for (what, number) in singles {
        within(flaws, 0, number, || format!("{what} of outlet '{name}'"));
    }
    within(flaws, -LARGEST_NUMBER, outlet.value_points, || {
        format!("worth of outlet '{name}'")
    });
    for input in &outlet.inputs {
        within(flaws, 0, input.grams, || {
            format!("an input of outlet '{name}'")
        });
    }
    for (_, count) in outlet.containers.iter().chain(&outlet.ingredients) {
        within(flaws, 0, *count, || {
            format!("a container or ingredient of outlet '{name}'")
        });
    }
}

fn totals(problem: &Problem, flaws: &mut Vec<String>) {
    within(flaws, 0, problem.freezer_room_ml, || {
        "the freezer's room".to_string()
    });
    for container in &problem.containers {
        within(flaws, 0, container.available, || {
            format!("number of containers '{}'", container.name)
        });
    }
    for ingredient in &problem.ingredients {
        within(flaws, 0, ingredient.available, || {
            format!("amount of ingredient '{}'", ingredient.name)
        });
    }
    for good in &problem.goods {
        for (units, points) in &good.steps {
            within(flaws, 0, *units, || {
                format!("a step of good '{}'", good.name)
            });
            within(flaws, -LARGEST_NUMBER, *points, || {
                format!("a worth of good '{}'", good.name)
            });
        }
    }
    let prices = [
        ("per hour", problem.prices.points_per_hour),
        ("per batch and day", problem.prices.points_per_batch_day),
        ("per set-up minute", problem.prices.points_per_setup_minute),
    ];
    for (what, number) in prices {
        within(flaws, 0, number, || format!("the price {what}"));
    }
}
