//! Why a lot is left out: one small house per reason, and the limits that bind.

use plan::allocation::{Good, Input, Limit, Lot, Plan, Problem, ReasonCode, check};
use solve::Effort;

use crate::household::{outlet, small_house};

fn plan_of(problem: &Problem) -> Plan {
    let plan = solve::allocate::solve(problem, &Effort::steps(1, 500)).expect("a plan");
    let breaches = check(problem, &plan);
    assert!(breaches.is_empty(), "{breaches:?}");
    plan
}

/// A change to a house.
type Change = Box<dyn FnOnce(&mut Problem)>;

/// A house in which pears become pear jars: one kilogram, one jar, ten minutes.
fn pear_house() -> Problem {
    let mut house = small_house();
    let mut jars = outlet("pear jars", vec![0], 1_000);
    jars.value_points = 200;
    jars.minutes_per_batch = 10;
    jars.canner = Some(0);
    jars.loads_hundredths = 100;
    jars.containers = vec![(0, 1)];
    jars.ingredients = vec![(0, 100)];
    jars.freezer_ml = 10;
    jars.freeze_grams = 10;
    jars.dryer_trays = 1;
    house.outlets = vec![jars];
    house
}

/// The reason for what is left after a change to the house.
fn reason_after(change: impl FnOnce(&mut Problem)) -> (ReasonCode, Plan) {
    let mut house = pear_house();
    change(&mut house);
    let plan = plan_of(&house);
    assert_eq!(plan.left_out.len(), 1, "{:?}", plan.left_out);
    (plan.left_out[0].reason, plan)
}

#[test]
fn with_plenty_of_everything_nothing_is_left() {
    let plan = plan_of(&pear_house());
    assert!(plan.left_out.is_empty(), "{:?}", plan.left_out);
    assert!(plan.proven);
}

#[test]
fn each_limit_is_named_when_it_is_what_stands_in_the_way() {
    let each_day = |change: fn(&mut plan::allocation::DayLimit)| {
        move |house: &mut Problem| house.days.iter_mut().for_each(change)
    };
    let cases: Vec<(ReasonCode, Change)> = vec![
        (
            ReasonCode::Hands,
            Box::new(each_day(|day| day.hands_minutes = 15)),
        ),
        (
            ReasonCode::Canner,
            Box::new(each_day(|day| day.canner_loads = vec![1])),
        ),
        (
            ReasonCode::FreezingLimit,
            Box::new(each_day(|day| day.freeze_grams = 15)),
        ),
        (
            ReasonCode::Dryer,
            Box::new(each_day(|day| day.dryer_trays = 1)),
        ),
        (
            ReasonCode::FreezerRoom,
            Box::new(|house| house.freezer_room_ml = 39),
        ),
        (
            ReasonCode::Containers,
            Box::new(|house| house.containers[0].available = 3),
        ),
        (
            ReasonCode::Ingredient,
            Box::new(|house| house.ingredients[0].available = 399),
        ),
        (
            ReasonCode::OutletMaximum,
            Box::new(|house| house.outlets[0].max_per_day = 1),
        ),
        (
            ReasonCode::DayNotAllowed,
            Box::new(|house| house.outlets[0].days_allowed = Some(vec![false, false])),
        ),
        (
            ReasonCode::LessThanOneBatch,
            Box::new(|house| house.lots[0].grams = 4_500),
        ),
        (
            ReasonCode::NoOutletTakesThisGrade,
            Box::new(|house| house.lots[0].kind = 1),
        ),
        (
            ReasonCode::NotWorthTheWork,
            Box::new(|house| {
                house.outlets[0].value_points = 0;
                house.outlets[0].minutes_per_batch = 150;
            }),
        ),
        (
            ReasonCode::PastItsDay,
            Box::new(|house| {
                house.lots[0].first_day = -4;
                house.lots[0].last_day = -1;
            }),
        ),
        (
            ReasonCode::NotHereYet,
            Box::new(|house| {
                house.lots[0].first_day = 2;
                house.lots[0].last_day = 9;
            }),
        ),
        (
            ReasonCode::KeepsBeyondPlan,
            Box::new(|house| {
                house.lots[0].last_day = 9;
                house.containers[0].available = 3;
            }),
        ),
        (
            ReasonCode::AnotherCropIsShort,
            Box::new(|house| {
                house.outlets[0].inputs.push(Input {
                    classes: vec![1],
                    grams: 100,
                });
            }),
        ),
    ];
    for (expected, change) in cases {
        let (reason, plan) = reason_after(change);
        assert_eq!(reason, expected, "{:?}", plan.left_out);
    }
}

