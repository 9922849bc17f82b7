//! Named rules that hold for every set of books, and the household's own way to ask.
//!
//! Each rule looks at every row it speaks about, says how many it examined, and names every row
//! that breaks it, not just the first.

mod movements;
mod records;

pub use movements::{
    balance_per_crop_is_zero, entry_is_whole, entry_sums_to_zero, movement_is_sound,
    no_containers_below_zero, no_place_below_zero,
};
pub use records::{
    count_matches_movements, lot_weight_matches_movements, pot_empty_after_outcome,
    reversal_mirrors_entry,
};

use crate::{ContainerMovement, CountLine, Movement};
use serde::Serialize;

/// What one rule found.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Finding {
    /// The rule's name.
    pub invariant: &'static str,
    /// How many rows (or sums, or days) it looked at.
    pub examined: usize,
    /// One sentence per row that breaks it; empty = held.
    pub broken: Vec<String>,
}

impl Finding {
    /// Nothing broke the rule.
    #[must_use]
    pub fn holds(&self) -> bool {
        self.broken.is_empty()
    }
}

/// One end of a movement as the file has it, before anyone has understood the place's name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Leg {
    /// The entry.
    pub entry: i64,
    /// Line within the entry.
    pub line: i64,
    /// Crop or ingredient.
    pub crop: String,
    /// The place's name as written.
    pub place: String,
    /// Which end it is.
    pub end: End,
    /// The movement's mass as written.
    pub milligrams: i64,
}

/// Which end of a movement a [`Leg`] is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum End {
    /// The mass leaves here.
    Leaves,
    /// The mass arrives here.
    Arrives,
}

/// What an entry said of itself when it was closed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct EntrySum {
    /// The entry.
    pub entry: i64,
    /// Number of movements.
    pub lines: i64,
    /// Sum of their masses.
    pub milligrams: i64,
    /// Number of container movements.
    pub container_lines: i64,
    /// Sum of their counts.
    pub containers: i64,
}

/// A lot as it was taken down.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LotWeight {
    /// The lot.
    pub lot: i64,
    /// The entry that made it.
    pub entry: i64,
    /// Its crop.
    pub crop: String,
    /// What was weighed or reckoned.
    pub milligrams: i64,
}

/// Everything the rules look at. Rows in any order.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Books {
    /// Every entry's number.
    pub entries: Vec<i64>,
    /// (undoing entry, undone entry).
    pub reversals: Vec<(i64, i64)>,
    /// Both ends of every movement, as written.
    pub legs: Vec<Leg>,
    /// What each entry said of itself.
    pub sums: Vec<EntrySum>,
    /// Movements of food.
    pub movements: Vec<Movement>,
    /// Movements of containers.
    pub containers: Vec<ContainerMovement>,
    /// Lots with their first weight.
    pub lots: Vec<LotWeight>,
    /// Batches whose outcome was taken down (and not undone).
    pub finished_batches: Vec<i64>,
    /// Shelf counts.
    pub counts: Vec<CountLine>,
}

/// Every rule's name, in the order in which [`all`] answers.
pub const NAMES: [&str; 10] = [
    "entry-sums-to-zero",
    "entry-is-whole",
    "movement-is-sound",
    "no-place-below-zero",
    "no-containers-below-zero",
    "balance-per-crop-is-zero",
    "count-matches-movements",
    "lot-weight-matches-movements",
    "pot-empty-after-outcome",
    "reversal-mirrors-entry",
];

/// Runs every rule.
#[must_use]
pub fn all(books: &Books) -> Vec<Finding> {
    vec![
        entry_sums_to_zero(&books.legs),
        entry_is_whole(&books.entries, &books.sums, &books.legs, &books.containers),
        movement_is_sound(&books.movements, &books.containers, &books.reversals),
        no_place_below_zero(&books.movements),
        no_containers_below_zero(&books.containers),
        balance_per_crop_is_zero(&books.movements, &books.lots),
        count_matches_movements(&books.counts, &books.containers),
        lot_weight_matches_movements(&books.lots, &books.movements),
        pot_empty_after_outcome(&books.finished_batches, &books.movements),
        reversal_mirrors_entry(&books.reversals, &books.movements, &books.containers),
    ]
}
