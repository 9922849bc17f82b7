//! What the gate is asked. Nothing here has a safe-looking default: what is not said is unknown.

use quantity::{Elevation, Exact, exact_text};
use reference::{Jar, Method, Pack};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// May this food be heat-processed in this jar, here, with this canner?
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct HeatQuestion {
    /// Food key of the tables.
    pub food: String,
    /// Key of the tested recipe, if one is followed.
    #[serde(default)]
    pub recipe: Option<String>,
    /// How the jars are packed.
    pub pack: Pack,
    /// The jar filled.
    pub jar: Jar,
    /// The canner, and what is known of it.
    pub canner: CannerFacts,
    /// Quart jars the canner holds upright on its rack. Pressure canners need it.
    #[serde(default)]
    pub canner_holds_quart_jars: Option<u32>,
    /// Liquid volume of the canner in US quarts; only smoked fish asks for it.
    #[serde(default)]
    pub canner_volume_quarts: Option<u32>,
    /// Where the kitchen stands.
    pub elevation: Option<Elevation>,
    /// Acid put into the jars or the recipe.
    #[serde(default)]
    pub acid: Option<AcidUse>,
    /// What the produce has been through.
    pub history: ProduceHistory,
    /// Whether the house follows the maker's metric table for 500 ml and 1 litre jars.
    #[serde(default)]
    pub metric_jars_setting: bool,
    /// Whether the empty jars were boiled; only rows under 10 minutes ask for it.
    #[serde(default)]
    pub jars_sterilised: Answer,
    /// Answers to the food's own questions (`data/process/questions.csv`), by question.
    #[serde(default)]
    pub answers: BTreeMap<String, String>,
    /// The printed (minutes, pressure) pair chosen; `None` = the pair with the least pressure.
    #[serde(default)]
    pub option: Option<u8>,
    /// Whether the 180 to 185 F treatment is asked for instead of the boiling-water process.
    #[serde(default)]
    pub low_temperature: bool,
    /// Day of the question, ISO 8601 (`2026-08-14`); the age of a gauge test is counted to it.
    pub on: String,
}

impl HeatQuestion {
    /// A question with everything else unknown. The gate refuses what it must know and is not told.
    pub fn new(food: &str, pack: Pack, jar: Jar, canner: CannerFacts, on: &str) -> HeatQuestion {
        HeatQuestion {
            food: food.to_owned(),
            recipe: None,
            pack,
            jar,
            canner,
            canner_holds_quart_jars: None,
            canner_volume_quarts: None,
            elevation: None,
            acid: None,
            history: ProduceHistory::unknown(),
            metric_jars_setting: false,
            jars_sterilised: Answer::Unknown,
            answers: BTreeMap::new(),
            option: None,
            low_temperature: false,
            on: on.to_owned(),
        }
    }
}

/// Yes, no, or not known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Answer {
    /// Yes.
    Yes,
    /// No.
    No,
    /// Not known; the gate treats it as the worse case where it matters.
    #[default]
    Unknown,
}

/// A canner and what is known of it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum CannerFacts {
    /// Jars under boiling water.
    BoilingWater,
    /// Atmospheric steam canner.
    Steam,
    /// Pressure canner read on a dial.
    Dial {
        /// Shown pressure minus true pressure, pounds per square inch; `None` = never tested.
        #[serde(with = "exact_text::option", default)]
        error_psi: Option<Exact>,
        /// Day of the last test, ISO 8601.
        #[serde(default)]
        tested_on: Option<String>,
    },
    /// Pressure canner held by a weight.
    Weighted {
        /// The weights the house owns, pounds per square inch.
        weights_psi: Vec<u32>,
    },
    /// Pressure canner with a dial and a weight fitted: the weight rules, the dial only confirms.
    DialWithWeight {
        /// The weights the house owns, pounds per square inch.
        weights_psi: Vec<u32>,
    },
}

impl CannerFacts {
    /// The method whose rows this canner uses.
    pub fn method(&self) -> Method {
        match self {
            CannerFacts::BoilingWater => Method::BoilingWater,
            CannerFacts::Steam => Method::Steam,
            CannerFacts::Dial { .. } => Method::DialGauge,
            CannerFacts::Weighted { .. } | CannerFacts::DialWithWeight { .. } => {
                Method::WeightedGauge
            }
        }
    }

    /// A canner of this method of which nothing else is known.
    pub fn unknown(method: Method) -> CannerFacts {
        match method {
            Method::BoilingWater => CannerFacts::BoilingWater,
            Method::Steam => CannerFacts::Steam,
            Method::DialGauge => CannerFacts::Dial {
                error_psi: None,
                tested_on: None,
            },
            Method::WeightedGauge => CannerFacts::Weighted {
                weights_psi: Vec::new(),
            },
        }
    }
}

/// What the produce has been through before it reached the kitchen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub struct ProduceHistory {
    /// From a dead or frost-killed vine.
    #[serde(default)]
    pub dead_or_frosted_vine: Answer,
    /// From a diseased or blighted plant, or showing disease.
    #[serde(default)]
    pub diseased: Answer,
    /// Split, bruised or fallen.
    #[serde(default)]
    pub split_or_fallen: Answer,
    /// Frozen before.
    #[serde(default)]
    pub frozen_before: Answer,
}

impl ProduceHistory {
    /// Nothing known.
    pub fn unknown() -> ProduceHistory {
        ProduceHistory::default()
    }

    /// Asked, and sound throughout.
    pub fn sound() -> ProduceHistory {
        ProduceHistory {
            dead_or_frosted_vine: Answer::No,
            diseased: Answer::No,
            split_or_fallen: Answer::No,
            frozen_before: Answer::No,
        }
    }
}

/// The acid used: what goes into each jar or into the recipe, and the strength of any vinegar.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
pub struct AcidUse {
    /// Acids put in, each as a share of its own printed amount. One listed acid, whole, is one
    /// portion with share 1.
    #[serde(default)]
    pub portions: Vec<AcidPortion>,
    /// The vinegar, where vinegar is used.
    #[serde(default)]
    pub vinegar: Option<VinegarFacts>,
}

impl AcidUse {
    /// One listed acid in its whole printed amount, such as `bottled-lemon-juice`.
    pub fn whole(acid: &str) -> AcidUse {
        AcidUse {
            portions: vec![AcidPortion {
                acid: acid.to_owned(),
                share: Exact::from_integer(1),
            }],
            vinegar: None,
        }
    }

    /// The recipe's vinegar, undiluted, of this strength in percent.
    pub fn vinegar(percent: Exact) -> AcidUse {
        AcidUse {
            portions: Vec::new(),
            vinegar: Some(VinegarFacts {
                label_percent: Some(percent),
                diluted_to_five: false,
            }),
        }
    }
}

/// One acid, as a share of its own printed amount.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct AcidPortion {
    /// Acid as the tables name it: `bottled-lemon-juice`, `citric-acid`, `vinegar-5pct`.
    pub acid: String,
    /// 1 = the whole printed amount.
    #[serde(with = "exact_text")]
    pub share: Exact,
}

/// The vinegar in the bottle.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct VinegarFacts {
    /// Strength on the label, percent; `None` = unknown.
    #[serde(with = "exact_text::option", default)]
    pub label_percent: Option<Exact>,
    /// Diluted to 5 percent by this program's own arithmetic.
    #[serde(default)]
    pub diluted_to_five: bool,
}
