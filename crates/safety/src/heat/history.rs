//! Rules about what the produce has been through.

use super::{Case, Draft};
use crate::codes::{DEAD_OR_FROSTED_VINE, DISEASED, FROZEN_BEFORE, HISTORY_UNKNOWN};
use crate::numbers::{limit_source, source};
use crate::question::Answer;
use crate::refusal::Refusal;

/// Whether the food is tomatoes or has them in its recipe.
fn has_tomatoes(case: &Case<'_>) -> bool {
    case.food.group == "tomato"
        || case
            .reference
            .recipes_for_food(&case.food.food)
            .iter()
            .flat_map(|sheet| &sheet.rows)
            .any(|row| row.role == "produce" && row.ingredient.contains("tomato"))
}

/// Refuses an unknown answer for tomatoes, notes it for other food.
fn unknown(case: &Case<'_>, draft: &mut Draft<'_>, asked: &str) -> Result<(), Refusal> {
    if has_tomatoes(case) {
        return Err(Refusal::new(
            HISTORY_UNKNOWN,
            format!(
                "{}: nobody has said whether the fruit is {asked}.",
                case.food.title
            ),
            "Answer the history of the lot once; until then eat it fresh or freeze it.",
            limit_source(
                case.reference,
                "group:tomato",
                "no-dead-or-frosted-vine-fruit",
            ),
        ));
    }
    draft.assumed.push(format!("The produce is not {asked}."));
    Ok(())
}

/// Tomatoes from dead or frost-killed vines are never canned.
pub(super) fn living_vine<'a>(case: &Case<'a>, draft: &mut Draft<'a>) -> Result<(), Refusal> {
    if !has_tomatoes(case) {
        return Ok(());
    }
    let source = limit_source(
        case.reference,
        "group:tomato",
        "no-dead-or-frosted-vine-fruit",
    );
    match case.question.history.dead_or_frosted_vine {
        Answer::Yes => Err(Refusal::new(
            DEAD_OR_FROSTED_VINE,
            "Tomatoes from a dead or frost-killed vine are never canned: their acid is lower than the table takes for granted.",
            "Eat sound fruit fresh, freeze or dry it; the rest is compost.",
            source,
        )),
        Answer::Unknown => unknown(case, draft, "from a dead or frost-killed vine"),
        Answer::No => {
            draft.fired("living-vine", "From living vines, as told.", source);
            Ok(())
        }
    }
}

/// Diseased produce is not canned.
pub(super) fn no_disease<'a>(case: &Case<'a>, draft: &mut Draft<'a>) -> Result<(), Refusal> {
    match case.question.history.diseased {
        Answer::Yes => Err(Refusal::new(
            DISEASED,
            "Diseased produce, or fruit of a blighted plant, is not for jars.",
            "Eat sound parts fresh or freeze them; the rest is compost, and mouldy food goes to no animal.",
            source(case.reference, "msu-spots"),
        )),
        Answer::Unknown => unknown(case, draft, "diseased or from a blighted plant"),
        Answer::No => Ok(()),
    }
}

/// Produce that has been frozen has a process only where a row says so.
pub(super) fn not_frozen_before<'a>(case: &Case<'a>, draft: &mut Draft<'a>) -> Result<(), Refusal> {
    match case.question.history.frozen_before {
        Answer::No => Ok(()),
        Answer::Unknown => unknown(case, draft, "frozen before"),
        Answer::Yes => match case.reference.frozen_before(&case.food.food) {
            Some(row) => {
                draft.condition(
                    "frozen-before",
                    format!("{}.", row.note),
                    row.source.clone(),
                );
                Ok(())
            }
            None => {
                let foods: Vec<&str> = case
                    .reference
                    .foods_from_frozen()
                    .iter()
                    .map(|row| row.food.as_str())
                    .collect();
                Err(Refusal::new(
                    FROZEN_BEFORE,
                    format!(
                        "{} made of produce that has been frozen: no printed process covers it.",
                        case.food.title
                    ),
                    format!(
                        "Use it from the freezer. Thawed produce has a process only as: {}.",
                        foods.join(", ")
                    ),
                    "process/frozen_before.csv",
                ))
            }
        },
    }
}

/// Split, bruised or fallen produce is trimmed or left out.
pub(super) fn split_fruit<'a>(case: &Case<'a>, draft: &mut Draft<'a>) -> Result<(), Refusal> {
    match case.question.history.split_or_fallen {
        Answer::No => Ok(()),
        Answer::Unknown => unknown(case, draft, "split, bruised or fallen"),
        Answer::Yes => {
            draft.condition(
                "split-fruit",
                "Cut away split and bruised parts generously; fruit with mould or rot is left out.",
                source(case.reference, "common-practice"),
            );
            Ok(())
        }
    }
}
