//! A picking is weighed in: a new lot.

use super::{Done, movement};
use crate::App;
use crate::error::AppError;
use crate::house::House;
use crate::request::{Now, RecordPicking};
use crate::{dates, load};
use jiff::civil::Date;
use kitchen::weigh;
use ledger::{Content, Place};
use quantity::{Mass, VolumeUnit};
use store::NewLot;

/// Letters that a variety and a note may have (our own choice).
const LONGEST_VARIETY: usize = 80;
const LONGEST_NOTE: usize = 2_000;

/// A picking further back than this is taken for a slip of the pen.
const OLDEST_PICKING_DAYS: i64 = 400;

impl App {
    /// Weighs a picking in.
    ///
    /// # Errors
    /// Unknown crop, grade, place or crate; a weight that is not understood, not above zero or
    /// absurd; a date to come, or so far back that the lot would be past its time already.
    pub fn record_picking(&self, now: &Now, request: &RecordPicking) -> Result<Done, AppError> {
        let house = self.facts()?.house_or_empty();
        if request.crop.trim().is_empty() {
            return Err(AppError::input(
                "crop",
                "What was picked was not said.",
                "Choose a crop from the list.",
            ));
        }
        let crop = kitchen::find_crop(&request.crop).map_err(|error| {
            AppError::input("crop", error.to_string(), "Choose a crop from the list.")
        })?;
        let grade_text = if request.grade.trim().is_empty() {
            "sound"
        } else {
            request.grade.trim()
        };
        let grade = kitchen::grade(&crop.key, grade_text).map_err(|error| {
            let words = if request.grade.trim().is_empty() {
                format!("The grade of the {} was not said.", crop.plural)
            } else {
                error.to_string()
            };
            let titles: Vec<&str> = kitchen::grades_for(&crop.key)
                .unwrap_or_default()
                .into_iter()
                .map(|row| row.title.as_str())
                .collect();
            AppError::input(
                "grade",
                words,
                format!("Choose one: {}.", titles.join("; ")),
            )
        })?;
        let place = fresh_place(&request.place)?;
        let temperature = temperature(&request.temperature)?;
        let picked_on = picked_on(&request.picked_on, now.date)?;
        let (mass, how_weighed, estimated) = self.weight(&house, &crop.key, request)?;
        let milligrams = mass.milligrams().map_err(|error| {
            AppError::input(
                "amount",
                error.to_string(),
                "Write a weight such as «24 lb».",
            )
        })?;
        let keeping = kitchen::keeping(
            self.reference,
            &crop.key,
            &grade.key,
            keep_place(place),
            temperature,
            picked_on,
        )
        .map_err(|error| {
            let field = match error {
                kitchen::LotError::TooWarm { .. } | kitchen::LotError::Freezing { .. } => {
                    "temperature"
                }
                _ => "grade",
            };
            AppError::input(field, error.to_string(), "")
        })?;
        if keeping.late < now.date {
            return Err(AppError::input(
                "picked_on",
                format!(
                    "{}, {}, picked on {} keep until about {} at the latest: that is past.",
                    crop.plural,
                    grade.title,
                    dates::plain(picked_on),
                    dates::plain(keeping.late)
                ),
                "Check the date and the place; what is spoiled goes to the compost without being weighed in.",
            ));
        }
        let mut history = Vec::new();
        for (key, text) in &request.history {
            let question = kitchen::history::Question::from_key(key)
                .map_err(|error| AppError::input("history", error.to_string(), ""))?;
            let answer = kitchen::history::answer(text)
                .map_err(|error| AppError::input(key, error.to_string(), ""))?;
            history.push((
                format!("history.{}", question.key()),
                kitchen::history::answer_word(answer),
            ));
        }
        for (field, text, most) in [
            ("variety", &request.variety, LONGEST_VARIETY),
            ("note", &request.note, LONGEST_NOTE),
        ] {
            if text.chars().count() > most {
                return Err(AppError::input(
                    field,
                    format!("That is longer than {most} letters."),
                    "Keep it to what a label can hold; a longer story belongs in a book.",
                ));
            }
        }
        let lot = NewLot {
            crop: crop.key.clone(),
            variety: request.variety.trim().to_owned(),
            grade: grade.key.clone(),
            place,
            temperature_f: Some(quantity::exact_text::to_text(&temperature.fahrenheit())),
            picked_on,
            milligrams,
            how_weighed,
            note: request.note.trim().to_owned(),
        };
        let (entry, id) = self.write(now, "picking", &request.note, &request.token, |writer| {
            let id = writer.add_lot(&lot)?;
            let mut line = movement(
                now.date,
                &lot.crop,
                Content::Lot(id),
                Place::Garden,
                place,
                milligrams,
            );
            line.estimated = estimated;
            writer.add_movements(&[line])?;
            for (key, value) in &history {
                writer.add_lot_statement(id, key, value)?;
            }
            Ok(id)
        })?;
        Ok(Done {
            entry,
            id: Some(id),
            words: format!(
                "Lot {id}: {} {}, {}; keeps until about {} to {}.",
                quantity::show::mass(mass),
                crop.plural,
                grade.title,
                dates::near(keeping.early, now.date),
                dates::near(keeping.late, now.date)
            ),
        })
    }

