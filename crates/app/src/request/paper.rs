//! Requests about paper: labels and cards to print, and a card that comes back filled in.

use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// Labels of a batch on a sheet.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct PrintLabels {
    /// Batch number.
    pub batch: i64,
    /// Name of the sheet, such as `30-letter`; the first one when empty.
    pub sheet: String,
    /// First label of the sheet to use, counted from one; the first when empty.
    pub from: String,
    /// Everything is moved this many millimetres to the right; none when empty.
    pub offset_x: String,
    /// Everything is moved this many millimetres down; none when empty.
    pub offset_y: String,
    /// How many labels; one for each container that stands when empty (one packet for seed).
    pub count: String,
    /// Print the edges of the labels too.
    pub outline: bool,
}

/// A card on paper.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct PrintCard {
    /// Batch number.
    pub batch: i64,
    /// a4 or letter; letter when empty.
    pub paper: String,
}

/// A printed card comes back: what was written into its blanks.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct EnterCard {
    /// The card's code, as typed.
    pub code: String,
    /// What was written, by the name of the blank.
    pub blanks: BTreeMap<String, String>,
    /// Boxes ticked, by key.
    pub ticks: Vec<String>,
    /// One-time token.
    pub token: String,
}
