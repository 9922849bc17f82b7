//! A batch is set up and started, and gives its steps to the kitchen day.

use super::prepare::{is_main, new_row};
use super::{Done, movement};
use crate::error::{AppError, ErrorKind};
use crate::facts::{BatchFact, BatchState, Facts, LotFact};
use crate::load::lies_fresh;
use crate::moment::Moment;
use crate::read::house::jars_per_load;
use crate::request::{NewBatch, Now, StartBatch};
use crate::{App, balance, dates};
use jiff::civil::Date;
use kitchen::recipe::Recipe;
use kitchen::steps::DaySteps;
use ledger::{Content, Movement, Place};
use quantity::Mass;
use reference::Jar;
use safety::Verdict;
use store::BatchEventKind;

/// Whether a batch is about to be started or was run already.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Run {
    /// It stands at the stove: a gate that answers otherwise stops it.
    ToBegin,
    /// It is over and only written down now: what the gate would not have started comes out on
    /// hold (ruling 12).
    Already,
}

/// What the start of a batch comes to, before it is written.
pub(super) struct Begun {
    /// Food into the pot.
    pub lines: Vec<Movement>,
    /// What is kept of it.
    pub content: serde_json::Value,
    /// Why the gate no longer answers as it did; nothing when it does.
    pub changed: Option<String>,
    title: String,
}

impl App {
    /// Sets a batch up.
    ///
    /// # Errors
    /// Whatever [`App::try_batch`] refuses, and produce that is not there.
    pub fn new_batch(&self, now: &Now, request: &NewBatch) -> Result<Done, AppError> {
        let facts = self.facts()?;
        let house = balance::house_now(&facts);
        let prepared = self.prepare(&facts, &house, now, request)?;
        if let Some((ingredient, mass)) = prepared
            .missing
            .iter()
            .find(|(name, _)| is_main(prepared.recipe, name))
        {
            return Err(AppError::input(
                "produce",
                format!(
                    "{} of {} more are wanted than lie fresh and fit this recipe.",
                    quantity::show::mass(*mass),
                    ingredient.replace('-', " ")
                ),
                "Make a smaller batch, or weigh the produce in first.",
            ));
        }
        if let Some(refused) = prepared.verdict.refused() {
            return Err(refused);
        }
        let row = new_row(&prepared, &house, "set up by hand", false)?;
        let (entry, id) = self.write(now, "batch", "", &request.token, |writer| {
            Ok(writer.add_batch(&row)?)
        })?;
        Ok(Done {
            entry,
            id: Some(id),
            words: format!(
                "Batch {id}: {} for {}.",
                prepared.recipe.title,
                dates::near(prepared.day, now.date)
            ),
        })
    }

    /// Starts a batch: the gate is asked again, then its food leaves the lots.
    ///
    /// # Errors
    /// A batch that is not planned, a gate that answers otherwise than when it was set up (the
    /// batch goes on hold), or lots that no longer hold what was planned.
    pub fn start_batch(&self, now: &Now, request: &StartBatch) -> Result<Done, AppError> {
        let facts = self.facts()?;
        let begun = self.begin(&facts, now, request, Run::ToBegin)?;
        if let Some(why) = begun.changed {
            self.hold_batch(now, request.batch, &why)?;
            return Err(AppError::refused(
                format!(
                    "The gate no longer answers as it did when batch {} was set up: {why}",
                    request.batch
                ),
                "The batch is on hold; set it up anew and look at the new answer.",
            ));
        }
        self.write_begun(now, request, &begun)
    }

