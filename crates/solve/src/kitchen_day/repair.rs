//! The parts of the placement that move others: taking blocks out to mend a most time, and
//! placing first what can only start at one minute.

use super::model::Model;
use super::place::{Placer, UNPLACED};

impl Placer {
    /// A block that can only start at one minute, but finds no room there beside the others of
    /// that sort.
    pub fn fixed_clash(&mut self, model: &Model) -> Option<usize> {
        self.clear(model, 0);
        self.place_fixed(model);
        let overdrawn = self.free.iter().position(|&free| free < 0)?;
        let (resource, minute) = (overdrawn / self.span, (overdrawn % self.span) as i32);
        let covers = |from: i32, to: i32| from <= minute && minute < to;
        let uses = |block: usize| {
            let start = self.start[block];
            let own = model.segments[block].iter().any(|s| {
                let from = start + s.offset;
                s.resource == resource && covers(from, from + s.minutes)
            });
            own || model.keeps_from[block].iter().any(|&index| {
                let keep = &model.keeps[index];
                keep.resource == resource && covers(start + keep.a_offset, self.reserved_to[index])
            })
        };
        (0..model.blocks).find(|&block| self.is_placed(block) && uses(block))
    }

    /// Blocks that can only start at one minute come first. Whether they fit is for
    /// [`Placer::fixed_clash`] to say.
    pub(super) fn place_fixed(&mut self, model: &Model) {
        for block in 0..model.blocks {
            if model.earliest[block] == model.latest[block] {
                let at = model.earliest[block];
                self.start[block] = at;
                for &later in &model.after[block] {
                    self.waiting_for[later] -= 1;
                }
                for segment in &model.segments[block] {
                    let from = at + segment.offset;
                    let to = from + segment.minutes;
                    self.change(segment.resource, from, to, -segment.amount);
                }
            }
        }
        // What is kept for certain, before any keep reserves more than that.
        for (index, keep) in model.keeps.iter().enumerate() {
            if self.is_placed(keep.a) {
                let from = self.start[keep.a] + keep.a_offset;
                let to = if self.is_placed(keep.b) {
                    (self.start[keep.b] + keep.b_offset).max(from)
                } else {
                    self.open[keep.resource] += keep.amount;
                    from + model.least_kept(keep)
                };
                self.change(keep.resource, from, to, -keep.amount);
                self.reserved_to[index] = to;
            }
        }
        for (index, keep) in model.keeps.iter().enumerate() {
            if self.is_placed(keep.a) && !self.is_placed(keep.b) {
                let from = self.reserved_to[index];
                self.reserved_to[index] = self.reserve(model, index, from);
            }
        }
    }

    /// Makes room for a block that found none in its window: finds where it would go if nothing
    /// placed held it back, and takes out whatever would then have started too early.
    pub(super) fn repair(&mut self, model: &Model, block: usize, low: i32) -> bool {
        let Some(at) = self.fit(model, block, low, model.latest[block]) else {
            return false;
        };
        let mut moved = false;
        for near in &model.neighbours[block] {
            let start = self.start[near.block];
            if start != UNPLACED && start < at + near.before {
                if !self.ask_later(model, near.block, at + near.before) {
                    return false;
                }
                moved = true;
            }
        }
        for &index in &model.keeps_to[block] {
            let keep = &model.keeps[index];
            if self.is_placed(keep.a) && self.reserved_to[index] < at + keep.b_offset {
                let row = &self.free[keep.resource * self.span..][..self.span];
                let from = self.reserved_to[index] as usize;
                let gap = row[from..].iter().position(|&free| free >= keep.amount);
                let Some(gap) = gap else { return false };
                let start = (from + gap) as i32 - keep.a_offset;
                let start = start.max(self.start[keep.a] + 1);
                if !self.ask_later(model, keep.a, start) {
                    return false;
                }
                moved = true;
            }
        }
        moved
    }

    /// Takes a block out and lets it start no earlier than `start`, with all that follows from it.
    fn ask_later(&mut self, model: &Model, block: usize, start: i32) -> bool {
        if start > model.latest[block] {
            return false;
        }
        self.earliest[block] = self.earliest[block].max(start);
        if self.is_placed(block) {
            self.take_out(model, block);
        }
        for near in &model.neighbours[block] {
            let other = self.start[near.block];
            if other != UNPLACED && other < start + near.before {
                if start + near.before > model.latest[near.block] {
                    return false;
                }
                let earliest = &mut self.earliest[near.block];
                *earliest = (*earliest).max(start + near.before);
                self.take_out(model, near.block);
            }
        }
        true
    }
}
