//! The day as the search sees it: steps with fixed distances joined into blocks, all distances
//! closed, every use of a resource as a claim on a minute grid.

use super::closure::Closure;

/// A stretch of one resource that a block uses, relative to the start of its head.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Segment {
    pub resource: usize,
    pub offset: i32,
    pub minutes: i32,
    pub amount: i32,
}

/// A resource kept from `start(a) + a_offset` to `start(b) + b_offset`, `a` and `b` being blocks.
#[derive(Debug, Clone, Copy)]
pub(super) struct Keep {
    pub resource: usize,
    pub amount: i32,
    pub a: usize,
    pub a_offset: i32,
    pub b: usize,
    pub b_offset: i32,
}

/// `start(to) >= start(from) + length` between the heads of two blocks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Link {
    pub from: usize,
    pub to: usize,
    pub length: i32,
}

/// `points * max(0, start(to) - start(from) + shift)`.
#[derive(Debug, Clone, Copy)]
pub(super) struct Price {
    pub from: usize,
    pub to: usize,
    pub shift: i32,
    pub points: i64,
}

/// What one block knows of another: least distance there and back.
#[derive(Debug, Clone, Copy)]
pub(super) struct Neighbour {
    pub block: usize,
    /// `start(self) >= start(block) + after`.
    pub after: i32,
    /// `start(block) >= start(self) + before`.
    pub before: i32,
}

/// A kitchen day compiled for the search.
#[derive(Debug, Clone)]
pub(super) struct Model {
    pub block_of: Vec<usize>,
    pub offset: Vec<i32>,
    pub blocks: usize,
    pub segments: Vec<Vec<Segment>>,
    pub keeps: Vec<Keep>,
    pub keeps_from: Vec<Vec<usize>>,
    pub keeps_to: Vec<Vec<usize>>,
    /// When the last step of a block ends, relative to its head.
    pub end_offset: Vec<i32>,
    pub earliest: Vec<i32>,
    pub latest: Vec<i32>,
    pub distance: Closure,
    pub neighbours: Vec<Vec<Neighbour>>,
    /// Blocks that must be placed before and after a block, without those in between.
    pub before: Vec<Vec<usize>>,
    pub after: Vec<Vec<usize>>,
    pub links: Vec<Link>,
    pub prices: Vec<Price>,
    /// Points that no start can change.
    pub constant: i64,
    pub points_per_minute: i64,
    /// Points for each minute past the finish-by while the search goes on: far above all else, so
    /// that the search first comes back within the day.
    pub late_points: i64,
    pub capacity: Vec<i32>,
    /// Free places per resource and minute when nothing is placed; breaks taken away.
    pub free: Vec<Vec<i32>>,
    /// What is missing from the capacity and when: `(from, to, amount)` per resource.
    pub away: Vec<Vec<(i32, i32, i32)>>,
    /// Minutes searched. At least as long as any sensible day.
    pub span: i32,
    /// Finish-by. Ends later than this are searched, but are no timetable.
    pub horizon: i32,
    /// Blocks whose own claims on one resource may meet, so that they must be tried as a whole.
    pub tangled: Vec<bool>,
}

impl Model {
    /// Starts of all steps from the starts of the blocks.
    pub fn step_starts(&self, starts: &[i32]) -> Vec<i64> {
        self.block_of
            .iter()
            .zip(&self.offset)
            .map(|(&block, &offset)| i64::from(starts[block] + offset))
            .collect()
    }

    /// Points of a schedule, as the problem counts them.
    pub fn cost(&self, starts: &[i32]) -> i64 {
        let mut points = self.constant + self.points_per_minute * i64::from(self.end(starts));
        for price in &self.prices {
            let minutes = starts[price.to] - starts[price.from] + price.shift;
            points += price.points * i64::from(minutes.max(0));
        }
        points
    }

    /// When the last block ends.
    pub fn end(&self, starts: &[i32]) -> i32 {
        starts
            .iter()
            .zip(&self.end_offset)
            .map(|(start, end)| start + end)
            .max()
            .unwrap_or(0)
    }

    /// Recomputes what follows from distances, claims and links.
    pub(super) fn refresh(&mut self) {
        self.keeps_from = vec![Vec::new(); self.blocks];
        self.keeps_to = vec![Vec::new(); self.blocks];
        for (index, keep) in self.keeps.iter().enumerate() {
            self.keeps_from[keep.a].push(index);
            self.keeps_to[keep.b].push(index);
        }
        for block in 0..self.blocks {
            let mut used: Vec<usize> = self.segments[block].iter().map(|s| s.resource).collect();
            used.dedup();
            let kept = self.keeps_from[block].iter().chain(&self.keeps_to[block]);
            used.extend(kept.map(|&k| self.keeps[k].resource));
            let count = used.len();
            used.sort_unstable();
            used.dedup();
            self.tangled[block] = used.len() < count;
        }
        self.away = (0..self.capacity.len())
            .map(|resource| missing(&self.free[resource], self.capacity[resource]))
            .collect();
        self.neighbours = (0..self.blocks)
            .map(|block| self.distance.neighbours(block))
            .collect();
        (self.before, self.after) = self.distance.order();
    }

    /// The same day run backwards, for shifting a schedule to the right.
    pub fn mirrored(&self) -> Model {
        let mut mirror = self.clone();
        let turn = |block: usize, start: i32| self.span - start - self.end_offset[block];
        for block in 0..self.blocks {
            mirror.earliest[block] = turn(block, self.latest[block]);
            mirror.latest[block] = turn(block, self.earliest[block]);
            for segment in &mut mirror.segments[block] {
                segment.offset = self.end_offset[block] - segment.offset - segment.minutes;
            }
            mirror.segments[block].sort_by_key(|s| (s.resource, s.offset));
        }
        for (keep, old) in mirror.keeps.iter_mut().zip(&self.keeps) {
            keep.a = old.b;
            keep.a_offset = self.end_offset[old.b] - old.b_offset;
            keep.b = old.a;
            keep.b_offset = self.end_offset[old.a] - old.a_offset;
        }
        for free in &mut mirror.free {
            free.reverse();
        }
        mirror.distance = self.distance.mirrored(&self.end_offset);
        mirror.refresh();
        mirror
    }

    /// Least minutes a resource is kept, and at least 0.
    pub fn least_kept(&self, keep: &Keep) -> i32 {
        let distance = self.distance.near(keep.a, keep.b);
        (distance + keep.b_offset - keep.a_offset).max(0)
    }
}

/// Stretches in which less than the capacity is free.
fn missing(free: &[i32], capacity: i32) -> Vec<(i32, i32, i32)> {
    let mut stretches: Vec<(i32, i32, i32)> = Vec::new();
    for (minute, free) in free.iter().enumerate() {
        let amount = capacity - free;
        let minute = minute as i32;
        match stretches
            .last_mut()
            .filter(|s| s.1 == minute && s.2 == amount)
        {
            Some(stretch) => stretch.1 += 1,
            None if amount > 0 => stretches.push((minute, minute + 1, amount)),
            None => {}
        }
    }
    stretches
}
