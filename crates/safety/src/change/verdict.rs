//! The answer: for each edit, and for the recipe as a whole.

use super::edit::Edit;
use crate::question::Answer;
use crate::route::{FoodKind, KeepRoute, RouteQuestion, RouteVerdict, judge_route};
use reference::{ChangeAnswer, Reference};
use serde::Serialize;

/// A rule that acted on an edit or on the whole.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Finding {
    /// Key of the rule: of changes.csv or limits.csv, or one of [`super::OWN_RULES`].
    pub rule: String,
    /// What it makes of the change.
    pub answer: ChangeAnswer,
    /// What it says.
    pub text: String,
    /// Where it was read, or `our decision`.
    pub source: String,
    /// What another source says, where sources disagree; the stricter acts.
    pub other_reading: Option<String>,
}

/// The answer to one edit.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct EditVerdict {
    /// The edit as asked.
    pub edit: Edit,
    /// The edit in words.
    pub words: String,
    /// The strictest of the findings.
    pub answer: ChangeAnswer,
    /// Every rule that acted.
    pub findings: Vec<Finding>,
    /// What to do instead; empty when it is not refused.
    pub instead: String,
}

/// Where food goes that has no shelf: for so many days, or frozen.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ColdOnly {
    /// The refrigerator, with its last day; or its refusal.
    pub fridge: RouteVerdict,
    /// The freezer.
    pub freezer: RouteVerdict,
}

/// The answer to a changed recipe. It is no permit: what is allowed still has to pass the gate
/// for its jar, canner and place ([`crate::judge_heat`]).
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ChangeVerdict {
    /// Key of the recipe or food.
    pub recipe: String,
    /// As printed.
    pub title: String,
    /// Food whose process it uses; `None` = it has none.
    pub food: Option<String>,
    /// Where the recipe was read.
    pub source: String,
    /// The strictest of all.
    pub answer: ChangeAnswer,
    /// One answer for each edit, in order.
    pub edits: Vec<EditVerdict>,
    /// What the checks of all edits together found.
    pub whole: Vec<Finding>,
    /// Where it goes instead of the shelf; only when refused.
    pub cold_only: Option<ColdOnly>,
}

/// The strictest answer of some findings; nothing found is allowed.
pub(super) fn strictest(findings: &[Finding]) -> ChangeAnswer {
    findings
        .iter()
        .map(|finding| finding.answer)
        .max()
        .unwrap_or(ChangeAnswer::Allow)
}

/// Refrigerator and freezer for food that no tested recipe covers: never taken for acid.
pub(super) fn cold_only(reference: &Reference, title: &str, oil: bool) -> ColdOnly {
    let ask = |route| {
        let mut question = RouteQuestion::new(route, title);
        question.kind = FoodKind::Mixed;
        if oil {
            question.under_oil = Answer::Yes;
        }
        judge_route(reference, &question)
    };
    ColdOnly {
        fridge: ask(KeepRoute::Fridge),
        freezer: ask(KeepRoute::Freezer),
    }
}
