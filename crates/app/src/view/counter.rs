//! Counter: what is on the counter (and in the cold places) and how long it keeps.

use super::{Both, Choice};
use serde::Serialize;

/// The Counter page.
#[derive(Debug, Clone, Serialize)]
pub struct CounterView {
    /// Today, such as "Thursday 27 August 2026".
    pub today: String,
    /// The answer as one sentence a person could say.
    pub answer: String,
    /// One line below it.
    pub lead: String,
    /// Gauge tests that are due or overdue; empty on most days.
    pub reminders: Vec<String>,
    /// Everything that lies fresh, earliest edge first.
    pub lots: Vec<LotView>,
    /// Total weight of the lots.
    pub total: Both,
    /// Number of days the strip shows, today included.
    pub strip_days: i64,
    /// Short names of those days: "Thu", "Fri", ...
    pub strip_labels: Vec<String>,
    /// Choices for the picking form.
    pub form: PickingForm,
}

/// One fresh lot.
#[derive(Debug, Clone, Serialize)]
pub struct LotView {
    /// The lot's number.
    pub id: i64,
    /// Such as "Tomatoes, paste: red".
    pub title: String,
    /// Crop key.
    pub crop: String,
    /// Grade key.
    pub grade: String,
    /// Variety as typed, may be empty.
    pub variety: String,
    /// Weight that is left.
    pub weight: Both,
    /// Weight left in grams, for the width of bars.
    pub grams: i64,
    /// How the weight was found: "weighed", "two thirds of the green crate (estimated)".
    pub how_weighed: String,
    /// Place key, such as "counter".
    pub place: String,
    /// Such as "counter, 70 °F (21 °C)".
    pub where_it_lies: String,
    /// "picked yesterday".
    pub picked: String,
    /// Days from today to: usable at all (0 when ready), early edge, late edge, look-again date.
    pub ready_in: i64,
    /// Days from today to the early edge; negative when past.
    pub early_in: i64,
    /// Days from today to the late edge; negative when past.
    pub late_in: i64,
    /// "keeps until about Friday to Sunday".
    pub keeps: String,
    /// Such as "due today", "due tomorrow", "can wait", "not yet", "past its time".
    pub state: String,
    /// State key: due, waiting, ripening, past.
    pub state_key: String,
    /// "look again on Saturday 29 August".
    pub look_again: String,
    /// Why: table, temperature, basis.
    pub reason: String,
    /// "read", "remembered" or "own record".
    pub basis: String,
    /// Where the figure was read.
    pub source: String,
    /// Grades this crop has, for the form; not part of the command line's JSON.
    #[serde(skip)]
    pub grades: Vec<Choice>,
    /// What the lot has been through: questions with answers.
    pub history: Vec<HistoryLine>,
    /// Routes closed by grade or history, with the reason: "not for jars: ...".
    pub closed: Vec<String>,
}

/// One question on a lot's history.
#[derive(Debug, Clone, Serialize)]
pub struct HistoryLine {
    /// Key sent with the form, such as "dead-or-frosted-vine".
    pub key: String,
    /// The question.
    pub question: String,
    /// "yes", "no" or "unknown".
    pub answer: String,
}

/// Choices of the form that weighs a picking in.
#[derive(Debug, Clone, Serialize)]
pub struct PickingForm {
    /// Crops in order of title.
    pub crops: Vec<Choice>,
    /// Grades; the title names the crops where it is not general.
    pub grades: Vec<Choice>,
    /// Places where fresh food may lie.
    pub places: Vec<Choice>,
    /// Known crates of the house, may be empty.
    pub crates: Vec<Choice>,
    /// Shares of a crate: "a third", "half", ...
    pub shares: Vec<Choice>,
    /// History questions asked once.
    pub history: Vec<HistoryLine>,
    /// How warm each place was when last said, such as "counter 70 F, fridge 38 F"; may be empty.
    /// For the form only; not part of the command line's JSON.
    #[serde(skip)]
    pub last_warmth: String,
    /// Today as ISO date, the default.
    pub picked_on: String,
    /// Animals kept, for sort-outs.
    pub animals: Vec<Choice>,
}
