//! A printed card that comes back: what was written into its blanks becomes the same facts as the
//! live run's, with the days and minutes of the card (ruling 23).
//!
//! Everything is worked out from the facts before anything is written, so that a card with a blank
//! that is not understood leaves nothing behind.

use super::Done;
use super::batch::Run;
use super::card_written::Written;
use crate::App;
use crate::dates;
use crate::error::AppError;
use crate::facts::{BatchEvent, BatchFact, Facts};
use crate::moment::Moment;
use crate::read::enter::card_of_code;
use crate::request::{CheckSeals, EnterCard, FinishBatch, Now, StartBatch};
use crate::view::enter::AskKind;
use jiff::civil::Date;
use ledger::Movement;

/// The last minute of a day.
const LAST_MINUTE: i64 = 24 * 60 - 1;

/// One act of the card, worked out and not yet written.
enum Act {
    Start(Now, StartBatch, super::batch::Begun),
    Outcome(Now, FinishBatch, Box<super::finish::Finished>),
    Seals(Now, CheckSeals, super::seals::Checked),
}

impl App {
    /// Enters what was written on a printed card: the start, the outcome and the seal check, as far
    /// as they are filled in and not in the record yet.
    ///
    /// # Errors
    /// A code of no card; a blank that the card does not have or that is not understood; times that
    /// lie ahead or before one another; whatever the acts themselves refuse. Nothing is written then.
    pub fn enter_card(&self, now: &Now, request: &EnterCard) -> Result<Done, AppError> {
        let mut facts = self.facts()?;
        let id = card_of_code(&request.code)?;
        // A card that is sent twice is told from one that has nothing new by its token.
        let token = request.token.trim();
        if !token.is_empty()
            && let Some(entry) = self.store.read(|reader| reader.entry_of_token(token))?
        {
            return Err(store::StoreError::AlreadyEntered(entry).into());
        }
        let view = self.blanks_of(&facts, id)?;
        let written = Written::new(request, &view.parts)?;
        let mut acts = Vec::new();
        if let Some(act) = self.start_of(&facts, now, &written, id)? {
            if let Act::Start(when, _, begun) = &act {
                apply_start(&mut facts, id, when, begun);
            }
            acts.push(act);
        }
        if let Some(act) = self.outcome_of_card(&facts, now, request, &written, id)? {
            if let Act::Outcome(when, _, finished) = &act {
                apply_outcome(&mut facts, id, when, finished);
            }
            acts.push(act);
        }
        acts.extend(self.seals_of(&facts, now, &written, id)?);
        if acts.is_empty() {
            let first = view
                .parts
                .iter()
                .flat_map(|part| &part.asks)
                .find(|ask| ask.kind == AskKind::Day)
                .map_or("code", |ask| ask.name.as_str());
            return Err(AppError::input(
                first,
                "Nothing of the card was filled in that is not in the record already.",
                "Write at least the day of what was done.",
            ));
        }
        let mut last = None;
        let mut words = Vec::new();
        for (nth, act) in acts.into_iter().enumerate() {
            let token = |token: &str| match (token.trim(), nth) {
                ("", _) => String::new(),
                (token, 0) => token.to_owned(),
                (token, nth) => format!("{token}-{nth}"),
            };
            let done = match act {
                Act::Start(when, mut start, begun) => {
                    start.token = token(&request.token);
                    self.write_begun(&when, &start, &begun)?
                }
                Act::Outcome(when, mut finish, finished) => {
                    finish.token = token(&request.token);
                    self.write_finished(&when, &finish, *finished)?
                }
                Act::Seals(when, mut seals, checked) => {
                    seals.token = token(&request.token);
                    self.write_seals(&when, &seals, checked)?
                }
            };
            words.push(done.words.clone());
            last = Some(done);
        }
        let mut done = last.ok_or_else(|| AppError::failed("Nothing was written.", ""))?;
        done.words = words.join(" ");
        Ok(done)
    }

