//! The day after: which lids are down. Those that are not lead to the answer of a failed seal,
//! with its clock (ruling 10).

use super::Done;
use super::incident::after_start;
use super::stores::count;
use crate::App;
use crate::error::AppError;
use crate::facts::{BatchFact, BatchState, Facts};
use crate::incident::{IncidentRecord, food_kind};
use crate::moment::{self, Moment};
use crate::read::house::container_words;
use crate::request::{CheckSeals, Now};
use ledger::{ContainerMovement, Draw, Movement, Place};
use reference::{IncidentHold, IncidentWay};
use safety::{Answer, IncidentAnswer};
use store::BatchEventKind;

/// Kind of the incident that a lid which is up leads to.
const FAILED_SEAL: &str = "failed-seal";

/// What a seal check comes to, before it is written.
pub(super) struct Checked {
    moved: Vec<ContainerMovement>,
    movements: Vec<Movement>,
    content: serde_json::Value,
    incidents: Vec<String>,
    words: String,
}

impl App {
    /// Enters which jars did not seal. Those wait, set aside, or go at once where the answer
    /// allows it: to the fridge or the freezer while the clock is open, to be discarded always.
    ///
    /// # Errors
    /// A batch that is not finished, more failed than stand, a way that the record or the clock
    /// closes.
    pub fn check_seals(&self, now: &Now, request: &CheckSeals) -> Result<Done, AppError> {
        let facts = self.facts()?;
        let checked = self.look_at_seals(&facts, now, request)?;
        self.write_seals(now, request, checked)
    }

    /// What a seal check would write, from these facts; writes nothing.
    ///
    /// # Errors
    /// Those of [`App::check_seals`].
    pub(super) fn look_at_seals(
        &self,
        facts: &Facts,
        now: &Now,
        request: &CheckSeals,
    ) -> Result<Checked, AppError> {
        let batch = facts.batch(request.batch)?;
        if !batch.has("outcome") {
            return Err(AppError::input(
                "batch",
                format!(
                    "Batch {} is {}: there are no jars to look at.",
                    batch.id,
                    batch.state.word()
                ),
                "Enter its outcome first.",
            ));
        }
        let mut failed = Vec::new();
        for (key, text) in &request.failed {
            if text.trim().is_empty() {
                continue;
            }
            let number = count(key, text)?;
            if number > 0 {
                failed.push((key.clone(), number));
            }
        }
        let way = way(&request.to)?;
        let stated = moment::read("lifted", &request.lifted, now)?;
        if let Some(stated) = stated {
            after_start(batch, stated)?;
        }
        if batch.state == BatchState::Held
            && !matches!(way, None | Some(IncidentWay::Discard))
            && !failed.is_empty()
        {
            return Err(AppError::refused(
                "This batch is on hold: a jar whose process is in doubt goes neither to the fridge nor to the freezer by this page.",
                "See the batch for the reason; discard it by the disposal card, or ask your extension service.",
            ));
        }
        let lifted = [batch.lifted(), stated].into_iter().flatten().min();
        let answer = self.seal_answer(batch, lifted, now)?;
        if let Some(way) = way
            && way != IncidentWay::Discard
            && !failed.is_empty()
            && !answer.offers(way)
        {
            let (cause, field) = match lifted {
                None => (
                    "Nobody has said when the jars were lifted: the time counts as over.",
                    "lifted",
                ),
                Some(_) => ("The time after lifting is over.", "to"),
            };
            let mut closed = AppError::refused(
                cause,
                "Say when they were lifted if anyone knows it; otherwise discard the jars by the disposal card.",
            );
            field.clone_into(&mut closed.field);
            return Err(closed);
        }
        let mut moved = Vec::new();
        let mut movements = Vec::new();
        let mut standing = facts.container_balances.clone();
        let mut masses = facts.balances.clone();
        for (size, number) in &failed {
            let draw = Draw {
                entry: 0,
                on: now.date,
                batch: batch.id,
                size: size.clone(),
                from: Place::Shelf,
                to: end_of(way),
                count: *number,
            };
            // Drawn also when they only wait: more than stand there cannot have failed.
            let drawn =
                ledger::draw_containers(&draw, &standing, &masses, &super::stores::rooms(facts))
                    .map_err(|error| {
                        AppError::input(
                            size,
                            error.to_string(),
                            "Count the jars on the shelf again.",
                        )
                    })?;
            ledger::apply_containers(&mut standing, &drawn.containers);
            for line in &drawn.movements {
                ledger::apply(&mut masses, line);
            }
            if way.is_some() {
                moved.push(drawn.containers);
                movements.extend(drawn.movements);
            }
        }
        let content = serde_json::json!({
            "failed": failed,
            "to": request.to.trim(),
            "lifted": stated,
        });
        Ok(Checked {
            moved,
            movements,
            // What went somewhere at once is told by the seal check itself.
            incidents: match way {
                None => statements(batch, &answer, &failed, lifted, now),
                Some(_) => Vec::new(),
            },
            content,
            words: said(batch, &failed, way, &answer, lifted, now),
        })
    }

