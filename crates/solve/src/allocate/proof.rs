//! The bound: linear relaxation, rounding cuts, and branch and bound where it can finish.
//!
//! No bound is ever taken from an answer the linear solver did not finish, and every bound is
//! rounded in the safe direction, with a margin far above the solver's own tolerance.

use microlp::{
    ComparisonOp, LinearExpr, OptimizationDirection, Problem as Linear, ResumeOptions, Solution,
    SolutionStatus, SolveOptions, SolveOutcome, Variable as Handle,
};

use super::cuts::separate;
use super::relax::{Kind, Model, Row};
use super::shape::{SCALE, Shape};
use super::state::State;
use super::talk::Talk;
use crate::effort::Watch;

/// Rounds of cuts at most, and cuts added per round.
const ROUNDS: usize = 30;
const CUTS_PER_ROUND: usize = 60;
/// Above this many whole variables branch and bound is not started: it would not finish.
const MOST_WHOLE: usize = 6_000;

/// Branch-and-bound nodes between two looks at the other thread.
const SLICE: u64 = 64;
/// Rows times variables that the linear solver clears in a millisecond, measured on problems of
/// 200 to 1,300 rows.
const SIZE_PER_MILLISECOND: u128 = 8_000;
/// Times branch and bound begins anew from a better plan.
const RESTARTS: u64 = 8;

/// What was proven, and the best plan met on the way.
#[derive(Debug, Clone, Default)]
pub(super) struct Proof {
    /// No plan is worth more points than this.
    pub(super) bound: Option<i64>,
    /// Batches per cell of a plan that was judged and is better than the one given.
    pub(super) met: Option<Vec<i64>>,
}

/// Limits of the search for a proof.
#[derive(Debug, Clone, Copy)]
pub(super) struct Reach {
    pub(super) watch: Watch,
    /// Branch-and-bound nodes; the only limit in the deterministic mode.
    pub(super) nodes: u64,
}

/// The plan a search for a proof starts from.
#[derive(Debug, Clone)]
struct Known {
    batches: Vec<i64>,
    /// Scaled value.
    value: i64,
}

impl Known {
    fn points(&self) -> i64 {
        self.value.div_euclid(SCALE)
    }
}

/// Works on the bound from a known plan (batches per cell and scaled value).
pub(super) fn prove(
    shape: &Shape,
    batches: &[i64],
    value: i64,
    reach: Reach,
    talk: &Talk,
) -> Proof {
    let mut proof = Proof::default();
    let mut model = Model::new(shape);
    if !is_worth_starting(&model, reach.watch) {
        return proof;
    }
    let mut known = Known {
        batches: batches.to_vec(),
        value,
    };
    let whole = cut_root(&mut model, &mut proof, known.points(), reach, talk);
    let count = model
        .variables
        .iter()
        .filter(|v| v.kind == Kind::Whole)
        .count();
    if !whole || count > MOST_WHOLE {
        return proof;
    }
    let mut nodes = reach.nodes;
    for _ in 0..RESTARTS {
        let reached = proof.bound.is_some_and(|bound| bound <= known.points());
        if reached || nodes == 0 || reach.watch.is_over() || talk.is_settled() {
            break;
        }
        let search = Branching {
            shape,
            model: &model,
            reach: Reach { nodes, ..reach },
            talk,
        };
        let Some((better, left)) = search.run(&known, &mut proof) else {
            break;
        };
        known = better;
        nodes = left;
    }
    proof.met = (known.value > value).then_some(known.batches);
    proof
}

/// Whether the linear solver can be expected to finish in time. It looks at its own limit only
/// now and then, so a start that cannot finish would delay the plan.
fn is_worth_starting(model: &Model, watch: Watch) -> bool {
    let Some(left) = watch.left() else {
        return true;
    };
    let size = model.rows.len() * model.variables.len();
    left.as_millis() * SIZE_PER_MILLISECOND >= size as u128
}

