//! How long a solver may try: a fixed number of steps (the same answer every time) or a clock.

use std::time::{Duration, Instant};

/// The effort a caller grants one call of a solver.
///
/// With `milliseconds: None` only `iterations` counts and the answer is the same byte for byte
/// for the same problem and seed. With `milliseconds` the first of the two limits that is reached
/// ends the search, and the answer depends on the speed of the machine.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Effort {
    /// Seed of the search; any number.
    pub seed: u64,
    /// Most improvement steps tried. Zero still gives a first plan.
    pub iterations: u64,
    /// Wall-clock limit in milliseconds for the whole call.
    pub milliseconds: Option<u64>,
}

impl Effort {
    /// A fixed number of steps: the same answer every time.
    pub fn steps(seed: u64, iterations: u64) -> Effort {
        Effort {
            seed,
            iterations,
            milliseconds: None,
        }
    }

    /// A wall-clock limit and no limit on steps.
    pub fn milliseconds(seed: u64, milliseconds: u64) -> Effort {
        Effort {
            seed,
            iterations: u64::MAX,
            milliseconds: Some(milliseconds),
        }
    }
}

/// Counts the time of one call. In the deterministic mode it never reads a clock.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Watch {
    started: Option<(Instant, Duration)>,
}

impl Watch {
    /// Starts counting if the effort names milliseconds.
    pub(crate) fn start(effort: &Effort) -> Watch {
        Watch {
            started: effort
                .milliseconds
                .map(|ms| (Instant::now(), Duration::from_millis(ms))),
        }
    }

    /// Whether the time is up; never in the deterministic mode.
    pub(crate) fn is_over(&self) -> bool {
        self.left().is_some_and(|left| left.is_zero())
    }

    /// What is left of the time; `None` in the deterministic mode.
    pub(crate) fn left(&self) -> Option<Duration> {
        self.started
            .map(|(at, limit)| limit.saturating_sub(at.elapsed()))
    }

    /// Share of the time used, from 0 to 1; `None` in the deterministic mode.
    pub(crate) fn share(&self) -> Option<f64> {
        self.started.map(|(at, limit)| {
            if limit.is_zero() {
                1.0
            } else {
                (at.elapsed().as_secs_f64() / limit.as_secs_f64()).min(1.0)
            }
        })
    }
}
