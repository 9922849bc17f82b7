//! Containers are taken, and shelves counted.

use super::Done;
use crate::App;
use crate::action::lot::place_title;
use crate::balance::bag_room_ml;
use crate::error::AppError;
use crate::facts::Facts;
use crate::incident::Settled;
use crate::read::house::container_words;
use crate::request::{CountShelf, Now, TakeContainers};
use ledger::{Draw, Found, LedgerError, Place, Rooms};
use reference::IncidentWay;
use store::BatchEventKind;

impl App {
    /// Takes containers from where they stand.
    ///
    /// # Errors
    /// No such batch, fewer standing than asked for, a place that is none, or a batch on hold:
    /// from hold there is only the way to be discarded.
    pub fn take_containers(&self, now: &Now, request: &TakeContainers) -> Result<Done, AppError> {
        let facts = self.facts()?;
        let batch = facts.batch(request.batch)?;
        let from = standing_place(&request.place, "place")?;
        let to = take_end(&request.to)?;
        let count = count("count", &request.count)?;
        let size = request.size.trim().to_owned();
        if batch.holds(&size, from) && to != Place::Discarded {
            return Err(AppError::refused(
                format!(
                    "Batch {} is on hold: nothing of it is eaten, given or moved.",
                    batch.id
                ),
                "See the batch for the reason; a held container can only be discarded.",
            ));
        }
        if count == 0 {
            return Err(AppError::input(
                "count",
                "Nothing was taken.",
                "Write how many, such as 1.",
            ));
        }
        let aside = batch
            .set_aside()
            .get(&(size.clone(), from))
            .copied()
            .unwrap_or(0);
        let standing = facts
            .container_balances
            .get(&(batch.id, size.clone(), from))
            .copied()
            .unwrap_or(0);
        if to != Place::Discarded && aside > 0 && count > standing - aside && count <= standing {
            return Err(AppError::refused(
                format!(
                    "{aside} of these are set aside: {}.",
                    crate::read::incident::aside_reason(batch, &size, from)
                ),
                "See the batch for what may be done with them; set-aside containers are not taken.",
            ));
        }
        let gone = (to == Place::Discarded && aside > 0).then(|| {
            let settled = Settled {
                incident: 0,
                way: IncidentWay::Discard,
                size: size.clone(),
                place: Some(from),
                count: count.min(aside),
                lifted: None,
            };
            serde_json::json!({ "settled": settled, "why": "discarded" }).to_string()
        });
        let draw = Draw {
            entry: 0,
            on: now.date,
            batch: batch.id,
            size,
            from,
            to,
            count,
        };
        let drawn = ledger::draw_containers(
            &draw,
            &facts.container_balances,
            &facts.balances,
            &rooms(&facts),
        )
        .map_err(|error| ledger_error("count", &error))?;
        let (entry, ()) = self.write(now, "take", "", &request.token, |writer| {
            writer.add_container_movements(std::slice::from_ref(&drawn.containers))?;
            writer.add_movements(&drawn.movements)?;
            if let Some(gone) = &gone {
                writer.add_batch_event(batch.id, BatchEventKind::Note, gone)?;
            }
            Ok(())
        })?;
        let left: i64 = facts
            .standing(batch.id)
            .filter(|(size, place, _)| *size == draw.size && *place == from)
            .map(|(_, _, standing)| standing - count)
            .sum();
        Ok(Done {
            entry,
            id: Some(batch.id),
            words: format!(
                "{count} {} from the {} to {}; {left} left there.",
                container_words(&draw.size, count),
                place_title(from).to_lowercase(),
                place_title(to).to_lowercase()
            ),
        })
    }

