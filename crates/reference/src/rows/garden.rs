//! Rows of the garden tables about fresh produce: weights, keeping, ripening, respiration.
//!
//! These sources are weaker than the process tables; every row says how it was read (`basis`).

use super::row;
use crate::number::Printed;
use crate::words::Basis;
use serde::{Deserialize, Serialize};

/// Weight of a crop in a container, and its bulk density.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct BulkWeight {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    #[serde(rename(deserialize = "source"), skip_serializing)]
    printed: String,
    /// Crop, with its form where it matters.
    pub commodity: String,
    /// Container, such as `bushel`.
    pub container: String,
    /// Pounds.
    pub pounds: Option<Printed>,
    /// Pounds, low.
    pub pounds_low: Option<Printed>,
    /// Pounds, high.
    pub pounds_high: Option<Printed>,
    /// Bulk density, kilograms per litre.
    #[serde(rename = "bulk_density_kg_per_L")]
    pub bulk_density_kg_per_l: Option<Printed>,
    /// How it was read.
    pub basis: Basis,
}

row!(
    BulkWeight,
    "garden/bulk_weights.csv",
    printed,
    [
        "commodity",
        "container",
        "pounds",
        "pounds_low",
        "pounds_high",
        "bulk_density_kg_per_L",
        "source",
        "basis"
    ]
);

/// How long a crop keeps fresh, and where.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct StorageRow {
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
    /// Stage or form.
    pub stage: String,
    /// Storage temperature, degrees Fahrenheit, low.
    pub temp_f_low: Option<Printed>,
    /// Storage temperature, degrees Fahrenheit, high.
    pub temp_f_high: Option<Printed>,
    /// Relative humidity, percent, as printed.
    pub rh_percent: String,
    /// Days kept, low.
    pub days_low: Option<Printed>,
    /// Days kept, high.
    pub days_high: Option<Printed>,
    /// Chilling harms below this, degrees Fahrenheit.
    pub chilling_sensitive_below_f: Option<Printed>,
    /// How it was read.
    pub basis: Basis,
}

row!(
    StorageRow,
    "garden/fresh_storage.csv",
    printed,
    [
        "crop",
        "stage",
        "temp_f_low",
        "temp_f_high",
        "rh_percent",
        "days_low",
        "days_high",
        "chilling_sensitive_below_f",
        "source",
        "basis"
    ]
);

/// A tomato ripeness class and its days to red by temperature.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct RipeningRow {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    #[serde(rename(deserialize = "source"), skip_serializing)]
    printed: String,
    /// Class.
    pub class: String,
    /// Order of the standard.
    pub usda_order: Printed,
    /// Coloured share, percent, low.
    pub colour_percent_low: Printed,
    /// Coloured share, percent, high.
    pub colour_percent_high: Printed,
    /// Definition.
    pub definition: String,
    /// Days to red at 55 F.
    #[serde(rename = "days_to_red_55F")]
    pub days_to_red_55f: Option<Printed>,
    /// Days to red at 60 F.
    #[serde(rename = "days_to_red_60F")]
    pub days_to_red_60f: Option<Printed>,
    /// Days to red at 65 F.
    #[serde(rename = "days_to_red_65F")]
    pub days_to_red_65f: Option<Printed>,
    /// Days to red at 70 F.
    #[serde(rename = "days_to_red_70F")]
    pub days_to_red_70f: Option<Printed>,
    /// Days to red at 77 F.
    #[serde(rename = "days_to_red_77F")]
    pub days_to_red_77f: Option<Printed>,
    /// How it was read.
    pub basis: Basis,
}

row!(
    RipeningRow,
    "garden/ripening.csv",
    printed,
    [
        "class",
        "usda_order",
        "colour_percent_low",
        "colour_percent_high",
        "definition",
        "days_to_red_55F",
        "days_to_red_60F",
        "days_to_red_65F",
        "days_to_red_70F",
        "days_to_red_77F",
        "source",
        "basis"
    ]
);

/// Days to red for a class at a temperature, unrounded; rows in capitals are limits.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct RipeningGridRow {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    #[serde(rename(deserialize = "source"), skip_serializing)]
    printed: String,
    /// Class, or a limit such as `NO_RIPENING_BELOW`.
    pub class: String,
    /// Degrees Celsius.
    pub temp_c: Printed,
    /// Degrees Fahrenheit.
    pub temp_f: Printed,
    /// Days.
    pub days_to_red: Option<Printed>,
    /// How it was read.
    pub basis: Basis,
}

row!(
    RipeningGridRow,
    "garden/ripening_grid.csv",
    printed,
    [
        "class",
        "temp_c",
        "temp_f",
        "days_to_red",
        "source",
        "basis"
    ]
);

/// Respiration of a crop by temperature.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct RespirationRow {
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
    /// At 0 C.
    pub c0: Option<Printed>,
    /// At 5 C.
    pub c5: Option<Printed>,
    /// At 10 C.
    pub c10: Option<Printed>,
    /// At 15 C.
    pub c15: Option<Printed>,
    /// At 20 C.
    pub c20: Option<Printed>,
    /// At 25 C.
    pub c25: Option<Printed>,
    /// Unit.
    pub unit: String,
    /// Factor for ten degrees, 0 to 10 C.
    pub q10_0_to_10: Option<Printed>,
    /// Factor for ten degrees, 10 to 20 C.
    pub q10_10_to_20: Option<Printed>,
    /// How it was read.
    pub basis: Basis,
}

row!(
    RespirationRow,
    "garden/respiration.csv",
    printed,
    [
        "crop",
        "c0",
        "c5",
        "c10",
        "c15",
        "c20",
        "c25",
        "unit",
        "q10_0_to_10",
        "q10_10_to_20",
        "source",
        "basis"
    ]
);

/// General factor of decay for ten degrees.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Q10Row {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    #[serde(rename(deserialize = "source"), skip_serializing)]
    printed: String,
    /// From, degrees Celsius.
    pub temp_c_low: Printed,
    /// To, degrees Celsius.
    pub temp_c_high: Printed,
    /// Factor, low.
    pub q10_low: Printed,
    /// Factor, high.
    pub q10_high: Printed,
    /// Rate at the upper temperature, 0 C being 1.
    pub relative_rate_at_high: Printed,
    /// Shelf life at the upper temperature, percent of that at 0 C.
    pub relative_shelf_life_at_high: Printed,
    /// How it was read.
    pub basis: Basis,
}

row!(
    Q10Row,
    "garden/q10.csv",
    printed,
    [
        "temp_c_low",
        "temp_c_high",
        "q10_low",
        "q10_high",
        "relative_rate_at_high",
        "relative_shelf_life_at_high",
        "source",
        "basis"
    ]
);
