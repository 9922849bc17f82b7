//! Everything the household has recorded, read once and put in the order the rules need.

use crate::error::AppError;
use crate::house::House;
use crate::moment::Moment;
use jiff::civil::Date;
use kitchen::history::{History, Question};
use ledger::{ContainerMovement, Content, Movement, Place};
use quantity::Temperature;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// The facts of one household as they stand.
#[derive(Debug, Clone, Default)]
pub struct Facts {
    /// The house as last stated, with the entry that stated it.
    pub house: Option<(i64, House)>,
    /// Lots by number.
    pub lots: BTreeMap<i64, LotFact>,
    /// All movements in order.
    pub movements: Vec<Movement>,
    /// All container movements in order.
    pub containers: Vec<ContainerMovement>,
    /// Batches by number.
    pub batches: BTreeMap<i64, BatchFact>,
    /// Weight by content, crop and place.
    pub balances: ledger::Balances,
    /// Containers by batch, size and place.
    pub container_balances: ledger::ContainerBalances,
}

/// A lot with what was said of it since.
#[derive(Debug, Clone)]
pub struct LotFact {
    /// Number.
    pub id: i64,
    /// Crop key.
    pub crop: String,
    /// Variety as typed.
    pub variety: String,
    /// Grade key as last stated.
    pub grade: String,
    /// Where it lies now.
    pub place: Place,
    /// How warm it is there.
    pub temperature: Temperature,
    /// Day of picking.
    pub picked_on: Date,
    /// Milligrams at first.
    pub picked_milligrams: i64,
    /// Milligrams that still lie there.
    pub left: i64,
    /// How the weight was found.
    pub how_weighed: String,
    /// Answers given.
    pub history: History,
}

/// Where a batch stands in its life.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum BatchState {
    /// Set up, nothing taken yet.
    Planned,
    /// Its food is in the pot.
    Started,
    /// Its outcome is entered.
    Finished,
    /// On hold: nothing of it is eaten or given until it is released.
    Held,
    /// Given up before it was started.
    Cancelled,
}

impl BatchState {
    /// The word shown.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Planned => "planned",
            Self::Started => "started",
            Self::Finished => "finished",
            Self::Held => "held",
            Self::Cancelled => "cancelled",
        }
    }
}

/// A batch with what happened to it.
#[derive(Debug, Clone)]
pub struct BatchFact {
    /// Number.
    pub id: i64,
    /// Recipe key.
    pub recipe: String,
    /// The day it is for.
    pub for_day: Date,
    /// Jar or bag key, empty for none.
    pub container: String,
    /// How it was set up.
    pub setup: BatchSetup,
    /// What the gate said then; arms nothing (ruling 27).
    pub permit: Option<safety::PermitRecord>,
    /// What comes from which lot, in milligrams.
    pub inputs: Vec<PlannedInput>,
    /// Where it stands.
    pub state: BatchState,
    /// Statements in order: entry, day, kind, content.
    pub events: Vec<BatchEvent>,
}

/// What a batch was set up with: stored as its question, so that the gate can be asked again.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct BatchSetup {
    /// How many batches, exact text.
    pub units: String,
    /// Produce in milligrams, over all lots.
    pub produce_milligrams: i64,
    /// Canner name, empty for none.
    pub canner: String,
    /// Why it is there: the plan's reason, or "set up by hand".
    pub reason: String,
    /// Did a plan set it up?
    pub planned: bool,
}

/// One lot's share of a batch.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct PlannedInput {
    /// Lot number.
    pub lot: i64,
    /// Milligrams.
    pub milligrams: i64,
}

/// One statement on a batch.
#[derive(Debug, Clone, PartialEq)]
pub struct BatchEvent {
    /// Entry that made it.
    pub entry: i64,
    /// Day of the entry.
    pub on: Date,
    /// started, outcome, seal-check, held, released, cancelled, note.
    pub kind: String,
    /// Its content.
    pub content: serde_json::Value,
}

impl BatchFact {
    /// The last statement of a kind.
    pub fn last(&self, kind: &str) -> Option<&BatchEvent> {
        self.events.iter().rfind(|event| event.kind == kind)
    }

