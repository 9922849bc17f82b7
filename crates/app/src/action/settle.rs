//! The answer to an incident is carried out, and a missing tick is answered later (ruling 12).

use super::Done;
use super::stores::{count, rooms};
use crate::App;
use crate::error::AppError;
use crate::facts::{BatchFact, BatchState, Facts};
use crate::incident::{IncidentRecord, LateTick, Settled, food_kind};
use crate::moment::{self, Moment};
use crate::read::house::container_words;
use crate::request::{AnswerLate, Now, SettleIncident};
use kitchen::recipe::Recipe;
use ledger::{Draw, Place};
use reference::{IncidentHold, IncidentWay};
use safety::Answer;
use store::BatchEventKind;

/// The tick that a reprocessing asks beside those of the load.
pub(crate) const NEW_LIDS: &str = "new-lids";

impl App {
    /// Carries out one of the ways that stand open now: jars are reprocessed, frozen,
    /// refrigerated, kept or discarded. A way that the answer does not offer any more is refused.
    ///
    /// # Errors
    /// No such batch or incident, a way that is closed, more jars than are concerned, a
    /// reprocessing that is not whole.
    pub fn settle_incident(&self, now: &Now, request: &SettleIncident) -> Result<Done, AppError> {
        let facts = self.facts()?;
        let batch = facts.batch(request.batch)?;
        let (incident, record) = incident_of(batch, request.incident)?;
        let way: IncidentWay = request
            .way
            .trim()
            .parse()
            .map_err(|_| closed_word(&request.way))?;
        let mut asked = record.clone();
        if way == IncidentWay::Keep {
            // Whoever keeps a frozen jar has looked: its lid is down.
            asked.sealed = Answer::Yes;
        }
        let food = food_kind(self.reference, batch);
        let answer = self.incident_answer(&asked, batch.lifted(), food, now)?;
        let discards = matches!(way, IncidentWay::Discard | IncidentWay::Bin);
        if !discards && !answer.offers(way) {
            return Err(AppError::refused(
                format!("«{way}» is not open for these jars now."),
                format!(
                    "{} See the incident for what is.",
                    crate::read::incident::headline(&answer)
                ),
            ));
        }
        let Some(from) = record.place.or(discards.then_some(Place::Shelf)) else {
            return Err(AppError::input(
                "batch",
                format!("The outcome of batch {} is not entered yet.", batch.id),
                "Enter what came out first.",
            ));
        };
        let size = record.size.clone();
        let whole_batch = record.hold == IncidentHold::Batch;
        let concerned = if whole_batch {
            standing(&facts, batch, &size, from)
        } else {
            batch
                .set_aside()
                .get(&(size.clone(), from))
                .copied()
                .unwrap_or(0)
        };
        let number = match request.count.trim() {
            "" => concerned,
            text => count("count", text)?,
        };
        if number == 0 || number > concerned {
            return Err(AppError::input(
                "count",
                format!(
                    "{concerned} {} are concerned.",
                    container_words(&size, concerned)
                ),
                "Count them again.",
            ));
        }
        let mut settled = Settled {
            incident,
            way,
            size: size.clone(),
            place: Some(from),
            count: number,
            lifted: None,
        };
        let mut release = None;
        if way == IncidentWay::Reprocess {
            settled.lifted =
                Some(moment::read("lifted", &request.lifted, now)?.unwrap_or(Moment::now(now)));
            self.whole_reprocess(&facts, batch, &record, number == concerned, now, request)?;
            if batch.state == BatchState::Held {
                self.only_reprocessable(batch, now)?;
                release = Some("reprocessed in full with new lids, the gate asked again");
            }
        }
        let to = match way {
            IncidentWay::Freeze => Some(Place::Freezer),
            IncidentWay::Fridge => Some(Place::Fridge),
            _ if discards => Some(Place::Discarded),
            _ => None,
        };
        if way == IncidentWay::Freeze
            && batch.state == BatchState::Held
            && !batch.frozen_in_time(&size)
            && standing(&facts, batch, &size, Place::Freezer) > 0
        {
            return Err(AppError::refused(
                "Jars of this batch that are on hold lie in the freezer already: the two could not be told apart.",
                "Discard those first.",
            ));
        }
        let drawn = to
            .map(|to| {
                let draw = Draw {
                    entry: 0,
                    on: now.date,
                    batch: batch.id,
                    size: size.clone(),
                    from,
                    to,
                    count: number,
                };
                ledger::draw_containers(
                    &draw,
                    &facts.container_balances,
                    &facts.balances,
                    &rooms(&facts),
                )
                .map_err(|error| {
                    AppError::input("count", error.to_string(), "Count the jars again.")
                })
            })
            .transpose()?;
        let words = format!(
            "Batch {}: {number} {} {}.",
            batch.id,
            container_words(&size, number),
            done_words(way)
        );
        let content = serde_json::json!({ "settled": settled, "why": done_words(way) });
        let (entry, ()) = self.write(now, "settle", "", &request.token, |writer| {
            if let Some(drawn) = &drawn {
                writer.add_container_movements(std::slice::from_ref(&drawn.containers))?;
                writer.add_movements(&drawn.movements)?;
            }
            writer.add_batch_event(batch.id, BatchEventKind::Note, &content.to_string())?;
            if let Some(why) = release {
                let content = serde_json::json!({ "why": why });
                writer.add_batch_event(batch.id, BatchEventKind::Released, &content.to_string())?;
            }
            Ok(())
        })?;
        Ok(Done {
            entry,
            id: Some(batch.id),
            words,
        })
    }

