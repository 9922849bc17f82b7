//! How often each step of a form is done, and which occurrences belong together.

use super::Scope;

/// Jars shared out over batches and loads, so that it is known which batch feeds which load.
#[derive(Debug, Clone)]
pub(super) struct Shares {
    /// Jars filled from each batch.
    pub batches: Vec<u32>,
    /// Jars of each load.
    pub loads: Vec<u32>,
}

impl Shares {
    /// `jars` over `batches` as evenly as whole jars go, and into loads of `capacity`.
    pub fn new(batches: u32, jars: u32, capacity: u32) -> Self {
        let batches = batches.max(1);
        let of_batch = |n: u32| {
            let upto = |n: u32| u64::from(jars) * u64::from(n) / u64::from(batches);
            u32::try_from(upto(n + 1) - upto(n)).unwrap_or(jars)
        };
        let capacity = capacity.max(1);
        let loads = jars.div_ceil(capacity);
        Self {
            batches: (0..batches).map(of_batch).collect(),
            loads: (0..loads)
                .map(|n| capacity.min(jars - n * capacity))
                .collect(),
        }
    }

    /// Occurrences of a scope. A form without a canner has no loads and fills once.
    pub fn count(&self, scope: Scope) -> usize {
        match scope {
            Scope::Batch => 1,
            Scope::FirstLoad => usize::from(!self.loads.is_empty()),
            Scope::Each => self.batches.len(),
            Scope::Load => self.loads.len().max(1),
        }
    }

    /// Jars an occurrence handles.
    pub fn jars(&self, scope: Scope, at: usize) -> u32 {
        let all = || self.batches.iter().sum();
        match scope {
            Scope::Each => self.batches.get(at).copied().unwrap_or(0),
            Scope::Load => self.loads.get(at).copied().unwrap_or_else(all),
            Scope::Batch | Scope::FirstLoad => all(),
        }
    }

    /// Which occurrences of `to` wait for which of `from`.
    pub fn pairs(&self, from: Scope, to: Scope) -> Vec<(usize, usize)> {
        let (many_from, many_to) = (self.count(from), self.count(to));
        let mut pairs = Vec::new();
        for a in 0..many_from {
            for b in 0..many_to {
                let together = match (from, to) {
                    (Scope::Each, Scope::Load) => self.meet(a, b),
                    (Scope::Load, Scope::Each) => self.meet(b, a),
                    _ if from == to => a == b,
                    _ => true,
                };
                if together {
                    pairs.push((a, b));
                }
            }
        }
        pairs
    }

    /// Does this load hold jars of this batch?
    fn meet(&self, batch: usize, load: usize) -> bool {
        if self.loads.is_empty() {
            return true;
        }
        let span = |parts: &[u32], at: usize| {
            let before: u32 = parts.iter().take(at).sum();
            (before, before + parts.get(at).copied().unwrap_or(0))
        };
        let (from, upto) = span(&self.batches, batch);
        let (start, end) = span(&self.loads, load);
        from < end && start < upto
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_jar_is_in_one_batch_and_one_load() {
        for (batches, jars, capacity) in [(1, 7, 7), (3, 11, 7), (2, 0, 7), (5, 3, 9), (4, 40, 18)]
        {
            let shares = Shares::new(batches, jars, capacity);
            assert_eq!(shares.batches.iter().sum::<u32>(), jars);
            assert_eq!(shares.loads.iter().sum::<u32>(), jars);
            assert!(shares.loads.iter().all(|load| *load <= capacity));
        }
    }

    #[test]
    fn a_load_waits_for_the_batches_whose_jars_it_holds() {
        // Three batches of 4 jars in loads of 7: the first load holds batches 0 and 1.
        let shares = Shares::new(3, 12, 7);
        let pairs = shares.pairs(Scope::Each, Scope::Load);
        assert_eq!(pairs, vec![(0, 0), (1, 0), (1, 1), (2, 1)]);
    }
}
