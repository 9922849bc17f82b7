//! The household's side of the recipes: `data/kitchen/recipes.csv` and `recipe_uses.csv`.

use serde::Deserialize;

/// One line of `data/kitchen/recipes.csv`.
#[derive(Debug, Clone, Deserialize)]
pub(super) struct HouseRow {
    pub key: String,
    pub title: String,
    pub route: String,
    pub recipe: String,
    pub food: String,
    pub pack: String,
    pub form: String,
    pub basis: String,
    pub first_jar: String,
    pub separate: String,
    pub offer: String,
    pub garden: String,
    pub batch: String,
    pub note: String,
    pub source: String,
}

/// One line of `data/kitchen/recipe_uses.csv`.
#[derive(Debug, Clone, Deserialize)]
pub(super) struct UseRow {
    pub recipe: String,
    pub ingredient: String,
    pub crops: String,
    pub grades: String,
    pub pounds_low: String,
    pub pounds_high: String,
    pub source: String,
}

const RECIPES: &str = include_str!("../../../../data/kitchen/recipes.csv");
const USES: &str = include_str!("../../../../data/kitchen/recipe_uses.csv");

pub(super) fn house_rows() -> Result<Vec<HouseRow>, csv::Error> {
    csv::Reader::from_reader(RECIPES.as_bytes())
        .deserialize()
        .collect()
}

pub(super) fn use_rows() -> Result<Vec<UseRow>, csv::Error> {
    csv::Reader::from_reader(USES.as_bytes())
        .deserialize()
        .collect()
}

/// The parts of a cell that holds a list.
pub(super) fn list(cell: &str) -> Vec<String> {
    cell.split(';')
        .map(str::trim)
        .filter(|part| !part.is_empty())
        .map(str::to_owned)
        .collect()
}
