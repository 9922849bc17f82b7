//! Statements on a lot, and sort-outs from it.

use super::{Done, movement, picking};
use crate::App;
use crate::error::AppError;
use crate::facts::{BatchState, Facts, LotFact};
use crate::load::lies_fresh;
use crate::request::{Now, SortOut, StateLot};
use kitchen::feeding;
use kitchen::history::{self, Question};
use kitchen::recipe::Route;
use ledger::{Content, Movement, Place};
use quantity::Mass;
use store::BatchEventKind;

impl App {
    /// States what a lot has been through, a new grade, another place or temperature. An answer
    /// that closes jars calls off the batches that were not started and holds the others
    /// (ruling 5).
    ///
    /// # Errors
    /// No such lot, an unknown question, answer, grade or place, or nothing stated.
    pub fn state_lot(&self, now: &Now, request: &StateLot) -> Result<Done, AppError> {
        let facts = self.facts()?;
        let lot = facts.lot(request.lot)?;
        let mut statements: Vec<(String, String)> = Vec::new();
        let mut lines: Vec<Movement> = Vec::new();
        let mut words = Vec::new();
        let mut after = lot.history.clone();
        let mut grade_after = lot.grade.clone();
        if !request.question.trim().is_empty() {
            let question = Question::from_key(&request.question)
                .map_err(|error| AppError::input("question", error.to_string(), ""))?;
            let answer = history::answer(&request.answer)
                .map_err(|error| AppError::input("answer", error.to_string(), ""))?;
            after = after.with(question, answer);
            statements.push((
                format!("history.{}", question.key()),
                history::answer_word(answer).to_owned(),
            ));
            words.push(format!(
                "{} {}.",
                question.text(),
                history::answer_word(answer)
            ));
        }
        if !request.grade.trim().is_empty() {
            let grade = kitchen::grade(&lot.crop, request.grade.trim())
                .map_err(|error| AppError::input("grade", error.to_string(), ""))?;
            grade_after.clone_from(&grade.key);
            words.push(format!("Now {}.", grade.title));
            statements.push(("grade".to_owned(), grade.key.clone()));
        }
        if !request.temperature.trim().is_empty() {
            let temperature = picking::temperature(&request.temperature)?;
            statements.push((
                "temperature".to_owned(),
                quantity::exact_text::to_text(&temperature.fahrenheit()),
            ));
            words.push(format!(
                "Lies at {}.",
                quantity::show::temperature(temperature)
            ));
        }
        if !request.place.trim().is_empty() {
            let place = picking::fresh_place(&request.place)?;
            if place != lot.place {
                if request.temperature.trim().is_empty() {
                    return Err(AppError::input(
                        "temperature",
                        "The new place's temperature was not said, and keeping time hangs on it.",
                        "Write it as «52F» or «11C».",
                    ));
                }
                statements.push(("place".to_owned(), place.as_str().to_owned()));
                if lot.left > 0 {
                    lines.push(movement(
                        now.date,
                        &lot.crop,
                        Content::Lot(lot.id),
                        lot.place,
                        place,
                        lot.left,
                    ));
                }
                words.push(format!(
                    "Moved to the {}.",
                    place_title(place).to_lowercase()
                ));
            }
        }
        if statements.is_empty() {
            return Err(AppError::input(
                "lot",
                "Nothing was stated.",
                "Give an answer, a grade, a place or a temperature.",
            ));
        }
        let closes = jars_closed(lot, &after, &grade_after)?;
        let touched = if closes.is_some() {
            jar_batches_of(&facts, lot.id)
        } else {
            Vec::new()
        };
        for (batch, kind) in &touched {
            words.push(match kind {
                BatchEventKind::Cancelled => {
                    format!("Batch {batch} is called off; make the plan anew.")
                }
                _ => format!("Batch {batch} is on hold."),
            });
        }
        let reason = closes.unwrap_or_default();
        let (entry, ()) = self.write(now, "lot", "", &request.token, |writer| {
            for (key, value) in &statements {
                writer.add_lot_statement(lot.id, key, value)?;
            }
            if !lines.is_empty() {
                writer.add_movements(&lines)?;
            }
            for (batch, kind) in &touched {
                let content = serde_json::json!({ "lot": lot.id, "why": reason });
                writer.add_batch_event(*batch, *kind, &content.to_string())?;
            }
            Ok(())
        })?;
        Ok(Done {
            entry,
            id: Some(lot.id),
            words: format!("Lot {}: {}", lot.id, words.join(" ")),
        })
    }

    /// Takes part of a lot away.
    ///
    /// # Errors
    /// No such lot, more than is left, an end that is not offered, or a feeding rule's no.
    pub fn sort_out(&self, now: &Now, request: &SortOut) -> Result<Done, AppError> {
        let facts = self.facts()?;
        let lot = facts.lot(request.lot)?;
        let to = sort_out_end(&request.to)?;
        let milligrams = part_of(lot, &request.amount)?;
        if to == Place::Animals {
            allow_feeding(self, lot, request)?;
        }
        let mut lines = Vec::new();
        let mut rest = milligrams;
        for ((content, crop, at), weight) in &facts.balances {
            if *content == Content::Lot(lot.id) && lies_fresh(*at) && *weight > 0 && rest > 0 {
                let taken = rest.min(*weight);
                lines.push(movement(now.date, crop, *content, *at, to, taken));
                rest -= taken;
            }
        }
        let (entry, ()) = self.write(now, "sort-out", &request.part, &request.token, |writer| {
            writer.add_movements(&lines)?;
            Ok(())
        })?;
        Ok(Done {
            entry,
            id: Some(lot.id),
            words: format!(
                "{} of lot {} to {}; {} left.",
                quantity::show::mass(Mass::from_milligrams(milligrams)),
                lot.id,
                place_title(to).to_lowercase(),
                quantity::show::mass(Mass::from_milligrams(lot.left - milligrams))
            ),
        })
    }
}

