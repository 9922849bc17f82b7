//! Twelve small harvest problems whose best plan is found by trying every plan there is.
//!
//! The enumerator shares nothing with the solver: it counts batches by day and outlet, checks the
//! limits itself and adds up the worth itself.

use jiff::civil::date;
use plan::allocation::{
    ContainerLimit, DayLimit, Good, IngredientLimit, Input, Lot, Outlet, Prices, Problem, check,
};
use solve::Effort;

/// A small generator of numbers, so that the problems are the same everywhere.
struct Dice(u64);

impl Dice {
    fn roll(&mut self, from: i64, to: i64) -> i64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        let wide = i64::try_from(self.0 >> 33).expect("31 bits fit");
        from + wide % (to - from + 1)
    }
}

const DAYS: usize = 2;

fn problem(seed: u64) -> Problem {
    let mut dice = Dice(seed);
    let lots = usize::try_from(dice.roll(2, 3)).expect("small");
    let outlets = usize::try_from(dice.roll(2, 4)).expect("small");
    Problem {
        first_day: date(2026, 8, 27),
        days: (0..DAYS)
            .map(|_| DayLimit {
                hands_minutes: dice.roll(60, 240),
                canner_loads: vec![dice.roll(0, 2)],
                freeze_grams: dice.roll(0, 6000),
                dryer_trays: 2,
            })
            .collect(),
        classes: (0..lots).map(|lot| format!("class {lot}")).collect(),
        lots: (0..lots)
            .map(|lot| Lot {
                id: i64::try_from(lot).expect("small") + 1,
                name: format!("lot {lot}"),
                kind: lot,
                grams: dice.roll(2000, 9000),
                first_day: dice.roll(0, 1),
                last_day: dice.roll(0, 3),
                waste_points_per_kg: 220,
            })
            .map(|lot| Lot {
                last_day: lot.last_day.max(lot.first_day),
                ..lot
            })
            .collect(),
        outlets: (0..outlets)
            .map(|outlet| {
                let freezer = outlet % 2 == 1;
                let mut inputs = vec![Input {
                    classes: vec![
                        usize::try_from(dice.roll(0, i64::try_from(lots).expect("small") - 1))
                            .expect("small"),
                    ],
                    grams: dice.roll(700, 2600),
                }];
                if dice.roll(0, 2) == 0 {
                    inputs.push(Input {
                        classes: vec![0],
                        grams: dice.roll(200, 700),
                    });
                }
                Outlet {
                    key: format!("outlet-{outlet}"),
                    name: format!("outlet {outlet}"),
                    route: if freezer { "freezer" } else { "heat" }.into(),
                    good: Some(outlet % 2),
                    yields: dice.roll(1, 3),
                    min_per_day: dice.roll(1, 2),
                    max_per_day: dice.roll(2, 4),
                    setup_minutes: dice.roll(0, 40),
                    minutes_per_batch: dice.roll(5, 45),
                    canner: (!freezer).then_some(0),
                    loads_hundredths: if freezer { 0 } else { dice.roll(20, 100) },
                    containers: vec![(outlet % 2, dice.roll(1, 2))],
                    ingredients: vec![(0, dice.roll(0, 3))],
                    freezer_ml: if freezer { dice.roll(500, 1500) } else { 0 },
                    freeze_grams: if freezer {
                        inputs.iter().map(|input| input.grams).sum()
                    } else {
                        0
                    },
                    dryer_trays: 0,
                    days_allowed: None,
                    value_points: dice.roll(-50, 50),
                    inputs,
                }
            })
            .collect(),
        containers: vec![
            ContainerLimit {
                name: "jars".into(),
                available: dice.roll(2, 9),
            },
            ContainerLimit {
                name: "bags".into(),
                available: dice.roll(2, 9),
            },
        ],
        ingredients: vec![IngredientLimit {
            name: "vinegar".into(),
            available: dice.roll(2, 12),
            unit: "cups".into(),
        }],
        freezer_room_ml: dice.roll(500, 6000),
        canners: vec!["kettle".into()],
        goods: vec![
            Good {
                name: "jars".into(),
                unit: "jar".into(),
                steps: vec![(dice.roll(1, 4), 400), (3, 150)],
            },
            Good {
                name: "bags".into(),
                unit: "bag".into(),
                steps: vec![(dice.roll(1, 4), 300), (2, 90)],
            },
        ],
        prices: Prices {
            points_per_hour: 1200,
            points_per_batch_day: 2,
            points_per_setup_minute: 0,
        },
    }
}

