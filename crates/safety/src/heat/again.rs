//! Asks the gate again with a recorded question: a stored record arms nothing by itself.

use super::{Verdict, judge_heat};
use crate::permit::{Permit, PermitRecord};
use reference::Reference;

/// What became of a recorded answer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Again {
    /// The same figures: a fresh permit.
    Same(Box<Permit>),
    /// Another answer: the batch goes on hold, and this says why.
    Changed(String),
}

/// Asks the recorded question again, with the facts and the day as they were recorded.
///
/// For a new load put today's facts into the question and use [`judge_heat`].
pub fn ask_again(reference: &Reference, record: &PermitRecord) -> Again {
    match judge_heat(reference, &record.question) {
        Verdict::Refusal(refusal) => Again::Changed(format!(
            "refused now ({}): {}",
            refusal.code, refusal.reason
        )),
        Verdict::Permit(permit) => {
            let (old, new) = (&record.chosen, permit.chosen());
            // The wording of sources and notes may be improved; the figures may not move.
            let same = old.minutes == new.minutes
                && old.psi == new.psi
                && old.dial_shows_psi == new.dial_shows_psi
                && old.row_key == new.row_key
                && keys(&record.conditions) == keys(permit.conditions());
            if same {
                Again::Same(permit)
            } else {
                let figure = |minutes: u32, psi: Option<u32>| match psi {
                    Some(psi) => format!("{minutes} min at {psi} psi"),
                    None => format!("{minutes} min"),
                };
                Again::Changed(format!(
                    "{} then (row {}, edition {}), {} now (row {}, edition {})",
                    figure(old.minutes, old.psi),
                    old.row_key,
                    record.edition,
                    figure(new.minutes, new.psi),
                    new.row_key,
                    reference.edition()
                ))
            }
        }
    }
}

fn keys(statements: &[crate::permit::Statement]) -> Vec<&str> {
    statements.iter().map(|s| s.key.as_str()).collect()
}
