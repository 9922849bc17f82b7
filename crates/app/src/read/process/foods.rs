//! Foods: by what was typed, by group, and those the house had in hand lately.

use crate::error::AppError;
use crate::facts::Facts;
use crate::view::Choice;
use crate::view::process::FoodGroup;
use kitchen::recipe::RecipeBook;
use reference::{FoodRow, Reference};

/// Most foods suggested for a text.
const SUGGESTED: usize = 5;

/// Most foods shown as lately in hand.
const RECENT: usize = 8;

/// Headings of the page, and the table's groups under each.
const GROUPS: [(&str, &[&str]); 8] = [
    ("Tomatoes", &["tomato"]),
    ("Vegetables", &["vegetable"]),
    (
        "Fruit and juice",
        &["fruit", "juice", "pie-filling", "butter", "syrup"],
    ),
    ("Pickles and kraut", &["pickle", "fruit-pickle", "ferment"]),
    ("Relishes and chutneys", &["relish", "chutney"]),
    ("Salsas and sauces", &["salsa", "sauce"]),
    ("Jams, jellies, spreads", &["jam", "jelly", "spread"]),
    ("Meat, fish, soup", &["meat", "seafood", "soup"]),
];

/// Heading of a group that no heading names.
const OTHER: &str = "Other";

/// All foods under their headings, in the order of the table.
pub(super) fn groups(reference: &Reference) -> Vec<FoodGroup> {
    let heading = |food: &FoodRow| {
        GROUPS
            .iter()
            .find(|(_, groups)| groups.contains(&food.group.as_str()))
            .map_or(OTHER, |(title, _)| *title)
    };
    GROUPS
        .iter()
        .map(|(title, _)| *title)
        .chain([OTHER])
        .map(|title| FoodGroup {
            title: title.to_owned(),
            foods: reference
                .foods()
                .iter()
                .filter(|food| heading(food) == title)
                .map(choice)
                .collect(),
        })
        .filter(|group| !group.foods.is_empty())
        .collect()
}

fn choice(food: &FoodRow) -> Choice {
    Choice::new(&food.food, &food.title)
}

/// Foods of the latest batches, then of what the winter should have.
pub(super) fn recent(reference: &Reference, recipes: &RecipeBook, facts: &Facts) -> Vec<Choice> {
    let batches = facts
        .batches
        .values()
        .rev()
        .map(|batch| batch.recipe.clone());
    let needs = facts
        .house_or_empty()
        .needs
        .into_iter()
        .map(|need| need.product);
    let mut found: Vec<Choice> = Vec::new();
    for recipe in batches.chain(needs) {
        let food = recipes
            .get(&recipe)
            .ok()
            .and_then(|recipe| reference.food(recipe.food.as_deref()?));
        if let Some(food) = food
            && !found.iter().any(|known| known.key == food.food)
        {
            found.push(choice(food));
        }
        if found.len() == RECENT {
            break;
        }
    }
    found
}

/// The food of a key or a title, however its letters are set. Nothing is guessed: what is only
/// like a food is suggested.
pub(super) fn food_of<'a>(reference: &'a Reference, text: &str) -> Result<&'a FoodRow, AppError> {
    if let Some(food) = reference.food(text) {
        return Ok(food);
    }
    let plain = |text: &str| {
        text.to_lowercase()
            .split(|letter: char| !letter.is_alphanumeric())
            .filter(|word| !word.is_empty())
            .collect::<Vec<_>>()
            .join(" ")
    };
    let wanted = plain(text);
    let mut same = reference
        .foods()
        .iter()
        .filter(|food| plain(&food.title) == wanted || plain(&food.food) == wanted);
    if let (Some(food), None) = (same.next(), same.next()) {
        return Ok(food);
    }
    let near: Vec<String> = suggested_foods(text)
        .into_iter()
        .map(|food| food.key)
        .collect();
    Err(AppError::input(
        "food",
        format!("«{text}» is not in the tested tables."),
        if near.is_empty() {
            "See the list of foods; what is not in it is frozen or refrigerated.".to_owned()
        } else {
            format!(
                "Did you mean {}? What is not in the tables is frozen or refrigerated.",
                near.join(", ")
            )
        },
    ))
}

/// Foods whose name resembles what was typed, best first; those of a crop that people call so
/// stand before them: the tables know no «green beans».
pub fn suggested_foods(text: &str) -> Vec<Choice> {
    let reference = Reference::embedded();
    let mut found: Vec<Choice> = of_crop(reference, text);
    found.truncate(SUGGESTED - 2);
    for food in reference.suggest_food(text) {
        if found.iter().all(|known| known.key != food.food) {
            found.push(choice(food));
        }
    }
    found.truncate(SUGGESTED);
    found
}

/// Foods made of one crop and no other, where the text is a name of a crop.
fn of_crop(reference: &Reference, text: &str) -> Vec<Choice> {
    let Ok(crop) = kitchen::find_crop(text) else {
        return Vec::new();
    };
    let mut found: Vec<Choice> = Vec::new();
    for recipe in kitchen::recipe::recipes(reference).all() {
        let of_it = match recipe.uses.as_slice() {
            [only] => only.crops.contains(&crop.key),
            _ => false,
        };
        let food = recipe.food.as_deref().and_then(|key| reference.food(key));
        if let (true, Some(food)) = (of_it, food)
            && found.iter().all(|known| known.key != food.food)
        {
            found.push(choice(food));
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_food_stands_under_one_heading_and_none_under_other() {
        let reference = Reference::embedded();
        let groups = groups(reference);
        let count: usize = groups.iter().map(|group| group.foods.len()).sum();
        assert_eq!(count, reference.foods().len());
        assert!(groups.iter().all(|group| group.title != OTHER));
    }

    #[test]
    fn a_title_in_any_letters_is_its_food_and_a_slip_is_not() {
        let reference = Reference::embedded();
        for text in ["tomato-juice", "Tomato juice", "  TOMATO  JUICE "] {
            assert_eq!(
                food_of(reference, text.trim()).unwrap().food,
                "tomato-juice"
            );
        }
        let error = food_of(reference, "tomatoe juice").unwrap_err();
        assert!(error.action.contains("tomato-juice"), "{}", error.action);
        let beans = suggested_foods("green beans");
        assert_eq!(beans[0].key, "snap-and-italian-beans");
        assert!(suggested_foods("moonfruit").is_empty());
    }
}
