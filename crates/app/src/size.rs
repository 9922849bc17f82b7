//! Sizes of batches for planning: what one unit takes, makes and costs in minutes.
//!
//! The batch card is the exact word on a batch; this file serves the plan, which counts whole
//! units: single jars of foods that the tables print by weight, whole batches of recipes.

use crate::error::AppError;
use crate::house::{Canner, House};
use crate::read::house::jars_per_load;
use kitchen::recipe::{Amount, Basis, Recipe, Role};
use kitchen::steps::{CannerKind, CannerUse, DayQuestion, DaySteps, HouseRates, steps_for};
use quantity::{Exact, Mass, MassUnit, Volume, checked_div, checked_mul, round_half_away, whole};
use reference::Jar;

/// One unit of a recipe in one container.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unit {
    /// Share of the recipe's own batch.
    pub share: Exact,
    /// Container key, empty for none.
    pub container: String,
    /// Containers that a unit fills, the likely number, at least one where there is a container.
    pub containers: i64,
    /// "quart", "batch", "tray".
    pub word: String,
}

/// The unit in which a plan counts a recipe. A single jar takes as much produce as the batch card
/// reckons for it: by the household's own quarts a pound where there are any, else by the likely
/// printed line, so that a plan of ten jars has a card of ten.
///
/// # Errors
/// Amounts too large to compute.
pub fn unit(recipe: &Recipe, jar: Option<Jar>, own: Option<Exact>) -> Result<Unit, AppError> {
    let one = Unit {
        share: whole(1),
        container: String::new(),
        containers: 0,
        word: "batch".to_owned(),
    };
    let Some(yields) = &recipe.yields else {
        return Ok(one);
    };
    let Some(jar) = jar else {
        let middle = checked_mul(quantity::checked_add(yields.low, yields.high)?, half())?;
        let likely = clamp(round_half_away(middle));
        let container = yields.container.clone();
        // Food that is bagged by weight is planned bag by bag.
        if crate::balance::is_bag(&container)
            && recipe.basis == Basis::Pounds
            && recipe.may_multiply
        {
            let share = checked_div(whole(1), whole(likely))?;
            let word = crate::read::house::container_words(&container, 1);
            return Ok(Unit {
                share,
                container,
                containers: 1,
                word,
            });
        }
        return Ok(Unit {
            container,
            containers: likely,
            ..one
        });
    };
    // How much a batch fills, in jars of this size.
    let middle = checked_mul(quantity::checked_add(yields.low, yields.high)?, half())?;
    let printed = checked_mul(middle, yields.volume.ratio(jar.volume())?)?;
    let jars = match (recipe.batch_mass(), own) {
        (Some(batch), Some(own)) => {
            let quarts = checked_mul(batch.in_unit(MassUnit::Pound), own)?;
            checked_mul(quarts, Jar::Quart.volume().ratio(jar.volume())?)?
        }
        (Some(batch), None) if !recipe.factors.is_empty() => {
            kitchen::jars_expected(recipe, batch, jar)?.likely
        }
        _ => printed,
    };
    if recipe.basis == Basis::Pounds && recipe.may_multiply && jars > whole(0) {
        let share = checked_div(whole(1), jars)?;
        return Ok(Unit {
            share,
            container: jar.as_str().to_owned(),
            containers: 1,
            word: crate::read::house::jar_words(jar, 1),
        });
    }
    Ok(Unit {
        container: jar.as_str().to_owned(),
        containers: clamp(round_half_away(jars)),
        ..one
    })
}

fn half() -> Exact {
    Exact::new(1, 2)
}

fn clamp(number: i128) -> i64 {
    i64::try_from(number.max(1)).unwrap_or(i64::MAX)
}

/// Produce of each ingredient that crops feed, for so many units: the figure a plan reckons with.
///
/// # Errors
/// Amounts too large to compute.
pub fn produce(recipe: &Recipe, unit: &Unit, units: i64) -> Result<Vec<(usize, Mass)>, AppError> {
    let times = checked_mul(unit.share, whole(units))?;
    let mut all = Vec::new();
    for (index, used) in recipe.uses.iter().enumerate() {
        all.push((index, used.high.checked_mul(times)?));
    }
    Ok(all)
}

