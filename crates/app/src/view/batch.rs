//! Batch: exactly how this batch is made, and what came of it.

use super::Both;
use serde::Serialize;

/// The list of batches.
#[derive(Debug, Clone, Serialize)]
pub struct BatchListView {
    /// One sentence.
    pub answer: String,
    /// Planned, running and finished batches, next first.
    pub batches: Vec<BatchLine>,
    /// Recipes that can be started by hand: key and title.
    pub recipes: Vec<super::Choice>,
}

/// One line of the list.
#[derive(Debug, Clone, Serialize)]
pub struct BatchLine {
    /// Number.
    pub id: i64,
    /// Recipe title.
    pub title: String,
    /// "Thursday 27 August".
    pub day: String,
    /// planned, started, finished, held, cancelled.
    pub state: String,
    /// "7 quarts expected" or "7 quarts made".
    pub makes: String,
}

/// One batch in full.
#[derive(Debug, Clone, Serialize)]
pub struct BatchView {
    /// Number; none for a batch that is only being tried out.
    pub id: Option<i64>,
    /// Recipe key.
    pub recipe: String,
    /// Recipe title.
    pub title: String,
    /// planned, started, finished, held, cancelled, trial.
    pub state: String,
    /// "Thursday 27 August".
    pub day: String,
    /// The answer: "Seven quarts, 40 minutes in boiling water."
    pub answer: String,
    /// One line below.
    pub lead: String,
    /// The gate's answer.
    pub verdict: VerdictView,
    /// What comes from which lot.
    pub takes: Vec<String>,
    /// Ingredients in real spoons and cups.
    pub lines: Vec<IngredientLine>,
    /// Jar choice key, empty for other routes.
    pub jar: String,
    /// Jars as a range and what to heat.
    pub jars: Option<JarsView>,
    /// Acid for each jar and in all.
    pub acid: Option<AcidView>,
    /// "1/2 inch (13 mm)".
    pub headspace: Option<String>,
    /// Headspace in hundredths of an inch, for the jar drawing.
    pub headspace_hundredths: Option<i64>,
    /// "1 load of 7 in the big boiling-water canner".
    pub loads: Option<String>,
    /// What to do, in order.
    pub steps: Vec<StepLine>,
    /// Must-do ticks before a load's timer can start (ruling 12).
    pub ticks: Vec<TickLine>,
    /// Cautions that belong to this batch.
    pub cautions: Vec<String>,
    /// Where the recipe was read.
    pub source: String,
    /// What came out, once entered.
    pub outcome: Option<OutcomeView>,
    /// What scaling says beside the card: whether the brine reaches, which of the goods runs out
    /// first, pots, jars that are not there.
    pub scaling: Vec<String>,
    /// What can be chosen or must be answered before it is set up: the acid for the jars, and the
    /// food's own questions.
    pub asks: Vec<AskLine>,
    /// What the outcome form asks for: containers that can come out.
    pub containers: Vec<super::Choice>,
    /// Is a seal check owed?
    pub seal_check_due: bool,
    /// Dated statements on this batch, newest first.
    pub events: Vec<String>,
    /// What went wrong with it, newest first, each with its answer as of now.
    pub incidents: Vec<super::incident::IncidentView>,
    /// Missing ticks that can still be answered (ruling 12).
    pub late: Vec<TickLine>,
    /// Jars set aside, in words.
    pub aside: Vec<String>,
    /// Can an incident be stated on it?
    pub may_go_wrong: bool,
    /// On hold with no other way left: its jars show the disposal card and nothing else.
    pub disposal_only: bool,
}

/// One choice to make before a batch is set up.
#[derive(Debug, Clone, Serialize)]
pub struct AskLine {
    /// Name sent with the form: "acid", or "answers." and the question's key.
    pub name: String,
    /// The question.
    pub question: String,
    /// Answers to choose from.
    pub choices: Vec<super::Choice>,
    /// The answer given, empty when none is.
    pub chosen: String,
}

