//! Scaling a recipe with exact fractions, and how many batches a kitchen's goods allow.

use quantity::{Exact, Mass, Rounding, checked_div, checked_mul, floor, show};
use reference::Jar;

use crate::card::{BatchCard, CardLine, acid_line, headspace_words, step_texts};
use crate::direction::{in_words, rounding};
use crate::error::KitchenError;
use crate::jars::{
    JarsExpected, OwnRecord, basis_words, jar_name, jars_expected, jars_from_batches, part_jar,
};
use crate::recipe::{Amount, Basis, Ingredient, Recipe, Role, Route};

mod ask;
mod possible;
mod said;

pub use ask::{
    batches_for_jars, batches_for_pot, brine, mixed, potfuls, share_over_jars, tested_jars,
};
pub use possible::{BatchLimit, BatchesPossible, batches_possible};
use said::{by_scale, exact_words, said};

/// Most batches believed at once (our decision; no source).
const MOST_BATCHES: i64 = 500;

/// Scales a recipe. A gel is never multiplied: its card carries the amounts of one pot and says
/// how many pots. `jar` may be left out for routes without jars. Errors: a multiplier that is
/// not above zero, part of a gel, a jar the tables do not serve.
pub fn scale(
    recipe: &Recipe,
    multiplier: Exact,
    jar: Option<Jar>,
) -> Result<BatchCard, KitchenError> {
    scale_with_own(recipe, multiplier, jar, None)
}

/// The same with the household's own record of this amount, where there is one. Errors: those of
/// [`scale`].
pub fn scale_with_own(
    recipe: &Recipe,
    multiplier: Exact,
    jar: Option<Jar>,
    own: Option<&OwnRecord>,
) -> Result<BatchCard, KitchenError> {
    let zero = Exact::from_integer(0);
    if multiplier <= zero || multiplier > Exact::from_integer(i128::from(MOST_BATCHES)) {
        return Err(KitchenError::Multiplier {
            recipe: recipe.title.clone(),
            text: show::number(multiplier),
            most: MOST_BATCHES,
        });
    }
    if !recipe.may_multiply && !multiplier.is_integer() {
        return Err(KitchenError::WholeBatchesOnly {
            recipe: recipe.title.clone(),
            text: show::number(multiplier),
        });
    }
    let jar = served_jar(recipe, jar)?;
    let jars = jar
        .map(|jar| jars_for(recipe, multiplier, jar))
        .transpose()?
        .flatten();
    let jars = match (jars, own) {
        (Some(jars), Some(own)) => Some(jars.with_own(own)?),
        (jars, _) => jars,
    };
    let pots = if recipe.may_multiply {
        None
    } else {
        u32::try_from(multiplier.to_integer()).ok()
    };
    let by = if recipe.may_multiply {
        multiplier
    } else {
        Exact::from_integer(1)
    };
    let lines = recipe
        .ingredients
        .iter()
        .filter(|ingredient| shown(recipe, ingredient, jar))
        .map(|ingredient| card_line(recipe, ingredient, by, jar, jars.as_ref()))
        .collect::<Result<_, _>>()?;
    let acid = match (jar, &jars) {
        (Some(jar), Some(jars)) => recipe
            .acid_choices
            .iter()
            .map(|choice| acid_line(choice, jar, jars.full))
            .collect::<Result<_, _>>()?,
        _ => Vec::new(),
    };
    let part = match (jar, &jars) {
        (Some(jar), Some(jars)) => part_jar(recipe, jars.over, jar),
        _ => None,
    };
    Ok(BatchCard {
        recipe: recipe.key.clone(),
        title: recipe.title.clone(),
        multiplier,
        separate_batches: pots,
        jar,
        lines,
        makes: makes(recipe, multiplier, jar)?,
        jars,
        loads: None,
        acid,
        headspace: recipe.headspace_in.map(headspace_words),
        headspace_in: recipe.headspace_in,
        part_jar: part,
        steps: step_texts(recipe),
        cautions: cautions(recipe, pots),
        facts: recipe.facts.clone(),
        source: recipe.source.clone(),
    })
}

/// Scales a recipe to a weight of produce: by weight exactly, by whole recipes as far as the
/// main produce reaches (`floor(weight / weight of a batch)`). Says what is left over.
pub fn scale_to_produce(
    recipe: &Recipe,
    produce: Mass,
    jar: Option<Jar>,
) -> Result<(BatchCard, Mass), KitchenError> {
    let Some(Amount::Mass(batch)) = main_weight(recipe) else {
        return Err(KitchenError::Basis {
            recipe: recipe.title.clone(),
            basis: basis_words(recipe.basis),
            asked: "the weight of produce",
        });
    };
    let times = produce.ratio(batch)?;
    if recipe.basis == Basis::Pounds {
        return Ok((scale(recipe, times, jar)?, Mass::ZERO));
    }
    let whole = Exact::from_integer(floor(times));
    let card = scale(recipe, whole, jar)?;
    Ok((card, produce.checked_sub(batch.checked_mul(whole)?)?))
}

/// Weight of the main produce of one batch, as picked; a plan reckons with the upper end.
fn main_weight(recipe: &Recipe) -> Option<Amount> {
    let main = recipe.main_produce()?;
    match main.high {
        Amount::Mass(mass) => Some(Amount::Mass(mass)),
        _ => recipe
            .uses
            .iter()
            .find(|one| one.ingredient == main.key)
            .map(|one| Amount::Mass(one.high)),
    }
}

