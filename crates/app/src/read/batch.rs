//! A batch as its card, from what is stored and the recipe book.

use super::batch_words::{
    acid_view, answer, event_words, ingredient, jars_view, lead, no_canner, route_plate, ticks,
};
pub(crate) use super::batch_words::{
    card_jar, hold_reason, must_do, must_do_of, outcome_containers, outcome_of, permit_words,
};
use crate::action::finish::OutcomeRecord;
use crate::action::lot::place_title;
use crate::action::prepare::{Judged, Prepared};
use crate::error::AppError;
use crate::factor::own_card;
use crate::facts::{BatchFact, BatchState, Facts, PlannedInput};
use crate::house::House;
use crate::read::counter::{capital, join};
use crate::read::house::{container_words, jar_words};
use crate::read::verdict;
use crate::request::{NewBatch, Now};
use crate::view::batch::{BatchLine, BatchListView, BatchView, OutcomeView, StepLine, VerdictView};
use crate::view::{Both, Choice};
use crate::{App, balance, dates};
use kitchen::card::BatchCard;
use kitchen::recipe::{Recipe, Route};
use ledger::Place;
use quantity::{Mass, show};
use reference::Jar;

impl App {
    /// All batches, next first.
    ///
    /// # Errors
    /// Those of reading the file.
    pub fn batches(&self, now: &Now) -> Result<BatchListView, AppError> {
        let facts = self.facts()?;
        let mut batches: Vec<&BatchFact> = facts.batches.values().collect();
        let rank = |state: BatchState| match state {
            BatchState::Started => 0,
            BatchState::Planned => 1,
            BatchState::Held => 2,
            BatchState::Finished => 3,
            BatchState::Cancelled => 4,
        };
        batches.sort_by_key(|batch| {
            let day = dates::days_between(now.date, batch.for_day);
            (
                rank(batch.state),
                if batch.state == BatchState::Finished {
                    -day
                } else {
                    day
                },
                batch.id,
            )
        });
        let count = |state: BatchState| batches.iter().filter(|batch| batch.state == state).count();
        let (planned, started) = (count(BatchState::Planned), count(BatchState::Started));
        Ok(BatchListView {
            answer: match (planned, started) {
                (0, 0) => "No batch is waiting.".to_owned(),
                (planned, 0) => format!("{planned} set up, none begun."),
                (planned, started) => format!("{started} begun, {planned} set up."),
            },
            batches: batches
                .into_iter()
                .filter(|batch| batch.state != BatchState::Cancelled)
                .map(|batch| self.batch_line(&facts, batch))
                .collect(),
            recipes: self
                .recipes
                .all()
                .iter()
                .filter(|recipe| {
                    !matches!(recipe.route, Route::Fresh | Route::Animals | Route::Compost)
                })
                .map(|recipe| Choice::new(&recipe.key, &recipe.title))
                .collect(),
        })
    }

    fn batch_line(&self, facts: &Facts, batch: &BatchFact) -> BatchLine {
        let made: Vec<String> = outcome_of(batch)
            .map(|record| {
                record
                    .containers
                    .iter()
                    .map(|(key, count)| format!("{count} {}", container_words(key, *count)))
                    .collect()
            })
            .unwrap_or_default();
        let produce: i64 = batch.inputs.iter().map(|input| input.milligrams).sum();
        BatchLine {
            id: batch.id,
            title: self.recipe_title(&batch.recipe),
            day: dates::day(batch.for_day),
            state: batch.state.word().to_owned(),
            makes: if made.is_empty() {
                match self.expected(facts, batch) {
                    Some(words) => words,
                    None => Both::milligrams(produce).to_string(),
                }
            } else {
                format!("{} made", join(&made))
            },
        }
    }

    /// "7 quarts expected".
    fn expected(&self, facts: &Facts, batch: &BatchFact) -> Option<String> {
        let recipe = self.recipes.get(&batch.recipe).ok()?;
        let multiplier = quantity::exact_text::from_text(&batch.setup.units).ok()?;
        let jar = card_jar(recipe, &batch.container);
        let card = own_card(facts, recipe, multiplier, jar, Some(batch.id)).ok()?;
        match (card.jars, card.makes) {
            (Some(jars), _) => {
                let count = i64::from(jars.full);
                Some(format!("{count} {} expected", jar_words(jars.jar, count)))
            }
            (None, makes) => makes.map(|makes| format!("{makes} expected")),
        }
    }

