//! Stores: what stands where, what first, and whether the season adds up.

use super::{Both, Choice};
use serde::Serialize;

/// The Stores page.
#[derive(Debug, Clone, Serialize)]
pub struct StoresView {
    /// The answer as one sentence.
    pub answer: String,
    /// One line below.
    pub lead: String,
    /// By place.
    pub places: Vec<PlaceView>,
    /// Use first, in order.
    pub use_first: Vec<HoldingLine>,
    /// What the winter should have against what stands.
    pub needs: Vec<super::plan::NeedView>,
    /// The freezer.
    pub freezer: FreezerView,
    /// The season's mass balance, crop by crop.
    pub balance: Vec<BalanceLine>,
    /// Where a taken container can go.
    pub ends: Vec<Choice>,
}

/// One place.
#[derive(Debug, Clone, Serialize)]
pub struct PlaceView {
    /// Place key.
    pub key: String,
    /// "Shelf".
    pub title: String,
    /// "23 jars".
    pub total: String,
    /// What stands there.
    pub holdings: Vec<HoldingLine>,
}

/// Containers of one batch and size in one place.
#[derive(Debug, Clone, Serialize)]
pub struct HoldingLine {
    /// Batch number.
    pub batch: i64,
    /// Product.
    pub product: String,
    /// Size key, such as "quart" or "pint-bag".
    pub size: String,
    /// "quarts".
    pub size_words: String,
    /// Place key.
    pub place: String,
    /// How many stand.
    pub count: i64,
    /// How many were made.
    pub made: i64,
    /// ISO date made.
    pub made_on: String,
    /// "made 27 August 2026".
    pub age: String,
    /// Age in days.
    pub age_days: i64,
    /// Is it on hold, and why; empty when free.
    pub held: String,
    /// How many of them are set aside, and why; empty when none are.
    pub aside: String,
    /// Eat by, where the fridge sets one.
    pub eat_by: String,
    /// Weight of the food in it.
    pub weight: Both,
}

/// The freezer's room.
#[derive(Debug, Clone, Serialize)]
pub struct FreezerView {
    /// Is a freezer set up?
    pub known: bool,
    /// Litres in all, used and free.
    pub litres: i64,
    /// Litres used.
    pub used: i64,
    /// Litres free.
    pub free: i64,
    /// "freeze at most 28 lb today (USDA ...)".
    pub daily: String,
    /// Where that was read.
    pub source: String,
}

/// One crop's balance.
#[derive(Debug, Clone, Serialize)]
pub struct BalanceLine {
    /// Crop title.
    pub crop: String,
    /// Came in.
    pub came_in: Both,
    /// Where it is or how it left: place title, weight.
    pub places: Vec<(String, Both)>,
    /// Unaccounted share in percent, one decimal.
    pub unaccounted_percent: f64,
    /// Warning text above 5 %.
    pub warning: String,
    /// Sum of all movements is zero.
    pub zero: bool,
}
