//! Every number the gate compares with, read from a table by its key. None is written in code.

use crate::codes::TABLE_NUMBER_MISSING;
use crate::refusal::Refusal;
use quantity::Exact;
use reference::Reference;

/// A number and where it was read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Sourced {
    pub value: Exact,
    pub source: String,
}

impl Sourced {
    /// The number as people say it.
    pub fn shown(&self) -> String {
        quantity::show::number(self.value)
    }
}

/// From practice.csv.
pub(crate) fn practice(reference: &Reference, key: &str) -> Result<Sourced, Refusal> {
    reference
        .practice(key)
        .and_then(|row| {
            Some(Sourced {
                value: row.number()?,
                source: row.source.clone(),
            })
        })
        .ok_or_else(|| missing("practice.csv", key))
}

/// From house_rules.csv.
pub(crate) fn house_rule(reference: &Reference, key: &str) -> Result<Sourced, Refusal> {
    reference
        .house_rule(key)
        .map(|row| Sourced {
            value: row.number(),
            source: row.source.clone(),
        })
        .ok_or_else(|| missing("house_rules.csv", key))
}

/// From limits.csv.
pub(crate) fn limit(reference: &Reference, scope: &str, rule: &str) -> Result<Sourced, Refusal> {
    reference
        .limit(scope, rule)
        .and_then(|row| {
            Some(Sourced {
                value: row.value.as_ref()?.high(),
                source: row.source.clone(),
            })
        })
        .ok_or_else(|| missing("limits.csv", rule))
}

/// The text to show for a source key; the key itself where the list of sources lacks it.
pub(crate) fn source(reference: &Reference, key: &str) -> String {
    let text = reference.source_text(key);
    text.unwrap_or_else(|| key.to_owned())
}

/// The source of a limit that has no number.
pub(crate) fn limit_source(reference: &Reference, scope: &str, rule: &str) -> String {
    reference
        .limit(scope, rule)
        .map(|row| row.source.clone())
        .unwrap_or_else(|| format!("limits.csv, {rule}"))
}

fn missing(table: &str, key: &str) -> Refusal {
    Refusal::new(
        TABLE_NUMBER_MISSING,
        format!("The tables hold no number `{key}` ({table}), and the gate never guesses one."),
        "Put the food in the refrigerator or freezer and report the fault.",
        format!("process/{table}"),
    )
}

/// Whole number as a fraction.
pub(crate) fn exact(number: u32) -> Exact {
    Exact::from_integer(i128::from(number))
}
