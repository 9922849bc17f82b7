//! Volumes in the spoons and cups of a drawer, rounded in a stated direction.

use std::fmt;

use num_traits::Signed;
use serde::{Deserialize, Serialize};

use crate::{
    Exact, Mass, MassUnit, Volume, VolumeUnit, ceil, checked_div, checked_mul, floor,
    round_half_away, show,
};

/// Which way a measure may differ from the exact volume.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Rounding {
    /// Never less than the exact volume (acid).
    Up,
    /// Never more than the exact volume (diluting water, low-acid produce).
    Down,
    /// The nearest measure.
    Nearest,
    /// No rounding: spoons where they fit exactly, else a decimal number of teaspoons.
    Exact,
}

/// A volume as spoons and cups: "6 tbsp + 2 tsp", "2 1/2 cups".
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct KitchenMeasure {
    /// What the measures hold together.
    pub volume: Volume,
    /// The volume that was asked for.
    pub exact: Volume,
    text: String,
}

impl KitchenMeasure {
    /// Do the measures hold exactly what was asked for?
    pub fn is_exact(&self) -> bool {
        self.volume == self.exact
    }
}

impl fmt::Display for KitchenMeasure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.text)
    }
}

/// All sizes below are whole teaspoons, so the search is over integers of eighths.
const EIGHTHS_PER_TSP: i128 = 8;
const TBSP: i128 = 3 * EIGHTHS_PER_TSP;
const CUP: i128 = 48 * EIGHTHS_PER_TSP;
const QUART: i128 = 4 * CUP;

/// Expresses a volume in drawer measures: 1/8 tsp (below 1/4 tsp only), 1/4, 1/2 and 1 tsp,
/// 1 tbsp, and cups of 1/4, 1/3, 1/2, 2/3, 3/4 and 1; quarts from a gallon on.
///
/// A volume that the spoons hold exactly is never rounded. Otherwise the step grows with the
/// volume so that the rounding stays near a fiftieth: nobody levels a quarter teaspoon onto a
/// quart. `Down` of less than the smallest spoon measures nothing and says so.
pub fn measure(volume: Volume, rounding: Rounding) -> KitchenMeasure {
    let of_unit = |text: String, measured: Volume| KitchenMeasure {
        volume: measured,
        exact: volume,
        text,
    };
    if volume.is_zero() {
        return of_unit("none".to_owned(), volume);
    }
    let teaspoons = volume.in_unit(VolumeUnit::Teaspoon);
    let Ok(eighths) = checked_mul(teaspoons.abs(), Exact::from_integer(EIGHTHS_PER_TSP)) else {
        return of_unit(decimal_teaspoons(teaspoons), volume);
    };
    // Nothing in a kitchen is below zero; a negative volume is shown as it is.
    if volume.is_negative() || (rounding == Rounding::Exact && !fits(eighths)) {
        return of_unit(decimal_teaspoons(teaspoons), volume);
    }
    let rounded = if fits(eighths) {
        eighths.to_integer()
    } else {
        let step = step_for(eighths);
        // The step is a small whole number, so this division cannot overflow.
        let steps = checked_div(eighths, Exact::from_integer(step)).unwrap_or(eighths);
        step * match rounding {
            Rounding::Up => ceil(steps),
            Rounding::Down => floor(steps),
            Rounding::Nearest | Rounding::Exact => round_half_away(steps),
        }
    };
    let measured =
        Volume::new(Exact::new(rounded, EIGHTHS_PER_TSP), VolumeUnit::Teaspoon).unwrap_or(volume);
    if rounded == 0 {
        return of_unit("under 1/8 tsp".to_owned(), measured);
    }
    of_unit(spoons(rounded), measured)
}

/// Can the spoons hold this many eighths of a teaspoon exactly?
fn fits(eighths: Exact) -> bool {
    eighths.is_integer() && (eighths.to_integer() % 2 == 0 || eighths.to_integer() == 1)
}

/// Rounding step in eighths of a teaspoon.
fn step_for(eighths: Exact) -> i128 {
    let below = |limit: i128| eighths < Exact::from_integer(limit);
    if below(2) {
        1
    } else if below(CUP / 4) {
        2
    } else if below(CUP / 2) {
        4
    } else if below(2 * CUP) {
        EIGHTHS_PER_TSP
    } else if below(QUART) {
        TBSP
    } else if below(4 * QUART) {
        CUP / 4
    } else {
        CUP
    }
}