    /// Whether a statement of a kind was made.
    pub fn has(&self, kind: &str) -> bool {
        self.last(kind).is_some()
    }

    /// When it was begun, as the record says.
    pub fn begun_at(&self) -> Option<Moment> {
        let started = self.events.iter().find(|event| event.kind == "started")?;
        Moment::of_stamp(started.content.get("at")?.as_str()?)
    }
}

impl Facts {
    /// The house, or an empty one that allows nothing.
    pub fn house_or_empty(&self) -> House {
        self.house
            .as_ref()
            .map(|(_, house)| house.clone())
            .unwrap_or_default()
    }

    /// A lot by number.
    ///
    /// # Errors
    /// No such lot.
    pub fn lot(&self, id: i64) -> Result<&LotFact, AppError> {
        self.lots.get(&id).ok_or_else(|| {
            AppError::missing(
                "lot",
                format!("There is no lot {id}."),
                "See the Counter for the lots there are.",
            )
        })
    }

    /// A batch by number.
    ///
    /// # Errors
    /// No such batch.
    pub fn batch(&self, id: i64) -> Result<&BatchFact, AppError> {
        self.batches.get(&id).ok_or_else(|| {
            AppError::missing(
                "batch",
                format!("There is no batch {id}."),
                "See the list of batches for the numbers there are.",
            )
        })
    }

    /// Lots of which something is left, in order of number.
    pub fn fresh_lots(&self) -> impl Iterator<Item = &LotFact> {
        self.lots.values().filter(|lot| lot.left > 0)
    }

    /// Containers of a batch that stand in touchable places now: size, place, count.
    pub fn standing(&self, batch: i64) -> impl Iterator<Item = (&str, Place, i64)> {
        self.container_balances
            .iter()
            .filter(move |((of, _, place), count)| {
                *of == batch && place.is_touchable() && **count > 0
            })
            .map(|((_, size, place), count)| (size.as_str(), *place, *count))
    }

    /// Weight of a batch in one place, crop by crop.
    pub fn batch_weight(&self, batch: i64, place: Place) -> Vec<(String, i64)> {
        self.balances
            .iter()
            .filter(|((content, _, at), weight)| {
                *content == Content::Batch(batch) && *at == place && **weight > 0
            })
            .map(|((_, crop, _), weight)| (crop.clone(), *weight))
            .collect()
    }
}

/// The answers as a history record.
pub fn history_from(statements: &BTreeMap<String, String>) -> History {
    let mut history = History::default();
    for (key, value) in statements {
        if let (Ok(question), Ok(answer)) =
            (Question::from_key(key), kitchen::history::answer(value))
        {
            history.answers.insert(question, answer);
        }
        if key == "chilled-since" {
            history.chilled_since = value == "yes";
        }
    }
    history
}

/// The state that a batch's statements leave it in.
pub fn state_after<'a>(kinds: impl Iterator<Item = &'a str>) -> BatchState {
    let mut state = BatchState::Planned;
    let mut before_hold = BatchState::Planned;
    for kind in kinds {
        match kind {
            "started" => state = BatchState::Started,
            "outcome" if state == BatchState::Held => before_hold = BatchState::Finished,
            "outcome" => state = BatchState::Finished,
            "held" if state != BatchState::Held => {
                before_hold = state;
                state = BatchState::Held;
            }
            "released" if state == BatchState::Held => state = before_hold,
            "cancelled" => state = BatchState::Cancelled,
            _ => {}
        }
    }
    state
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_hold_survives_the_outcome_and_ends_only_with_release() {
        let state = |kinds: &[&str]| state_after(kinds.iter().copied());
        assert_eq!(state(&["started", "held", "outcome"]), BatchState::Held);
        assert_eq!(
            state(&["started", "held", "outcome", "released"]),
            BatchState::Finished
        );
        assert_eq!(state(&["cancelled"]), BatchState::Cancelled);
        assert_eq!(
            state(&["started", "outcome", "seal-check", "note"]),
            BatchState::Finished
        );
    }
}