/// Bought ingredients of one unit in the smallest units (microlitres or milligrams), by key. Of
/// alternatives the first stands for all; what may be left out is left out.
///
/// # Errors
/// Amounts too large to compute.
pub fn ingredients(
    recipe: &Recipe,
    unit: &Unit,
    acid: Option<&str>,
) -> Result<Vec<(String, i64)>, AppError> {
    let mut all: Vec<(String, i64)> = Vec::new();
    let mut chosen: Vec<&str> = Vec::new();
    for line in recipe
        .ingredients
        .iter()
        .filter(|line| line.role != Role::Produce && !line.optional)
    {
        if let Some(choice) = line.choice.as_deref() {
            if chosen.contains(&choice) {
                continue;
            }
            chosen.push(choice);
        }
        let times = if line.per_jar.is_some() {
            whole(unit.containers)
        } else {
            unit.share
        };
        let amount = match line.high.times(times)? {
            Amount::Mass(mass) => mass.milligrams()?,
            Amount::Volume(volume) => volume.microlitres()?,
            Amount::Count { .. } => continue,
        };
        all.push((line.key.clone(), amount));
    }
    let jar: Option<Jar> = unit.container.parse().ok();
    let choice = acid.and_then(|acid| {
        recipe
            .acid_choices
            .iter()
            .find(|choice| choice.acid == acid)
    });
    if let (Some(jar), Some(choice)) = (jar, choice) {
        let each: Volume = jar.volume().checked_mul(choice.share)?;
        all.push((
            choice.acid.clone(),
            each.checked_mul(whole(unit.containers))?.microlitres()?,
        ));
    }
    Ok(all)
}

/// The steps of so many units, with the minutes of a permit and a canner where there is one.
///
/// # Errors
/// Amounts too large to compute.
pub fn steps(
    recipe: &Recipe,
    unit: &Unit,
    units: i64,
    produce: Mass,
    canner: Option<(&Canner, u32)>,
) -> Result<DaySteps, AppError> {
    let jar: Option<Jar> = unit.container.parse().ok();
    let jars = units.saturating_mul(unit.containers);
    let canner_use = match (canner, jar) {
        (Some((canner, minutes)), Some(jar)) => Some(CannerUse {
            kind: canner_kind(canner),
            process_minutes: minutes,
            capacity: u32::try_from(jars_per_load(canner, jar).max(1)).unwrap_or(1),
        }),
        _ => None,
    };
    let batches = round_up(checked_mul(unit.share, whole(units))?);
    let question = DayQuestion {
        batches: u32::try_from(batches.max(1)).unwrap_or(u32::MAX),
        produce,
        jars: u32::try_from(jars.max(0)).unwrap_or(u32::MAX),
        canner: canner_use,
        rates: HouseRates::default(),
        after_rest: false,
    };
    Ok(steps_for(recipe, &question)?)
}

fn round_up(value: Exact) -> i128 {
    quantity::ceil(value)
}

/// The kind of canner as the steps know it.
pub fn canner_kind(canner: &Canner) -> CannerKind {
    match canner.kind.as_str() {
        "boiling-water" => CannerKind::BoilingWater,
        "steam" => CannerKind::Steam,
        _ => CannerKind::Pressure,
    }
}

/// Minutes in which hands are needed.
pub fn attended_minutes(steps: &DaySteps) -> i64 {
    steps
        .steps
        .iter()
        .filter(|step| step.attended)
        .map(|step| step.minutes * i64::from(step.hands.max(1)))
        .sum()
}

/// Which of the house's canners has this name.
pub fn canner_index(house: &House, name: &str) -> Option<usize> {
    house.canners.iter().position(|canner| canner.name == name)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A plan counts jars, a card reckons them from the produce: they name the same number.
    #[test]
    fn a_plan_of_so_many_jars_has_a_card_of_as_many() {
        let book = kitchen::recipe::recipes(reference::Reference::embedded());
        let mut seen = 0;
        for recipe in book.all() {
            for jar in &recipe.jar_choices {
                let unit = unit(recipe, Some(*jar), None).unwrap();
                if recipe.basis != Basis::Pounds
                    || !recipe.may_multiply
                    || recipe.factors.is_empty()
                {
                    continue;
                }
                for jars in 1..=20 {
                    let times = checked_mul(unit.share, whole(jars)).unwrap();
                    let card = kitchen::scale::scale(recipe, times, Some(*jar)).unwrap();
                    let full = card.jars.unwrap().full;
                    assert_eq!(i64::from(full), jars, "{} in {jar}", recipe.key);
                    seen += 1;
                }
            }
        }
        assert!(seen > 400, "{seen}");
    }
}
