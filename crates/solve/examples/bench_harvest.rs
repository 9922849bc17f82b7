//! Plans the harvest instances in a folder and prints value, bound and gap beside the best known.
//!
//! `STILLROOM_BENCH=folder cargo run -p solve --example bench_harvest [-- name-part]`, where the
//! folder holds `harvest/*.txt`. Without the variable it says so and ends. `STILLROOM_BENCH_MS`
//! lists other time limits than the usual, `STILLROOM_BENCH_SEED` names another seed than 1.

use std::path::Path;
use std::time::Instant;

use plan::allocation::{
    ContainerLimit, DayLimit, Good, IngredientLimit, Input, Lot, Outlet, Prices, Problem, check,
    gap,
};
use solve::Effort;

/// Grams per quarter pound, as the files count; the exact figure does not matter to the search.
const UNIT: i64 = 100;

/// Best known plan and bound of each published instance.
const BEST_KNOWN: [(&str, i64, i64); 6] = [
    ("small_1", 42_540, 42_540),
    ("small_2", 53_910, 53_910),
    ("typical_1", 117_506, 117_506),
    ("typical_2", 157_031, 160_806),
    ("peak_1", 558_700, 614_362),
    ("peak_2", 507_811, 565_049),
];

fn main() {
    let Ok(folder) = std::env::var("STILLROOM_BENCH") else {
        println!("skipped: STILLROOM_BENCH does not name the folder with the instances");
        return;
    };
    let seed = std::env::var("STILLROOM_BENCH_SEED")
        .ok()
        .and_then(|seed| seed.parse().ok())
        .unwrap_or(1);
    let wanted = std::env::args().nth(1).unwrap_or_default();
    println!(
        "{:<10} {:>6} {:>8} {:>8} {:>7} {:>7} {:>9} {:>9} proven",
        "instance", "limit", "value", "bound", "gap %", "ms", "best", "of best"
    );
    for (name, best, best_bound) in BEST_KNOWN {
        if !name.contains(&wanted) {
            continue;
        }
        let path = Path::new(&folder)
            .join("harvest")
            .join(format!("{name}.txt"));
        let text = match std::fs::read_to_string(&path) {
            Ok(text) => text,
            Err(error) => {
                println!("{name}: skipped: {error}");
                continue;
            }
        };
        let Some(problem) = parse(&text) else {
            println!("{name}: skipped: the file is not as described");
            continue;
        };
        let limits = std::env::var("STILLROOM_BENCH_MS").unwrap_or("5,50,200,1000,10000".into());
        for milliseconds in limits.split(',').filter_map(|ms| ms.parse::<u64>().ok()) {
            let started = Instant::now();
            let effort = Effort::milliseconds(seed, milliseconds);
            let plan = match solve::allocate::solve(&problem, &effort) {
                Ok(plan) => plan,
                Err(reason) => {
                    println!("{name}: no plan: {reason}");
                    continue;
                }
            };
            let took = started.elapsed().as_millis();
            let breaches = check(&problem, &plan);
            println!(
                "{:<10} {:>6} {:>8} {:>8} {:>7.2} {:>7} {:>9} {:>8.2}% {}{}{}",
                name,
                milliseconds,
                plan.value,
                plan.bound,
                100.0 * gap(&plan),
                took,
                best,
                100.0 * plan.value as f64 / best as f64,
                if plan.proven { "yes" } else { "no" },
                if breaches.is_empty() {
                    ""
                } else {
                    "  REJECTED BY THE CHECKER"
                },
                if plan.bound < best || plan.value > best_bound {
                    "  WRONG BOUND"
                } else {
                    ""
                },
            );
            for breach in breaches.iter().take(3) {
                println!("    {} {}", breach.code, breach.text);
            }
        }
    }
}

/// Reads the numbers of a file one after the other.
struct Numbers<'a>(std::str::SplitWhitespace<'a>);

impl Numbers<'_> {
    fn next(&mut self) -> Option<i64> {
        self.0.next()?.parse().ok()
    }

    fn index(&mut self) -> Option<usize> {
        usize::try_from(self.next()?).ok()
    }

    fn pairs(&mut self) -> Option<Vec<(usize, i64)>> {
        let count = self.index()?;
        (0..count)
            .map(|_| Some((self.index()?, self.next()?)))
            .collect()
    }
}

