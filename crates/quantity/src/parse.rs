//! Amounts as people type them: "2 1/4 cups", "3 lb 4 oz", "950 +- 60 ft", "1h30".

use num_traits::{Signed, Zero};

use crate::condition::feet_of_metres;
use crate::{
    Elevation, Exact, LARGEST_PICKING_POUNDS, Mass, MassUnit, Percent, QuantityError, Temperature,
    Volume, VolumeUnit, checked_add, checked_mul,
};

mod token;
use token::{Reader, Sign};

const NUMBER: &str = "2 1/4";
const MASS: &str = "24 lb, 3 lb 4 oz or 10.5 kg";
const VOLUME: &str = "2 1/4 cups, 1 tbsp or 500 ml";
const ELEVATION: &str = "2500 ft, 305 m or 950 +- 60 ft";
const TEMPERATURE: &str = "70 F or 21 C";
const MINUTES: &str = "45 min or 1 h 30 min";
const PERCENT: &str = "5%";

/// A number that is not below zero: "2 1/4", "1/3", "2.25", "2½".
/// Errors: not a number, a comma, below zero, too many digits.
pub fn number(text: &str) -> Result<Exact, QuantityError> {
    let mut reader = Reader::new(text, NUMBER)?;
    let value = reader.unsigned()?;
    reader.end()?;
    Ok(value)
}

/// A weight; zero is allowed, below zero is not. Errors name the unit that was not understood.
pub fn mass(text: &str) -> Result<Mass, QuantityError> {
    let parts = parts(text, MASS, |unit, text| {
        if let Some(unit) = mass_unit(unit) {
            Ok(unit.factor())
        } else if volume_factor(unit).is_some() {
            Err(wrong_kind(text, unit, "volume", "a weight", MASS))
        } else {
            Err(unknown(text, unit, MASS))
        }
    })?;
    Ok(Mass::from_exact(parts))
}

/// The weight of one picking: above zero and at most `LARGEST_PICKING_POUNDS`.
pub fn picking_mass(text: &str) -> Result<Mass, QuantityError> {
    let mass = mass(text)?;
    if mass.is_zero() {
        return Err(QuantityError::Zero {
            text: text.trim().to_owned(),
            example: MASS,
        });
    }
    if mass > Mass::of(LARGEST_PICKING_POUNDS, MassUnit::Pound) {
        return Err(QuantityError::Absurd {
            text: text.trim().to_owned(),
            limit: "at most 2,000 lb (907 kg) in one picking",
            example: MASS,
        });
    }
    Ok(mass)
}

/// A volume; zero is allowed, below zero is not. Cups, pints, quarts and gallons are US.
pub fn volume(text: &str) -> Result<Volume, QuantityError> {
    let parts = parts(text, VOLUME, |unit, text| {
        if let Some(factor) = volume_factor(unit) {
            Ok(factor)
        } else if mass_unit(unit).is_some() {
            Err(wrong_kind(text, unit, "weight", "a volume", VOLUME))
        } else {
            Err(unknown(text, unit, VOLUME))
        }
    })?;
    Ok(Volume::from_exact(parts))
}

/// An elevation with its unit and, if wished, how far off it may be: "2500ft", "305 m",
/// "950+-60 ft", "950 ft ± 60". May lie below the sea, within -1,500 to 30,000 ft.
pub fn elevation(text: &str) -> Result<Elevation, QuantityError> {
    let mut reader = Reader::new(text, ELEVATION)?;
    let sign = reader.sign();
    let middle = reader.unsigned()?;
    let middle_unit = reader.word();
    let spread = if reader.plus_minus() {
        Some((reader.unsigned()?, reader.word()))
    } else {
        None
    };
    reader.end()?;
    let spread_unit = spread.as_ref().and_then(|(_, unit)| unit.clone());
    // One unit may serve both numbers, whichever side it was written on.
    let Some(unit) = middle_unit.clone().or_else(|| spread_unit.clone()) else {
        return Err(no_unit(text, ELEVATION));
    };
    let middle = in_feet(middle, &unit, text)?;
    let middle = if sign == Sign::Minus { -middle } else { middle };
    let spread = match spread {
        Some((number, own)) => in_feet(number, own.as_deref().unwrap_or(&unit), text)?,
        None => Exact::zero(),
    };
    let elevation = Elevation::around(middle, spread)?;
    if elevation.low_ft < Exact::from_integer(-1500)
        || elevation.high_ft > Exact::from_integer(30_000)
    {
        return Err(QuantityError::Absurd {
            text: text.trim().to_owned(),
            limit: "-1,500 to 30,000 ft, where kitchens are",
            example: ELEVATION,
        });
    }
    Ok(elevation)
}

