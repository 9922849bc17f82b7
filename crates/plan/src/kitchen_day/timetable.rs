//! The answer to a kitchen day: when each step starts, and what that costs.

use serde::{Deserialize, Serialize};

use super::problem::Problem;

/// A start for every step, with what it costs and how good it is known to be.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Timetable {
    /// Start of each step, in minutes after `Problem::day_start`.
    pub starts: Vec<i64>,
    /// When the last step ends, in minutes after `Problem::day_start`.
    pub end: i64,
    /// Points; fewer are better. See [`cost`].
    pub value: i64,
    /// No timetable can cost fewer points than this.
    pub bound: i64,
    /// Whether this timetable is known to be the best there is.
    pub proven: bool,
}

/// What a timetable costs, and for what.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Cost {
    /// When the last step ends, in minutes.
    pub end: i64,
    /// Points for the length of the day.
    pub length_points: i64,
    /// Points for waits between steps.
    pub wait_points: i64,
    /// Points for passing most times that are wishes, not safety.
    pub over_points: i64,
}

impl Cost {
    /// All points together.
    pub fn value(&self) -> i64 {
        self.length_points
            .saturating_add(self.wait_points)
            .saturating_add(self.over_points)
    }
}

/// Recomputes what the starts cost. `starts` must have one entry for each step; steps named by
/// waits and lags that do not exist are passed over (see [`super::problem_flaws`]).
pub fn cost(problem: &Problem, starts: &[i64]) -> Cost {
    let mut cost = Cost::default();
    for (step, start) in problem.steps.iter().zip(starts) {
        cost.end = cost.end.max(start.saturating_add(step.minutes));
    }
    cost.length_points = cost.end.saturating_mul(problem.points_per_minute);
    for wait in &problem.waits {
        let (Some(before), Some(from), Some(to)) = (
            problem.steps.get(wait.from),
            starts.get(wait.from),
            starts.get(wait.to),
        ) else {
            continue;
        };
        let minutes = to.saturating_sub(from.saturating_add(before.minutes));
        let points = minutes.max(0).saturating_mul(wait.points_per_minute);
        cost.wait_points = cost.wait_points.saturating_add(points);
    }
    for lag in &problem.lags {
        let (Some(max), Some(from), Some(to)) = (lag.max, starts.get(lag.from), starts.get(lag.to))
        else {
            continue;
        };
        if !lag.max_is_safety {
            let over = to.saturating_sub(from.saturating_add(max)).max(0);
            let points = over.saturating_mul(lag.points_per_minute_over);
            cost.over_points = cost.over_points.saturating_add(points);
        }
    }
    cost
}

/// How far the value may be from the best possible, as a share of the value (0 when proven).
pub fn gap(timetable: &Timetable) -> f64 {
    if timetable.proven || timetable.value <= timetable.bound {
        0.0
    } else {
        (timetable.value - timetable.bound) as f64 / timetable.value.max(1) as f64
    }
}
