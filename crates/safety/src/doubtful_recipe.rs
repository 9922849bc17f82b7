//! Recipes that no permit rests on, for a batch as for a change: one that stands on the doubtful
//! list as shown only, or one with an amount from memory.

use reference::{DoubtVerdict, Mark, RecipeSheet, Reference};

/// Why no permit rests on a recipe, and where that was read; `None` where one may.
pub(crate) fn why_no_permit<'a>(
    reference: &'a Reference,
    sheet: &'a RecipeSheet,
) -> Option<(&'a str, &'a str)> {
    let doubts = reference.recipe_doubts(&sheet.key);
    let shown_only = doubts
        .into_iter()
        .find(|doubt| doubt.verdict == DoubtVerdict::ShowOnly);
    let memory = sheet.rows.iter().any(|row| row.mark == Mark::Memory);
    shown_only
        .map(|doubt| (doubt.why.as_str(), doubt.source.as_str()))
        .or(memory.then_some(("an amount is from memory", &sheet.source)))
}
