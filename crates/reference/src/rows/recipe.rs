//! Rows of the tested recipes, and a recipe as its rows together.

use super::{row, yes_no};
use crate::number::Printed;
use crate::words::Mark;
use serde::{Deserialize, Serialize};

/// One ingredient line of a tested recipe.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct RecipeRow {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    /// Recipe key.
    pub recipe: String,
    /// As printed.
    pub title: String,
    /// Food whose process it uses; `none` for refrigerator-only recipes.
    pub food: String,
    /// Containers made, low.
    pub yield_amount: Option<Printed>,
    /// Containers made, high.
    pub yield_high: Option<Printed>,
    /// Container.
    pub yield_unit: String,
    /// Ingredient.
    pub ingredient: String,
    /// Amount, low.
    pub amount: Printed,
    /// Amount, high.
    pub amount_high: Option<Printed>,
    /// Unit.
    pub unit: String,
    /// `produce`, `acid`, `liquid`, `salt`, `sweetener`, `spice`, `thickener`, `other`.
    pub role: String,
    /// `low-acid`, `borderline`, `acid`, or empty.
    pub produce_acidity: String,
    /// May be left out.
    #[serde(with = "yes_no")]
    pub optional: bool,
    /// Rows with the same word are alternatives: one of them is used.
    pub choice: String,
    /// `drained-off` = does not stay in the jar.
    pub stage: String,
    /// `batch` or `jar-<size>`.
    pub per: String,
    /// Note.
    pub note: String,
    /// Guide number.
    pub guide: String,
    /// Page where the product begins.
    pub page: String,
    /// How it was read.
    #[serde(rename = "verified")]
    pub mark: Mark,
}

row!(
    RecipeRow,
    "process/recipes.csv",
    page,
    [
        "recipe",
        "title",
        "food",
        "yield_amount",
        "yield_unit",
        "ingredient",
        "amount",
        "unit",
        "role",
        "optional",
        "choice",
        "per",
        "guide",
        "page",
        "verified",
    ]
);

/// A tested recipe: its rows in printed order.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct RecipeSheet {
    /// Key.
    pub key: String,
    /// As printed.
    pub title: String,
    /// Food whose process it uses; `None` for refrigerator-only recipes.
    pub food: Option<String>,
    /// Where it was read, fit to show.
    pub source: String,
    /// Ingredient lines.
    pub rows: Vec<RecipeRow>,
}

impl RecipeSheet {
    /// Groups rows into recipes, in the order of the table.
    pub(crate) fn group(rows: &[RecipeRow]) -> Vec<RecipeSheet> {
        let mut sheets: Vec<RecipeSheet> = Vec::new();
        for row in rows {
            match sheets.iter_mut().find(|sheet| sheet.key == row.recipe) {
                Some(sheet) => sheet.rows.push(row.clone()),
                None => sheets.push(RecipeSheet {
                    key: row.recipe.clone(),
                    title: row.title.clone(),
                    food: (row.food != "none").then(|| row.food.clone()),
                    source: row.source.clone(),
                    rows: vec![row.clone()],
                }),
            }
        }
        sheets
    }
}
