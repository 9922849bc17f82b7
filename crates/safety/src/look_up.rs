//! The printed row without any household: a look-up, not a permit.

use crate::heat::{self, HOUSE_LOOK_UP_RULES, LOOK_UP_RULES, Rule};
use crate::permit::{Pair, Statement};
use crate::question::{CannerFacts, HeatQuestion};
use crate::refusal::Refusal;
use quantity::Elevation;
use reference::{Jar, Method, Pack, Reference};
use serde::Serialize;

/// What the tables print, and what a look-up does not know. It arms nothing.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct LookUp {
    /// `look-up, not a permit`.
    pub heading: &'static str,
    /// Food key.
    pub food: String,
    /// Food as printed.
    pub title: String,
    /// Pack asked for.
    pub pack: Pack,
    /// Jar asked for.
    pub jar: Jar,
    /// Jar whose row was used.
    pub row_jar: Jar,
    /// Method asked for.
    pub method: Method,
    /// Minutes of the pair shown first.
    pub minutes: u32,
    /// Pressure of the pair shown first, pounds per square inch.
    pub psi: Option<u32>,
    /// Lower edge of the band, feet.
    pub band_low_ft: u32,
    /// Upper edge of the band, feet.
    pub band_high_ft: Option<u32>,
    /// Source of the pair shown first.
    pub source: String,
    /// Page of the pair shown first.
    pub page: String,
    /// Every whole pair, doubtful ones with their mark.
    pub pairs: Vec<ShownPair>,
    /// Headspace in inches as printed.
    pub headspace_in: Option<String>,
    /// Acids printed for each jar, in words.
    pub acid: Vec<String>,
    /// Rules, marks and conditions met on the way.
    pub notes: Vec<Statement>,
    /// What was taken as given.
    pub assumed: Vec<String>,
    /// What a look-up does not know.
    pub does_not_know: Vec<String>,
}

/// A pair with the marks of the doubtful list.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ShownPair {
    /// The pair.
    #[serde(flatten)]
    pub pair: Pair,
    /// Marks of the doubtful list.
    pub marks: Vec<String>,
    /// Shown only: no permit ever rests on it (or not for every kind of the food).
    pub show_only: bool,
}

/// The printed row for a food, pack, jar, method and elevation.
///
/// # Errors
/// A [`Refusal`] when no row is printed, or the elevation is missing.
pub fn look_up(
    reference: &Reference,
    food: &str,
    pack: Pack,
    jar: Jar,
    method: Method,
    elevation: Option<Elevation>,
) -> Result<LookUp, Refusal> {
    let mut question = HeatQuestion::new(food, pack, jar, CannerFacts::unknown(method), "");
    question.elevation = elevation;
    shown(reference, &question, LOOK_UP_RULES, unknown_canner(method))
}

/// The printed row where the house and its canner are known: the weights it owns, what its gauge
/// shows, whether its vessel is a canner. Jars, acid and history stay open: still a look-up.
///
/// # Errors
/// A [`Refusal`] when no row is printed, the elevation is missing or the canner may not be used.
pub fn look_up_in_house(reference: &Reference, question: &HeatQuestion) -> Result<LookUp, Refusal> {
    shown(reference, question, HOUSE_LOOK_UP_RULES, Vec::new())
}

/// The row that a list of rules leaves.
fn shown(
    reference: &Reference,
    question: &HeatQuestion,
    rules: &[Rule],
    mut does_not_know: Vec<String>,
) -> Result<LookUp, Refusal> {
    let (food, jar) = (&question.food, question.jar);
    let (case, draft) = heat::run(reference, question, rules)?;
    let (least, pairs) = heat::pairs(&case, &draft)?;
    let shown: Vec<ShownPair> = pairs
        .into_iter()
        .map(|pair| {
            let doubts = reference.doubts("processes", &pair.row_key);
            ShownPair {
                marks: doubts
                    .iter()
                    .map(|d| format!("{}: {}", d.verdict, d.why))
                    .collect(),
                show_only: doubts
                    .iter()
                    .any(|d| d.verdict == reference::DoubtVerdict::ShowOnly),
                pair,
            }
        })
        .collect();
    // A pair that may carry a permit is shown before one that never does.
    let first = shown
        .iter()
        .filter(|one| !one.show_only)
        .map(|one| &one.pair)
        .min_by_key(|pair| (pair.psi, pair.option))
        .unwrap_or(&least)
        .clone();
    does_not_know.extend(unknown_food_facts(reference, food));
    let mut notes = draft.conditions;
    notes.extend(draft.marks);
    notes.extend(draft.rules);
    Ok(LookUp {
        heading: "look-up, not a permit",
        food: case.food.food.clone(),
        title: case.food.title.clone(),
        pack: question.pack,
        jar,
        row_jar: draft.row_jar.unwrap_or(jar),
        method: case.method,
        minutes: first.minutes,
        psi: first.psi,
        band_low_ft: first.band_low_ft,
        band_high_ft: first.band_high_ft,
        source: first.source,
        page: first.page,
        pairs: shown,
        headspace_in: draft.headspace_in,
        acid: reference
            .acid_for(food)
            .iter()
            .map(|row| format!("{} {} {} per {}", row.amount, row.unit, row.acid, row.jar))
            .collect(),
        notes,
        assumed: draft.assumed,
        does_not_know,
    })
}

/// What is not known of a canner of which only the kind was told.
fn unknown_canner(method: Method) -> Vec<String> {
    let mut unknown = Vec::new();
    if method == Method::DialGauge {
        unknown.push("Whether the dial gauge is tested, and how far it is off.".to_owned());
    }
    if method.is_pressure() {
        unknown
            .push("Whether the vessel is large enough to be a canner, and its weights.".to_owned());
    }
    unknown
}

/// What is not known of the food in the jars.
fn unknown_food_facts(reference: &Reference, food: &str) -> Vec<String> {
    let mut unknown = vec!["What the produce has been through (vine, disease, frost).".to_owned()];
    if !reference.acid_for(food).is_empty() {
        unknown.push("Whether the acid goes into every jar.".to_owned());
    }
    let mut asked: Vec<&str> = Vec::new();
    for question in reference.questions_for(food) {
        if !question.answer.is_empty() && !asked.contains(&question.text.as_str()) {
            asked.push(&question.text);
            unknown.push(question.text.clone());
        }
    }
    unknown
}
