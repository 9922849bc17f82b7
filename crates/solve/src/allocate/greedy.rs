//! A first plan within milliseconds, and the filling of what is still free at the end.

use std::cmp::Ordering;
use std::collections::BinaryHeap;

use super::state::State;

/// A cell that could take one more step, by points per share of the limit it presses hardest.
#[derive(Debug, Clone, Copy)]
struct Candidate {
    density: f64,
    cell: usize,
    /// Batches after the step.
    next: i64,
}

/// A cell that could hold more batches than this is filled in so many steps, not one by one.
const STEPS: i64 = 256;

impl PartialEq for Candidate {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}
impl Eq for Candidate {}
impl PartialOrd for Candidate {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}
impl Ord for Candidate {
    fn cmp(&self, other: &Self) -> Ordering {
        // Equal densities are taken in the order of cells, so that the plan is always the same.
        self.density
            .total_cmp(&other.density)
            .then(other.cell.cmp(&self.cell))
    }
}

/// Adds batches, the densest first, until nothing that fits is worth adding.
pub(super) fn fill(state: &mut State) {
    let mut heap: BinaryHeap<Candidate> = state
        .shape
        .cells
        .clone()
        .into_iter()
        .filter_map(|cell| candidate(state, cell))
        .collect();
    while let Some(top) = heap.pop() {
        let Some(now) = candidate(state, top.cell) else {
            continue;
        };
        if heap.peek().is_some_and(|next| *next > now) {
            heap.push(now);
            continue;
        }
        state.set(top.cell, now.next);
        if state.settle().is_ok() {
            state.keep();
            heap.extend(candidate(state, top.cell));
        } else {
            state.take_back();
        }
    }
}

/// The batches after one more step: the fewest allowed at first, then one by one.
pub(super) fn next_step(state: &State, cell: usize) -> i64 {
    let (outlet, _) = state.shape.place(cell);
    match state.batches[cell] {
        0 => state.shape.outlets[outlet].least,
        batches => batches + 1,
    }
}

/// The density of one more step, or nothing when none fits or is worth it. Where there is room
/// for many batches, the longest step that fits and pays is taken.
fn candidate(state: &mut State, cell: usize) -> Option<Candidate> {
    let (outlet, day) = state.shape.place(cell);
    let (before, most) = (state.batches[cell], state.shape.most[cell]);
    let outlet = &state.shape.outlets[outlet];
    let mut stride = most / STEPS;
    let (next, gain) = loop {
        let next = match stride {
            0 | 1 => next_step(state, cell),
            _ => (before + stride).max(outlet.least).min(most),
        };
        if let Some(gain) = gain_of(state, cell, next).filter(|gain| *gain > 0) {
            break (next, gain);
        }
        if stride <= 1 {
            return None;
        }
        stride /= 2;
    };
    // The scarcest limit counts: what a step takes of the others is rarely what stops the plan.
    let mut share: f64 = 0.01;
    for draw in &outlet.draws {
        let amount = draw.amount(next) - draw.amount(before);
        share = share.max(amount as f64 / state.shape.rows[draw.row(day)].max(1) as f64);
    }
    Some(Candidate {
        density: gain as f64 / share,
        cell,
        next,
    })
}

/// Scaled points gained by so many batches in a cell; nothing when they do not fit.
pub(super) fn gain_of(state: &mut State, cell: usize, batches: i64) -> Option<i64> {
    if batches > state.shape.most[cell] || !state.rows_allow(cell, batches) {
        return None;
    }
    let before = state.value();
    state.set(cell, batches);
    let gain = state.settle().is_ok().then(|| state.value() - before);
    state.take_back();
    gain
}

/// Steps up and down until no single one improves; leaves no batch unplaced that fits and pays.
pub(super) fn polish(state: &mut State) {
    let mut improved = true;
    while improved {
        improved = false;
        for index in 0..state.shape.cells.len() {
            let cell = state.shape.cells[index];
            for up in [true, false] {
                if let Some(target) = longest_step(state, cell, up) {
                    state.set(cell, target);
                    let settled = state.settle();
                    debug_assert!(settled.is_ok(), "the gain was measured by settling");
                    state.keep();
                    improved = true;
                }
            }
        }
    }
}

/// The batches after the step of one that gains, doubled for as long as that gains more; nothing
/// when a single step gains nothing.
fn longest_step(state: &mut State, cell: usize, up: bool) -> Option<i64> {
    let (outlet, _) = state.shape.place(cell);
    let least = state.shape.outlets[outlet].least;
    let (now, most) = (state.batches[cell], state.shape.most[cell]);
    let mut best: Option<(i64, i64)> = None;
    let mut stride = 1;
    loop {
        let target = match (up, now) {
            (true, 0) => least.saturating_add(stride - 1).min(most),
            (true, _) => now.saturating_add(stride).min(most),
            (false, _) if now - least < stride => 0,
            (false, _) => now - stride,
        };
        let known = best.map_or(0, |(_, gain)| gain);
        match gain_of(state, cell, target) {
            Some(gain) if target != now && gain > known => best = Some((target, gain)),
            _ => return best.map(|(target, _)| target),
        }
        stride = stride.saturating_mul(2);
    }
}
