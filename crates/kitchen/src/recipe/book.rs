//! Puts tables and household facts together into the book of recipes.

use std::collections::BTreeMap;
use std::sync::Arc;

use quantity::{Exact, Mass, MassUnit, Volume, VolumeUnit, parse};
use reference::{AcidClass, FoodRow, Mark, Pack, Printed, Reference};

use super::food::{acid_choices, factors, jar_choices};
use super::line::{container, ingredient, shown_name};
use super::read::{HouseRow, UseRow, house_rows, list, use_rows};
use super::{
    Acidity, Amount, Basis, CropUse, Fact, Ingredient, Recipe, Role, Route, RouteTimes, Yield,
};
use crate::closest::{closeness, normal};
use crate::error::KitchenError;
use crate::steps::{CannerRoutines, Routines};

/// All recipes by key.
#[derive(Debug, Clone, Default)]
pub struct RecipeBook {
    recipes: Vec<Recipe>,
    by_key: BTreeMap<String, usize>,
    /// Lines of the tables that could not be read; empty in a sound program (tested).
    pub problems: Vec<String>,
}

impl RecipeBook {
    /// The recipe with this key. Error: unknown, with the nearest keys.
    pub fn get(&self, key: &str) -> Result<&Recipe, KitchenError> {
        self.by_key
            .get(key)
            .and_then(|at| self.recipes.get(*at))
            .ok_or_else(|| KitchenError::UnknownRecipe {
                text: key.to_owned(),
                hint: self.hint(key),
            })
    }

    /// Every recipe, in table order.
    pub fn all(&self) -> &[Recipe] {
        &self.recipes
    }

    /// Recipes a harvest plan may offer for a crop.
    pub fn for_crop(&self, crop: &str) -> Vec<&Recipe> {
        self.recipes
            .iter()
            .filter(|recipe| recipe.offered && recipe.takes_crop(crop))
            .collect()
    }

    /// The recipes whose keys share most words with what was typed.
    fn hint(&self, text: &str) -> String {
        let typed = normal(text);
        let mut near: Vec<(usize, usize, &str)> = self
            .recipes
            .iter()
            .filter_map(|recipe| {
                let name = normal(&recipe.key);
                let meant = |word: &str| name.split(' ').any(|known| same_word(word, known));
                let met = typed.split(' ').filter(|word| meant(word)).count();
                let extra = name.split(' ').count().saturating_sub(met);
                (met > 0).then_some((usize::MAX - met, extra, recipe.key.as_str()))
            })
            .collect();
        near.sort_unstable();
        let keys: Vec<&str> = near.into_iter().take(3).map(|(_, _, key)| key).collect();
        if keys.is_empty() {
            String::new()
        } else {
            format!("; did you mean {}?", keys.join(", "))
        }
    }
}

/// Begun alike, or misspelt by little.
fn same_word(typed: &str, known: &str) -> bool {
    let start: String = typed.chars().take(3).collect();
    let most = start.chars().count().saturating_sub(1).max(2);
    let start: String = start.chars().take(most).collect();
    closeness(typed, known).is_some() || (typed.len() > 2 && known.starts_with(&start))
}

/// Builds the book from the tables. A line that cannot be read is named in `problems` and its
/// recipe left out: a recipe with a hole in it is never shown.
pub fn recipes(reference: &Reference) -> RecipeBook {
    let mut book = RecipeBook::default();
    let (rows, uses) = match (house_rows(), use_rows()) {
        (Ok(rows), Ok(uses)) => (rows, uses),
        (rows, uses) => {
            book.problems.extend(
                rows.err()
                    .iter()
                    .chain(uses.err().iter())
                    .map(ToString::to_string),
            );
            return book;
        }
    };
    let routines = match Routines::read(reference) {
        Ok(routines) => routines,
        Err(problem) => {
            book.problems.push(problem);
            return book;
        }
    };
    let canners = routines.canners();
    for row in &rows {
        match recipe(reference, &routines, &canners, row, &uses) {
            Ok(recipe) => {
                book.by_key.insert(recipe.key.clone(), book.recipes.len());
                book.recipes.push(recipe);
            }
            Err(problem) => book.problems.push(format!("{}: {problem}", row.key)),
        }
    }
    for one in &uses {
        if !book.by_key.contains_key(&one.recipe) {
            book.problems
                .push(format!("uses: no recipe {}", one.recipe));
        }
    }
    book
}

