//! Recipe changes: every ingredient has its kind, every change rule an edit that calls it.

use crate::problem::TableProblem;
use crate::tables::Reference;
use std::collections::{BTreeMap, BTreeSet};

/// Reports ingredients without a kind or of the wrong one, triggers that call nothing, and change
/// rules that nothing calls.
pub fn check(reference: &Reference, found: &mut Vec<TableProblem>) {
    kinds(reference, found);
    triggers(reference, found);
    touches(reference, found);
}

fn touches(reference: &Reference, found: &mut Vec<TableProblem>) {
    for row in &reference.limit_touches {
        let no_kind = row
            .kinds()
            .find(|word| word.parse::<crate::words::IngredientKind>().is_err());
        let message = match no_kind {
            Some(word) => format!("`{word}` is no kind of ingredient"),
            None if reference.limit(&row.scope, &row.rule).is_none() => {
                format!("no limit `{}` of `{}`", row.rule, row.scope)
            }
            None => continue,
        };
        found.push(TableProblem::new(
            "process/limit_touches.csv",
            row.line,
            "touch-without-limit",
            message,
        ));
    }
}

fn kinds(reference: &Reference, found: &mut Vec<TableProblem>) {
    let kinds: BTreeMap<&str, crate::words::IngredientKind> = reference
        .ingredient_kinds
        .iter()
        .map(|row| (row.ingredient.as_str(), row.kind))
        .collect();
    for row in &reference.recipe_rows {
        let mut fault = |rule, message| {
            found.push(TableProblem::new(
                "process/recipes.csv",
                row.line,
                rule,
                message,
            ));
        };
        let Some(kind) = kinds.get(row.ingredient.as_str()) else {
            fault(
                "ingredient-without-kind",
                format!(
                    "`{}` has no line in process/ingredient_kinds.csv",
                    row.ingredient
                ),
            );
            continue;
        };
        let printed_low = row.produce_acidity == "low-acid";
        if (printed_low && !kind.is_low_acid()) || (row.role == "acid" && !kind.is_acid()) {
            fault(
                "kind-less-acid",
                format!(
                    "`{}` is printed as {} {}, and its kind is {kind}",
                    row.ingredient, row.produce_acidity, row.role
                ),
            );
        }
    }
}

fn triggers(reference: &Reference, found: &mut Vec<TableProblem>) {
    let mut called: BTreeSet<&str> = BTreeSet::new();
    for trigger in &reference.change_triggers {
        let there = match trigger.table.as_str() {
            "changes" => {
                called.insert(&trigger.rule);
                reference.change(&trigger.rule).is_some()
            }
            "limits" => {
                trigger.verdict.is_some()
                    && reference.limit(&trigger.scope, &trigger.rule).is_some()
            }
            // Our own rules say all themselves.
            _ => trigger.verdict.is_some() && !trigger.text.is_empty(),
        };
        if !there {
            found.push(TableProblem::new(
                "process/change_triggers.csv",
                trigger.line,
                "trigger-without-rule",
                format!(
                    "no rule `{}` in {} for `{}`",
                    trigger.rule, trigger.table, trigger.scope
                ),
            ));
        }
    }
    for row in &reference.changes {
        if !called.contains(row.change.as_str()) {
            found.push(TableProblem::new(
                "process/changes.csv",
                row.line,
                "rule-never-called",
                format!(
                    "no edit of process/change_triggers.csv calls `{}`",
                    row.change
                ),
            ));
        }
    }
}
