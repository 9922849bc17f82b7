//! The rows of the file as plain records. Columns named JSON hold text the caller hands in.

use jiff::civil::Date;
use ledger::Place;
use serde::{Deserialize, Serialize};
use std::fmt;
use std::str::FromStr;

/// An entry about to be written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NewEntry {
    /// The moment, as ISO time text the caller read from its clock.
    pub at: String,
    /// The household's day.
    pub on: Date,
    /// Who did it, free text, may be empty.
    pub who: String,
    /// Kind of act: "picking", "outcome", "undo".
    pub kind: String,
    /// Free text, may be empty.
    pub note: String,
    /// A form's own token: the same token is taken once only.
    pub token: Option<String>,
    /// The entry this one undoes.
    pub reverses: Option<i64>,
}

/// An entry as written.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct EntryRecord {
    /// Its number.
    pub id: i64,
    /// The moment, ISO time text.
    pub at: String,
    /// The household's day.
    pub on: Date,
    /// Who did it.
    pub who: String,
    /// Kind of act.
    pub kind: String,
    /// Free text.
    pub note: String,
    /// The entry this one undoes.
    pub reverses: Option<i64>,
    /// The entry that undid this one.
    pub reversed_by: Option<i64>,
}

/// The house as it was described.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct HouseRecord {
    /// The entry it was described in.
    pub entry: i64,
    /// The day.
    pub on: Date,
    /// JSON.
    pub content: String,
}

/// A version of a household's own recipe.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct HouseholdRecipeRecord {
    /// Its number; later versions of a key have later numbers.
    pub id: i64,
    /// The entry that kept it.
    pub entry: i64,
    /// The day it was kept.
    pub on: Date,
    /// Its key, the same for every version.
    pub key: String,
    /// Its title.
    pub title: String,
    /// JSON: the lines as written, and the answers they were read with.
    pub content: String,
}

/// A lot about to be written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NewLot {
    /// Crop key.
    pub crop: String,
    /// Free text, may be empty.
    pub variety: String,
    /// Grade key.
    pub grade: String,
    /// Where it lies.
    pub place: Place,
    /// How warm it lies, exact text in degrees Fahrenheit.
    pub temperature_f: Option<String>,
    /// The day of picking.
    pub picked_on: Date,
    /// Milligrams, above zero; the entry's movements must bring exactly this much into the lot.
    pub milligrams: i64,
    /// How the weight was come by: "scale", "2/3 of the green crate".
    pub how_weighed: String,
    /// Free text, may be empty.
    pub note: String,
}

/// A lot as first taken down.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct LotRecord {
    /// Its number.
    pub id: i64,
    /// The entry that made it.
    pub entry: i64,
    /// Crop key.
    pub crop: String,
    /// Free text.
    pub variety: String,
    /// Grade key at first; later ones are statements.
    pub grade: String,
    /// Where it lay at first.
    pub place: Place,
    /// How warm, exact text in degrees Fahrenheit.
    pub temperature_f: Option<String>,
    /// The day of picking.
    pub picked_on: Date,
    /// Milligrams at first.
    pub milligrams: i64,
    /// How the weight was come by.
    pub how_weighed: String,
    /// Free text.
    pub note: String,
    /// The entry was undone.
    pub reversed: bool,
}

/// Something said of a lot later.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct LotStatement {
    /// Its number; later numbers were said later.
    pub id: i64,
    /// The entry.
    pub entry: i64,
    /// The day it was said.
    pub on: Date,
    /// The lot.
    pub lot: i64,
    /// What it is about: "history.diseased", "grade", "spoiled".
    pub key: String,
    /// What was said.
    pub value: String,
    /// The entry was undone.
    pub reversed: bool,
}

