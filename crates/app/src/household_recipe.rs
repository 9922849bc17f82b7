//! A household's own recipes: text or a recipe card in, a reading out; what is kept is the text
//! with its answers, and the reading is made anew each time.

mod json_ld;

pub use json_ld::to_json_ld;

use crate::error::AppError;
use kitchen::recipe_text::{Answers, Reading, WrittenRecipe, read, state_of_testing};
use reference::Reference;
use safety::HouseholdVerdict;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// What the store keeps of a recipe.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) struct Kept {
    /// As written.
    #[serde(flatten)]
    pub recipe: WrittenRecipe,
    /// What was answered.
    #[serde(default)]
    pub answers: Answers,
}

/// A recipe that came in, and what of it has no place here.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct CameIn {
    pub recipe: WrittenRecipe,
    /// Properties of a card that are not kept, by name.
    pub not_kept: Vec<String>,
}

/// Largest text taken as one recipe, in bytes (our decision: a card fills a page, not a book).
const LARGEST: usize = 100_000;

/// Reads a text file or a recipe card; which of the two it is shows in its first letter.
///
/// # Errors
/// A card that is no JSON, or in which no recipe stands; a text of more than [`LARGEST`] bytes.
pub(crate) fn came_in(text: &str) -> Result<CameIn, AppError> {
    if text.len() > LARGEST {
        return Err(AppError::input(
            "text",
            "The text is longer than a recipe.",
            "Give one recipe at a time.",
        ));
    }
    let text = text.trim_start_matches('\u{feff}');
    if text.trim_start().starts_with(['{', '[']) {
        return json_ld::from_json_ld(text);
    }
    Ok(CameIn {
        recipe: WrittenRecipe::from_text(text),
        not_kept: Vec::new(),
    })
}

/// The answers of a request.
///
/// # Errors
/// A question there is not, or an answer that is none of its choices.
pub(crate) fn answers(given: &BTreeMap<String, String>) -> Result<Answers, AppError> {
    Answers::from_pairs(
        given
            .iter()
            .map(|(key, answer)| (key.as_str(), answer.as_str())),
    )
    .map_err(|error| {
        AppError::input(
            &format!("answers.{}", error.key),
            error.cause,
            error.example,
        )
    })
}

/// The recipe as read, and what it is by the gate; no verdict where there are no lines.
pub(crate) fn judged(
    recipe: &WrittenRecipe,
    answers: &Answers,
) -> (Reading, Option<HouseholdVerdict>) {
    let reference = Reference::embedded();
    let reading = read(reference, recipe, answers);
    // The only error is a recipe without ingredient lines, which the reading shows by itself.
    let verdict = state_of_testing(reference, &reading).ok();
    (reading, verdict)
}

/// The key of a title: "Aunt's relish, hot" becomes `aunt-s-relish-hot`.
pub(crate) fn key_of(title: &str) -> String {
    let mut key = String::new();
    for letter in title.to_lowercase().chars() {
        if letter.is_alphanumeric() {
            key.push(letter);
        } else if !key.is_empty() && !key.ends_with('-') {
            key.push('-');
        }
    }
    let key = key.trim_end_matches('-');
    if key.is_empty() {
        "recipe".to_owned()
    } else {
        key.to_owned()
    }
}
