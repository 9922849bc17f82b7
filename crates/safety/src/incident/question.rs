//! What is asked about an incident. What is not said is unknown, and unknown is answered the stricter way.

use crate::question::Answer;
use crate::route::FoodKind;
use serde::{Deserialize, Serialize};

/// Something went wrong: what now?
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct IncidentQuestion {
    /// Key of the kind, `data/process/incidents.csv`.
    pub kind: String,
    /// How acid the food is; it changes what is said, never the time that is left.
    #[serde(default)]
    pub food: FoodKind,
    /// Whole minutes since the jars were lifted from the canner; `None` = nobody knows.
    #[serde(default)]
    pub minutes_since_lifted: Option<i64>,
    /// The load is still in the canner and its heat can be brought back.
    #[serde(default)]
    pub in_canner: bool,
    /// Whether everything else about the process was as permitted.
    #[serde(default)]
    pub process_was_right: Answer,
    /// Whether the jars are still sealed; only frozen jars ask for it. A seal proves nothing else.
    #[serde(default)]
    pub sealed: Answer,
}

impl IncidentQuestion {
    /// A question with everything else unknown.
    pub fn new(kind: &str) -> IncidentQuestion {
        IncidentQuestion {
            kind: kind.to_owned(),
            food: FoodKind::Unknown,
            minutes_since_lifted: None,
            in_canner: false,
            process_was_right: Answer::Unknown,
            sealed: Answer::Unknown,
        }
    }
}
