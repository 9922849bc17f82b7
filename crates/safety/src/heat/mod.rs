//! The verdict for heat: a list of rules, each of which narrows the printed rows, adds a condition
//! or refuses. What is left at the end is one printed row for each whole pair, or a refusal.

mod acid;
mod again;
mod band;
mod canner;
mod conditions;
mod doubt;
mod finish;
mod food;
mod history;
mod jar;
mod method;
mod offers;
mod treatment;

pub use again::{Again, ask_again};
pub(crate) use band::{Place, row_applies};
pub use conditions::closed_by;
pub(crate) use finish::pairs;

use crate::codes::UNKNOWN_FOOD;
use crate::permit::{AcidLine, Permit, Statement, WaterBand};
use crate::question::HeatQuestion;
use crate::refusal::{Offer, Refusal};
use quantity::Exact;
use reference::{FoodRow, Jar, Method, ProcessRow, Reference};

/// The gate's answer for heat. Conditions live in the permit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Verdict {
    /// Leave to process these jars.
    Permit(Box<Permit>),
    /// No, with a reason and what to do instead.
    Refusal(Refusal),
}

impl Verdict {
    /// The permit, if there is one.
    pub fn permit(&self) -> Option<&Permit> {
        match self {
            Verdict::Permit(permit) => Some(permit),
            Verdict::Refusal(_) => None,
        }
    }

    /// The refusal, if there is one.
    pub fn refusal(&self) -> Option<&Refusal> {
        match self {
            Verdict::Permit(_) => None,
            Verdict::Refusal(refusal) => Some(refusal),
        }
    }
}

/// The question with its food found.
pub(crate) struct Case<'a> {
    pub reference: &'a Reference,
    pub question: &'a HeatQuestion,
    pub food: &'a FoodRow,
    /// The method asked for.
    pub method: Method,
    /// The method whose rows are read: steam reads those of boiling water.
    pub row_method: Method,
}

/// A printed row still in play.
#[derive(Debug, Clone)]
pub(crate) struct Candidate<'a> {
    pub row: &'a ProcessRow,
    pub minutes: u32,
    pub dial_shows_psi: Option<Exact>,
    /// Key, source and page when the figure is not the row's own.
    pub other_row: Option<(String, String, String)>,
}

/// What the rules have found so far.
#[derive(Debug, Default)]
pub(crate) struct Draft<'a> {
    pub candidates: Vec<Candidate<'a>>,
    pub row_jar: Option<Jar>,
    pub place: Option<Place>,
    pub water: Option<WaterBand>,
    pub headspace_in: Option<String>,
    pub acid: Vec<AcidLine>,
    pub conditions: Vec<Statement>,
    pub keep_to: Vec<Statement>,
    pub marks: Vec<Statement>,
    pub rules: Vec<Statement>,
    pub assumed: Vec<String>,
    pub cannot_know: Vec<String>,
}

impl Draft<'_> {
    fn condition(&mut self, key: &str, text: impl Into<String>, source: impl Into<String>) {
        self.conditions.push(statement(key, text, source));
    }

    fn mark(&mut self, key: &str, text: impl Into<String>, source: impl Into<String>) {
        self.marks.push(statement(key, text, source));
    }

    fn fired(&mut self, key: &str, text: impl Into<String>, source: impl Into<String>) {
        self.rules.push(statement(key, text, source));
    }
}

fn statement(key: &str, text: impl Into<String>, source: impl Into<String>) -> Statement {
    Statement {
        key: key.to_owned(),
        text: text.into(),
        source: source.into(),
    }
}

/// One rule of the gate.
#[derive(Clone, Copy)]
pub(crate) struct Rule {
    pub name: &'static str,
    pub check: for<'a> fn(&Case<'a>, &mut Draft<'a>) -> Result<(), Refusal>,
}

macro_rules! rules {
    ($($name:literal => $check:path),+ $(,)?) => {
        &[$(Rule { name: $name, check: $check }),+]
    };
}

