//! Measures the kitchen-day solver on published scheduling sets and on generated kitchen days.
//!
//! `STILLROOM_BENCH` names the folder that holds the sets (`kitchen/*.txt`, `j30/*.txt` with
//! `j30/best_known.csv`, `sample.csv`); without it nothing is measured. Arguments, all optional:
//! the sets to run (`kitchen`, `j30`, `j60`, `j120`, `rcpspmax_j10` and so on), `all` for whole sets rather
//! than the sample, and limits in milliseconds (default 200 and 1000).

use std::collections::HashMap;
use std::path::{Path, PathBuf};
use std::time::Instant;

use plan::kitchen_day::{Break, HANDS, Hold, Lag, Problem, Resource, Step, Wait, check, gap};
use solve::{Effort, kitchen_day};

/// Best known values of the generated days.
const KITCHEN: [(&str, i64); 9] = [
    ("k3_1", 2913),
    ("k3_2", 3581),
    ("k3_3", 3841),
    ("k6_1", 3519),
    ("k6_2", 3982),
    ("k6_3", 6667),
    ("k10_1", 5156),
    ("k10_2", 6985),
    ("k10_3", 9288),
];

fn main() {
    let Some(folder) = std::env::var_os("STILLROOM_BENCH") else {
        println!("STILLROOM_BENCH is not set: no benchmark folder, nothing to measure.");
        return;
    };
    let folder = PathBuf::from(folder);
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let mut limits: Vec<u64> = arguments.iter().filter_map(|a| a.parse().ok()).collect();
    if limits.is_empty() {
        limits = vec![200, 1000];
    }
    // "seed=7" chooses another seed.
    let seeds = arguments.iter().filter_map(|a| a.strip_prefix("seed="));
    let seed = seeds.filter_map(|s| s.parse().ok()).next().unwrap_or(1);
    let whole = arguments.iter().any(|a| a == "all");
    let known = [
        "kitchen",
        "j30",
        "j60",
        "j120",
        "rcpspmax_j10",
        "rcpspmax_j20",
        "rcpspmax_j30",
        "rcpspmax_ubo10",
        "rcpspmax_ubo20",
    ];
    let mut sets: Vec<&str> = known
        .into_iter()
        .filter(|set| arguments.iter().any(|a| a == set))
        .collect();
    if sets.is_empty() {
        sets = vec!["kitchen", "j30"];
    }
    for set in sets {
        match instances(&folder, set, whole) {
            Ok(list) => measure(&folder, set, &list, &limits, seed),
            Err(error) => println!("{set}: {error}"),
        }
    }
}

/// Names of a set with their best known values (`None`: known to have no schedule).
fn instances(
    folder: &Path,
    set: &str,
    whole: bool,
) -> Result<Vec<(String, Option<i64>)>, std::io::Error> {
    if set == "kitchen" {
        let days = KITCHEN.into_iter();
        return Ok(days
            .map(|(name, best)| (name.to_string(), Some(best)))
            .collect());
    }
    let mut sample: HashMap<String, ()> = HashMap::new();
    for line in std::fs::read_to_string(folder.join("sample.csv"))?.lines() {
        let mut cells = line.split(',');
        if let (Some(of), Some(name)) = (cells.next(), cells.next())
            && of == set
        {
            sample.insert(name.to_string(), ());
        }
    }
    let table = std::fs::read_to_string(folder.join(set).join("best_known.csv"))?;
    Ok(table
        .lines()
        .skip(1)
        .filter_map(|line| {
            let mut cells = line.split(',');
            let name = cells.next()?.to_string();
            let best = cells.nth(1)?.parse().ok();
            (whole || sample.contains_key(&name)).then_some((name, best))
        })
        .collect())
}