fn parse(text: &str) -> Option<Problem> {
    let mut n = Numbers(text.split_whitespace());
    let [lots, outlets, days, crops, goods, jars, pantry] = [
        n.index()?,
        n.index()?,
        n.index()?,
        n.index()?,
        n.index()?,
        n.index()?,
        n.index()?,
    ];
    let lots = (0..lots)
        .map(|id| {
            let (kind, amount) = (n.index()?, n.next()?);
            let (first_day, last_day, penalty) = (n.next()?, n.next()?, n.next()?);
            Some(Lot {
                id: id as i64,
                name: format!("lot {id}"),
                kind,
                grams: amount * UNIT,
                first_day,
                last_day,
                // The penalty is per quarter pound.
                waste_points_per_kg: penalty * 1000 / UNIT,
            })
        })
        .collect::<Option<Vec<_>>>()?;
    let days = (0..days)
        .map(|_| {
            Some(DayLimit {
                hands_minutes: n.next()?,
                canner_loads: vec![n.next()?],
                freeze_grams: n.next()?,
                dryer_trays: 0,
            })
        })
        .collect::<Option<Vec<_>>>()?;
    let containers = (0..jars)
        .map(|size| {
            Some(ContainerLimit {
                name: format!("size {size}"),
                available: n.next()?,
            })
        })
        .collect::<Option<Vec<_>>>()?;
    let freezer_room_ml = n.next()?;
    let ingredients = (0..pantry)
        .map(|ingredient| {
            Some(IngredientLimit {
                name: format!("ingredient {ingredient}"),
                available: n.next()?,
                unit: "units".to_string(),
            })
        })
        .collect::<Option<Vec<_>>>()?;
    let outlets = (0..outlets)
        .map(|outlet| parse_outlet(&mut n, outlet))
        .collect::<Option<Vec<_>>>()?;
    let goods = (0..goods)
        .map(|good| {
            let steps = n.pairs()?;
            Some(Good {
                name: format!("good {good}"),
                unit: "unit".to_string(),
                steps: steps.into_iter().map(|(u, v)| (u as i64, v)).collect(),
            })
        })
        .collect::<Option<Vec<_>>>()?;
    Some(Problem {
        first_day: jiff_day(),
        days,
        classes: (0..crops).map(|crop| format!("crop {crop}")).collect(),
        lots,
        outlets,
        containers,
        ingredients,
        freezer_room_ml,
        canners: vec!["canner".to_string()],
        goods,
        prices: Prices {
            points_per_hour: 0,
            points_per_batch_day: 2,
            points_per_setup_minute: 30,
        },
    })
}

fn parse_outlet(n: &mut Numbers, index: usize) -> Option<Outlet> {
    let (good, yields) = (n.index()?, n.next()?);
    let (min_per_day, max_per_day) = (n.next()?, n.next()?);
    let (setup_minutes, minutes_per_batch, loads) = (n.next()?, n.next()?, n.next()?);
    let (jar, jar_count) = (n.next()?, n.next()?);
    let (freezer_ml, freeze_grams) = (n.next()?, n.next()?);
    let inputs = n.pairs()?;
    let ingredients = n.pairs()?;
    Some(Outlet {
        key: format!("outlet-{index}"),
        name: format!("outlet {index}"),
        route: String::new(),
        good: Some(good),
        yields,
        inputs: inputs
            .into_iter()
            .map(|(crop, grams)| Input {
                classes: vec![crop],
                grams: grams * UNIT,
            })
            .collect(),
        min_per_day,
        max_per_day,
        setup_minutes,
        minutes_per_batch,
        canner: Some(0),
        loads_hundredths: loads * 100,
        containers: usize::try_from(jar)
            .ok()
            .map(|jar| (jar, jar_count))
            .into_iter()
            .collect(),
        ingredients,
        freezer_ml,
        freeze_grams,
        dryer_trays: 0,
        days_allowed: None,
        value_points: 0,
    })
}

/// Any first day; the instances have no calendar.
fn jiff_day() -> jiff::civil::Date {
    jiff::civil::Date::constant(2031, 9, 1)
}