/// Worth of counts by outlet and day, or nothing when a limit is broken.
fn worth(problem: &Problem, counts: &[[i64; DAYS]]) -> Option<i64> {
    let mut used = vec![0; problem.lots.len()];
    let mut containers = [0; 2];
    let mut vinegar = 0;
    let mut room = 0;
    let mut made = [0; 2];
    let (mut minutes, mut extra, mut delay) = (0, 0, 0);
    for day in 0..DAYS {
        let (mut hands, mut loads, mut frozen) = (0, 0, 0);
        for (outlet, count) in problem.outlets.iter().zip(counts) {
            let batches = count[day];
            if batches == 0 {
                continue;
            }
            if batches < outlet.min_per_day || batches > outlet.max_per_day {
                return None;
            }
            hands += outlet.setup_minutes + outlet.minutes_per_batch * batches;
            // One outlet's batches of a day take whole loads.
            loads += (outlet.loads_hundredths * batches + 99) / 100;
            frozen += outlet.freeze_grams * batches;
            room += outlet.freezer_ml * batches;
            for (container, each) in &outlet.containers {
                containers[*container] += each * batches;
            }
            for (_, each) in &outlet.ingredients {
                vinegar += each * batches;
            }
            for input in &outlet.inputs {
                let lot = input.classes[0];
                let day = i64::try_from(day).ok()?;
                if day < problem.lots[lot].first_day || day > problem.lots[lot].last_day {
                    return None;
                }
                used[lot] += input.grams * batches;
            }
            made[outlet.good?] += outlet.yields * batches;
            extra += outlet.value_points * batches;
            delay += problem.prices.points_per_batch_day * batches * i64::try_from(day).ok()?;
        }
        let limit = &problem.days[day];
        if hands > limit.hands_minutes
            || loads > limit.canner_loads[0]
            || frozen > limit.freeze_grams
        {
            return None;
        }
        minutes += hands;
    }
    if room > problem.freezer_room_ml
        || vinegar > problem.ingredients[0].available
        || (0..2).any(|size| containers[size] > problem.containers[size].available)
        || used
            .iter()
            .zip(&problem.lots)
            .any(|(used, lot)| *used > lot.grams)
    {
        return None;
    }
    let mut goods = 0;
    for (good, made) in problem.goods.iter().zip(made) {
        let mut left = made;
        for (units, points) in &good.steps {
            let here = left.min(*units);
            goods += here * points;
            left -= here;
        }
    }
    // Waste in thousandths of points, work in sixtieths: both over 60,000, rounded up once.
    let horizon = i64::try_from(DAYS).ok()?;
    let waste: i64 = problem
        .lots
        .iter()
        .zip(&used)
        .filter(|(lot, _)| lot.last_day < horizon)
        .map(|(lot, used)| (lot.grams - used) * lot.waste_points_per_kg)
        .sum();
    let costs = (waste * 60 + minutes * problem.prices.points_per_hour * 1000 + 59_999) / 60_000;
    Some(goods + extra - costs - delay)
}

fn best(problem: &Problem) -> (i64, u64) {
    let cells: Vec<i64> = problem
        .outlets
        .iter()
        .flat_map(|outlet| [outlet.max_per_day; DAYS])
        .collect();
    let mut counts = vec![[0; DAYS]; problem.outlets.len()];
    let (mut best, mut tried) = (i64::MIN, 0);
    loop {
        tried += 1;
        if let Some(value) = worth(problem, &counts) {
            best = best.max(value);
        }
        let mut cell = 0;
        loop {
            if cell == cells.len() {
                return (best, tried);
            }
            let count = &mut counts[cell / DAYS][cell % DAYS];
            if *count < cells[cell] {
                *count += 1;
                break;
            }
            *count = 0;
            cell += 1;
        }
    }
}

#[test]
fn twelve_small_harvests_are_planned_as_well_as_any_plan_there_is() {
    let effort = Effort {
        seed: 1,
        iterations: 20_000,
        milliseconds: None,
    };
    let mut proven = 0;
    for seed in 1..=12 {
        let problem = problem(seed);
        let (best, tried) = best(&problem);
        let plan = solve::allocate::solve(&problem, &effort).expect("a small problem has a plan");
        assert!(
            check(&problem, &plan).is_empty(),
            "seed {seed}: {:?}",
            check(&problem, &plan)
        );
        assert_eq!(plan.value, best, "seed {seed}, {tried} plans tried");
        assert!(
            plan.bound >= best,
            "seed {seed}: a bound below the best plan"
        );
        proven += u32::from(plan.proven);
    }
    assert_eq!(proven, 12, "small problems are proven");
}

#[test]
fn two_hundred_more_keep_under_their_bound_and_are_never_called_proven_wrongly() {
    let effort = Effort {
        seed: 7,
        iterations: 4_000,
        milliseconds: None,
    };
    for seed in 100..300 {
        let problem = problem(seed);
        let (best, _) = best(&problem);
        let plan = solve::allocate::solve(&problem, &effort).expect("a small problem has a plan");
        assert!(check(&problem, &plan).is_empty(), "seed {seed}");
        assert!(
            plan.value <= best && best <= plan.bound,
            "seed {seed}: {} {best} {}",
            plan.value,
            plan.bound
        );
        assert!(
            !plan.proven || plan.value == best,
            "seed {seed}: a wrong proof"
        );
    }
}

#[test]
fn the_same_problem_seed_and_iterations_give_the_same_plan_twenty_times() {
    let effort = Effort {
        seed: 3,
        iterations: 3_000,
        milliseconds: None,
    };
    let problem = problem(42);
    let plan = || {
        serde_json::to_string(&solve::allocate::solve(&problem, &effort).expect("a plan"))
            .expect("JSON")
    };
    let first = plan();
    assert!((0..20).all(|_| plan() == first));
}

#[test]
fn ten_thousand_times_the_usual_and_five_hundred_lots_get_a_checked_answer() {
    let mut large = problem(5);
    for lot in &mut large.lots {
        lot.grams *= 10_000;
    }
    for outlet in &mut large.outlets {
        outlet.max_per_day *= 10_000;
        outlet.yields *= 10_000;
    }
    let many = {
        let mut many = problem(6);
        let lots = many.lots.clone();
        many.lots = (0..500)
            .map(|index| Lot {
                id: index,
                ..lots[usize::try_from(index).expect("small") % lots.len()].clone()
            })
            .collect();
        many
    };
    let effort = Effort {
        seed: 1,
        iterations: u64::MAX,
        milliseconds: Some(200),
    };
    for problem in [large, many] {
        let plan = solve::allocate::solve(&problem, &effort).expect("an answer");
        assert!(check(&problem, &plan).is_empty());
        assert!(plan.value <= plan.bound);
    }
}
