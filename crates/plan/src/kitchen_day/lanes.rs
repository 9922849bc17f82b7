//! Spreads a timetable over the single places of each resource: which pot, which pair of hands.

use serde::{Deserialize, Serialize};

use super::problem::{HANDS, Problem};
use super::timetable::Timetable;

/// One place of a resource in use for a while: one bar of the lane chart.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct LaneUse {
    /// Index of the resource.
    pub resource: usize,
    /// Which of its places, from 0. At least the capacity if the timetable breaks the limit.
    pub lane: usize,
    /// First minute in use, after `Problem::day_start`.
    pub from: i64,
    /// First minute free again.
    pub to: i64,
    /// What uses it.
    pub user: LaneUser,
}

/// What keeps a place of a resource.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum LaneUser {
    /// A step (index into `Problem::steps`).
    Step(usize),
    /// A hold (index into `Problem::holds`).
    Hold(usize),
    /// A break (index into `Problem::breaks`).
    Break(usize),
}

/// Every use of every resource, each on a place of its own; sorted by resource, start and lane.
/// Expects a problem without flaws and a timetable with a start for each step.
pub fn lanes(problem: &Problem, timetable: &Timetable) -> Vec<LaneUse> {
    let starts = &timetable.starts;
    let mut uses = Vec::new();
    for resource in 0..problem.resources.len() {
        // (from, to, places, user); breaks first, so that the same places rest in each break.
        let mut claims: Vec<(i64, i64, i64, LaneUser)> = Vec::new();
        for (index, pause) in problem.breaks.iter().enumerate() {
            if pause.resource == resource {
                let amount = pause.amount.min(problem.resources[resource].capacity);
                claims.push((pause.from, pause.to, amount, LaneUser::Break(index)));
            }
        }
        for (index, (step, &start)) in problem.steps.iter().zip(starts).enumerate() {
            for &(used, amount) in &step.demands {
                if used == resource {
                    let end = start.saturating_add(step.minutes);
                    claims.push((start, end, amount, LaneUser::Step(index)));
                }
            }
        }
        for (index, hold) in problem.holds.iter().enumerate() {
            if let (true, Some(&from), Some(&last), Some(step)) = (
                hold.resource == resource,
                starts.get(hold.from_step),
                starts.get(hold.to_step),
                problem.steps.get(hold.to_step),
            ) {
                let to = last.saturating_add(step.minutes);
                claims.push((from, to, hold.amount, LaneUser::Hold(index)));
            }
        }
        claims.retain(|claim| claim.0 < claim.1);
        claims.sort_by_key(|claim| claim.0);
        let mut busy_until: Vec<i64> = Vec::new();
        for run in runs(problem, resource, &claims) {
            let (Some(first), Some(last)) = (run.first(), run.last()) else {
                continue;
            };
            let mut left = first.2;
            let mut lane = 0;
            while left > 0 {
                if lane == busy_until.len() {
                    busy_until.push(i64::MIN);
                }
                if busy_until[lane] <= first.0 {
                    busy_until[lane] = last.1;
                    left -= 1;
                    uses.extend(run.iter().map(|&(from, to, _, user)| LaneUse {
                        resource,
                        lane,
                        from,
                        to,
                        user,
                    }));
                }
                lane += 1;
            }
        }
    }
    uses.sort_by_key(|used| (used.resource, used.from, used.lane));
    uses
}

/// A claim on some places of one resource: from, to, how many, for whom.
type Claim = (i64, i64, i64, LaneUser);

/// Claims that keep their place together: a step that begins the minute the step before it ends
/// stays on the same burner, because nobody moves a full canner that is steaming. Joining what
/// touches never needs a place more: at each minute as many are taken as before. Hands may
/// change: who is free takes over.
fn runs(problem: &Problem, resource: usize, claims: &[Claim]) -> Vec<Vec<Claim>> {
    let stays = problem.resources[resource].kind != HANDS;
    let mut runs: Vec<Vec<Claim>> = Vec::new();
    for &claim in claims {
        let (from, _, amount, user) = claim;
        let before = runs.iter_mut().find(|run| {
            run.last().is_some_and(|&(_, ended, held, earlier)| {
                stays && ended == from && held == amount && follows(problem, earlier, user)
            })
        });
        match before {
            Some(run) => run.push(claim),
            None => runs.push(vec![claim]),
        }
    }
    runs
}

/// Whether one step is tied to come after another of its batch.
fn follows(problem: &Problem, earlier: LaneUser, later: LaneUser) -> bool {
    let (LaneUser::Step(earlier), LaneUser::Step(later)) = (earlier, later) else {
        return false;
    };
    problem.steps[earlier].batch == problem.steps[later].batch
        && problem
            .lags
            .iter()
            .any(|lag| lag.from == earlier && lag.to == later)
}
