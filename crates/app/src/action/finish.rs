//! A batch is finished: what came out of it.

use super::stores::count;
use super::{Done, containers, movement};
use crate::App;
use crate::balance::is_bag;
use crate::error::AppError;
use crate::facts::{BatchFact, BatchState, Facts};
use crate::moment::{self, Moment};
use crate::read::house::container_words;
use crate::request::{FinishBatch, Now};
use kitchen::recipe::{Recipe, Route};
use ledger::{ContainerMovement, Content, Movement, Place};
use quantity::{Exact, Mass, Volume};
use reference::Jar;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use store::BatchEventKind;

/// Grams that a millilitre of filled jar is taken for where nothing was weighed (common practice,
/// no source; every weight that rests on it is marked estimated).
const GRAMS_PER_MILLILITRE: i64 = 1;

/// What an outcome entry keeps beside its movements.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct OutcomeRecord {
    /// Containers by key.
    pub containers: BTreeMap<String, i64>,
    /// Partial jar in microlitres.
    pub partial_microlitres: i64,
    /// Trimmings in milligrams.
    pub trimmings: i64,
    /// Cooked off in milligrams, as weighed.
    pub cooked_off: i64,
    /// Minutes as kept by the clock.
    pub minutes: Option<i64>,
    /// Ticks made.
    pub ticks: Vec<String>,
    /// Note.
    pub note: String,
    /// When the jars were lifted; none when nobody said.
    pub lifted: Option<Moment>,
}

/// What an outcome comes to, before it is written.
pub(super) struct Finished {
    /// What left the pot.
    pub movements: Vec<Movement>,
    /// Containers that were filled.
    pub moved: Vec<ContainerMovement>,
    /// What is kept of it.
    pub content: serde_json::Value,
    /// Why it comes out on hold; nothing when it does not.
    pub hold: Option<String>,
    record: OutcomeRecord,
    heat: bool,
}

impl App {
    /// Enters what came of a batch: containers, a partial jar, trimmings, what boiled away.
    /// What the numbers do not explain goes to unaccounted, visibly. A load shorter than its
    /// permit, or with a must-do tick missing, comes out on hold (rulings 10 and 12).
    ///
    /// # Errors
    /// A batch that is not started, counts or weights that are not understood or exceed what went
    /// in, a container the recipe does not fill.
    pub fn finish_batch(&self, now: &Now, request: &FinishBatch) -> Result<Done, AppError> {
        let facts = self.facts()?;
        let finished = self.finish(&facts, now, request)?;
        self.write_finished(now, request, finished)
    }

    /// What an outcome would write, from these facts; writes nothing.
    ///
    /// # Errors
    /// Those of [`App::finish_batch`].
    pub(super) fn finish(
        &self,
        facts: &Facts,
        now: &Now,
        request: &FinishBatch,
    ) -> Result<Finished, AppError> {
        let batch = facts.batch(request.batch)?;
        if !(batch.state == BatchState::Started
            || batch.state == BatchState::Held
                && facts
                    .batch_weight(batch.id, Place::Pot)
                    .iter()
                    .any(|(_, mg)| *mg > 0))
        {
            return Err(AppError::input(
                "batch",
                format!("Batch {} is {}, not started.", batch.id, batch.state.word()),
                if batch.state == BatchState::Planned {
                    "Start it first; its food then leaves the lots."
                } else {
                    "See the batch for what was entered."
                },
            ));
        }
        let recipe = self
            .recipes
            .get(&batch.recipe)
            .map_err(|error| AppError::failed(error.to_string(), ""))?;
        super::entered::known_ticks(recipe, batch, &request.ticks)?;
        let record = self.outcome(batch, recipe, now, request)?;
        let (movements, moved) =
            self.outcome_movements(facts, batch, recipe, request, &record, now)?;
        super::entered::believable_outcome(recipe, batch, request, &record)?;
        Ok(Finished {
            hold: super::entered::hold_reason(batch, recipe, &record),
            content: serde_json::to_value(&record).map_err(|error| {
                AppError::failed(format!("The outcome cannot be written down: {error}."), "")
            })?,
            movements,
            moved,
            record,
            heat: recipe.route == Route::Heat,
        })
    }

