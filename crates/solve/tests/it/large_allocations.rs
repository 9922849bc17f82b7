//! Households of unusual size: ten thousand times the quantities, hundreds of lots, no time, and
//! a busy machine. An answer must come, be accepted by the checker, and come when it was asked for.

use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{Duration, Instant};

use plan::allocation::{Plan, Problem, check};
use solve::Effort;
use solve::allocate::solve;

use crate::household::{household, outlet, small_house};

/// Plans within a time and judges the answer; gives the plan and the time it took.
fn timed(problem: &Problem, milliseconds: u64) -> (Plan, Duration) {
    let started = Instant::now();
    let plan = solve(problem, &Effort::milliseconds(1, milliseconds)).expect("an answer");
    let took = started.elapsed();
    let breaches = check(problem, &plan);
    assert!(breaches.is_empty(), "{breaches:?}");
    assert!(plan.bound >= plan.value);
    (plan, took)
}

/// Everything a household has and may use, so many times over; a batch stays what it is.
fn enlarged(mut problem: Problem, times: i64) -> Problem {
    for lot in &mut problem.lots {
        lot.grams *= times;
    }
    for day in &mut problem.days {
        day.hands_minutes *= times;
        day.canner_loads
            .iter_mut()
            .for_each(|loads| *loads *= times);
        day.freeze_grams *= times;
        day.dryer_trays *= times;
    }
    for outlet in &mut problem.outlets {
        outlet.max_per_day *= times;
    }
    for container in &mut problem.containers {
        container.available *= times;
    }
    for ingredient in &mut problem.ingredients {
        ingredient.available *= times;
    }
    for good in &mut problem.goods {
        good.steps.iter_mut().for_each(|(units, _)| *units *= times);
    }
    problem.freezer_room_ml *= times;
    problem
}

#[test]
fn ten_thousand_times_the_usual_is_planned_in_time() {
    for seed in [3, 11, 19] {
        let usual = household(seed, 12, 24);
        let small = solve(&usual, &Effort::steps(1, 4_000)).expect("a plan");
        let large = enlarged(usual, 10_000);
        let (plan, took) = timed(&large, 300);
        println!(
            "household {seed}: {took:?}, {} of {}",
            plan.value, plan.bound
        );
        assert!(
            took < Duration::from_millis(3_000),
            "household {seed}: {took:?}"
        );
        // Ten thousand times the plan of the usual household fits, and it costs no more set-up.
        let least = i128::from(small.value) * 10_000;
        assert!(
            i128::from(plan.bound) >= least,
            "household {seed}: a wrong bound"
        );
    }
}

#[test]
fn five_hundred_lots_are_planned_in_time() {
    for seed in [5, 23] {
        let problem = household(seed, 500, 40);
        let (plan, took) = timed(&problem, 300);
        println!(
            "household {seed}: {took:?}, {} of {}",
            plan.value, plan.bound
        );
        assert!(!plan.runs.is_empty());
        assert!(
            took < Duration::from_millis(3_000),
            "household {seed}: {took:?}"
        );
    }
}

#[test]
fn batches_of_a_gram_do_not_keep_anyone_waiting() {
    // What is eaten fresh is counted in small batches; a glut of them must not be placed one by
    // one for minutes.
    let mut house = small_house();
    house.lots[0].grams = 2_000_000_000;
    let mut eat = outlet("eat fresh", vec![0], 1);
    eat.max_per_day = 1_000_000_000;
    eat.value_points = 1;
    house.outlets = vec![eat];
    let (plan, took) = timed(&house, 300);
    println!("grams: {took:?}, {} of {}", plan.value, plan.bound);
    assert!(took < Duration::from_millis(3_000), "{took:?}");
}

#[test]
fn no_time_at_all_still_gives_a_first_plan() {
    for seed in 0..10 {
        let problem = household(seed, 14, 30);
        let (plan, took) = timed(&problem, 0);
        assert!(
            took < Duration::from_millis(2_000),
            "household {seed}: {took:?}"
        );
        let none = solve(&problem, &Effort::steps(1, 0)).expect("a plan without steps");
        assert!(check(&problem, &none).is_empty());
        assert_eq!(
            plan.runs, none.runs,
            "household {seed}: the first plan is one"
        );
    }
}

#[test]
fn counted_steps_give_the_same_bytes_while_the_machine_is_busy() {
    let problem = household(17, 14, 26);
    let text = || {
        let plan = solve(&problem, &Effort::steps(5, 2_500)).expect("a plan");
        serde_json::to_string(&plan).expect("JSON")
    };
    let quiet = text();
    let stop = AtomicBool::new(false);
    std::thread::scope(|scope| {
        for _ in 0..6 {
            scope.spawn(|| {
                while !stop.load(Ordering::Relaxed) {
                    std::hint::spin_loop();
                }
            });
        }
        let same = (0..20).all(|_| text() == quiet);
        stop.store(true, Ordering::Relaxed);
        assert!(same, "the plan depends on the load of the machine");
    });
}
