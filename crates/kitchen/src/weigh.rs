//! Weighing in by eye: a share of a known crate, by the household's own factor or by litres and
//! the published weight per litre.

use std::collections::BTreeMap;

use quantity::{Exact, Mass, MassUnit, Volume, VolumeUnit, checked_mul, exact, parse, show, whole};
use reference::Reference;
use serde::{Deserialize, Serialize};

use crate::crop::{CropRow, crop};
use crate::lot_error::LotError;

/// Most crates believed in one picking.
const MOST_CRATES: i64 = 50;

/// A crate, basket or bucket the household knows.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Crate {
    /// Such as "green crate".
    pub name: String,
    /// What it holds when full to the rim, if known.
    pub volume: Option<Volume>,
    /// The household's own weight of one full crate, by crop key.
    pub own: BTreeMap<String, Mass>,
}

impl Crate {
    /// The weight of one full crate when `share` of it was weighed: half a crate of 20 lb makes a
    /// full crate of 40 lb. Errors: `AbsurdShare`, overflow.
    pub fn full_weight(weighed: Mass, share: Exact) -> Result<Mass, LotError> {
        believed(share, &share.to_string())?;
        Ok(weighed.checked_div(share)?)
    }
}

/// What a weight by eye rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum WeighBasis {
    /// The household weighed this crate full of this crop.
    Own,
    /// The crate's litres times a published weight per litre.
    Table,
}

/// A weight by eye.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct CrateWeight {
    /// The weight to book, marked as estimated.
    pub mass: Mass,
    /// The least the published lines give; the same as `mass` for an own factor.
    pub low: Mass,
    /// The most the published lines give; the same as `mass` for an own factor.
    pub high: Mass,
    /// What it rests on.
    pub basis: WeighBasis,
    /// The line it was worked out from, or "own record".
    pub source: String,
    /// Such as "2/3 of the green crate: 26 lb 11 oz (12.1 kg), own record".
    pub sentence: String,
}

/// The weight of `share` of a crate of a crop: by the household's own factor where there is one,
/// else by litres and the published weight per litre.
/// Errors: `UnknownCrop`, `AbsurdShare`, `CrateUnknown`, `NoBulkWeight`, overflow.
pub fn crate_weight(
    reference: &Reference,
    crop_key: &str,
    share: Exact,
    known: &Crate,
) -> Result<CrateWeight, LotError> {
    let crop = crop(crop_key)?;
    believed(share, &share.to_string())?;
    let said = format!("{} of the {}", show::number(share), known.name);
    if let Some(full) = known.own.get(crop_key) {
        let mass = full.checked_mul(share)?;
        return Ok(CrateWeight {
            mass,
            low: mass,
            high: mass,
            basis: WeighBasis::Own,
            source: "own record".to_owned(),
            sentence: format!("{said}: {mass}, own record"),
        });
    }
    let Some(volume) = known.volume else {
        return Err(LotError::CrateUnknown {
            crate_name: named(known),
            plural: crop.plural.clone(),
        });
    };
    let lines = bulk_lines(reference, crop);
    let Some(best) = lines.first() else {
        return Err(LotError::NoBulkWeight {
            plural: crop.plural.clone(),
            crate_name: named(known),
        });
    };
    let litres = checked_mul(volume.in_unit(VolumeUnit::Litre), share)?;
    let weigh = |kilograms_per_litre: Exact| -> Result<Mass, LotError> {
        Ok(Mass::new(
            checked_mul(litres, kilograms_per_litre)?,
            MassUnit::Kilogram,
        )?)
    };
    let densities = || lines.iter().map(|line| line.kilograms_per_litre);
    let mass = weigh(best.kilograms_per_litre)?;
    Ok(CrateWeight {
        mass,
        low: weigh(densities().min().unwrap_or(best.kilograms_per_litre))?,
        high: weigh(densities().max().unwrap_or(best.kilograms_per_litre))?,
        basis: WeighBasis::Table,
        source: best.source.clone(),
        sentence: format!(
            "{said}: {mass}, {} x {} kg per litre ({})",
            show::volume(volume).metric,
            show::decimal(best.kilograms_per_litre, 3),
            best.source
        ),
    })
}

/// A published weight per litre.
struct BulkLine {
    kilograms_per_litre: Exact,
    source: String,
}

/// The crop's weights per litre, the one to prefer first: read before remembered, then names in
/// the order of the crop table, then bushels before smaller measures. A line that was read but
/// is marked doubtful is left out.
fn bulk_lines(reference: &Reference, crop: &CropRow) -> Vec<BulkLine> {
    let mut lines: Vec<_> = reference
        .bulk_weights()
        .iter()
        .filter(|row| !row.basis.doubtful || row.basis.remembered())
        .filter_map(|row| {
            let place = crop.bulk.iter().position(|name| *name == row.commodity)?;
            let order = (row.basis.remembered(), place, row.container != "bushel");
            Some((
                order,
                BulkLine {
                    kilograms_per_litre: row.bulk_density_kg_per_l.as_ref()?.single()?,
                    source: row.source.clone(),
                },
            ))
        })
        .collect();
    // Stable: within one rank the order of the table stands.
    lines.sort_by_key(|(order, _)| *order);
    lines.into_iter().map(|(_, line)| line).collect()
}