    /// Writes an outcome down.
    pub(super) fn write_finished(
        &self,
        now: &Now,
        request: &FinishBatch,
        finished: Finished,
    ) -> Result<Done, AppError> {
        let batch = request.batch;
        let (entry, ()) = self.write(now, "outcome", &request.note, &request.token, |writer| {
            writer.add_movements(&finished.movements)?;
            if !finished.moved.is_empty() {
                writer.add_container_movements(&finished.moved)?;
            }
            let content = finished.content.to_string();
            writer.add_batch_event(batch, BatchEventKind::Outcome, &content)?;
            if let Some(why) = &finished.hold {
                let content = serde_json::json!({ "why": why });
                writer.add_batch_event(batch, BatchEventKind::Held, &content.to_string())?;
            }
            Ok(())
        })?;
        let made: Vec<String> = finished
            .record
            .containers
            .iter()
            .filter(|(_, count)| **count > 0)
            .map(|(key, count)| format!("{count} {}", container_words(key, *count)))
            .collect();
        let mut words = format!(
            "Batch {batch}: {}.",
            if made.is_empty() {
                "nothing came out".to_owned()
            } else {
                made.join(", ")
            }
        );
        match finished.hold {
            Some(why) => words.push_str(&format!(" On hold: {why}")),
            None if finished.heat => words.push_str(" Look at the seals tomorrow."),
            None => {}
        }
        Ok(Done {
            entry,
            id: Some(batch),
            words,
        })
    }

    fn outcome(
        &self,
        batch: &BatchFact,
        recipe: &Recipe,
        now: &Now,
        request: &FinishBatch,
    ) -> Result<OutcomeRecord, AppError> {
        let offered: Vec<String> = crate::read::batch::outcome_containers(recipe, batch)
            .into_iter()
            .map(|choice| choice.key)
            .collect();
        let mut made = BTreeMap::new();
        for (key, text) in &request.containers {
            if text.trim().is_empty() {
                continue;
            }
            if !offered.contains(key) {
                return Err(AppError::input(
                    key,
                    format!("{} does not come out in «{key}».", recipe.title),
                    format!("It comes out in: {}.", offered.join(", ")),
                ));
            }
            let number = count(key, text)?;
            if number > 0 {
                made.insert(key.clone(), number);
            }
        }
        let partial_microlitres = match request.partial.trim() {
            "" => 0,
            text => quantity::parse::volume(text)
                .and_then(Volume::microlitres)
                .map_err(|error| {
                    AppError::input("partial", error.to_string(), "Write it as «1 1/2 cups».")
                })?,
        };
        let minutes = match request.minutes.trim() {
            "" => None,
            text => Some(
                text.parse::<i64>()
                    .ok()
                    .or_else(|| quantity::parse::minutes(text).ok())
                    .filter(|minutes| (0..=24 * 60).contains(minutes))
                    .ok_or_else(|| {
                        AppError::input(
                            "minutes",
                            format!("«{text}» is no time."),
                            "Write minutes, such as 45.",
                        )
                    })?,
            ),
        };
        let lifted = moment::read("lifted", &request.lifted, now)?;
        if let Some(lifted) = lifted {
            super::incident::after_start(batch, lifted)?;
        }
        Ok(OutcomeRecord {
            lifted,
            containers: made,
            partial_microlitres,
            trimmings: weight("trimmings", &request.trimmings)?,
            cooked_off: weight("cooked_off", &request.cooked_off)?,
            minutes,
            ticks: request.ticks.clone(),
            note: request.note.trim().to_owned(),
        })
    }