    /// One batch in full.
    ///
    /// # Errors
    /// No such batch, or a recipe that the book no longer has.
    pub fn batch(&self, now: &Now, id: i64) -> Result<BatchView, AppError> {
        let facts = self.facts()?;
        let batch = facts.batch(id)?;
        let recipe = self.recipes.get(&batch.recipe)?;
        let house = balance::house_now(&facts);
        let card = super::enter::scaled_card(&facts, &house, batch, recipe)?;
        let plate = match &batch.permit {
            Some(record) => verdict::permit(record, &house.elevation),
            None => {
                let histories =
                    crate::gate::histories(&facts, batch.inputs.iter().map(|input| input.lot));
                route_plate(recipe, &self.judge_cool(recipe, &histories))
            }
        };
        let mut view = self.card_view(
            &facts,
            &house,
            recipe,
            &card,
            plate,
            &batch.inputs,
            &batch.setup.canner,
        )?;
        view.id = Some(id);
        batch.state.word().clone_into(&mut view.state);
        view.day = dates::day(batch.for_day);
        if let Some(permit) = &batch.permit {
            view.ticks = ticks(recipe, permit, batch);
        }
        view.containers = outcome_containers(recipe, batch);
        view.outcome = outcome_of(batch)
            .map(|record| self.outcome_view(&facts, batch, recipe, &card, &record));
        view.seal_check_due =
            recipe.route == Route::Heat && batch.has("outcome") && !batch.has("seal-check");
        view.events = batch.events.iter().rev().map(event_words).collect();
        self.fill_incidents(&mut view, &facts, batch, now)?;
        Ok(view)
    }

    /// How a batch would be made, judged by the gate; writes nothing.
    ///
    /// # Errors
    /// An unknown recipe, jar, canner or amount. A refusal of the gate is part of the view.
    pub fn try_batch(&self, now: &Now, request: &NewBatch) -> Result<BatchView, AppError> {
        let facts = self.facts()?;
        let house = balance::house_now(&facts);
        let prepared = self.prepare(&facts, &house, now, request)?;
        let Prepared {
            recipe,
            card,
            inputs,
            canner,
            jar,
            ..
        } = &prepared;
        let plate = match &prepared.verdict {
            Judged::Permit(record) => verdict::permit(record, &house.elevation),
            Judged::Refusal(refusal) => verdict::refusal(
                refusal,
                format!(
                    "{}{}",
                    recipe.title,
                    jar.map(|jar| format!(", {}", jar_words(jar, 2)))
                        .unwrap_or_default()
                ),
            ),
            Judged::Route(verdict) => route_plate(recipe, verdict),
            Judged::NoCanner => no_canner(recipe),
        };
        let name = canner
            .map(|index| house.canners[index].name.clone())
            .unwrap_or_default();
        let mut view = self.card_view(&facts, &house, recipe, card, plate, inputs, &name)?;
        "trial".clone_into(&mut view.state);
        view.scaling = super::scaling::lines(recipe, card, request, &house)?;
        view.asks = self.asks(recipe, request);
        view.day = dates::day(prepared.day);
        if !prepared.missing.is_empty() {
            "Not all of the produce lies fresh.".clone_into(&mut view.lead);
        }
        for (ingredient, mass) in &prepared.missing {
            view.takes.push(format!(
                "{} of {} that no fresh lot covers",
                show::mass(*mass),
                ingredient.replace('-', " ")
            ));
        }
        Ok(view)
    }

