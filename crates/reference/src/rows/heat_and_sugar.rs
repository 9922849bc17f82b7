//! Rows about boiling, steam, syrups, jam and jelly.

use super::{row, yes_no};
use crate::number::Printed;
use serde::{Deserialize, Serialize};

/// Boiling point of water at a height.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct BoilingRow {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    #[serde(rename(deserialize = "source"), skip_serializing)]
    printed: String,
    /// Elevation, feet.
    pub elevation_ft: u32,
    /// Boiling point, degrees Fahrenheit.
    pub boiling_f: Printed,
    /// `read` or `computed`.
    pub basis: String,
}

row!(
    BoilingRow,
    "process/elevation.csv",
    printed,
    ["elevation_ft", "boiling_f", "basis", "source",]
);

/// Temperature of steam in a pressure canner.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct CannerSteamRow {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    #[serde(rename(deserialize = "source"), skip_serializing)]
    printed: String,
    /// Gauge pressure, pounds per square inch.
    pub psi: Printed,
    /// Elevation, feet.
    pub elevation_ft: u32,
    /// Steam temperature, degrees Fahrenheit.
    pub steam_f: Printed,
    /// `read` or `computed`.
    pub basis: String,
}

row!(
    CannerSteamRow,
    "process/canner_steam.csv",
    printed,
    ["psi", "elevation_ft", "steam_f", "basis", "source",]
);

/// Jelling temperature at a height.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct JellyPointRow {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    #[serde(rename(deserialize = "source"), skip_serializing)]
    printed: String,
    /// Elevation, feet.
    pub elevation_ft: u32,
    /// Jelling temperature, degrees Fahrenheit.
    pub jelly_f: Printed,
}

row!(
    JellyPointRow,
    "process/jelly_point.csv",
    printed,
    ["elevation_ft", "jelly_f", "source"]
);

/// A syrup for a load.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct SyrupRow {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    #[serde(rename(deserialize = "source"), skip_serializing)]
    printed: String,
    /// Name.
    pub syrup: String,
    /// Sugar, percent.
    pub sugar_percent: Printed,
    /// Load: `9-pint`, `7-quart`.
    pub load: String,
    /// Water, cups.
    pub water_cups: Printed,
    /// Sugar, cups.
    pub sugar_cups: Printed,
}

row!(
    SyrupRow,
    "process/syrups.csv",
    printed,
    [
        "syrup",
        "sugar_percent",
        "load",
        "water_cups",
        "sugar_cups",
        "source",
    ]
);

/// Jam without added pectin.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct JamRow {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    #[serde(rename(deserialize = "source"), skip_serializing)]
    printed: String,
    /// Fruit.
    pub fruit: String,
    /// Crushed fruit, cups, low.
    pub crushed_fruit_cup_low: Printed,
    /// Crushed fruit, cups, high.
    pub crushed_fruit_cup_high: Printed,
    /// Sugar, cups, low.
    pub sugar_cup_low: Printed,
    /// Sugar, cups, high.
    pub sugar_cup_high: Printed,
    /// Lemon juice, tablespoons.
    pub lemon_tbsp: Printed,
    /// Half-pints made, low.
    pub half_pints_low: Printed,
    /// Half-pints made, high.
    pub half_pints_high: Printed,
    /// Food key.
    pub food: String,
}

row!(
    JamRow,
    "process/jam_no_pectin.csv",
    printed,
    [
        "fruit",
        "crushed_fruit_cup_low",
        "crushed_fruit_cup_high",
        "sugar_cup_low",
        "sugar_cup_high",
        "lemon_tbsp",
        "half_pints_low",
        "half_pints_high",
        "food",
        "source",
    ]
);

/// Jelly without added pectin.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct JellyRow {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    #[serde(rename(deserialize = "source"), skip_serializing)]
    printed: String,
    /// Fruit.
    pub fruit: String,
    /// Water per pound of fruit, cups, low.
    pub water_cup_per_lb_low: Printed,
    /// Water per pound of fruit, cups, high.
    pub water_cup_per_lb_high: Printed,
    /// Simmering, minutes, low.
    pub simmer_min_low: Printed,
    /// Simmering, minutes, high.
    pub simmer_min_high: Printed,
    /// Sugar per cup of juice, cups, low.
    pub sugar_cup_per_cup_juice_low: Printed,
    /// Sugar per cup of juice, cups, high.
    pub sugar_cup_per_cup_juice_high: Printed,
    /// Lemon juice per cup of juice, teaspoons.
    pub lemon_tsp_per_cup_juice: Option<Printed>,
    /// Whether the lemon juice may be left out.
    #[serde(with = "yes_no")]
    pub lemon_optional: bool,
    /// Half-pints from 4 cups of juice, low.
    pub half_pints_per_4_cups_juice_low: Printed,
    /// Half-pints from 4 cups of juice, high.
    pub half_pints_per_4_cups_juice_high: Printed,
    /// Food key.
    pub food: String,
}

row!(
    JellyRow,
    "process/jelly_no_pectin.csv",
    printed,
    [
        "fruit",
        "water_cup_per_lb_low",
        "simmer_min_low",
        "sugar_cup_per_cup_juice_low",
        "food",
        "source",
    ]
);