fn named(known: &Crate) -> String {
    if known.name.is_empty() {
        "this crate".to_owned()
    } else {
        format!("the {}", known.name)
    }
}

fn believed(share: Exact, text: &str) -> Result<(), LotError> {
    if share <= whole(0) || share > whole(MOST_CRATES) {
        return Err(LotError::AbsurdShare {
            text: text.to_owned(),
            most: MOST_CRATES,
        });
    }
    Ok(())
}

/// How full, and of which crate when it is named.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Fill {
    /// Share of one full crate; above 1 for several crates.
    #[serde(with = "quantity::exact_text")]
    pub share: Exact,
    /// The crate's name as typed, without "the".
    pub crate_name: Option<String>,
}

/// Reads "two thirds of the green crate", "half the big basket", "2/3", "full".
/// Errors: `UnknownShare`, `AbsurdShare`.
pub fn fill(text: &str) -> Result<Fill, LotError> {
    let text = text.trim();
    let lower = text.to_lowercase();
    let cut = [" of the ", " of a ", " of my ", " of our ", " of ", " the "]
        .into_iter()
        .find_map(|joint| lower.find(joint).map(|at| (at, at + joint.len())));
    let (share_text, name) = match cut {
        // Lower-casing may move letters of other alphabets: cut the text that was searched.
        Some((end, start)) => (&lower[..end], Some(lower[start..].trim().to_owned())),
        None => (lower.as_str(), None),
    };
    Ok(Fill {
        share: share(share_text)?,
        crate_name: name.filter(|name| !name.is_empty()),
    })
}

/// Reads a share of a crate: "two thirds", "2/3", "half", "a third", "full", "70%", "1 1/2".
/// Errors: `UnknownShare`, `AbsurdShare` (nothing, or more than 50 crates).
pub fn share(text: &str) -> Result<Exact, LotError> {
    let unknown = || LotError::UnknownShare {
        text: text.trim().to_owned(),
    };
    let lower = text.trim().to_lowercase();
    let lower = without_container(&lower);
    let value = match lower
        .strip_suffix('%')
        .or_else(|| lower.strip_suffix("percent"))
    {
        Some(number) => checked_mul(
            parse::number(number.trim()).map_err(|_| unknown())?,
            exact(1, 100)?,
        )?,
        None => match parse::number(lower) {
            Ok(number) => number,
            Err(_) => in_words(lower).ok_or_else(unknown)?,
        },
    };
    believed(value, text.trim())?;
    Ok(value)
}

/// "half a crate" and "2 crates" without the word that says nothing about how full.
fn without_container(text: &str) -> &str {
    const CONTAINERS: [&str; 8] = [
        "crates", "crate", "baskets", "basket", "buckets", "bucket", "boxes", "box",
    ];
    let Some(front) = CONTAINERS
        .iter()
        .find_map(|word| text.strip_suffix(word))
        .map(str::trim_end)
    else {
        return text;
    };
    match front.strip_suffix(" a") {
        Some(share) => share,
        // "a crate" is one.
        None => front,
    }
}

/// "a half", "two thirds", "one and a half", "three quarters full".
fn in_words(text: &str) -> Option<Exact> {
    let words: Vec<&str> = text
        .split([' ', '-'])
        .filter(|word| !word.is_empty())
        .collect();
    let words = match words.as_slice() {
        // "half full", but not "full" alone.
        [front @ .., "full"] if !front.is_empty() && front != ["a"] => front,
        all => all,
    };
    if let Some(joint) = words.iter().position(|word| *word == "and") {
        let (front, back) = (words.get(..joint)?, words.get(joint + 1..)?);
        return Some(part_in_words(front)? + part_in_words(back)?);
    }
    part_in_words(words)
}

fn part_in_words(words: &[&str]) -> Option<Exact> {
    let (count, part) = match words {
        ["full" | "whole" | "all" | "a"] | ["a", "full" | "whole"] => return Some(whole(1)),
        [one] => match part_of_one(one) {
            Some(part) => (1, part),
            None => (count_in_words(one)?, 1),
        },
        [count, part] => (count_in_words(count)?, part_of_one(part)?),
        _ => return None,
    };
    exact(i128::from(count), i128::from(part)).ok()
}

/// How many of these make one: a third makes three.
fn part_of_one(word: &str) -> Option<i64> {
    Some(match word {
        "half" | "halves" => 2,
        "third" | "thirds" => 3,
        "quarter" | "quarters" | "fourth" | "fourths" => 4,
        "fifth" | "fifths" => 5,
        "sixth" | "sixths" => 6,
        "eighth" | "eighths" => 8,
        "tenth" | "tenths" => 10,
        _ => return None,
    })
}

fn count_in_words(word: &str) -> Option<i64> {
    const WORDS: [&str; 11] = [
        "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
    ];
    if word == "a" || word == "an" {
        return Some(1);
    }
    WORDS
        .iter()
        .position(|known| *known == word)
        .and_then(|count| i64::try_from(count).ok())
}
