//! Which published rules a fact calls, and what they make of it.

use super::Case;
use super::fact::{Fact, Silence};
use super::verdict::Finding;
use reference::{ChangeAnswer, ChangeTrigger, ChangeVerdict as Printed, Reference};

/// What the rules make of a fact: every rule that covers the recipe and is called by the fact,
/// else that it is as printed, or untested.
pub(super) fn findings(case: &Case<'_>, fact: &Fact) -> Vec<Finding> {
    let mut found: Vec<Finding> = Vec::new();
    for trigger in case.triggers.iter().filter(|trigger| calls(trigger, fact)) {
        if let Some(finding) = finding(case, trigger)
            && !found.contains(&finding)
        {
            found.push(finding);
        }
    }
    if found.is_empty() {
        found.push(match fact.silence {
            Silence::AsPrinted => as_printed(case.reference),
            Silence::Untested => untested(case.reference),
        });
    }
    found
}

fn calls(trigger: &ChangeTrigger, fact: &Fact) -> bool {
    trigger.edits().any(|edit| fact.edits.contains(&edit))
        && trigger.of().any(|of| fact.of.iter().any(|word| word == of))
        && trigger.to().any(|to| fact.to.iter().any(|word| word == to))
}

/// The rule a trigger names, where its scope covers the recipe. A rule whose row is gone covers
/// every recipe and refuses: what it allowed, and where, nobody knows.
fn finding(case: &Case<'_>, trigger: &ChangeTrigger) -> Option<Finding> {
    let reference = case.reference;
    let (scope, answer, text, source) = match trigger.table.as_str() {
        "changes" => {
            let Some(row) = reference.change(&trigger.rule) else {
                return Some(row_missing(trigger));
            };
            let answer = match row.verdict {
                Printed::Safe => ChangeAnswer::Allow,
                Printed::OnlyIf => ChangeAnswer::AllowIf,
                Printed::Unsafe => ChangeAnswer::Refuse,
            };
            (&row.scope, answer, &row.condition, &row.source)
        }
        "limits" => {
            let Some(row) = reference.limit(&trigger.scope, &trigger.rule) else {
                return Some(row_missing(trigger));
            };
            (&row.scope, ChangeAnswer::Refuse, &row.detail, &row.source)
        }
        _ => (
            &trigger.scope,
            ChangeAnswer::Refuse,
            &trigger.text,
            &trigger.source,
        ),
    };
    reference.covers(scope, case.key()).then(|| Finding {
        rule: trigger.rule.clone(),
        answer: trigger.verdict.unwrap_or(answer),
        text: sentence(text),
        source: source.clone(),
        other_reading: (!trigger.other_reading.is_empty()).then(|| trigger.other_reading.clone()),
    })
}

/// A cell of a table as a sentence.
pub(super) fn sentence(cell: &str) -> String {
    let mut letters = cell.trim().trim_end_matches('.').chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).chain(['.']).collect()
    })
}

fn row_missing(trigger: &ChangeTrigger) -> Finding {
    Finding {
        rule: trigger.rule.clone(),
        answer: ChangeAnswer::Refuse,
        text: "The tables hold no row for this rule, and the gate never guesses one.".to_owned(),
        source: format!("process/{}.csv", trigger.table),
        other_reading: None,
    }
}

fn ours(reference: &Reference) -> String {
    crate::numbers::source(reference, "our-decision")
}

/// Nothing was changed.
pub(super) fn as_printed(reference: &Reference) -> Finding {
    Finding {
        rule: super::AS_PRINTED.to_owned(),
        answer: ChangeAnswer::Allow,
        text: "As the recipe or its table prints it: no change.".to_owned(),
        source: ours(reference),
        other_reading: None,
    }
}

/// No rule names it.
fn untested(reference: &Reference) -> Finding {
    Finding {
        rule: super::UNTESTED.to_owned(),
        answer: ChangeAnswer::Refuse,
        text: "No published rule names this change, so nobody has tested it.".to_owned(),
        source: ours(reference),
        other_reading: None,
    }
}
