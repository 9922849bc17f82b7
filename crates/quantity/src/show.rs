//! Amounts as people say them, in both unit systems.

use std::fmt;

use num_traits::Signed;
use serde::{Deserialize, Serialize};

use crate::condition::metres_of_feet;
use crate::kitchen_measure::{Rounding, measure};
use crate::{
    Elevation, Exact, Mass, MassUnit, Percent, Temperature, Volume, VolumeUnit, round_half_away,
    to_f64,
};

/// One amount in US and metric words.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct BothUnits {
    /// "24 lb"
    pub us: String,
    /// "10.9 kg"
    pub metric: String,
}

impl fmt::Display for BothUnits {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} ({})", self.us, self.metric)
    }
}

/// "2 1/4", "1/3", "7"; a fraction nobody says becomes a decimal of two places: "7.38".
pub fn number(value: Exact) -> String {
    let size = value.abs();
    if !matches!(*size.denom(), 1 | 2 | 3 | 4 | 6 | 8 | 16) {
        return decimal(value, 2);
    }
    let sign = if value.is_negative() { "-" } else { "" };
    let whole = size.numer() / size.denom();
    let rest = size.numer() % size.denom();
    match (whole, rest) {
        (whole, 0) => format!("{sign}{whole}"),
        (0, rest) => format!("{sign}{rest}/{}", size.denom()),
        (whole, rest) => format!("{sign}{whole} {rest}/{}", size.denom()),
    }
}

/// A decimal with at most `places` places, rounded half away from zero, no trailing zeros.
pub fn decimal(value: Exact, places: u32) -> String {
    let places = places.min(9) as usize;
    let scale = 10_i128.pow(places as u32);
    let size = value.abs();
    // Split first, so that the scaling cannot overflow on a large whole part.
    let whole = size.numer() / size.denom();
    let rest = Exact::new(size.numer() % size.denom(), *size.denom());
    let digits = match crate::checked_mul(rest, Exact::from_integer(scale)) {
        Ok(fine) => round_half_away(fine),
        Err(_) => (to_f64(rest) * scale as f64).round() as i128,
    };
    let whole = whole + digits / scale;
    let digits = digits % scale;
    let sign = if value.is_negative() && (whole, digits) != (0, 0) {
        "-"
    } else {
        ""
    };
    if digits == 0 {
        return format!("{sign}{whole}");
    }
    let part = format!("{digits:0places$}");
    format!("{sign}{whole}.{}", part.trim_end_matches('0'))
}

/// A decimal with about three telling digits: "136", "10.9", "1.47".
fn three_digits(value: Exact) -> String {
    let size = to_f64(value).abs();
    decimal(
        value,
        if size >= 99.95 {
            0
        } else if size >= 9.995 {
            1
        } else {
            2
        },
    )
}

/// "3 lb 4 oz" and "1.47 kg". Ounces are rounded to whole ones, below half a pound to quarters;
/// from 100 lb on only pounds are said.
pub fn mass(mass: Mass) -> BothUnits {
    let size = Mass::from_exact(mass.exact().abs());
    let sign = if mass.is_negative() { "-" } else { "" };
    let metric = if size >= Mass::of(1, MassUnit::Kilogram) {
        format!(
            "{sign}{} kg",
            three_digits(size.in_unit(MassUnit::Kilogram))
        )
    } else if size >= Mass::of(1, MassUnit::Gram) || size.is_zero() {
        format!("{sign}{} g", three_digits(size.in_unit(MassUnit::Gram)))
    } else {
        format!(
            "{sign}{} mg",
            three_digits(size.in_unit(MassUnit::Milligram))
        )
    };
    BothUnits {
        us: format!("{sign}{}", pounds_and_ounces(size)),
        metric,
    }
}

