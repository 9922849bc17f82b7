//! A recipe that no permit rests on has no shelf, changed or not: one with an amount from memory,
//! or one that stands on the doubtful list as shown only.

use super::Case;
use super::verdict::Finding;
use crate::codes::RECIPE_DOUBTFUL;
use reference::{ChangeAnswer, DoubtVerdict, Mark};

/// What is doubtful about the recipe itself, if anything.
pub(super) fn finding(case: &Case<'_>) -> Option<Finding> {
    let sheet = case.sheet?;
    let shown_only = case.reference.doubtful().iter().find(|doubt| {
        doubt.table == "recipes"
            && doubt.key.split('/').next() == Some(sheet.key.as_str())
            && doubt.verdict == DoubtVerdict::ShowOnly
    });
    let memory = sheet.rows.iter().find(|row| row.mark == Mark::Memory);
    let (why, source) = shown_only
        .map(|doubt| (doubt.why.as_str(), &doubt.source))
        .or_else(|| memory.map(|row| ("an amount is from memory", &row.source)))?;
    Some(Finding {
        rule: RECIPE_DOUBTFUL.to_owned(),
        answer: ChangeAnswer::Refuse,
        text: format!("No permit rests on this recipe, as printed or changed: {why}."),
        source: source.clone(),
        other_reading: None,
    })
}
