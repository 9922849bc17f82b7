//! Amounts in the words of a kitchen: spoons, cups, the scale, counted pieces.

use quantity::{
    Exact, MassUnit, Rounding, VolumeUnit, checked_mul, floor,
    kitchen_measure::{measure, weigh},
    show,
};

use crate::card::metric_volume;
use crate::recipe::{Amount, CountWord, Ingredient, Role};

/// An amount as it is measured.
pub(super) struct Said {
    pub kitchen: String,
    pub metric: String,
    pub measured: Amount,
}

pub(super) fn said(amount: Amount, way: Rounding) -> Said {
    match amount {
        Amount::Volume(volume) => {
            let spoons = measure(volume, way);
            Said {
                kitchen: spoons.to_string(),
                metric: metric_volume(spoons.volume, way),
                measured: Amount::Volume(spoons.volume),
            }
        }
        Amount::Mass(mass) => {
            let scale = weigh(mass, way);
            Said {
                kitchen: scale.to_string(),
                metric: show::mass(scale.mass).metric,
                measured: Amount::Mass(scale.mass),
            }
        }
        Amount::Count { number, of } => {
            let counted = counted(number, way);
            Said {
                kitchen: count_words(counted, of),
                metric: String::new(),
                measured: Amount::Count {
                    number: counted,
                    of,
                },
            }
        }
    }
}

/// Halves are counted, finer parts are not; what would round to nothing stays as it is.
fn counted(number: Exact, way: Rounding) -> Exact {
    let Ok(halves) = checked_mul(number, Exact::from_integer(2)) else {
        return number;
    };
    let rounded = match way {
        Rounding::Exact => return number,
        Rounding::Up => quantity::ceil(halves),
        Rounding::Down => floor(halves),
        Rounding::Nearest => quantity::round_half_away(halves),
    };
    if rounded == 0 {
        number
    } else {
        Exact::new(rounded, 2)
    }
}

fn count_words(number: Exact, of: CountWord) -> String {
    let many = number > Exact::from_integer(1);
    let word = match (of, many) {
        (CountWord::Each, _) => return show::number(number),
        (CountWord::Clove, true) => "cloves",
        (CountWord::Clove, false) => "clove",
        (CountWord::Drop, true) => "drops",
        (CountWord::Drop, false) => "drop",
    };
    format!("{} {word}", show::number(number))
}

/// The amount before any rounding, in the unit people think of it in.
pub(super) fn exact_words(amount: Amount) -> String {
    match amount {
        Amount::Mass(mass) => format!("{} lb", show::number(mass.in_unit(MassUnit::Pound))),
        Amount::Volume(volume) => {
            let unit = if volume.in_unit(VolumeUnit::Cup) >= Exact::new(1, 4) {
                VolumeUnit::Cup
            } else {
                VolumeUnit::Teaspoon
            };
            let number = volume.in_unit(unit);
            let many = number > Exact::from_integer(1);
            format!("{} {}", show::number(number), unit.short(many))
        }
        Amount::Count { number, of } => count_words(number, of),
    }
}

/// Sugar, salt and honey on the scale, where spoons had to round, and always for a ferment's
/// salt: the ratio is what keeps it.
pub(super) fn by_scale(
    ingredient: &Ingredient,
    exact: Amount,
    is_exact: bool,
    ferment: bool,
) -> Option<String> {
    let needed = !is_exact || (ferment && ingredient.role == Role::Salt);
    let (Amount::Volume(volume), Some(per_cup), true) = (exact, ingredient.grams_per_cup, needed)
    else {
        return None;
    };
    let grams = checked_mul(volume.in_unit(VolumeUnit::Cup), per_cup).ok()?;
    Some(format!("{} g by the scale", quantity::ceil(grams)))
}
