//! Changes to a recipe: the answer to each, and to the whole.

use super::Choice;
use serde::Serialize;

/// The page and the command.
#[derive(Debug, Clone, Serialize)]
pub struct ChangeView {
    /// Key of the tested recipe or food asked about; empty for a household's own.
    pub recipe: String,
    /// Its title.
    pub title: String,
    /// Where it was read.
    pub source: String,
    /// Tested recipes to choose from.
    #[serde(skip)]
    pub recipes: Vec<Choice>,
    /// Its lines as printed.
    pub printed: Vec<PrintedLine>,
    /// Manners of working that published rules name.
    #[serde(skip)]
    pub manners: Vec<Choice>,
    /// The answer, once something was changed.
    pub answer: Option<AnswerView>,
    /// State of a household's own recipe: tested, household-trial or unknown; else empty.
    pub state: String,
    /// Why it has that state.
    pub state_words: String,
    /// The nearest tested recipe.
    pub nearest: Option<NearestView>,
    /// Ingredients that no table knows.
    pub not_known: Vec<String>,
    /// Where it goes instead of the shelf.
    pub cold: Option<ColdView>,
}

/// A printed line.
#[derive(Debug, Clone, Serialize)]
pub struct PrintedLine {
    /// Its number, from 1.
    pub number: usize,
    /// Ingredient key.
    pub ingredient: String,
    /// "5 cup onions chopped".
    pub words: String,
}

/// The answer.
#[derive(Debug, Clone, Serialize)]
pub struct AnswerView {
    /// allow, allow-if or refuse: the strictest of all.
    pub answer: String,
    /// In words.
    pub words: String,
    /// For each edit.
    pub edits: Vec<EditAnswer>,
    /// What the edits do together.
    pub whole: Vec<FindingView>,
}

/// The answer to one edit.
#[derive(Debug, Clone, Serialize)]
pub struct EditAnswer {
    /// The edit in words.
    pub words: String,
    /// allow, allow-if or refuse.
    pub answer: String,
    /// Rules that acted.
    pub findings: Vec<FindingView>,
    /// What to do instead; empty when it is not refused.
    pub instead: String,
}

/// A rule that acted.
#[derive(Debug, Clone, Serialize)]
pub struct FindingView {
    /// Its code.
    pub rule: String,
    /// What it makes of the edit.
    pub answer: String,
    /// What it says.
    pub text: String,
    /// Where it was read.
    pub source: String,
    /// What another source says; the stricter acts. Empty where none differs.
    pub other_reading: String,
}

/// The nearest tested recipe.
#[derive(Debug, Clone, Serialize)]
pub struct NearestView {
    /// Key.
    pub recipe: String,
    /// Title.
    pub title: String,
    /// Where it was read.
    pub source: String,
    /// Lines shared.
    pub shared: usize,
    /// How far apart the two are; nothing apart is 0.
    pub distance: String,
}

/// Refrigerator and freezer.
#[derive(Debug, Clone, Serialize)]
pub struct ColdView {
    /// The refrigerator in words.
    pub fridge: String,
    /// Days it keeps there; none where it must not go there.
    pub fridge_days: Option<i64>,
    /// The freezer in words.
    pub freezer: String,
    /// Where it was read.
    pub source: String,
}
