//! Rows of the tables this project keeps itself: jars, doubts, questions, house rules.

use super::row;
use crate::number::{Exact, Printed};
use crate::words::{DoubtVerdict, Jar, Method, Pack, QuestionEffect};
use serde::{Deserialize, Serialize};

/// A jar size and, for metric jars, the row a maker's metric table gives it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct JarSize {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    #[serde(rename(deserialize = "source"), skip_serializing)]
    printed: String,
    /// The jar.
    pub jar: Jar,
    /// Its name as people say it.
    pub title: String,
    /// Brim volume, millilitres.
    pub millilitres: Printed,
    /// The row a metric jar may take when the house follows the maker's metric table.
    pub metric_setting_row: Option<Jar>,
    /// What stands behind it.
    pub note: String,
}

row!(
    JarSize,
    "process/jar_sizes.csv",
    printed,
    [
        "jar",
        "title",
        "millilitres",
        "metric_setting_row",
        "source",
        "note",
    ]
);

/// A cell that was hard to read or stands alone, and what it may still carry.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct DoubtfulRow {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    #[serde(rename(deserialize = "source"), skip_serializing)]
    printed: String,
    /// The table: `processes`, `recipes`, `acid_additions`, `limits`.
    pub table: String,
    /// The row's key in that table.
    pub key: String,
    /// The reading that was kept.
    pub reading_kept: String,
    /// Why it is doubtful.
    pub why: String,
    /// Whether a permit may rest on it.
    pub verdict: DoubtVerdict,
    /// `question=answer` for which the line acts; empty = always.
    only_if: String,
}

row!(
    DoubtfulRow,
    "process/doubtful.csv",
    printed,
    [
        "table",
        "key",
        "reading_kept",
        "why",
        "verdict",
        "only_if",
        "source",
    ]
);

impl DoubtfulRow {
    /// The question and answer for which this line acts; `None` = it always acts.
    pub fn only_if(&self) -> Option<(&str, &str)> {
        self.only_if.split_once('=')
    }
}

/// One answer to a question a food asks before its table may be used.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct QuestionRow {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    #[serde(rename(deserialize = "source"), skip_serializing)]
    printed: String,
    /// Food key.
    pub food: String,
    /// The question's key.
    pub question: String,
    /// The question in words.
    pub text: String,
    /// One possible answer; empty for `either-pack`.
    pub answer: String,
    /// Asked only for this pack.
    pub when_pack: Option<Pack>,
    /// Asked only for this jar (the row used, not the jar filled).
    pub when_jar: Option<Jar>,
    /// Asked only for this method.
    pub when_method: Option<Method>,
    /// What the answer does.
    pub effect: QuestionEffect,
    /// Value of the effect: headspace in inches, or the printed pack label.
    pub value: String,
    /// Why.
    pub note: String,
}

row!(
    QuestionRow,
    "process/questions.csv",
    printed,
    [
        "food",
        "question",
        "text",
        "answer",
        "when_pack",
        "when_jar",
        "when_method",
        "effect",
        "value",
        "note",
        "source",
    ]
);

impl QuestionRow {
    /// Whether this pack, jar and method raise the question.
    pub fn is_raised(&self, pack: Pack, jar: Option<Jar>, method: Method) -> bool {
        self.when_pack.is_none_or(|when| when == pack)
            && self.when_jar.is_none_or(|when| Some(when) == jar)
            && self.when_method.is_none_or(|when| when == method)
    }
}

/// A number the gate compares with that is our own decision.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct HouseRule {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    #[serde(rename(deserialize = "source"), skip_serializing)]
    printed: String,
    /// Key.
    pub key: String,
    /// The number.
    pub value: Printed,
    /// Its unit.
    pub unit: String,
    /// Why.
    pub note: String,
}

row!(
    HouseRule,
    "process/house_rules.csv",
    printed,
    ["key", "value", "unit", "note", "source",]
);

impl HouseRule {
    /// The number.
    pub fn number(&self) -> Exact {
        self.value.high()
    }
}

/// A food that may be made of produce that has been frozen; no row means no process for it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct FrozenBefore {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    #[serde(rename(deserialize = "source"), skip_serializing)]
    printed: String,
    /// Food key.
    pub food: String,
    /// How.
    pub note: String,
}

row!(
    FrozenBefore,
    "process/frozen_before.csv",
    printed,
    ["food", "note", "source"]
);
