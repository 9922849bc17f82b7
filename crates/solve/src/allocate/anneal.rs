//! Improvement by simulated annealing over whole batches.
//!
//! A move raises, lowers, shifts or swaps runs. Where the result overdraws a limit or a crop,
//! other users of that very limit or crop are lowered until it fits again. What was pushed out is
//! tried on other days and the room it left is filled, and the whole is accepted or taken back by
//! its change of value.

use super::shape::Shape;
use super::state::State;
use crate::chance::Chance;

/// At most so many other runs are lowered to make room for one move.
const EJECTIONS: usize = 5;

/// After a move, about half of all outlets are tried in the room it left, but at least so many.
const LEAST_FILLS: usize = 3;

/// Moves between two looks at the clock or the neighbour thread.
pub(super) const ROUND: u64 = 64;

/// An annealer with its best plan so far.
pub(super) struct Annealer<'a> {
    pub(super) state: State<'a>,
    chance: Chance,
    /// Cells lowered to make room during the present move.
    pushed: Vec<usize>,
    pub(super) best: Vec<i64>,
    pub(super) best_value: i64,
    /// Scaled points at which a loss is accepted with a probability of 1/e.
    temperature: f64,
    hot: f64,
    cold: f64,
}

impl<'a> Annealer<'a> {
    /// Starts from a settled state.
    pub(super) fn new(state: State<'a>, seed: u64) -> Annealer<'a> {
        let step = typical_step(state.shape);
        Annealer {
            best: state.batches.clone(),
            best_value: state.value(),
            state,
            chance: Chance::new(seed),
            pushed: Vec::new(),
            temperature: step,
            hot: step * HOT,
            cold: step * COLD,
        }
    }

    /// Sets the temperature for a share of the search done, from 0 to 1.
    pub(super) fn cool(&mut self, share: f64) {
        self.temperature = self.hot * (self.cold / self.hot).powf(share.clamp(0.0, 1.0));
    }

    /// Goes back to the best plan found.
    pub(super) fn restart_from_best(&mut self) {
        let best = std::mem::take(&mut self.best);
        self.state.load(&best);
        self.best = best;
    }

    /// Tries one move.
    pub(super) fn step(&mut self) {
        let before = self.state.value();
        if !self.propose() {
            self.state.take_back();
            return;
        }
        let change = self.state.value() - before;
        let accepted = change >= 0 || self.chance.unit() < (change as f64 / self.temperature).exp();
        if !accepted {
            self.state.take_back();
            return;
        }
        self.state.keep();
        if self.state.value() > self.best_value {
            self.best_value = self.state.value();
            self.best.copy_from_slice(&self.state.batches);
        }
    }

    /// Makes a random change and whatever it takes to fit; false when it cannot be made to fit.
    fn propose(&mut self) -> bool {
        let shape = self.state.shape;
        self.pushed.clear();
        // Nothing can be made on any day: the plan that makes nothing is the only one.
        if shape.cells.is_empty() {
            return false;
        }
        let dice = self.chance.below(100);
        let raised = if dice < 55 {
            let cell = self.any_cell();
            let to = self.raised(cell);
            if to == self.state.batches[cell] {
                return false;
            }
            self.state.set(cell, to);
            cell
        } else {
            let Some(from) = self.active_cell() else {
                return false;
            };
            let batches = self.state.batches[from];
            if dice < 65 {
                let to = self.lowered(from);
                self.state.set(from, to);
                self.pushed.push(from);
                if self.state.settle().is_err() {
                    return false;
                }
                self.place_again();
                return true;
            }
            let (outlet, day) = shape.place(from);
            let cell = if dice < 85 {
                // The same outlet on another day.
                let other = self.chance.below(shape.days);
                outlet * shape.days + other
            } else {
                // Another outlet on the same day.
                self.any_of_day(day)
            };
            if cell == from || shape.most[cell] == 0 {
                return false;
            }
            let (target, _) = shape.place(cell);
            if target == outlet {
                let moved = if self.chance.below(2) == 0 {
                    batches
                } else {
                    1
                };
                let rest = batches - moved;
                let rest = if rest < shape.outlets[outlet].least {
                    0
                } else {
                    rest
                };
                let to = self.state.batches[cell] + (batches - rest);
                self.state.set(from, rest);
                self.state.set(cell, self.clamped(cell, to));
            } else {
                let to = self.raised(cell);
                let lower = self.lowered(from);
                self.state.set(from, lower);
                self.state.set(cell, to);
            }
            cell
        };
        if !self.make_room(raised) {
            return false;
        }
        self.place_again();
        true
    }

    /// Tries to place on another day what a move has pushed out, and to fill the room it left.
    fn place_again(&mut self) {
        let shape = self.state.shape;
        let mut pushed = std::mem::take(&mut self.pushed);
        for cell in &pushed {
            let (outlet, day) = shape.place(*cell);
            let start = self.chance.below(shape.days);
            for step in 0..shape.days {
                let other = (start + step) % shape.days;
                if other != day && self.insert(outlet * shape.days + other) {
                    break;
                }
            }
        }
        let fills = (shape.outlets.len() / 2).max(LEAST_FILLS);
        for cell in &pushed {
            let (_, day) = shape.place(*cell);
            for _ in 0..fills {
                let cell = self.any_of_day(day);
                self.insert(cell);
            }
        }
        pushed.clear();
        self.pushed = pushed;
    }

    /// One step more of a cell, if it fits as things stand and gains something.
    fn insert(&mut self, cell: usize) -> bool {
        let next = super::greedy::next_step(&self.state, cell);
        if next > self.state.shape.most[cell] || !self.state.rows_allow(cell, next) {
            return false;
        }
        let before = self.state.value();
        let mark = self.state.mark();
        self.state.set(cell, next);
        if self.state.settle().is_ok() && self.state.value() > before {
            return true;
        }
        self.state.take_back_to(mark);
        false
    }

    /// Lowers other users of what a raised cell overdraws.
    fn make_room(&mut self, raised: usize) -> bool {
        let mut ejections = 0;
        while let Some((row, excess)) = self.state.overdrawn_row(raised) {
            if ejections == EJECTIONS || !self.eject_from_row(row, excess, raised) {
                return false;
            }
            ejections += 1;
        }
        while let Err((part, day)) = self.state.settle() {
            if ejections == EJECTIONS || !self.eject_from_part(part, day, raised) {
                return false;
            }
            ejections += 1;
        }
        true
    }

    /// Lowers a random other user of a row, by as much as the excess asks for.
    fn eject_from_row(&mut self, row: usize, excess: i64, spared: usize) -> bool {
        let shape = self.state.shape;
        let daily = row_day(shape, row);
        let start = daily.unwrap_or_else(|| self.chance.below(shape.days));
        let days = if daily.is_some() { 1 } else { shape.days };
        for step in 0..days {
            let day = (start + step) % shape.days;
            let found = self.pick(day, |state, cell| {
                cell != spared && state.taken(cell, row) > 0
            });
            if let Some(cell) = found {
                let taken = self.state.taken(cell, row);
                let batches = self.state.batches[cell];
                // Rounded up: at least one batch, more when a batch is smaller than the excess.
                let each = (taken / batches).max(1);
                let less = (excess + each - 1) / each;
                let to = self.floored(cell, batches - less.clamp(1, batches));
                self.state.set(cell, to);
                self.pushed.push(cell);
                return true;
            }
        }
        false
    }

    /// Lowers a random other user of a part of the supply on or before the short day.
    fn eject_from_part(&mut self, part: usize, short: usize, spared: usize) -> bool {
        let shape = self.state.shape;
        let days = short + 1;
        let start = self.chance.below(days);
        for step in 0..days {
            let day = (start + step) % days;
            let found = self.pick(day, |state, cell| {
                let (outlet, _) = state.shape.place(cell);
                cell != spared && state.shape.outlets[outlet].parts.contains(&part)
            });
            if let Some(cell) = found {
                let (outlet, _) = shape.place(cell);
                let batches = self.state.batches[cell];
                let to = if batches <= shape.outlets[outlet].least {
                    0
                } else {
                    batches - 1
                };
                self.state.set(cell, to);
                self.pushed.push(cell);
                return true;
            }
        }
        false
    }

    /// A random cell among those active on a day that pass a test.
    fn pick(&mut self, day: usize, test: impl Fn(&State, usize) -> bool) -> Option<usize> {
        let count = self.state.active(day).len();
        let start = self.chance.below(count);
        let active = self.state.active(day);
        (0..count)
            .map(|step| active[(start + step) % count])
            .find(|cell| test(&self.state, *cell))
    }

    fn any_cell(&mut self) -> usize {
        let cells = &self.state.shape.cells;
        cells[self.chance.below(cells.len())]
    }

    fn any_of_day(&mut self, day: usize) -> usize {
        let shape = self.state.shape;
        self.chance.below(shape.outlets.len()) * shape.days + day
    }

    fn active_cell(&mut self) -> Option<usize> {
        let days = self.state.shape.days;
        let start = self.chance.below(days);
        (0..days).find_map(|step| {
            let day = (start + step) % days;
            self.pick(day, |_, _| true)
        })
    }

    /// More batches for a cell: mostly one step, sometimes any number up to the most.
    fn raised(&mut self, cell: usize) -> i64 {
        let shape = self.state.shape;
        let (outlet, _) = shape.place(cell);
        let (least, most) = (shape.outlets[outlet].least, shape.most[cell]);
        let now = self.state.batches[cell];
        let to = if self.chance.below(4) < 3 {
            if now == 0 { least } else { now + 1 }
        } else {
            let span = usize::try_from(most - now.max(least - 1)).unwrap_or(0);
            now.max(least - 1) + 1 + self.chance.below(span) as i64
        };
        to.min(most)
    }

    /// Fewer batches for an active cell: one less, or none.
    fn lowered(&mut self, cell: usize) -> i64 {
        let batches = self.state.batches[cell];
        let to = if self.chance.below(2) == 0 {
            0
        } else {
            batches - 1
        };
        self.floored(cell, to)
    }

    /// Zero where fewer than the outlet's fewest would be made.
    fn floored(&self, cell: usize, batches: i64) -> i64 {
        let (outlet, _) = self.state.shape.place(cell);
        if batches < self.state.shape.outlets[outlet].least {
            0
        } else {
            batches
        }
    }

    fn clamped(&self, cell: usize, batches: i64) -> i64 {
        self.floored(cell, batches.min(self.state.shape.most[cell]))
    }
}

/// Highest and lowest temperature as shares of a typical batch's worth.
const HOT: f64 = 0.3;
const COLD: f64 = 0.015;

/// The day of a daily row.
fn row_day(shape: &Shape, row: usize) -> Option<usize> {
    let daily = (3 + shape.problem.canners.len()) * shape.days;
    (row < daily).then_some(row % shape.days)
}

/// The worth of a typical batch at its good's first step, in scaled points.
fn typical_step(shape: &Shape) -> f64 {
    let mut sum = 0.0;
    let mut count = 0.0;
    for cell in &shape.cells {
        let (index, _) = shape.place(*cell);
        let outlet = &shape.outlets[index];
        let good = outlet.good.map_or(0, |good| {
            super::state::worth(&shape.problem.goods[good].steps, outlet.yields)
        });
        let saved: f64 = outlet
            .needs
            .iter()
            .map(|(group, grams)| *grams as f64 * mean_loss(shape, *group))
            .sum();
        let gain = good as f64 * super::shape::SCALE as f64 + outlet.per_batch as f64 + saved;
        if gain > 0.0 {
            sum += gain;
            count += 1.0;
        }
    }
    if count > 0.0 {
        (sum / count).max(1.0)
    } else {
        1.0
    }
}

/// Mean cost of loss per gram, in scaled points, over the lots a group shares its part with.
fn mean_loss(shape: &Shape, group: usize) -> f64 {
    let part = &shape.supplies.parts[shape.supplies.part_of_group[group]];
    let sum: f64 = part.supplies.iter().map(|supply| supply.loss as f64).sum();
    sum / part.supplies.len().max(1) as f64
}
