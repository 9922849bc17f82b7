//! A printed card that comes back: its blanks in their order, as far as they are still open.

use super::Choice;
use serde::Serialize;

/// The blanks of one card.
#[derive(Debug, Clone, Serialize)]
pub struct EnterView {
    /// Batch number.
    pub batch: i64,
    /// Code of the card.
    pub code: String,
    /// Recipe title.
    pub title: String,
    /// "Thursday 27 August".
    pub day: String,
    /// planned, started, finished, held.
    pub state: String,
    /// What is asked, part by part in the order of the card; parts that are in the record already
    /// are left out.
    pub parts: Vec<EnterPart>,
}

/// One part of a card.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct EnterPart {
    /// start, ticks, load.1, outcome, seals.
    pub key: String,
    /// Its heading.
    pub title: String,
    /// Its blanks.
    pub asks: Vec<EnterAsk>,
}

/// One blank.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct EnterAsk {
    /// Name it is sent by; of a tick the tick's key.
    pub name: String,
    /// What stands over the blank.
    pub label: String,
    /// What helps to answer.
    pub hint: String,
    /// What is written there.
    pub kind: AskKind,
    /// Answers to choose from, for [`AskKind::List`].
    pub choices: Vec<Choice>,
}

/// What is written into a blank.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum AskKind {
    /// A day.
    Day,
    /// A time of day.
    Time,
    /// A whole number.
    Count,
    /// Words or an amount.
    Text,
    /// One of several.
    List,
    /// A box to tick.
    Tick,
}