    /// States what was found of one size of one batch; a difference goes to unaccounted, visibly.
    ///
    /// # Errors
    /// No such batch, a place that is none, or a count that is not understood.
    pub fn count_shelf(&self, now: &Now, request: &CountShelf) -> Result<Done, AppError> {
        let facts = self.facts()?;
        let batch = facts.batch(request.batch)?;
        let place = standing_place(&request.place, "place")?;
        let found = count("found", &request.found)?;
        let size = request.size.trim().to_owned();
        let recorded = facts
            .container_balances
            .get(&(batch.id, size.clone(), place))
            .copied()
            .unwrap_or(0);
        let difference = ledger::shelf_difference(
            0,
            now.date,
            place,
            &[Found {
                batch: batch.id,
                size: size.clone(),
                count: found,
            }],
            &facts.container_balances,
            &facts.balances,
            &rooms(&facts),
        )
        .map_err(|error| ledger_error("found", &error))?;
        let (entry, ()) = self.write(now, "shelf-count", "", &request.token, |writer| {
            writer.add_shelf_count(&difference.counts)?;
            if !difference.containers.is_empty() {
                writer.add_container_movements(&difference.containers)?;
            }
            if !difference.movements.is_empty() {
                writer.add_movements(&difference.movements)?;
            }
            Ok(())
        })?;
        let words = match found - recorded {
            0 => format!(
                "{found} {} found, as recorded.",
                container_words(&size, found)
            ),
            missing if missing < 0 => format!(
                "{found} found, {recorded} recorded: {} booked as unaccounted.",
                -missing
            ),
            more => {
                format!("{found} found, {recorded} recorded: {more} taken back from unaccounted.")
            }
        };
        Ok(Done {
            entry,
            id: Some(batch.id),
            words,
        })
    }
}

/// What a part-filled jar is taken to hold where it stands beside full ones of its batch: a cup
/// and a half (our own estimate; the weights that rest on it are marked estimated).
const PARTIAL_JAR_ML: i64 = 355;

/// What one container of each size holds, for batches that stand in several sizes.
pub(crate) fn rooms(facts: &Facts) -> Rooms {
    facts
        .container_balances
        .keys()
        .map(|(_, size, _)| {
            let millilitres = size.parse::<reference::Jar>().map_or_else(
                |_| {
                    if size == "partial-jar" {
                        PARTIAL_JAR_ML
                    } else {
                        bag_room_ml(size)
                    }
                },
                |jar| jar.volume().millilitres_rounded(),
            );
            (size.clone(), millilitres.max(1))
        })
        .collect()
}

fn standing_place(text: &str, field: &str) -> Result<Place, AppError> {
    text.trim()
        .parse::<Place>()
        .ok()
        .filter(|place| place.holds_containers())
        .ok_or_else(|| {
            AppError::input(
                field,
                format!("Containers do not stand in «{}».", text.trim()),
                "Choose shelf, freezer, fridge, cold-room or crock.",
            )
        })
}

fn take_end(text: &str) -> Result<Place, AppError> {
    match text.trim().parse::<Place>() {
        Ok(
            place @ (Place::Eaten
            | Place::Given
            | Place::Discarded
            | Place::Shelf
            | Place::Fridge
            | Place::Freezer
            | Place::ColdRoom),
        ) => Ok(place),
        _ => Err(AppError::input(
            "to",
            format!("Containers do not go to «{}».", text.trim()),
            "Choose eaten, given, discarded, shelf, fridge, freezer or cold-room.",
        )),
    }
}

/// A whole count of containers.
pub(crate) fn count(field: &str, text: &str) -> Result<i64, AppError> {
    if text.trim().is_empty() {
        return Err(AppError::input(
            field,
            "The number is missing.",
            "Write digits only, such as 7, or 0 for none.",
        ));
    }
    text.trim()
        .parse::<i64>()
        .ok()
        .filter(|count| (0..=10_000).contains(count))
        .ok_or_else(|| {
            AppError::input(
                field,
                format!("«{}» is not a whole number from 0 to 10,000.", text.trim()),
                "Write digits only, such as 7.",
            )
        })
}

fn ledger_error(field: &str, error: &LedgerError) -> AppError {
    AppError::input(
        field,
        error.to_string(),
        "See Stores for what stands where.",
    )
}
