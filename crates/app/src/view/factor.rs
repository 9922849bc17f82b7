//! A recipe's own factor: what its outcomes teach beside the published figure.

use serde::Serialize;

/// Pounds of produce a quart.
#[derive(Debug, Clone, Serialize)]
pub struct FactorView {
    /// Recipe key.
    pub recipe: String,
    /// Recipe title.
    pub title: String,
    /// One sentence.
    pub words: String,
    /// Pounds a quart by the book.
    pub published: f64,
    /// Pounds a quart to reckon with: between the book's and the plain one.
    pub value: f64,
    /// Lower end of the interval that holds the factor in four cases of five.
    pub low: f64,
    /// Upper end.
    pub high: f64,
    /// All pounds over all quarts; none before the first outcome.
    pub plain: Option<f64>,
    /// Smallest and largest of the batches.
    pub spread: Option<(f64, f64)>,
    /// The batches behind it, oldest first.
    pub batches: Vec<FactorBatch>,
}

/// One batch of the record.
#[derive(Debug, Clone, Serialize)]
pub struct FactorBatch {
    /// Batch number.
    pub id: i64,
    /// "Thursday 27 August".
    pub day: String,
    /// Pounds that went in.
    pub pounds: f64,
    /// Quarts that came out, part jars with them.
    pub quarts: f64,
    /// Pounds a quart.
    pub ratio: f64,
    /// Does it stray so far that its note matters?
    pub unusual: bool,
    /// The note of the outcome.
    pub note: String,
}