/// The gate's answer, as a plate.
#[derive(Debug, Clone, Serialize)]
pub struct VerdictView {
    /// "permit", "permit-if" (conditions), "refusal", "route" (freezer and so on) or "look-up".
    pub kind: String,
    /// Food, pack, jar, canner on the top line.
    pub top: String,
    /// Minutes of the process.
    pub minutes: Option<i64>,
    /// Pressure, such as "11".
    pub psi: Option<String>,
    /// Other whole pairs the table prints, in words: "or 15 minutes at 11 psi".
    pub other_pairs: Vec<String>,
    /// "1,001 to 3,000 ft; you entered 2,500 ft".
    pub band: String,
    /// Lower and upper edge of the band in feet.
    pub band_low_ft: Option<i64>,
    /// Upper edge, none where the table prints none.
    pub band_high_ft: Option<i64>,
    /// "USDA Complete Guide to Home Canning, 2015, p. 3-6".
    pub source: String,
    /// What must hold for this to be a permit.
    pub conditions: Vec<String>,
    /// What the publication asks on the way: venting, water, rest, limits of the food, with pages.
    pub keep_to: Vec<String>,
    /// Notes, marks of doubt.
    pub notes: Vec<String>,
    /// What the program cannot know.
    pub cannot_know: Vec<String>,
    /// When to start counting and what a dip means.
    pub count_from: String,
    /// Refusal: reason in one sentence.
    pub reason: String,
    /// Refusal: what to do instead.
    pub instead: String,
    /// Code of the rule that refused.
    pub code: String,
    /// Fridge verdicts: eat by, in days.
    pub eat_within_days: Option<i64>,
    /// Boiling water: how much of it stands over the jars, such as "2 in".
    pub water_over: Option<String>,
}

/// One ingredient.
#[derive(Debug, Clone, Serialize)]
pub struct IngredientLine {
    /// Name.
    pub name: String,
    /// In the spoons and cups of the drawer, or pounds for produce.
    pub kitchen: String,
    /// Metric.
    pub metric: String,
    /// Exact amount before rounding, such as "3 1/3 tbsp".
    pub exact: String,
    /// Per jar, where it helps.
    pub per_jar: String,
    /// Role in words: "acid: never less".
    pub role: String,
    /// Is it in the house? "short 1 cup".
    pub short: String,
}

/// Jars to expect and to heat.
#[derive(Debug, Clone, Serialize)]
pub struct JarsView {
    /// "6 to 8 quarts, likely 7".
    pub words: String,
    /// Low end.
    pub low: i64,
    /// High end.
    pub high: i64,
    /// Heat this many.
    pub heat: i64,
    /// "31 lids left after this".
    pub lids: String,
    /// What to do with a partial last jar.
    pub partial: String,
    /// Lines of the basis, each with its source.
    pub basis: Vec<String>,
}

/// Acid for the jars.
#[derive(Debug, Clone, Serialize)]
pub struct AcidView {
    /// Each alternative: "2 tbsp bottled lemon juice a jar; 14 tbsp = 7/8 cup in all".
    pub choices: Vec<String>,
    /// Where it was read, and "computed from the printed ratio" where it was.
    pub source: String,
}

/// One step of the recipe.
#[derive(Debug, Clone, Serialize)]
pub struct StepLine {
    /// What to do.
    pub text: String,
    /// "20 min", "hands free".
    pub time: String,
    /// May the work stop here?
    pub stop: String,
}

/// One tick.
#[derive(Debug, Clone, Serialize)]
pub struct TickLine {
    /// Key.
    pub key: String,
    /// What must have been done.
    pub text: String,
    /// When and by whom; empty when open.
    pub done: String,
}

/// What came out.
#[derive(Debug, Clone, Serialize)]
pub struct OutcomeView {
    /// "7 quarts to the shelf, 1 1/2 cups to the fridge, 5 lb trimmings".
    pub words: String,
    /// Made against expected.
    pub against: String,
    /// Pounds per jar by this batch against the book.
    pub factor: String,
    /// Weights by place.
    pub places: Vec<(String, Both)>,
    /// Seal check in words.
    pub seals: String,
}
