//! A recipe as one piece: what the tested tables print and what a household needs beside it.
//!
//! Nothing here permits anything. The tables' times and pressures stay in `reference`, and the
//! gate in `safety` decides; a recipe only says which question to ask it.

use std::sync::Arc;

use quantity::{Exact, Mass, Volume, exact_text};
use reference::{AcidClass, Jar, Pack};
use serde::{Deserialize, Serialize};

use crate::steps::{CannerRoutines, Routine};

mod amount;
mod book;
mod food;
mod garden;
mod line;
mod read;
mod word;

pub use amount::{Amount, CountWord};
pub use book::{RecipeBook, recipes};
pub(crate) use food::acid_choices;
pub use word::{Acidity, Basis, Role, Route, UnknownWord};

/// One way for food to leave the counter.
#[derive(Debug, Clone)]
pub struct Recipe {
    /// Key, such as `tomato-juice`.
    pub key: String,
    /// Title as shown.
    pub title: String,
    /// Which kind of keeping it is.
    pub route: Route,
    /// Key of the tested recipe behind it; none where only a food's table stands behind it.
    pub table_recipe: Option<String>,
    /// The food whose process table the gate reads; none for routes without heat.
    pub food: Option<String>,
    /// Group of the food, such as `pickle`; empty without a food.
    pub group: String,
    /// Acid class of the food.
    pub acid_class: Option<AcidClass>,
    /// Pack to ask the gate for.
    pub pack: Option<Pack>,
    /// Jars that may be asked for, the usual one first. Whether one is permitted says the gate.
    pub jar_choices: Vec<Jar>,
    /// What a batch is reckoned by.
    pub basis: Basis,
    /// Ingredient lines of one batch, in printed order.
    pub ingredients: Vec<Ingredient>,
    /// What one batch makes; none where no figure is known.
    pub yields: Option<Yield>,
    /// Every printed way from pounds of produce to quarts.
    pub factors: Vec<Factor>,
    /// Acids for each jar: one of them, whole.
    pub acid_choices: Vec<AcidChoice>,
    /// Which crops feed which ingredient.
    pub uses: Vec<CropUse>,
    /// May several batches be cooked in one pot? Never for gels.
    pub may_multiply: bool,
    /// Whether a harvest plan offers it.
    pub offered: bool,
    /// Headspace of the food's table in inches.
    pub headspace_in: Option<Exact>,
    /// Facts worth showing, each with its source.
    pub facts: Vec<Fact>,
    /// Blanching, drying and fermenting times where the route has them.
    pub times: RouteTimes,
    /// Days a part jar keeps in the refrigerator (house rule).
    pub fridge_days: i64,
    /// How the work goes: name of the step form.
    pub form: String,
    /// Its steps, holds and waits.
    pub routine: Arc<Routine>,
    /// The steps of the canners, for heat recipes.
    pub canners: Arc<CannerRoutines>,
    /// A caution of our own; empty when none.
    pub note: String,
    /// Where the recipe was read, fit to show.
    pub source: String,
}

/// One ingredient line of one batch.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Ingredient {
    /// Key as in the table.
    pub key: String,
    /// Name as shown.
    pub name: String,
    /// Least amount; equal to `high` when no range is printed.
    pub low: Amount,
    /// Most.
    pub high: Amount,
    /// What it does in the jar.
    pub role: Role,
    /// Acidity of produce.
    pub acidity: Option<Acidity>,
    /// May be left out.
    pub optional: bool,
    /// Lines of one recipe with the same word are alternatives: one of them is used.
    pub choice: Option<String>,
    /// Poured off again: it does not stay in the jar.
    pub drained_off: bool,
    /// Set when the amount is per jar of this size, not per batch.
    pub per_jar: Option<Jar>,
    /// Grams a level cup weighs, where a table prints it.
    #[serde(with = "exact_text::option")]
    pub grams_per_cup: Option<Exact>,
    /// Printed note.
    pub note: String,
}

/// What one batch makes.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Yield {
    /// Fewest containers.
    #[serde(with = "exact_text")]
    pub low: Exact,
    /// Most containers.
    #[serde(with = "exact_text")]
    pub high: Exact,
    /// Container key as printed: `pint`, `pint-bag`, ...
    pub container: String,
    /// What one container holds.
    pub volume: Volume,
}