/// Solves the relaxation and adds cuts while they help. False when it was cut short.
fn cut_root(model: &mut Model, proof: &mut Proof, value: i64, reach: Reach, talk: &Talk) -> bool {
    let most: Vec<f64> = model.variables.iter().map(|v| v.most).collect();
    let mut last = f64::INFINITY;
    let mut idle = 0;
    for round in 0..=ROUNDS {
        let (linear, handles) = linear(model, false);
        let Some(solution) = finished(linear.solve_with(options(reach))) else {
            return round > 0 && !reach.watch.is_over();
        };
        let reached = solution.objective() + model.constant;
        tighten(proof, reached, talk);
        let closed = proof.bound.is_some_and(|bound| bound <= value);
        if closed || round == ROUNDS || talk.is_settled() {
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

/// One branch and bound from one known plan.
struct Branching<'a> {
    shape: &'a Shape<'a>,
    model: &'a Model,
    reach: Reach,
    talk: &'a Talk,
}

impl Branching<'_> {
    /// Runs until nothing is open, the limits are reached or a better plan is worth beginning
    /// anew from; then gives that plan and the nodes left.
    fn run(&self, known: &Known, proof: &mut Proof) -> Option<(Known, u64)> {
        let (linear, handles) = linear(self.model, true);
        // A plan's value is its points rounded down, so a node that cannot pass the next whole
        // point is of no use. The slack stays below that point by more than the margin that
        // `tighten` adds, and what it may have hidden is added to every claim.
        let exact = known.value as f64 / SCALE as f64;
        let margin = 1e-4 + 1e-7 * exact.abs();
        let slack = (exact.floor() + 1.0 - exact - margin).max(0.0);
        let share = slack / (exact - self.model.constant).abs().max(1.0);
        let mut left = self.reach.nodes;
        let mut options = options(self.reach);
        options.node_limit = Some(left.min(SLICE));
        options.warm_start = Some(hint(self.shape, self.model, &handles, &known.batches));
        options.tolerances.prune_epsilon = share;
        let mut outcome = linear.solve_with(options).ok()?;
        let mut slices = 0u64;
        loop {
            left = left.saturating_sub(SLICE);
            slices += 1;
            let met = self.take(&outcome, &handles, share, proof);
            let finished = outcome.is_optimal();
            let better = met.filter(|met| met.value > known.value);
            if finished || self.talk.is_settled() || left == 0 || self.reach.watch.is_over() {
                return better.map(|better| (better, left));
            }
            // What the other thread found cuts off more; beginning anew pays ever more rarely.
            if slices.is_power_of_two() {
                let so_far = better.as_ref().map_or(known.value, |better| better.value);
                if let Some((batches, value)) = self.talk.better_than(so_far) {
                    return Some((Known { batches, value }, left));
                }
            }
            let mut more = ResumeOptions::default();
            more.time_limit = self.reach.watch.left();
            more.node_limit = Some(left.min(SLICE));
            outcome = outcome.resume_with(more).ok()?;
        }
    }

    /// Takes bound and plan from where the search stands.
    fn take(
        &self,
        outcome: &SolveOutcome,
        handles: &[Handle],
        share: f64,
        proof: &mut Proof,
    ) -> Option<Known> {
        let solution = outcome.solution()?;
        let reached = solution.objective();
        // Nodes were dropped that could pass the best plan by no more than this. Plans only get
        // better during a search, and doing nothing, which stands at zero, is always one.
        let hidden = (reached + share * reached.abs().max(1.0)).max(0.0);
        if solution.status() == SolutionStatus::Optimal {
            tighten(proof, hidden + self.model.constant, self.talk);
        } else if let Some(bound) = outcome.stats().best_bound {
            tighten(proof, bound.max(hidden) + self.model.constant, self.talk);
        }
        let mut batches = vec![0; self.model.batches.len()];
        for (cell, variable) in self.model.batches.iter().enumerate() {
            if let Some(variable) = variable {
                batches[cell] = solution.var_value(handles[*variable]).round() as i64;
            }
        }
        let value = State::judged(self.shape, &batches)?.value();
        self.talk.tell_plan(&batches, value);
        Some(Known { batches, value })
    }
}

/// Takes a bound in points if it is better than the last, rounded down with a margin.
fn tighten(proof: &mut Proof, reached: f64, talk: &Talk) {
    if !reached.is_finite() {
        return;
    }
    let safe = (reached + 1e-6 + 1e-8 * reached.abs()).floor();
    if safe.abs() < 9e18 {
        let safe = safe as i64;
        proof.bound = Some(proof.bound.map_or(safe, |bound| bound.min(safe)));
        talk.tell_bound(safe);
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
