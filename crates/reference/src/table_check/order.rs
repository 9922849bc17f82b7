//! Minutes and pressure rise with elevation and with the jar.

use super::bands::{fault, series};
use crate::problem::TableProblem;
use crate::tables::Reference;

/// Reports figures that fall where they may only rise.
pub fn check(reference: &Reference, found: &mut Vec<TableProblem>) {
    for rows in series(reference).values() {
        for pair in rows.windows(2) {
            let (below, above) = (pair[0], pair[1]);
            if above.minutes < below.minutes {
                found.push(fault(
                    above,
                    "falling-minutes",
                    format!(
                        "{} min after {} min lower down",
                        above.minutes, below.minutes
                    ),
                ));
            }
            if let (Some(low), Some(high)) = (below.psi, above.psi)
                && high < low
            {
                found.push(fault(
                    above,
                    "falling-psi",
                    format!("{high} psi after {low} psi lower down"),
                ));
            }
        }
    }
    for small in &reference.processes {
        for large in reference.processes_for(&small.food) {
            let same = small.pack == large.pack
                && small.method == large.method
                && small.option == large.option
                && small.psi == large.psi
                && small.low_ft == large.low_ft;
            if same && small.jar < large.jar && small.minutes > large.minutes {
                found.push(fault(
                    small,
                    "smaller-jar-longer",
                    format!(
                        "{} min, longer than the {} min of the {}",
                        small.minutes, large.minutes, large.jar
                    ),
                ));
            }
        }
    }
}
