//! How much of each limit a run takes, counted from the problem's own words.

use super::Facts;
use crate::allocation::proposal::{Limit, Run};

/// Attended minutes of a run: set-up once, then each batch.
pub(super) fn minutes(facts: &Facts, run: &Run) -> i128 {
    let outlet = &facts.problem.outlets[run.outlet];
    i128::from(outlet.setup_minutes)
        + i128::from(outlet.minutes_per_batch) * i128::from(run.batches)
}

/// Whole loads a run takes of one canner.
pub(super) fn loads(facts: &Facts, run: &Run, canner: usize) -> i128 {
    let outlet = &facts.problem.outlets[run.outlet];
    if outlet.canner != Some(canner) {
        return 0;
    }
    let hundredths = i128::from(outlet.loads_hundredths) * i128::from(run.batches);
    (hundredths + 99) / 100
}

/// Amount of one ingredient or container a run takes, from the outlet's list.
pub(super) fn listed(list: &[(usize, i64)], wanted: usize, run: &Run) -> i128 {
    list.iter()
        .filter(|(index, _)| *index == wanted)
        .map(|(_, count)| i128::from(*count) * i128::from(run.batches))
        .sum()
}

/// Used and available of any limit; `None` when the problem has no such limit.
pub(super) fn used_and_available(facts: &Facts, limit: Limit) -> Option<(i128, i128)> {
    let problem = facts.problem;
    let on_day = |day: usize, figure: &dyn Fn(&Run) -> i128| -> i128 {
        facts
            .runs
            .iter()
            .filter(|run| run.day == day)
            .map(figure)
            .sum()
    };
    let (used, available) = match limit {
        Limit::Hands { day } => (
            on_day(day, &|run| minutes(facts, run)),
            problem.days.get(day)?.hands_minutes,
        ),
        Limit::CannerLoads { day, canner } => (
            on_day(day, &|run| loads(facts, run, canner)),
            *problem.days.get(day)?.canner_loads.get(canner)?,
        ),
        Limit::FreezeGrams { day } => (
            on_day(day, &|run| freeze_grams(facts, run)),
            problem.days.get(day)?.freeze_grams,
        ),
        Limit::DryerTrays { day } => (
            on_day(day, &|run| trays(facts, run)),
            problem.days.get(day)?.dryer_trays,
        ),
        Limit::FreezerRoom => (
            facts.over_all_days(|run| freezer_ml(facts, run)),
            problem.freezer_room_ml,
        ),
        Limit::Container { container } => (
            facts.over_all_days(|run| {
                listed(&problem.outlets[run.outlet].containers, container, run)
            }),
            problem.containers.get(container)?.available,
        ),
        Limit::Ingredient { ingredient } => (
            facts.over_all_days(|run| {
                listed(&problem.outlets[run.outlet].ingredients, ingredient, run)
            }),
            problem.ingredients.get(ingredient)?.available,
        ),
        Limit::OutletMaximum { day, outlet } => {
            problem.days.get(day)?;
            let most = problem.outlets.get(outlet)?.max_per_day;
            let batches = |run: &Run| match run.outlet == outlet {
                true => i128::from(run.batches),
                false => 0,
            };
            (on_day(day, &batches), most)
        }
    };
    Some((used, i128::from(available)))
}

/// Grams a run asks the freezer to freeze.
pub(super) fn freeze_grams(facts: &Facts, run: &Run) -> i128 {
    i128::from(facts.problem.outlets[run.outlet].freeze_grams) * i128::from(run.batches)
}

/// Dryer trays a run takes.
pub(super) fn trays(facts: &Facts, run: &Run) -> i128 {
    i128::from(facts.problem.outlets[run.outlet].dryer_trays) * i128::from(run.batches)
}

/// Freezer room a run fills, millilitres.
pub(super) fn freezer_ml(facts: &Facts, run: &Run) -> i128 {
    i128::from(facts.problem.outlets[run.outlet].freezer_ml) * i128::from(run.batches)
}
