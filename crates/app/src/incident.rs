//! What the record says about incidents: what was stated, what was settled since, what waits.
//!
//! Incidents, their settlements and late ticks are dated statements on a batch (events of the
//! kind `note`); none of them is ever changed.

use crate::facts::{BatchEvent, BatchFact, BatchState, Facts};
use crate::moment::Moment;
use ledger::Place;
use reference::{AcidClass, IncidentAffects, IncidentHold, IncidentWay, Reference};
use safety::{Answer, FoodKind, IncidentQuestion};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// An incident as it was stated.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct IncidentRecord {
    /// Kind.
    pub kind: String,
    /// When it was noticed.
    pub noticed: Moment,
    /// When the jars were lifted; none = nobody knows.
    pub lifted: Option<Moment>,
    /// Still in the canner when it was stated.
    pub in_canner: bool,
    /// Still sealed?
    pub sealed: Answer,
    /// Whether the process had been right until then.
    pub process_was_right: Answer,
    /// Size of the jars concerned.
    pub size: String,
    /// Where they stood; none when no jar was in the record yet.
    pub place: Option<Place>,
    /// How many.
    pub count: i64,
    /// What went on hold.
    pub hold: IncidentHold,
    /// Who stated it.
    pub who: String,
    /// Note.
    pub note: String,
}

impl IncidentRecord {
    /// The question to the published answers as of `now`.
    pub fn question(
        &self,
        lifted: Option<Moment>,
        food: FoodKind,
        now: Moment,
    ) -> IncidentQuestion {
        IncidentQuestion {
            kind: self.kind.clone(),
            food,
            minutes_since_lifted: lifted.map(|lifted| lifted.minutes_to(now)),
            in_canner: self.in_canner,
            process_was_right: self.process_was_right,
            sealed: self.sealed,
        }
    }
}

/// What was done about it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Settled {
    /// Entry of the incident; zero for jars discarded without naming one.
    pub incident: i64,
    /// Way.
    pub way: IncidentWay,
    /// Size.
    pub size: String,
    /// Where they stood.
    pub place: Option<Place>,
    /// How many.
    pub count: i64,
    /// Lifted again, after a reprocessing.
    #[serde(default)]
    pub lifted: Option<Moment>,
}

/// A tick that was answered later.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct LateTick {
    /// Its key.
    pub tick: String,
    /// Was it done?
    pub done: bool,
    /// Who did it.
    pub who: String,
    /// When, as read.
    pub when: Option<Moment>,
}

/// Part `name` of a statement, when it has one.
fn part<T: serde::de::DeserializeOwned>(event: &BatchEvent, name: &str) -> Option<T> {
    serde_json::from_value(event.content.get(name)?.clone()).ok()
}

impl BatchFact {
    /// Incidents stated on this batch, oldest first, with their entries.
    pub fn incidents(&self) -> impl Iterator<Item = (i64, IncidentRecord)> {
        self.events
            .iter()
            .filter_map(|event| Some((event.entry, part(event, "incident")?)))
    }

    /// What was done about them, oldest first.
    pub fn settled(&self) -> impl Iterator<Item = Settled> {
        self.events
            .iter()
            .filter_map(|event| part(event, "settled"))
    }

    /// Ticks answered later, oldest first.
    pub fn late_ticks(&self) -> impl Iterator<Item = LateTick> {
        self.events.iter().filter_map(|event| part(event, "late"))
    }

    /// When the jars were lifted: the earliest moment that anyone stated since the last
    /// reprocessing, for the earlier one leaves less time. None when nobody said.
    pub fn lifted(&self) -> Option<Moment> {
        let mut lifted: Option<Moment> = None;
        for event in &self.events {
            let again: Option<Settled> = part(event, "settled");
            if let Some(again) = again.filter(|again| again.way == IncidentWay::Reprocess) {
                // One jar reprocessed does not give the others a new day.
                if again.incident_covers_batch(self) {
                    lifted = again.lifted;
                }
                continue;
            }
            let stated = match event.kind.as_str() {
                "outcome" | "seal-check" => part(event, "lifted"),
                _ => part::<IncidentRecord>(event, "incident").and_then(|record| record.lifted),
            };
            lifted = match (lifted, stated) {
                (Some(one), Some(other)) => Some(one.min(other)),
                (one, other) => one.or(other),
            };
        }
        lifted
    }

    /// Whether the load lost its heat in the canner and nobody has said yet that it was begun again.
    pub fn restart_owed(&self) -> bool {
        self.incidents().any(|(_, record)| record.in_canner)
    }

    /// Jars that wait for a decision, by size and place. A whole batch on hold is not listed here.
    pub fn set_aside(&self) -> BTreeMap<(String, Place), i64> {
        let mut aside: BTreeMap<(String, Place), i64> = BTreeMap::new();
        for (_, record) in self.incidents() {
            if let (IncidentHold::Jars, Some(place)) = (record.hold, record.place) {
                *aside.entry((record.size, place)).or_default() += record.count;
            }
        }
        for done in self.settled() {
            if let Some(place) = done.place
                && let Some(left) = aside.get_mut(&(done.size, place))
            {
                *left = (*left - done.count).max(0);
            }
        }
        aside.retain(|_, count| *count > 0);
        aside
    }

    /// Whether containers of a size in a place are on hold with their batch. What was frozen in
    /// time is free.
    pub fn holds(&self, size: &str, place: Place) -> bool {
        self.state == BatchState::Held && !(place == Place::Freezer && self.frozen_in_time(size))
    }

    /// Whether jars of this size were frozen while the clock of an incident was open.
    pub fn frozen_in_time(&self, size: &str) -> bool {
        self.settled()
            .any(|done| done.way == IncidentWay::Freeze && done.size == size)
    }
}

impl Settled {
    fn incident_covers_batch(&self, batch: &BatchFact) -> bool {
        batch
            .incidents()
            .any(|(entry, record)| entry == self.incident && record.hold == IncidentHold::Batch)
    }
}

/// How acid the food of a batch is, by its permit.
pub fn food_kind(reference: &Reference, batch: &BatchFact) -> FoodKind {
    let class = batch
        .permit
        .as_ref()
        .and_then(|permit| reference.food(&permit.question.food))
        .map(|food| food.acid_class);
    match class {
        Some(AcidClass::Acid | AcidClass::SugarPreserve) => FoodKind::Acid,
        Some(AcidClass::Acidified) => FoodKind::Mixed,
        Some(AcidClass::LowAcid) => FoodKind::LowAcid,
        None => FoodKind::Unknown,
    }
}

/// Batches that an incident touches beside the one it was stated on: those made with the same
/// gauge since the same test.
pub fn also_touched(facts: &Facts, batch: &BatchFact, affects: IncidentAffects) -> Vec<i64> {
    if affects != IncidentAffects::Gauge {
        return Vec::new();
    }
    let Some(test) = gauge_test(batch) else {
        return Vec::new();
    };
    facts
        .batches
        .values()
        .filter(|other| {
            other.id != batch.id
                && other.setup.canner == batch.setup.canner
                && gauge_test(other).as_ref() == Some(&test)
                && matches!(
                    other.state,
                    BatchState::Started | BatchState::Finished | BatchState::Held
                )
        })
        .map(|other| other.id)
        .collect()
}

/// The test that the dial of a batch rested on; none for a batch without a dial.
pub fn gauge_test(batch: &BatchFact) -> Option<Option<String>> {
    match &batch.permit.as_ref()?.question.canner {
        safety::CannerFacts::Dial { tested_on, .. } => Some(tested_on.clone()),
        _ => None,
    }
}
