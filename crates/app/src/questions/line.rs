//! The format of one line of questions, and its words as the gate wants them.

use crate::error::AppError;
use crate::read::house::gauge_error;
use quantity::Exact;
use safety::{AcidPortion, AcidUse, Answer, CannerFacts, ProduceHistory, VinegarFacts};
use serde::Deserialize;
use std::collections::BTreeMap;

/// One question, as a line of the file has it.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Line {
    pub(super) food: String,
    pub(super) pack: String,
    pub(super) jar: String,
    #[serde(default)]
    pub(super) recipe: Option<String>,
    #[serde(default)]
    pub(super) method: Option<String>,
    #[serde(default)]
    pub(super) canner: Option<CannerLine>,
    #[serde(default)]
    pub(super) elevation: Option<String>,
    #[serde(default)]
    pub(super) acid: Option<AcidLine>,
    #[serde(default)]
    pub(super) vinegar: Option<VinegarLine>,
    #[serde(default)]
    pub(super) history: Option<HistoryLine>,
    #[serde(default)]
    pub(super) metric_jars: bool,
    #[serde(default)]
    pub(super) low_temperature: bool,
    #[serde(default)]
    pub(super) jars_sterilised: Answer,
    #[serde(default)]
    pub(super) answers: BTreeMap<String, String>,
    #[serde(default)]
    pub(super) option: Option<u8>,
    #[serde(default)]
    pub(super) on: Option<String>,
    #[serde(default)]
    pub(super) look_up: bool,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct CannerLine {
    pub(super) kind: String,
    #[serde(default)]
    pub(super) error_psi: Option<Figure>,
    #[serde(default)]
    pub(super) tested_on: Option<String>,
    #[serde(default)]
    pub(super) weights_psi: Vec<u32>,
    #[serde(default)]
    pub(super) holds_quart_jars: Option<u32>,
    #[serde(default)]
    pub(super) volume_quarts: Option<u32>,
}

/// One acid whole, or several with the share of its printed amount of each.
#[derive(Debug, Deserialize)]
#[serde(untagged)]
pub(super) enum AcidLine {
    Whole(String),
    Parts(Vec<AcidPart>),
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct AcidPart {
    pub(super) acid: String,
    pub(super) share: Figure,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct VinegarLine {
    #[serde(default)]
    pub(super) label_percent: Option<Figure>,
    #[serde(default)]
    pub(super) diluted_to_five: bool,
}

#[derive(Debug, Deserialize)]
#[serde(untagged)]
pub(super) enum HistoryLine {
    Word(String),
    Answers(ProduceHistory),
}

/// A figure as a text ("1/2") or a whole number.
#[derive(Debug, Deserialize)]
#[serde(untagged)]
pub(super) enum Figure {
    Whole(i64),
    Text(String),
}

impl Figure {
    fn text(&self) -> String {
        match self {
            Self::Whole(number) => number.to_string(),
            Self::Text(text) => text.clone(),
        }
    }

    fn read(&self, field: &str) -> Result<Exact, AppError> {
        quantity::parse::number(&self.text())
            .map_err(|error| AppError::input(field, error.to_string(), "Write it as «1/2» or 5."))
    }
}

pub(super) fn facts(canner: &CannerLine) -> Result<CannerFacts, AppError> {
    let weights_psi = canner.weights_psi.clone();
    Ok(match canner.kind.trim() {
        "boiling-water" => CannerFacts::BoilingWater,
        "steam" => CannerFacts::Steam,
        "weighted-gauge" => CannerFacts::Weighted { weights_psi },
        "dial-with-weight" => CannerFacts::DialWithWeight { weights_psi },
        "dial-gauge" => CannerFacts::Dial {
            error_psi: match &canner.error_psi {
                None => None,
                Some(figure) => Some(gauge_error(&figure.text(), "canner.error_psi")?),
            },
            tested_on: canner.tested_on.clone(),
        },
        other => {
            return Err(AppError::input(
                "canner.kind",
                format!("«{other}» is no kind of canner."),
                "Write boiling-water, steam, dial-gauge, weighted-gauge or dial-with-weight.",
            ));
        }
    })
}

pub(super) fn acid(
    acid: Option<&AcidLine>,
    vinegar: Option<&VinegarLine>,
) -> Result<Option<AcidUse>, AppError> {
    let mut portions = Vec::new();
    match acid {
        None => {}
        Some(AcidLine::Whole(acid)) => portions.push(AcidPortion {
            acid: acid.clone(),
            share: Exact::from_integer(1),
        }),
        Some(AcidLine::Parts(parts)) => {
            for part in parts {
                portions.push(AcidPortion {
                    acid: part.acid.clone(),
                    share: part.share.read("acid.share")?,
                });
            }
        }
    }
    let vinegar = match vinegar {
        None => None,
        Some(line) => Some(VinegarFacts {
            label_percent: match &line.label_percent {
                None => None,
                Some(percent) => Some(percent.read("vinegar.label_percent")?),
            },
            diluted_to_five: line.diluted_to_five,
        }),
    };
    Ok((!portions.is_empty() || vinegar.is_some()).then_some(AcidUse { portions, vinegar }))
}

pub(super) fn history(history: Option<&HistoryLine>) -> Result<ProduceHistory, AppError> {
    match history {
        None => Ok(ProduceHistory::unknown()),
        Some(HistoryLine::Answers(answers)) => Ok(*answers),
        Some(HistoryLine::Word(word)) => match word.as_str() {
            "sound" => Ok(ProduceHistory::sound()),
            "unknown" => Ok(ProduceHistory::unknown()),
            other => Err(AppError::input(
                "history",
                format!("«{other}» is no history."),
                "Write \"sound\", \"unknown\" or the answers one by one.",
            )),
        },
    }
}
