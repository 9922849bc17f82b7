//! Typed requests: what a form or a command line turns into, and nothing else.
//!
//! Texts stay as typed; the actions parse them, so that an error can name the field and show
//! the form again with what was typed. Every request that writes carries a `token`: the same
//! token a second time writes nothing and answers with the first entry.

mod paper;

pub use paper::{EnterCard, PrintCard, PrintLabels};

use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// Who acts, and when: given by the outermost layer, never read inside.
#[derive(Debug, Clone)]
pub struct Now {
    /// Civil date at the house.
    pub date: jiff::civil::Date,
    /// Minutes after midnight.
    pub minute: i64,
    /// ISO time stamp with offset, stored as given.
    pub at: String,
    /// Who acts; may be empty.
    pub who: String,
}

/// A picking is weighed in.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct RecordPicking {
    /// Crop key or typed crop name.
    pub crop: String,
    /// Variety, free text.
    pub variety: String,
    /// Grade key.
    pub grade: String,
    /// Weight as typed, such as "24 lb"; empty when a crate share is given.
    pub amount: String,
    /// Crate name; empty when weighed.
    pub crate_name: String,
    /// Share of the crate, such as "two thirds".
    pub share: String,
    /// Place key: counter, cold-room, fridge.
    pub place: String,
    /// Temperature there, such as "70F".
    pub temperature: String,
    /// ISO date; today when empty.
    pub picked_on: String,
    /// History answers by question key: yes, no, unknown.
    pub history: BTreeMap<String, String>,
    /// Note.
    pub note: String,
    /// One-time token of the form.
    pub token: String,
}

/// A statement on a lot: history answered, moved, regraded.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct StateLot {
    /// Lot number.
    pub lot: i64,
    /// Question key to answer; empty when none.
    pub question: String,
    /// yes, no or unknown.
    pub answer: String,
    /// New grade; empty when unchanged.
    pub grade: String,
    /// New place; empty when unchanged.
    pub place: String,
    /// New temperature; empty when unchanged.
    pub temperature: String,
    /// One-time token.
    pub token: String,
}

/// Part of a lot leaves: eaten fresh, to animals, compost, given, kept for seed.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct SortOut {
    /// Lot number.
    pub lot: i64,
    /// How much, as typed, or "all".
    pub amount: String,
    /// Where to: eaten, animals, compost, given, seed, discarded.
    pub to: String,
    /// Which animal, for `animals`.
    pub animal: String,
    /// Which part: "fruit", "leaves", "mouldy", ... for the feeding rules.
    pub part: String,
    /// One-time token.
    pub token: String,
}

/// A harvest plan is made.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct MakePlan {
    /// Days to look ahead; 7 when zero.
    pub days: i64,
    /// Search seed.
    pub seed: u64,
    /// Iterations of the search: deterministic mode when given.
    pub iterations: Option<u64>,
    /// Time limit in milliseconds otherwise.
    pub milliseconds: Option<u64>,
}

/// A batch is set up by hand.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct NewBatch {
    /// Recipe key.
    pub recipe: String,
    /// Jar key; the recipe's first choice when empty.
    pub jar: String,
    /// How many batches, such as "2" or "1 1/2"; empty when pounds are given.
    pub batches: String,
    /// Produce to use up, such as "24 lb"; empty when batches are given.
    pub produce: String,
    /// Jars to fill, such as "10". Alone it says how much is made; beside batches or goods at hand
    /// it is what they are held against.
    pub jars_count: String,
    /// Goods at hand, such as "cider-vinegar-5pct=3 cups": the one that runs out first decides.
    pub have: Vec<String>,
    /// A pot to cook in, such as "12 quarts": as much as it takes.
    pub pot: String,
    /// Lots to draw from, first first; empty: earliest edge first.
    pub lots: Vec<i64>,
    /// Canner name; the first that fits when empty.
    pub canner: String,
    /// Acid for the jars, such as "citric-acid"; the first in the house when empty.
    pub acid: String,
    /// Answers to the food's own questions, by question key.
    pub answers: BTreeMap<String, String>,
    /// Day, ISO; today when empty.
    pub day: String,
    /// One-time token.
    pub token: String,
}

/// A batch is started: its food goes from the lots into the pot.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct StartBatch {
    /// Batch number.
    pub batch: i64,
    /// Ticks made, by key.
    pub ticks: Vec<String>,
    /// One-time token.
    pub token: String,
}

/// A batch is finished: what came out.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct FinishBatch {
    /// Batch number.
    pub batch: i64,
    /// Containers by key: how many.
    pub containers: BTreeMap<String, String>,
    /// A partial jar to the fridge, such as "1 1/2 cups"; empty when none.
    pub partial: String,
    /// Trimmings, skins, pomace: weight as typed, or empty.
    pub trimmings: String,
    /// Where trimmings went: compost or animals.
    pub trimmings_to: String,
    /// Weight boiled off or dried away as typed, or empty.
    pub cooked_off: String,
    /// Ticks made, by key (acid in, bubbles out, rim wiped, ...).
    pub ticks: Vec<String>,
    /// Minutes the load was processed, as kept by the clock.
    pub minutes: String,
    /// When the jars were lifted, such as "16:40"; empty: not said.
    pub lifted: String,
    /// Note.
    pub note: String,
    /// One-time token.
    pub token: String,
}