    /// A reprocessing counts only as a whole: the gate's answer of today, its minutes, every tick,
    /// new lids, and for a whole batch every jar of it.
    fn whole_reprocess(
        &self,
        facts: &Facts,
        batch: &BatchFact,
        record: &IncidentRecord,
        every_jar: bool,
        now: &Now,
        request: &SettleIncident,
    ) -> Result<(), AppError> {
        let recipe = self.recipes.get(&batch.recipe)?;
        let Some(permit) = &batch.permit else {
            return Err(closed_word("reprocess"));
        };
        if record.kind == "wrong-jar" {
            return Err(AppError::refused(
                "These jars are larger than any tested one: no process covers them, a second one neither.",
                "Freeze the food, or fill tested jars with it within the same time as a batch of their own.",
            ));
        }
        if let Some(why) = self.changed_since(facts, batch, now)? {
            return Err(AppError::refused(
                format!("The gate does not permit this batch today: {why}"),
                "Freeze the food within the same time, or discard it by the disposal card.",
            ));
        }
        let printed = i64::from(permit.chosen.minutes);
        let kept: Option<i64> = request.minutes.trim().parse().ok();
        if kept.is_none_or(|kept| kept < printed) {
            return Err(AppError::input(
                "minutes",
                format!("The full time is {printed} minutes, counted from nought."),
                "Write the minutes as the clock kept them; less than the full time is no reprocessing.",
            ));
        }
        let mut open: Vec<String> = crate::read::batch::must_do(recipe, permit)
            .into_iter()
            .map(|tick| tick.key)
            .collect();
        open.push(NEW_LIDS.to_owned());
        open.retain(|key| !request.ticks.contains(key));
        if !open.is_empty() {
            return Err(AppError::input(
                "ticks",
                format!("Not ticked: {}.", open.join(", ")),
                "Each of them belongs to a reprocessing.",
            ));
        }
        if record.hold == IncidentHold::Batch && !every_jar {
            return Err(AppError::input(
                "count",
                "A batch on hold is reprocessed as a whole.",
                "Discard the jars that are not reprocessed first.",
            ));
        }
        Ok(())
    }

    /// A hold ends by reprocessing only when each incident of the batch could be mended so.
    fn only_reprocessable(&self, batch: &BatchFact, now: &Now) -> Result<(), AppError> {
        let food = food_kind(self.reference, batch);
        for (_, other) in batch.incidents() {
            let answer = self.incident_answer(&other, batch.lifted(), food, now)?;
            if other.hold == IncidentHold::Batch && !answer.offers(IncidentWay::Reprocess) {
                return Err(AppError::refused(
                    format!("{}: that is not mended by another process.", answer.title),
                    crate::read::incident::headline(&answer),
                ));
            }
        }
        Ok(())
    }