fn recipe(
    reference: &Reference,
    routines: &Routines,
    canners: &Arc<CannerRoutines>,
    row: &HouseRow,
    uses: &[UseRow],
) -> Result<Recipe, String> {
    let text = |error: &dyn std::fmt::Display| error.to_string();
    let route: Route = row.route.parse().map_err(|e| text(&e))?;
    let basis: Basis = row.basis.parse().map_err(|e| text(&e))?;
    let food = match row.food.as_str() {
        "" => None,
        key => Some(reference.food(key).ok_or(format!("no food {key}"))?),
    };
    let pack = match row.pack.as_str() {
        "" => None,
        pack => Some(pack.parse::<Pack>().map_err(|e| text(&e))?),
    };
    let own: Vec<&UseRow> = uses.iter().filter(|one| one.recipe == row.key).collect();
    let mut recipe = Recipe {
        key: row.key.clone(),
        title: row.title.clone(),
        route,
        table_recipe: (!row.recipe.is_empty()).then(|| row.recipe.clone()),
        food: food.map(|food| food.food.clone()),
        group: food.map(|food| food.group.clone()).unwrap_or_default(),
        acid_class: food.map(|food| food.acid_class),
        pack,
        jar_choices: Vec::new(),
        basis,
        ingredients: Vec::new(),
        yields: None,
        factors: food.map(factors).transpose()?.unwrap_or_default(),
        acid_choices: food.map_or(Ok(Vec::new()), |food| acid_choices(reference, food))?,
        uses: Vec::new(),
        may_multiply: row.separate != "yes",
        offered: row.offer == "yes",
        headspace_in: food
            .and_then(|food| food.headspace_in.as_ref())
            .map(Printed::high),
        facts: Vec::new(),
        times: RouteTimes::default(),
        fridge_days: fridge_days(reference)?,
        form: row.form.clone(),
        routine: routines.get(&row.form)?,
        canners: Arc::clone(canners),
        note: row.note.clone(),
        source: row.source.clone(),
    };
    if let Some(food) = food {
        recipe.source = food.source.clone();
        recipe.jar_choices = jar_choices(reference, food, pack, &row.first_jar)?;
    }
    match recipe.table_recipe.clone() {
        Some(key) => from_sheet(reference, &key, &mut recipe)?,
        None => own_produce(row, food, &own, &mut recipe)?,
    }
    if !row.garden.is_empty() {
        super::garden::add(reference, &row.garden, &mut recipe)?;
    }
    recipe.uses = own
        .iter()
        .map(|one| crop_use(one, &recipe))
        .collect::<Result<_, _>>()?;
    Ok(recipe)
}

/// Ingredients, yield and source of a tested recipe.
fn from_sheet(reference: &Reference, key: &str, recipe: &mut Recipe) -> Result<(), String> {
    let sheet = reference.recipe(key).ok_or(format!("no recipe {key}"))?;
    recipe.source = sheet.source.clone();
    recipe.ingredients = sheet
        .rows
        .iter()
        .map(|row| ingredient(reference, row))
        .collect::<Result<_, _>>()?;
    let Some(first) = sheet.rows.first() else {
        return Err(format!("{key} has no lines"));
    };
    if let Some(low) = &first.yield_amount {
        let high = first.yield_high.as_ref().unwrap_or(low);
        recipe.yields = Some(yields(low.low(), high.high(), &first.yield_unit)?);
    }
    if sheet.rows.iter().any(|row| row.mark == Mark::Memory) {
        recipe.facts.push(Fact {
            text: "part of this recipe was not read in the tested text: no permit rests on it"
                .to_owned(),
            source: sheet.source.clone(),
        });
    }
    Ok(())
}

