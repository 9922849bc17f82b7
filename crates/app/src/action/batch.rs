//! A batch is tried out, set up and started.

use super::{Done, movement};
use crate::error::{AppError, ErrorKind};
use crate::facts::{BatchFact, BatchSetup, BatchState, Facts, LotFact, PlannedInput};
use crate::gate::{self, Answers};
use crate::house::House;
use crate::load::lies_fresh;
use crate::read::house::jars_per_load;
use crate::request::{NewBatch, Now, StartBatch};
use crate::{App, balance, dates};
use jiff::civil::Date;
use kitchen::card::BatchCard;
use kitchen::history;
use kitchen::recipe::{Basis, Recipe, Route};
use kitchen::steps::DaySteps;
use ledger::{Content, Movement, Place};
use quantity::{Exact, Mass};
use reference::Jar;
use safety::{PermitRecord, Refusal, RouteVerdict, Verdict};
use store::BatchEventKind;

/// A batch put together and judged, before anything is written.
#[derive(Debug, Clone)]
pub(crate) struct Prepared<'a> {
    pub recipe: &'a Recipe,
    /// How many times the recipe.
    pub multiplier: Exact,
    /// Jar, for heat.
    pub jar: Option<Jar>,
    /// Canner's index in the house.
    pub canner: Option<usize>,
    /// What comes from which lot.
    pub inputs: Vec<PlannedInput>,
    /// Produce that no lot covers: ingredient and weight.
    pub missing: Vec<(String, Mass)>,
    /// The scaled card.
    pub card: BatchCard,
    /// The gate's answer.
    pub verdict: Judged,
    /// The day it is for.
    pub day: Date,
}