/// A place's name as a heading.
pub fn place_title(place: Place) -> &'static str {
    match place {
        Place::Garden => "Garden",
        Place::Bought => "Bought",
        Place::Counter => "Counter",
        Place::ColdRoom => "Cold room",
        Place::Fridge => "Fridge",
        Place::Shelf => "Shelf",
        Place::Freezer => "Freezer",
        Place::Crock => "Crock",
        Place::Dryer => "Dryer",
        Place::Pot => "In work",
        Place::Eaten => "Eaten",
        Place::Given => "Given",
        Place::Animals => "Animals",
        Place::Compost => "Compost",
        Place::Seed => "Seed",
        Place::Trimmings => "Trimmings",
        Place::CookedOff => "Cooked off",
        Place::Discarded => "Discarded",
        Place::Unaccounted => "Unaccounted",
    }
}

fn sort_out_end(text: &str) -> Result<Place, AppError> {
    match text.trim().parse::<Place>() {
        Ok(
            place @ (Place::Eaten
            | Place::Animals
            | Place::Compost
            | Place::Given
            | Place::Seed
            | Place::Discarded),
        ) => Ok(place),
        _ if text.trim().is_empty() => Err(AppError::input(
            "to",
            "Where it goes was not said.",
            "Choose eaten, animals, compost, given, seed or discarded.",
        )),
        _ => Err(AppError::input(
            "to",
            format!("A lot cannot be sorted out to «{}».", text.trim()),
            "Choose eaten, animals, compost, given, seed or discarded.",
        )),
    }
}

/// The weight named, at most what is left.
fn part_of(lot: &LotFact, text: &str) -> Result<i64, AppError> {
    if lot.left <= 0 {
        return Err(AppError::missing(
            "lot",
            format!("Nothing is left of lot {}.", lot.id),
            "See the Counter for the lots there are.",
        ));
    }
    if text.trim().eq_ignore_ascii_case("all") {
        return Ok(lot.left);
    }
    let milligrams = quantity::parse::mass(text)
        .and_then(Mass::milligrams)
        .map_err(|error| {
            AppError::input("amount", error.to_string(), "Write a weight, or «all».")
        })?;
    if milligrams > lot.left {
        return Err(AppError::input(
            "amount",
            format!(
                "Only {} of lot {} is left.",
                quantity::show::mass(Mass::from_milligrams(lot.left)),
                lot.id
            ),
            "Write at most that, or «all».",
        ));
    }
    Ok(milligrams)
}

fn allow_feeding(app: &App, lot: &LotFact, request: &SortOut) -> Result<(), AppError> {
    let house = app.facts()?.house_or_empty();
    let animal = match request.animal.trim() {
        "" => house.animals.first().cloned().unwrap_or_default(),
        animal => animal.to_owned(),
    };
    if animal.is_empty() {
        return Err(AppError::input(
            "animal",
            "The house has no animals.",
            "Send it to the compost.",
        ));
    }
    if history::closes(&lot.crop, &lot.history, None, Route::Animals).unwrap_or(true) {
        return Err(AppError::refused(
            "What this lot has been through closes it to animals.",
            "Send it to the compost.",
        ));
    }
    let part = match request.part.trim() {
        "" => kitchen::grade(&lot.crop, &lot.grade)
            .map(|grade| grade.feeding_part.clone())
            .unwrap_or_default(),
        part => part.to_owned(),
    };
    let answer = feeding::feeding(&lot.crop, &part, &animal)
        .map_err(|error| AppError::input("animal", error.to_string(), ""))?;
    if answer.may_feed() {
        Ok(())
    } else {
        Err(AppError::refused(
            format!("{} ({})", answer.reason, answer.source),
            "Send it to the compost.",
        ))
    }
}

/// Why jars are closed to a lot after what was stated, or nothing when they are open.
fn jars_closed(
    lot: &LotFact,
    after: &history::History,
    grade: &str,
) -> Result<Option<String>, AppError> {
    let limits = history::route_limits(&lot.crop, after, None)
        .map_err(|error| AppError::failed(error.to_string(), ""))?;
    if let Some(limit) = limits
        .iter()
        .find(|limit| limit.closed && limit.route == Route::Heat)
    {
        return Ok(Some(format!("{} ({})", limit.reason, limit.source)));
    }
    let row = kitchen::grade(&lot.crop, grade)
        .map_err(|error| AppError::failed(error.to_string(), ""))?;
    Ok((!row.uses.jars.is_open()).then(|| format!("{}: {}", row.title, row.note)))
}

/// Batches for jars that draw on a lot: those not started are called off, the others held.
fn jar_batches_of(facts: &Facts, lot: i64) -> Vec<(i64, BatchEventKind)> {
    facts
        .batches
        .values()
        .filter(|batch| batch.permit.is_some() && batch.inputs.iter().any(|input| input.lot == lot))
        .filter_map(|batch| match batch.state {
            BatchState::Planned => Some((batch.id, BatchEventKind::Cancelled)),
            // A batch on hold gets its second reason too: the first may be answered later.
            BatchState::Started | BatchState::Finished | BatchState::Held => {
                Some((batch.id, BatchEventKind::Held))
            }
            BatchState::Cancelled => None,
        })
        .collect()
}
