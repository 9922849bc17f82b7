//! Canners as a kitchen day sees them: how long a load keeps one busy.

use std::sync::Arc;

use quantity::ceil;
use serde::{Deserialize, Serialize};

use super::{Routine, Scope, Stretch};

/// What a canner does to the clock.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum CannerKind {
    /// Jars under boiling water.
    BoilingWater,
    /// Steam without pressure.
    Steam,
    /// Dial or weighted gauge.
    Pressure,
}

impl CannerKind {
    pub(super) fn form(self) -> &'static str {
        match self {
            Self::BoilingWater => "boiling-water",
            Self::Steam => "steam",
            Self::Pressure => "pressure",
        }
    }
}

/// The steps of each kind of canner.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct CannerRoutines {
    pub(super) boiling_water: Arc<Routine>,
    pub(super) steam: Arc<Routine>,
    pub(super) pressure: Arc<Routine>,
}

impl CannerRoutines {
    /// The routine of one kind.
    pub fn of(&self, kind: CannerKind) -> &Routine {
        match kind {
            CannerKind::BoilingWater => &self.boiling_water,
            CannerKind::Steam => &self.steam,
            CannerKind::Pressure => &self.pressure,
        }
    }
}

/// How long a load keeps the canner busy, least and most, from the loading of warm jars to the
/// moment they may be lifted: 65 to 75 minutes for 40 in boiling water, 72 to 115 for 25 under
/// pressure (practice table; the lifting itself and the first warming of the water come on top).
pub fn canner_minutes(canners: &CannerRoutines, kind: CannerKind, process: u32) -> (i64, i64) {
    let minutes = |stretch: Stretch| match stretch {
        Stretch::Minutes(minutes) => i64::try_from(ceil(minutes)).unwrap_or(0),
        Stretch::Process => i64::from(process),
        // Blanching, drying and fermenting do not happen in a canner.
        _ => 0,
    };
    canners
        .of(kind)
        .steps
        .iter()
        .filter(|step| step.scope == Scope::Load)
        .fold((0, 0), |(low, high), step| {
            (low + minutes(step.fixed_low), high + minutes(step.fixed))
        })
}
