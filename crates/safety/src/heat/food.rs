//! Rules about the food and its recipe.

use super::{Case, Draft};
use crate::codes::{RECIPE_DOUBTFUL, RECIPE_NOT_TESTED, RECIPE_OTHER_FOOD, REFRIGERATOR_ONLY};
use crate::doubtful_recipe::why_no_permit;
use crate::refusal::{Offer, Refusal};
use reference::RecipeSheet;

/// Foods made for the refrigerator have no process.
pub(super) fn refrigerator_only<'a>(case: &Case<'a>, draft: &mut Draft<'a>) -> Result<(), Refusal> {
    if !draft.candidates.is_empty() {
        return Ok(());
    }
    let rows = case.reference.not_recommended_for(&case.food.food, None);
    let Some(row) = rows.first() else {
        return Ok(());
    };
    let printed = case
        .reference
        .limits_for(&case.food.food)
        .into_iter()
        .find(|limit| limit.rule == "refrigerate-only")
        .map_or("refrigerate it", |limit| limit.detail.as_str());
    Err(Refusal::new(
        REFRIGERATOR_ONLY,
        format!("{} has no heat process.", case.food.title),
        format!("{printed}."),
        row.source.clone(),
    ))
}

/// A recipe that is named must be a tested one, and of this food.
pub(super) fn recipe_is_tested<'a>(case: &Case<'a>, draft: &mut Draft<'a>) -> Result<(), Refusal> {
    let Some(key) = &case.question.recipe else {
        if !case.reference.recipes_for_food(&case.food.food).is_empty() {
            draft
                .assumed
                .push("The printed recipe of this food is followed without change.".to_owned());
        }
        return Ok(());
    };
    let Some(sheet) = case.reference.recipe(key) else {
        return Err(Refusal::new(
            RECIPE_NOT_TESTED,
            format!("`{key}` is not a tested recipe."),
            "Follow a tested recipe of this food, or refrigerate or freeze what this one makes.",
            "process/recipes.csv",
        )
        .offering(
            case.reference
                .recipes_for_food(&case.food.food)
                .iter()
                .map(|sheet| Offer {
                    kind: "recipe",
                    value: sheet.key.clone(),
                    text: sheet.title.clone(),
                })
                .collect(),
        ));
    };
    if sheet.food.as_deref() != Some(&case.food.food) {
        return Err(Refusal::new(
            RECIPE_OTHER_FOOD,
            format!(
                "The recipe {} does not use the process of {}.",
                sheet.title, case.food.title
            ),
            match &sheet.food {
                Some(food) => format!("Ask with the food `{food}`."),
                None => "It has no heat process: refrigerate what it makes.".to_owned(),
            },
            sheet.source.clone(),
        ));
    }
    draft.fired(
        "recipe-is-tested",
        format!("Tested recipe: {}, without change.", sheet.title),
        sheet.source.clone(),
    );
    Ok(())
}

/// A recipe with an amount from memory, or outside the guide, carries no permit.
pub(super) fn recipe_is_readable<'a>(
    case: &Case<'a>,
    draft: &mut Draft<'a>,
) -> Result<(), Refusal> {
    let sheets: Vec<&RecipeSheet> = match &case.question.recipe {
        Some(key) => case.reference.recipe(key).into_iter().collect(),
        None => case.reference.recipes_for_food(&case.food.food),
    };
    let mut bad = Vec::new();
    for &sheet in &sheets {
        if let Some((why, source)) = why_no_permit(case.reference, sheet) {
            bad.push((sheet, why, source));
        } else if sheets.len() == 1 {
            // Which of several recipes is meant is not known without a name; only then no mark.
            for doubt in case.reference.recipe_doubts(&sheet.key) {
                draft.mark(
                    "doubtful-recipe",
                    format!("{}: {} kept, {}.", doubt.key, doubt.reading_kept, doubt.why),
                    doubt.source.clone(),
                );
            }
        }
    }
    if let (Some((sheet, why, source)), true) = (bad.first(), bad.len() == sheets.len()) {
        return Err(Refusal::new(
            RECIPE_DOUBTFUL,
            format!("{}: {why}.", sheet.title),
            "Refrigerate or freeze what it makes, or take another recipe.",
            *source,
        ));
    }
    Ok(())
}
