//! What scaling says beside the card: goods that run out, pots, jars that are there, brine.

use crate::action::scaling;
use crate::error::AppError;
use crate::house::House;
use crate::read::counter::join;
use crate::read::house::jar_words;
use crate::request::NewBatch;
use kitchen::brine::{ShareQuestion, acid_percent, brine_share};
use kitchen::card::BatchCard;
use kitchen::recipe::{Amount, Recipe, Route};
use kitchen::scale;
use quantity::{Exact, Volume, checked_mul, show};
use reference::{Jar, Pack};

/// Percent of the vinegar that the tested recipes name.
const VINEGAR_PERCENT: i64 = 5;

/// The sentences, in the order in which they matter.
///
/// # Errors
/// Texts that are not understood; amounts too large to compute.
pub(super) fn lines(
    recipe: &Recipe,
    card: &BatchCard,
    request: &NewBatch,
    house: &House,
) -> Result<Vec<String>, AppError> {
    let mut lines = Vec::new();
    let jars = scaling::jars(request)?;
    lines.extend(brine(recipe, card, jars)?);
    if let (Some(wanted), Some(found)) = (jars, &card.jars)
        && found.full < wanted
    {
        lines.push(format!(
            "This makes {} {}, not {wanted}.",
            found.full,
            jar_words(found.jar, i64::from(found.full))
        ));
    }
    lines.extend(goods(recipe, request)?);
    lines.extend(pots(recipe, card, request, house));
    lines.extend(jars_there(recipe, card, house)?);
    Ok(lines)
}

/// Which of the goods runs out first, and what is left of the others.
fn goods(recipe: &Recipe, request: &NewBatch) -> Result<Option<String>, AppError> {
    let Some(found) = scaling::possible(recipe, request)? else {
        return Ok(None);
    };
    let limits: Vec<String> = found
        .limits
        .iter()
        .map(|limit| {
            format!(
                "{} for {}",
                name(recipe, &limit.ingredient),
                show::number(limit.batches)
            )
        })
        .collect();
    let left: Vec<String> = found
        .left
        .iter()
        .filter(|(_, amount)| !amount.is_zero())
        .map(|(key, amount)| format!("{} of {}", amount_words(*amount), name(recipe, key)))
        .collect();
    let left = if left.is_empty() {
        "nothing is left of it".to_owned()
    } else {
        format!("left: {}", join(&left))
    };
    Ok(Some(format!(
        "{} runs out first (batches: {}); {left}.",
        crate::read::counter::capital(&name(recipe, &found.limited_by)),
        limits.join(", ")
    )))
}

fn name(recipe: &Recipe, key: &str) -> String {
    recipe
        .ingredients
        .iter()
        .find(|line| line.key == key)
        .map_or_else(|| key.replace('-', " "), |line| line.name.to_lowercase())
}

fn amount_words(amount: Amount) -> String {
    match amount {
        Amount::Mass(mass) => show::mass(mass).us,
        Amount::Volume(volume) => {
            quantity::kitchen_measure::measure(volume, quantity::Rounding::Nearest).to_string()
        }
        Amount::Count { number, .. } => show::number(number),
    }
}

/// Fillings of the pot that was named, or of the largest one of the house.
fn pots(recipe: &Recipe, card: &BatchCard, request: &NewBatch, house: &House) -> Option<String> {
    if recipe.route != Route::Heat || !recipe.may_multiply || recipe.pack == Some(Pack::Raw) {
        return None;
    }
    let (called, pot) = match request.pot.trim() {
        "" => house
            .pots
            .iter()
            .filter_map(|pot| {
                let litres = quantity::parse::number(&pot.litres).ok()?;
                let volume = Volume::new(litres, quantity::VolumeUnit::Litre).ok()?;
                Some((pot.name.clone(), volume))
            })
            .max_by_key(|(_, volume)| *volume)?,
        text => ("the pot".to_owned(), scaling::pot(text).ok()?),
    };
    match scale::potfuls(recipe, card.multiplier, pot) {
        Ok(1) => None,
        Ok(times) => Some(format!(
            "The largest pot does not hold this at once: cook it in {times} fillings of {called} \
             ({}), each three quarters full (common practice, no source).",
            show::volume(pot)
        )),
        Err(error) => Some(format!("{error}.")),
    }
}

/// Jars of the size that stand empty, and the next smaller ones for what they do not take.
fn jars_there(
    recipe: &Recipe,
    card: &BatchCard,
    house: &House,
) -> Result<Option<String>, AppError> {
    let Some(found) = card.jars.as_ref().filter(|_| !house.jars.is_empty()) else {
        return Ok(None);
    };
    let there: Vec<(Jar, u32)> = house
        .jars
        .iter()
        .filter_map(|have| Some((have.jar.parse::<Jar>().ok()?, have.count)))
        .filter(|(jar, _)| recipe.jar_choices.contains(jar))
        .collect();
    let own: u32 = there
        .iter()
        .filter(|(jar, _)| *jar == found.jar)
        .map(|(_, count)| *count)
        .sum();
    if own >= found.full_high {
        return Ok(None);
    }
    let lead = format!(
        "Only {own} empty {} stand in the house; up to {} may be needed.",
        jar_words(found.jar, 2),
        found.full_high
    );
    if own >= found.full {
        return Ok(Some(lead));
    }
    let (filled, over) = scale::share_over_jars(found.full, found.jar, &there)?;
    let shared: Vec<String> = filled
        .iter()
        .map(|(jar, count)| format!("{count} {}", jar_words(*jar, i64::from(*count))))
        .collect();
    let rest = if over.is_zero() {
        String::new()
    } else {
        format!(
            " {} finds no jar: freeze it, or eat it from the fridge within {} days.",
            crate::read::counter::capital(&kitchen::jars::about(over)),
            recipe.fridge_days
        )
    };
    Ok(Some(if shared.is_empty() {
        format!("{lead}{rest}")
    } else {
        format!(
            "{lead} The jars that are there take: {}. Each size is a load of its own with its own \
             printed minutes, unless the load page permits them together.{rest}",
            join(&shared)
        )
    }))
}

/// The brine against the tested recipe's share of the jars, and how sour it is. The percent is
/// shown and permits nothing.
fn brine(recipe: &Recipe, card: &BatchCard, wanted: Option<u32>) -> Result<Vec<String>, AppError> {
    let (Some(printed), Some(tested_jars), Some(found)) = (
        scale::brine(recipe),
        scale::tested_jars(recipe)?,
        &card.jars,
    ) else {
        return Ok(Vec::new());
    };
    let tested_brine = scale::mixed(printed)?;
    let brine = tested_brine.checked_mul(card.multiplier)?;
    let jars = wanted.unwrap_or(found.full).max(1);
    let share = brine_share(&ShareQuestion {
        brine,
        jars,
        jar: found.jar,
        tested_brine,
        tested_jars,
    })?;
    let percent = acid_percent(printed.0, quantity::whole(VINEGAR_PERCENT), printed.1)?;
    let all = found
        .jar
        .volume()
        .checked_mul(Exact::from_integer(i128::from(jars)))?;
    let of_whole = checked_mul(percent, brine.ratio(all)?)?;
    let mut lines = Vec::new();
    if wanted.is_some() || !share.reaches() {
        lines.push(share.words.clone());
    }
    lines.push(format!(
        "Brine as mixed: {}; {} % acid with {VINEGAR_PERCENT} % vinegar, {} % of the whole jar. \
         Shown, and no reason to permit.",
        amount_words(Amount::Volume(brine)),
        show::decimal(percent, 2),
        show::decimal(of_whole, 2)
    ));
    Ok(lines)
}
