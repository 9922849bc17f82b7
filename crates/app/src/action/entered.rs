//! What is entered of a batch, held against the batch itself: ticks it has, counts it can have made.

use super::finish::OutcomeRecord;
use crate::balance::{bag_room_ml, is_bag};
use crate::error::AppError;
use crate::facts::BatchFact;
use crate::read::house::container_words;
use crate::request::FinishBatch;
use kitchen::recipe::{Recipe, Route};
use reference::Jar;

/// So many times the containers expected are a slipped digit, not a good harvest (common practice, no
/// source).
const TOO_MANY_TIMES: i64 = 3;

/// Every tick is one that the batch asks for: a misspelt one would leave a must-do open unseen.
pub(super) fn known_ticks(
    recipe: &Recipe,
    batch: &BatchFact,
    ticks: &[String],
) -> Result<(), AppError> {
    let known: Vec<String> = batch.permit.as_ref().map_or_else(Vec::new, |permit| {
        crate::read::batch::must_do_of(recipe, batch, permit)
            .into_iter()
            .map(|tick| tick.key)
            .collect()
    });
    match ticks.iter().find(|tick| !known.contains(tick)) {
        None => Ok(()),
        Some(tick) => Err(AppError::input(
            "ticks",
            format!("Batch {} has nothing to tick called «{tick}».", batch.id),
            if known.is_empty() {
                "Leave the ticks out.".to_owned()
            } else {
                format!("It has: {}.", known.join(", "))
            },
        )),
    }
}

/// Something was said to have come out (also that nothing did), and not many times what can.
pub(super) fn believable_outcome(
    recipe: &Recipe,
    batch: &BatchFact,
    request: &FinishBatch,
    record: &OutcomeRecord,
) -> Result<(), AppError> {
    let offered = crate::read::batch::outcome_containers(recipe, batch);
    let Some(first) = offered.first() else {
        return Ok(());
    };
    let said = request
        .containers
        .values()
        .any(|text| !text.trim().is_empty())
        || record.partial_microlitres > 0;
    if !said {
        return Err(AppError::input(
            &first.key,
            "What came out was not said.",
            "Count what stands; write 0 when nothing came out.",
        ));
    }
    let Some((container, number)) = expected(recipe, batch)? else {
        return Ok(());
    };
    let Some(one) = room_ml(&container) else {
        return Ok(());
    };
    let filled: Option<i64> = record
        .containers
        .iter()
        .map(|(key, number)| room_ml(key).map(|room| room * number))
        .sum();
    if filled.is_some_and(|filled| filled > (number + 1) * one * TOO_MANY_TIMES) {
        return Err(AppError::input(
            &first.key,
            format!(
                "That is more than {TOO_MANY_TIMES} times the {number} {} expected.",
                container_words(&container, number)
            ),
            "Count again; look for a slipped digit.",
        ));
    }
    Ok(())
}

/// The most containers that the card expects, or nothing where no yield is printed.
fn expected(recipe: &Recipe, batch: &BatchFact) -> Result<Option<(String, i64)>, AppError> {
    let multiplier = quantity::exact_text::from_text(&batch.setup.units)?;
    let jar = crate::read::batch::card_jar(recipe, &batch.container);
    if let Some(jars) = kitchen::scale::scale(recipe, multiplier, jar)?.jars {
        return Ok(Some((
            jars.jar.as_str().to_owned(),
            i64::from(jars.full_high),
        )));
    }
    let unit = crate::size::unit(recipe, None, None)?;
    if unit.containers == 0 {
        return Ok(None);
    }
    let units = quantity::ceil(quantity::checked_div(multiplier, unit.share)?);
    let number = i64::try_from(units)
        .ok()
        .and_then(|units| units.checked_mul(unit.containers));
    Ok(number.map(|number| (unit.container, number)))
}

/// What fits in a container, in millilitres.
fn room_ml(key: &str) -> Option<i64> {
    key.parse::<Jar>()
        .map(|jar| jar.volume().millilitres_rounded())
        .ok()
        .or_else(|| is_bag(key).then(|| bag_room_ml(key)))
}

/// Why a heat batch comes out on hold, or nothing.
pub(super) fn hold_reason(
    batch: &BatchFact,
    recipe: &Recipe,
    record: &OutcomeRecord,
) -> Option<String> {
    if recipe.route != Route::Heat || record.containers.is_empty() {
        return None;
    }
    let permit = batch.permit.as_ref()?;
    let printed = i64::from(permit.chosen.minutes);
    match record.minutes {
        None => return Some("how long the load was processed was not said.".to_owned()),
        Some(minutes) if minutes < printed => {
            return Some(format!(
                "{minutes} minutes were kept, {printed} are printed."
            ));
        }
        Some(_) => {}
    }
    let open: Vec<String> = crate::read::batch::must_do_of(recipe, batch, permit)
        .into_iter()
        .filter(|tick| !record.ticks.contains(&tick.key))
        .map(|tick| tick.text.to_lowercase())
        .collect();
    (!open.is_empty()).then(|| format!("not ticked: {}.", open.join("; ")))
}