/// The jar asked for, if the tables serve it.
fn served_jar(recipe: &Recipe, jar: Option<Jar>) -> Result<Option<Jar>, KitchenError> {
    let in_jars = matches!(recipe.route, Route::Heat | Route::Crock);
    let choices = || {
        let names: Vec<String> = recipe
            .jar_choices
            .iter()
            .map(|jar| jar.to_string())
            .collect();
        names.join(", ")
    };
    match jar {
        None if in_jars && !recipe.jar_choices.is_empty() => Err(KitchenError::NoJar {
            recipe: recipe.title.clone(),
            choices: choices(),
        }),
        Some(jar) if in_jars && !recipe.jar_choices.contains(&jar) => {
            Err(KitchenError::JarNotServed {
                recipe: recipe.title.clone(),
                jar: jar.to_string(),
                choices: choices(),
            })
        }
        Some(jar) if in_jars => Ok(Some(jar)),
        _ => Ok(None),
    }
}

fn jars_for(
    recipe: &Recipe,
    multiplier: Exact,
    jar: Jar,
) -> Result<Option<JarsExpected>, KitchenError> {
    match recipe.batch_mass() {
        Some(batch) if !recipe.factors.is_empty() => {
            jars_expected(recipe, batch.checked_mul(multiplier)?, jar).map(Some)
        }
        _ if recipe.yields.is_some() => jars_from_batches(recipe, multiplier, jar).map(Some),
        _ => Ok(None),
    }
}

/// "8 to 10 pint bags" for routes without jars.
fn makes(
    recipe: &Recipe,
    multiplier: Exact,
    jar: Option<Jar>,
) -> Result<Option<String>, KitchenError> {
    let (None, Some(made)) = (jar, &recipe.yields) else {
        return Ok(None);
    };
    let low = floor(checked_mul(made.low, multiplier)?);
    let high = quantity::ceil(checked_mul(made.high, multiplier)?);
    let container = made.container.replace('-', " ");
    let end = if high == 1 { "" } else { "s" };
    Ok(Some(if low == high {
        format!("{high} {container}{end}")
    } else {
        format!("{low} to {high} {container}{end}")
    }))
}

/// Acid per jar has its own place on the card; a per-jar line of another jar is not for this one.
fn shown(recipe: &Recipe, ingredient: &Ingredient, jar: Option<Jar>) -> bool {
    match ingredient.per_jar {
        None => true,
        Some(_) if ingredient.role == Role::Acid && !recipe.acid_choices.is_empty() => false,
        Some(known) => {
            let printed = |jar: Jar| {
                recipe
                    .ingredients
                    .iter()
                    .any(|other| other.key == ingredient.key && other.per_jar == Some(jar))
            };
            match jar {
                Some(jar) if printed(jar) => known == jar,
                // An unlisted jar takes its share of the largest printed one.
                Some(_) => recipe
                    .ingredients
                    .iter()
                    .filter(|other| other.key == ingredient.key)
                    .filter_map(|other| other.per_jar)
                    .max()
                    .is_some_and(|largest| largest == known),
                None => true,
            }
        }
    }
}

fn card_line(
    recipe: &Recipe,
    ingredient: &Ingredient,
    by: Exact,
    jar: Option<Jar>,
    jars: Option<&JarsExpected>,
) -> Result<CardLine, KitchenError> {
    let full = jars.map_or(1, |jars| jars.full.max(1));
    let jars_number = Exact::from_integer(i128::from(full));
    let times = match (ingredient.per_jar, jar) {
        (Some(printed), Some(jar)) => {
            checked_mul(jar.volume().ratio(printed.volume())?, jars_number)?
        }
        _ => by,
    };
    let (low, high) = (ingredient.low.times(times)?, ingredient.high.times(times)?);
    let way = rounding(recipe, ingredient);
    let upper = said(high, way);
    let is_range = low != high;
    let kitchen = if is_range && !low.is_zero() {
        format!("{} to {}", said(low, way).kitchen, upper.kitchen)
    } else if is_range {
        format!("up to {}", upper.kitchen)
    } else {
        upper.kitchen.clone()
    };
    let metric = if is_range && !low.is_zero() && !upper.metric.is_empty() {
        format!("{} to {}", said(low, way).metric, upper.metric)
    } else {
        upper.metric.clone()
    };
    let per_jar = match (jar, ingredient.role, jars) {
        (Some(jar), Role::Spice, Some(_)) if recipe.may_multiply && !ingredient.drained_off => {
            let each = high.times(checked_div(Exact::from_integer(1), jars_number)?)?;
            let each = said(each, Rounding::Nearest).kitchen;
            Some(format!("about {each} a {}", jar_name(jar, 1)))
        }
        _ => None,
    };
    Ok(CardLine {
        key: ingredient.key.clone(),
        name: ingredient.name.clone(),
        low,
        high,
        measured: upper.measured,
        exact: exact_words(high),
        kitchen,
        metric,
        role: in_words(recipe, ingredient),
        rounding: way,
        is_exact: upper.measured == high,
        weigh: by_scale(
            ingredient,
            high,
            upper.measured == high,
            recipe.is_ferment(),
        ),
        per_jar,
        optional: ingredient.optional,
        choice: ingredient.choice.clone(),
        drained_off: ingredient.drained_off,
        note: ingredient.note.clone(),
    })
}

fn cautions(recipe: &Recipe, pots: Option<u32>) -> Vec<String> {
    let mut cautions = Vec::new();
    if let Some(pots) = pots.filter(|pots| *pots > 1) {
        cautions.push(format!(
            "Cook {pots} separate batches, one after the other, never one big pot: larger \
             batches often stay soft. The amounts are for one batch."
        ));
    }
    if !recipe.acid_choices.is_empty() {
        cautions.push(
            "One acid, whole, in every jar before it is filled; never two acids in part."
                .to_owned(),
        );
    }
    if !recipe.note.is_empty() {
        cautions.push(recipe.note.clone());
    }
    cautions
}
