//! Looks for what would make a day possible that has no timetable.

use plan::kitchen_day::{Problem, Relaxation, RelaxationKind, check};

use crate::effort::{Effort, Watch};

use super::explain::{no_such_resource, nobody_there};
use super::late::{late_starts, minutes_more, staying_on};
use super::run::{Outcome, lay_out};

/// What would help: more minutes (`late`: starts already found that end after the finish-by), who
/// leaves staying longer, more of one resource, or one batch less. Only what the checker accepts a timetable for is named.
pub(super) fn ways_out(
    problem: &Problem,
    effort: &Effort,
    late: Option<Vec<i64>>,
) -> Vec<Relaxation> {
    let quick = quick(effort);
    let watch = Watch::start(effort);
    let mut ways = Vec::new();
    let possible = |problem: &Problem| {
        at_all(problem)
            && (problem.steps.is_empty()
                || match lay_out(problem, &quick, None, &mut |_| false) {
                    Outcome::Found(timetable) => check(problem, &timetable).is_empty(),
                    _ => false,
                })
    };
    let late = late.or_else(|| {
        let look = at_all(problem).then(|| late_starts(problem, None, &quick));
        look.flatten()
    });
    if let Some(minutes) = late.and_then(|starts| minutes_more(problem, &starts)) {
        let end = problem.horizon + minutes;
        ways.push(Relaxation {
            kind: RelaxationKind::MoreMinutes(minutes),
            text: format!("finish {minutes} minutes later, at {}", problem.clock(end)),
        });
    }
    if at_all(problem) {
        ways.extend(staying_on(problem, &quick));
    }
    for resource in 0..problem.resources.len() {
        if watch.is_over() {
            break;
        }
        let there = &problem.resources[resource];
        let amount = (most_asked(problem, resource) - there.capacity).max(1);
        let mut more = problem.clone();
        more.resources[resource].capacity += amount;
        if possible(&more) {
            ways.push(Relaxation {
                kind: RelaxationKind::MoreOf { resource, amount },
                text: format!(
                    "have {} {} instead of {}",
                    there.capacity + amount,
                    there.name,
                    match there.capacity {
                        0 => "none".to_string(),
                        there => there.to_string(),
                    }
                ),
            });
        }
    }
    let mut batches: Vec<&str> = Vec::new();
    for step in &problem.steps {
        if !step.batch.is_empty() && !batches.contains(&step.batch.as_str()) {
            batches.push(&step.batch);
        }
    }
    for batch in batches.iter().filter(|_| batches.len() > 1) {
        if watch.is_over() {
            break;
        }
        if possible(&without_batch(problem, batch)) {
            ways.push(Relaxation {
                kind: RelaxationKind::LeaveOut((*batch).to_string()),
                text: format!("leave {batch} for another day"),
            });
        }
    }
    ways
}

/// Whether the day passes the looks that need no search, finish-by apart.
fn at_all(problem: &Problem) -> bool {
    no_such_resource(problem).is_none() && nobody_there(problem).is_none()
}

fn most_asked(problem: &Problem, resource: usize) -> i64 {
    let steps = problem.steps.iter().map(|step| {
        let of = step.demands.iter().filter(|d| d.0 == resource);
        of.map(|d| d.1).sum::<i64>()
    });
    let holds = problem.holds.iter().filter(|h| h.resource == resource);
    steps.chain(holds.map(|h| h.amount)).max().unwrap_or(0)
}

/// The same day without one batch.
fn without_batch(problem: &Problem, batch: &str) -> Problem {
    let mut kept = Vec::new();
    let mut place = vec![None; problem.steps.len()];
    for (index, step) in problem.steps.iter().enumerate() {
        if step.batch != batch {
            place[index] = Some(kept.len());
            kept.push(step.clone());
        }
    }
    let mut rest = problem.clone();
    rest.steps = kept;
    let pair = |from: usize, to: usize| Some((place[from]?, place[to]?));
    rest.lags.retain_mut(|lag| match pair(lag.from, lag.to) {
        Some(ends) => {
            (lag.from, lag.to) = ends;
            true
        }
        None => false,
    });
    rest.holds
        .retain_mut(|hold| match pair(hold.from_step, hold.to_step) {
            Some(ends) => {
                (hold.from_step, hold.to_step) = ends;
                true
            }
            None => false,
        });
    rest.waits
        .retain_mut(|wait| match pair(wait.from, wait.to) {
            Some(ends) => {
                (wait.from, wait.to) = ends;
                true
            }
            None => false,
        });
    rest
}

/// A small part of an effort, for one question.
pub(super) fn quick(effort: &Effort) -> Effort {
    Effort {
        seed: effort.seed,
        iterations: (effort.iterations / 10).clamp(1, 300),
        milliseconds: effort.milliseconds.map(|all| (all / 10).max(2)),
    }
}
