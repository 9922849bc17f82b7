//! Incidents: no clock runs into a phase without a way out, and no text names a number in vain.

use crate::problem::TableProblem;
use crate::tables::Reference;
use crate::words::IncidentWay;

/// Reports clocks that lead nowhere and numbers that are not there.
pub fn check(reference: &Reference, found: &mut Vec<TableProblem>) {
    for row in &reference.incidents {
        for phase in row.clock.phases() {
            let ways = reference.ways_out(row.clock, *phase);
            if !ways.iter().any(|way| way.way != IncidentWay::Looser) {
                found.push(TableProblem::new(
                    "process/incident_ways.csv",
                    0,
                    "incident-without-way",
                    format!("`{}`: no way out for {} while {phase}", row.kind, row.clock),
                ));
            }
        }
    }
    let ways = reference.incident_ways.iter().map(|row| {
        (
            "process/incident_ways.csv",
            row.line,
            &row.text,
            &row.number,
        )
    });
    let steps = reference
        .disposal
        .iter()
        .map(|row| ("process/disposal.csv", row.line, &row.text, &row.number));
    for (file, line, text, number) in ways.chain(steps) {
        let known = reference
            .practice(number)
            .is_some_and(|row| row.number().is_some())
            || reference.house_rule(number).is_some();
        // A text asks for its number with {n}; both are there, or neither is.
        if text.contains("{n}") != known {
            found.push(TableProblem::new(
                file,
                line,
                "number-without-row",
                format!("the text and its number `{number}` do not belong together"),
            ));
        }
    }
}
