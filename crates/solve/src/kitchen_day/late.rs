//! What holds after the finish-by: who is away by then has gone home and does not come back just
//! because the day gets longer.

use plan::kitchen_day::{
    Break, LARGEST_AMOUNT, Problem, Relaxation, RelaxationKind, Timetable, check, cost,
};

use crate::effort::Effort;

use super::run::{Outcome, lay_out};

/// Whether a break lasts until the finish-by: somebody leaves before the day is over.
fn is_leaving(problem: &Problem, pause: &Break) -> bool {
    pause.amount > 0 && pause.from < problem.horizon && problem.horizon <= pause.to
}

/// The breaks of those who leave before the day is over, those of one minute together.
pub(super) fn leavings(problem: &Problem) -> Vec<Break> {
    let breaks = problem.breaks.iter().copied();
    let mut all: Vec<Break> = breaks.filter(|pause| is_leaving(problem, pause)).collect();
    all.sort_by_key(|pause| (pause.resource, pause.from));
    all.dedup_by(|next, kept| {
        let together = (next.resource, next.from) == (kept.resource, kept.from);
        if together {
            kept.amount = kept.amount.saturating_add(next.amount);
        }
        together
    });
    all
}

/// The same day with nobody coming back at the finish-by.
fn staying_away(problem: &Problem) -> Problem {
    let mut away = problem.clone();
    for pause in &mut away.breaks {
        if is_leaving(problem, pause) {
            pause.to = LARGEST_AMOUNT;
        }
    }
    away
}

/// Starts that end after the finish-by without anybody coming back for it. `found`: starts that
/// may count on everyone from the finish-by on.
pub(super) fn late_starts(
    problem: &Problem,
    found: Option<&[i64]>,
    effort: &Effort,
) -> Option<Vec<i64>> {
    if let Some(found) = found
        && minutes_more(problem, found).is_some()
    {
        return Some(found.to_vec());
    }
    match lay_out(&staying_away(problem), effort, found, &mut |_| false) {
        Outcome::Late { starts, .. } => Some(starts),
        _ => None,
    }
}

/// How many minutes more the checker lets a day have these starts with, when nobody comes back.
pub(super) fn minutes_more(problem: &Problem, starts: &[i64]) -> Option<i64> {
    let mut longer = staying_away(problem);
    let timetable = priced(problem, starts);
    longer.horizon = timetable.end;
    let minutes = timetable.end - problem.horizon;
    (minutes > 0 && check(&longer, &timetable).is_empty()).then_some(minutes)
}

/// Starts as a timetable of which nothing is claimed.
fn priced(problem: &Problem, starts: &[i64]) -> Timetable {
    let cost = cost(problem, starts);
    Timetable {
        starts: starts.to_vec(),
        end: cost.end,
        value: cost.value(),
        bound: i64::MIN,
        proven: false,
    }
}

/// The way out of staying longer, for each resource of which a part leaves early.
pub(super) fn staying_on(problem: &Problem, effort: &Effort) -> Vec<Relaxation> {
    let mut resources: Vec<usize> = leavings(problem).iter().map(|b| b.resource).collect();
    resources.dedup();
    let ways = resources.into_iter().filter_map(|resource| {
        let minute = least_stay(problem, resource, effort)?;
        let name = &problem.resources[resource].name;
        Some(Relaxation {
            kind: RelaxationKind::StayUntil { resource, minute },
            text: format!("have {name} stay until {}", problem.clock(minute)),
        })
    });
    ways.collect()
}

/// The earliest minute up to which all of a resource has to stay for one timetable by the
/// finish-by; nothing if no such timetable was found.
fn least_stay(problem: &Problem, resource: usize, effort: &Effort) -> Option<i64> {
    let until = |minute: i64| {
        let mut longer = problem.clone();
        for pause in &mut longer.breaks {
            if pause.resource == resource && is_leaving(problem, pause) {
                pause.from = pause.from.max(minute);
            }
        }
        longer
    };
    let whole_day = until(problem.horizon);
    let Outcome::Found(found) = lay_out(&whole_day, effort, None, &mut |_| true) else {
        return None;
    };
    let timetable = priced(problem, &found.starts);
    let is_enough = |minute: i64| check(&until(minute), &timetable).is_empty();
    let (mut too_short, mut enough) = (0, problem.horizon);
    if !is_enough(enough) {
        return None;
    }
    // Staying longer never breaks what was kept before.
    while enough - too_short > 1 {
        let middle = too_short + (enough - too_short) / 2;
        if is_enough(middle) {
            enough = middle;
        } else {
            too_short = middle;
        }
    }
    Some(enough)
}
