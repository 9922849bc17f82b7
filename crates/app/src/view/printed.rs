//! What goes onto paper: the bytes of the file, and the same words for whoever cannot see it.

use super::Choice;
use serde::Serialize;

/// A file to print.
#[derive(Debug, Clone, Serialize)]
pub struct Printed {
    /// Name for the file, such as `batch-4-labels.pdf`.
    pub name: String,
    /// One sentence: what it is and how many.
    pub words: String,
    /// Labels on it, in order; none on a card.
    pub labels: Vec<print::Label>,
    /// The card; none on a sheet of labels.
    pub card: Option<print::Card>,
    /// The PDF.
    #[serde(skip)]
    pub bytes: Vec<u8>,
}

/// What can be printed of a batch.
#[derive(Debug, Clone, Serialize)]
pub struct PrintOffer {
    /// Batch number.
    pub batch: i64,
    /// Recipe title.
    pub title: String,
    /// "Thursday 27 August".
    pub day: String,
    /// One sentence.
    pub answer: String,
    /// Can a card be printed: it is set up or begun.
    pub card: bool,
    /// Code of its card.
    pub code: String,
    /// Labels that would be printed; nought when none may be.
    pub labels: i64,
    /// Why no label may be printed; empty when one may.
    pub why_not: String,
    /// It is kept for seed: packets instead of jars.
    pub seed: bool,
    /// What is printed carries a square to read: the house has an address.
    pub square: bool,
    /// Sheets to choose from.
    pub sheets: Vec<Choice>,
    /// Papers to choose from.
    pub papers: Vec<Choice>,
}
