//! What the two threads of a search tell each other. In the deterministic mode they stay silent,
//! so that the answer cannot depend on which of them is faster.

use std::sync::atomic::{AtomicI64, Ordering};
use std::sync::{Mutex, PoisonError};

use super::shape::SCALE;

/// The best bound and the best plan so far.
#[derive(Debug)]
pub(super) struct Talk {
    silent: bool,
    bound: AtomicI64,
    best_value: AtomicI64,
    best: Mutex<Vec<i64>>,
}

impl Talk {
    /// Begins with a known plan: batches per cell and scaled value.
    pub(super) fn new(silent: bool, known: &[i64], known_value: i64) -> Talk {
        Talk {
            silent,
            bound: AtomicI64::new(i64::MAX),
            best_value: AtomicI64::new(known_value),
            best: Mutex::new(known.to_vec()),
        }
    }

    /// Tells a bound in points.
    pub(super) fn tell_bound(&self, bound: i64) {
        if !self.silent {
            self.bound.fetch_min(bound, Ordering::Relaxed);
        }
    }

    /// Tells a plan; only a better one than those before is kept.
    pub(super) fn tell_plan(&self, batches: &[i64], value: i64) {
        if self.silent || value <= self.best_value.load(Ordering::Relaxed) {
            return;
        }
        let mut best = self.best.lock().unwrap_or_else(PoisonError::into_inner);
        // Looked at again under the lock: the other thread may have been faster.
        if value > self.best_value.load(Ordering::Relaxed) {
            best.clear();
            best.extend_from_slice(batches);
            self.best_value.store(value, Ordering::Relaxed);
        }
    }

    /// Whether the best plan is known to be the best there is.
    pub(super) fn is_settled(&self) -> bool {
        let value = self.best_value.load(Ordering::Relaxed).div_euclid(SCALE);
        !self.silent && value >= self.bound.load(Ordering::Relaxed)
    }

    /// The best plan told, if it is better than a value.
    pub(super) fn better_than(&self, value: i64) -> Option<(Vec<i64>, i64)> {
        if self.silent {
            return None;
        }
        let best = self.best.lock().unwrap_or_else(PoisonError::into_inner);
        let told = self.best_value.load(Ordering::Relaxed);
        (told > value).then(|| (best.clone(), told))
    }
}
