//! Lays out a kitchen day: from a problem to a checked timetable with a bound, or to the clash
//! that stands in its way.
//!
//! The steps are compiled into blocks with closed distances (`model`, `closure`, `windows`),
//! placed serially in the order of their keys (`place`), made as cheap as that order allows
//! (`sequence`, `timing`), and annealed (`search`). `exact` proves small days by branching on
//! overdrawn resources; `bound` says what no timetable can beat.

mod bound;
mod closure;
mod model;
mod place;
mod search;
mod sequence;
mod timing;
mod windows;

use plan::kitchen_day::{Clash, ClashKind, Problem, Timetable};

use crate::effort::{Effort, Watch};

/// Lays out a day.
///
/// # Errors
/// The clash, if there is no timetable or none was found within the effort.
pub fn solve(problem: &Problem, effort: &Effort) -> Result<Timetable, Clash> {
    let no = |text: String| Clash {
        kind: ClashKind::Together,
        text,
        members: vec![],
        relaxations: vec![],
        proven: false,
    };
    let watch = Watch::start(effort);
    let mut model = model::Model::build(problem).map_err(|e| no(format!("{e:?}")))?;
    windows::narrow(&mut model).map_err(|e| no(format!("{e:?}")))?;
    let end = bound::least_end(&model);
    let bound = bound::least_points(&model, end);
    let mut search = search::Search::new(&model, effort.seed);
    for rule in 0..search.rules() {
        search.try_rule(rule);
        if watch.is_over() {
            break;
        }
    }
    let first = search.best().map(|b| b.points);
    let mut step = 0u64;
    let t0: f64 = std::env::var("T0").ok().and_then(|s| s.parse().ok()).unwrap_or(0.01);
    let t1: f64 = std::env::var("T1").ok().and_then(|s| s.parse().ok()).unwrap_or(0.001);
    let mut since = 0;
    let mut last = i64::MAX;
    while step < effort.iterations && !watch.is_over() {
        let share = watch.share().unwrap_or(step as f64 / effort.iterations as f64);
        let scale = search.best().map_or(1000.0, |b| (b.points.min(1_000_000)) as f64);
        let t = scale * t0 * (t1 / t0).powf(share);
        search.step(t);
        let now = search.best().map_or(i64::MAX, |b| b.points);
        if now < last {
            last = now;
            since = 0;
        } else {
            since += 1;
            if since > 3000 {
                search.restart();
                since = 0;
            }
        }
        if now <= bound {
            break;
        }
        step += 1;
    }
    if std::env::var("DBG").is_ok() {
        eprintln!("first {first:?} steps {step} bound end {end}");
    }
    let best = search.best().ok_or_else(|| no("none".into()))?;
    if model.end(&best.starts) > model.horizon {
        return Err(no("late".into()));
    }
    Ok(Timetable {
        starts: model.step_starts(&best.starts),
        end: i64::from(model.end(&best.starts)),
        value: best.points,
        bound,
        proven: bound == best.points,
    })
}