/// A batch about to be written. It carries the gate's answer: a permit record, a route verdict, or
/// both; a batch with neither is refused.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NewBatch {
    /// Recipe key.
    pub recipe: String,
    /// How many times the recipe, exact text ("3/2").
    pub batches: String,
    /// The day it is meant for.
    pub for_day: Date,
    /// Jar key, for routes that use one.
    pub jar: Option<String>,
    /// JSON: what the gate was asked.
    pub question: String,
    /// JSON: what the gate allowed then. It arms nothing.
    pub permit_record: Option<String>,
    /// JSON: the gate's answer for every route but heat.
    pub route_verdict: Option<String>,
    /// JSON: the scaled card.
    pub card: String,
    /// JSON: which lots are meant to go in.
    pub planned_inputs: String,
}

/// A batch as decided on.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct BatchRecord {
    /// Its number.
    pub id: i64,
    /// The entry that made it.
    pub entry: i64,
    /// Recipe key.
    pub recipe: String,
    /// How many times the recipe, exact text.
    pub batches: String,
    /// The day it is meant for.
    pub for_day: Date,
    /// Jar key.
    pub jar: Option<String>,
    /// JSON: what the gate was asked.
    pub question: String,
    /// JSON: what the gate allowed then. It arms nothing.
    pub permit_record: Option<String>,
    /// JSON: the gate's answer for every route but heat.
    pub route_verdict: Option<String>,
    /// JSON: the scaled card.
    pub card: String,
    /// JSON: which lots were meant to go in.
    pub planned_inputs: String,
    /// The entry was undone.
    pub reversed: bool,
}

/// Kinds of things that happen to a batch.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum BatchEventKind {
    /// Work began.
    Started,
    /// What came out.
    Outcome,
    /// The seals were looked at.
    SealCheck,
    /// Put on hold.
    Held,
    /// Released from hold.
    Released,
    /// Called off.
    Cancelled,
    /// Anything else worth keeping.
    Note,
}

impl BatchEventKind {
    /// Every kind.
    pub const ALL: [Self; 7] = [
        Self::Started,
        Self::Outcome,
        Self::SealCheck,
        Self::Held,
        Self::Released,
        Self::Cancelled,
        Self::Note,
    ];

    /// The name used in the file.
    #[must_use]
    pub const fn as_str(self) -> &'static str {
        match self {
            Self::Started => "started",
            Self::Outcome => "outcome",
            Self::SealCheck => "seal-check",
            Self::Held => "held",
            Self::Released => "released",
            Self::Cancelled => "cancelled",
            Self::Note => "note",
        }
    }
}

impl fmt::Display for BatchEventKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.as_str())
    }
}

impl FromStr for BatchEventKind {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        Self::ALL
            .into_iter()
            .find(|kind| kind.as_str() == text)
            .ok_or_else(|| format!("\"{text}\" is no kind of batch event"))
    }
}

/// Something that happened to a batch.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct BatchEvent {
    /// Its number; later numbers were taken down later.
    pub id: i64,
    /// The entry.
    pub entry: i64,
    /// The moment it was taken down, ISO time text.
    pub at: String,
    /// The household's day.
    pub on: Date,
    /// The batch.
    pub batch: i64,
    /// What kind of thing happened.
    pub kind: BatchEventKind,
    /// JSON.
    pub content: String,
    /// The entry was undone.
    pub reversed: bool,
}

/// An accepted harvest plan with the problem it answers.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct HarvestPlanRecord {
    /// Its number.
    pub id: i64,
    /// The entry that accepted it.
    pub entry: i64,
    /// The day it was accepted.
    pub on: Date,
    /// JSON.
    pub problem: String,
    /// JSON.
    pub harvest_plan: String,
}

/// An accepted kitchen-day timetable with the problem it answers.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct TimetableRecord {
    /// Its number.
    pub id: i64,
    /// The entry that accepted it.
    pub entry: i64,
    /// The kitchen day.
    pub day: Date,
    /// JSON.
    pub problem: String,
    /// JSON.
    pub timetable: String,
    /// JSON: the names shown on it.
    pub labels: String,
}
