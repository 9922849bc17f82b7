//! What the gate is asked about a route without heat.

use crate::question::Answer;
use quantity::{Exact, exact_text};
use serde::{Deserialize, Serialize};

/// Where the food is to go.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum KeepRoute {
    /// Frozen.
    Freezer,
    /// Dried.
    Dryer,
    /// Fermented.
    Crock,
    /// Refrigerated.
    Fridge,
    /// Whole produce in a cold room.
    ColdRoom,
    /// Eaten fresh.
    Fresh,
    /// On a shelf without a heat process.
    Shelf,
}

/// How acid the food is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum FoodKind {
    /// Acid.
    Acid,
    /// Low-acid.
    LowAcid,
    /// Acid and low-acid together.
    Mixed,
    /// Not known; treated as low-acid.
    #[default]
    Unknown,
}

/// What the food is when it is put away.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum FoodState {
    /// Whole and raw.
    Whole,
    /// Cut or cooked, in any vessel.
    #[default]
    Prepared,
    /// A jar that was processed as permitted and did not seal, or was opened.
    JarOpened,
    /// A jar that was processed wrongly, or whose history is unknown.
    JarDoubtful,
}

/// May this food go this way, and for how long?
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct RouteQuestion {
    /// The route.
    pub route: KeepRoute,
    /// The food, for the text; in the crock its food key (`sauerkraut`, `dill-pickles-fermented`).
    pub food: String,
    /// Key of a tested refrigerator recipe, if one is followed.
    #[serde(default)]
    pub recipe: Option<String>,
    /// How acid it is.
    #[serde(default)]
    pub kind: FoodKind,
    /// Its state.
    #[serde(default)]
    pub state: FoodState,
    /// Under oil.
    #[serde(default)]
    pub under_oil: Answer,
    /// Vacuum-packed.
    #[serde(default)]
    pub vacuum_packed: Answer,
    /// Fully dry (dryer only).
    #[serde(default)]
    pub fully_dry: Answer,
    /// Salt of a ferment, tablespoons of canning salt per 5 lb.
    #[serde(with = "exact_text::option", default)]
    pub salt_tbsp_per_5_lb: Option<Exact>,
    /// Coolest the crock's room gets, degrees Fahrenheit.
    #[serde(with = "exact_text::option", default)]
    pub room_low_f: Option<Exact>,
    /// Warmest the crock's room gets, degrees Fahrenheit.
    #[serde(with = "exact_text::option", default)]
    pub room_high_f: Option<Exact>,
}

impl RouteQuestion {
    /// A question with everything else unknown.
    pub fn new(route: KeepRoute, food: &str) -> RouteQuestion {
        RouteQuestion {
            route,
            food: food.to_owned(),
            recipe: None,
            kind: FoodKind::Unknown,
            state: FoodState::Prepared,
            under_oil: Answer::Unknown,
            vacuum_packed: Answer::Unknown,
            fully_dry: Answer::Unknown,
            salt_tbsp_per_5_lb: None,
            room_low_f: None,
            room_high_f: None,
        }
    }
}