fn measure(folder: &Path, set: &str, list: &[(String, Option<i64>)], limits: &[u64], seed: u64) {
    for &limit in limits {
        println!("\n{set}, {limit} ms");
        let (mut deviations, mut gaps, mut proven, mut wrong) = (Vec::new(), Vec::new(), 0, 0);
        let mut none = 0;
        let mut firsts = Vec::new();
        for (name, best) in list {
            let path = folder.join(set).join(format!("{name}.txt"));
            let problem = match std::fs::read_to_string(&path) {
                Ok(text) => match read(&text) {
                    Some(problem) => problem,
                    None => {
                        println!("{name}: not understood");
                        continue;
                    }
                },
                Err(error) => {
                    println!("{name}: {error}");
                    continue;
                }
            };
            let begun = Instant::now();
            let mut first = None;
            let effort = Effort::milliseconds(seed, limit);
            let answer = kitchen_day::solve_watched(&problem, &effort, None, &mut |_| {
                first.get_or_insert_with(|| begun.elapsed());
                true
            });
            if let Some(first) = first {
                firsts.push(first.as_secs_f64() * 1000.0);
            }
            let took = begun.elapsed().as_millis();
            match (answer, best) {
                (Ok(timetable), Some(best)) => {
                    let breaches = check(&problem, &timetable);
                    let off = 100.0 * (timetable.value - best) as f64 / *best as f64;
                    let wrong_claim = timetable.bound > *best
                        || (timetable.proven && timetable.value > *best)
                        || !breaches.is_empty();
                    wrong += i32::from(wrong_claim);
                    proven += i32::from(timetable.proven);
                    deviations.push(off);
                    gaps.push(100.0 * gap(&timetable));
                    if set == "kitchen" || wrong_claim {
                        println!(
                            "{name}: {} (best known {best}, {off:+.2} %), bound {}, end {}, {took} ms{}{}",
                            timetable.value,
                            timetable.bound,
                            timetable.end,
                            if timetable.proven { ", proven" } else { "" },
                            if wrong_claim { ", WRONG" } else { "" },
                        );
                        for breach in breaches {
                            println!("  {} {}", breach.code, breach.text);
                        }
                    }
                }
                (Ok(_), None) => {
                    println!("{name}: a timetable where none is known to exist");
                    none += 1;
                }
                (Err(clash), Some(best)) => {
                    let wrong_claim = clash.proven;
                    wrong += i32::from(wrong_claim);
                    none += 1;
                    println!("{name}: none found, best known {best}: {clash}");
                }
                (Err(clash), None) => proven += i32::from(clash.proven),
            }
        }
        firsts.sort_by(f64::total_cmp);
        let median = firsts.get(firsts.len() / 2).copied().unwrap_or(0.0);
        let slowest = firsts.last().copied().unwrap_or(0.0);
        println!("first timetable: median {median:.2} ms, slowest {slowest:.2} ms");
        let mean = |list: &[f64]| list.iter().sum::<f64>() / list.len().max(1) as f64;
        let worst = deviations.iter().copied().fold(0.0, f64::max);
        println!(
            "{set} {limit} ms: {} days, mean {:.3} % over best known, worst {worst:.2} %, mean gap {:.2} %, proven {proven}, none found {none}, wrong {wrong}",
            list.len(),
            mean(&deviations),
            mean(&gaps)
        );
    }
}

/// Reads one file of the sets: whole numbers separated by white space.
fn read(text: &str) -> Option<Problem> {
    let mut numbers = text.split_ascii_whitespace().map(|n| n.parse::<i64>().ok());
    let mut next = || numbers.next().flatten();
    let (steps, resources, horizon) = (next()?, next()?, next()?);
    let mut problem = Problem {
        horizon,
        ..Problem::default()
    };
    for index in 0..resources {
        problem.resources.push(Resource {
            name: format!("resource {index}"),
            kind: if index == 0 { HANDS } else { "other" }.to_string(),
            capacity: next()?,
        });
    }
    for index in 0..steps {
        let mut step = Step {
            name: format!("step {index}"),
            minutes: next()?,
            unattended: true,
            ..Step::default()
        };
        for resource in 0..resources as usize {
            let amount = next()?;
            if amount > 0 {
                step.demands.push((resource, amount));
            }
        }
        problem.steps.push(step);
    }
    for _ in 0..next()? {
        let (from, to, least) = (next()? as usize, next()? as usize, next()?);
        problem.lags.push(if least >= 0 {
            Lag::at_least(from, to, least)
        } else {
            Lag::at_least(to, from, -horizon).never_more_than(-least, "benchmark")
        });
    }
    for _ in 0..next()? {
        let (resource, amount) = (next()? as usize, next()?);
        problem.holds.push(Hold {
            resource,
            amount,
            from_step: next()? as usize,
            to_step: next()? as usize,
        });
    }
    for _ in 0..next()? {
        problem.breaks.push(Break {
            resource: next()? as usize,
            amount: next()?,
            from: next()?,
            to: next()?,
        });
    }
    for _ in 0..next()? {
        problem.waits.push(Wait {
            from: next()? as usize,
            to: next()? as usize,
            points_per_minute: next()?,
        });
    }
    problem.points_per_minute = next()?;
    Some(problem)
}
