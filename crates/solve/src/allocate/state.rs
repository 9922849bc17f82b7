//! A set of runs under change: what it draws, what it is worth, and the way back.

use super::shape::{SCALE, Shape};
use super::supply::{Fed, Flow, Scratch};

/// Batches per cell with everything that follows from them kept up to date.
#[derive(Debug, Clone)]
pub(super) struct State<'a> {
    pub(super) shape: &'a Shape<'a>,
    /// Batches per cell.
    pub(super) batches: Vec<i64>,
    /// Used per row.
    pub(super) used: Vec<i64>,
    /// Units made per good.
    units: Vec<i64>,
    /// Grams needed per group of classes and day.
    need: Vec<i64>,
    /// Scaled points saved per part of the supply, as last judged.
    saved: Vec<i64>,
    stale: Vec<bool>,
    /// Scaled points of everything but waste.
    points: i64,
    saved_in_all: i64,
    /// Cells with batches, per day, and the position of each cell in its list.
    active: Vec<Vec<usize>>,
    position: Vec<usize>,
    undo: Vec<Undo>,
    scratch: Scratch,
}

/// One step back.
#[derive(Debug, Clone, Copy)]
enum Undo {
    Batches { cell: usize, before: i64 },
    Saved { part: usize, before: i64 },
}

const NOWHERE: usize = usize::MAX;

