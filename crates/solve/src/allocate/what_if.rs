//! What a little more of one limit would buy, found by solving again from the plan at hand.

use plan::allocation::{Limit, Plan, Problem};

use super::{NoPlan, solve_from};
use crate::effort::Effort;

/// A limit and how much more of it there would be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Relaxation {
    /// Which limit.
    pub limit: Limit,
    /// How much more, in the limit's own unit; negative for less is refused.
    pub more: i64,
}

/// The answer: a second plan and what it gains at least.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WhatIf {
    /// The problem with the wider limit; `plan` belongs to it.
    pub problem: Problem,
    /// The plan that uses the wider limit.
    pub plan: Plan,
    /// Points gained at least; never negative.
    pub points_at_least: i64,
    /// Grams saved from loss at least; zero below half a pound.
    pub grams_saved_at_least: i64,
}

/// Half a pound, rounded up: smaller gains are noise between two searches.
const LEAST_GRAMS: i64 = 227;

/// Solves again with a wider limit. The second search starts from the first plan, which is still
/// valid, so the gain is a lower limit of what the relaxation is worth.
///
/// # Errors
///
/// [`NoPlan::UnknownLimit`] when the problem has no such limit, when `more` is negative, or when
/// the first plan does not belong to the problem; otherwise as [`super::solve`].
pub fn what_if(
    problem: &Problem,
    first: &Plan,
    relaxed: Relaxation,
    effort: &Effort,
) -> Result<WhatIf, NoPlan> {
    if relaxed.more < 0 || !plan::allocation::check(problem, first).is_empty() {
        return Err(NoPlan::UnknownLimit);
    }
    let mut wider = problem.clone();
    let limit = limit_of(&mut wider, relaxed.limit).ok_or(NoPlan::UnknownLimit)?;
    *limit = limit.saturating_add(relaxed.more);
    let mut start = vec![0; problem.outlets.len() * problem.days.len()];
    for run in &first.runs {
        start[run.outlet * problem.days.len() + run.day] = run.batches;
    }
    let plan = solve_from(&wider, Some(&start), effort)?;
    let saved = lost_grams(problem, first) - lost_grams(&wider, &plan);
    Ok(WhatIf {
        points_at_least: plan.value.saturating_sub(first.value).max(0),
        grams_saved_at_least: if saved < LEAST_GRAMS { 0 } else { saved },
        problem: wider,
        plan,
    })
}

/// Grams left of lots that end within the horizon.
fn lost_grams(problem: &Problem, plan: &Plan) -> i64 {
    plan.left_out
        .iter()
        .filter(|line| problem.lots[line.lot].last_day < problem.horizon())
        .map(|line| line.grams)
        .sum()
}

/// The number behind a limit.
fn limit_of(problem: &mut Problem, limit: Limit) -> Option<&mut i64> {
    match limit {
        Limit::Hands { day } => Some(&mut problem.days.get_mut(day)?.hands_minutes),
        Limit::CannerLoads { day, canner } => {
            problem.days.get_mut(day)?.canner_loads.get_mut(canner)
        }
        Limit::FreezeGrams { day } => Some(&mut problem.days.get_mut(day)?.freeze_grams),
        Limit::DryerTrays { day } => Some(&mut problem.days.get_mut(day)?.dryer_trays),
        Limit::FreezerRoom => Some(&mut problem.freezer_room_ml),
        Limit::Container { container } => {
            Some(&mut problem.containers.get_mut(container)?.available)
        }
        Limit::Ingredient { ingredient } => {
            Some(&mut problem.ingredients.get_mut(ingredient)?.available)
        }
        Limit::OutletMaximum { outlet, .. } => {
            Some(&mut problem.outlets.get_mut(outlet)?.max_per_day)
        }
    }
}
