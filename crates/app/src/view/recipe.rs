//! A household's own recipe: line by line what was understood, what is asked, what was not read.

use super::change::{AnswerView, ColdView, NearestView};
use serde::Serialize;

/// A recipe as read, kept or not.
#[derive(Debug, Clone, Serialize)]
pub struct RecipeView {
    /// Its key; before it is kept, the one it would get.
    pub key: String,
    /// Title.
    pub title: String,
    /// Who wrote it.
    pub by: String,
    /// Where it comes from.
    pub from: String,
    /// What it makes, as written.
    pub makes: String,
    /// In one sentence how far it was understood.
    pub summary: String,
    /// Every ingredient line.
    pub lines: Vec<RecipeLine>,
    /// Steps as written.
    pub steps: Vec<String>,
    /// What has to be answered before it is kept.
    pub questions: Vec<RecipeQuestion>,
    /// What was answered: question, answer in words.
    pub answers: Vec<RecipeAnswer>,
    /// Properties of a card that have no place here.
    pub not_kept: Vec<String>,
    /// Why it cannot be kept yet; empty when it can.
    pub not_yet: String,
    /// State of testing: tested, household-trial or unknown.
    pub state: String,
    /// Why it has that state.
    pub state_words: String,
    /// The nearest tested recipe.
    pub nearest: Option<NearestView>,
    /// The differences from it.
    pub differences: Option<AnswerView>,
    /// Where it goes instead of the shelf.
    pub cold: Option<ColdView>,
    /// When it was kept; none on a dry run.
    pub kept: Option<KeptView>,
}

/// When a recipe was kept.
#[derive(Debug, Clone, Serialize)]
pub struct KeptView {
    /// The day, in words.
    pub on: String,
    /// The entry.
    pub entry: i64,
    /// Which version is shown, from 1.
    pub version: usize,
    /// How many versions there are; the earlier ones stay in the file.
    pub versions: usize,
}

/// One ingredient line.
#[derive(Debug, Clone, Serialize)]
pub struct RecipeLine {
    /// Its number, from 1.
    pub number: usize,
    /// As written.
    pub text: String,
    /// heading, understood, asked, partly or unreadable.
    pub state: String,
    /// The amount as written and in metric: "2 1/4 cups = 532.32 mL"; empty without one.
    pub amount: String,
    /// The ingredient.
    pub ingredient: String,
    /// What stands behind it.
    pub note: String,
    /// Strength, "5 %"; empty without one.
    pub strength: String,
    /// What it does in the jar; empty when no table knows it.
    pub role: String,
    /// Where the role was read.
    pub source: String,
    /// Keys of the questions that stand before it.
    pub asks: Vec<String>,
    /// What is wrong with it.
    pub troubles: Vec<RecipeTrouble>,
}

/// Something wrong with a line.
#[derive(Debug, Clone, Serialize)]
pub struct RecipeTrouble {
    /// Its short name.
    pub code: String,
    /// What is wrong.
    pub cause: String,
    /// What to write instead.
    pub action: String,
}

/// A question asked once for the whole recipe.
#[derive(Debug, Clone, Serialize)]
pub struct RecipeQuestion {
    /// Its key.
    pub key: String,
    /// In words.
    pub words: String,
    /// Lines it is about.
    pub lines: Vec<usize>,
    /// What can be answered.
    pub choices: Vec<super::Choice>,
}

/// An answer that was given.
#[derive(Debug, Clone, Serialize)]
pub struct RecipeAnswer {
    /// The question's key.
    pub key: String,
    /// The question in words.
    pub words: String,
    /// What was answered.
    pub answer: String,
    /// What was answered, in words.
    pub answer_words: String,
}

/// The household's own recipes.
#[derive(Debug, Clone, Serialize)]
pub struct RecipesView {
    /// Each recipe's newest version, by title.
    pub recipes: Vec<RecipeListLine>,
}

/// One of them.
#[derive(Debug, Clone, Serialize)]
pub struct RecipeListLine {
    /// Key.
    pub key: String,
    /// Title.
    pub title: String,
    /// State of testing.
    pub state: String,
    /// In words: where it may go.
    pub state_words: String,
    /// When it was kept.
    pub on: String,
    /// How many versions.
    pub versions: usize,
    /// "12 lines, 2 of them not read".
    pub lines: String,
}
