//! Units of weight and volume with their exact factors.

use serde::{Deserialize, Serialize};

use crate::Exact;

/// A unit of weight.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum MassUnit {
    /// A thousandth of a gram.
    Milligram,
    /// The gram.
    Gram,
    /// A thousand grams.
    Kilogram,
    /// A sixteenth of a pound.
    Ounce,
    /// 453.59237 g exactly (international pound).
    Pound,
}

/// A unit of volume. Spoons, cups, pints, quarts and gallons are US customary.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum VolumeUnit {
    /// A thousandth of a millilitre.
    Microlitre,
    /// The millilitre.
    Millilitre,
    /// A thousand millilitres.
    Litre,
    /// 1/768 of a gallon.
    Teaspoon,
    /// 3 teaspoons.
    Tablespoon,
    /// 2 tablespoons.
    FluidOunce,
    /// 8 fluid ounces.
    Cup,
    /// 2 cups.
    Pint,
    /// 2 pints.
    Quart,
    /// 231 cubic inches: 3785.411784 mL exactly.
    Gallon,
    /// 250 mL.
    MetricCup,
}

const POUND: (i128, i128) = (45_359_237, 100_000);
/// Millilitres in a US gallon.
const GALLON: (i128, i128) = (3_785_411_784, 1_000_000);

impl MassUnit {
    /// Grams in one unit, exactly.
    pub fn factor(self) -> Exact {
        match self {
            Self::Milligram => Exact::new(1, 1000),
            Self::Gram => Exact::new(1, 1),
            Self::Kilogram => Exact::new(1000, 1),
            Self::Ounce => Exact::new(POUND.0, POUND.1 * 16),
            Self::Pound => Exact::new(POUND.0, POUND.1),
        }
    }

    /// Short name after a number: "lb", "g".
    pub fn short(self) -> &'static str {
        match self {
            Self::Milligram => "mg",
            Self::Gram => "g",
            Self::Kilogram => "kg",
            Self::Ounce => "oz",
            Self::Pound => "lb",
        }
    }
}

impl VolumeUnit {
    /// Millilitres in one unit, exactly.
    pub fn factor(self) -> Exact {
        let part_of_gallon = |parts: i128| Exact::new(GALLON.0, GALLON.1 * parts);
        match self {
            Self::Microlitre => Exact::new(1, 1000),
            Self::Millilitre => Exact::new(1, 1),
            Self::Litre => Exact::new(1000, 1),
            Self::Teaspoon => part_of_gallon(768),
            Self::Tablespoon => part_of_gallon(256),
            Self::FluidOunce => part_of_gallon(128),
            Self::Cup => part_of_gallon(16),
            Self::Pint => part_of_gallon(8),
            Self::Quart => part_of_gallon(4),
            Self::Gallon => part_of_gallon(1),
            Self::MetricCup => Exact::new(250, 1),
        }
    }

    /// Short name after a number; `many` chooses "cups" over "cup".
    pub fn short(self, many: bool) -> &'static str {
        match self {
            Self::Microlitre => "uL",
            Self::Millilitre => "mL",
            Self::Litre => "L",
            Self::Teaspoon => "tsp",
            Self::Tablespoon => "tbsp",
            Self::FluidOunce => "fl oz",
            Self::Cup if many => "cups",
            Self::Cup => "cup",
            Self::Pint => "pt",
            Self::Quart => "qt",
            Self::Gallon => "gal",
            Self::MetricCup if many => "metric cups",
            Self::MetricCup => "metric cup",
        }
    }
}
