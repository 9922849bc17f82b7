//! Something went wrong: what to do now, until when, for which jars.

use super::Choice;
use super::batch::TickLine;
use serde::Serialize;

/// The kinds to choose from.
#[derive(Debug, Clone, Serialize)]
pub struct IncidentKindsView {
    /// By when they are noticed.
    pub groups: Vec<KindGroup>,
}

/// Kinds noticed at one time.
#[derive(Debug, Clone, Serialize)]
pub struct KindGroup {
    /// "While the load is in the canner".
    pub title: String,
    /// Its kinds.
    pub kinds: Vec<KindLine>,
}

/// One kind.
#[derive(Debug, Clone, Serialize)]
pub struct KindLine {
    /// Key.
    pub kind: String,
    /// In few words.
    pub button: String,
    /// What happened, as a sentence.
    pub title: String,
    /// Can it still be in the canner?
    pub in_canner: bool,
    /// Does the answer ask whether the process was right?
    pub asks_process: bool,
    /// Does the answer ask whether the jar is sealed?
    pub asks_sealed: bool,
}

/// The published answer to an incident.
#[derive(Debug, Clone, Serialize)]
pub struct IncidentView {
    /// Entry that stated it; none when it was only asked.
    pub entry: Option<i64>,
    /// Batch, when it is one of the record.
    pub batch: Option<i64>,
    /// Product and batch in words; empty without one.
    pub product: String,
    /// Kind.
    pub kind: String,
    /// What happened.
    pub title: String,
    /// What to do now, as one sentence.
    pub now: String,
    /// The published answer behind it.
    pub answer: String,
    /// Where it was read.
    pub source: String,
    /// The clock that runs.
    pub clock: String,
    /// Where it stands: in-canner, open, over, always, sealed, unsealed, unsure.
    pub phase: String,
    /// "until 20:05 today"; empty without an open clock.
    pub until: String,
    /// "1 hour 20 minutes left"; empty without an open clock.
    pub left: String,
    /// What may be done.
    pub ways: Vec<WayLine>,
    /// Looser readings: shown, not to be chosen.
    pub looser: Vec<WayLine>,
    /// Which jars.
    pub jars: String,
    /// What is on hold.
    pub hold: String,
    /// Whom to ask.
    pub ask: String,
    /// What else must be said, with its source.
    pub notes: Vec<String>,
    /// These jars show the disposal card and nothing else.
    pub disposal_only: bool,
    /// The disposal card, where it is the only thing left.
    pub disposal: Option<DisposalView>,
    /// What can be written down as done now.
    pub settle: Vec<Choice>,
    /// Jars that are still concerned.
    pub open_count: i64,
    /// What a reprocessing has to tick.
    pub reprocess_ticks: Vec<TickLine>,
}

/// One line with its source.
#[derive(Debug, Clone, Serialize)]
pub struct WayLine {
    /// Its kind: restart, reprocess, freeze, fridge, keep, look, bin, discard, lost, looser.
    pub way: String,
    /// In words.
    pub text: String,
    /// Where it was read.
    pub source: String,
}

/// The disposal card.
#[derive(Debug, Clone, Serialize)]
pub struct DisposalView {
    /// Its parts, in order.
    pub parts: Vec<DisposalPart>,
}

/// One part of it.
#[derive(Debug, Clone, Serialize)]
pub struct DisposalPart {
    /// "Still sealed".
    pub title: String,
    /// Its steps.
    pub steps: Vec<WayLine>,
}
