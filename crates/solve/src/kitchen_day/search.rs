//! Searches the order in which blocks are placed: priority rules first, then annealing. Each
//! order is placed serially, and the schedule's starts are then made as cheap as its sequence
//! allows.

use crate::chance::Chance;

use super::exact::Exact;
use super::model::Model;
use super::place::Placer;
use super::sequence::Sequence;
use super::timing::Timing;

/// A schedule of blocks with its points; ends past the finish-by count `Model::late_points` a minute.
#[derive(Debug, Clone)]
pub(super) struct Schedule {
    pub starts: Vec<i32>,
    pub points: i64,
}

/// The state of one annealing run.
pub(super) struct Search<'m> {
    pub(super) model: &'m Model,
    mirror: Model,
    pub(super) placer: Placer,
    mirror_placer: Placer,
    timing: Timing,
    sequence: Sequence,
    pub(super) chance: Chance,
    /// Connected blocks: usually one batch each.
    pub(super) groups: Vec<Vec<usize>>,
    pub(super) group_of: Vec<usize>,
    pub(super) current: Option<Schedule>,
    best: Option<Schedule>,
    pub(super) keys: Vec<i32>,
    pub(super) ranks: Vec<usize>,
    starts: Vec<i32>,
}

/// Keys are starts times this, so that there is room between two of them.
pub(super) const FINE: i32 = 4;

