//! The bound: linear relaxation, rounding cuts, and branch and bound where it can finish.
//!
//! No bound is ever taken from an answer the linear solver did not finish, and every bound is
//! rounded in the safe direction, with a margin far above the solver's own tolerance.

use microlp::{
    ComparisonOp, LinearExpr, OptimizationDirection, Problem as Linear, Solution, SolutionStatus,
    SolveOptions, SolveOutcome, Variable as Handle,
};

use super::cuts::separate;
use super::relax::{Kind, Model, Row};
use super::shape::{SCALE, Shape};
use crate::effort::Watch;

/// Rounds of cuts at most, and cuts added per round.
const ROUNDS: usize = 30;
const CUTS_PER_ROUND: usize = 60;
/// Above this many whole variables branch and bound is not started: it would not finish.
const MOST_WHOLE: usize = 6_000;

/// What was proven, and plans met on the way.
#[derive(Debug, Clone, Default)]
pub(super) struct Proof {
    /// No plan is worth more points than this.
    pub(super) bound: Option<i64>,
    /// Batches per cell of a plan the search met; to be judged like any other.
    pub(super) met: Option<Vec<i64>>,
}

/// Limits of the search for a proof.
#[derive(Debug, Clone, Copy)]
pub(super) struct Reach {
    pub(super) watch: Watch,
    /// Branch-and-bound nodes; the only limit in the deterministic mode.
    pub(super) nodes: u64,
}

/// Works on the bound from a known plan (batches per cell and scaled value).
pub(super) fn prove(shape: &Shape, known: &[i64], known_value: i64, reach: Reach) -> Proof {
    let mut proof = Proof::default();
    let mut model = Model::new(shape);
    let value = known_value.div_euclid(SCALE);
    let done = |proof: &Proof| proof.bound.is_some_and(|bound| bound <= value);
    let whole = cut_root(&mut model, &mut proof, value, reach);
    if done(&proof) || !whole || reach.nodes == 0 {
        return proof;
    }
    let count = model
        .variables
        .iter()
        .filter(|v| v.kind == Kind::Whole)
        .count();
    if count <= MOST_WHOLE {
        branch(shape, &model, known, known_value, reach, &mut proof);
    }
    proof
}

/// Solves the relaxation and adds cuts while they help. False when it was cut short.
fn cut_root(model: &mut Model, proof: &mut Proof, value: i64, reach: Reach) -> bool {
    let most: Vec<f64> = model.variables.iter().map(|v| v.most).collect();
    let mut last = f64::INFINITY;
    let mut idle = 0;
    for round in 0..=ROUNDS {
        let (linear, handles) = linear(model, false);
        let Some(solution) = finished(linear.solve_with(options(reach))) else {
            return round > 0 && !reach.watch.is_over();
        };
        let reached = solution.objective() + model.constant;
        tighten(proof, reached);
        if proof.bound.is_some_and(|bound| bound <= value) || round == ROUNDS {
            return true;
        }
        idle = if reached > last - 1e-4 * (1.0 + last.abs()) {
            idle + 1
        } else {
            0
        };
        if idle > 2 || reach.watch.is_over() {
            return !reach.watch.is_over();
        }
        last = last.min(reached);
        let point: Vec<f64> = handles.iter().map(|h| solution.var_value(*h)).collect();
        let mut cuts = separate(&model.whole_rows, &most, &point);
        cuts.truncate(CUTS_PER_ROUND);
        if cuts.is_empty() {
            return true;
        }
        model.rows.extend(cuts);
    }
    true
}

