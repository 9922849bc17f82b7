//! Read models: what pages show and commands print, as plain serialisable data.
//!
//! A view holds finished words and numbers. Faces lay them out; they add no rule, no arithmetic
//! and no unit of their own. `--json` on the command line prints these structs as they stand.

pub mod batch;
pub mod change;
pub mod check;
pub mod counter;
pub mod day;
pub mod enter;
pub mod factor;
pub mod house;
pub mod incident;
pub mod load;
pub mod plan;
pub mod printed;
pub mod process;
pub mod recipe;
pub mod stores;

use quantity::{Mass, Volume};
use serde::Serialize;

/// An amount in both unit systems, ready to show: the typed or usual unit first.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Both {
    /// US customary text, such as "24 lb".
    pub us: String,
    /// Metric text, such as "10.9 kg".
    pub metric: String,
}

impl Both {
    /// A mass in pounds and kilograms.
    pub fn mass(mass: Mass) -> Self {
        let shown = quantity::show::mass(mass);
        Self {
            us: shown.us,
            metric: shown.metric,
        }
    }

    /// A volume in kitchen volumes and litres.
    pub fn volume(volume: Volume) -> Self {
        let shown = quantity::show::volume(volume);
        Self {
            us: shown.us,
            metric: shown.metric,
        }
    }

    /// A stored weight.
    pub fn milligrams(milligrams: i64) -> Self {
        Self::mass(Mass::from_milligrams(milligrams))
    }
}

impl std::fmt::Display for Both {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{} ({})", self.us, self.metric)
    }
}

/// One choice of a form's list: the key that is sent and the words that are read.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Choice {
    /// Sent with the form, such as "tomato-paste".
    pub key: String,
    /// Read by the person, such as "Tomatoes, paste".
    pub title: String,
}

impl Choice {
    /// A choice from two texts.
    pub fn new(key: impl Into<String>, title: impl Into<String>) -> Self {
        Self {
            key: key.into(),
            title: title.into(),
        }
    }
}
