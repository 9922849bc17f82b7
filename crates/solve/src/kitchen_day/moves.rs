//! The ways in which annealing changes an order: one block, a short while, a batch, two batches.

use super::search::{FINE, Search};

/// Beyond all keys of a day.
const FAR_KEY: i32 = 1_000_000;

impl Search<'_> {
    /// Mostly, blocks are wished to start where their keys say rather than as early as they can:
    /// a start that was delayed to save waits then stays delayed. Sometimes the blocks that moved
    /// are placed after, seldom before all others.
    pub(super) fn wish(&mut self) {
        let Some(current) = &self.current else { return };
        if self.model.prices.is_empty() || self.chance.below(100) >= 80 {
            return;
        }
        for (wish, key) in self.placer.wish.iter_mut().zip(&self.keys) {
            *wish = key / FINE;
        }
        let put_off = match self.chance.below(100) {
            0..=4 => -FAR_KEY,
            5..=49 => FAR_KEY,
            _ => return,
        };
        for (key, start) in self.keys.iter_mut().zip(&current.starts) {
            if *key != start * FINE {
                *key += put_off;
            }
        }
    }

    /// Changes the keys in one of the ways below.
    pub(super) fn propose(&mut self) {
        let kinds = if self.groups.len() > 1 { 20 } else { 10 };
        match self.chance.below(kinds) {
            0..=7 => self.move_one(),
            8..=9 => self.shake_a_while(),
            10..=13 => self.shift_group(),
            14..=17 => self.swap_groups(),
            _ => self.reinsert_group(),
        }
    }

    /// Moves one block a few places in the order, and takes along whoever must stay before or
    /// after it.
    fn move_one(&mut self) {
        let model = self.model;
        let starts = &self.keys;
        self.ranks
            .sort_unstable_by_key(|&block| (starts[block], block));
        let rank = self.chance.below(model.blocks);
        let block = self.ranks[rank];
        let mut far = 1;
        while far < model.blocks && self.chance.below(4) > 0 {
            far += 1;
        }
        if self.chance.below(2) == 0 {
            let goal = self.keys[self.ranks[rank.saturating_sub(far)]] - 1;
            self.keys[block] = self.keys[block].min(goal);
            let goal = self.keys[block];
            for near in model.neighbours[block].iter().filter(|n| n.after >= 0) {
                let key = &mut self.keys[near.block];
                *key = (*key).min(goal - 1 - near.after.min(30) * FINE / 2);
            }
        } else {
            let goal = self.keys[self.ranks[(rank + far).min(model.blocks - 1)]] + 1;
            self.keys[block] = self.keys[block].max(goal);
            let goal = self.keys[block];
            for near in model.neighbours[block].iter().filter(|n| n.before >= 0) {
                let key = &mut self.keys[near.block];
                *key = (*key).max(goal + 1);
            }
        }
    }

    /// Shuffles whatever starts within a short while.
    fn shake_a_while(&mut self) {
        let middle = self.keys[self.chance.below(self.model.blocks)];
        let width = (5 + self.chance.below(60) as i32) * FINE;
        for key in &mut self.keys {
            if (*key - middle).abs() <= width {
                *key += self.chance.below(width as usize) as i32 - width / 2;
            }
        }
    }

    /// Moves a batch, or the later part of it, a while earlier or later in the order.
    fn shift_group(&mut self) {
        let block = self.chance.below(self.model.blocks);
        let from = match self.chance.below(2) {
            0 => i32::MIN,
            _ => self.keys[block],
        };
        let by = (self.chance.below(181) as i32 - 90) * FINE;
        for &other in &self.groups[self.group_of[block]] {
            if self.keys[other] >= from {
                self.keys[other] += by;
            }
        }
    }

    /// Lets a batch, or the later part of it, begin at another time of the day.
    fn reinsert_group(&mut self) {
        let Some(current) = &self.current else { return };
        let end = self.model.end(&current.starts).max(1) as usize;
        let at = self.chance.below(end) as i32 * FINE * 2 / 3;
        let group = &self.groups[self.chance.below(self.groups.len())];
        let from = match self.chance.below(2) {
            0 => i32::MIN,
            _ => self.keys[group[self.chance.below(group.len())]],
        };
        for &block in group {
            if self.keys[block] >= from {
                self.keys[block] = at + self.model.earliest[block] * FINE + 1;
            }
        }
    }

    /// Lets two batches change places.
    fn swap_groups(&mut self) {
        let one = self.chance.below(self.groups.len());
        let two = self.chance.below(self.groups.len());
        let begin = |group: &Vec<usize>, keys: &[i32]| {
            group.iter().map(|&block| keys[block]).min().unwrap_or(0)
        };
        let by = begin(&self.groups[two], &self.keys) - begin(&self.groups[one], &self.keys);
        for &block in &self.groups[one] {
            self.keys[block] += by;
        }
        for &block in &self.groups[two] {
            self.keys[block] -= by;
        }
    }
}
