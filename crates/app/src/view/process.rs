//! Process: the tested process for one food, jar, canner and place.

use super::Choice;
use super::batch::VerdictView;
use serde::Serialize;
use std::collections::BTreeMap;

/// The Process page.
#[derive(Debug, Clone, Serialize)]
pub struct ProcessView {
    /// The question as it was answered: what was not said is filled in by what the house has.
    pub asked: Asked,
    /// The food as printed, empty while none is chosen.
    pub title: String,
    /// What was filled in without being said, in words: "hot pack, quart, big kettle".
    pub filled_in: String,
    /// Is a house with an elevation known?
    pub house_known: bool,
    /// Foods the house had in hand lately, newest first.
    pub recent: Vec<Choice>,
    /// All foods by group. On the command line only while no food is chosen.
    pub groups: Vec<FoodGroup>,
    /// The answer, when a food was asked for.
    pub answer: Option<VerdictView>,
    /// Other ways with a printed row, where the answer is a refusal.
    pub offers: Vec<OfferLine>,
    /// What else could be chosen: pack, jar, canner.
    pub switches: Vec<Switch>,
    /// What stands between this look-up and a permit, as far as it is known.
    pub open: Option<OpenLine>,
    /// Other bands of the same series, the one used marked.
    pub bands: Vec<RowLine>,
    /// The other jars, packs and methods of the food at this elevation.
    pub beside: Vec<BesideLine>,
    /// All rows of the food, as printed: for comparing.
    pub rows: Vec<RowLine>,
    /// Headspace in words.
    pub headspace: String,
    /// Acid for one jar of this size, one of these, whole.
    pub acid: Vec<AcidWords>,
    /// Tested recipes that use this process.
    pub recipes: Vec<Choice>,
    /// What the food asks.
    pub questions: Vec<FoodQuestion>,
    /// What water and steam do at this elevation, as information.
    pub here: Vec<String>,
    /// Cautions.
    pub cautions: Vec<String>,
}

/// The question.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct Asked {
    /// Food key or typed text.
    pub food: String,
    /// Pack key.
    pub pack: String,
    /// Jar key.
    pub jar: String,
    /// Method key.
    pub method: String,
    /// Name of the house's canner, empty where none is meant.
    pub canner: String,
    /// Elevation as typed; empty where the house's own counts.
    pub elevation: String,
    /// Acid for the jars.
    pub acid: String,
    /// Strength of the vinegar on its label, percent.
    pub vinegar: String,
    /// "yes" when the produce is sound throughout.
    pub sound: String,
    /// Answers to the food's own questions.
    pub answers: BTreeMap<String, String>,
}

/// Foods of one group.
#[derive(Debug, Clone, Serialize)]
pub struct FoodGroup {
    /// "Tomatoes".
    pub title: String,
    /// Its foods.
    pub foods: Vec<Choice>,
}

/// A way with a printed row.
#[derive(Debug, Clone, Serialize)]
pub struct OfferLine {
    /// The whole question with this way chosen: field and word; empty for the freezer and the like,
    /// which need no row.
    pub asks: Vec<(String, String)>,
    /// In words.
    pub text: String,
}

/// Something that can be chosen differently.
#[derive(Debug, Clone, Serialize)]
pub struct Switch {
    /// pack, jar, canner or method.
    pub name: String,
    /// "Pack".
    pub title: String,
    /// The choices.
    pub choices: Vec<SwitchChoice>,
}

/// One choice of a switch.
#[derive(Debug, Clone, Serialize)]
pub struct SwitchChoice {
    /// The whole question with this choice made: field and word.
    pub asks: Vec<(String, String)>,
    /// In words.
    pub title: String,
    /// Is it the choice made?
    pub here: bool,
}

/// What a permit still wants.
#[derive(Debug, Clone, Serialize)]
pub struct OpenLine {
    /// Code of the rule that asks.
    pub code: String,
    /// What is asked, or what stands in the way.
    pub text: String,
    /// What to do.
    pub instead: String,
    /// Answers that can be given here: field and word, and how they read.
    pub answers: Vec<SwitchChoice>,
}

/// Acid for one jar.
#[derive(Debug, Clone, Serialize)]
pub struct AcidWords {
    /// "2 tbsp (29.6 mL) bottled lemon juice for each quart".
    pub text: String,
    /// "computed from the printed ratio", "printed in full only in an older edition"; else empty.
    pub mark: String,
    /// Where it was read.
    pub source: String,
}

/// A question of the food.
#[derive(Debug, Clone, Serialize)]
pub struct FoodQuestion {
    /// Its key; empty where there is nothing to answer.
    pub key: String,
    /// The question.
    pub text: String,
    /// Its answers with what each means.
    pub answers: Vec<Choice>,
    /// The answer given, empty when none is.
    pub given: String,
    /// Page.
    pub source: String,
}

/// One printed row.
#[derive(Debug, Clone, Serialize)]
pub struct RowLine {
    /// "hot", "raw" or "any".
    pub pack: String,
    /// Jar.
    pub jar: String,
    /// Method.
    pub method: String,
    /// "1,001 to 3,000 ft".
    pub band: String,
    /// Minutes.
    pub minutes: i64,
    /// Pressure.
    pub psi: String,
    /// Number of the printed pair, where there are several.
    pub pair: String,
    /// Page.
    pub page: String,
    /// Mark of doubt of this cell alone, empty when read in the 2015 text and not doubtful.
    pub mark: String,
    /// Is it the row that answers?
    pub answers: bool,
}

/// Another jar, pack or method at this elevation.
#[derive(Debug, Clone, Serialize)]
pub struct BesideLine {
    /// The whole question with this line chosen: field and word.
    pub asks: Vec<(String, String)>,
    /// "raw pack, pint, boiling water".
    pub title: String,
    /// "40 minutes", "25 minutes at 11 psi".
    pub time: String,
    /// Page.
    pub page: String,
    /// Mark of doubt.
    pub mark: String,
    /// Is it the one that answers?
    pub here: bool,
}

/// Every printed row, as the table has it.
#[derive(Debug, Clone, Serialize)]
pub struct PrintedRow {
    /// The row under the table's own column names.
    #[serde(flatten)]
    pub row: reference::ProcessRow,
    /// Lines of the doubtful list for this cell.
    pub doubts: Vec<String>,
}