impl<'m> Search<'m> {
    pub fn new(model: &'m Model, seed: u64) -> Search<'m> {
        let mirror = model.mirrored();
        let (groups, group_of) = groups(model);
        Search {
            placer: Placer::new(model),
            mirror_placer: Placer::new(&mirror),
            timing: Timing::new(model, false, 0),
            sequence: Sequence::default(),
            chance: Chance::new(seed),
            groups,
            group_of,
            current: None,
            best: None,
            keys: vec![0; model.blocks],
            ranks: (0..model.blocks).collect(),
            starts: vec![0; model.blocks],
            mirror,
            model,
        }
    }

    /// The best schedule so far, which may end past the finish-by.
    pub fn best(&self) -> Option<&Schedule> {
        self.best.as_ref()
    }

    /// Whether the best schedule keeps to the finish-by.
    pub fn is_in_time(&self) -> bool {
        self.best
            .as_ref()
            .is_some_and(|best| self.model.end(&best.starts) <= self.model.horizon)
    }

    /// Takes a schedule found elsewhere (it must keep every distance and resource).
    pub fn adopt(&mut self, starts: &[i32]) {
        self.starts.copy_from_slice(starts);
        let points = self.polish();
        self.keep(points);
        self.settle(points);
    }

    /// Places the blocks by the priority rule with this number; there are [`Search::rules`].
    pub fn try_rule(&mut self, rule: usize) {
        let model = self.model;
        for block in 0..model.blocks {
            let (early, late) = (model.earliest[block], model.latest[block]);
            self.keys[block] = match rule {
                0 => late,
                1 => early,
                2 => late + model.end_offset[block],
                3 => early + late,
                _ => 0,
            };
        }
        if rule >= 4 {
            self.batches_one_by_one();
        }
        if let Some(points) = self.evaluate() {
            self.keep(points);
            self.settle_if_better(points);
            self.shuttle();
        }
    }

    /// Places the blocks as near to these starts of steps as they can be, and keeps the result if
    /// it is the best: a good beginning when an older timetable is known.
    pub fn try_starts(&mut self, steps: &[i64]) {
        for (step, &block) in self.model.block_of.iter().enumerate() {
            let start = steps[step].clamp(0, i64::from(self.model.span)) as i32;
            self.placer.wish[block] = start - self.model.offset[step];
            self.keys[block] = self.placer.wish[block] * FINE;
        }
        let points = self.evaluate();
        self.placer.wish.fill(0);
        if let Some(points) = points {
            self.keep(points);
            self.settle_if_better(points);
        }
    }

    /// How many priority rules there are for this model.
    pub fn rules(&self) -> usize {
        4 + if self.groups.len() > 1 {
            self.groups.len().min(8)
        } else {
            4
        }
    }

    /// Lines the batches up in a random order, each a random while after the one before.
    fn batches_one_by_one(&mut self) {
        let mut order: Vec<usize> = (0..self.groups.len()).collect();
        for index in (1..order.len()).rev() {
            order.swap(index, self.chance.below(index + 1));
        }
        let gap = 20 + self.chance.below(120) as i32;
        let mut offset = 0;
        for group in order {
            for &block in &self.groups[group] {
                let noise = self.chance.below(30) as i32;
                self.keys[block] = self.model.earliest[block] + offset + noise;
            }
            offset += gap;
        }
    }

    /// Shifts the current schedule to and fro for as long as that makes it cheaper.
    fn shuttle(&mut self) {
        for _ in 0..2 {
            let Some(current) = &self.current else { return };
            let before = current.points;
            self.starts.copy_from_slice(&current.starts);
            let Some(points) = self.there_and_back() else {
                return;
            };
            self.keep(points);
            self.settle_if_better(points);
            if points >= before {
                return;
            }
        }
    }

    /// Shifts the schedule in `starts` to the right against its end, then to the left: a shorter
    /// day, often.
    fn there_and_back(&mut self) -> Option<i64> {
        let floor = self.model.span - self.model.end(&self.starts);
        for block in 0..self.model.blocks {
            self.keys[block] = -(self.starts[block] + self.model.end_offset[block]);
        }
        let placed = self
            .mirror_placer
            .place_all(&self.mirror, &self.keys, floor);
        if !placed {
            return None;
        }
        for block in 0..self.model.blocks {
            let turned = self.mirror_placer.start[block] + self.model.end_offset[block];
            self.keys[block] = (self.model.span - turned) * FINE;
        }
        self.evaluate()
    }

    /// One step of annealing at a temperature in points.
    pub fn step(&mut self, temperature: f64) {
        let Some(current) = &self.current else {
            // Nothing placed yet: any order will do.
            self.batches_one_by_one();
            if let Some(points) = self.evaluate() {
                self.keep(points);
                self.settle(points);
            }
            return;
        };
        let points = current.points;
        for (key, start) in self.keys.iter_mut().zip(&current.starts) {
            *key = start * FINE;
        }
        self.propose();
        self.wish();
        let new = self.evaluate();
        self.placer.wish.fill(0);
        let Some(mut new) = new else { return };
        if self.model.prices.is_empty() {
            // Only the end counts: what the right-hand and left-hand shifts gain comes cheap.
            self.keep(new);
            match self.there_and_back() {
                Some(points) => new = points,
                None => return,
            }
        }
        self.keep(new);
        let worse = (new - points) as f64;
        if worse <= 0.0 || self.chance.unit() < (-worse / temperature.max(1e-9)).exp() {
            self.settle(new);
        }
    }

    /// Frees a few blocks (two batches, or what starts about the same time) and searches all their
    /// orders exactly while the others keep theirs; gives up after `nodes` nodes.
    pub fn reorder_some(&mut self, exact: &mut Exact<'m>, nodes: u64) {
        let from_best = self.chance.below(2) == 0;
        let base = if from_best { &self.best } else { &self.current };
        let Some(base) = base.clone() else { return };
        let mut free = vec![false; self.model.blocks];
        if self.groups.len() > 2 && self.chance.below(2) == 0 {
            for _ in 0..2 {
                for &block in &self.groups[self.chance.below(self.groups.len())] {
                    free[block] = true;
                }
            }
        } else {
            let middle = base.starts[self.chance.below(self.model.blocks)];
            self.ranks
                .sort_unstable_by_key(|&block| ((base.starts[block] - middle).abs(), block));
            let few = 8 + self.chance.below(16);
            for &block in self.ranks.iter().take(few) {
                free[block] = true;
            }
        }
        self.sequence.read_without(self.model, &base.starts, &free);
        exact.begin_within(&self.sequence);
        let before = base.points;
        let mut found = Some(base);
        exact.run(nodes, &mut found);
        if let Some(found) = found.filter(|found| found.points < before) {
            self.adopt(&found.starts);
        }
    }

    /// Returns to the best schedule.
    pub fn restart(&mut self) {
        self.current.clone_from(&self.best);
    }

    /// Places the blocks by the keys; the schedule is then in `starts`.
    fn evaluate(&mut self) -> Option<i64> {
        if !self.placer.place_all(self.model, &self.keys, 0) {
            return None;
        }
        self.starts.copy_from_slice(&self.placer.start);
        Some(self.polish())
    }

    /// Makes the starts as cheap as their sequence allows.
    fn polish(&mut self) -> i64 {
        if !self.model.prices.is_empty() {
            self.sequence.read(self.model, &self.starts);
            self.timing.reset();
            self.timing.add_sequence(&self.sequence);
            self.timing.improve(self.model, &mut self.starts);
        }
        let late = self.model.end(&self.starts) - self.model.horizon;
        self.model.cost(&self.starts) + self.model.late_points * i64::from(late.max(0))
    }

    fn keep(&mut self, points: i64) {
        if self.best.as_ref().is_none_or(|best| points < best.points) {
            self.best = Some(Schedule {
                starts: self.starts.clone(),
                points,
            });
        }
    }

    fn settle(&mut self, points: i64) {
        match &mut self.current {
            Some(current) => {
                current.starts.copy_from_slice(&self.starts);
                current.points = points;
            }
            None => {
                self.current = Some(Schedule {
                    starts: self.starts.clone(),
                    points,
                });
            }
        }
    }

    fn settle_if_better(&mut self, points: i64) {
        if self.current.as_ref().is_none_or(|c| points < c.points) {
            self.settle(points);
        }
    }
}

/// Blocks joined by distances.
fn groups(model: &Model) -> (Vec<Vec<usize>>, Vec<usize>) {
    let mut group_of = vec![usize::MAX; model.blocks];
    let mut groups: Vec<Vec<usize>> = Vec::new();
    for first in 0..model.blocks {
        if group_of[first] != usize::MAX {
            continue;
        }
        let mut group = vec![first];
        group_of[first] = groups.len();
        let mut at = 0;
        while at < group.len() {
            for near in &model.neighbours[group[at]] {
                if group_of[near.block] == usize::MAX {
                    group_of[near.block] = groups.len();
                    group.push(near.block);
                }
            }
            at += 1;
        }
        groups.push(group);
    }
    (groups, group_of)
}
