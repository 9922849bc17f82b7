//! Rows of the tables about what can go wrong: kinds, ways out, and the disposal card.

use super::{row, yes_no};
use crate::words::{
    DisposalCase, IncidentAffects, IncidentClock, IncidentGroup, IncidentHold, IncidentPhase,
    IncidentWay,
};
use serde::{Deserialize, Serialize};

/// One thing that can go wrong, with the published answer.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct IncidentRow {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    #[serde(rename(deserialize = "source"), skip_serializing)]
    printed: String,
    /// Key.
    pub kind: String,
    /// What happened, in words.
    pub title: String,
    /// The same in few words, for a button.
    pub button: String,
    /// When or where it is noticed.
    pub group: IncidentGroup,
    /// Which clock runs.
    pub clock: IncidentClock,
    /// Which jars it touches.
    pub affects: IncidentAffects,
    /// What goes on hold.
    pub hold: IncidentHold,
    /// Whether the answer holds only for jars that were processed as permitted.
    #[serde(with = "yes_no")]
    pub right_process: bool,
    /// The published answer.
    pub answer: String,
    /// Whom to ask.
    pub ask: String,
}

row!(
    IncidentRow,
    "process/incidents.csv",
    printed,
    [
        "kind",
        "title",
        "button",
        "group",
        "clock",
        "affects",
        "hold",
        "right_process",
        "answer",
        "ask",
        "source"
    ]
);

/// What may be done while a clock is in one phase. `{n}` in the text is the number named.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct IncidentWayRow {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    #[serde(rename(deserialize = "source"), skip_serializing)]
    printed: String,
    /// The clock.
    pub clock: IncidentClock,
    /// Its phase.
    pub phase: IncidentPhase,
    /// What kind of way.
    pub way: IncidentWay,
    /// In words.
    pub text: String,
    /// Key of practice.csv or house_rules.csv that stands for `{n}`; empty for none.
    pub number: String,
}

row!(
    IncidentWayRow,
    "process/incident_ways.csv",
    printed,
    ["clock", "phase", "way", "text", "number", "source"]
);

/// One step of the disposal card.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct DisposalRow {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    #[serde(rename(deserialize = "source"), skip_serializing)]
    printed: String,
    /// Key.
    pub step: String,
    /// For which jars.
    pub case: DisposalCase,
    /// In words.
    pub text: String,
    /// Key of practice.csv or house_rules.csv that stands for `{n}`; empty for none.
    pub number: String,
}

row!(
    DisposalRow,
    "process/disposal.csv",
    printed,
    ["step", "case", "text", "number", "source"]
);
