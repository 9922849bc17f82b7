//! The vocabularies of the tables about incidents.

use super::UnknownWord;
use serde::{Deserialize, Deserializer, Serialize, Serializer};

vocabulary!(
    /// When or where something is noticed: how the choices are laid out.
    IncidentGroup, "group of incidents", {
        /// While the load is in the canner.
        Canner = "canner",
        /// The process was wrong.
        Process = "process",
        /// The jar came out wrong, seen within a day or so.
        Jar = "jar",
        /// Found on the shelf later.
        Later = "later",
    }
);

vocabulary!(
    /// Which clock runs after an incident.
    IncidentClock, "clock of an incident", {
        /// Still in the canner: the full time again.
        Restart = "restart",
        /// A wrong process: the short clock from the minute the jars were lifted.
        WrongProcess = "wrong-process",
        /// A right process and a lid that did not seal: the long clock.
        FailedSeal = "failed-seal",
        /// A right process and much liquid lost: the long clock, the fridge only.
        LiquidLost = "liquid-lost",
        /// Nothing runs: the jar stays.
        Keep = "keep",
        /// A broken jar.
        Broken = "broken",
        /// Frozen jars: it depends on the seal.
        Frozen = "frozen",
        /// Nothing runs: the jar is discarded.
        Discard = "discard",
    }
);

impl IncidentClock {
    /// The phases it can be in.
    pub fn phases(self) -> &'static [IncidentPhase] {
        use IncidentPhase::{Always, InCanner, Open, Over, Sealed, Unsealed, Unsure};
        match self {
            IncidentClock::Restart => &[InCanner],
            IncidentClock::WrongProcess | IncidentClock::FailedSeal | IncidentClock::LiquidLost => {
                &[Open, Over]
            }
            IncidentClock::Frozen => &[Sealed, Unsealed, Unsure],
            IncidentClock::Keep | IncidentClock::Broken | IncidentClock::Discard => &[Always],
        }
    }
}

vocabulary!(
    /// Where a clock stands.
    IncidentPhase, "phase of a clock", {
        /// The load is still in the canner.
        InCanner = "in-canner",
        /// Time is left.
        Open = "open",
        /// No time is left, or nobody knows how much.
        Over = "over",
        /// No clock.
        Always = "always",
        /// The lid is down.
        Sealed = "sealed",
        /// The lid is up.
        Unsealed = "unsealed",
        /// Nobody has looked.
        Unsure = "unsure",
    }
);

vocabulary!(
    /// What may be done, or is only said.
    IncidentWay, "way out of an incident", {
        /// The full time again, from nought.
        Restart = "restart",
        /// What follows when the full time cannot be had.
        Lost = "lost",
        /// Processed again in full with a new lid.
        Reprocess = "reprocess",
        /// To the fridge.
        Fridge = "fridge",
        /// To the freezer.
        Freeze = "freeze",
        /// It stays where it is.
        Keep = "keep",
        /// Looked over first.
        Look = "look",
        /// Thrown away as broken glass.
        Bin = "bin",
        /// Discarded by the disposal card.
        Discard = "discard",
        /// The looser reading of another source: shown, never to be chosen.
        Looser = "looser",
    }
);

vocabulary!(
    /// Which jars an incident touches.
    IncidentAffects, "reach of an incident", {
        /// The jar itself.
        Jar = "jar",
        /// Every jar of the load.
        Load = "load",
        /// Every jar of the batch.
        Batch = "batch",
        /// Every batch processed with that gauge since its last test.
        Gauge = "gauge",
    }
);

vocabulary!(
    /// What goes on hold.
    IncidentHold, "reach of a hold", {
        /// Nothing.
        None = "none",
        /// The jars concerned.
        Jars = "jars",
        /// The whole batch.
        Batch = "batch",
    }
);

vocabulary!(
    /// For which jars a step of the disposal card is.
    DisposalCase, "case of the disposal card", {
        /// For every one.
        All = "all",
        /// For one that is still sealed.
        Sealed = "sealed",
        /// For one that is open or leaking.
        Open = "open",
        /// When the jar is gone.
        After = "after",
    }
);
