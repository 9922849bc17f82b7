//! Rules about method and pack style.

use super::offers::{self, one_of};
use super::{Case, Draft};
use crate::codes::{LOW_ACID_NEEDS_PRESSURE, METHOD_NOT_LISTED, PACK_NOT_LISTED};
use crate::numbers::limit_source;
use crate::refusal::{Offer, Refusal};
use reference::{AcidClass, QuestionEffect, TablePack};

/// Low-acid food goes into a pressure canner or into no jar.
pub(super) fn low_acid_under_pressure<'a>(
    case: &Case<'a>,
    _draft: &mut Draft<'a>,
) -> Result<(), Refusal> {
    if case.food.acid_class != AcidClass::LowAcid || case.method.is_pressure() {
        return Ok(());
    }
    Err(Refusal::new(
        LOW_ACID_NEEDS_PRESSURE,
        format!(
            "{} is low-acid: no process in {} exists for it.",
            case.food.title, case.method
        ),
        "Use a pressure canner at the printed pressure, or freeze it.",
        limit_source(case.reference, "class:low-acid", "pressure-canner-only"),
    )
    .offering(offers::methods(case, None)))
}

/// Keeps the rows of the method; the food must have some.
pub(super) fn method<'a>(case: &Case<'a>, draft: &mut Draft<'a>) -> Result<(), Refusal> {
    draft
        .candidates
        .retain(|candidate| candidate.row.method == case.row_method);
    if draft.candidates.is_empty() {
        return Err(Refusal::new(
            METHOD_NOT_LISTED,
            format!(
                "{}: no printed process for {}.",
                case.food.title, case.method
            ),
            "Use a method that the tables print, or freeze it.",
            case.food.source.clone(),
        )
        .offering(offers::methods(case, None)));
    }
    Ok(())
}

/// Keeps the rows of the pack style.
pub(super) fn pack<'a>(case: &Case<'a>, draft: &mut Draft<'a>) -> Result<(), Refusal> {
    let label = case
        .reference
        .questions_for(&case.food.food)
        .into_iter()
        .find(|q| q.effect == QuestionEffect::EitherPack);
    if let Some(label) = label {
        draft.fired(
            "pack-label",
            format!("{}: {}.", label.text, label.note),
            label.source.clone(),
        );
        return Ok(());
    }
    let listed: Vec<TablePack> = draft.candidates.iter().map(|c| c.row.pack).collect();
    draft
        .candidates
        .retain(|candidate| candidate.row.pack.serves(case.question.pack));
    if draft.candidates.is_empty() {
        let words: Vec<String> = one_of(listed.iter().map(|p| p.to_string()));
        return Err(Refusal::new(
            PACK_NOT_LISTED,
            format!(
                "{} in {}: no printed process for {} pack.",
                case.food.title, case.method, case.question.pack
            ),
            "Pack it as printed; the time of one pack never serves the other.",
            limit_source(case.reference, "all", "pack-style-as-listed"),
        )
        .offering(
            words
                .into_iter()
                .map(|word| Offer {
                    kind: "pack",
                    text: format!("{word} pack"),
                    value: word,
                })
                .collect(),
        ));
    }
    Ok(())
}