    fn weight(
        &self,
        house: &House,
        crop: &str,
        request: &RecordPicking,
    ) -> Result<(Mass, String, bool), AppError> {
        let amount = request.amount.trim();
        let named = request.crate_name.trim();
        if !amount.is_empty() {
            if !named.is_empty() && !request.share.trim().is_empty() {
                return Err(AppError::input(
                    "amount",
                    "Both a weight and a share of a crate were given.",
                    "Leave one of the two empty.",
                ));
            }
            let mass = quantity::parse::picking_mass(amount)
                .map_err(|error| AppError::input("amount", error.to_string(), ""))?;
            return Ok((mass, "weighed".to_owned(), false));
        }
        if named.is_empty() {
            return Err(AppError::input(
                "amount",
                "No weight was given.",
                "Write it as «24 lb» or «10.5 kg», or choose a crate and how full it is.",
            ));
        }
        let known = house.crates.iter().find(|known| known.name.eq_ignore_ascii_case(named)).ok_or_else(|| {
            let names: Vec<&str> = house.crates.iter().map(|known| known.name.as_str()).collect();
            AppError::input(
                "crate_name",
                format!("The house has no crate called «{named}»."),
                if names.is_empty() {
                    "Enter the crate on the House page first, with its litres or its full weight.".to_owned()
                } else {
                    format!("It knows: {}.", names.join(", "))
                },
            )
        })?;
        let share = weigh::share(&request.share)
            .map_err(|error| AppError::input("share", error.to_string(), ""))?;
        let found = weigh::crate_weight(self.reference, crop, share, &known_crate(known)?)
            .map_err(|error| AppError::input("crate_name", error.to_string(), ""))?;
        Ok((found.mass, format!("{} (estimated)", found.sentence), true))
    }
}

/// The house's crate as the weighing rules want it.
pub(crate) fn known_crate(known: &crate::house::Crate) -> Result<weigh::Crate, AppError> {
    let volume = if known.litres.trim().is_empty() {
        None
    } else {
        let litres = quantity::parse::number(&known.litres).map_err(|error| {
            AppError::input("crates", error.to_string(), "Write the litres as a number.")
        })?;
        Some(
            quantity::Volume::new(litres, VolumeUnit::Litre)
                .map_err(|error| AppError::input("crates", error.to_string(), ""))?,
        )
    };
    let mut own = std::collections::BTreeMap::new();
    for (crop, text) in &known.full_weights {
        let mass = quantity::parse::mass(text)
            .map_err(|error| AppError::input("crates", format!("{}: {error}", known.name), ""))?;
        own.insert(crop.clone(), mass);
    }
    Ok(weigh::Crate {
        name: known.name.clone(),
        volume,
        own,
    })
}

/// A place where fresh food lies.
pub(crate) fn fresh_place(text: &str) -> Result<Place, AppError> {
    let text = if text.trim().is_empty() {
        "counter"
    } else {
        text.trim()
    };
    text.parse::<Place>()
        .ok()
        .filter(|place| load::lies_fresh(*place))
        .ok_or_else(|| {
            AppError::input(
                "place",
                format!("Fresh food does not lie in «{text}» here."),
                "Choose counter, cold-room or fridge.",
            )
        })
}

/// The place as the keeping rules name it.
pub(crate) fn keep_place(place: Place) -> kitchen::KeepPlace {
    match place {
        Place::ColdRoom => kitchen::KeepPlace::ColdRoom,
        Place::Fridge => kitchen::KeepPlace::Fridge,
        _ => kitchen::KeepPlace::Counter,
    }
}

/// A typed temperature; there is no default, because keeping time hangs on it.
pub(crate) fn temperature(text: &str) -> Result<quantity::Temperature, AppError> {
    if text.trim().is_empty() {
        return Err(AppError::input(
            "temperature",
            "How warm it is there was not said, and keeping time hangs on it.",
            "Write it as «70F» or «21C»; a guess to five degrees is enough.",
        ));
    }
    quantity::parse::temperature(text)
        .map_err(|error| AppError::input("temperature", error.to_string(), ""))
}

fn picked_on(text: &str, today: Date) -> Result<Date, AppError> {
    if text.trim().is_empty() {
        return Ok(today);
    }
    let date: Date = text.trim().parse().map_err(|_| {
        AppError::input(
            "picked_on",
            format!("«{}» is not a date.", text.trim()),
            "Write it as 2026-08-27.",
        )
    })?;
    let days = dates::days_between(date, today);
    if days < 0 {
        return Err(AppError::input(
            "picked_on",
            format!("{} is still to come.", dates::plain(date)),
            "Weigh it in on the day it is picked.",
        ));
    }
    if days > OLDEST_PICKING_DAYS {
        return Err(AppError::input(
            "picked_on",
            format!("{} is more than a year ago.", dates::plain(date)),
            "Check the year.",
        ));
    }
    Ok(date)
}
