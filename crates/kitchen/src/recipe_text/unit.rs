//! The unit behind a number, as certain as the word is: what is open is a question, never a guess.

use super::{Answers, Ask};
use crate::recipe::{Amount, CountWord};
use quantity::{Exact, Mass, MassUnit, QuantityError, Volume, VolumeUnit, checked_mul};

/// Whose measure a cup or pint is, where the line says it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum System {
    Us,
    Metric,
    Imperial,
}

/// A unit as written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Unit {
    Mass(MassUnit),
    /// Weighed, or measured where it is a liquid.
    Ounce,
    /// A metric volume.
    Metric(VolumeUnit, i64),
    BigT,
    SmallT,
    Tablespoon,
    Teaspoon,
    Cup(Option<System>),
    /// Pints, or what is counted in pints: their number.
    Pints(Option<System>, (i128, i128)),
    Count(CountWord),
    /// A word for no certain amount.
    NoSize,
}

/// An imperial pint in millilitres: an eighth of 4.54609 litres, by definition.
const IMPERIAL_PINT: (i128, i128) = (454_609, 800);

/// Words for an amount that nobody can measure.
const NO_SIZE: &[&str] = &[
    "pinch", "pinches", "dash", "dashes", "handful", "handfuls", "bunch", "bunches", "sprig",
    "sprigs", "glug", "glugs", "splash", "knob", "can", "cans", "tin", "tins", "jar", "jars",
    "package", "packages", "packet", "packets", "bag", "bags", "bottle", "bottles", "box", "boxes",
    "glass", "glasses", "stalk", "stalks", "stick", "sticks", "heaping", "heaped", "rounded",
    "scant", "generous", "bushel", "bushels", "crate", "crates",
];

/// Reads the unit at the start; none where the ingredient follows at once. Gives the word too.
pub(super) fn read(text: &str) -> Option<(Unit, &str, &str)> {
    let text = text.trim_start();
    let (system, after) = system(text);
    let (word, rest) = word(after)?;
    // "c##s" is a smudge and no cup.
    let ends = |next: char| {
        next.is_whitespace() || matches!(next, '.' | ',' | ';' | '(' | ')' | '/' | '-' | '+')
    };
    if word != "#" && rest.chars().next().is_some_and(|next| !ends(next)) {
        return None;
    }
    let lower = word.to_lowercase();
    let unit = match word {
        "T" => Unit::BigT,
        "t" => Unit::SmallT,
        _ => match lower.as_str() {
            "mg" | "milligram" | "milligrams" => Unit::Mass(MassUnit::Milligram),
            "g" | "gr" | "gram" | "grams" | "gramme" | "grammes" => Unit::Mass(MassUnit::Gram),
            "kg" | "kilo" | "kilos" | "kilogram" | "kilograms" => Unit::Mass(MassUnit::Kilogram),
            "lb" | "lbs" | "pound" | "pounds" | "#" => Unit::Mass(MassUnit::Pound),
            "oz" | "ounce" | "ounces" => Unit::Ounce,
            "ml" | "millilitre" | "millilitres" | "milliliter" | "milliliters" | "cc" => {
                Unit::Metric(VolumeUnit::Millilitre, 1)
            }
            "cl" => Unit::Metric(VolumeUnit::Millilitre, 10),
            "dl" => Unit::Metric(VolumeUnit::Millilitre, 100),
            "l" | "litre" | "litres" | "liter" | "liters" => Unit::Metric(VolumeUnit::Litre, 1),
            "tbsp" | "tbsps" | "tbs" | "tbl" | "tb" | "tablespoon" | "tablespoons" => {
                Unit::Tablespoon
            }
            "tsp" | "tsps" | "teaspoon" | "teaspoons" => Unit::Teaspoon,
            "c" | "cup" | "cups" => Unit::Cup(system),
            "fl" | "fluid" => return fluid(text, system, rest),
            "pt" | "pts" | "pint" | "pints" => Unit::Pints(system, (1, 1)),
            "qt" | "qts" | "quart" | "quarts" => Unit::Pints(system, (2, 1)),
            "gal" | "gals" | "gallon" | "gallons" => Unit::Pints(system, (8, 1)),
            "clove" | "cloves" => Unit::Count(CountWord::Clove),
            "drop" | "drops" => Unit::Count(CountWord::Drop),
            "each" | "piece" | "pieces" => Unit::Count(CountWord::Each),
            other if NO_SIZE.contains(&other) => Unit::NoSize,
            _ => return None,
        },
    };
    let rest = rest.strip_prefix('.').unwrap_or(rest);
    Some((unit, text[..text.len() - rest.len()].trim(), rest))
}

/// "fl oz", "fl. oz.", "fluid ounces": a sixteenth of a US pint, a twentieth of an imperial one.
fn fluid<'a>(
    text: &'a str,
    system: Option<System>,
    rest: &'a str,
) -> Option<(Unit, &'a str, &'a str)> {
    let rest = rest.strip_prefix('.').unwrap_or(rest).trim_start();
    let (word, rest) = word(rest)?;
    if !matches!(word.to_lowercase().as_str(), "oz" | "ounce" | "ounces") {
        return None;
    }
    let rest = rest.strip_prefix('.').unwrap_or(rest);
    // The number of pints is settled when the system is known: nought marks an ounce.
    Some((
        Unit::Pints(system, (0, 1)),
        text[..text.len() - rest.len()].trim(),
        rest,
    ))
}

