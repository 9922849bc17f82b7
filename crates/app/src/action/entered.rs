//! What is entered of a batch, held against the batch itself: ticks it has, counts it can have made.

use super::finish::OutcomeRecord;
use crate::error::AppError;
use crate::facts::BatchFact;
use crate::request::FinishBatch;
use kitchen::recipe::{Recipe, Route};
use reference::Jar;

/// So many times the jars expected are a slipped digit, not a good harvest (common practice, no
/// source).
const TOO_MANY_TIMES: i64 = 3;

/// Every tick is one that the batch asks for: a misspelt one would leave a must-do open unseen.
pub(super) fn known_ticks(
    recipe: &Recipe,
    batch: &BatchFact,
    ticks: &[String],
) -> Result<(), AppError> {
    let known: Vec<String> = batch.permit.as_ref().map_or_else(Vec::new, |permit| {
        crate::read::batch::must_do(recipe, permit)
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
    let multiplier = quantity::exact_text::from_text(&batch.setup.units)?;
    let jar = crate::read::batch::card_jar(recipe, &batch.container);
    let Some(expected) = kitchen::scale::scale(recipe, multiplier, jar)?.jars else {
        return Ok(());
    };
    let millilitres = |jar: Jar| jar.volume().millilitres_rounded();
    let mut filled = 0;
    for (key, number) in &record.containers {
        let Ok(jar) = key.parse::<Jar>() else {
            return Ok(());
        };
        filled += millilitres(jar) * number;
    }
    let most = (i64::from(expected.full_high) + 1) * millilitres(expected.jar) * TOO_MANY_TIMES;
    if filled > most {
        return Err(AppError::input(
            &first.key,
            format!(
                "That is more than {TOO_MANY_TIMES} times the {} {} expected.",
                expected.full_high,
                crate::read::house::jar_words(expected.jar, i64::from(expected.full_high))
            ),
            "Count again; look for a slipped digit.",
        ));
    }
    Ok(())
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
    let open: Vec<String> = crate::read::batch::must_do(recipe, permit)
        .into_iter()
        .filter(|tick| !record.ticks.contains(&tick.key))
        .map(|tick| tick.text.to_lowercase())
        .collect();
    (!open.is_empty()).then(|| format!("not ticked: {}.", open.join("; ")))
}
