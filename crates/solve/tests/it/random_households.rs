//! Two hundred random households: every plan is accepted by the checker and lies under its bound.

use plan::allocation::{ReasonCode, check, gap};
use solve::Effort;
use solve::allocate::solve;

use crate::household::household;

#[test]
fn every_household_gets_a_plan_that_the_checker_accepts() {
    let mut left_out = 0;
    let mut worth_something = 0;
    for seed in 0..200 {
        let problem = household(seed, 4 + (seed % 12) as i64, 6 + (seed % 25) as i64);
        let plan = solve(&problem, &Effort::steps(seed, 600)).expect("a household has a plan");
        let breaches = check(&problem, &plan);
        assert!(breaches.is_empty(), "household {seed}: {breaches:?}");
        assert!(plan.bound >= plan.value, "household {seed}");
        assert!(gap(&plan) >= 0.0, "household {seed}");
        left_out += plan.left_out.len();
        worth_something += usize::from(!plan.runs.is_empty());
        for line in &plan.left_out {
            assert!(
                !line.text.is_empty(),
                "household {seed}: a reason has words"
            );
        }
    }
    assert!(
        left_out > 200,
        "lots were left out often enough: {left_out}"
    );
    assert!(worth_something > 150, "most households make something");
}

#[test]
fn longer_search_never_gives_a_worse_plan_than_its_own_bound_allows() {
    // The bounds of two searches of different length must agree: no plan of one may pass the
    // bound of the other.
    for seed in 300..320 {
        let problem = household(seed, 10, 14);
        let short = solve(&problem, &Effort::steps(1, 50)).expect("a plan");
        let long = solve(&problem, &Effort::steps(2, 20_000)).expect("a plan");
        assert!(long.value <= short.bound, "household {seed}");
        assert!(short.value <= long.bound, "household {seed}");
    }
}

#[test]
fn a_plan_within_milliseconds_keeps_to_its_time() {
    let problem = household(7, 15, 30);
    let started = std::time::Instant::now();
    let plan = solve(&problem, &Effort::milliseconds(1, 60)).expect("a plan");
    let took = started.elapsed();
    assert!(check(&problem, &plan).is_empty());
    // Generous: the machine may be busy. Without the limit this search would never end.
    assert!(took.as_millis() < 5_000, "{took:?}");
}

#[test]
fn nothing_that_still_fits_and_pays_is_left_out() {
    // A reason always names an obstacle or says that the work is not worth it; so a lot that
    // could simply be used must never be left.
    for seed in 400..440 {
        let mut problem = household(seed, 8, 10);
        // Give every class a use without limits that is worth more than it costs.
        for class in 0..problem.classes.len() {
            let mut eat = crate::household::outlet("eat fresh", vec![class], 1);
            eat.max_per_day = 1_000_000;
            eat.value_points = 1;
            problem.outlets.push(eat);
        }
        problem.prices.points_per_batch_day = 0;
        let plan = solve(&problem, &Effort::steps(1, 300)).expect("a plan");
        assert!(check(&problem, &plan).is_empty());
        for line in &plan.left_out {
            let usable = matches!(line.reason, ReasonCode::PastItsDay | ReasonCode::NotHereYet);
            assert!(usable, "household {seed}: {line:?}");
        }
    }
}
