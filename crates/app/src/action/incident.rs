//! Something went wrong: the incident is stated, and what the answer asks for goes on hold.

use super::Done;
use super::stores::count;
use crate::App;
use crate::error::AppError;
use crate::facts::{BatchFact, BatchState, Facts};
use crate::incident::{IncidentRecord, also_touched, food_kind, gauge_test};
use crate::moment::{self, Moment};
use crate::request::{Now, RecordIncident};
use ledger::Place;
use reference::{IncidentAffects, IncidentHold, IncidentRow};
use safety::Answer;
use store::BatchEventKind;

impl App {
    /// States an incident: one entry with the statement, and what the published answer holds.
    ///
    /// # Errors
    /// No such batch or kind, a batch without jars, a time that lies ahead or before the load,
    /// more jars than there are.
    pub fn record_incident(&self, now: &Now, request: &RecordIncident) -> Result<Done, AppError> {
        let facts = self.facts()?;
        let batch = facts.batch(request.batch)?;
        let row = self.incident_row(&request.kind)?;
        fits(batch, row)?;
        let record = self.incident_record(&facts, batch, row, now, request)?;
        let lifted = [batch.lifted(), record.lifted].into_iter().flatten().min();
        let answer =
            self.incident_answer(&record, lifted, food_kind(self.reference, batch), now)?;
        let record = IncidentRecord {
            hold: answer.hold,
            ..record
        };
        let content = serde_json::json!({
            "incident": record,
            "why": answer.title.to_lowercase(),
        })
        .to_string();
        let hold = (answer.hold == IncidentHold::Batch).then(|| {
            serde_json::json!({ "why": format!("{}.", answer.title.to_lowercase()) }).to_string()
        });
        let others = if hold.is_some() {
            also_touched(&facts, batch, answer.affects)
        } else {
            Vec::new()
        };
        let (entry, ()) = self.write(now, "incident", &request.note, &request.token, |writer| {
            writer.add_batch_event(batch.id, BatchEventKind::Note, &content)?;
            for id in std::iter::once(batch.id).chain(others.iter().copied()) {
                if let Some(hold) = &hold {
                    writer.add_batch_event(id, BatchEventKind::Held, hold)?;
                }
            }
            Ok(())
        })?;
        let also = match others.as_slice() {
            [] => String::new(),
            more => format!(
                " On hold too, by the same gauge: batch {}.",
                more.iter()
                    .map(ToString::to_string)
                    .collect::<Vec<_>>()
                    .join(", ")
            ),
        };
        Ok(Done {
            entry,
            id: Some(batch.id),
            words: format!(
                "Batch {}: {}. {}{also}",
                batch.id,
                answer.title.to_lowercase(),
                crate::read::incident::headline(&answer)
            ),
        })
    }

    /// The row of a kind, or the nearest names.
    pub(crate) fn incident_row(&self, kind: &str) -> Result<&'static IncidentRow, AppError> {
        let kind = kind.trim();
        self.reference
            .incident(kind)
            .ok_or_else(|| crate::read::incident::unknown_kind(self.reference, kind))
    }

    fn incident_record(
        &self,
        facts: &Facts,
        batch: &BatchFact,
        row: &IncidentRow,
        now: &Now,
        request: &RecordIncident,
    ) -> Result<IncidentRecord, AppError> {
        let noticed = moment::read("noticed", &request.noticed, now)?.unwrap_or(Moment::now(now));
        let lifted = moment::read("lifted", &request.lifted, now)?;
        if let Some(lifted) = lifted {
            after_start(batch, lifted)?;
        }
        let in_canner = request.in_canner && lifted.is_none();
        if request.in_canner && (lifted.is_some() || batch.lifted().is_some()) {
            return Err(AppError::input(
                "lifted",
                "The jars are lifted and in the canner at once.",
                "Say one of the two.",
            ));
        }
        let (size, place, number) = jars_concerned(facts, batch, row, request)?;
        Ok(IncidentRecord {
            kind: row.kind.clone(),
            noticed,
            lifted,
            in_canner,
            sealed: yes_no("sealed", &request.sealed)?,
            // A batch that was on hold before had no right process: its short clock rules.
            process_was_right: match batch.state {
                BatchState::Held => Answer::No,
                _ => Answer::Yes,
            },
            size,
            place,
            count: number,
            hold: row.hold,
            who: now.who.clone(),
            note: request.note.trim().to_owned(),
        })
    }
}