fn pounds_and_ounces(size: Mass) -> String {
    let pounds = size.in_unit(MassUnit::Pound);
    // What was typed in halves or quarters of a pound is said so.
    if size.is_zero() || (*pounds.denom() <= 4 && pounds >= Exact::from_integer(1)) {
        return format!("{} lb", number(pounds));
    }
    if pounds >= Exact::from_integer(100) {
        return format!("{} lb", round_half_away(pounds));
    }
    let ounces = size.in_unit(MassUnit::Ounce);
    if ounces < Exact::from_integer(8) {
        let quarters =
            round_half_away(crate::checked_mul(ounces, Exact::from_integer(4)).unwrap_or(ounces));
        return if quarters == 0 {
            "under 1/4 oz".to_owned()
        } else {
            format!("{} oz", number(Exact::new(quarters, 4)))
        };
    }
    let ounces = round_half_away(ounces);
    match (ounces / 16, ounces % 16) {
        (0, ounces) => format!("{ounces} oz"),
        (pounds, 0) => format!("{pounds} lb"),
        (pounds, ounces) => format!("{pounds} lb {ounces} oz"),
    }
}

/// Nearest kitchen measures ("7 qt + 1 1/2 cups" from a quart on, "2 tbsp" below) and "6.98 L".
/// Not for acid or salt of a recipe: those are rounded in the direction of their role.
pub fn volume(volume: Volume) -> BothUnits {
    let size = Volume::from_exact(volume.exact().abs());
    let sign = if volume.is_negative() { "-" } else { "" };
    let metric = if size >= Volume::of(1, VolumeUnit::Litre) {
        format!("{sign}{} L", three_digits(size.in_unit(VolumeUnit::Litre)))
    } else {
        format!(
            "{sign}{} mL",
            three_digits(size.in_unit(VolumeUnit::Millilitre))
        )
    };
    BothUnits {
        us: format!("{sign}{}", quarts_and_measures(size)),
        metric,
    }
}

fn quarts_and_measures(size: Volume) -> String {
    let quart = Volume::of(1, VolumeUnit::Quart);
    if size < quart {
        return measure(size, Rounding::Nearest).to_string();
    }
    // To a quarter cup: finer is false precision on quarts.
    let quarter_cups = round_half_away(
        crate::checked_mul(size.in_unit(VolumeUnit::Cup), Exact::from_integer(4))
            .unwrap_or(Exact::from_integer(i128::from(i64::MAX))),
    );
    let quarts = quarter_cups / 16;
    let rest = Exact::new(quarter_cups % 16, 4);
    if rest == Exact::from_integer(0) {
        return format!("{quarts} qt");
    }
    let many = rest > Exact::from_integer(1);
    format!(
        "{quarts} qt + {} {}",
        number(rest),
        VolumeUnit::Cup.short(many)
    )
}

/// "1 h 25 min", "45 min", "2 h"; below zero with a minus.
pub fn minutes(minutes: i64) -> String {
    let sign = if minutes < 0 { "-" } else { "" };
    let size = minutes.unsigned_abs();
    match (size / 60, size % 60) {
        (0, minutes) => format!("{sign}{minutes} min"),
        (hours, 0) => format!("{sign}{hours} h"),
        (hours, minutes) => format!("{sign}{hours} h {minutes} min"),
    }
}

/// "620 ft (189 m)", or with spread "890 to 1010 ft (271 to 308 m)". The upper end is never shown
/// lower than it is, because the gate acts on it.
pub fn elevation(elevation: &Elevation) -> BothUnits {
    let metres = |feet: Exact| metres_of_feet(feet).unwrap_or(feet);
    if elevation.is_certain() {
        return BothUnits {
            us: format!("{} ft", decimal(elevation.high_ft, 2)),
            metric: format!("{} m", decimal(metres(elevation.high_ft), 0)),
        };
    }
    BothUnits {
        us: format!(
            "{} to {} ft",
            decimal(elevation.low_ft, 2),
            decimal(elevation.high_ft, 2)
        ),
        metric: format!(
            "{} to {} m",
            decimal(metres(elevation.low_ft), 0),
            decimal(metres(elevation.high_ft), 0)
        ),
    }
}

/// "70 F" and "21 C".
pub fn temperature(temperature: Temperature) -> BothUnits {
    BothUnits {
        us: format!("{} F", decimal(temperature.fahrenheit(), 1)),
        metric: format!("{} C", decimal(temperature.celsius(), 1)),
    }
}

/// "5 %".
pub fn percent(percent: Percent) -> String {
    format!("{} %", decimal(percent.number(), 2))
}