/// The rules, in the order they are asked.
pub(crate) const RULES: &[Rule] = rules![
    "refrigerator-only" => food::refrigerator_only,
    "recipe-is-tested" => food::recipe_is_tested,
    "recipe-is-readable" => food::recipe_is_readable,
    "treatment" => treatment::treatment,
    "living-vine" => history::living_vine,
    "no-disease" => history::no_disease,
    "not-frozen-before" => history::not_frozen_before,
    "split-fruit" => history::split_fruit,
    "low-acid-under-pressure" => method::low_acid_under_pressure,
    "method" => method::method,
    "pack" => method::pack,
    "jar" => jar::jar,
    "questions" => conditions::questions,
    "option" => band::option,
    "band" => band::band,
    "doubtful" => doubt::doubtful,
    "vessel" => canner::vessel,
    "weights" => canner::weights,
    "gauge" => canner::gauge,
    "steam" => canner::steam,
    "sterile-jars" => conditions::sterile_jars,
    "acid" => acid::acid,
    "vinegar" => acid::vinegar,
    "limits" => conditions::limits,
    "practice" => conditions::practice_lines,
];

/// The rules a look-up asks: which printed row is it? Nothing about jars, gauge, acid or history.
pub(crate) const LOOK_UP_RULES: &[Rule] = rules![
    "refrigerator-only" => food::refrigerator_only,
    "low-acid-under-pressure" => method::low_acid_under_pressure,
    "method" => method::method,
    "pack" => method::pack,
    "jar" => jar::jar,
    "option" => band::option,
    "band" => band::band,
    "steam" => canner::steam,
];

/// The rules a look-up in a known house asks: beside the row also whether this canner may be used
/// at all. Nothing about jars, acid or history.
pub(crate) const HOUSE_LOOK_UP_RULES: &[Rule] = rules![
    "refrigerator-only" => food::refrigerator_only,
    "low-acid-under-pressure" => method::low_acid_under_pressure,
    "method" => method::method,
    "pack" => method::pack,
    "jar" => jar::jar,
    "option" => band::option,
    "band" => band::band,
    "vessel" => canner::vessel,
    "weights" => canner::weights,
    "gauge" => canner::gauge,
    "steam" => canner::steam,
];

/// The names of the gate's rules, in the order they are asked.
pub fn rule_names() -> Vec<&'static str> {
    RULES.iter().map(|rule| rule.name).collect()
}

/// Asks the gate: may this food be heat-processed in this jar, here, with this canner?
pub fn judge_heat(reference: &Reference, question: &HeatQuestion) -> Verdict {
    judge_by(reference, question, RULES)
}

/// The verdict of a list of rules; the product always uses [`RULES`].
pub(crate) fn judge_by(reference: &Reference, question: &HeatQuestion, rules: &[Rule]) -> Verdict {
    match run(reference, question, rules).and_then(|(case, draft)| finish::permit(&case, draft)) {
        Ok(permit) => Verdict::Permit(Box::new(permit)),
        Err(refusal) => Verdict::Refusal(refusal),
    }
}

/// Runs the rules over every printed row of the food.
pub(crate) fn run<'a>(
    reference: &'a Reference,
    question: &'a HeatQuestion,
    rules: &[Rule],
) -> Result<(Case<'a>, Draft<'a>), Refusal> {
    let food = reference
        .food(&question.food)
        .ok_or_else(|| unknown_food(reference, &question.food))?;
    let method = question.canner.method();
    let case = Case {
        reference,
        question,
        food,
        method,
        row_method: match method {
            Method::Steam => Method::BoilingWater,
            other => other,
        },
    };
    let mut draft = Draft {
        candidates: reference
            .processes_for(&food.food)
            .into_iter()
            .map(|row| Candidate {
                row,
                minutes: row.minutes,
                dial_shows_psi: None,
                other_row: None,
            })
            .collect(),
        headspace_in: food.headspace_in.as_ref().map(|p| p.text().to_owned()),
        ..Draft::default()
    };
    for rule in rules {
        (rule.check)(&case, &mut draft)?;
    }
    Ok((case, draft))
}

fn unknown_food(reference: &Reference, text: &str) -> Refusal {
    let like = reference.suggest_food(text);
    let offers: Vec<Offer> = like
        .iter()
        .map(|food| Offer {
            kind: "food",
            value: food.food.clone(),
            text: format!("{} ({})", food.food, food.title),
        })
        .collect();
    let instead = if offers.is_empty() {
        "Freeze it, or refrigerate it and eat it soon: a food that no table names has no time."
    } else {
        "Is one of these meant? A food that no table names has no time: freeze or refrigerate it."
    };
    Refusal::new(
        UNKNOWN_FOOD,
        format!("`{text}` is not a food of the tested tables."),
        instead,
        "process/foods.csv",
    )
    .offering(offers)
}

#[cfg(test)]
mod tests;