    fn start_of(
        &self,
        facts: &Facts,
        now: &Now,
        written: &Written<'_>,
        id: i64,
    ) -> Result<Option<Act>, AppError> {
        if !written.asks("start") {
            return Ok(None);
        }
        let Some(day) = written.day("start", now)? else {
            if written.says_anything() {
                return Err(written.day_missing("start.day", "When it was begun"));
            }
            return Ok(None);
        };
        let begun = written.time("start.time", day, None, now)?.ok_or_else(|| {
            AppError::input(
                "start.time",
                "The time of the start is missing.",
                "Write it as 9:30.",
            )
        })?;
        let when = at(now, begun);
        let start = StartBatch {
            batch: id,
            ticks: Vec::new(),
            token: String::new(),
        };
        let begun = self.begin(facts, &when, &start, Run::Already)?;
        was_there(facts, &begun.lines, day)?;
        Ok(Some(Act::Start(when, start, begun)))
    }

    fn outcome_of_card(
        &self,
        facts: &Facts,
        now: &Now,
        request: &EnterCard,
        written: &Written<'_>,
        id: i64,
    ) -> Result<Option<Act>, AppError> {
        if !written.asks("outcome") {
            return Ok(None);
        }
        let Some(day) = written.day("outcome", now)? else {
            let filled = written.under("load.").chain(written.under("out.")).next();
            if filled.is_some() || !request.ticks.is_empty() {
                return Err(written.day_missing("outcome.day", "On which day it was counted"));
            }
            return Ok(None);
        };
        let begun = facts.batches.get(&id).and_then(BatchFact::begun_at);
        if let Some(begun) = begun
            && day < begun.date
        {
            return Err(AppError::input(
                "outcome.day",
                format!(
                    "The batch was begun on {}, after that day.",
                    dates::day(begun.date)
                ),
                "Look at both days on the card.",
            ));
        }
        let (minutes, lifted) = written.loads(begun, day, now)?;
        let finish = FinishBatch {
            batch: id,
            containers: written.counts("out."),
            partial: written.text("partial"),
            trimmings: written.text("trimmings"),
            trimmings_to: written.text("trimmings_to"),
            cooked_off: written.text("cooked_off"),
            ticks: request.ticks.clone(),
            minutes: minutes.map_or_else(String::new, |minutes| minutes.to_string()),
            lifted: lifted.map_or_else(String::new, typed),
            note: written.text("note"),
            token: String::new(),
        };
        let when = at(now, end_of(day, now));
        let finished = self
            .finish(facts, &when, &finish)
            .map_err(|error| as_on_card(error, "out."))?;
        Ok(Some(Act::Outcome(when, finish, Box::new(finished))))
    }

    fn seals_of(
        &self,
        facts: &Facts,
        now: &Now,
        written: &Written<'_>,
        id: i64,
    ) -> Result<Option<Act>, AppError> {
        if !written.asks("seals") {
            return Ok(None);
        }
        let Some(day) = written.day("seals", now)? else {
            if written.under("failed.").next().is_some() {
                return Err(written.day_missing("seals.day", "When the lids were looked at"));
            }
            return Ok(None);
        };
        let batch = facts.batch(id)?;
        let outcome = batch.last("outcome");
        if outcome.is_some_and(|event| day < event.on) {
            return Err(AppError::input(
                "seals.day",
                "The lids cannot have been looked at before the jars were counted.",
                "Look at both days on the card.",
            ));
        }
        let looked = written
            .time("seals.time", day, None, now)?
            .unwrap_or_else(|| end_of(day, now));
        let when = at(now, looked);
        let seals = CheckSeals {
            batch: id,
            failed: written.counts("failed."),
            to: written.text("failed_to"),
            lifted: String::new(),
            token: String::new(),
        };
        let checked = self
            .look_at_seals(facts, &when, &seals)
            .map_err(|error| as_on_card(error, "failed."))?;
        Ok(Some(Act::Seals(when, seals, checked)))
    }
}