/// An incident belongs to a load of jars that was begun.
fn fits(batch: &BatchFact, row: &IncidentRow) -> Result<(), AppError> {
    if batch.permit.is_none() {
        return Err(AppError::input(
            "batch",
            format!("Batch {} is no batch of jars from a canner.", batch.id),
            "Ask without a batch for a jar that was found; see Stores for what stands where.",
        ));
    }
    if matches!(batch.state, BatchState::Planned | BatchState::Cancelled) {
        return Err(AppError::input(
            "batch",
            format!(
                "Batch {} is {}: it has no jars.",
                batch.id,
                batch.state.word()
            ),
            "Choose the batch whose jars they are, or ask without a batch.",
        ));
    }
    if row.affects == IncidentAffects::Gauge && gauge_test(batch).is_none() {
        return Err(AppError::input(
            "kind",
            format!("Batch {} was not processed by a dial gauge.", batch.id),
            "Choose a batch of that canner.",
        ));
    }
    Ok(())
}

/// Jars are lifted after their batch was begun; a day without time may be the day it was begun.
pub(super) fn after_start(batch: &BatchFact, lifted: Moment) -> Result<(), AppError> {
    match batch.begun_at() {
        Some(started)
            if lifted < started && !(lifted.minute == 0 && lifted.date == started.date) =>
        {
            Err(AppError::input(
                "lifted",
                format!(
                    "The jars cannot have been lifted at {}: batch {} was begun at {}.",
                    lifted.words(lifted.date),
                    batch.id,
                    started.words(lifted.date)
                ),
                "Write when this load was lifted from the canner.",
            ))
        }
        _ => Ok(()),
    }
}

/// Which jars an incident concerns: size, place and count, held against what stands.
fn jars_concerned(
    facts: &Facts,
    batch: &BatchFact,
    row: &IncidentRow,
    request: &RecordIncident,
) -> Result<(String, Option<Place>, i64), AppError> {
    let wanted = match request.place.trim() {
        "" => Place::Shelf,
        text => text
            .parse::<Place>()
            .ok()
            .filter(|place| place.holds_containers())
            .ok_or_else(|| {
                AppError::input(
                    "place",
                    format!("Jars do not stand in «{text}»."),
                    "Choose shelf, cold-room or fridge.",
                )
            })?,
    };
    let here: Vec<(&str, i64)> = facts
        .standing(batch.id)
        .filter(|(_, place, _)| *place == wanted)
        .map(|(size, _, count)| (size, count))
        .collect();
    let size = match request.size.trim() {
        "" if here.len() == 1 => here[0].0.to_owned(),
        "" => batch.container.clone(),
        text => text.to_owned(),
    };
    let standing = here
        .iter()
        .find(|(name, _)| *name == size)
        .map_or(0, |(_, count)| *count);
    let aside = batch
        .set_aside()
        .get(&(size.clone(), wanted))
        .copied()
        .unwrap_or(0);
    let free = (standing - aside).max(0);
    let said = match request.count.trim() {
        "" => None,
        text => Some(count("count", text)?),
    };
    let finished = batch.has("outcome");
    if !finished {
        // While the load runs its jars are in no place yet: how many there are is not known.
        if row.hold == IncidentHold::Jars && row.kind != "jar-broken" {
            return Err(AppError::input(
                "batch",
                format!("The outcome of batch {} is not entered yet.", batch.id),
                "Enter what came out first; then say which jars went wrong.",
            ));
        }
        return Ok((size, None, said.unwrap_or(0)));
    }
    if said.is_some_and(|said| said > free || said == 0) {
        return Err(AppError::input(
            "count",
            format!(
                "{} {} of batch {} stand there and are not set aside already.",
                free,
                crate::read::house::container_words(&size, free),
                batch.id
            ),
            "Count them again; see Stores for what stands where.",
        ));
    }
    if row.hold == IncidentHold::Jars && free == 0 {
        return Err(AppError::input(
            "count",
            format!("No jar of batch {} stands there.", batch.id),
            "See Stores for what stands where.",
        ));
    }
    let all = match row.hold {
        // One jar at a time where it concerns single jars and nobody says how many.
        IncidentHold::Jars => 1,
        IncidentHold::None | IncidentHold::Batch => free,
    };
    Ok((size, Some(wanted), said.unwrap_or(all)))
}

/// "yes", "no", or nothing said.
pub(crate) fn yes_no(field: &str, text: &str) -> Result<Answer, AppError> {
    match text.trim() {
        "yes" => Ok(Answer::Yes),
        "no" => Ok(Answer::No),
        "" | "unknown" => Ok(Answer::Unknown),
        other => Err(AppError::input(
            field,
            format!("«{other}» is no answer."),
            "Say yes, no or unknown.",
        )),
    }
}