/// A temperature: "70F", "21 C", "-5 °C". From absolute zero to 1,000 F.
pub fn temperature(text: &str) -> Result<Temperature, QuantityError> {
    let mut reader = Reader::new(text, TEMPERATURE)?;
    let sign = reader.sign();
    let size = reader.unsigned()?;
    let degrees = if sign == Sign::Minus { -size } else { size };
    reader.degree_sign();
    let Some(unit) = reader.word() else {
        return Err(no_unit(text, TEMPERATURE));
    };
    reader.end()?;
    let temperature = match unit.as_str() {
        "f" | "fahrenheit" | "deg f" => Temperature::from_fahrenheit(degrees),
        "c" | "celsius" | "deg c" => Temperature::from_celsius(degrees)?,
        _ => return Err(unknown(text, &unit, TEMPERATURE)),
    };
    let coldest = Exact::new(-45_967, 100);
    if temperature.fahrenheit() < coldest || temperature.fahrenheit() > Exact::from_integer(1000) {
        return Err(QuantityError::Absurd {
            text: text.trim().to_owned(),
            limit: "-459.67 to 1,000 F",
            example: TEMPERATURE,
        });
    }
    Ok(temperature)
}

/// Whole minutes: "45 min", "1h30", "1 h 25 min", "1.5 h"; a bare number is minutes.
pub fn minutes(text: &str) -> Result<i64, QuantityError> {
    let mut reader = Reader::new(text, MINUTES)?;
    let mut total = Exact::zero();
    // After hours a number may stand without a unit: "1h30".
    let mut after_hours = false;
    loop {
        let size = reader.unsigned()?;
        let unit = reader.word();
        let factor = match unit.as_deref() {
            Some("h" | "hr" | "hrs" | "hour" | "hours") => 60,
            Some("min" | "mins" | "minute" | "minutes" | "m") => 1,
            Some("d" | "day" | "days") => 24 * 60,
            None if after_hours || total.is_zero() => 1,
            None => return Err(no_unit(text, MINUTES)),
            Some(unit) => return Err(unknown(text, unit, MINUTES)),
        };
        after_hours = factor == 60;
        let part = checked_mul(size, Exact::from_integer(factor))?;
        total = checked_add(total, part)?;
        if reader.at_end() {
            break;
        }
        reader.joint();
    }
    if !total.is_integer() {
        return Err(QuantityError::NotWholeMinutes {
            text: text.trim().to_owned(),
        });
    }
    i64::try_from(total.to_integer()).map_err(|_| QuantityError::Overflow)
}

/// A strength: "5%", "5 %", "5 percent" or "5". From 0 to 100.
pub fn percent(text: &str) -> Result<Percent, QuantityError> {
    let mut reader = Reader::new(text, PERCENT)?;
    let size = reader.unsigned()?;
    if !reader.percent_sign() {
        match reader.word().as_deref() {
            None | Some("percent" | "pct") => {}
            Some(unit) => return Err(unknown(text, unit, PERCENT)),
        }
    }
    reader.end()?;
    if size > Exact::from_integer(100) {
        return Err(QuantityError::Absurd {
            text: text.trim().to_owned(),
            limit: "0 to 100 %",
            example: PERCENT,
        });
    }
    Ok(Percent::new(size))
}