    #[expect(
        clippy::too_many_arguments,
        reason = "one card from one batch: each argument is a part of it"
    )]
    fn card_view(
        &self,
        facts: &Facts,
        house: &House,
        recipe: &Recipe,
        card: &BatchCard,
        plate: VerdictView,
        inputs: &[PlannedInput],
        canner: &str,
    ) -> Result<BatchView, AppError> {
        let takes = inputs
            .iter()
            .map(|input| {
                let name = facts
                    .lots
                    .get(&input.lot)
                    .and_then(|lot| kitchen::crop(&lot.crop).ok())
                    .map(|crop| crop.plural.clone())
                    .unwrap_or_default();
                format!(
                    "{} {name} (lot {})",
                    Both::milligrams(input.milligrams),
                    input.lot
                )
            })
            .collect();
        let steps: Vec<StepLine> = recipe
            .routine
            .steps
            .iter()
            .map(|step| StepLine {
                text: step.text.clone(),
                time: if step.attended {
                    "hands needed".to_owned()
                } else {
                    "hands free".to_owned()
                },
                stop: if step.stop_point {
                    "The work may stop here.".to_owned()
                } else {
                    String::new()
                },
            })
            .collect();
        let loads = card.loads.as_ref().map(|loads| {
            let jar = card.jar.map_or_else(String::new, |jar| jar_words(jar, 2));
            let mut words = match loads.loads {
                1 => format!(
                    "1 load of {} {jar} in {}",
                    loads.jars,
                    if canner.is_empty() {
                        "the canner"
                    } else {
                        canner
                    }
                ),
                count => format!(
                    "{count} loads of up to {} {jar} in {}, the last of {}",
                    loads.capacity,
                    if canner.is_empty() {
                        "the canner"
                    } else {
                        canner
                    },
                    loads.last_load
                ),
            };
            if let Some(advice) = &loads.advice {
                words.push_str(&format!(". {advice}"));
            }
            words
        });
        Ok(BatchView {
            id: None,
            recipe: recipe.key.clone(),
            title: recipe.title.clone(),
            state: String::new(),
            day: String::new(),
            answer: answer(recipe, card, &plate),
            lead: lead(card, inputs),
            verdict: plate,
            takes,
            lines: card
                .lines
                .iter()
                .map(|line| ingredient(line, house))
                .collect::<Result<_, _>>()?,
            jar: card
                .jar
                .map(|jar| jar.as_str().to_owned())
                .unwrap_or_default(),
            jars: card.jars.as_ref().map(|jars| jars_view(jars, card, house)),
            acid: acid_view(card),
            headspace: card.headspace.clone(),
            headspace_hundredths: card.headspace_in.and_then(|inches| {
                i64::try_from(quantity::round_half_away(inches * quantity::whole(100))).ok()
            }),
            loads,
            steps,
            ticks: Vec::new(),
            cautions: card
                .cautions
                .iter()
                .cloned()
                .chain(
                    card.facts
                        .iter()
                        .map(|fact| format!("{} ({})", capital(&fact.text), fact.source)),
                )
                .collect(),
            source: format!("Recipe read in: {}", card.source),
            outcome: None,
            scaling: Vec::new(),
            asks: Vec::new(),
            containers: Vec::new(),
            seal_check_due: false,
            events: Vec::new(),
            incidents: Vec::new(),
            late: Vec::new(),
            aside: Vec::new(),
            may_go_wrong: false,
            disposal_only: false,
        })
    }

    fn outcome_view(
        &self,
        facts: &Facts,
        batch: &BatchFact,
        recipe: &Recipe,
        card: &BatchCard,
        record: &OutcomeRecord,
    ) -> OutcomeView {
        let mut words: Vec<String> = record
            .containers
            .iter()
            .map(|(key, count)| format!("{count} {}", container_words(key, *count)))
            .collect();
        if record.partial_microlitres > 0 {
            let partial = quantity::Volume::from_microlitres(record.partial_microlitres);
            words.push(format!("{} to the fridge", show::volume(partial)));
        }
        if record.trimmings > 0 {
            words.push(format!("{} trimmings", Both::milligrams(record.trimmings)));
        }
        let produce: i64 = batch.inputs.iter().map(|input| input.milligrams).sum();
        let filled: i64 = record
            .containers
            .iter()
            .filter_map(|(key, count)| key.parse::<Jar>().ok().map(|jar| (jar, count)))
            .map(|(jar, count)| jar.volume().millilitres_rounded() * count)
            .sum::<i64>()
            + record.partial_microlitres / 1000;
        let factor = if filled > 0 && produce > 0 && recipe.uses.len() == 1 {
            // Pounds a quart, for showing beside the book's figure.
            let pounds =
                quantity::to_f64(Mass::from_milligrams(produce).in_unit(quantity::MassUnit::Pound));
            let quarts = filled as f64 / 946.352_946;
            let book = recipe
                .factors
                .first()
                .map(|factor| format!("; the book: {}", factor.words))
                .unwrap_or_default();
            format!("{:.2} lb a quart in this batch{book}", pounds / quarts)
        } else {
            String::new()
        };
        let mut places: Vec<(String, Both)> = Vec::new();
        for place in Place::ALL.into_iter().filter(|place| !place.is_source()) {
            let weight: i64 = facts
                .batch_weight(batch.id, place)
                .iter()
                .map(|(_, mg)| mg)
                .sum();
            if weight > 0 {
                places.push((place_title(place).to_lowercase(), Both::milligrams(weight)));
            }
        }
        let seals = batch
            .last("seal-check")
            .map(|event| {
                let failed = event
                    .content
                    .get("failed")
                    .and_then(serde_json::Value::as_array)
                    .map_or(0, Vec::len);
                if failed == 0 {
                    format!("All lids were down on {}.", dates::day(event.on))
                } else {
                    format!(
                        "Seals looked at on {}; some had failed.",
                        dates::day(event.on)
                    )
                }
            })
            .unwrap_or_default();
        OutcomeView {
            words: capital(&join(&words)),
            against: card
                .jars
                .as_ref()
                .map(|jars| format!("Expected: {}", jars.words))
                .or_else(|| {
                    card.makes
                        .as_ref()
                        .map(|makes| format!("Expected: {makes}"))
                })
                .unwrap_or_default(),
            factor,
            places,
            seals,
        }
    }
}
