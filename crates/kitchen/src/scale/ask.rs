//! How many batches a number of jars or a pot asks for, and what is a recipe's brine.

use quantity::{Exact, Volume, ceil, checked_div, checked_mul, floor, show, whole};
use reference::Jar;

use super::jars_for;
use crate::error::KitchenError;
use crate::jars::basis_words;
use crate::recipe::{Amount, Recipe, Role};

/// Share of a pot that is filled, the rest is for boiling up (common practice, no source).
const POT_NUMERATOR: i128 = 3;
/// The other half of that share.
const POT_DENOMINATOR: i128 = 4;

/// Batches that fill so many jars at the likely yield; for gels the next whole number. Errors: no
/// jars asked for, a jar the tables do not serve, a recipe without a printed yield.
pub fn batches_for_jars(recipe: &Recipe, jars: u32, jar: Jar) -> Result<Exact, KitchenError> {
    let none = Exact::from_integer(0);
    let one = super::served_jar(recipe, Some(jar))?
        .map(|jar| jars_for(recipe, whole(1), jar))
        .transpose()?
        .flatten()
        .map_or(none, |found| found.likely);
    if one <= none {
        return Err(KitchenError::Basis {
            recipe: recipe.title.clone(),
            basis: basis_words(recipe.basis),
            asked: "a number of jars",
        });
    }
    if jars == 0 {
        return Err(KitchenError::NoJarsAsked);
    }
    let times = checked_div(Exact::from_integer(i128::from(jars)), one)?;
    Ok(if recipe.may_multiply {
        times
    } else {
        Exact::from_integer(ceil(times))
    })
}

/// Batches that cook in one filling of a pot, three quarters full: to a quarter of a batch, and
/// never more than one of a gel. What boils down needs more room at first than its printed yield.
/// Errors: a pot of nothing, one too small for the least of it, a recipe without a printed yield.
pub fn batches_for_pot(recipe: &Recipe, pot: Volume) -> Result<Exact, KitchenError> {
    let Some(made) = &recipe.yields else {
        return Err(KitchenError::Basis {
            recipe: recipe.title.clone(),
            basis: basis_words(recipe.basis),
            asked: "the volume of a pot",
        });
    };
    let batch = made.volume.checked_mul(made.high)?;
    let too_small = || KitchenError::PotTooSmall {
        recipe: recipe.title.clone(),
        pot: show::volume(pot).us,
        batch: show::volume(batch).us,
    };
    if !pot.is_positive() {
        return Err(too_small());
    }
    let room = pot.checked_mul(Exact::new(POT_NUMERATOR, POT_DENOMINATOR))?;
    let times = room.ratio(batch)?;
    let fits = if recipe.may_multiply {
        Exact::new(floor(checked_mul(times, whole(4))?), 4)
    } else {
        Exact::from_integer(floor(times).min(1))
    };
    if fits <= Exact::from_integer(0) {
        return Err(too_small());
    }
    Ok(fits)
}

/// Fillings of this pot that so many batches take. Errors: those of [`batches_for_pot`].
pub fn potfuls(recipe: &Recipe, multiplier: Exact, pot: Volume) -> Result<i128, KitchenError> {
    let one = batches_for_pot(recipe, pot)?;
    Ok(ceil(checked_div(multiplier, one)?))
}

/// The brine of one batch as printed: vinegar, and what thins it. None where the recipe has no
/// vinegar of its own, or leaves a choice between two.
pub fn brine(recipe: &Recipe) -> Option<(Volume, Volume)> {
    let kept = |line: &&crate::recipe::Ingredient| {
        line.per_jar.is_none() && !line.drained_off && !line.optional
    };
    let (mut vinegar, mut water) = (Volume::ZERO, Volume::ZERO);
    for line in recipe.ingredients.iter().filter(kept) {
        let Amount::Volume(volume) = line.low else {
            continue;
        };
        let sum = match line.role {
            _ if line.choice.is_some() => return None,
            Role::Acid if line.key.contains("vinegar") => &mut vinegar,
            Role::Liquid => &mut water,
            _ => continue,
        };
        *sum = sum.checked_add(volume).ok()?;
    }
    (!vinegar.is_zero()).then_some((vinegar, water))
}

/// All jars of one batch together, at the lower end of the printed yield: the end that gives each
/// jar more brine. None without a printed yield. Error: overflow.
pub fn tested_jars(recipe: &Recipe) -> Result<Option<Volume>, KitchenError> {
    match &recipe.yields {
        Some(made) => Ok(Some(made.volume.checked_mul(made.low)?)),
        None => Ok(None),
    }
}

/// Vinegar and what thins it, together. Error: overflow.
pub fn mixed(brine: (Volume, Volume)) -> Result<Volume, KitchenError> {
    Ok(brine.0.checked_add(brine.1)?)
}

/// Jars that can be filled from several sizes: so many of the size asked for as there are, the
/// rest in the next smaller sizes, by volume, whole jars only. What no jar takes comes last.
/// Error: overflow.
pub fn share_over_jars(
    wanted: u32,
    jar: Jar,
    there: &[(Jar, u32)],
) -> Result<(Vec<(Jar, u32)>, Volume), KitchenError> {
    let mut left = jar
        .volume()
        .checked_mul(Exact::from_integer(i128::from(wanted)))?;
    let mut sizes: Vec<(Jar, u32)> = there
        .iter()
        .copied()
        .filter(|(size, count)| *count > 0 && size.volume() <= jar.volume())
        .collect();
    sizes.sort_by_key(|(size, _)| std::cmp::Reverse(size.volume()));
    let mut filled = Vec::new();
    for (size, count) in sizes {
        let fits = u32::try_from(floor(left.ratio(size.volume())?).max(0)).unwrap_or(u32::MAX);
        let number = fits.min(count);
        if number > 0 {
            let taken = Exact::from_integer(i128::from(number));
            left = left.checked_sub(size.volume().checked_mul(taken)?)?;
            filled.push((size, number));
        }
    }
    Ok((filled, left))
}
