//! Rules on the figures of the goal: every part counted again, in wide integers.

use super::figures::minutes;
use super::{Breach, Facts, breach};

/// The parts counted from the plan's lines.
struct Counted {
    goods: i128,
    extra: i128,
    delay: i128,
    waste: i128,
    work: i128,
}

/// Worth of so many units, step by step.
fn worth_of(steps: &[(i64, i64)], units: i128) -> i128 {
    let mut left = units;
    let mut points = 0;
    for (width, each) in steps {
        let taken = left.min(i128::from(*width));
        points += taken * i128::from(*each);
        left -= taken;
    }
    points
}

fn count(facts: &Facts) -> Counted {
    let problem = facts.problem;
    let prices = &problem.prices;
    let goods = problem
        .goods
        .iter()
        .enumerate()
        .map(|(index, good)| {
            let units = facts.over_all_days(|run| {
                let outlet = &problem.outlets[run.outlet];
                match outlet.good == Some(index) {
                    true => i128::from(outlet.yields) * i128::from(run.batches),
                    false => 0,
                }
            });
            worth_of(&good.steps, units)
        })
        .sum();
    let extra = facts.over_all_days(|run| {
        i128::from(problem.outlets[run.outlet].value_points) * i128::from(run.batches)
    });
    let delay = facts.over_all_days(|run| {
        i128::from(prices.points_per_batch_day) * run.day as i128 * i128::from(run.batches)
    });
    let setups = facts.over_all_days(|run| {
        i128::from(prices.points_per_setup_minute)
            * i128::from(problem.outlets[run.outlet].setup_minutes)
    });
    // Thousandths of a point lost by lots that end within the horizon; sixtieths for the work.
    let mut lost = 0i128;
    for (index, lot) in problem.lots.iter().enumerate() {
        if lot.last_day < problem.horizon() {
            lost += facts.left_of_lot(index) * i128::from(lot.waste_points_per_kg);
        }
    }
    let worked =
        facts.over_all_days(|run| minutes(facts, run)) * i128::from(prices.points_per_hour);
    // Both rounded up together once; the points above the whole parts go to the larger fraction.
    let sum = (lost * 60 + worked * 1000 + 59_999).div_euclid(60_000);
    let (whole_lost, part_lost) = (lost / 1000, lost % 1000 * 60);
    let (whole_worked, part_worked) = (worked / 60, worked % 60 * 1000);
    let over = sum - whole_lost - whole_worked;
    let (waste, work) = match over {
        0 => (whole_lost, whole_worked),
        1 if part_lost > part_worked => (whole_lost + 1, whole_worked),
        1 => (whole_lost, whole_worked + 1),
        _ => (whole_lost + 1, whole_worked + 1),
    };
    Counted {
        goods,
        extra,
        delay,
        waste,
        work: work + setups,
    }
}

/// Every part is what the plan's own lines give.
pub(super) fn p1017_parts_are_as_counted(facts: &Facts) -> Vec<Breach> {
    let counted = count(facts);
    let parts = &facts.plan.parts;
    let pairs = [
        ("goods", parts.goods, counted.goods),
        ("extra", parts.extra, counted.extra),
        ("waste", parts.waste, counted.waste),
        ("work", parts.work, counted.work),
        ("delay", parts.delay, counted.delay),
    ];
    pairs
        .into_iter()
        .filter(|(_, stated, counted)| i128::from(*stated) != *counted)
        .map(|(name, stated, counted)| {
            let text = format!("the plan states {stated} points of {name}; counted {counted}");
            breach("P1017", text)
        })
        .collect()
}

/// The value is the sum of the parts the plan states.
pub(super) fn p1018_value_is_the_sum_of_its_parts(facts: &Facts) -> Vec<Breach> {
    let total = facts.plan.parts.total();
    let stated = facts.plan.value;
    (i128::from(stated) != total)
        .then(|| {
            let text = format!("the plan states a value of {stated}; its parts sum to {total}");
            breach("P1018", text)
        })
        .into_iter()
        .collect()
}

/// A bound below the value would be a wrong promise.
pub(super) fn p1019_bound_is_not_below_the_value(facts: &Facts) -> Vec<Breach> {
    let plan = facts.plan;
    (plan.bound < plan.value)
        .then(|| {
            let text = format!(
                "the bound {} lies below the value {}",
                plan.bound, plan.value
            );
            breach("P1019", text)
        })
        .into_iter()
        .collect()
}

/// Only a plan that reaches its bound is proven.
pub(super) fn p1020_proven_means_the_bound_is_reached(facts: &Facts) -> Vec<Breach> {
    let plan = facts.plan;
    (plan.proven && plan.bound > plan.value)
        .then(|| {
            let text = format!(
                "called proven at {} while the bound is {}",
                plan.value, plan.bound
            );
            breach("P1020", text)
        })
        .into_iter()
        .collect()
}
