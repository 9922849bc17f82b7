//! One canner run with jars of more than one kind: each jar keeps its own permit, and the load
//! takes the longest of their times at one pressure, or is refused.
//!
//! No publication on mixed loads was read. So the rule is our own and narrow: the same canner,
//! the same start, the same printed pressure of the same pair; nothing that needs a run of its
//! own; and the permit says that no published rule was found.

mod rules;

use crate::heat::{Verdict, judge_heat};
use crate::permit::{Pair, Permit, PermitRecord, Statement};
use crate::question::HeatQuestion;
use crate::refusal::Refusal;
use quantity::{Exact, exact_text};
use reference::Reference;
use rules::{RULES, Rule};
use serde::Serialize;

/// The gate's answer for one canner run.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum LoadVerdict {
    /// Leave to process these jars together.
    Permit(Box<LoadPermit>),
    /// No, with a reason and what to do instead.
    Refusal(Refusal),
}

impl LoadVerdict {
    /// The permit, if there is one.
    pub fn permit(&self) -> Option<&LoadPermit> {
        match self {
            LoadVerdict::Permit(permit) => Some(permit),
            LoadVerdict::Refusal(_) => None,
        }
    }

    /// The refusal, if there is one.
    pub fn refusal(&self) -> Option<&Refusal> {
        match self {
            LoadVerdict::Permit(_) => None,
            LoadVerdict::Refusal(refusal) => Some(refusal),
        }
    }
}

/// Leave to process jars together in one run; it cites the permit of every jar.
///
/// Like [`Permit`] it lives in memory only and comes from the gate alone.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LoadPermit {
    record: LoadRecord,
}

/// Plain data about one canner run that was permitted; arms nothing.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct LoadRecord {
    /// Minutes of the run: the longest of its jars.
    pub minutes: u32,
    /// Printed pressure, pounds per square inch; `None` in boiling water and steam.
    pub psi: Option<u32>,
    /// What the dial must show, pounds per square inch.
    #[serde(with = "exact_text::option")]
    pub dial_shows_psi: Option<Exact>,
    /// The pair of each jar at the load's pressure, in the order asked.
    pub pairs: Vec<Pair>,
    /// The permit of each jar, in the order asked.
    pub permits: Vec<PermitRecord>,
    /// What must be true or ticked, each once.
    pub conditions: Vec<Statement>,
    /// The rules of the load that acted, with their sources.
    pub rules: Vec<Statement>,
}

impl LoadPermit {
    /// Minutes of the run: the longest of its jars.
    pub fn minutes(&self) -> u32 {
        self.record.minutes
    }

    /// The plain record.
    pub fn record(&self) -> &LoadRecord {
        &self.record
    }
}

/// The jars of one run, each with its own permit.
pub(crate) struct Run<'a> {
    pub reference: &'a Reference,
    pub permits: Vec<Permit>,
}

/// What the rules have found so far.
#[derive(Default)]
pub(crate) struct Draft {
    /// The pair of each jar at the load's pressure.
    pub pairs: Vec<Pair>,
    pub conditions: Vec<Statement>,
    pub rules: Vec<Statement>,
}

/// The names of the rules of a load, in the order they are asked.
pub fn load_rule_names() -> Vec<&'static str> {
    RULES.iter().map(|rule| rule.name).collect()
}

/// Asks the gate: may these jars be processed together in one canner run?
pub fn judge_load(reference: &Reference, questions: &[HeatQuestion]) -> LoadVerdict {
    judge_by(reference, questions, RULES)
}

fn judge_by(reference: &Reference, questions: &[HeatQuestion], rules: &[Rule]) -> LoadVerdict {
    match run(reference, questions, rules) {
        Ok(permit) => LoadVerdict::Permit(Box::new(permit)),
        Err(refusal) => LoadVerdict::Refusal(refusal),
    }
}

fn run(
    reference: &Reference,
    questions: &[HeatQuestion],
    rules: &[Rule],
) -> Result<LoadPermit, Refusal> {
    let mut permits = Vec::new();
    for question in questions {
        match judge_heat(reference, question) {
            Verdict::Permit(permit) => permits.push(*permit),
            // A jar that may not be processed alone may not be processed with others.
            Verdict::Refusal(mut refusal) => {
                refusal.reason = format!(
                    "{} in the {}: {}",
                    question.food, question.jar, refusal.reason
                );
                return Err(refusal);
            }
        }
    }
    let run = Run { reference, permits };
    let mut draft = Draft {
        pairs: run.permits.iter().map(|p| p.chosen().clone()).collect(),
        ..Draft::default()
    };
    for rule in rules {
        (rule.check)(&run, &mut draft)?;
    }
    for permit in &run.permits {
        for condition in permit.conditions() {
            if !draft.conditions.contains(condition) {
                draft.conditions.push(condition.clone());
            }
        }
    }
    let longest = draft.pairs.iter().max_by_key(|pair| pair.minutes);
    Ok(LoadPermit {
        record: LoadRecord {
            minutes: longest.map_or(0, |pair| pair.minutes),
            psi: longest.and_then(|pair| pair.psi),
            dial_shows_psi: longest.and_then(|pair| pair.dial_shows_psi),
            pairs: draft.pairs,
            permits: run.permits.iter().map(Permit::record).collect(),
            conditions: draft.conditions,
            rules: draft.rules,
        },
    })
}

#[cfg(test)]
mod tests;
