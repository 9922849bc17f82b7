//! Problems that get no plan, and what a little more of a limit would buy.

use plan::allocation::{LARGEST_NUMBER, Limit, check};
use solve::Effort;
use solve::allocate::{NoPlan, Relaxation, solve, what_if};

use crate::household::{household, outlet, small_house};

fn effort() -> Effort {
    Effort::steps(1, 2_000)
}

#[test]
fn an_empty_counter_is_no_plan_with_a_clear_reason() {
    let mut house = small_house();
    house.lots.clear();
    let refused = solve(&house, &effort()).expect_err("there is nothing to plan");
    assert_eq!(refused, NoPlan::NothingToPlan);
    assert!(refused.to_string().contains("picking"));
}

#[test]
fn a_flawed_problem_is_refused_with_every_flaw() {
    let mut house = small_house();
    house.lots[0].grams = -5;
    house.lots[0].kind = 44;
    let Err(NoPlan::Flawed(flaws)) = solve(&house, &effort()) else {
        panic!("a flawed problem gets no plan");
    };
    assert_eq!(flaws.len(), 2, "{flaws:?}");
}

#[test]
fn numbers_at_their_largest_are_refused_and_never_overflow() {
    let mut house = small_house();
    house.lots[0].grams = LARGEST_NUMBER;
    house.lots[0].waste_points_per_kg = LARGEST_NUMBER;
    let mut huge = outlet("everything", vec![0], 1);
    huge.max_per_day = LARGEST_NUMBER;
    huge.value_points = LARGEST_NUMBER;
    huge.yields = LARGEST_NUMBER;
    house.outlets = vec![huge];
    assert_eq!(solve(&house, &effort()), Err(NoPlan::TooLarge));
}

#[test]
fn lots_without_any_outlet_are_planned_as_left_out() {
    let house = small_house();
    let plan = solve(&house, &effort()).expect("a plan that uses nothing");
    assert!(check(&house, &plan).is_empty());
    assert!(plan.runs.is_empty() && plan.proven);
    assert_eq!(
        plan.value, -500,
        "five kilograms are lost at 100 points each"
    );
}

#[test]
fn more_jars_save_what_they_hold() {
    let mut house = small_house();
    let mut jars = outlet("pear jars", vec![0], 1_000);
    jars.containers = vec![(0, 1)];
    jars.value_points = 10;
    house.outlets = vec![jars];
    house.containers[0].available = 2;
    house.prices.points_per_batch_day = 0;
    let first = solve(&house, &effort()).expect("a plan");
    let relaxed = Relaxation {
        limit: Limit::Container { container: 0 },
        more: 2,
    };
    let answer = what_if(&house, &first, relaxed, &effort()).expect("an answer");
    assert!(check(&answer.problem, &answer.plan).is_empty());
    assert_eq!(answer.grams_saved_at_least, 2_000);
    assert_eq!(answer.points_at_least, 220);
}

#[test]
fn what_is_plentiful_buys_nothing_and_a_gain_is_never_negative() {
    for seed in 0..25 {
        let problem = household(seed, 8, 12);
        let first = solve(&problem, &effort()).expect("a plan");
        for limit in [Limit::FreezerRoom, Limit::Hands { day: 2 }] {
            let relaxed = Relaxation { limit, more: 60 };
            let answer =
                what_if(&problem, &first, relaxed, &Effort::steps(9, 50)).expect("an answer");
            assert!(check(&answer.problem, &answer.plan).is_empty());
            assert!(answer.plan.value >= first.value, "household {seed}");
            assert!(answer.points_at_least >= 0 && answer.grams_saved_at_least >= 0);
        }
    }
}

#[test]
fn an_unknown_limit_or_less_of_one_is_refused() {
    let house = small_house();
    let first = solve(&house, &effort()).expect("a plan");
    for (limit, more) in [
        (Limit::Container { container: 9 }, 1),
        (Limit::Hands { day: 9 }, 1),
        (Limit::FreezerRoom, -1),
    ] {
        let answer = what_if(&house, &first, Relaxation { limit, more }, &effort());
        assert_eq!(answer.expect_err("refused"), NoPlan::UnknownLimit);
    }
}
