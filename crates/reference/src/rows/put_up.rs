//! Rows of the garden tables about putting up: freezing, drying, yields, seeds, feeding.

use super::row;
use crate::number::Printed;
use crate::words::{Basis, FeedVerdict};
use serde::{Deserialize, Serialize};

/// How a crop is made ready for the freezer.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct FreezingRow {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    #[serde(rename(deserialize = "source"), skip_serializing)]
    printed: String,
    /// Crop.
    pub crop: String,
    /// Form.
    pub form: String,
    /// Preparation.
    pub preparation: String,
    /// Blanching in water, minutes.
    pub blanch_minutes_water: Option<Printed>,
    /// Blanching in steam, minutes.
    pub blanch_minutes_steam: Option<Printed>,
    /// Headspace in a pint, inches.
    pub headspace_in_pint: Option<Printed>,
    /// Headspace in a quart, inches.
    pub headspace_in_quart: Option<Printed>,
    /// Months at best quality at 0 F.
    #[serde(rename = "months_best_0F")]
    pub months_best_0f: Option<Printed>,
    /// Pounds of fresh crop per frozen pint.
    pub lb_per_pint_frozen: Option<Printed>,
    /// How it was read.
    pub basis: Basis,
}

row!(
    FreezingRow,
    "garden/freezing.csv",
    printed,
    [
        "crop",
        "form",
        "preparation",
        "blanch_minutes_water",
        "blanch_minutes_steam",
        "headspace_in_pint",
        "headspace_in_quart",
        "months_best_0F",
        "lb_per_pint_frozen",
        "source",
        "basis"
    ]
);

/// How a crop is dried.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct DryingRow {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    #[serde(rename(deserialize = "source"), skip_serializing)]
    printed: String,
    /// Crop.
    pub crop: String,
    /// Pretreatment.
    pub pretreatment: String,
    /// Degrees Fahrenheit.
    pub temperature_f: Option<Printed>,
    /// Hours, low.
    pub hours_low: Option<Printed>,
    /// Hours, high.
    pub hours_high: Option<Printed>,
    /// Pounds fresh for one pound dried.
    pub fresh_lb_to_dried_lb: Option<Printed>,
    /// Months stored.
    pub storage_months: Option<Printed>,
    /// How it was read.
    pub basis: Basis,
}

row!(
    DryingRow,
    "garden/drying.csv",
    printed,
    [
        "crop",
        "pretreatment",
        "temperature_f",
        "hours_low",
        "hours_high",
        "fresh_lb_to_dried_lb",
        "storage_months",
        "source",
        "basis"
    ]
);

/// A figure about freezers and frozen food.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct FreezerRow {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    #[serde(rename(deserialize = "source"), skip_serializing)]
    printed: String,
    /// Key.
    pub key: String,
    /// Value.
    pub value: Printed,
    /// Unit.
    pub unit: String,
    /// How it was read.
    pub basis: Basis,
}

row!(
    FreezerRow,
    "garden/freezer.csv",
    printed,
    ["key", "value", "unit", "source", "basis"]
);

/// How much a person uses in a year, by one plan or another.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct HouseholdRow {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    #[serde(rename(deserialize = "source"), skip_serializing)]
    printed: String,
    /// Crop or product.
    #[serde(rename = "crop_or_product")]
    pub product: String,
    /// Amount as printed; some lines print `servings x weeks`.
    #[serde(rename = "amount_per_person_per_year")]
    pub amount: String,
    /// Unit.
    pub unit: String,
    /// How it was read.
    pub basis: Basis,
}

row!(
    HouseholdRow,
    "garden/household.csv",
    printed,
    [
        "crop_or_product",
        "amount_per_person_per_year",
        "unit",
        "source",
        "basis"
    ]
);

/// What a purchased or picked weight gives.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct YieldRow {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    #[serde(rename(deserialize = "source"), skip_serializing)]
    printed: String,
    /// Crop.
    pub crop: String,
    /// Form.
    pub form: String,
    /// Pounds as purchased.
    pub as_purchased_lb: Printed,
    /// Edible percent or output, as printed.
    #[serde(rename = "edible_yield_percent_or_output")]
    pub output: String,
    /// Unit of the output.
    pub unit: String,
    /// How it was read.
    pub basis: Basis,
}

row!(
    YieldRow,
    "garden/yields.csv",
    printed,
    [
        "crop",
        "form",
        "as_purchased_lb",
        "edible_yield_percent_or_output",
        "unit",
        "source",
        "basis"
    ]
);

/// What saving seed of a crop asks for.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct SeedRow {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    #[serde(rename(deserialize = "source"), skip_serializing)]
    printed: String,
    /// Crop.
    pub crop: String,
    /// Pollination.
    pub pollination: String,
    /// Isolation, feet.
    pub isolation_distance_ft: Option<Printed>,
    /// Plants to save from, at least.
    pub min_plants_to_save_from: Option<Printed>,
    /// Years the seed lives.
    pub seed_viability_years: Option<Printed>,
    /// Wet or dry processing.
    #[serde(rename = "wet_or_dry_processing")]
    pub processing: String,
    /// Days of fermentation.
    pub fermentation_days: Option<Printed>,
    /// Seeds per gram.
    pub seeds_per_gram: Option<Printed>,
    /// Germination standard, percent.
    pub germination_standard_percent: Option<Printed>,
    /// How it was read.
    pub basis: Basis,
}

row!(
    SeedRow,
    "garden/seeds.csv",
    printed,
    [
        "crop",
        "pollination",
        "isolation_distance_ft",
        "min_plants_to_save_from",
        "seed_viability_years",
        "wet_or_dry_processing",
        "fermentation_days",
        "seeds_per_gram",
        "germination_standard_percent",
        "source",
        "basis"
    ]
);

/// Whether animals may have a sort-out; no row means compost.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct FeedingRow {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    #[serde(rename(deserialize = "source"), skip_serializing)]
    printed: String,
    /// Crop, or `any`.
    pub crop: String,
    /// Part or state, or `any`.
    pub part: String,
    /// Animal, or `any`.
    pub animal: String,
    /// Verdict.
    pub verdict: FeedVerdict,
    /// Why or how.
    pub note: String,
    /// How it was read.
    pub basis: Basis,
}

row!(
    FeedingRow,
    "garden/feeding.csv",
    printed,
    [
        "crop", "part", "animal", "verdict", "note", "source", "basis"
    ]
);
