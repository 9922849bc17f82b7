//! Doubtful cells: some are shown and carry no permit, some carry one with the mark.

use super::{Case, Draft, offers};
use crate::codes::DOUBTFUL_SHOW_ONLY;
use crate::refusal::{Offer, Refusal};
use reference::{DoubtVerdict, DoubtfulRow};

/// Whether a line acts, given the answers of the question.
fn acts(case: &Case<'_>, doubt: &DoubtfulRow) -> bool {
    match doubt.only_if() {
        None => true,
        Some((question, answer)) => case
            .question
            .answers
            .get(question)
            .is_none_or(|given| given == answer),
    }
}

/// Drops rows that are show-only, marks rows that are doubtful.
pub(super) fn doubtful<'a>(case: &Case<'a>, draft: &mut Draft<'a>) -> Result<(), Refusal> {
    let mut kept = Vec::new();
    let mut dropped: Vec<(String, String)> = Vec::new();
    for candidate in std::mem::take(&mut draft.candidates) {
        let doubts: Vec<&DoubtfulRow> = case
            .reference
            .doubts("processes", &candidate.row.key())
            .into_iter()
            .filter(|doubt| acts(case, doubt))
            .collect();
        match doubts.iter().find(|d| d.verdict == DoubtVerdict::ShowOnly) {
            Some(doubt) => dropped.push((
                format!("{} ({})", doubt.reading_kept, doubt.why),
                doubt.source.clone(),
            )),
            None => {
                for doubt in doubts {
                    draft.mark(
                        "doubtful",
                        format!(
                            "{} is read from an older copy: {}.",
                            doubt.reading_kept, doubt.why
                        ),
                        doubt.source.clone(),
                    );
                }
                kept.push(candidate);
            }
        }
    }
    draft.candidates = kept;
    if let (true, Some((what, source))) = (draft.candidates.is_empty(), dropped.first()) {
        let mut offered: Vec<Offer> = other_pairs(case);
        offered.extend(offers::methods(case, draft.place.as_ref().map(|p| p.feet)));
        return Err(Refusal::new(
            DOUBTFUL_SHOW_ONLY,
            format!(
                "{}: {what}. The figure is shown, never permitted.",
                case.food.title
            ),
            "Use another printed pair or method.",
            source.clone(),
        )
        .offering(offered));
    }
    for (what, source) in dropped {
        draft.fired(
            "doubtful-not-offered",
            format!("Not offered: {what}."),
            source,
        );
    }
    Ok(())
}

/// The other numbered pairs of the table that are not doubtful.
fn other_pairs(case: &Case<'_>) -> Vec<Offer> {
    let rows = case.reference.processes_for(&case.food.food);
    offers::one_of(
        rows.into_iter()
            .filter(|row| row.method == case.row_method)
            .filter(|row| {
                case.reference
                    .doubts("processes", &row.key())
                    .iter()
                    .all(|d| d.verdict != DoubtVerdict::ShowOnly || !acts(case, d))
            })
            .map(|row| row.option.to_string()),
    )
    .into_iter()
    .map(|word| Offer {
        kind: "option",
        text: format!("pair {word}"),
        value: word,
    })
    .collect()
}
