//! From lots to a harvest plan: which batches on which day.
//!
//! A greedy first plan, annealing over whole batches, and beside it a bound from a linear
//! relaxation with rounding cuts and branch and bound. The plan is judged by its own reader
//! (`plan::allocation::check`), which shares no code with this solver.

mod anneal;
mod compose;
mod cuts;
mod explain;
mod greedy;
mod proof;
mod quick_bound;
mod relax;
mod shape;
mod state;
mod supply;
mod talk;
mod what_if;

use plan::allocation::{Plan, Problem, problem_flaws};

use crate::effort::{Effort, Watch};
use anneal::{Annealer, ROUND};
use proof::{Proof, Reach};
use quick_bound::quick_bound;
use shape::{SCALE, Shape};
use state::State;
use talk::Talk;

pub use what_if::{Relaxation, WhatIf, what_if};

/// Why there is no plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NoPlan {
    /// There is no lot to plan for.
    NothingToPlan,
    /// The problem contradicts itself; every flaw in a sentence.
    Flawed(Vec<String>),
    /// Quantities and prices are so large that sums of points would overflow.
    TooLarge,
    /// The limit to relax is none of this problem's.
    UnknownLimit,
}

impl std::fmt::Display for NoPlan {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            NoPlan::NothingToPlan => {
                write!(out, "there is nothing to plan: record a picking first")
            }
            NoPlan::Flawed(flaws) => {
                write!(out, "the plan's figures do not fit together: ")?;
                write!(out, "{}", flaws.join("; "))
            }
            NoPlan::TooLarge => write!(
                out,
                "the quantities and prices are too large to add up; check their units"
            ),
            NoPlan::UnknownLimit => {
                write!(
                    out,
                    "this limit is not part of the plan; choose one it lists"
                )
            }
        }
    }
}

impl std::error::Error for NoPlan {}

/// Moves of the short search that gives the proof a plan to start from.
const OPENING: u64 = 2_000;
/// Steps after which the pace is known well enough to say how many there will be.
const PACE: u64 = 32 * ROUND;
/// Steps per cell below which one cooling is best.
const STEPS_PER_CELL: u64 = 400;
/// Share of the time kept for writing the plan down.
const RESERVE: f64 = 0.04;

/// Finds a plan within the effort.
///
/// # Errors
///
/// [`NoPlan`] when there is nothing to plan, or when the problem's figures cannot be used.
pub fn solve(problem: &Problem, effort: &Effort) -> Result<Plan, NoPlan> {
    solve_from(problem, None, effort)
}

/// The same, starting from batches per cell that are known to fit.
fn solve_from(problem: &Problem, start: Option<&[i64]>, effort: &Effort) -> Result<Plan, NoPlan> {
    let flaws = problem_flaws(problem);
    if !flaws.is_empty() {
        return Err(NoPlan::Flawed(flaws));
    }
    if problem.lots.is_empty() {
        return Err(NoPlan::NothingToPlan);
    }
    let watch = Watch::start(effort);
    let shape = Shape::new(problem).ok_or(NoPlan::TooLarge)?;
    let mut state = State::new(&shape);
    if let Some(start) = start {
        state.load(start);
    }
    greedy::fill(&mut state);
    let mut annealer = Annealer::new(state, effort.seed);
    let opening = OPENING.min(effort.iterations);
    for step in 0..opening {
        if step % ROUND == 0 && watch.share().is_some_and(|share| share > 0.1) {
            break;
        }
        annealer.cool(step as f64 / opening as f64);
        annealer.step();
    }
    annealer.restart_from_best();
    let proof = search(&shape, &mut annealer, effort, watch);
    annealer.restart_from_best();
    let mut state = annealer.state;
    greedy::polish(&mut state);
    if let Some(met) = &proof.met
        && let Some(mut other) = State::judged(&shape, met)
    {
        greedy::polish(&mut other);
        if other.value() > state.value() {
            state = other;
        }
    }
    Ok(write_down(&mut state, proof.bound))
}

