//! House: elevation, canners, burners, pots, freezer, people and hours, jars and lids, needs.

use super::Choice;
use crate::house::House;
use serde::Serialize;

/// The House page.
#[derive(Debug, Clone, Serialize)]
pub struct HouseView {
    /// One sentence: what is set and what is missing.
    pub answer: String,
    /// Things missing without which something is refused: "no elevation: no process time".
    pub missing: Vec<String>,
    /// The facts, with counts as they stand now (jars filled since the last entry taken off).
    pub house: House,
    /// Has a house ever been entered?
    pub known: bool,
    /// Jar choices.
    pub jars: Vec<Choice>,
    /// Canner kinds.
    pub canner_kinds: Vec<Choice>,
    /// Products that a need can name.
    pub products: Vec<Choice>,
    /// Ingredients that recipes use.
    pub ingredients: Vec<Choice>,
    /// Elevation band in words, once known.
    pub band: String,
    /// Boiling point and such, as information.
    pub facts: Vec<String>,
    /// The dial gauges with the record of their tests.
    pub gauges: Vec<GaugeView>,
    /// Gauge tests that are due or overdue.
    pub reminders: Vec<String>,
}

/// A dial gauge and its tests.
#[derive(Debug, Clone, Serialize)]
pub struct GaugeView {
    /// Its canner.
    pub canner: String,
    /// tested, test-soon, test-too-old or never-tested.
    pub state: String,
    /// Its tests in words, newest first.
    pub tests: Vec<String>,
}
