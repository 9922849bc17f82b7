//! The units that the recipe tables measure ingredients in.

use quantity::{MassUnit, VolumeUnit};

/// A unit of recipes.csv.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TableUnit {
    /// By weight.
    Mass(MassUnit),
    /// By volume.
    Volume(VolumeUnit),
    /// Whole pieces.
    Each,
    /// Cloves of garlic.
    Clove,
    /// Drops.
    Drop,
}

impl TableUnit {
    /// The unit of this word; `None` for a word that names neither measure nor piece.
    pub fn of(word: &str) -> Option<TableUnit> {
        Some(match word {
            "lb" => TableUnit::Mass(MassUnit::Pound),
            "oz" => TableUnit::Mass(MassUnit::Ounce),
            "tsp" => TableUnit::Volume(VolumeUnit::Teaspoon),
            "tbsp" => TableUnit::Volume(VolumeUnit::Tablespoon),
            "fl-oz" => TableUnit::Volume(VolumeUnit::FluidOunce),
            "cup" => TableUnit::Volume(VolumeUnit::Cup),
            "pt" => TableUnit::Volume(VolumeUnit::Pint),
            "qt" => TableUnit::Volume(VolumeUnit::Quart),
            "gal" => TableUnit::Volume(VolumeUnit::Gallon),
            "each" => TableUnit::Each,
            "clove" => TableUnit::Clove,
            "drop" => TableUnit::Drop,
            _ => return None,
        })
    }
}
