//! The published answer to an incident, and the disposal card, as plain data.

use crate::permit::Statement;
use crate::refusal::Refusal;
use reference::{IncidentAffects, IncidentClock, IncidentHold, IncidentPhase, IncidentWay};
use serde::Serialize;

/// What to do now, until when, for which jars.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct IncidentAnswer {
    /// Key of the kind.
    pub kind: String,
    /// What happened, in words.
    pub title: String,
    /// The published answer.
    pub answer: String,
    /// Where it was read.
    pub source: String,
    /// The clock that runs; another than the kind's own where the process was wrong or unknown.
    pub clock: IncidentClock,
    /// Where it stands.
    pub phase: IncidentPhase,
    /// Minutes from lifting to the end of the clock, where one runs.
    pub limit_minutes: Option<i64>,
    /// Minutes that are left; none when the clock is over, or no clock runs.
    pub minutes_left: Option<i64>,
    /// What may be done now.
    pub ways: Vec<Way>,
    /// Looser readings of other sources: shown, never to be chosen.
    pub looser: Vec<Statement>,
    /// Which jars it touches.
    pub affects: IncidentAffects,
    /// What goes on hold.
    pub hold: IncidentHold,
    /// Only the disposal card may be shown for these jars.
    pub disposal_only: bool,
    /// Whom to ask.
    pub ask: String,
    /// What else must be said.
    pub notes: Vec<Statement>,
}

/// One way out.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Way {
    /// Its kind.
    pub way: IncidentWay,
    /// In words.
    pub text: String,
    /// Where it was read, or `our decision`.
    pub source: String,
}

impl IncidentAnswer {
    /// Whether this way stands open now.
    pub fn offers(&self, way: IncidentWay) -> bool {
        self.ways.iter().any(|line| line.way == way)
    }
}

/// Why there is no answer.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum IncidentError {
    /// The kind is not one of the table.
    #[error("`{kind}` is no kind of incident")]
    UnknownKind {
        /// What was asked.
        kind: String,
        /// Kinds that resemble it, best first.
        near: Vec<String>,
    },
    /// A number the answer needs is not in the tables.
    #[error("{0}")]
    NoNumber(Refusal),
}

/// How a jar that nobody may eat is thrown away.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct DisposalCard {
    /// For every jar.
    pub all: Vec<Statement>,
    /// For a jar that is still sealed.
    pub sealed: Vec<Statement>,
    /// For a jar that is open or leaking.
    pub open: Vec<Statement>,
    /// When the jar is gone.
    pub after: Vec<Statement>,
}