/// Sums "number unit" pairs: "3 lb 4 oz", "6 tbsp + 2 tsp", "1 cup and 2 tbsp".
fn parts(
    text: &str,
    example: &'static str,
    factor: impl Fn(&str, &str) -> Result<Exact, QuantityError>,
) -> Result<Exact, QuantityError> {
    let mut reader = Reader::new(text, example)?;
    let mut total = Exact::zero();
    loop {
        let size = reader.unsigned()?;
        let Some(unit) = reader.word() else {
            return Err(if reader.at_end() {
                no_unit(text, example)
            } else {
                reader.not_a_number()
            });
        };
        total = checked_add(total, checked_mul(size, factor(&unit, text)?)?)?;
        if reader.at_end() {
            return Ok(total);
        }
        reader.joint();
    }
}

fn in_feet(size: Exact, unit: &str, text: &str) -> Result<Exact, QuantityError> {
    debug_assert!(!size.is_negative());
    match unit {
        "ft" | "foot" | "feet" | "'" => Ok(size),
        "m" | "metre" | "metres" | "meter" | "meters" => feet_of_metres(size),
        _ => Err(unknown(text, unit, ELEVATION)),
    }
}

fn mass_unit(word: &str) -> Option<MassUnit> {
    Some(match word {
        "mg" | "milligram" | "milligrams" => MassUnit::Milligram,
        "g" | "gram" | "grams" | "gramme" | "grammes" => MassUnit::Gram,
        "kg" | "kilo" | "kilos" | "kilogram" | "kilograms" => MassUnit::Kilogram,
        "oz" | "ounce" | "ounces" => MassUnit::Ounce,
        "lb" | "lbs" | "pound" | "pounds" => MassUnit::Pound,
        _ => return None,
    })
}

/// Millilitres in the unit that a word names. Centilitres and decilitres are read, never shown.
fn volume_factor(word: &str) -> Option<Exact> {
    let unit = match word {
        "ul" | "microlitre" | "microlitres" | "microliter" | "microliters" => {
            VolumeUnit::Microlitre
        }
        "ml" | "millilitre" | "millilitres" | "milliliter" | "milliliters" | "cc" => {
            VolumeUnit::Millilitre
        }
        "cl" => return Some(Exact::from_integer(10)),
        "dl" => return Some(Exact::from_integer(100)),
        "l" | "litre" | "litres" | "liter" | "liters" => VolumeUnit::Litre,
        "tsp" | "tsps" | "teaspoon" | "teaspoons" => VolumeUnit::Teaspoon,
        "tbsp" | "tbsps" | "tbs" | "tablespoon" | "tablespoons" => VolumeUnit::Tablespoon,
        "fl oz" | "floz" | "fluid ounce" | "fluid ounces" => VolumeUnit::FluidOunce,
        "cup" | "cups" => VolumeUnit::Cup,
        "metric cup" | "metric cups" => VolumeUnit::MetricCup,
        "pt" | "pts" | "pint" | "pints" => VolumeUnit::Pint,
        "qt" | "qts" | "quart" | "quarts" => VolumeUnit::Quart,
        "gal" | "gals" | "gallon" | "gallons" => VolumeUnit::Gallon,
        _ => return None,
    };
    Some(unit.factor())
}

fn unknown(text: &str, unit: &str, example: &'static str) -> QuantityError {
    QuantityError::UnknownUnit {
        text: text.trim().to_owned(),
        unit: unit.to_owned(),
        example,
    }
}

fn no_unit(text: &str, example: &'static str) -> QuantityError {
    QuantityError::NoUnit {
        text: text.trim().to_owned(),
        example,
    }
}

fn wrong_kind(
    text: &str,
    unit: &str,
    found: &'static str,
    needed: &'static str,
    example: &'static str,
) -> QuantityError {
    QuantityError::WrongKind {
        text: text.trim().to_owned(),
        unit: unit.to_owned(),
        found,
        needed,
        example,
    }
}