/// The same person at another moment; the stamp stays that of writing.
fn at(now: &Now, when: Moment) -> Now {
    Now {
        date: when.date,
        minute: when.minute,
        at: now.at.clone(),
        who: now.who.clone(),
    }
}

/// The end of a day, or this minute when it is today.
fn end_of(day: Date, now: &Now) -> Moment {
    Moment {
        date: day,
        minute: if day == now.date {
            now.minute
        } else {
            LAST_MINUTE
        },
    }
}

/// A moment as it is typed.
fn typed(when: Moment) -> String {
    format!("{} {}", when.date, dates::clock(when.minute))
}

/// An error of an act, with the field as it is called on the card.
fn as_on_card(mut error: AppError, prefix: &str) -> AppError {
    error.field = match error.field.as_str() {
        "minutes" => "load.1.end".to_owned(),
        "lifted" => "load.1.lifted".to_owned(),
        "to" => "failed_to".to_owned(),
        "" | "batch" | "ticks" | "partial" | "trimmings" | "trimmings_to" | "cooked_off"
        | "note" => error.field,
        size => format!("{prefix}{size}"),
    };
    error
}

/// The food lay where it is taken from, on the card's day and ever since.
fn was_there(facts: &Facts, lines: &[Movement], day: Date) -> Result<(), AppError> {
    for line in lines.iter().filter(|line| !line.from.is_source()) {
        let key = (line.content, line.crop.clone(), line.from);
        let mut days: Vec<Date> = facts
            .movements
            .iter()
            .map(|moved| moved.on)
            .filter(|on| *on > day)
            .chain([day])
            .collect();
        days.sort_unstable();
        days.dedup();
        for on in days {
            let until: Vec<Movement> = facts
                .movements
                .iter()
                .filter(|moved| moved.on <= on)
                .cloned()
                .collect();
            let lay = ledger::balances(&until).get(&key).copied().unwrap_or(0);
            if lay < line.milligrams {
                return Err(AppError::input(
                    "start.day",
                    format!(
                        "On {} less of it lay there than the batch takes: it was picked, moved or sorted out on another day than the card says.",
                        dates::day(on)
                    ),
                    "Look at the day on the card, and at the record of the lot.",
                ));
            }
        }
    }
    Ok(())
}

fn push(facts: &mut Facts, id: i64, on: Date, kind: &str, content: serde_json::Value) {
    if let Some(batch) = facts.batches.get_mut(&id) {
        batch.events.push(BatchEvent {
            entry: 0,
            on,
            kind: kind.to_owned(),
            content,
        });
        batch.state =
            crate::facts::state_after(batch.events.iter().map(|event| event.kind.as_str()));
    }
}

fn apply_start(facts: &mut Facts, id: i64, when: &Now, begun: &super::batch::Begun) {
    for line in &begun.lines {
        ledger::apply(&mut facts.balances, line);
    }
    facts.movements.extend(begun.lines.iter().cloned());
    push(facts, id, when.date, "started", begun.content.clone());
    if let Some(why) = &begun.changed {
        let content = serde_json::json!({ "why": why });
        push(facts, id, when.date, "held", content);
    }
}

fn apply_outcome(facts: &mut Facts, id: i64, when: &Now, finished: &super::finish::Finished) {
    for line in &finished.movements {
        ledger::apply(&mut facts.balances, line);
    }
    for line in &finished.moved {
        ledger::apply_containers(&mut facts.container_balances, line);
    }
    facts.movements.extend(finished.movements.iter().cloned());
    facts.containers.extend(finished.moved.iter().cloned());
    push(facts, id, when.date, "outcome", finished.content.clone());
    if let Some(why) = &finished.hold {
        let content = serde_json::json!({ "why": why });
        push(facts, id, when.date, "held", content);
    }
}
