//! The household's own record: every "spoiled" and "still fine" teaches how its lots keep.

use serde::{Deserialize, Serialize};

use super::{Asked, LONGEST_DAYS, capital, said_days};

/// Spoiled lots needed before the own record stands in for the tables.
const ENOUGH: usize = 3;
/// Newest entries that count.
const NEWEST: usize = 10;

/// What was found when a lot was looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum LotOutcome {
    /// It had spoiled.
    Spoiled,
    /// It was still fine.
    StillFine,
}

/// One entry of the record: a lot looked at so many days after picking, and what the tables said
/// then.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Observation {
    /// Days from the picking to the early end, by the tables.
    pub early_days: i64,
    /// Days from the picking to the late end, by the tables.
    pub late_days: i64,
    /// Days from the picking to the look.
    pub days: i64,
    /// What was found.
    pub outcome: LotOutcome,
}

impl Observation {
    /// How long it lasted as a share of the middle of the range.
    fn share(&self) -> f64 {
        self.days.max(0) as f64 / middle(self.early_days, self.late_days)
    }
}

/// The household's own factor for a crop and grade: how its lots last against the middle of the
/// tables' range.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct OwnFactor {
    /// Shortest.
    pub low: f64,
    /// Longest.
    pub high: f64,
    /// Lots it rests on.
    pub lots: usize,
}

impl OwnFactor {
    /// The range of days this makes of the tables' range, as it is shown.
    pub(super) fn apply(&self, early_days: i64, late_days: i64) -> (i64, i64) {
        let middle = middle(early_days, late_days);
        (
            (middle * self.low).min(LONGEST_DAYS).floor() as i64,
            (middle * self.high).min(LONGEST_DAYS).ceil() as i64,
        )
    }

    pub(super) fn reason(&self, asked: &Asked, early_days: i64, late_days: i64) -> String {
        format!(
            "{} ({}) keep {} from picking {}, by your own record of {} lots.",
            capital(&asked.crop.plural),
            asked.grade.title,
            said_days(early_days, late_days),
            asked.lies(),
            self.lots
        )
    }

    pub(super) fn source(&self) -> String {
        format!("own record of {} lots", self.lots)
    }
}

/// The middle of a range; at least half a day, so that a share of it can be taken.
fn middle(early_days: i64, late_days: i64) -> f64 {
    early_days.saturating_add(late_days).max(1) as f64 / 2.0
}

/// What the record teaches, newest entry last; `None` until three lots have been seen to spoil.
/// The shortest and the longest of the newest ten entries make the range; a lot still fine later
/// than any spoiled one lengthens it.
pub fn own_factor(record: &[Observation]) -> Option<OwnFactor> {
    let newest = &record[record.len().saturating_sub(NEWEST)..];
    let spoiled: Vec<f64> = newest
        .iter()
        .filter(|entry| entry.outcome == LotOutcome::Spoiled)
        .map(Observation::share)
        .collect();
    if spoiled.len() < ENOUGH {
        return None;
    }
    let low = spoiled.iter().copied().reduce(f64::min)?;
    let high = newest.iter().map(Observation::share).reduce(f64::max)?;
    Some(OwnFactor {
        low,
        high,
        lots: newest.len(),
    })
}