    /// Where the pot's weight goes. Trimmings come off the produce, what boiled away off the
    /// whole; containers hold what was not weighed otherwise (bags, dried food) or their fill
    /// volume at one gram a millilitre; the rest is unaccounted.
    fn outcome_movements(
        &self,
        facts: &Facts,
        batch: &BatchFact,
        recipe: &Recipe,
        request: &FinishBatch,
        record: &OutcomeRecord,
        now: &Now,
    ) -> Result<(Vec<Movement>, Vec<ContainerMovement>), AppError> {
        let mut pot: Vec<(String, i64)> = facts.batch_weight(batch.id, Place::Pot);
        let content = Content::Batch(batch.id);
        let mut movements = Vec::new();
        let mut take = |pot: &mut Vec<(String, i64)>,
                        only: Option<&[String]>,
                        to: Place,
                        milligrams: i64,
                        estimated: bool| {
            for (crop, share) in shares(pot, only, milligrams) {
                if let Some(left) = pot.iter_mut().find(|(name, _)| *name == crop) {
                    left.1 -= share;
                }
                let mut line = movement(now.date, &crop, content, Place::Pot, to, share);
                line.estimated = estimated;
                movements.push(line);
            }
        };
        let total = |pot: &[(String, i64)]| pot.iter().map(|(_, weight)| weight).sum::<i64>();
        let produce: Vec<String> = pot
            .iter()
            .map(|(crop, _)| crop.clone())
            .filter(|crop| kitchen::crop(crop).is_ok())
            .collect();
        let trimmings_to = match request.trimmings_to.trim() {
            "" | "compost" => Place::Compost,
            "animals" => Place::Animals,
            other => {
                return Err(AppError::input(
                    "trimmings_to",
                    format!("Trimmings do not go to «{other}»."),
                    "Choose compost or animals.",
                ));
            }
        };
        let produce_weight: i64 = pot
            .iter()
            .filter(|(crop, _)| produce.contains(crop))
            .map(|(_, mg)| mg)
            .sum();
        if record.trimmings > produce_weight {
            return Err(too_much("trimmings", record.trimmings, produce_weight));
        }
        take(
            &mut pot,
            Some(&produce),
            trimmings_to,
            record.trimmings,
            false,
        );
        if record.cooked_off > total(&pot) {
            return Err(too_much("cooked_off", record.cooked_off, total(&pot)));
        }
        take(&mut pot, None, Place::CookedOff, record.cooked_off, false);
        let mut moved = Vec::new();
        let to = outcome_place(recipe.route);
        let partial = record.partial_microlitres * GRAMS_PER_MILLILITRE;
        if partial > total(&pot) {
            return Err(too_much("partial", partial, total(&pot)));
        }
        if partial > 0 {
            take(&mut pot, None, Place::Fridge, partial, true);
            moved.push(containers(
                now.date,
                batch.id,
                "partial-jar",
                Place::Pot,
                Place::Fridge,
                1,
            ));
        }
        let filled: i64 = record.containers.values().sum();
        if filled > 0 {
            for (key, number) in &record.containers {
                moved.push(containers(now.date, batch.id, key, Place::Pot, to, *number));
            }
            let inside = match jar_volume_microlitres(record) {
                // Bags and dried food: all that is left is in them.
                None => total(&pot),
                Some(microlitres) => (microlitres * GRAMS_PER_MILLILITRE).min(total(&pot)),
            };
            take(&mut pot, None, to, inside, true);
        } else if matches!(
            recipe.route,
            Route::Fresh | Route::Seed | Route::ColdRoom | Route::Crock
        ) {
            let rest = total(&pot);
            take(&mut pot, None, to, rest, true);
        }
        let rest = total(&pot);
        take(&mut pot, None, Place::Unaccounted, rest, false);
        Ok((movements, moved))
    }
}

/// Where a finished batch of a route stands.
pub(crate) fn outcome_place(route: Route) -> Place {
    match route {
        Route::Heat | Route::Dryer => Place::Shelf,
        Route::Freezer => Place::Freezer,
        Route::Crock => Place::Crock,
        Route::Fridge => Place::Fridge,
        Route::Fresh => Place::Eaten,
        Route::Seed => Place::Seed,
        Route::Animals => Place::Animals,
        Route::Compost => Place::Compost,
        Route::ColdRoom => Place::ColdRoom,
    }
}

/// Splits a weight over what is in the pot (or only some of it) by share, to the milligram.
fn shares(pot: &[(String, i64)], only: Option<&[String]>, milligrams: i64) -> Vec<(String, i64)> {
    let part: Vec<&(String, i64)> = pot
        .iter()
        .filter(|(crop, weight)| *weight > 0 && only.is_none_or(|only| only.contains(crop)))
        .collect();
    let weights: Vec<Exact> = part
        .iter()
        .map(|(_, weight)| quantity::whole(*weight))
        .collect();
    quantity::split_by_share(milligrams, &weights)
        .into_iter()
        .zip(&part)
        .filter(|(share, _)| *share > 0)
        .map(|(share, (crop, _))| (crop.clone(), share))
        .collect()
}

/// Volume of the jars in microlitres, or nothing when any container is no jar.
fn jar_volume_microlitres(record: &OutcomeRecord) -> Option<i64> {
    let mut sum = 0;
    for (key, number) in &record.containers {
        if is_bag(key) {
            return None;
        }
        let jar: Jar = key.parse().ok()?;
        sum += jar.volume().millilitres_rounded() * 1000 * number;
    }
    Some(sum)
}

fn weight(field: &str, text: &str) -> Result<i64, AppError> {
    if text.trim().is_empty() {
        return Ok(0);
    }
    quantity::parse::mass(text)
        .and_then(Mass::milligrams)
        .map_err(|error| {
            AppError::input(
                field,
                error.to_string(),
                "Write a weight such as «5 lb», or leave it empty.",
            )
        })
}

fn too_much(field: &str, asked: i64, there: i64) -> AppError {
    AppError::input(
        field,
        format!(
            "{} is more than the {} that is in the pot.",
            quantity::show::mass(Mass::from_milligrams(asked)),
            quantity::show::mass(Mass::from_milligrams(there))
        ),
        "Weigh it again.",
    )
}
