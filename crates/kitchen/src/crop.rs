//! The crops a household grows, each tied to the lines of the tables that speak of it.

use std::sync::LazyLock;

use serde::{Deserialize, Serialize};

use crate::closest::{closeness, normal};
use crate::lot_error::LotError;

/// One crop of `data/kitchen/crops.csv`.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct CropRow {
    /// Such as `tomato-slicing`.
    pub key: String,
    /// Such as "slicing tomato".
    pub title: String,
    /// Such as "slicing tomatoes".
    pub plural: String,
    /// Crops that share grades and rules: `tomato`, `pepper`, `bean`, ...
    pub group: String,
    /// The crop's name in the storage table.
    pub storage_crop: String,
    /// Stages of the storage table that a sound lot is in; several where two lists disagree.
    pub storage_stages: Vec<String>,
    /// The crop's name in the respiration table, or that of the crop that stands in for it.
    pub respiration: Option<String>,
    /// Names in the table of bulk weights, the one to prefer first; empty: none published.
    pub bulk: Vec<String>,
    /// The crop's name in the feeding table.
    pub feeding: String,
    /// Other names people type.
    pub also: Vec<String>,
}

impl CropRow {
    /// Whether the rules of the tomato chapter apply (tomatoes and tomatillos).
    pub fn is_tomato_like(&self) -> bool {
        self.group == "tomato" || self.group == "tomatillo"
    }

    /// Whether a lot is graded by ripeness class.
    pub fn is_graded_by_ripeness(&self) -> bool {
        self.group == "tomato"
    }

    /// Every name of the crop in the form names are compared in.
    fn names(&self) -> impl Iterator<Item = String> + '_ {
        [&self.key, &self.title, &self.plural]
            .into_iter()
            .chain(&self.also)
            .map(|name| normal(name))
    }
}

#[derive(Deserialize)]
struct CropLine {
    key: String,
    title: String,
    plural: String,
    group: String,
    storage_crop: String,
    storage_stages: String,
    respiration: String,
    bulk: String,
    feeding: String,
    also: String,
}

/// The parts of a cell that holds a list.
pub(crate) fn list(cell: &str) -> Vec<String> {
    cell.split(';')
        .map(str::trim)
        .filter(|part| !part.is_empty())
        .map(str::to_owned)
        .collect()
}

fn read(text: &str) -> Result<Vec<CropRow>, csv::Error> {
    csv::Reader::from_reader(text.as_bytes())
        .deserialize()
        .map(|line| {
            let line: CropLine = line?;
            Ok(CropRow {
                storage_stages: list(&line.storage_stages),
                respiration: list(&line.respiration).into_iter().next(),
                bulk: list(&line.bulk),
                also: list(&line.also),
                key: line.key,
                title: line.title,
                plural: line.plural,
                group: line.group,
                storage_crop: line.storage_crop,
                feeding: line.feeding,
            })
        })
        .collect()
}

static CROPS: LazyLock<Vec<CropRow>> = LazyLock::new(|| {
    read(include_str!("../../../data/kitchen/crops.csv"))
        // The text is compiled in, and a test reads every line of it.
        .expect("the table of crops is compiled in and read whole by a test")
});

/// All crops, in the order of the table.
pub fn crops() -> &'static [CropRow] {
    &CROPS
}

/// The crop with this key. Error: `UnknownCrop` with suggestions.
pub fn crop(key: &str) -> Result<&'static CropRow, LotError> {
    crops()
        .iter()
        .find(|crop| crop.key == key)
        .ok_or_else(|| unknown(key))
}

/// The crop meant by a typed name: key, title, plural or another name, in any case.
/// Errors: `AmbiguousCrop` when several crops are called so, `UnknownCrop` with suggestions.
pub fn find_crop(text: &str) -> Result<&'static CropRow, LotError> {
    let wanted = normal(text);
    if let Some(exact) = crops().iter().find(|crop| normal(&crop.key) == wanted) {
        return Ok(exact);
    }
    let one_or_many = singular_forms(&wanted);
    let named: Vec<&CropRow> = crops()
        .iter()
        .filter(|crop| crop.names().any(|name| one_or_many.contains(&name)))
        .collect();
    let meant = if named.is_empty() {
        // "tomato", "peppers": the last word of several titles.
        crops()
            .iter()
            .filter(|crop| {
                let title = normal(&crop.title);
                one_or_many
                    .iter()
                    .any(|name| !name.is_empty() && title.ends_with(&format!(" {name}")))
            })
            .collect()
    } else {
        named
    };
    match meant.as_slice() {
        [only] => Ok(only),
        [] => Err(unknown(text)),
        several => Err(LotError::AmbiguousCrop {
            text: text.trim().to_owned(),
            choices: either(several.iter().map(|crop| crop.key.as_str())),
        }),
    }
}

/// A typed name and what it may be the plural of.
fn singular_forms(name: &str) -> Vec<String> {
    let mut forms = vec![name.to_owned()];
    for (plural, singular) in [("ies", "y"), ("oes", "o"), ("es", ""), ("s", "")] {
        if let Some(stem) = name.strip_suffix(plural) {
            forms.push(format!("{stem}{singular}"));
        }
    }
    forms
}

/// Crops whose name is nearest to a misspelt one, best first, at most five; empty when none is
/// near.
pub fn suggest_crop(text: &str) -> Vec<&'static CropRow> {
    let wanted = normal(text);
    let mut near: Vec<(usize, usize, &CropRow)> = crops()
        .iter()
        .enumerate()
        .filter_map(|(place, crop)| {
            crop.names()
                .filter_map(|name| closeness(&wanted, &name))
                .min()
                .map(|distance| (distance, place, crop))
        })
        .collect();
    near.sort_by_key(|&(distance, place, _)| (distance, place));
    let best = near.first().map_or(0, |&(distance, ..)| distance);
    near.into_iter()
        .filter(|&(distance, ..)| distance <= best + 1)
        .take(5)
        .map(|(_, _, crop)| crop)
        .collect()
}

fn unknown(text: &str) -> LotError {
    let near = suggest_crop(text);
    let hint = if near.is_empty() {
        "write a crop such as tomato-paste, snap-bean or apple".to_owned()
    } else {
        format!(
            "did you mean {}?",
            either(near.iter().map(|crop| crop.key.as_str()))
        )
    };
    LotError::UnknownCrop {
        text: text.trim().to_owned(),
        hint,
    }
}

/// "a, b or c".
pub(crate) fn either<'a>(names: impl Iterator<Item = &'a str>) -> String {
    let names: Vec<&str> = names.collect();
    match names.as_slice() {
        [] => String::new(),
        [only] => (*only).to_owned(),
        [first @ .., last] => format!("{} or {last}", first.join(", ")),
    }
}