#[test]
fn a_limit_that_stands_in_the_way_is_listed_with_its_figures() {
    let (_, plan) = reason_after(|house| house.containers[0].available = 3);
    let jars = plan
        .binding
        .iter()
        .find(|line| line.limit == Limit::Container { container: 0 })
        .expect("jars bind");
    assert_eq!((jars.used, jars.available), (3, 3));
    assert!(jars.text.contains("pint jars"), "{}", jars.text);
    assert!(plan.left_out[0].text.contains("pint jars"));
    assert!(plan.left_out[0].text.contains("pear jars"));
}

#[test]
fn three_hours_are_never_spent_to_save_less_than_a_pound() {
    // An hour is worth twelve pounds of surplus: 12 lb at 100 points a kilogram.
    let mut house = small_house();
    house.prices.points_per_hour = 544;
    house.lots[0].grams = 450;
    let mut slow = outlet("slow paste", vec![0], 450);
    slow.minutes_per_batch = 181;
    house.outlets = vec![slow];
    let plan = plan_of(&house);
    assert!(plan.runs.is_empty());
    assert_eq!(plan.left_out[0].reason, ReasonCode::NotWorthTheWork);

    // Twenty minutes for the whole crate are.
    house.lots[0].grams = 5_000;
    let mut quick = outlet("quick sauce", vec![0], 5_000);
    quick.minutes_per_batch = 20;
    house.outlets.push(quick);
    assert_eq!(plan_of(&house).runs.len(), 1);
}

#[test]
fn a_worth_that_falls_to_nothing_stops_the_making() {
    let mut house = pear_house();
    house.lots[0].last_day = 5;
    house.outlets[0].value_points = 0;
    house.outlets[0].good = Some(0);
    house.outlets[0].yields = 1;
    house.goods = vec![Good {
        name: "pear jars".to_string(),
        unit: "jar".to_string(),
        steps: vec![(2, 100)],
    }];
    let plan = plan_of(&house);
    let made: i64 = plan.runs.iter().map(|run| run.batches).sum();
    assert_eq!(made, 2, "the third jar is worth nothing and costs work");
    assert!(plan.proven);
}

#[test]
fn soft_fruit_goes_where_it_may_and_is_used_before_sound() {
    let mut house = small_house();
    house.classes = vec!["sound".to_string(), "soft".to_string()];
    house.lots = vec![
        Lot {
            id: 1,
            name: "sound".to_string(),
            kind: 0,
            grams: 2_000,
            first_day: 0,
            last_day: 9,
            waste_points_per_kg: 100,
        },
        Lot {
            id: 2,
            name: "soft".to_string(),
            kind: 1,
            grams: 1_000,
            first_day: 0,
            last_day: 0,
            waste_points_per_kg: 100,
        },
    ];
    let mut sauce = outlet("sauce", vec![0, 1], 1_000);
    sauce.value_points = 50;
    sauce.max_per_day = 1;
    let mut halves = outlet("halves", vec![0], 1_000);
    halves.value_points = 50;
    halves.max_per_day = 1;
    house.outlets = vec![sauce, halves];
    let plan = plan_of(&house);
    let of_soft: Vec<_> = plan.uses.iter().filter(|line| line.lot == 1).collect();
    assert_eq!(of_soft.len(), 1);
    assert_eq!((of_soft[0].outlet, of_soft[0].day), (0, 0));
    assert!(plan.proven);
}