/// Branch and bound from the known plan.
fn branch(
    shape: &Shape,
    model: &Model,
    known: &[i64],
    known_value: i64,
    reach: Reach,
    proof: &mut Proof,
) {
    let (linear, handles) = linear(model, true);
    let mut options = options(reach);
    options.node_limit = Some(reach.nodes);
    options.warm_start = Some(hint(shape, model, &handles, known));
    // A plan's value is its points rounded down, so a node that cannot pass the next whole point
    // is of no use. The slack is measured from the known plan and added to what is claimed.
    // It stays below the next point by more than the margin that `tighten` adds.
    let exact = known_value as f64 / SCALE as f64;
    let margin = 1e-4 + 1e-7 * exact.abs();
    let slack = (exact.floor() + 1.0 - exact - margin).max(0.0);
    options.tolerances.prune_epsilon = slack / (exact - model.constant).abs().max(1.0);
    let Ok(outcome) = linear.solve_with(options) else {
        return;
    };
    let stats = outcome.stats();
    if let Some(solution) = outcome.solution() {
        let mut batches = vec![0; known.len()];
        for (cell, variable) in model.batches.iter().enumerate() {
            if let Some(variable) = variable {
                batches[cell] = solution.var_value(handles[*variable]).round() as i64;
            }
        }
        proof.met = Some(batches);
        if solution.status() == SolutionStatus::Optimal {
            tighten(proof, solution.objective() + slack + model.constant);
        } else if let Some(bound) = stats.best_bound {
            tighten(
                proof,
                bound.max(solution.objective() + slack) + model.constant,
            );
        }
    }
}

/// Takes a bound in points if it is better than the last, rounded down with a margin.
fn tighten(proof: &mut Proof, reached: f64) {
    if !reached.is_finite() {
        return;
    }
    let safe = (reached + 1e-6 + 1e-8 * reached.abs()).floor();
    if safe.abs() < 9e18 {
        let safe = safe as i64;
        proof.bound = Some(proof.bound.map_or(safe, |bound| bound.min(safe)));
    }
}

/// Options of one call of the linear solver.
fn options(reach: Reach) -> SolveOptions {
    let mut options = SolveOptions::default();
    options.time_limit = reach.watch.left();
    options
}

/// The solution, if the solver finished it.
fn finished(outcome: Result<SolveOutcome, microlp::Error>) -> Option<Solution> {
    let solution = outcome.ok()?.into_solution().ok()?;
    (solution.status() == SolutionStatus::Optimal).then_some(solution)
}

/// The model in the linear solver's terms; `whole` keeps whole variables whole.
fn linear(model: &Model, whole: bool) -> (Linear, Vec<Handle>) {
    let mut linear = Linear::new(OptimizationDirection::Maximize);
    let handles: Vec<Handle> = model
        .variables
        .iter()
        .map(|v| {
            let limit = i32::try_from(v.most as i64);
            match (whole && v.kind == Kind::Whole, limit) {
                (true, Ok(limit)) => linear.add_integer_var(v.worth, (0, limit)),
                _ => linear.add_var(v.worth, (0.0, v.most)),
            }
        })
        .collect();
    for row in &model.rows {
        let (terms, op, limit) = constraint(row, &handles);
        linear.add_constraint(terms, op, limit);
    }
    (linear, handles)
}

fn constraint(row: &Row, handles: &[Handle]) -> (LinearExpr, ComparisonOp, f64) {
    let mut terms = LinearExpr::empty();
    for (variable, a) in &row.terms {
        terms.add(handles[*variable], *a);
    }
    let op = if row.equal {
        ComparisonOp::Eq
    } else {
        ComparisonOp::Le
    };
    (terms, op, row.limit)
}

/// The known plan as a start for branch and bound.
fn hint(shape: &Shape, model: &Model, handles: &[Handle], known: &[i64]) -> Vec<(Handle, f64)> {
    let mut hint = Vec::new();
    for cell in &shape.cells {
        let batches = known[*cell];
        if let Some(x) = model.batches[*cell] {
            hint.push((handles[x], batches as f64));
        }
        if let Some(y) = model.running[*cell] {
            hint.push((handles[y], if batches > 0 { 1.0 } else { 0.0 }));
        }
        if let Some(k) = model.loads[*cell] {
            let (outlet, _) = shape.place(*cell);
            let loads = shape.outlets[outlet].draws.iter().find(|draw| draw.loads);
            let loads = loads.map_or(0, |draw| draw.amount(batches));
            hint.push((handles[k], loads as f64));
        }
    }
    hint
}
