//! Why something is left and what binds, found by trying one more batch of everything that could
//! take it.

use std::collections::BTreeSet;

use plan::allocation::{Binding, LeftOut, Limit, Lot, ReasonCode};

use super::greedy::next_step;
use super::state::State;

/// What stands in the way of one more step of a cell.
#[derive(Debug, Clone)]
struct Obstacle {
    reason: ReasonCode,
    limit: Option<Limit>,
    text: String,
}

/// One way in which a lot could still have been used.
struct Trial {
    cell: usize,
    obstacles: Vec<Obstacle>,
    /// Scaled points one more step would bring if nothing stood in the way.
    gain: i64,
}

/// Every lot with something left, with its reason, and the limits that are used up or stood in
/// the way.
pub(super) fn explain(state: &mut State, left: &[i64]) -> (Vec<LeftOut>, Vec<Binding>) {
    let mut left_out = Vec::new();
    let mut limits: BTreeSet<Limit> = used_up(state);
    for (lot, grams) in left.iter().enumerate() {
        if *grams > 0 {
            let (reason, text, blocking) = reason(state, lot, left);
            limits.extend(blocking);
            left_out.push(LeftOut {
                lot,
                grams: *grams,
                reason,
                text,
            });
        }
    }
    let binding = limits
        .into_iter()
        .filter_map(|limit| binding(state, limit))
        .collect();
    (left_out, binding)
}

/// The reason, a sentence, and the limits it names.
fn reason(state: &mut State, lot: usize, left: &[i64]) -> (ReasonCode, String, Vec<Limit>) {
    let problem = state.shape.problem;
    let described = &problem.lots[lot];
    let takers: Vec<usize> = (0..problem.outlets.len())
        .filter(|outlet| takes(&problem.outlets[*outlet].inputs, described))
        .collect();
    let horizon = problem.horizon();
    if takers.is_empty() {
        let text = format!("no outlet takes {}", problem.classes[described.kind]);
        return (ReasonCode::NoOutletTakesThisGrade, text, Vec::new());
    }
    if described.last_day < 0 {
        let day = problem.day_label(described.last_day);
        let text = format!("its last day was {day}");
        return (ReasonCode::PastItsDay, text, Vec::new());
    }
    if described.first_day >= horizon {
        let day = problem.day_label(described.first_day);
        let text = format!("it can be used from {day} on, after the plan's last day");
        return (ReasonCode::NotHereYet, text, Vec::new());
    }
    let (code, text, limits) = nearest_obstacle(state, lot, &takers, left);
    if described.last_day >= horizon {
        let day = problem.day_label(described.last_day);
        let text = format!("it keeps until {day}, after the plan's last day; now: {text}");
        return (ReasonCode::KeepsBeyondPlan, text, limits);
    }
    (code, text, limits)
}

fn takes(inputs: &[plan::allocation::Input], lot: &Lot) -> bool {
    inputs
        .iter()
        .any(|input| input.grams > 0 && input.classes.contains(&lot.kind))
}

/// The trial that came nearest, told as a reason.
fn nearest_obstacle(
    state: &mut State,
    lot: usize,
    takers: &[usize],
    left: &[i64],
) -> (ReasonCode, String, Vec<Limit>) {
    let problem = state.shape.problem;
    let described = &problem.lots[lot];
    let days = state.shape.days;
    let first = described.first_day.max(0) as usize;
    let last = described.last_day.min(problem.horizon() - 1) as usize;
    let mut trials: Vec<Trial> = Vec::new();
    for outlet in takers {
        for day in first..=last {
            trials.push(try_one_more(state, outlet * days + day, lot, left));
        }
    }
    let short = |trial: &Trial| {
        trial.obstacles.iter().any(|o| {
            matches!(
                o.reason,
                ReasonCode::LessThanOneBatch | ReasonCode::AnotherCropIsShort
            )
        })
    };
    let best = trials
        .iter()
        .filter(|trial| trial.gain > 0 && !trial.obstacles.is_empty())
        .min_by_key(|trial| {
            let count = trial.obstacles.len();
            (
                short(trial),
                count,
                std::cmp::Reverse(trial.gain),
                trial.cell,
            )
        });
    match best {
        Some(trial) => {
            let name = &problem.outlets[trial.cell / days].name;
            let day = problem.day_label((trial.cell % days) as i64);
            let told: Vec<&str> = trial.obstacles.iter().map(|o| o.text.as_str()).collect();
            let text = format!("one more batch of {name} on {day}: {}", told.join("; "));
            let limits = trial.obstacles.iter().filter_map(|o| o.limit).collect();
            (trial.obstacles[0].reason, text, limits)
        }
        None => {
            let text = "one more batch would cost more than it is worth".to_string();
            (ReasonCode::NotWorthTheWork, text, Vec::new())
        }
    }
}

