//! Steps of a kitchen day: what each batch does to pots, burners, canners and hands, as plain
//! data that a timetable can be made from.
//!
//! Minutes of a canner come from the practice table and the permit; all other durations are
//! common practice and say so. A longest wait is a rule only where a source was read
//! (`data/kitchen/waits.csv`); the others cost points.

use quantity::Exact;
use serde::{Deserialize, Serialize};

mod canner;
mod day;
mod occurrence;
mod read;

pub use canner::{CannerKind, CannerRoutines, canner_minutes};
pub use day::{
    CannerUse, DayQuestion, DaySteps, HoldSpec, HouseRates, LagSpec, StepSpec, steps_for,
};
pub use read::Routines;

/// Something in the kitchen that a limited number of steps can use at once. People are `hands`
/// of a step, not a resource kind here.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ResourceKind {
    /// A burner of the stove.
    Burner,
    /// A pot large enough for a batch.
    Pot,
    /// A food mill or sieve.
    Mill,
    /// A canner.
    Canner,
    /// A dryer.
    Dryer,
    /// A sink.
    Sink,
}

impl ResourceKind {
    /// The word as tables and timetables write it.
    pub fn as_str(self) -> &'static str {
        match self {
            Self::Burner => "burner",
            Self::Pot => "pot",
            Self::Mill => "mill",
            Self::Canner => "canner",
            Self::Dryer => "dryer",
            Self::Sink => "sink",
        }
    }

    fn from_word(word: &str) -> Option<Self> {
        [
            Self::Burner,
            Self::Pot,
            Self::Mill,
            Self::Canner,
            Self::Dryer,
            Self::Sink,
        ]
        .into_iter()
        .find(|kind| kind.as_str() == word)
    }
}

/// How often a step is done.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Scope {
    /// Once, for all batches together.
    Batch,
    /// Once for each batch (gels).
    Each,
    /// Once for each canner load.
    Load,
    /// Once, before the first load.
    FirstLoad,
}

/// A fixed stretch of minutes, as the table gives it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stretch {
    /// So many minutes.
    Minutes(Exact),
    /// The process minutes of the permit.
    Process,
    /// The blanching minutes of the recipe.
    Blanch,
    /// The drying minutes of the recipe, least.
    DryLow,
    /// The drying minutes of the recipe, most.
    DryHigh,
    /// The fermenting minutes of the recipe, least.
    FermentLow,
    /// The fermenting minutes of the recipe, most.
    FermentHigh,
}

/// One step of a form of work.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StepTemplate {
    /// Key within its form.
    pub key: String,
    /// Short title: "put through the mill".
    pub title: String,
    /// What to do, in a sentence or two.
    pub text: String,
    /// How often it is done.
    pub scope: Scope,
    /// Fixed part, least.
    pub fixed_low: Stretch,
    /// Fixed part a plan reckons with.
    pub fixed: Stretch,
    /// Minutes for each kilogram of produce.
    pub per_kg: Exact,
    /// Minutes for each jar.
    pub per_jar: Exact,
    /// Minutes for each portion of `lot_kg`, on top of one for the boil to come back.
    pub per_lot: Option<Stretch>,
    /// Kilograms of a portion.
    pub lot_kg: Exact,
    /// Whether somebody has to be there.
    pub attended: bool,
    /// Pairs of hands.
    pub hands: u8,
    /// What it uses from start to end.
    pub uses: Vec<ResourceKind>,
    /// Steps that must have ended before.
    pub after: Vec<String>,
    /// Starts the very minute the step before ends.
    pub tight: bool,
    /// Whether the work may rest until another day afterwards.
    pub stop_point: bool,
    /// Where the minutes come from.
    pub source: String,
}

/// A resource kept from the start of one step to the end of another.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HoldTemplate {
    /// What is kept.
    pub resource: ResourceKind,
    /// How many.
    pub amount: u8,
    /// Kept from the start of this step.
    pub from_step: String,
    /// To the end of this one.
    pub to_step: String,
    /// Which loads it is about.
    pub loads: Loads,
}

/// Which loads a hold is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Loads {
    /// From the first occurrence to the last.
    All,
    /// The first load only.
    First,
    /// Each load after the first by itself.
    Later,
}

/// The longest wait between two steps.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WaitTemplate {
    /// Key of the wait.
    pub key: String,
    /// Counted from the end of this step.
    pub from_step: String,
    /// To the start of this one.
    pub to_step: String,
    /// Most minutes.
    pub most: i64,
    /// May it never be passed? Only rows with a source that was read.
    pub safety: bool,
    /// Points for each minute beyond, where it may be passed.
    pub points_per_minute: i64,
    /// Where it comes from.
    pub source: String,
    /// Why it matters.
    pub why: String,
}

/// One form of work: its steps, holds and waits.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Routine {
    /// Steps in order.
    pub steps: Vec<StepTemplate>,
    /// Holds.
    pub holds: Vec<HoldTemplate>,
    /// Longest waits.
    pub waits: Vec<WaitTemplate>,
}