    /// Writes a seal check down.
    pub(super) fn write_seals(
        &self,
        now: &Now,
        request: &CheckSeals,
        checked: Checked,
    ) -> Result<Done, AppError> {
        let batch = request.batch;
        let (entry, ()) = self.write(now, "seal-check", "", &request.token, |writer| {
            if !checked.moved.is_empty() {
                writer.add_container_movements(&checked.moved)?;
                writer.add_movements(&checked.movements)?;
            }
            let content = checked.content.to_string();
            writer.add_batch_event(batch, BatchEventKind::SealCheck, &content)?;
            for incident in &checked.incidents {
                writer.add_batch_event(batch, BatchEventKind::Note, incident)?;
            }
            Ok(())
        })?;
        Ok(Done {
            entry,
            id: Some(batch),
            words: checked.words,
        })
    }

    fn seal_answer(
        &self,
        batch: &BatchFact,
        lifted: Option<Moment>,
        now: &Now,
    ) -> Result<IncidentAnswer, AppError> {
        let record = record(batch, String::new(), 0, lifted, now);
        self.incident_answer(&record, lifted, food_kind(self.reference, batch), now)
    }
}

fn record(
    batch: &BatchFact,
    size: String,
    count: i64,
    lifted: Option<Moment>,
    now: &Now,
) -> IncidentRecord {
    IncidentRecord {
        kind: FAILED_SEAL.to_owned(),
        noticed: Moment::now(now),
        lifted,
        in_canner: false,
        sealed: Answer::No,
        process_was_right: match batch.state {
            BatchState::Held => Answer::No,
            _ => Answer::Yes,
        },
        size,
        place: Some(Place::Shelf),
        count,
        hold: IncidentHold::Jars,
        who: now.who.clone(),
        note: String::new(),
    }
}

/// The statements of the jars that wait.
fn statements(
    batch: &BatchFact,
    answer: &IncidentAnswer,
    failed: &[(String, i64)],
    lifted: Option<Moment>,
    now: &Now,
) -> Vec<String> {
    failed
        .iter()
        .map(|(size, count)| {
            serde_json::json!({
                "incident": record(batch, size.clone(), *count, lifted, now),
                "why": answer.title.to_lowercase(),
            })
            .to_string()
        })
        .collect()
}

fn way(text: &str) -> Result<Option<IncidentWay>, AppError> {
    match text.trim() {
        "" => Ok(None),
        "fridge" => Ok(Some(IncidentWay::Fridge)),
        "freezer" => Ok(Some(IncidentWay::Freeze)),
        "discarded" => Ok(Some(IncidentWay::Discard)),
        other => Err(AppError::input(
            "to",
            format!("A jar that did not seal does not go to «{other}»."),
            "Choose fridge, freezer or discarded, or leave it out: the jars then wait.",
        )),
    }
}

fn end_of(way: Option<IncidentWay>) -> Place {
    match way {
        Some(IncidentWay::Fridge) => Place::Fridge,
        Some(IncidentWay::Freeze) => Place::Freezer,
        _ => Place::Discarded,
    }
}

fn said(
    batch: &BatchFact,
    failed: &[(String, i64)],
    way: Option<IncidentWay>,
    answer: &IncidentAnswer,
    lifted: Option<Moment>,
    now: &Now,
) -> String {
    if failed.is_empty() {
        return format!(
            "Batch {}: every lid is down. A seal shows vacuum, not safety; the record shows the process.",
            batch.id
        );
    }
    let list: Vec<String> = failed
        .iter()
        .map(|(size, number)| format!("{number} {}", container_words(size, *number)))
        .collect();
    let now_words = match way {
        Some(IncidentWay::Fridge) => "now in the fridge".to_owned(),
        Some(IncidentWay::Freeze) => {
            "now in the freezer (leave 1 1/2 in of headspace, AIB 539 p. 1-26)".to_owned()
        }
        Some(_) => "now discarded".to_owned(),
        None => {
            let until = answer
                .minutes_left
                .zip(answer.limit_minutes)
                .zip(lifted)
                .map(|((_, limit), lifted)| {
                    format!(", before {}", lifted.plus(limit).words(now.date))
                })
                .unwrap_or_default();
            let what = crate::read::incident::headline(answer);
            format!("set aside. {}{until}", what.trim_end_matches('.'))
        }
    };
    format!(
        "Batch {}: {} did not seal, {now_words}.",
        batch.id,
        list.join(", ")
    )
}
