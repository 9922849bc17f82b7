//! Reads the household's facts from the store and puts them in order.

use crate::error::AppError;
use crate::facts::{BatchEvent, BatchFact, BatchSetup, Facts, LotFact, history_from, state_after};
use ledger::{Content, Place};
use quantity::Temperature;
use std::collections::BTreeMap;
use store::{BatchRecord, LotRecord, Reader};

/// Everything that stands, at one moment.
///
/// # Errors
/// Those of reading, and a row whose JSON this program did not write.
pub fn facts(reader: &Reader<'_>) -> Result<Facts, AppError> {
    let movements = reader.movements()?;
    let containers = reader.container_movements()?;
    let balances = ledger::balances(&movements);
    let container_balances = ledger::container_balances(&containers);
    let house = match reader.latest_house()? {
        None => None,
        Some(record) => {
            let mut house = serde_json::from_str(&record.content)
                .map_err(|error| unreadable("house", record.entry, &error))?;
            // Older statements hold the last gauge test alone.
            crate::gauge::settle(&mut house);
            Some((record.entry, house))
        }
    };
    let mut statements: BTreeMap<i64, Vec<(String, String)>> = BTreeMap::new();
    for statement in reader.all_lot_statements()? {
        if !statement.reversed {
            statements
                .entry(statement.lot)
                .or_default()
                .push((statement.key, statement.value));
        }
    }
    let mut lots = BTreeMap::new();
    for record in reader.lots()? {
        let said = statements.remove(&record.id).unwrap_or_default();
        let lot = lot_fact(record, said, &balances)?;
        lots.insert(lot.id, lot);
    }
    let mut events: BTreeMap<i64, Vec<BatchEvent>> = BTreeMap::new();
    for event in reader.all_batch_events()? {
        if !event.reversed {
            let content = serde_json::from_str(&event.content)
                .map_err(|error| unreadable("batch event", event.id, &error))?;
            events.entry(event.batch).or_default().push(BatchEvent {
                entry: event.entry,
                on: event.on,
                kind: event.kind.as_str().to_owned(),
                content,
            });
        }
    }
    let mut batches = BTreeMap::new();
    for record in reader.batches()? {
        let happened = events.remove(&record.id).unwrap_or_default();
        let batch = batch_fact(record, happened)?;
        batches.insert(batch.id, batch);
    }
    Ok(Facts {
        house,
        lots,
        movements,
        containers,
        batches,
        balances,
        container_balances,
    })
}

fn lot_fact(
    record: LotRecord,
    said: Vec<(String, String)>,
    balances: &ledger::Balances,
) -> Result<LotFact, AppError> {
    let mut grade = record.grade;
    let mut place = record.place;
    let mut temperature_text = record.temperature_f.unwrap_or_default();
    let mut answers = BTreeMap::new();
    for (key, value) in said {
        match key.as_str() {
            "grade" => grade = value,
            "place" => place = value.parse().unwrap_or(place),
            "temperature" => temperature_text = value,
            _ => {
                if let Some(question) = key.strip_prefix("history.") {
                    answers.insert(question.to_owned(), value);
                }
            }
        }
    }
    let degrees = quantity::exact_text::from_text(&temperature_text).map_err(|_| {
        AppError::failed(
            format!(
                "Lot {} has no temperature that can be read («{temperature_text}»).",
                record.id
            ),
            "State it anew with `stillroom lot NUMBER --temperature 70F`.",
        )
    })?;
    let left = balances
        .iter()
        .filter(|((content, _, at), _)| *content == Content::Lot(record.id) && lies_fresh(*at))
        .map(|(_, weight)| *weight)
        .sum();
    Ok(LotFact {
        id: record.id,
        crop: record.crop,
        variety: record.variety,
        grade,
        place,
        temperature: Temperature::from_fahrenheit(degrees),
        picked_on: record.picked_on,
        picked_milligrams: record.milligrams,
        left,
        how_weighed: record.how_weighed,
        history: history_from(&answers),
    })
}

/// Places where a lot can lie as it was picked.
pub const fn lies_fresh(place: Place) -> bool {
    matches!(place, Place::Counter | Place::ColdRoom | Place::Fridge)
}

fn batch_fact(record: BatchRecord, events: Vec<BatchEvent>) -> Result<BatchFact, AppError> {
    let wrong = |error: serde_json::Error| unreadable("batch", record.id, &error);
    let setup: BatchSetup = serde_json::from_str(&record.question).map_err(wrong)?;
    let inputs = serde_json::from_str(&record.planned_inputs).map_err(wrong)?;
    let permit = record
        .permit_record
        .as_deref()
        .map(serde_json::from_str)
        .transpose()
        .map_err(wrong)?;
    Ok(BatchFact {
        id: record.id,
        recipe: record.recipe,
        for_day: record.for_day,
        container: record.jar.unwrap_or_default(),
        setup,
        permit,
        inputs,
        state: state_after(events.iter().map(|event| event.kind.as_str())),
        events,
    })
}

fn unreadable(what: &str, id: i64, error: &serde_json::Error) -> AppError {
    AppError::failed(
        format!("The {what} record {id} in the household's file cannot be read: {error}."),
        "Put the last good copy back with `stillroom restore FILE`, or run `stillroom check`.",
    )
}
