//! Rules on which lot goes where: right class, right days, every input filled, nothing overdrawn.

use std::collections::BTreeMap;

use super::{Breach, Facts, breach};
use crate::allocation::problem::Problem;
use crate::allocation::proposal::Use;

/// Whether the line's lot, outlet, input and day are in the problem.
pub(super) fn exists(problem: &Problem, line: &Use) -> bool {
    line.lot < problem.lots.len()
        && line.day < problem.days.len()
        && problem
            .outlets
            .get(line.outlet)
            .is_some_and(|outlet| line.input < outlet.inputs.len())
}

/// A line must name a lot, an outlet, one of its inputs and a day, and some grams.
pub(super) fn p1012_use_names_a_lot_and_an_input(facts: &Facts) -> Vec<Breach> {
    facts
        .plan
        .uses
        .iter()
        .filter(|line| !exists(facts.problem, line) || line.grams <= 0)
        .map(|line| {
            let text = format!(
                "{} grams of lot {} for input {} of outlet {} on day {}: no such line is possible",
                line.grams, line.lot, line.input, line.outlet, line.day
            );
            breach("P1012", text)
        })
        .collect()
}

/// A grade goes only where it may go.
pub(super) fn p1013_input_accepts_the_lots_class(facts: &Facts) -> Vec<Breach> {
    let mut found = Vec::new();
    for line in &facts.uses {
        let lot = &facts.problem.lots[line.lot];
        let outlet = &facts.problem.outlets[line.outlet];
        if !outlet.inputs[line.input].classes.contains(&lot.kind) {
            let class = &facts.problem.classes[lot.kind];
            let text = format!("'{}' does not take {class} ('{}')", outlet.name, lot.name);
            found.push(breach("P1013", text));
        }
    }
    found
}

/// A lot is used neither before it is there nor after its last day.
pub(super) fn p1014_lot_is_used_within_its_days(facts: &Facts) -> Vec<Breach> {
    let mut found = Vec::new();
    for line in &facts.uses {
        let lot = &facts.problem.lots[line.lot];
        let day = line.day as i64;
        if day < lot.first_day || day > lot.last_day {
            let text = format!(
                "'{}' is used on day {day}; it can be used on days {} to {}",
                lot.name, lot.first_day, lot.last_day
            );
            found.push(breach("P1014", text));
        }
    }
    found
}

/// Every input of every run gets exactly its grams, and nothing goes to a run that is not there.
pub(super) fn p1015_every_input_is_filled_exactly(facts: &Facts) -> Vec<Breach> {
    let mut balance: BTreeMap<(usize, usize, usize), i128> = BTreeMap::new();
    for run in &facts.runs {
        for (index, input) in facts.problem.outlets[run.outlet].inputs.iter().enumerate() {
            *balance.entry((run.day, run.outlet, index)).or_insert(0) +=
                i128::from(input.grams) * i128::from(run.batches);
        }
    }
    for line in &facts.uses {
        *balance
            .entry((line.day, line.outlet, line.input))
            .or_insert(0) -= i128::from(line.grams);
    }
    balance
        .into_iter()
        .filter(|(_, missing)| *missing != 0)
        .map(|((day, outlet, input), missing)| {
            let name = &facts.problem.outlets[outlet].name;
            let text = if missing > 0 {
                format!("input {input} of '{name}' on day {day} lacks {missing} grams")
            } else {
                format!(
                    "input {input} of '{name}' on day {day} gets {} grams too many",
                    -missing
                )
            };
            breach("P1015", text)
        })
        .collect()
}

/// No lot gives more than it weighs.
pub(super) fn p1016_lot_is_not_overdrawn(facts: &Facts) -> Vec<Breach> {
    let lots = facts.problem.lots.iter().zip(&facts.used_of_lot);
    lots.filter(|(lot, used)| **used > i128::from(lot.grams))
        .map(|(lot, used)| {
            let text = format!("'{}' gives {used} of its {} grams", lot.name, lot.grams);
            breach("P1016", text)
        })
        .collect()
}
