//! Amounts that cannot be mixed up: exact masses and volumes, kitchen measures, elevation.
//!
//! Every amount is an exact fraction of the unit it was typed in, so four quarts are one gallon
//! and three thirds of a pound are one pound. Rounding happens once, where an amount is stored
//! (`milligrams`, `microlitres`) or measured with a spoon (`kitchen_measure`), and there in a
//! stated direction.

mod amount;
mod condition;
mod error;
mod exact;
pub mod exact_text;
pub mod kitchen_measure;
pub mod parse;
pub mod show;
mod split;
mod unit;

pub use amount::{Mass, Volume};
pub use condition::{Elevation, Percent, Temperature};
pub use error::QuantityError;
pub use exact::{
    Exact, ceil, checked_add, checked_div, checked_mul, checked_sub, exact, floor, round_half_away,
    to_f64, whole,
};
pub use kitchen_measure::{KitchenMeasure, Rounding, ScaleWeight};
pub use split::split_by_share;
pub use unit::{MassUnit, VolumeUnit};

/// Heaviest weight believed for one picking, in pounds: a household that types more has slipped
/// a digit (our decision; no source).
pub const LARGEST_PICKING_POUNDS: i64 = 2000;