fn system(text: &str) -> (Option<System>, &str) {
    const WORDS: [(&str, System); 7] = [
        ("us ", System::Us),
        ("u.s. ", System::Us),
        ("american ", System::Us),
        ("metric ", System::Metric),
        ("imperial ", System::Imperial),
        ("imp. ", System::Imperial),
        ("uk ", System::Imperial),
    ];
    WORDS
        .iter()
        .find_map(|(word, system)| {
            let start = text.get(..word.len())?;
            start
                .eq_ignore_ascii_case(word)
                .then(|| (Some(*system), &text[word.len()..]))
        })
        .unwrap_or((None, text))
}

/// The first word: letters only, or the sign for pounds.
pub(super) fn word(text: &str) -> Option<(&str, &str)> {
    let text = text.trim_start();
    if text.starts_with('#') {
        return Some(text.split_at(1));
    }
    let end = text
        .find(|c: char| !c.is_alphabetic())
        .unwrap_or(text.len());
    (end > 0).then(|| text.split_at(end))
}

/// Does the unit say that its recipe measures otherwise than the US do?
pub(super) fn is_foreign(unit: Unit) -> bool {
    match unit {
        Unit::Metric(..) | Unit::Mass(MassUnit::Gram | MassUnit::Kilogram) => true,
        Unit::Cup(system) | Unit::Pints(system, _) => {
            matches!(system, Some(System::Metric | System::Imperial))
        }
        _ => false,
    }
}

/// What a measured amount still needs.
pub(super) enum Open {
    Asked(Ask),
    TooLarge,
}

impl From<QuantityError> for Open {
    fn from(_: QuantityError) -> Self {
        Open::TooLarge
    }
}

/// The amount, or the question that stands before it. `foreign`: the recipe measures otherwise
/// than the US do somewhere; `liquid`: an ounce of it may be a measure.
pub(super) fn amount(
    number: Exact,
    unit: Unit,
    answers: &Answers,
    foreign: bool,
    liquid: bool,
) -> Result<Amount, Open> {
    let volume = |each: Exact| -> Result<Amount, Open> {
        Ok(Amount::Volume(Volume::from_exact(checked_mul(
            number, each,
        )?)))
    };
    let imperial_ounce = Exact::new(IMPERIAL_PINT.0, IMPERIAL_PINT.1 * 20);
    match unit {
        Unit::Mass(unit) => Ok(Amount::Mass(Mass::new(number, unit)?)),
        Unit::Ounce if liquid => match answers.get(Ask::Ounce) {
            Some("weight") => Ok(Amount::Mass(Mass::new(number, MassUnit::Ounce)?)),
            Some("imperial") => volume(imperial_ounce),
            Some(_) => volume(VolumeUnit::FluidOunce.factor()),
            None => Err(Open::Asked(Ask::Ounce)),
        },
        Unit::Ounce => Ok(Amount::Mass(Mass::new(number, MassUnit::Ounce)?)),
        Unit::Metric(unit, times) => volume(checked_mul(unit.factor(), quantity::whole(times))?),
        Unit::BigT => match answers.get(Ask::BigT) {
            Some(word) => volume(spoon(word == "tablespoon", answers, foreign)?),
            None => Err(Open::Asked(Ask::BigT)),
        },
        Unit::SmallT => match answers.get(Ask::SmallT) {
            Some(word) => volume(spoon(word == "tablespoon", answers, foreign)?),
            None => Err(Open::Asked(Ask::SmallT)),
        },
        Unit::Tablespoon => volume(spoon(true, answers, foreign)?),
        Unit::Teaspoon => volume(spoon(false, answers, foreign)?),
        Unit::Cup(said) => match (said, answers.get(Ask::Cup)) {
            (Some(System::Us), _) | (None, Some("us")) => volume(VolumeUnit::Cup.factor()),
            (Some(System::Metric), _) | (None, Some("metric")) => {
                volume(VolumeUnit::MetricCup.factor())
            }
            (Some(System::Imperial), _) | (None, Some(_)) => {
                volume(Exact::new(IMPERIAL_PINT.0, IMPERIAL_PINT.1 * 2))
            }
            (None, None) => Err(Open::Asked(Ask::Cup)),
        },
        Unit::Pints(said, (above, below)) => {
            let imperial = match (said, answers.get(Ask::Pint)) {
                (Some(System::Us), _) => false,
                (Some(System::Imperial), _) => true,
                // There is no metric pint: which one was meant is asked like any other.
                (_, Some(word)) => word == "imperial",
                (_, None) => return Err(Open::Asked(Ask::Pint)),
            };
            volume(match (above, imperial) {
                (0, false) => VolumeUnit::FluidOunce.factor(),
                (0, true) => imperial_ounce,
                (_, false) => checked_mul(VolumeUnit::Pint.factor(), Exact::new(above, below))?,
                (_, true) => checked_mul(
                    Exact::new(IMPERIAL_PINT.0, IMPERIAL_PINT.1),
                    Exact::new(above, below),
                )?,
            })
        }
        Unit::Count(of) => Ok(Amount::Count { number, of }),
        Unit::NoSize => Ok(Amount::Count {
            number,
            of: CountWord::Each,
        }),
    }
}

/// Millilitres in a spoon.
fn spoon(table: bool, answers: &Answers, foreign: bool) -> Result<Exact, Open> {
    let metric = |millilitres| Ok(quantity::whole(millilitres));
    match (answers.get(Ask::Spoon), table) {
        (None, _) if foreign => Err(Open::Asked(Ask::Spoon)),
        (Some("metric"), true) => metric(15),
        (Some("20-ml"), true) => metric(20),
        (Some("metric" | "20-ml"), false) => metric(5),
        (_, true) => Ok(VolumeUnit::Tablespoon.factor()),
        (_, false) => Ok(VolumeUnit::Teaspoon.factor()),
    }
}
