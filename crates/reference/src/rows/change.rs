//! Rows about recipe changes: what an ingredient is, and which edit calls which published rule.

use super::row;
use crate::words::{ChangeAnswer, IngredientKind};
use serde::{Deserialize, Serialize};

/// What an ingredient is: by its key in the recipes, or by a word people say for it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct IngredientRow {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    #[serde(rename(deserialize = "source"), skip_serializing)]
    printed: String,
    /// Key of recipes.csv, or a word.
    pub ingredient: String,
    /// What it is.
    pub kind: IngredientKind,
}

row!(
    IngredientRow,
    "process/ingredient_kinds.csv",
    printed,
    ["ingredient", "kind", "source"]
);

/// Which edit of a recipe calls a rule of changes.csv or limits.csv (or one of our own).
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ChangeTrigger {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    #[serde(rename(deserialize = "source"), skip_serializing)]
    printed: String,
    /// Key of the rule called.
    pub rule: String,
    /// Table of the rule: `changes`, `limits`, or `own` for one of ours.
    pub table: String,
    /// Scope, for `limits` and `own`; a row of `changes` has its own.
    pub scope: String,
    edit: String,
    of: String,
    to: String,
    /// The answer, where it is not that of the row called or is stricter.
    pub verdict: Option<ChangeAnswer>,
    /// What it says, for `own`.
    pub text: String,
    /// What another source says, where sources disagree.
    pub other_reading: String,
}

row!(
    ChangeTrigger,
    "process/change_triggers.csv",
    printed,
    [
        "rule",
        "table",
        "scope",
        "edit",
        "of",
        "to",
        "verdict",
        "text",
        "other_reading",
        "source",
    ]
);

impl ChangeTrigger {
    /// The edits that call the rule: `more`, `swap`, `jar`, `manner`, ...
    pub fn edits(&self) -> impl Iterator<Item = &str> {
        self.edit.split('|')
    }

    /// What is edited: ingredient kinds, groups of them, or words of the edit.
    pub fn of(&self) -> impl Iterator<Item = &str> {
        self.of.split('|')
    }

    /// What comes in its place; empty where nothing does.
    pub fn to(&self) -> impl Iterator<Item = &str> {
        self.to.split('|')
    }
}

/// Which recipes a limit of a whole group touches; a limit without a row touches all of them.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct LimitTouch {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    #[serde(rename(deserialize = "source"), skip_serializing)]
    printed: String,
    /// Scope of the limit.
    pub scope: String,
    /// Its rule.
    pub rule: String,
    touches: String,
    /// Why, in words.
    pub note: String,
}

row!(
    LimitTouch,
    "process/limit_touches.csv",
    printed,
    ["scope", "rule", "touches", "note", "source"]
);

impl LimitTouch {
    /// The kinds of ingredients one of which a recipe must have; none for a limit that speaks of
    /// changes only, and so of no recipe that is followed as printed.
    pub fn kinds(&self) -> impl Iterator<Item = &str> {
        self.touches.split('|').filter(|word| *word != "change")
    }
}
