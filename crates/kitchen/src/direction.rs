//! Which way an ingredient may be rounded: the safe direction of its role (ruling 57).

use quantity::Rounding;

use crate::recipe::{Acidity, Ingredient, Recipe, Role};

/// The safe direction of one ingredient in its recipe.
pub fn rounding(recipe: &Recipe, ingredient: &Ingredient) -> Rounding {
    // What is poured off again changes no ratio in the jar.
    if ingredient.drained_off && !recipe.is_ferment() {
        return Rounding::Nearest;
    }
    match ingredient.role {
        Role::Acid => Rounding::Up,
        Role::Produce => match ingredient.acidity {
            Some(Acidity::LowAcid | Acidity::Borderline) => Rounding::Down,
            Some(Acidity::Acid) | None => Rounding::Nearest,
        },
        Role::Liquid | Role::Thickener | Role::Fat => Rounding::Down,
        Role::Salt if recipe.is_ferment() => Rounding::Up,
        Role::Sweetener if recipe.is_gel() => Rounding::Up,
        Role::Salt | Role::Sweetener | Role::Spice | Role::Other => Rounding::Nearest,
    }
}

/// The direction in words for the card: "acid: never less".
pub fn in_words(recipe: &Recipe, ingredient: &Ingredient) -> String {
    let role = match (ingredient.role, ingredient.acidity) {
        (Role::Produce, Some(Acidity::LowAcid)) => "low-acid produce",
        (Role::Produce, Some(Acidity::Borderline)) => "produce near the acid line",
        (Role::Fat, _) => "added fat",
        (role, _) => role.as_str(),
    };
    match rounding(recipe, ingredient) {
        Rounding::Up => format!("{role}: never less"),
        Rounding::Down => format!("{role}: never more"),
        Rounding::Nearest | Rounding::Exact => role.to_owned(),
    }
}
