//! The supply against a plain flow of highest worth, on ten thousand random counters.

use plan::allocation::{DayLimit, Input, Lot, Outlet, Prices, Problem};

use super::{Fed, Flow, Scratch, Supplies, distinct_groups};
use crate::allocate::shape::SCALE;
use crate::chance::Chance;

#[path = "../../../tests/it/reference_flow.rs"]
mod reference_flow;

use reference_flow::{Source, highest_worth};

fn between(chance: &mut Chance, low: i64, high: i64) -> i64 {
    low + chance.below((high - low + 1) as usize) as i64
}

fn outlet(classes: Vec<usize>) -> Outlet {
    Outlet {
        key: String::new(),
        name: String::new(),
        route: String::new(),
        good: None,
        yields: 0,
        inputs: vec![Input { classes, grams: 1 }],
        min_per_day: 1,
        max_per_day: 1,
        setup_minutes: 0,
        minutes_per_batch: 0,
        canner: None,
        loads_hundredths: 0,
        containers: Vec::new(),
        ingredients: Vec::new(),
        freezer_ml: 0,
        freeze_grams: 0,
        dryer_trays: 0,
        days_allowed: None,
        value_points: 0,
    }
}

/// Up to four classes with any sets of them as inputs, lots of any days; `one_price` gives every
/// lot the same cost of loss, which lets the fast order be used where there is one group.
fn counter(chance: &mut Chance, one_price: bool) -> Problem {
    let days = between(chance, 1, 5);
    let classes = between(chance, 1, 4) as usize;
    let price = between(chance, 0, 5);
    let mut problem = Problem {
        first_day: jiff::civil::date(2031, 9, 1),
        days: vec![
            DayLimit {
                hands_minutes: 0,
                canner_loads: Vec::new(),
                freeze_grams: 0,
                dryer_trays: 0,
            };
            days as usize
        ],
        classes: (0..classes).map(|class| format!("class {class}")).collect(),
        lots: Vec::new(),
        outlets: Vec::new(),
        containers: Vec::new(),
        ingredients: Vec::new(),
        freezer_room_ml: 0,
        canners: Vec::new(),
        goods: Vec::new(),
        prices: Prices::default(),
    };
    for _ in 0..between(chance, 1, 3) {
        let set: Vec<usize> = (0..classes).filter(|_| chance.below(2) == 0).collect();
        if !set.is_empty() {
            problem.outlets.push(outlet(set));
        }
    }
    for id in 0..between(chance, 1, 7) {
        let first_day = between(chance, -1, days);
        problem.lots.push(Lot {
            id,
            name: format!("lot {id}"),
            kind: chance.below(classes),
            grams: between(chance, 0, 9),
            first_day,
            last_day: first_day + between(chance, 0, 4),
            waste_points_per_kg: if one_price {
                price
            } else {
                between(chance, 0, 5)
            },
        });
    }
    problem
}

#[test]
fn lots_feed_what_a_plain_flow_feeds_and_save_as_much() {
    let mut chance = Chance::new(48);
    let mut scratch = Scratch::default();
    let (mut fed, mut short, mut in_order, mut by_flow) = (0, 0, 0, 0);
    for case in 0..10_000 {
        let problem = counter(&mut chance, case % 2 == 0);
        let horizon = problem.horizon();
        let groups = distinct_groups(&problem);
        let supplies = Supplies::new(&problem, &groups);
        for part in &supplies.parts {
            // Small demands, so that about half of the cases can be fed.
            let need: Vec<Vec<i64>> = part
                .groups
                .iter()
                .map(|_| (0..horizon).map(|_| between(&mut chance, 0, 4)).collect())
                .collect();
            let rows: Vec<&[i64]> = need.iter().map(Vec::as_slice).collect();
            let mut flow = Flow::default();
            let answer = part.feed(&rows, &mut scratch, Some(&mut flow));

            let demands: Vec<i64> = need.iter().flatten().copied().collect();
            let sources: Vec<Source> = problem
                .lots
                .iter()
                .map(|lot| Source {
                    grams: lot.grams,
                    worth: if lot.last_day < horizon {
                        lot.waste_points_per_kg * (SCALE / 1000)
                    } else {
                        0
                    },
                    feeds: part
                        .groups
                        .iter()
                        .flat_map(|group| {
                            let takes = groups[*group].contains(&lot.kind);
                            (0..horizon).map(move |day| {
                                takes && (lot.first_day..=lot.last_day).contains(&day)
                            })
                        })
                        .collect(),
                })
                .collect();
            let expected = highest_worth(&sources, &demands);
            match answer {
                Fed::Yes(saved) => assert_eq!(Some(saved), expected, "case {case}: {problem:?}"),
                Fed::No(_) => assert_eq!(None, expected, "case {case}: {problem:?}"),
            }
            match answer {
                Fed::Yes(_) => fed += 1,
                Fed::No(_) => short += 1,
            }
            if part.in_order {
                in_order += 1;
            } else {
                by_flow += 1;
            }
            if let Fed::Yes(_) = answer {
                let written: i64 = flow.lines.iter().map(|line| line.3).sum();
                assert_eq!(written, demands.iter().sum::<i64>(), "case {case}");
            }
        }
    }
    // Both ways and both answers must have been met often for the comparison to mean anything.
    assert!(fed > 1_000 && short > 1_000, "{fed} fed, {short} short");
    assert!(
        in_order > 1_000 && by_flow > 1_000,
        "{in_order} in order, {by_flow} by flow"
    );
}