    /// Answers a tick that was missing when the outcome was entered. When every open one was done,
    /// the batch is released; one that was not done leaves it on hold, and is an incident.
    ///
    /// # Errors
    /// A batch that is not on hold for a missing tick alone, a tick that is not open, an answer
    /// without who and when.
    pub fn answer_late(&self, now: &Now, request: &AnswerLate) -> Result<Done, AppError> {
        let facts = self.facts()?;
        let batch = facts.batch(request.batch)?;
        let recipe = self.recipes.get(&batch.recipe)?;
        let open = open_ticks(recipe, batch);
        if open.is_empty() {
            return Err(AppError::refused(
                format!("No tick of batch {} can be answered later.", batch.id),
                "Only a batch on hold for a missing tick and nothing else is released by the answer.",
            ));
        }
        let tick = request.tick.trim();
        if !open.iter().any(|key| key == tick) {
            return Err(AppError::input(
                "tick",
                format!("«{tick}» is not open."),
                format!("Open: {}.", open.join(", ")),
            ));
        }
        let done = super::incident::yes_no("done", &request.done)?;
        let who = match request.who.trim() {
            "" => now.who.trim(),
            who => who,
        };
        let when = moment::read("when", &request.when, now)?;
        match done {
            Answer::Unknown => {
                return Err(AppError::input(
                    "done",
                    "Was it done? That was not said.",
                    "Say yes only if someone knows it; who does not know says no.",
                ));
            }
            Answer::Yes if who.is_empty() => {
                return Err(AppError::input(
                    "who",
                    "Who did it was not said.",
                    "Write the name of the one who did it.",
                ));
            }
            Answer::Yes if when.is_none() => {
                return Err(AppError::input(
                    "when",
                    "When it was done was not said.",
                    "Write it as 14:05, or with the day before it.",
                ));
            }
            Answer::Yes | Answer::No => {}
        }
        let late = LateTick {
            tick: tick.to_owned(),
            done: done == Answer::Yes,
            who: who.to_owned(),
            when,
        };
        let was_done = late.done;
        let why = match (was_done, when) {
            (true, Some(when)) => format!("{tick}: done by {who}, {}", when.words(now.date)),
            _ => format!("{tick}: not done"),
        };
        let content = serde_json::json!({ "late": late, "why": why });
        let released = was_done && open.len() == 1;
        let (entry, ()) = self.write(now, "late-tick", "", &request.token, |writer| {
            writer.add_batch_event(batch.id, BatchEventKind::Note, &content.to_string())?;
            if released {
                let content = serde_json::json!({ "why": "every missing tick was answered later" });
                writer.add_batch_event(batch.id, BatchEventKind::Released, &content.to_string())?;
            }
            if !was_done {
                let content = serde_json::json!({ "why": format!("{tick} was not done.") });
                writer.add_batch_event(batch.id, BatchEventKind::Held, &content.to_string())?;
            }
            Ok(())
        })?;
        Ok(Done {
            entry,
            id: Some(batch.id),
            words: match (was_done, released) {
                (true, true) => format!("Batch {} is released: {why}.", batch.id),
                (true, false) => format!("Batch {}: {why}; other ticks are open.", batch.id),
                (false, _) => format!(
                    "Batch {} stays on hold: {why}. Say on its page what went wrong.",
                    batch.id
                ),
            },
        })
    }
}

/// Ticks of a batch that is on hold for them and for nothing else.
pub(crate) fn open_ticks(recipe: &Recipe, batch: &BatchFact) -> Vec<String> {
    let holds = batch.events.iter().filter(|event| event.kind == "held");
    let only_hold = match holds.collect::<Vec<_>>().as_slice() {
        [hold] => hold.entry,
        _ => return Vec::new(),
    };
    let outcome = batch
        .events
        .iter()
        .find(|event| event.kind == "outcome" && event.entry == only_hold);
    let (Some(outcome), BatchState::Held, Some(permit)) =
        (outcome, batch.state, batch.permit.as_ref())
    else {
        return Vec::new();
    };
    let Ok(record) =
        serde_json::from_value::<super::finish::OutcomeRecord>(outcome.content.clone())
    else {
        return Vec::new();
    };
    let long_enough = record
        .minutes
        .is_some_and(|minutes| minutes >= i64::from(permit.chosen.minutes));
    if !long_enough || batch.incidents().next().is_some() {
        return Vec::new();
    }
    let answered: Vec<String> = batch.late_ticks().map(|late| late.tick).collect();
    crate::read::batch::must_do_of(recipe, batch, permit)
        .into_iter()
        .map(|tick| tick.key)
        .filter(|key| !record.ticks.contains(key) && !answered.contains(key))
        .collect()
}

fn incident_of(batch: &BatchFact, entry: i64) -> Result<(i64, IncidentRecord), AppError> {
    batch
        .incidents()
        .filter(|(id, _)| entry == 0 || *id == entry)
        .last()
        .ok_or_else(|| {
            AppError::missing(
                "incident",
                format!("Batch {} has no such incident.", batch.id),
                "State first what went wrong.",
            )
        })
}

fn standing(facts: &Facts, batch: &BatchFact, size: &str, place: Place) -> i64 {
    facts
        .container_balances
        .get(&(batch.id, size.to_owned(), place))
        .copied()
        .unwrap_or(0)
}

fn closed_word(way: &str) -> AppError {
    AppError::input(
        "way",
        format!("«{way}» is nothing that can be done with these jars."),
        "Choose reprocess, freeze, fridge, keep, bin or discard.",
    )
}

/// What was done, in words.
pub(crate) fn done_words(way: IncidentWay) -> &'static str {
    match way {
        IncidentWay::Reprocess => "processed again in full",
        IncidentWay::Freeze => "put into the freezer",
        IncidentWay::Fridge => "put into the fridge",
        IncidentWay::Keep => "looked over and kept",
        IncidentWay::Discard | IncidentWay::Bin => "discarded",
        IncidentWay::Restart | IncidentWay::Lost | IncidentWay::Look | IncidentWay::Looser => "",
    }
}
