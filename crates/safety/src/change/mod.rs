//! May I change this? A tested recipe and a list of edits: an answer for each edit, and one for
//! the whole. The rules are rows: `changes.csv` and `limits.csv` say what is safe,
//! `change_triggers.csv` says which edit calls which of them. What no rule names is untested, and
//! untested food goes into the refrigerator or the freezer, never on a shelf.
//!
//! No permit is made here: what is allowed still has to pass [`crate::judge_heat`].

mod doubt;
mod edit;
mod even;
mod fact;
mod household;
mod line;
mod nearest;
mod rule;
mod say;
mod verdict;
mod whole;

pub use edit::{Amount, ChangeError, Edit, Measure, RecipeChange};
pub use household::{
    HouseholdLine, HouseholdRecipe, HouseholdVerdict, Nearest, RecipeState, judge_household_recipe,
};
pub use verdict::{ChangeVerdict, ColdOnly, EditVerdict, Finding};

use line::Line;
use reference::{
    AcidClass, ChangeAnswer, ChangeTrigger, FoodRow, ProcessRow, RecipeSheet, Reference,
};
use whole::{CHECKS, Check};

/// Key of what is found where nothing was changed.
pub const AS_PRINTED: &str = "as-printed";
/// Key of what is found where no rule names the change.
pub const UNTESTED: &str = "untested";
/// Keys of findings that stand in no published table.
pub const OWN_RULES: &[&str] = &[
    AS_PRINTED,
    UNTESTED,
    "low-acid-total",
    "onion-or-pepper-total",
    "acid-total",
    "acid-water-food",
    crate::codes::RECIPE_DOUBTFUL,
];

/// The question with its recipe found, and the rules it is held against.
pub(crate) struct Case<'a> {
    reference: &'a Reference,
    sheet: Option<&'a RecipeSheet>,
    food: Option<&'a FoodRow>,
    printed: Vec<Line>,
    triggers: Vec<&'a ChangeTrigger>,
    checks: &'a [Check],
}

impl<'a> Case<'a> {
    fn key(&self) -> &str {
        self.sheet
            .map_or_else(|| self.food_key(), |sheet| &sheet.key)
    }

    fn food_key(&self) -> &str {
        self.food.map_or("", |food| &food.food)
    }

    fn class(&self) -> Option<AcidClass> {
        self.food.map(|food| food.acid_class)
    }

    fn processes(&self) -> Vec<&'a ProcessRow> {
        self.reference.processes_for(self.food_key())
    }

    /// Words of manners that some rule names.
    fn manners(&self) -> Vec<&'a str> {
        self.reference
            .change_triggers()
            .iter()
            .filter(|trigger| trigger.edits().any(|edit| edit == "manner"))
            .flat_map(ChangeTrigger::of)
            .collect()
    }
}

/// The manners of working that published rules name, for a form or a message.
pub fn manners(reference: &Reference) -> Vec<String> {
    let mut words: Vec<String> = reference
        .change_triggers()
        .iter()
        .filter(|trigger| trigger.edits().any(|edit| edit == "manner"))
        .flat_map(ChangeTrigger::of)
        .map(|word| {
            // One word for the cook; whether the recipe offers it is for the tables to say.
            word.trim_end_matches("-unlisted")
                .trim_end_matches("-listed")
                .to_owned()
        })
        .collect();
    words.sort();
    words.dedup();
    words
}

/// Whether a tested recipe, or a food of the tables, may be changed in this way.
///
/// # Errors
/// A recipe, line, amount or word that is not understood, by its field.
pub fn judge_change(
    reference: &Reference,
    change: &RecipeChange,
) -> Result<ChangeVerdict, ChangeError> {
    judge_by(
        reference,
        change,
        reference.change_triggers().iter().collect(),
        CHECKS,
    )
}

/// The verdict of a list of rules; the product always uses all of them.
fn judge_by<'a>(
    reference: &'a Reference,
    change: &RecipeChange,
    triggers: Vec<&'a ChangeTrigger>,
    checks: &'a [Check],
) -> Result<ChangeVerdict, ChangeError> {
    let case = case(reference, &change.recipe, triggers, checks)?;
    let edits = even::gathered(&case.printed, &change.edits)?;
    let mut now = case.printed.clone();
    let mut judged = Vec::new();
    for (number, edit) in &edits {
        let facts = fact::take_apart(&case, edit, *number, &mut now)?;
        let mut findings: Vec<Finding> = Vec::new();
        for finding in facts.iter().flat_map(|fact| rule::findings(&case, fact)) {
            if !findings.contains(&finding) {
                findings.push(finding);
            }
        }
        if findings.is_empty() {
            findings.push(rule::as_printed(reference));
        }
        let answer = verdict::strictest(&findings);
        judged.push(EditVerdict {
            edit: edit.clone(),
            words: say::edit(&case.printed, edit),
            answer,
            findings,
            instead: if answer == ChangeAnswer::Refuse {
                say::instead(&case.printed, edit)
            } else {
                String::new()
            },
        });
    }
    let mut whole = whole::check(&case, &now)?;
    whole.extend(doubt::finding(&case));
    let answer = judged
        .iter()
        .map(|edit| edit.answer)
        .max()
        .unwrap_or(ChangeAnswer::Allow)
        .max(verdict::strictest(&whole));
    let oil = now
        .iter()
        .any(|line| line.kind == Some(reference::IngredientKind::Oil));
    let title = case.sheet.map(|sheet| sheet.title.clone());
    let title = title
        .or_else(|| case.food.map(|food| food.title.clone()))
        .unwrap_or_default();
    let source = case.sheet.map(|sheet| sheet.source.clone());
    let source = source
        .or_else(|| case.food.map(|food| food.source.clone()))
        .unwrap_or_default();
    Ok(ChangeVerdict {
        recipe: case.key().to_owned(),
        food: case.food.map(|food| food.food.clone()),
        source,
        answer,
        edits: judged,
        whole,
        cold_only: (answer == ChangeAnswer::Refuse)
            .then(|| verdict::cold_only(reference, &title, oil)),
        title,
    })
}

/// Finds the recipe, or the food that is put up without one.
fn case<'a>(
    reference: &'a Reference,
    key: &str,
    triggers: Vec<&'a ChangeTrigger>,
    checks: &'a [Check],
) -> Result<Case<'a>, ChangeError> {
    let key = key.trim();
    let sheet = reference.recipe(key);
    let food = reference.food(sheet.and_then(|sheet| sheet.food.as_deref()).unwrap_or(key));
    if sheet.is_none() && food.is_none() {
        return Err(unknown(reference, key));
    }
    Ok(Case {
        reference,
        sheet,
        food,
        printed: line::printed(reference, reference.recipe_rows(key)),
        triggers,
        checks,
    })
}

fn unknown(reference: &Reference, key: &str) -> ChangeError {
    let near: Vec<&str> = reference
        .suggest_recipe(key)
        .iter()
        .map(|sheet| sheet.key.as_str())
        .collect();
    ChangeError::new(
        "recipe",
        format!("«{key}» is no tested recipe and no food of the tested tables."),
        if near.is_empty() {
            "Write the key of a tested recipe, such as tomato-salsa-paste-tomatoes.".to_owned()
        } else {
            format!("Is one of these meant: {}?", near.join(", "))
        },
    )
}

#[cfg(test)]
mod tests;