impl<'a> State<'a> {
    /// No runs at all.
    pub(super) fn new(shape: &'a Shape<'a>) -> State<'a> {
        let parts = shape.supplies.parts.len();
        State {
            shape,
            batches: vec![0; shape.most.len()],
            used: vec![0; shape.rows.len()],
            units: vec![0; shape.problem.goods.len()],
            need: vec![0; shape.supplies.part_of_group.len() * shape.days],
            saved: vec![0; parts],
            stale: vec![false; parts],
            points: 0,
            saved_in_all: 0,
            active: vec![Vec::new(); shape.days],
            position: vec![NOWHERE; shape.most.len()],
            undo: Vec::new(),
            scratch: Scratch::default(),
        }
    }

    /// A settled state with these batches, if they keep every limit and the lots can feed them.
    pub(super) fn judged(shape: &'a Shape<'a>, batches: &[i64]) -> Option<State<'a>> {
        let mut state = State::new(shape);
        for (cell, count) in batches.iter().enumerate() {
            let (outlet, _) = shape.place(cell);
            let least = shape.outlets[outlet].least;
            let within = *count == 0 || (least..=shape.most[cell]).contains(count);
            if !within || !state.rows_allow(cell, *count) {
                return None;
            }
            state.set(cell, *count);
        }
        state.settle().ok()?;
        state.keep();
        Some(state)
    }

    /// Scaled value; exact once `settle` has said yes.
    pub(super) fn value(&self) -> i64 {
        self.points + self.saved_in_all - self.shape.all_wasted
    }

    /// Cells with batches on a day.
    pub(super) fn active(&self, day: usize) -> &[usize] {
        &self.active[day]
    }

    /// Sets the batches of a cell, whatever that breaks.
    pub(super) fn set(&mut self, cell: usize, batches: i64) {
        let before = self.batches[cell];
        if before != batches {
            self.undo.push(Undo::Batches { cell, before });
            self.apply(cell, batches);
        }
    }

    /// Whether a cell could hold so many batches without overdrawing a row.
    pub(super) fn rows_allow(&self, cell: usize, batches: i64) -> bool {
        self.overdrawn_by(cell, batches).is_none()
    }

    /// The first row that would be overdrawn if a cell held so many batches.
    pub(super) fn overdrawn_by(&self, cell: usize, batches: i64) -> Option<usize> {
        let (outlet, day) = self.shape.place(cell);
        let before = self.batches[cell];
        self.shape.outlets[outlet].draws.iter().find_map(|draw| {
            let row = draw.row(day);
            let after = self.used[row] - draw.amount(before) + draw.amount(batches);
            (after > self.shape.rows[row]).then_some(row)
        })
    }

    /// A row that is overdrawn among those a cell draws from, with the excess.
    pub(super) fn overdrawn_row(&self, cell: usize) -> Option<(usize, i64)> {
        let (outlet, day) = self.shape.place(cell);
        self.shape.outlets[outlet].draws.iter().find_map(|draw| {
            let row = draw.row(day);
            let excess = self.used[row] - self.shape.rows[row];
            (excess > 0).then_some((row, excess))
        })
    }

    /// What a cell takes from a row now.
    pub(super) fn taken(&self, cell: usize, row: usize) -> i64 {
        let (outlet, day) = self.shape.place(cell);
        self.shape.outlets[outlet]
            .draws
            .iter()
            .find(|draw| draw.row(day) == row)
            .map_or(0, |draw| draw.amount(self.batches[cell]))
    }

    /// Scaled points, waste apart, that a cell would bring with so many batches; for any number
    /// of batches, also one that fits nowhere.
    pub(super) fn points_of(&self, cell: usize, batches: i64) -> i128 {
        let shape = self.shape;
        let (index, day) = shape.place(cell);
        let outlet = &shape.outlets[index];
        let before = self.batches[cell];
        let change = i128::from(batches) - i128::from(before);
        let delay = i128::from(shape.per_batch_day) * day as i128;
        let mut points = change * (i128::from(outlet.per_batch) - delay);
        if before == 0 {
            points += i128::from(outlet.per_run);
        }
        if let Some(good) = outlet.good {
            let steps = &shape.problem.goods[good].steps;
            let wanted: i128 = steps.iter().map(|(width, _)| i128::from(*width)).sum();
            let old = i128::from(self.units[good]);
            // Units beyond the last step are worth nothing, so they need not be counted.
            let new = (old + change * i128::from(outlet.yields)).min(wanted.max(old));
            let gain = worth(steps, new as i64) - worth(steps, self.units[good]);
            points += i128::from(gain) * i128::from(SCALE);
        }
        points
    }

    /// Judges the supply of every part that has changed. `Err` names a part and a day on which
    /// it is short.
    pub(super) fn settle(&mut self) -> Result<(), (usize, usize)> {
        for part in 0..self.stale.len() {
            if !self.stale[part] {
                continue;
            }
            match self.feed(part, None) {
                Fed::Yes(saved) => {
                    self.stale[part] = false;
                    let before = self.saved[part];
                    if before != saved {
                        self.undo.push(Undo::Saved { part, before });
                        self.saved[part] = saved;
                        self.saved_in_all += saved - before;
                    }
                }
                Fed::No(day) => return Err((part, day)),
            }
        }
        Ok(())
    }

    /// Which lots feed a part, for writing the plan down.
    pub(super) fn flow(&mut self, part: usize) -> Flow {
        let mut flow = Flow::default();
        self.feed(part, Some(&mut flow));
        flow
    }

    fn feed(&mut self, part: usize, lines: Option<&mut Flow>) -> Fed {
        let part = &self.shape.supplies.parts[part];
        let days = self.shape.days;
        if let [only] = part.groups[..] {
            let row = &self.need[only * days..(only + 1) * days];
            return part.feed(&[row], &mut self.scratch, lines);
        }
        let need: Vec<&[i64]> = part
            .groups
            .iter()
            .map(|group| &self.need[group * days..(group + 1) * days])
            .collect();
        part.feed(&need, &mut self.scratch, lines)
    }

    /// Makes the changes since the last `keep` or `take_back` permanent.
    pub(super) fn keep(&mut self) {
        self.undo.clear();
    }

    /// A point to which `take_back_to` can return. Only at a settled state.
    pub(super) fn mark(&self) -> usize {
        self.undo.len()
    }

    /// Undoes the changes since the last `keep` or `take_back`. Only from a settled state.
    pub(super) fn take_back(&mut self) {
        self.take_back_to(0);
    }

    /// Undoes the changes since a mark.
    pub(super) fn take_back_to(&mut self, mark: usize) {
        while self.undo.len() > mark
            && let Some(step) = self.undo.pop()
        {
            match step {
                Undo::Batches { cell, before } => self.apply(cell, before),
                Undo::Saved { part, before } => {
                    self.saved_in_all += before - self.saved[part];
                    self.saved[part] = before;
                }
            }
        }
        // Everything stands where it was judged last.
        self.stale.fill(false);
    }

    /// Replaces all batches. The rows and the supply must have been judged before.
    pub(super) fn load(&mut self, batches: &[i64]) {
        for (cell, count) in batches.iter().enumerate() {
            if self.batches[cell] != *count {
                self.apply(cell, *count);
            }
        }
        let settled = self.settle();
        debug_assert!(settled.is_ok(), "only plans that were judged are loaded");
        self.keep();
    }

    fn apply(&mut self, cell: usize, batches: i64) {
        let shape = self.shape;
        let (index, day) = shape.place(cell);
        let outlet = &shape.outlets[index];
        let before = self.batches[cell];
        let change = batches - before;
        self.batches[cell] = batches;
        for draw in &outlet.draws {
            self.used[draw.row(day)] += draw.amount(batches) - draw.amount(before);
        }
        for (group, grams) in &outlet.needs {
            self.need[group * shape.days + day] += grams * change;
        }
        for part in &outlet.parts {
            self.stale[*part] = true;
        }
        self.points += change * (outlet.per_batch - shape.per_batch_day * day as i64);
        if let Some(good) = outlet.good {
            let steps = &shape.problem.goods[good].steps;
            let old = self.units[good];
            let new = old + change * outlet.yields;
            self.units[good] = new;
            self.points += (worth(steps, new) - worth(steps, old)) * SCALE;
        }
        match (before == 0, batches == 0) {
            (true, false) => {
                self.points += outlet.per_run;
                self.position[cell] = self.active[day].len();
                self.active[day].push(cell);
            }
            (false, true) => {
                self.points -= outlet.per_run;
                let hole = self.position[cell];
                self.active[day].swap_remove(hole);
                if let Some(moved) = self.active[day].get(hole) {
                    self.position[*moved] = hole;
                }
                self.position[cell] = NOWHERE;
            }
            _ => {}
        }
    }
}

/// Points for so many units of a good.
pub(super) fn worth(steps: &[(i64, i64)], units: i64) -> i64 {
    let mut left = units;
    let mut points = 0;
    for (width, each) in steps {
        if left <= *width {
            return points + left * each;
        }
        points += width * each;
        left -= width;
    }
    points
}