/// Tries one more step of a cell against every limit.
fn try_one_more(state: &mut State, cell: usize, lot: usize, left: &[i64]) -> Trial {
    let shape = state.shape;
    let problem = shape.problem;
    let (index, day) = shape.place(cell);
    let outlet = &problem.outlets[index];
    let next = next_step(state, cell);
    let mut obstacles = Vec::new();
    let allowed = outlet.days_allowed.as_ref().is_none_or(|days| days[day]);
    if !allowed {
        obstacles.push(Obstacle {
            reason: ReasonCode::DayNotAllowed,
            limit: None,
            text: "it may not be made on this day".to_string(),
        });
    }
    if next > outlet.max_per_day {
        obstacles.push(Obstacle {
            reason: ReasonCode::OutletMaximum,
            limit: Some(Limit::OutletMaximum { day, outlet: index }),
            text: format!("at most {} a day", outlet.max_per_day),
        });
    }
    let now = state.batches[cell];
    for draw in &shape.outlets[index].draws {
        let row = draw.row(day);
        let asked = i128::from(next) * i128::from(draw.per_batch);
        // Beyond this a single run overflows nothing but fits nowhere either.
        let asked = if draw.loads {
            (asked + 99) / 100
        } else {
            asked + i128::from(draw.per_run)
        };
        let free = shape.rows[row] - state.used[row] + draw.amount(now);
        if asked > i128::from(free) {
            let limit = shape.limits[row];
            let own = draw.amount(now);
            obstacles.push(Obstacle {
                reason: reason_of(limit),
                limit: Some(limit),
                text: format!(
                    "{} more {} needed, {} left",
                    asked - i128::from(own),
                    unit_of(problem, limit),
                    free - own
                ),
            });
        }
    }
    let supply = supply_obstacle(state, cell, next, lot, left);
    let fits = obstacles.is_empty() && supply.is_none();
    let gain = if fits {
        super::greedy::gain_of(state, cell, next).unwrap_or(0)
    } else {
        possible_gain(state, cell, next, lot)
    };
    obstacles.extend(supply);
    Trial {
        cell,
        obstacles,
        gain,
    }
}

/// Whether the lots can feed one more step, and if not, what is missing.
fn supply_obstacle(
    state: &mut State,
    cell: usize,
    next: i64,
    lot: usize,
    left: &[i64],
) -> Option<Obstacle> {
    let shape = state.shape;
    let problem = shape.problem;
    let (index, day) = shape.place(cell);
    let outlet = &problem.outlets[index];
    let more = next - state.batches[cell];
    if next <= shape.most[cell] {
        state.set(cell, next);
        let fed = state.settle().is_ok();
        state.take_back();
        if fed {
            return None;
        }
    }
    let kind = problem.lots[lot].kind;
    let day_number = day as i64;
    let mut other = None;
    for input in outlet.inputs.iter().filter(|input| input.grams > 0) {
        let there: i128 = problem
            .lots
            .iter()
            .zip(left)
            .filter(|(lot, _)| input.classes.contains(&lot.kind))
            .filter(|(lot, _)| (lot.first_day..=lot.last_day).contains(&day_number))
            .map(|(_, grams)| i128::from(*grams))
            .sum();
        let asked = i128::from(input.grams) * i128::from(more);
        if asked <= there {
            continue;
        }
        let of_this_lot = input.classes.contains(&kind);
        let obstacle = Obstacle {
            reason: if of_this_lot {
                ReasonCode::LessThanOneBatch
            } else {
                ReasonCode::AnotherCropIsShort
            },
            limit: None,
            text: format!(
                "{asked} g of {} needed, {there} g left",
                names_of(problem, &input.classes)
            ),
        };
        if of_this_lot {
            return Some(obstacle);
        }
        other = Some(obstacle);
    }
    // What is left would do for every input alone, but not for all of them at once, or the
    // batch is too large for anything but the limits already named.
    let fits_alone = next <= shape.most[cell];
    other.or_else(|| {
        fits_alone.then(|| Obstacle {
            reason: ReasonCode::LessThanOneBatch,
            limit: None,
            text: "what is left does not fill all its inputs at once".to_string(),
        })
    })
}

