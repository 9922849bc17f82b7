//! Rules on runs: they exist, stand alone, and keep the outlet's own limits.

use std::collections::BTreeSet;

use super::{Breach, Facts, breach};
use crate::allocation::problem::Problem;
use crate::allocation::proposal::Run;

/// Whether the run's outlet and day are in the problem.
pub(super) fn exists(problem: &Problem, run: &Run) -> bool {
    run.outlet < problem.outlets.len() && run.day < problem.days.len()
}

/// A run of an unknown outlet or on an unknown day cannot be carried out.
pub(super) fn p1001_run_names_an_outlet_and_a_day(facts: &Facts) -> Vec<Breach> {
    facts
        .plan
        .runs
        .iter()
        .filter(|run| !exists(facts.problem, run))
        .map(|run| {
            let text = format!("no outlet {} or no day {}", run.outlet, run.day);
            breach("P1001", text)
        })
        .collect()
}

/// Two lines for one outlet and day would hide its set-up time and its limits.
pub(super) fn p1002_one_run_per_outlet_and_day(facts: &Facts) -> Vec<Breach> {
    let mut seen = BTreeSet::new();
    facts
        .runs
        .iter()
        .filter(|run| !seen.insert((run.day, run.outlet)))
        .map(|run| {
            let name = &facts.problem.outlets[run.outlet].name;
            breach("P1002", format!("'{name}' has two runs on day {}", run.day))
        })
        .collect()
}

/// Batches are whole, at least one, and within the outlet's fewest and most per day.
pub(super) fn p1003_batches_between_fewest_and_most(facts: &Facts) -> Vec<Breach> {
    let mut found = Vec::new();
    for run in &facts.plan.runs {
        let Some(outlet) = facts.problem.outlets.get(run.outlet) else {
            continue;
        };
        let least = outlet.min_per_day.max(1);
        if run.batches < least || run.batches > outlet.max_per_day {
            let text = format!(
                "'{}' has {} batches on day {}; it takes {} to {}",
                outlet.name, run.batches, run.day, least, outlet.max_per_day
            );
            found.push(breach("P1003", text));
        }
    }
    found
}

/// Some outlets may not be made on some days.
pub(super) fn p1004_outlet_is_allowed_on_the_day(facts: &Facts) -> Vec<Breach> {
    let mut found = Vec::new();
    for run in &facts.runs {
        let outlet = &facts.problem.outlets[run.outlet];
        let allowed = match &outlet.days_allowed {
            Some(days) => days.get(run.day).copied().unwrap_or(false),
            None => true,
        };
        if !allowed {
            let day = facts.problem.day_label(run.day as i64);
            let text = format!("'{}' may not be made on {day}", outlet.name);
            found.push(breach("P1004", text));
        }
    }
    found
}