/// The one ingredient of a recipe that has only a food's table, or no table, behind it.
fn own_produce(
    row: &HouseRow,
    food: Option<&FoodRow>,
    uses: &[&UseRow],
    recipe: &mut Recipe,
) -> Result<(), String> {
    let bad = |error: quantity::QuantityError| error.to_string();
    let mut name = uses
        .first()
        .map_or_else(|| "produce".to_owned(), |one| one.ingredient.clone());
    let pounds = |printed: &Printed| {
        Mass::new(printed.high(), MassUnit::Pound)
            .map(Amount::Mass)
            .map_err(bad)
    };
    let (amount, made) = match (recipe.basis, food) {
        (Basis::Pounds, Some(food)) => {
            // One batch is one canner load of the book.
            let (printed, containers, unit) = match (&food.raw_lb_per_7qt, &food.raw_lb_per_9pt) {
                (Some(printed), _) => (printed, 7, "quart"),
                (None, Some(printed)) => (printed, 9, "pint"),
                (None, None) => return Err("the food prints no pounds for a load".to_owned()),
            };
            let made = yields(
                Exact::from_integer(containers),
                Exact::from_integer(containers),
                unit,
            )?;
            (pounds(printed)?, Some(made))
        }
        (Basis::Volume, _) => {
            let (size, what) = row
                .batch
                .split_at(row.batch.find("qt").map_or(0, |at| at + 2));
            name = what.trim().to_owned();
            let volume = parse::volume(size).map_err(bad)?;
            let quarts = volume.in_unit(VolumeUnit::Quart);
            (
                Amount::Volume(volume),
                Some(yields(quarts, quarts, "quart")?),
            )
        }
        _ => (Amount::Mass(parse::mass(&row.batch).map_err(bad)?), None),
    };
    let low_acid = recipe.acid_class == Some(AcidClass::LowAcid);
    recipe.yields = made;
    recipe.ingredients = vec![Ingredient {
        key: name.clone(),
        name: shown_name(&name),
        low: amount,
        high: amount,
        role: Role::Produce,
        acidity: recipe.acid_class.map(|_| {
            if low_acid {
                Acidity::LowAcid
            } else {
                Acidity::Acid
            }
        }),
        optional: false,
        choice: None,
        drained_off: false,
        per_jar: None,
        grams_per_cup: None,
        note: String::new(),
    }];
    Ok(())
}

pub(super) fn yields(low: Exact, high: Exact, unit: &str) -> Result<Yield, String> {
    let (measure, number) = container(unit).ok_or(format!("container `{unit}` is not known"))?;
    Ok(Yield {
        low,
        high,
        container: unit.to_owned(),
        volume: Volume::new(number, measure).map_err(|error| error.to_string())?,
    })
}

fn crop_use(row: &UseRow, recipe: &Recipe) -> Result<CropUse, String> {
    let line = recipe
        .ingredients
        .iter()
        .find(|ingredient| ingredient.key == row.ingredient)
        .ok_or(format!("no ingredient {}", row.ingredient))?;
    let (low, high, source) = match (line.low, line.high, row.pounds_low.as_str()) {
        (Amount::Mass(low), Amount::Mass(high), "") => (low, high, row.source.clone()),
        (_, _, "") => return Err(format!("{} needs its pounds", row.ingredient)),
        _ => {
            let pounds =
                |text: &str| parse::mass(&format!("{text} lb")).map_err(|error| error.to_string());
            (
                pounds(&row.pounds_low)?,
                pounds(&row.pounds_high)?,
                row.source.clone(),
            )
        }
    };
    Ok(CropUse {
        ingredient: row.ingredient.clone(),
        crops: list(&row.crops),
        grades: list(&row.grades),
        low,
        high,
        source,
    })
}

fn fridge_days(reference: &Reference) -> Result<i64, String> {
    let rule = reference
        .house_rule("fridge-untested-days")
        .ok_or("no house rule fridge-untested-days")?;
    i64::try_from(quantity::floor(rule.number())).map_err(|error| error.to_string())
}