/// The gate's answer for any route.
#[derive(Debug, Clone)]
pub(crate) enum Judged {
    /// Leave to heat-process.
    Permit(Box<PermitRecord>),
    /// No.
    Refusal(Refusal),
    /// The verdict of a route without heat.
    Route(RouteVerdict),
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
        if let Judged::Refusal(refusal) = &prepared.verdict {
            return Err(AppError::refused(
                refusal.reason.clone(),
                refusal.instead.clone(),
            ));
        }
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
        let batch = facts.batch(request.batch)?;
        if batch.state != BatchState::Planned {
            return Err(AppError::input(
                "batch",
                format!("Batch {} is {}, not planned.", batch.id, batch.state.word()),
                "Set up a new batch if there is more to make.",
            ));
        }
        let recipe = self.recipes.get(&batch.recipe)?;
        if let Some(why) = self.changed_since(&facts, batch, recipe, now)? {
            let content = serde_json::json!({ "why": why });
            self.write(now, "hold", "", "", |writer| {
                writer.add_batch_event(batch.id, BatchEventKind::Held, &content.to_string())?;
                Ok(())
            })?;
            return Err(AppError::refused(
                format!(
                    "The gate no longer answers as it did when batch {} was set up: {why}",
                    batch.id
                ),
                "The batch is on hold; set it up anew and look at the new answer.",
            ));
        }
        let mut lines = Vec::new();
        for input in &batch.inputs {
            lines.extend(lot_to_pot(
                facts.lot(input.lot)?,
                &facts,
                batch.id,
                input.milligrams,
                now.date,
            )?);
        }
        lines.extend(self.bought(batch, recipe, now.date)?);
        let content = serde_json::json!({ "ticks": request.ticks, "at": now.at, "who": now.who });
        let (entry, ()) = self.write(now, "start", "", &request.token, |writer| {
            if !lines.is_empty() {
                writer.add_movements(&lines)?;
            }
            writer.add_batch_event(batch.id, BatchEventKind::Started, &content.to_string())?;
            Ok(())
        })?;
        Ok(Done {
            entry,
            id: Some(batch.id),
            words: format!("Batch {} has begun: {}.", batch.id, recipe.title),
        })
    }

    /// What the gate says today against what it said then; nothing when it is the same.
    fn changed_since(
        &self,
        facts: &Facts,
        batch: &BatchFact,
        recipe: &Recipe,
        now: &Now,
    ) -> Result<Option<String>, AppError> {
        let Some(record) = &batch.permit else {
            return Ok(None);
        };
        let house = balance::house_now(facts);
        let Some(canner) = house
            .canners
            .iter()
            .find(|canner| canner.name == batch.setup.canner)
        else {
            return Ok(Some(format!(
                "the house no longer has «{}».",
                batch.setup.canner
            )));
        };
        let histories = batch
            .inputs
            .iter()
            .filter_map(|input| facts.lots.get(&input.lot))
            .map(|lot| &lot.history);
        let answers = Answers {
            acid: record
                .question
                .acid
                .as_ref()
                .and_then(|acid| acid.portions.first())
                .map(|portion| portion.acid.clone())
                .unwrap_or_default(),
            food: record.question.answers.clone(),
        };
        let question = gate::question(
            self.reference,
            &house,
            recipe,
            record.question.jar,
            canner,
            histories,
            &answers,
            now.date,
        )?;
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

    /// Puts a batch together and asks the gate; writes nothing.
    pub(crate) fn prepare<'a>(
        &'a self,
        facts: &Facts,
        house: &House,
        now: &Now,
        request: &NewBatch,
    ) -> Result<Prepared<'a>, AppError> {
        let recipe = self.recipes.get(request.recipe.trim())?;
        let multiplier = multiplier(recipe, request)?;
        let day = match request.day.trim() {
            "" => now.date,
            text => text.parse().map_err(|_| {
                AppError::input(
                    "day",
                    format!("«{text}» is not a date."),
                    "Write it as 2026-08-27.",
                )
            })?,
        };
        let jar = jar_of(recipe, house, &request.jar)?;
        let (inputs, missing) = self.inputs(facts, recipe, multiplier, &request.lots, now)?;
        let mut card = kitchen::scale::scale(recipe, multiplier, jar)?;
        let histories: Vec<_> = inputs
            .iter()
            .filter_map(|input| facts.lots.get(&input.lot))
            .map(|lot| lot.history.clone())
            .collect();
        let answers = Answers {
            acid: request.acid.trim().to_owned(),
            food: request.answers.clone(),
        };
        let (verdict, canner) = match (recipe.route, jar) {
            (Route::Heat, Some(jar)) => self.judge(
                house,
                recipe,
                jar,
                &request.canner,
                &histories,
                &answers,
                day,
            )?,
            (Route::Heat, None) => {
                return Err(AppError::refused(
                    format!("{} has no tested jar.", recipe.title),
                    "Freeze it or refrigerate it.",
                ));
            }
            _ => (Judged::Route(self.judge_cool(recipe, &histories)), None),
        };
        if let (Some(canner), Some(jar)) = (canner, jar) {
            let capacity = u32::try_from(jars_per_load(&house.canners[canner], jar)).unwrap_or(0);
            if capacity > 0 {
                card = card.with_canner(capacity)?;
            }
        }
        Ok(Prepared {
            recipe,
            multiplier,
            jar,
            canner,
            inputs,
            missing,
            card,
            verdict,
            day,
        })
    }

    /// The first canner that the gate permits, or the refusal that tells most.
    #[expect(
        clippy::too_many_arguments,
        reason = "each argument is one thing the gate must be told"
    )]
    fn judge(
        &self,
        house: &House,
        recipe: &Recipe,
        jar: Jar,
        named: &str,
        histories: &[history::History],
        answers: &Answers,
        day: Date,
    ) -> Result<(Judged, Option<usize>), AppError> {
        if !named.trim().is_empty()
            && !house
                .canners
                .iter()
                .any(|canner| canner.name == named.trim())
        {
            let names: Vec<&str> = house
                .canners
                .iter()
                .map(|canner| canner.name.as_str())
                .collect();
            return Err(AppError::input(
                "canner",
                format!("The house has no canner «{}».", named.trim()),
                format!("It has: {}.", names.join(", ")),
            ));
        }
        let mut refused = None;
        for (index, canner) in house.canners.iter().enumerate() {
            if !named.trim().is_empty() && canner.name != named.trim() {
                continue;
            }
            let question = gate::question(
                self.reference,
                house,
                recipe,
                jar,
                canner,
                histories,
                answers,
                day,
            )?;
            match safety::judge_heat(self.reference, &question) {
                Verdict::Permit(permit) => {
                    return Ok((Judged::Permit(Box::new(permit.record())), Some(index)));
                }
                Verdict::Refusal(refusal) => {
                    // A canner that suits the food at all tells more than one that never could.
                    let wrong_kind = refusal.code == "low-acid-needs-pressure"
                        || refusal.code == "method-not-listed";
                    if refused.is_none() || !wrong_kind {
                        refused = Some(refusal);
                    }
                }
            }
        }
        match refused {
            Some(refusal) => Ok((Judged::Refusal(refusal), None)),
            None => Err(AppError::refused(
                "The house has no canner, so nothing can be heat-processed.",
                "Enter the canner on the House page, or freeze the produce.",
            )),
        }
    }

    /// What comes from which lot, and what no lot covers.
    fn inputs(
        &self,
        facts: &Facts,
        recipe: &Recipe,
        multiplier: Exact,
        named: &[i64],
        now: &Now,
    ) -> Result<(Vec<PlannedInput>, Vec<(String, Mass)>), AppError> {
        for lot in named {
            facts.lot(*lot)?;
        }
        let mut free: Vec<(i64, i64)> = self
            .plan_lots(facts, now)?
            .into_iter()
            .filter(|lot| lot.ready_in <= 0 && lot.late_in >= 0)
            .filter(|lot| named.is_empty() || named.contains(&lot.id))
            .map(|lot| (lot.early_in, lot.id))
            .collect();
        free.sort_by_key(|(early, id)| (named.iter().position(|lot| lot == id), *early, *id));
        let mut left: Vec<(i64, i64)> = free
            .iter()
            .map(|(_, id)| (*id, facts.lots.get(id).map_or(0, |lot| lot.left)))
            .collect();
        let mut inputs: Vec<PlannedInput> = Vec::new();
        let mut missing = Vec::new();
        for used in &recipe.uses {
            let mut wanted = used.high.checked_mul(multiplier)?.milligrams()?;
            for (id, rest) in &mut left {
                let lot = facts.lot(*id)?;
                if wanted == 0 || *rest == 0 || !self.lot_fits(lot, used, recipe.route)? {
                    continue;
                }
                let taken = wanted.min(*rest);
                *rest -= taken;
                wanted -= taken;
                match inputs.iter_mut().find(|input| input.lot == *id) {
                    Some(input) => input.milligrams += taken,
                    None => inputs.push(PlannedInput {
                        lot: *id,
                        milligrams: taken,
                    }),
                }
            }
            // Less than a gram short is rounding between units.
            if wanted > 1000 {
                missing.push((used.ingredient.clone(), Mass::from_milligrams(wanted)));
            }
        }
        Ok((inputs, missing))
    }

    fn lot_fits(
        &self,
        lot: &LotFact,
        used: &kitchen::recipe::CropUse,
        route: Route,
    ) -> Result<bool, AppError> {
        Ok(used.takes_crop(&lot.crop)
            && (used.grades.is_empty() || used.grades.contains(&lot.grade))
            && !self
                .closed_routes(lot)?
                .iter()
                .any(|(closed, _)| closed == route.as_str()))
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
        let card = kitchen::scale::scale(recipe, multiplier, jar)?;
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

/// Is this the ingredient that the batch is made of?
fn is_main(recipe: &Recipe, ingredient: &str) -> bool {
    recipe
        .main_produce()
        .is_none_or(|main| main.key == ingredient)
}

/// The row to store.
pub(crate) fn new_row(
    prepared: &Prepared<'_>,
    house: &House,
    reason: &str,
    planned: bool,
) -> Result<store::NewBatch, AppError> {
    let json = |value: Result<String, serde_json::Error>| {
        value.map_err(|error| {
            AppError::failed(format!("The batch cannot be written down: {error}."), "")
        })
    };
    let setup = BatchSetup {
        units: quantity::exact_text::to_text(&prepared.multiplier),
        produce_milligrams: prepared.inputs.iter().map(|input| input.milligrams).sum(),
        canner: prepared
            .canner
            .map(|index| house.canners[index].name.clone())
            .unwrap_or_default(),
        reason: reason.to_owned(),
        planned,
    };
    let (permit_record, route_verdict) = match &prepared.verdict {
        Judged::Permit(record) => (Some(json(serde_json::to_string(record))?), None),
        Judged::Route(verdict) => (None, Some(json(serde_json::to_string(verdict))?)),
        Judged::Refusal(refusal) => {
            return Err(AppError::refused(
                refusal.reason.clone(),
                refusal.instead.clone(),
            ));
        }
    };
    let container = match prepared.jar {
        Some(jar) => Some(jar.as_str().to_owned()),
        None => crate::size::unit(prepared.recipe, None)
            .ok()
            .map(|unit| unit.container)
            .filter(|container| balance::is_bag(container)),
    };
    Ok(store::NewBatch {
        recipe: prepared.recipe.key.clone(),
        batches: setup.units.clone(),
        for_day: prepared.day,
        jar: container,
        question: json(serde_json::to_string(&setup))?,
        permit_record,
        route_verdict,
        card: json(serde_json::to_string(&prepared.card))?,
        planned_inputs: json(serde_json::to_string(&prepared.inputs))?,
    })
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

/// How many times the recipe: as typed, or as the produce reaches; once when neither is given.
fn multiplier(recipe: &Recipe, request: &NewBatch) -> Result<Exact, AppError> {
    let (batches, produce) = (request.batches.trim(), request.produce.trim());
    if !batches.is_empty() && !produce.is_empty() {
        return Err(AppError::input(
            "batches",
            "Both batches and produce were given.",
            "Leave one of the two empty.",
        ));
    }
    if !batches.is_empty() {
        return quantity::parse::number(batches).map_err(|error| {
            AppError::input(
                "batches",
                error.to_string(),
                "Write a number such as «2» or «1 1/2».",
            )
        });
    }
    if produce.is_empty() {
        return Ok(quantity::whole(1));
    }
    let mass = quantity::parse::mass(produce)
        .map_err(|error| AppError::input("produce", error.to_string(), ""))?;
    let main = recipe.main_produce();
    let batch = recipe
        .uses
        .iter()
        .find(|used| main.is_none_or(|main| main.key == used.ingredient))
        .map(|used| used.high)
        .or_else(|| recipe.batch_mass())
        .ok_or_else(|| {
            AppError::input(
                "produce",
                format!(
                    "{} is not reckoned by the weight of its produce.",
                    recipe.title
                ),
                "Give the number of batches instead.",
            )
        })?;
    let times = mass.ratio(batch)?;
    let times = if recipe.basis == Basis::Pounds && recipe.may_multiply {
        times
    } else {
        Exact::from_integer(quantity::floor(times))
    };
    if times <= quantity::whole(0) {
        return Err(AppError::input(
            "produce",
            format!(
                "{} does not make one batch of {}, which takes {}.",
                quantity::show::mass(mass),
                recipe.title,
                quantity::show::mass(batch)
            ),
            "Weigh in more, or use it another way.",
        ));
    }
    Ok(times)
}

/// The jar asked for, or the first of the recipe's jars that the house has.
fn jar_of(recipe: &Recipe, house: &House, asked: &str) -> Result<Option<Jar>, AppError> {
    if recipe.route != Route::Heat {
        return Ok(None);
    }
    if !asked.trim().is_empty() {
        return asked.trim().parse::<Jar>().map(Some).map_err(|error| {
            AppError::input("jar", error.to_string(), "Choose a jar from the list.")
        });
    }
    let in_house = recipe.jar_choices.iter().find(|jar| {
        house
            .jars
            .iter()
            .any(|have| have.jar == jar.as_str() && have.count > 0)
    });
    Ok(in_house.or(recipe.jar_choices.first()).copied())
}