fn names_of(problem: &plan::allocation::Problem, classes: &[usize]) -> String {
    let names: Vec<&str> = classes
        .iter()
        .map(|class| problem.classes[*class].as_str())
        .collect();
    names.join(" or ")
}

/// Scaled points of one more step with nothing in the way and this lot saved by it.
fn possible_gain(state: &State, cell: usize, next: i64, lot: usize) -> i64 {
    let shape = state.shape;
    let (index, _) = shape.place(cell);
    let described = &shape.problem.lots[lot];
    let horizon = shape.problem.horizon();
    let grams: i128 = shape.problem.outlets[index]
        .inputs
        .iter()
        .filter(|input| input.classes.contains(&described.kind))
        .map(|input| i128::from(input.grams))
        .sum::<i128>()
        .min(i128::from(described.grams));
    let loss = if described.last_day < horizon {
        grams * i128::from(described.waste_points_per_kg) * i128::from(super::shape::SCALE / 1000)
    } else {
        0
    };
    let gain = state.points_of(cell, next) + loss;
    gain.clamp(i128::from(i64::MIN), i128::from(i64::MAX)) as i64
}

fn reason_of(limit: Limit) -> ReasonCode {
    match limit {
        Limit::Hands { .. } => ReasonCode::Hands,
        Limit::CannerLoads { .. } => ReasonCode::Canner,
        Limit::FreezeGrams { .. } => ReasonCode::FreezingLimit,
        Limit::DryerTrays { .. } => ReasonCode::Dryer,
        Limit::FreezerRoom => ReasonCode::FreezerRoom,
        Limit::Container { .. } => ReasonCode::Containers,
        Limit::Ingredient { .. } => ReasonCode::Ingredient,
        Limit::OutletMaximum { .. } => ReasonCode::OutletMaximum,
    }
}

/// What a limit is counted in, with its name.
fn unit_of(problem: &plan::allocation::Problem, limit: Limit) -> String {
    match limit {
        Limit::Hands { .. } => "minutes of work".to_string(),
        Limit::CannerLoads { canner, .. } => format!("loads of {}", problem.canners[canner]),
        Limit::FreezeGrams { .. } => "g of freezing".to_string(),
        Limit::DryerTrays { .. } => "dryer trays".to_string(),
        Limit::FreezerRoom => "ml of freezer room".to_string(),
        Limit::Container { container } => problem.containers[container].name.clone(),
        Limit::Ingredient { ingredient } => {
            let ingredient = &problem.ingredients[ingredient];
            format!("{} of {}", ingredient.unit, ingredient.name)
        }
        Limit::OutletMaximum { outlet, .. } => {
            format!("batches of {}", problem.outlets[outlet].name)
        }
    }
}

/// Rows that the plan uses up.
fn used_up(state: &State) -> BTreeSet<Limit> {
    let shape = state.shape;
    (0..shape.rows.len())
        .filter(|row| state.used[*row] > 0 && state.used[*row] == shape.rows[*row])
        .map(|row| shape.limits[row])
        .collect()
}

/// A limit with its figures.
fn binding(state: &State, limit: Limit) -> Option<Binding> {
    let shape = state.shape;
    let problem = shape.problem;
    let (used, available) = match limit {
        Limit::OutletMaximum { day, outlet } => (
            state.batches[outlet * shape.days + day],
            problem.outlets[outlet].max_per_day,
        ),
        _ => {
            let row = shape.limits.iter().position(|known| *known == limit)?;
            (state.used[row], shape.rows[row])
        }
    };
    let on = match limit {
        Limit::Hands { day }
        | Limit::CannerLoads { day, .. }
        | Limit::FreezeGrams { day }
        | Limit::DryerTrays { day }
        | Limit::OutletMaximum { day, .. } => format!(" on {}", problem.day_label(day as i64)),
        Limit::FreezerRoom | Limit::Container { .. } | Limit::Ingredient { .. } => String::new(),
    };
    Some(Binding {
        limit,
        used,
        available,
        text: format!("{used} of {available} {}{on}", unit_of(problem, limit)),
    })
}
