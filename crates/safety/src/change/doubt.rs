//! A recipe that no permit rests on has no shelf, changed or not.

use super::Case;
use super::verdict::Finding;
use crate::codes::RECIPE_DOUBTFUL;
use crate::doubtful_recipe::why_no_permit;
use reference::ChangeAnswer;

/// What is doubtful about the recipe itself, if anything.
pub(super) fn finding(case: &Case<'_>) -> Option<Finding> {
    let (why, source) = why_no_permit(case.reference, case.sheet?)?;
    Some(Finding {
        rule: RECIPE_DOUBTFUL.to_owned(),
        answer: ChangeAnswer::Refuse,
        text: format!("No permit rests on this recipe, as printed or changed: {why}."),
        source: source.to_owned(),
        other_reading: None,
    })
}
