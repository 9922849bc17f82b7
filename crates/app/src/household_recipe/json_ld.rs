//! Recipe cards of the published vocabulary (schema.org, type Recipe) as JSON-LD, in and out.
//!
//! A card carries no process time and no permit: those are asked for each batch.

use super::CameIn;
use crate::error::AppError;
use kitchen::recipe_text::WrittenRecipe;
use serde_json::{Map, Value, json};

/// Properties that say nothing of the recipe itself.
const SILENT: [&str; 3] = ["@context", "@type", "@id"];

/// The card of a recipe; `key` and the state of testing go along for the reader.
pub fn to_json_ld(recipe: &WrittenRecipe, key: &str, state: &str, words: &str) -> Value {
    let mut card = Map::new();
    let mut put = |name: &str, value: Value| {
        card.insert(name.to_owned(), value);
    };
    put("@context", json!("https://schema.org"));
    put("@type", json!("Recipe"));
    put("identifier", json!(key));
    put("name", json!(recipe.title));
    if !recipe.by.is_empty() {
        put("author", json!({"@type": "Person", "name": recipe.by}));
    }
    if !recipe.from.is_empty() {
        put(
            "isBasedOn",
            json!({"@type": "CreativeWork", "name": recipe.from}),
        );
    }
    if !recipe.makes.is_empty() {
        put("recipeYield", json!(recipe.makes));
    }
    put("recipeIngredient", json!(recipe.lines));
    let steps: Vec<Value> = recipe
        .steps
        .iter()
        .map(|step| json!({"@type": "HowToStep", "text": step}))
        .collect();
    put("recipeInstructions", json!(steps));
    put("creativeWorkStatus", json!(state));
    put("abstract", json!(words));
    Value::Object(card)
}

/// Reads a card: an object of type Recipe, alone, in a list, or in a graph.
///
/// # Errors
/// No JSON, or no recipe in it.
pub(super) fn from_json_ld(text: &str) -> Result<CameIn, AppError> {
    let value: Value = serde_json::from_str(text).map_err(|error| {
        AppError::input(
            "text",
            format!("The text begins like a recipe card and is no JSON: {error}."),
            "Give a JSON-LD card of type Recipe, or plain text that begins with the title.",
        )
    })?;
    let card = find(&value, 0).ok_or_else(|| {
        AppError::input(
            "text",
            "No recipe stands in this JSON.",
            r#"A card has "@type": "Recipe", a "name" and "recipeIngredient"."#,
        )
    })?;
    let mut recipe = WrittenRecipe::default();
    let mut not_kept = Vec::new();
    for (name, value) in card {
        match name.as_str() {
            "name" => recipe.title = texts(value).join(" "),
            "author" => recipe.by = texts(value).join(", "),
            "isBasedOn" => recipe.from = texts(value).join(", "),
            "recipeYield" => recipe.makes = texts(value).join(", "),
            "recipeIngredient" => recipe.lines = texts(value),
            "recipeInstructions" => recipe.steps = texts(value),
            other if SILENT.contains(&other) => {}
            other => not_kept.push(other.to_owned()),
        }
    }
    // What came in another shape than the vocabulary has is named, not lost from sight.
    for (name, empty) in [
        ("recipeIngredient", recipe.lines.is_empty()),
        ("recipeInstructions", recipe.steps.is_empty()),
    ] {
        let given = card.get(name).is_some_and(|value| {
            !matches!(value, Value::Null) && value.as_array().is_none_or(|list| !list.is_empty())
        });
        if given && empty {
            not_kept.push(name.to_owned());
        }
    }
    Ok(CameIn { recipe, not_kept })
}

/// The first object of type Recipe; a card lies at most a few levels deep.
fn find(value: &Value, depth: u8) -> Option<&Map<String, Value>> {
    if depth > 4 {
        return None;
    }
    match value {
        Value::Array(list) => list.iter().find_map(|one| find(one, depth + 1)),
        Value::Object(object) => {
            let is_recipe = object.get("@type").is_some_and(|kind| {
                texts(kind)
                    .iter()
                    .any(|kind| kind.rsplit(['/', ':']).next() == Some("Recipe"))
            });
            if is_recipe {
                return Some(object);
            }
            ["@graph", "mainEntity"]
                .iter()
                .find_map(|name| find(object.get(*name)?, depth + 1))
        }
        _ => None,
    }
}

/// Every text of a value, one line each: a text, a number, a list of them, steps and sections.
fn texts(value: &Value) -> Vec<String> {
    let mut found = Vec::new();
    gather(value, 0, &mut found);
    found
}

fn gather(value: &Value, depth: u8, found: &mut Vec<String>) {
    if depth > 6 {
        return;
    }
    match value {
        Value::String(text) => found.extend(
            text.lines()
                .map(str::trim)
                .filter(|line| !line.is_empty())
                .map(str::to_owned),
        ),
        Value::Number(number) => found.push(number.to_string()),
        Value::Array(list) => {
            for one in list {
                gather(one, depth + 1, found);
            }
        }
        Value::Object(object) => {
            // A section has a name and its steps; a step has a text, which its name repeats.
            let inner = object.get("itemListElement");
            let own = object
                .get("text")
                .or_else(|| object.get("name"))
                .or_else(|| object.get("url"));
            for value in [own, inner].into_iter().flatten() {
                gather(value, depth + 1, found);
            }
        }
        Value::Null | Value::Bool(_) => {}
    }
}