/// The words for a whole number of eighths of a teaspoon.
fn spoons(eighths: i128) -> String {
    if eighths >= 4 * QUART {
        let quarts = plain(eighths / QUART, VolumeUnit::Quart);
        let rest = eighths % QUART;
        return if rest == 0 {
            quarts
        } else {
            format!("{quarts} + {}", spoons(rest))
        };
    }
    // Half tablespoons are said as such: "1 1/2 tbsp", not "1 tbsp + 1 1/2 tsp".
    if eighths < CUP / 4 && eighths % (TBSP / 2) == 0 {
        return mixed(Exact::new(eighths, TBSP), VolumeUnit::Tablespoon);
    }
    let cups = eighths / CUP;
    let rest = eighths % CUP;
    let mut best: Option<(usize, i128, String)> = None;
    // Cup measures from the largest, so that of equally short ways the biggest cup wins.
    for (numerator, denominator) in [(3, 4), (2, 3), (1, 2), (1, 3), (1, 4), (0, 1)] {
        let cup_part = CUP * numerator / denominator;
        let spoons_only = cups == 0 && cup_part == 0;
        // From half a cup on nobody counts out tablespoons alone ("3/4 cup + 2 tbsp").
        if cup_part > rest
            || (cups == 0 && cup_part > 0 && !worth_cups(eighths, cup_part))
            || (spoons_only && eighths >= CUP / 2)
        {
            continue;
        }
        let in_cups = Exact::new(cups, 1) + Exact::new(numerator, denominator);
        let mut words = Vec::new();
        if in_cups > Exact::from_integer(0) {
            words.push(mixed(in_cups, VolumeUnit::Cup));
        }
        small_spoons(rest - cup_part, &mut words);
        let better = best
            .as_ref()
            .is_none_or(|(length, _, _)| words.len() < *length);
        if better {
            best = Some((words.len(), cup_part, words.join(" + ")));
        }
    }
    best.map(|(_, _, text)| text).unwrap_or_default()
}

/// Below half a cup a cup measure is used only where it fits alone: "6 tbsp + 2 tsp" is
/// quicker to measure than "1/3 cup + 1 tbsp + 1 tsp".
fn worth_cups(eighths: i128, cup_part: i128) -> bool {
    eighths >= CUP / 2 || eighths == cup_part
}

fn small_spoons(eighths: i128, words: &mut Vec<String>) {
    let tablespoons = eighths / TBSP;
    let rest = eighths % TBSP;
    if tablespoons > 0 {
        words.push(plain(tablespoons, VolumeUnit::Tablespoon));
    }
    if rest > 0 {
        words.push(mixed(
            Exact::new(rest, EIGHTHS_PER_TSP),
            VolumeUnit::Teaspoon,
        ));
    }
}

fn plain(number: i128, unit: VolumeUnit) -> String {
    format!("{number} {}", unit.short(number != 1))
}

fn mixed(number: Exact, unit: VolumeUnit) -> String {
    let many = number > Exact::from_integer(1);
    format!("{} {}", show::number(number), unit.short(many))
}

fn decimal_teaspoons(teaspoons: Exact) -> String {
    format!("{} tsp", show::decimal(teaspoons, 2))
}

/// A weight as a kitchen scale shows it: "3 lb 4 oz".
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ScaleWeight {
    /// What is weighed out.
    pub mass: Mass,
    /// The weight that was asked for.
    pub exact: Mass,
    text: String,
}

impl ScaleWeight {
    /// Is exactly what was asked for weighed out?
    pub fn is_exact(&self) -> bool {
        self.mass == self.exact
    }
}

impl fmt::Display for ScaleWeight {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.text)
    }
}

/// Expresses a weight in steps of a kitchen scale, rounded in the stated direction: a quarter
/// ounce below half a pound, an ounce below ten pounds, a quarter pound above. A weight that
/// pounds and ounces can say is never rounded.
pub fn weigh(mass: Mass, rounding: Rounding) -> ScaleWeight {
    let ounces = mass.in_unit(MassUnit::Ounce);
    let below = |limit: i128| ounces < Exact::from_integer(limit);
    // What the words can say without rounding once more.
    let sayable = if below(8) {
        *ounces.denom() <= 4 && *ounces.denom() != 3
    } else if below(1600) {
        ounces.is_integer()
    } else {
        ounces.is_integer() && ounces.numer() % 4 == 0
    };
    if sayable || rounding == Rounding::Exact {
        return ScaleWeight {
            mass,
            exact: mass,
            text: show::mass(mass).us,
        };
    }
    let step = if below(8) {
        Exact::new(1, 4)
    } else if below(160) {
        Exact::from_integer(1)
    } else {
        Exact::from_integer(4)
    };
    let steps = checked_div(ounces, step).unwrap_or(ounces);
    let whole = match rounding {
        Rounding::Up => ceil(steps),
        Rounding::Down => floor(steps),
        Rounding::Nearest | Rounding::Exact => round_half_away(steps),
    };
    let weighed = checked_mul(Exact::from_integer(whole), step)
        .and_then(|ounces| Mass::new(ounces, MassUnit::Ounce))
        .unwrap_or(mass);
    ScaleWeight {
        mass: weighed,
        exact: mass,
        text: show::mass(weighed).us,
    }
}
