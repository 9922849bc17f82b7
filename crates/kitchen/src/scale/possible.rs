//! How many batches the goods of a kitchen allow.

use quantity::{Exact, exact_text, floor};
use serde::{Deserialize, Serialize};

use crate::error::KitchenError;
use crate::recipe::{Amount, Recipe};

/// How many batches the goods at hand allow.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct BatchesPossible {
    /// Whole batches.
    pub whole: u32,
    /// What each of the goods would allow.
    pub limits: Vec<BatchLimit>,
    /// The ingredient that runs out first.
    pub limited_by: String,
    /// What is left of each of the goods after the whole batches.
    pub left: Vec<(String, Amount)>,
}

/// What one of the goods allows.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct BatchLimit {
    /// Ingredient key.
    pub ingredient: String,
    /// Batches it would allow.
    #[serde(with = "exact_text")]
    pub batches: Exact,
}

/// `floor(limiting ingredient / its amount in one batch)`. Goods not named are taken as enough.
/// Errors: an ingredient the recipe does not have, measured in another way, or overflow.
pub fn batches_possible(
    recipe: &Recipe,
    at_hand: &[(String, Amount)],
) -> Result<BatchesPossible, KitchenError> {
    let mut limits = Vec::new();
    let mut needs = Vec::new();
    for (key, there) in at_hand {
        let line = recipe
            .ingredients
            .iter()
            .find(|ingredient| ingredient.key == *key && ingredient.per_jar.is_none())
            .ok_or_else(|| KitchenError::UnknownIngredient {
                recipe: recipe.title.clone(),
                text: key.clone(),
                known: known_keys(recipe),
            })?;
        let wrong = || KitchenError::WrongMeasure {
            ingredient: line.name.clone(),
            needed: line.high.measured_by(),
        };
        let batches = there.ratio(line.high)?.ok_or_else(wrong)?;
        limits.push(BatchLimit {
            ingredient: key.clone(),
            batches,
        });
        needs.push((key.clone(), *there, line.high));
    }
    let tightest = limits.iter().min_by(|a, b| a.batches.cmp(&b.batches));
    let (fewest, limited_by) = match tightest {
        Some(limit) => (limit.batches, limit.ingredient.clone()),
        None => (Exact::from_integer(0), String::new()),
    };
    let whole = u32::try_from(floor(fewest).max(0)).unwrap_or(u32::MAX);
    let taken = Exact::from_integer(i128::from(whole));
    let left = needs
        .into_iter()
        .map(|(key, there, need)| Ok(there.less(need.times(taken)?)?.map(|rest| (key, rest))))
        .collect::<Result<Vec<_>, KitchenError>>()?;
    Ok(BatchesPossible {
        whole,
        limits,
        limited_by,
        left: left.into_iter().flatten().collect(),
    })
}

fn known_keys(recipe: &Recipe) -> String {
    let keys: Vec<&str> = recipe
        .ingredients
        .iter()
        .filter(|ingredient| ingredient.per_jar.is_none())
        .map(|ingredient| ingredient.key.as_str())
        .collect();
    keys.join(", ")
}