/// A printed way from pounds to quarts.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Factor {
    /// Which line of the page it is.
    pub line: FactorLine,
    /// In words: "23 lb for a load of 7 quarts".
    pub words: String,
    /// Fewest quarts a pound makes.
    #[serde(with = "exact_text")]
    pub quarts_per_pound_low: Exact,
    /// Most.
    #[serde(with = "exact_text")]
    pub quarts_per_pound_high: Exact,
    /// Where it was read.
    pub source: String,
}

/// The kinds of yield lines a page prints.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum FactorLine {
    /// Pounds for a canner load of 7 quarts.
    LoadOfQuarts,
    /// Pounds for a canner load of 9 pints.
    LoadOfPints,
    /// Pounds per quart.
    PerQuart,
    /// Quarts from a bushel.
    Bushel,
    /// Quarts from another container (crate, lug, bag).
    OtherContainer,
}

/// One acid for each jar.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AcidChoice {
    /// Key, such as `bottled-lemon-juice`.
    pub acid: String,
    /// Name as shown.
    pub name: String,
    /// Printed amounts by jar.
    pub printed: Vec<(Jar, Volume)>,
    /// Jars whose printed amount stands in an older copy only.
    pub older_copy: Vec<Jar>,
    /// Share of the jar's volume, from the largest printed jar.
    pub share: Exact,
    /// Where it was read.
    pub source: String,
}

/// Crops that feed one ingredient.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct CropUse {
    /// Ingredient key.
    pub ingredient: String,
    /// Crop keys, any mix of them; `*` alone means every crop.
    pub crops: Vec<String>,
    /// Grades that may be used; empty: what the grade table allows for the route.
    pub grades: Vec<String>,
    /// Least weight as picked for one batch.
    pub low: Mass,
    /// Most; a plan reckons with this one.
    pub high: Mass,
    /// Where the weight comes from.
    pub source: String,
}

impl CropUse {
    /// Whether a crop may feed this ingredient.
    pub fn takes_crop(&self, crop: &str) -> bool {
        self.crops.iter().any(|known| known == "*" || known == crop)
    }

    /// Pounds as picked for one batch, the figure a plan reckons with.
    pub fn pounds_per_batch(&self) -> Exact {
        self.high.in_unit(quantity::MassUnit::Pound)
    }
}

/// A fact with its source.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Fact {
    /// What is said, such as "blanch 3 minutes in boiling water".
    pub text: String,
    /// Where it was read, or "common practice, no source".
    pub source: String,
}

/// Times that belong to routes without a canner, in minutes unless another unit is named.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct RouteTimes {
    /// Blanching in boiling water.
    pub blanch: Option<Exact>,
    /// Drying, least and most.
    pub dry: Option<(Exact, Exact)>,
    /// Fermenting, least and most.
    pub ferment: Option<(Exact, Exact)>,
    /// Months of best quality, the lower end of what is printed: in the freezer at 0 F, or dried.
    pub best_months: Option<Exact>,
}

impl Recipe {
    /// The ingredient that is the batch's measure: the first produce line.
    pub fn main_produce(&self) -> Option<&Ingredient> {
        self.ingredients
            .iter()
            .find(|ingredient| ingredient.role == Role::Produce && !ingredient.optional)
    }

    /// Pounds of produce one batch of a recipe reckoned by weight stands for.
    pub fn batch_mass(&self) -> Option<Mass> {
        match (self.basis, self.main_produce()?.high) {
            (Basis::Pounds, Amount::Mass(mass)) => Some(mass),
            _ => None,
        }
    }

    /// Volume one batch of a recipe reckoned by volume stands for.
    pub fn batch_volume(&self) -> Option<Volume> {
        match (self.basis, self.main_produce()?.high) {
            (Basis::Volume, Amount::Volume(volume)) => Some(volume),
            _ => None,
        }
    }

    /// Is it a gel, set by sugar, acid and pectin?
    pub fn is_gel(&self) -> bool {
        self.acid_class == Some(AcidClass::SugarPreserve)
            || matches!(self.group.as_str(), "jam" | "jelly" | "spread")
    }

    /// Is it a ferment, made safe by its salt?
    pub fn is_ferment(&self) -> bool {
        self.group == "ferment"
    }

    /// Whether any ingredient takes this crop.
    pub fn takes_crop(&self, crop: &str) -> bool {
        self.uses.iter().any(|one| one.takes_crop(crop))
    }
}
