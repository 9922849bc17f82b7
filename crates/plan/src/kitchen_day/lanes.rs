//! Spreads a timetable over the single places of each resource: which pot, which pair of hands.

use serde::{Deserialize, Serialize};

use super::problem::Problem;
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
        for (from, to, amount, user) in claims {
            let mut left = amount;
            let mut lane = 0;
            while left > 0 {
                if lane == busy_until.len() {
                    busy_until.push(i64::MIN);
                }
                if busy_until[lane] <= from {
                    busy_until[lane] = to;
                    left -= 1;
                    uses.push(LaneUse {
                        resource,
                        lane,
                        from,
                        to,
                        user,
                    });
                }
                lane += 1;
            }
        }
    }
    uses
}