    /// What starting a batch would write, from these facts; writes nothing.
    ///
    /// # Errors
    /// Those of [`App::start_batch`] but for a gate that answers otherwise, which is part of the
    /// answer.
    pub(super) fn begin(
        &self,
        facts: &Facts,
        now: &Now,
        request: &StartBatch,
        run: Run,
    ) -> Result<Begun, AppError> {
        let batch = facts.batch(request.batch)?;
        if batch.state != BatchState::Planned {
            return Err(AppError::input(
                "batch",
                format!("Batch {} is {}, not planned.", batch.id, batch.state.word()),
                "Set up a new batch if there is more to make.",
            ));
        }
        let recipe = self.recipes.get(&batch.recipe)?;
        super::entered::known_ticks(recipe, batch, &request.ticks)?;
        let changed = self.changed_since(facts, batch, now)?;
        let mut lines = Vec::new();
        // A batch that the gate holds takes nothing, so its lots need not be there.
        if changed.is_none() || run == Run::Already {
            for input in &batch.inputs {
                lines.extend(lot_to_pot(
                    facts.lot(input.lot)?,
                    facts,
                    batch.id,
                    input.milligrams,
                    now.date,
                )?);
            }
            lines.extend(self.bought(batch, recipe, now.date)?);
        }
        Ok(Begun {
            lines,
            // The minute of the act; when it was written down is kept with the entry.
            content: serde_json::json!({
                "ticks": request.ticks,
                "at": Moment::now(now).stamp(),
                "who": now.who,
            }),
            changed,
            title: recipe.title.clone(),
        })
    }

    /// Writes a start down. One that the gate would have refused comes out on hold with it.
    pub(super) fn write_begun(
        &self,
        now: &Now,
        request: &StartBatch,
        begun: &Begun,
    ) -> Result<Done, AppError> {
        let batch = request.batch;
        let (entry, ()) = self.write(now, "start", "", &request.token, |writer| {
            if !begun.lines.is_empty() {
                writer.add_movements(&begun.lines)?;
            }
            writer.add_batch_event(batch, BatchEventKind::Started, &begun.content.to_string())?;
            if let Some(why) = &begun.changed {
                let content = serde_json::json!({ "why": why });
                writer.add_batch_event(batch, BatchEventKind::Held, &content.to_string())?;
            }
            Ok(())
        })?;
        Ok(Done {
            entry,
            id: Some(batch),
            words: format!("Batch {batch} has begun: {}.", begun.title),
        })
    }

    /// Puts a batch on hold for a reason.
    pub(crate) fn hold_batch(&self, now: &Now, batch: i64, why: &str) -> Result<(), AppError> {
        let content = serde_json::json!({ "why": why });
        self.write(now, "hold", "", "", |writer| {
            writer.add_batch_event(batch, BatchEventKind::Held, &content.to_string())?;
            Ok(())
        })?;
        Ok(())
    }

    /// What the gate says today against what it said then; nothing when it is the same.
    pub(crate) fn changed_since(
        &self,
        facts: &Facts,
        batch: &BatchFact,
        now: &Now,
    ) -> Result<Option<String>, AppError> {
        let Some(record) = &batch.permit else {
            return Ok(None);
        };
        let house = balance::house_now(facts);
        let Some(question) = self.question_today(facts, &house, batch, record, now)? else {
            return Ok(Some(format!(
                "the house no longer has «{}».",
                batch.setup.canner
            )));
        };
        Ok(match safety::judge_heat(self.reference, &question) {
            Verdict::Refusal(refusal) => Some(refusal.reason),
            Verdict::Permit(permit) => {
                let today = permit.record();
                (today.chosen.minutes != record.chosen.minutes
                    || today.chosen.psi != record.chosen.psi)
                    .then(|| {
                        format!(
                            "{} then, {} now.",
                            crate::read::verdict::pair_words(&record.chosen),
                            crate::read::verdict::pair_words(&today.chosen)
                        )
                    })
            }
        })
    }

