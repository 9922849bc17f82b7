//! Small harvests with grades that may go only to some uses, and lots of several days, against
//! every choice of batches there is. The best use of the lots for one choice is found by a plain
//! flow that shares no code with the solver.

use plan::allocation::{Input, Lot, Problem, check};
use solve::Effort;

use crate::household::{Dice, outlet, small_house};
use crate::reference_flow::{Source, highest_worth};

/// Two or three days, three classes, four lots, three outlets.
fn problem(seed: u64) -> Problem {
    let mut dice = Dice(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15));
    let mut problem = small_house();
    problem.classes = vec!["sound".into(), "soft".into(), "green".into()];
    for day in &mut problem.days {
        day.hands_minutes = dice.roll(60, 200);
    }
    problem.prices.points_per_hour = dice.roll(1, 90);
    problem.prices.points_per_batch_day = dice.roll(0, 9);
    problem.lots = (0..4)
        .map(|id| {
            let first_day = dice.roll(-1, 1);
            Lot {
                id,
                name: format!("lot {id}"),
                kind: dice.roll(0, 2) as usize,
                grams: dice.roll(200, 3_000),
                first_day,
                last_day: (first_day + dice.roll(0, 2)).max(0),
                waste_points_per_kg: dice.roll(0, 9) * 25,
            }
        })
        .collect();
    problem.outlets = (0..3)
        .map(|index| {
            let classes: Vec<usize> = match dice.roll(0, 3) {
                0 => vec![0],
                1 => vec![0, 1],
                2 => vec![1, 2],
                _ => vec![0, 1, 2],
            };
            let mut outlet = outlet(&format!("outlet {index}"), classes, dice.roll(150, 900));
            if dice.roll(0, 2) == 0 {
                outlet.inputs.push(Input {
                    classes: vec![dice.roll(0, 2) as usize],
                    grams: dice.roll(50, 300),
                });
            }
            outlet.min_per_day = dice.roll(0, 2);
            outlet.max_per_day = 3;
            outlet.setup_minutes = dice.roll(0, 30);
            outlet.minutes_per_batch = dice.roll(5, 50);
            outlet.value_points = dice.roll(-20, 200);
            outlet
        })
        .collect();
    problem
}

/// Value of one choice of batches (outlet by outlet, day by day), or nothing when it cannot be.
fn value(problem: &Problem, counts: &[i64]) -> Option<i64> {
    let days = problem.days.len();
    let mut minutes = 0;
    let mut points = 0;
    let mut demands: Vec<i64> = Vec::new();
    let mut askers: Vec<(usize, Vec<usize>)> = Vec::new();
    for (day, limit) in problem.days.iter().enumerate() {
        let mut today = 0;
        for (index, outlet) in problem.outlets.iter().enumerate() {
            let batches = counts[index * days + day];
            if batches == 0 {
                continue;
            }
            if batches < outlet.min_per_day || batches > outlet.max_per_day {
                return None;
            }
            today += outlet.setup_minutes + outlet.minutes_per_batch * batches;
            points += outlet.value_points * batches;
            points -= problem.prices.points_per_batch_day * batches * day as i64;
            for input in &outlet.inputs {
                demands.push(input.grams * batches);
                askers.push((day, input.classes.clone()));
            }
        }
        if today > limit.hands_minutes {
            return None;
        }
        minutes += today;
    }
    let horizon = days as i64;
    let mut at_stake = 0;
    let sources: Vec<Source> = problem
        .lots
        .iter()
        .map(|lot| {
            let worth = if lot.last_day < horizon {
                lot.waste_points_per_kg
            } else {
                0
            };
            at_stake += lot.grams * worth;
            Source {
                grams: lot.grams,
                worth,
                feeds: askers
                    .iter()
                    .map(|(day, classes)| {
                        classes.contains(&lot.kind)
                            && (lot.first_day..=lot.last_day).contains(&(*day as i64))
                    })
                    .collect(),
            }
        })
        .collect();
    let saved = highest_worth(&sources, &demands)?;
    let cost = (at_stake - saved) * 60 + minutes * problem.prices.points_per_hour * 1_000;
    Some(points - (cost + 59_999).div_euclid(60_000))
}

fn best(problem: &Problem) -> i64 {
    let cells = problem.outlets.len() * problem.days.len();
    let mut counts = vec![0i64; cells];
    let mut best = i64::MIN;
    loop {
        best = best.max(value(problem, &counts).unwrap_or(i64::MIN));
        let Some(cell) = (0..cells).find(|cell| counts[*cell] < 3) else {
            return best;
        };
        counts[..cell].fill(0);
        counts[cell] += 1;
    }
}

#[test]
fn sixty_small_harvests_with_grades_are_planned_as_well_as_any_plan_there_is() {
    let mut used_flow = 0;
    for seed in 1..=60 {
        let problem = problem(seed);
        let best = best(&problem);
        let plan =
            solve::allocate::solve(&problem, &Effort::steps(1, 20_000)).expect("a plan exists");
        let breaches = check(&problem, &plan);
        assert!(breaches.is_empty(), "seed {seed}: {breaches:?}");
        assert_eq!(plan.value, best, "seed {seed}");
        assert!(
            plan.proven,
            "seed {seed}: bound {} value {best}",
            plan.bound
        );
        used_flow += usize::from(plan.uses.len() > 2);
    }
    assert!(used_flow > 20, "the cases are not trivial: {used_flow}");
}
