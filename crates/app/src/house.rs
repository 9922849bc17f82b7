//! The house: what the household owns and how it works. One record, stored as a whole each time.
//!
//! Nothing in here that safety rests on has a default: no elevation, no process time; no canner,
//! no permit. Counts (jars, lids, bags, freezer room) are what the household stated; what was
//! used since then is taken off by [`crate::balance`].

use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// Everything the household has stated about itself.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct House {
    /// What the household calls itself.
    pub name: String,
    /// Where the household's other devices reach these pages, such as
    /// "http://stillroom.home.arpa:7310"; empty: what is printed carries no square to read.
    pub address: String,
    /// Elevation as typed, such as "950 ft ± 60" or "305 m"; empty when not known.
    pub elevation: String,
    /// Canners.
    pub canners: Vec<Canner>,
    /// Burners that can be used at once.
    pub burners: u32,
    /// Pots, largest first or in any order.
    pub pots: Vec<Pot>,
    /// Food mills.
    pub food_mills: u32,
    /// Sinks.
    pub sinks: u32,
    /// Trays of the dryer.
    pub dryer_trays: u32,
    /// Freezers taken together.
    pub freezer: Option<Freezer>,
    /// Who works, and when.
    pub people: Vec<Person>,
    /// Empty clean jars by size.
    pub jars: Vec<JarCount>,
    /// New lids, by mouth of the jar.
    pub lids_regular: u32,
    /// New wide lids.
    pub lids_wide: u32,
    /// Freezer bags, pint-size.
    pub bags_pint: u32,
    /// Freezer bags, quart-size.
    pub bags_quart: u32,
    /// What is in the pantry.
    pub ingredients: Vec<Ingredient>,
    /// What the winter should have.
    pub needs: Vec<Need>,
    /// Crates the household knows.
    pub crates: Vec<Crate>,
    /// Animals that eat sort-outs, such as "hens".
    pub animals: Vec<String>,
    /// Pounds of fresh produce the household eats a day, over all crops.
    pub fresh_pounds_a_day: String,
    /// "Our jars are metric; follow the maker's metric table" (ruling 1). Off at first.
    pub metric_jars: bool,
    /// What an hour of work is worth, in pounds of surplus food; 12 when empty.
    pub hour_worth_pounds: String,
    /// First minute of a working day, such as "8:00".
    pub day_starts: String,
    /// Latest end of a kitchen day, such as "18:00".
    pub day_ends: String,
    /// Midday break, such as "12:30-13:00"; empty for none.
    pub lunch: String,
}

/// A canner.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Canner {
    /// What the household calls it.
    pub name: String,
    /// "boiling-water", "steam", "dial-gauge", "weighted-gauge" or "dial-with-weight".
    pub kind: String,
    /// Quart jars a load.
    pub quarts: u32,
    /// Pint jars a load.
    pub pints: u32,
    /// Half-pint jars a load.
    pub half_pints: u32,
    /// Dial: its tests, newest first.
    pub gauge_tests: Vec<GaugeTest>,
    /// Dial: a test that is being entered: what the gauge shows minus what is true, in psi. Once
    /// written down it stands in `gauge_tests`.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub gauge_error_psi: String,
    /// Dial: day of the test that is being entered, ISO.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub gauge_tested_on: String,
    /// Dial: who made the test that is being entered.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub gauge_tested_by: String,
    /// Weighted: the weights owned, in psi.
    pub weights_psi: Vec<u32>,
}

/// One test of a dial gauge.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct GaugeTest {
    /// Day, ISO.
    pub on: String,
    /// What the gauge showed minus what was true, in psi, such as "1" or "-1/2".
    pub error_psi: String,
    /// Who tested it; may be empty.
    pub by: String,
}

/// A pot.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Pot {
    /// What the household calls it.
    pub name: String,
    /// Volume in litres, as typed.
    pub litres: String,
}

/// The freezers, taken together.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Freezer {
    /// Volume in litres.
    pub litres: u32,
    /// Litres that are free now.
    pub free_litres: u32,
}

/// A person and the minutes they can give by weekday, Monday first.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Person {
    /// Name.
    pub name: String,
    /// Minutes, Monday to Sunday.
    pub minutes: [u32; 7],
}

/// Empty jars of one size.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct JarCount {
    /// Jar key, such as "quart".
    pub jar: String,
    /// How many.
    pub count: u32,
    /// "regular" or "wide".
    pub mouth: String,
}

/// Something from the pantry.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Ingredient {
    /// Ingredient key as the recipes name it, such as "vinegar-5pct".
    pub key: String,
    /// Amount as typed, such as "11 cups" or "4 lb".
    pub amount: String,
}

/// What the winter should have of one product.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Need {
    /// Recipe key.
    pub product: String,
    /// How many containers.
    pub wanted: u32,
    /// Container key: "quart", "pint", "half-pint", "pint-bag", "quart-bag", ...
    pub unit: String,
    /// "must", "want" or "nice".
    pub priority: String,
}

/// A crate the household knows.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Crate {
    /// Key and name, such as "green crate".
    pub name: String,
    /// Litres when level full; empty when only own weights are known.
    pub litres: String,
    /// Own weight of a full crate by crop key, as typed ("40 lb").
    pub full_weights: BTreeMap<String, String>,
}
