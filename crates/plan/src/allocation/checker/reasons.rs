//! Rules on what the plan says about what is left and what binds.

use std::collections::BTreeMap;

use super::figures::used_and_available;
use super::{Breach, Facts, breach};
use crate::allocation::proposal::ReasonCode;

/// Every lot with something left is named once, with the grams that are left.
pub(super) fn p1021_left_out_names_what_is_left(facts: &Facts) -> Vec<Breach> {
    let mut stated: BTreeMap<usize, (usize, i128)> = BTreeMap::new();
    for line in &facts.plan.left_out {
        let entry = stated.entry(line.lot).or_insert((0, 0));
        entry.0 += 1;
        entry.1 += i128::from(line.grams);
    }
    let mut found = Vec::new();
    for lot in stated
        .keys()
        .filter(|lot| **lot >= facts.problem.lots.len())
    {
        found.push(breach(
            "P1021",
            format!("left out names lot {lot}, which is unknown"),
        ));
    }
    for (index, lot) in facts.problem.lots.iter().enumerate() {
        let left = facts.left_of_lot(index);
        let (lines, grams) = stated.get(&index).copied().unwrap_or((0, 0));
        let right = match left {
            0 => lines == 0,
            _ => lines == 1 && grams == left,
        };
        if !right {
            let text = format!(
                "{left} grams of '{}' are left; the plan says {grams} in {lines} lines",
                lot.name
            );
            found.push(breach("P1021", text));
        }
    }
    found
}

/// Reasons that can be seen from the lot alone must be true.
pub(super) fn p1022_reason_agrees_with_the_lot(facts: &Facts) -> Vec<Breach> {
    let mut found = Vec::new();
    for line in &facts.plan.left_out {
        let Some(lot) = facts.problem.lots.get(line.lot) else {
            continue;
        };
        let taken_somewhere = facts
            .problem
            .outlets
            .iter()
            .flat_map(|outlet| &outlet.inputs)
            .any(|input| input.grams > 0 && input.classes.contains(&lot.kind));
        let horizon = facts.problem.horizon();
        let true_here = match line.reason {
            ReasonCode::NoOutletTakesThisGrade => !taken_somewhere,
            ReasonCode::PastItsDay => lot.last_day < 0,
            ReasonCode::NotHereYet => lot.first_day >= horizon,
            ReasonCode::KeepsBeyondPlan => lot.last_day >= horizon,
            _ => taken_somewhere && lot.last_day >= 0 && lot.first_day < horizon,
        };
        if !true_here {
            let text = format!("the reason given for '{}' is not true of it", lot.name);
            found.push(breach("P1022", text));
        }
    }
    found
}

/// Used and available of each binding limit are as counted.
pub(super) fn p1023_binding_figures_are_as_counted(facts: &Facts) -> Vec<Breach> {
    let mut found = Vec::new();
    for line in &facts.plan.binding {
        let stated = (i128::from(line.used), i128::from(line.available));
        match used_and_available(facts, line.limit) {
            Some(counted) if counted == stated => {}
            Some((used, available)) => {
                let text = format!(
                    "{:?} is stated as {} of {}; counted {used} of {available}",
                    line.limit, line.used, line.available
                );
                found.push(breach("P1023", text));
            }
            None => {
                let text = format!("{:?} is no limit of this problem", line.limit);
                found.push(breach("P1023", text));
            }
        }
    }
    found
}
