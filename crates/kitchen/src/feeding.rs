//! Sort-outs to animals: only by a line of the feeding table; no line means compost.

pub use reference::FeedVerdict as FeedingVerdict;
use reference::{FeedVerdict, FeedingRow, Reference};
use serde::{Deserialize, Serialize};

use crate::closest::normal;
use crate::crop::{either, find_crop};
use crate::lot_error::LotError;

/// The animals the table speaks of.
pub const ANIMALS: [&str; 4] = ["hens", "pigs", "rabbits", "goats"];

/// What the table writes for every crop, part or animal.
const ANY: &str = "any";

/// Parts that decide by themselves, whatever the crop says.
const PARTS_FIRST: [&str; 4] = ["mouldy", "suspect-jar", "touched-meat", "salted"];

/// Where a sort-out goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum SortOutTo {
    /// To the animal asked for.
    Animals,
    /// To the compost.
    Compost,
    /// Into a closed bag by the disposal card: not even to the compost.
    Bagged,
}

/// The answer for one crop, part and animal.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Feeding {
    /// Where it goes.
    pub to: SortOutTo,
    /// Such as "Not to hens: Raw eggplant is not fed. Compost it."
    pub reason: String,
    /// The line's source, or that there is no line.
    pub source: String,
    /// Whether the line was remembered rather than read; false when there is no line.
    pub remembered: bool,
    /// The line that decided; none: compost.
    pub line: Option<FeedingRow>,
}

impl Feeding {
    /// Whether the animal may have it at all.
    pub fn may_feed(&self) -> bool {
        self.to == SortOutTo::Animals
    }
}

/// May this animal have this part of this crop, by the table the program carries? No line in it
/// means compost. Errors: `UnknownCrop` (or an ambiguous one), `UnknownAnimal`.
pub fn feeding(crop: &str, part: &str, animal: &str) -> Result<Feeding, LotError> {
    feeding_by(Reference::embedded(), crop, part, animal)
}

/// The same by the table of `reference`. Errors: as [`feeding`].
pub fn feeding_by(
    reference: &Reference,
    crop: &str,
    part: &str,
    animal: &str,
) -> Result<Feeding, LotError> {
    let animal = known_animal(animal)?;
    let part = part_key(part);
    let name = table_name(reference, crop)?;
    let Some(line) = deciding_line(reference, &name, &part, animal) else {
        return Ok(Feeding {
            to: SortOutTo::Compost,
            reason: format!(
                "The feeding table has no line for {part} {name} to {animal}: compost it."
            ),
            source: "no line in the feeding table".to_owned(),
            remembered: false,
            line: None,
        });
    };
    let (to, said) = match line.verdict {
        FeedVerdict::Never if line.part == "suspect-jar" => (
            SortOutTo::Bagged,
            format!("Not to {animal}, and not on the compost."),
        ),
        FeedVerdict::Never => (SortOutTo::Compost, format!("Not to {animal}: compost it.")),
        FeedVerdict::Feed => (
            SortOutTo::Animals,
            format!("May go to {animal} beside their own feed."),
        ),
    };
    Ok(Feeding {
        to,
        reason: format!("{said} {}", line.note).trim_end().to_owned(),
        source: line.source.clone(),
        remembered: line.basis.remembered(),
        line: Some(line.clone()),
    })
}

fn deciding_line<'a>(
    reference: &'a Reference,
    name: &str,
    part: &str,
    animal: &str,
) -> Option<&'a FeedingRow> {
    let means = |cell: &str, asked: &str| cell == asked || cell == ANY;
    let matching = |part: &str| {
        reference
            .feeding()
            .iter()
            .filter(|line| {
                means(&line.crop, name) && means(&line.part, part) && means(&line.animal, animal)
            })
            // Refusals first, then the line that says most exactly what was asked.
            .min_by_key(|line| {
                (
                    line.verdict != FeedVerdict::Never,
                    line.crop == ANY,
                    line.animal == ANY,
                )
            })
    };
    if PARTS_FIRST.contains(&part) {
        return matching(part);
    }
    // Whole tomatoes are judged by ripeness, all else as sound; either word finds the other.
    matching(part).or_else(|| match part {
        "sound" => matching("ripe"),
        // Unripe fruit that no line warns of is judged as sound fruit.
        "ripe" | "unripe" => matching("sound"),
        _ => None,
    })
}

/// The animal as the feeding table names it. Error: `UnknownAnimal`, with those it knows.
pub fn known_animal(text: &str) -> Result<&'static str, LotError> {
    let wanted = normal(text);
    let key = match wanted.as_str() {
        "hen" | "chicken" | "chickens" | "poultry" | "ducks" | "duck" => "hens",
        "pig" | "hogs" | "swine" => "pigs",
        "rabbit" => "rabbits",
        "goat" => "goats",
        other => other,
    };
    ANIMALS
        .into_iter()
        .find(|animal| *animal == key)
        .ok_or_else(|| LotError::UnknownAnimal {
            text: text.trim().to_owned(),
            known: either(ANIMALS.into_iter()),
        })
}

fn part_key(text: &str) -> String {
    let key = normal(text).replace(' ', "-");
    match key.as_str() {
        "" | "fruit" | "whole" | "flesh" => "sound",
        "moldy" | "mould" | "mold" | "rotten" | "diseased" | "spoiled" => "mouldy",
        "jar" | "held-jar" => "suspect-jar",
        "tops" | "stems" | "vines" | "leaf" => "leaves",
        "skin" | "skins" | "peels" | "peelings" => "peel",
        "cores" | "pits" | "stones" | "pips" => "seeds",
        "sprouts" | "greened" => "green",
        "shells" | "pod" => "pods",
        "pomace" => "cooked",
        _ => return key,
    }
    .to_owned()
}

/// The crop's name in the feeding table; a name only this table knows (avocado) is taken as is.
fn table_name(reference: &Reference, crop: &str) -> Result<String, LotError> {
    let wanted = normal(crop).replace(' ', "-");
    if wanted != ANY && reference.feeding().iter().any(|line| line.crop == wanted) {
        return Ok(wanted);
    }
    find_crop(crop).map(|crop| crop.feeding.clone())
}