/// The day after: which jars sealed.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct CheckSeals {
    /// Batch number.
    pub batch: i64,
    /// Containers that did not seal, by key.
    pub failed: BTreeMap<String, String>,
    /// What happens to them: fridge, freezer or discarded; empty: they wait, set aside.
    pub to: String,
    /// When the jars were lifted, where the outcome does not say it.
    pub lifted: String,
    /// One-time token.
    pub token: String,
}

/// Something went wrong with a batch.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct RecordIncident {
    /// Batch number.
    pub batch: i64,
    /// Kind, such as "acid-forgotten".
    pub kind: String,
    /// When it was noticed, such as "18:20"; now when empty.
    pub noticed: String,
    /// When the jars were lifted; "unknown" or empty: as the outcome says, else nobody knows.
    pub lifted: String,
    /// The load is still in the canner and its heat can be brought back.
    pub in_canner: bool,
    /// Are the jars still sealed: yes, no or empty.
    pub sealed: String,
    /// Size of the jars concerned; the batch's own when empty.
    pub size: String,
    /// Place they stand in; the shelf when empty.
    pub place: String,
    /// How many jars it concerns, as typed; all of that size when empty.
    pub count: String,
    /// Note.
    pub note: String,
    /// One-time token.
    pub token: String,
}

/// The answer to an incident is carried out.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct SettleIncident {
    /// Batch number.
    pub batch: i64,
    /// Entry that recorded the incident; the last one of the batch when zero.
    pub incident: i64,
    /// What was done: reprocess, freeze, fridge, keep, bin or discard.
    pub way: String,
    /// How many jars, as typed; all that are concerned when empty.
    pub count: String,
    /// Reprocessed: minutes as kept by the clock.
    pub minutes: String,
    /// Reprocessed: when the jars were lifted again; now when empty.
    pub lifted: String,
    /// Reprocessed: ticks made, by key; "new-lids" among them.
    pub ticks: Vec<String>,
    /// One-time token.
    pub token: String,
}

/// A tick that was missing is answered later (ruling 12).
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct AnswerLate {
    /// Batch number.
    pub batch: i64,
    /// Tick, by key.
    pub tick: String,
    /// Was it done: yes or no.
    pub done: String,
    /// Who did it.
    pub who: String,
    /// When it was done, such as "14:05".
    pub when: String,
    /// One-time token.
    pub token: String,
}

/// What to do about an incident, asked without a batch.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct AskIncident {
    /// Kind, such as "suspect-jar".
    pub kind: String,
    /// When it was noticed; now when empty.
    pub noticed: String,
    /// When the jars were lifted; empty or "unknown": nobody knows.
    pub lifted: String,
    /// The load is still in the canner and its heat can be brought back.
    pub in_canner: bool,
    /// Was the process otherwise right: yes, no or empty.
    pub process: String,
    /// Are the jars still sealed: yes, no or empty.
    pub sealed: String,
}

/// Containers are taken from a place.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct TakeContainers {
    /// Batch number.
    pub batch: i64,
    /// Size key.
    pub size: String,
    /// Place they stand in.
    pub place: String,
    /// How many, as typed.
    pub count: String,
    /// Where to: eaten, given, discarded, or another place.
    pub to: String,
    /// One-time token.
    pub token: String,
}

/// A shelf is counted: what was found.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct CountShelf {
    /// Batch number.
    pub batch: i64,
    /// Size key.
    pub size: String,
    /// Place.
    pub place: String,
    /// How many were found, as typed.
    pub found: String,
    /// One-time token.
    pub token: String,
}

/// The last act, or a named entry, is undone.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct Undo {
    /// Entry to undo; the last one that can be when none is named.
    pub entry: Option<i64>,
    /// One-time token.
    pub token: String,
}

/// A question to the printed tables. What is not said is filled in by what the house has; only the
/// elevation must come from somebody.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct AskProcess {
    /// Food key or typed name.
    pub food: String,
    /// raw or hot; empty: not said.
    pub pack: String,
    /// Jar key.
    pub jar: String,
    /// Method key.
    pub method: String,
    /// A canner of the house, by name.
    pub canner: String,
    /// Elevation as typed; the house's own when empty.
    pub elevation: String,
    /// Acid for the jars, such as "citric-acid".
    pub acid: String,
    /// Strength of the vinegar on its label, percent.
    pub vinegar: String,
    /// "yes" when the produce is sound: from living, healthy plants, not split, never frozen.
    pub sound: String,
    /// Answers to the food's own questions, by question key.
    pub answers: BTreeMap<String, String>,
}

/// A recipe is read: a dry run.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct ReadRecipe {
    /// The text file or the JSON-LD card.
    pub text: String,
    /// Answers by question key, such as "cup" = "us".
    pub answers: BTreeMap<String, String>,
}

/// A recipe is kept.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct KeepRecipe {
    /// The text file or the JSON-LD card.
    pub text: String,
    /// Answers by question key.
    pub answers: BTreeMap<String, String>,
    /// One-time token.
    pub token: String,
}
