//! The answer when a kitchen day has no timetable: what clashes, and what would help.

use serde::{Deserialize, Serialize};

/// Why there is no timetable for a day.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Clash {
    /// What sort of clash it is.
    pub kind: ClashKind,
    /// The clash in a sentence with names and clock times.
    pub text: String,
    /// What takes part in it: steps, resources and limits by name.
    pub members: Vec<String>,
    /// What would help, cheapest first. For each a timetable was found and checked, or the
    /// sentence is plain arithmetic; a safety limit is never offered.
    pub relaxations: Vec<Relaxation>,
    /// `true`: no timetable exists. `false`: none was found within the effort.
    pub proven: bool,
}

/// Sorts of clashes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ClashKind {
    /// The problem itself is not usable (see [`super::problem_flaws`]).
    FlawedProblem,
    /// One step is longer than the whole day.
    StepLongerThanDay,
    /// A step needs more of a resource than the house has.
    NoSuchResource,
    /// A resource is never free for as long as one step needs it.
    NeverFree,
    /// Nobody is there to watch a step that may not be left alone.
    NobodyThere,
    /// Least and most times between steps contradict each other.
    LagsContradict,
    /// Steps that have begun or have a fixed hour break a limit by themselves.
    FixedStepsClash,
    /// The steps fit, but not by the finish-by.
    FinishByTooEarly,
    /// The limits of safety between steps cannot be kept with these resources.
    SafetyWaits,
    /// Several limits together; which ones is not known.
    Together,
}

/// One thing that would make the day possible.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Relaxation {
    /// What to change.
    pub kind: RelaxationKind,
    /// The same in a sentence.
    pub text: String,
}

/// What to change about a day.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum RelaxationKind {
    /// Finish this many minutes later. Who is away at the finish-by is not counted on after it.
    MoreMinutes(i64),
    /// Have those of a resource who leave before the day is over (see `Problem::breaks`) stay.
    StayUntil {
        /// Index of the resource.
        resource: usize,
        /// First minute at which they may leave.
        minute: i64,
    },
    /// Have this much more of a resource (index into `Problem::resources`).
    MoreOf {
        /// Index of the resource.
        resource: usize,
        /// Places more.
        amount: i64,
    },
    /// Leave a batch for another day.
    LeaveOut(String),
}

impl std::fmt::Display for Clash {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.text)?;
        // A sentence carries three; the rest is in the list.
        for (index, relaxation) in self.relaxations.iter().take(3).enumerate() {
            let lead = if index == 0 {
                " What would help: "
            } else {
                "; or "
            };
            write!(f, "{lead}{}", relaxation.text)?;
        }
        if !self.relaxations.is_empty() {
            f.write_str(".")?;
        }
        Ok(())
    }
}

impl std::error::Error for Clash {}