/// Anneals while a second thread works on the bound. In the deterministic mode the two exchange
/// nothing until both are done.
fn search(shape: &Shape, annealer: &mut Annealer, effort: &Effort, watch: Watch) -> Proof {
    if shape.cells.is_empty() {
        let value = annealer.best_value.div_euclid(SCALE);
        return Proof {
            bound: Some(value),
            met: None,
        };
    }
    let known = annealer.best.clone();
    let known_value = annealer.best_value;
    let talk = Talk::new(effort.milliseconds.is_none(), &known, known_value);
    let reach = Reach {
        watch,
        nodes: match effort.milliseconds {
            Some(_) => u64::MAX,
            None => effort.iterations / 100,
        },
    };
    std::thread::scope(|scope| {
        let prover = scope.spawn(|| proof::prove(shape, &known, known_value, reach, &talk));
        anneal_until(annealer, effort, watch, &talk);
        // A panic inside the linear solver costs the bound, never the plan.
        prover.join().unwrap_or_default()
    })
}

/// Cools from hot to cold over the iterations or the time, whichever ends first. Where the steps
/// are many for the number of cells, they are shared among several coolings, each from the best
/// plan so far: one long cooling of a small household as often ends beside the best as in it.
fn anneal_until(annealer: &mut Annealer, effort: &Effort, watch: Watch, talk: &Talk) {
    let cells = annealer.state.shape.cells.len();
    let begun = watch.share();
    let mut coolings = match begun {
        Some(_) => None,
        None => Some(coolings_of(effort.iterations, cells)),
    };
    let mut cooling = 0.0;
    let mut done = 0;
    while done < effort.iterations {
        let of_steps = done as f64 / effort.iterations as f64;
        let share = match watch.share() {
            Some(_) if talk.is_settled() => break,
            Some(of_time) => {
                if let (None, PACE, Some(begun)) = (coolings, done, begun) {
                    let steps = done as f64 * (1.0 - of_time) / (of_time - begun).max(1e-9);
                    coolings = Some(coolings_of((steps as u64).min(effort.iterations), cells));
                }
                of_steps.max(of_time / (1.0 - RESERVE))
            }
            None => of_steps,
        };
        if share >= 1.0 {
            break;
        }
        let turn = share * coolings.unwrap_or(1) as f64;
        if turn.floor() > cooling {
            cooling = turn.floor();
            annealer.restart_from_best();
        }
        annealer.cool(turn.fract());
        let round = ROUND.min(effort.iterations - done);
        for _ in 0..round {
            annealer.step();
        }
        talk.tell_plan(&annealer.best, annealer.best_value);
        done += round;
    }
}

/// How many coolings so many steps are shared among: their number and their length grow alike.
fn coolings_of(steps: u64, cells: usize) -> u64 {
    (steps / cells.max(1) as u64 / STEPS_PER_CELL)
        .isqrt()
        .max(1)
}

/// The plan of a settled state.
fn write_down(state: &mut State, bound: Option<i64>) -> Plan {
    let shape = state.shape;
    let uses = compose::uses(state);
    let left = compose::left_of_lots(shape, &uses);
    let parts = compose::parts(state, &left);
    let value = state.value().div_euclid(SCALE);
    debug_assert_eq!(parts.total(), i128::from(value));
    let quick = quick_bound(shape);
    let bound = bound.map_or(quick, |bound| bound.min(quick));
    debug_assert!(value <= bound, "a bound lies below a plan that was found");
    // Should the linear solver ever be wrong, its bound is not believed and nothing is proven.
    let bound = if bound < value {
        quick.max(value + 1)
    } else {
        bound
    };
    let (left_out, binding) = explain::explain(state, &left);
    Plan {
        runs: compose::runs(state),
        uses,
        value,
        parts,
        bound,
        proven: bound == value,
        left_out,
        binding,
    }
}
