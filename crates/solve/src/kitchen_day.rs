//! Lays out a kitchen day: from a problem to a timetable with a bound, or to the clash that
//! stands in its way.
//!
//! The steps are compiled into blocks with closed distances (`compile`, `model`, `closure`,
//! `windows`), placed serially in the order of their keys (`place`, `repair`), made as cheap as
//! that order allows (`sequence`, `timing`, `tree`), and annealed (`search`, `moves`). `exact`
//! branches on overdrawn resources: it proves small days and reorders parts of larger ones.
//! `bound` says what no timetable can beat, `run` lets all of them take turns, and `explain`,
//! `late` and `relax` turn a failure into a clash with ways out.

mod bound;
mod closure;
mod compile;
mod exact;
mod explain;
mod late;
mod model;
mod moves;
mod place;
mod relax;
mod repair;
mod run;
mod search;
mod sequence;
mod timing;
mod tree;
mod windows;

use plan::kitchen_day::{Clash, Problem, Timetable, check};

use crate::effort::Effort;
use run::Outcome;

/// Lays out a day.
///
/// The timetable has passed [`check`]. One iteration of the effort is one order of steps tried.
/// The finish-by is the problem's `horizon`.
///
/// # Errors
/// The clash, if there is no timetable or none was found within the effort. Looking for ways out
/// of a clash may use the effort a second time.
pub fn solve(problem: &Problem, effort: &Effort) -> Result<Timetable, Clash> {
    solve_watched(problem, effort, None, &mut |_| true)
}

/// Lays out a day as [`solve`] does, and shows each better timetable as it is found (before the
/// checker has seen it); `on_better` says whether to go on. `old`: the starts of an earlier
/// timetable of much the same steps, to begin from (passed over if it has another number of
/// steps).
///
/// # Errors
/// As [`solve`].
pub fn solve_watched(
    problem: &Problem,
    effort: &Effort,
    old: Option<&[i64]>,
    on_better: &mut dyn FnMut(&Timetable) -> bool,
) -> Result<Timetable, Clash> {
    if let Some(clash) = explain::at_first_sight(problem, effort) {
        return Err(clash);
    }
    if problem.steps.is_empty() {
        return Ok(Timetable {
            proven: true,
            ..Timetable::default()
        });
    }
    let old = old.filter(|starts| starts.len() == problem.steps.len());
    match run::lay_out(problem, effort, old, on_better) {
        // The checker knows nothing of the search. What it refuses must not reach a person.
        Outcome::Found(timetable) => match check(problem, &timetable).first() {
            None => Ok(timetable),
            Some(breach) => Err(explain::refused(breach)),
        },
        other => Err(explain::clash(problem, effort, &other)),
    }
}

#[cfg(test)]
mod tests;