    /// Bought ingredients as movements from `Bought` into the pot: only those whose weight is
    /// known, by the table of measures or as a liquid at one gram a millilitre, marked estimated.
    fn bought(
        &self,
        batch: &BatchFact,
        recipe: &Recipe,
        on: Date,
    ) -> Result<Vec<Movement>, AppError> {
        let multiplier = quantity::exact_text::from_text(&batch.setup.units)?;
        let mut lines = Vec::new();
        for line in &recipe.ingredients {
            if line.role == kitchen::recipe::Role::Produce
                || line.optional
                || line.drained_off
                || line.per_jar.is_some()
            {
                continue;
            }
            let milligrams = match line.high.times(multiplier)? {
                kitchen::recipe::Amount::Mass(mass) => mass.milligrams()?,
                kitchen::recipe::Amount::Volume(volume) => match line.grams_per_cup {
                    Some(grams) => {
                        let cups = volume.in_unit(quantity::VolumeUnit::Cup);
                        Mass::new(
                            quantity::checked_mul(cups, grams)?,
                            quantity::MassUnit::Gram,
                        )?
                        .milligrams()?
                    }
                    None if matches!(
                        line.role,
                        kitchen::recipe::Role::Acid | kitchen::recipe::Role::Liquid
                    ) =>
                    {
                        volume.microlitres()?
                    }
                    None => continue,
                },
                kitchen::recipe::Amount::Count { .. } => continue,
            };
            if milligrams > 0 {
                let mut bought = movement(
                    on,
                    &line.key,
                    Content::Batch(batch.id),
                    Place::Bought,
                    Place::Pot,
                    milligrams,
                );
                bought.estimated = true;
                lines.push(bought);
            }
        }
        Ok(lines)
    }

    /// The steps of a batch for the kitchen day, with its canner's index.
    pub(crate) fn batch_steps(
        &self,
        facts: &Facts,
        batch: &BatchFact,
    ) -> Result<(DaySteps, Option<usize>), AppError> {
        let recipe = self.recipes.get(&batch.recipe)?;
        let house = balance::house_now(facts);
        let multiplier = quantity::exact_text::from_text(&batch.setup.units)?;
        let jar: Option<Jar> = batch.container.parse().ok();
        let card = crate::factor::own_card(
            facts,
            recipe,
            multiplier,
            crate::read::batch::card_jar(recipe, &batch.container),
            Some(batch.id),
        )?;
        let canner = crate::size::canner_index(&house, &batch.setup.canner);
        let question = kitchen::steps::DayQuestion {
            batches: u32::try_from(quantity::ceil(multiplier).max(1)).unwrap_or(u32::MAX),
            produce: Mass::from_milligrams(batch.setup.produce_milligrams),
            jars: card.jars.as_ref().map_or(0, |jars| jars.full.max(1)),
            canner: match (canner, jar, &batch.permit) {
                (Some(index), Some(jar), Some(permit)) => Some(kitchen::steps::CannerUse {
                    kind: crate::size::canner_kind(&house.canners[index]),
                    process_minutes: permit.chosen.minutes,
                    capacity: u32::try_from(jars_per_load(&house.canners[index], jar).max(1))
                        .unwrap_or(1),
                }),
                _ => None,
            },
            rates: kitchen::steps::HouseRates::default(),
            after_rest: false,
        };
        Ok((kitchen::steps::steps_for(recipe, &question)?, canner))
    }
}

/// Takes a weight of a lot into the pot of a batch, from wherever the lot lies.
fn lot_to_pot(
    lot: &LotFact,
    facts: &Facts,
    batch: i64,
    milligrams: i64,
    on: Date,
) -> Result<Vec<Movement>, AppError> {
    if milligrams > lot.left {
        return Err(AppError {
            kind: ErrorKind::Input,
            ..AppError::input(
                "batch",
                format!(
                    "Lot {} holds {} now; this batch was set up with {}.",
                    lot.id,
                    quantity::show::mass(Mass::from_milligrams(lot.left)),
                    quantity::show::mass(Mass::from_milligrams(milligrams))
                ),
                "Set the batch up anew with what there is.",
            )
        });
    }
    let mut rest = milligrams;
    let mut lines = Vec::new();
    for ((content, crop, at), weight) in &facts.balances {
        if *content == Content::Lot(lot.id) && lies_fresh(*at) && *weight > 0 && rest > 0 {
            let taken = rest.min(*weight);
            let mut line = movement(on, crop, *content, *at, Place::Pot, taken);
            line.becomes = Some(Content::Batch(batch));
            lines.push(line);
            rest -= taken;
        }
    }
    Ok(lines)
}
