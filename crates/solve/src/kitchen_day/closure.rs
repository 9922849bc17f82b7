//! Least distances between all pairs: what the lags say when followed along every way.

use super::model::Neighbour;

/// No way leads from one to the other.
pub(super) const NONE: i64 = i64::MIN / 4;

/// What [`NONE`] is on the minute grid: so low that it never binds, and safe to add to.
pub(super) const FAR: i32 = -1_000_000;

/// A square of least distances: `start(to) >= start(from) + get(from, to)`.
#[derive(Debug, Clone)]
pub(super) struct Closure {
    size: usize,
    cells: Vec<i64>,
    /// First step of the longest way, to tell a contradiction by its steps.
    first: Vec<u32>,
}

impl Closure {
    pub fn new(size: usize) -> Closure {
        Closure {
            size,
            cells: vec![NONE; size * size],
            first: vec![u32::MAX; size * size],
        }
    }

    pub fn size(&self) -> usize {
        self.size
    }

    pub fn get(&self, from: usize, to: usize) -> i64 {
        self.cells[from * self.size + to]
    }

    /// The distance on the minute grid, [`FAR`] if there is none.
    pub fn near(&self, from: usize, to: usize) -> i32 {
        if from == to {
            return 0;
        }
        self.get(from, to).max(i64::from(FAR)) as i32
    }

    pub fn raise(&mut self, from: usize, to: usize, length: i64) {
        let cell = from * self.size + to;
        if length > self.cells[cell] {
            self.cells[cell] = length;
            self.first[cell] = to as u32;
        }
    }

    /// All entries as `(from, to, length)`, cut to lengths that can bind within any span.
    pub fn arcs(&self) -> Vec<(usize, usize, i64)> {
        let mut arcs = Vec::new();
        for from in 0..self.size {
            for to in 0..self.size {
                let length = self.get(from, to);
                if length > i64::from(FAR) {
                    arcs.push((from, to, length));
                }
            }
        }
        arcs
    }

    /// Follows every way. Stops early at the first contradiction, which then shows on the
    /// diagonal.
    pub fn close(&mut self) {
        let size = self.size;
        for via in 0..size {
            for from in 0..size {
                let there = self.cells[from * size + via];
                if there == NONE || from == via {
                    continue;
                }
                for to in 0..size {
                    let back = self.cells[via * size + to];
                    if back == NONE {
                        continue;
                    }
                    let cell = from * size + to;
                    if there + back > self.cells[cell] {
                        self.cells[cell] = there + back;
                        self.first[cell] = self.first[from * size + via];
                    }
                }
                if self.cells[from * size + from] > 0 {
                    return;
                }
            }
        }
    }

    /// The steps of a way from `step` back to itself, once the closure found one.
    pub fn around(&self, step: usize) -> Vec<usize> {
        let mut way = vec![step];
        let mut at = step;
        // A way is never longer than all steps; the limit guards against a torn one.
        for _ in 0..self.size {
            let next = self.first[at * self.size + step];
            if next == u32::MAX || next as usize == step {
                break;
            }
            at = next as usize;
            way.push(at);
        }
        way
    }

    /// The distances between the heads of blocks; what can never bind within `span` is dropped.
    pub fn shrink(&self, heads: &[usize], span: i64) -> Closure {
        let mut small = Closure::new(heads.len());
        for (i, &from) in heads.iter().enumerate() {
            for (j, &to) in heads.iter().enumerate() {
                let length = self.get(from, to);
                if i != j && length >= -span {
                    small.raise(i, j, length);
                }
            }
        }
        small
    }

    /// The distances of the day run backwards, between the other ends of the blocks.
    pub fn mirrored(&self, ends: &[i32]) -> Closure {
        let mut mirror = Closure::new(self.size);
        for from in 0..self.size {
            for to in 0..self.size {
                let length = self.get(to, from);
                if from != to && length > NONE {
                    mirror.raise(from, to, length + i64::from(ends[from] - ends[to]));
                }
            }
        }
        mirror
    }

    /// Everyone who has a distance to or from `block`.
    pub fn neighbours(&self, block: usize) -> Vec<Neighbour> {
        (0..self.size)
            .filter(|&other| other != block)
            .map(|other| Neighbour {
                block: other,
                after: self.near(other, block),
                before: self.near(block, other),
            })
            .filter(|n| n.after > FAR || n.before > FAR)
            .collect()
    }

    /// For each block those directly before and directly after it, where "before" means a least
    /// distance of 0 or more.
    pub fn order(&self) -> (Vec<Vec<usize>>, Vec<Vec<usize>>) {
        let size = self.size;
        let words = size.div_ceil(64);
        let mut later = vec![0u64; size * words];
        let mut sooner = vec![0u64; size * words];
        for from in 0..size {
            for to in 0..size {
                if from != to && self.get(from, to) >= 0 {
                    later[from * words + to / 64] |= 1 << (to % 64);
                    sooner[to * words + from / 64] |= 1 << (from % 64);
                }
            }
        }
        let mut before = vec![Vec::new(); size];
        let mut after = vec![Vec::new(); size];
        for from in 0..size {
            for to in 0..size {
                if from != to && self.get(from, to) >= 0 {
                    let between =
                        (0..words).any(|w| later[from * words + w] & sooner[to * words + w] != 0);
                    if !between {
                        before[to].push(from);
                        after[from].push(to);
                    }
                }
            }
        }
        (before, after)
    }
}
