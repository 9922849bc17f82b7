//! Something went wrong: the published answer, the clock, the jars concerned, whom to ask.
//!
//! Zero of every clock is the minute the jars were lifted; unknown counts as over, and the last
//! minute belongs to the time that is over. The kinds, the ways out and every number are rows of
//! `data/process`; only the order of the questions stands here.

mod answer;
mod question;

pub use answer::{DisposalCard, IncidentAnswer, IncidentError, Way};
pub use question::IncidentQuestion;

use crate::numbers::{Sourced, house_rule, practice};
use crate::permit::Statement;
use crate::question::Answer;
use crate::refusal::Refusal;
use crate::route::FoodKind;
use jiff::SignedDuration;
use reference::{
    DisposalCase, IncidentClock, IncidentHold, IncidentPhase, IncidentRow, IncidentWay, Reference,
};

/// Source key of what we decided ourselves.
const OURS: &str = "our-decision";

/// The published answer to an incident.
///
/// # Errors
/// A kind that is not in the table, or a number of the answer that is not in the tables.
pub fn judge_incident(
    reference: &Reference,
    question: &IncidentQuestion,
) -> Result<IncidentAnswer, IncidentError> {
    let row = reference
        .incident(&question.kind)
        .ok_or_else(|| IncidentError::UnknownKind {
            kind: question.kind.clone(),
            near: reference
                .suggest_incident(&question.kind)
                .into_iter()
                .map(|row| row.kind.clone())
                .collect(),
        })?;
    let clock = clock(row, question);
    let limit = limit_minutes(reference, clock).map_err(IncidentError::NoNumber)?;
    let left = limit.and_then(|limit| minutes_left(limit, question.minutes_since_lifted));
    let phase = phase(clock, left, question.sealed);
    let mut ways = Vec::new();
    let mut looser = Vec::new();
    for line in reference.ways_out(clock, phase) {
        let text = filled(reference, &line.text, &line.number).map_err(IncidentError::NoNumber)?;
        if line.way == IncidentWay::Looser {
            looser.push(Statement {
                key: line.way.to_string(),
                text,
                source: line.source.clone(),
            });
        } else {
            ways.push(Way {
                way: line.way,
                text,
                source: line.source.clone(),
            });
        }
    }
    // No way to choose is no way to eat it.
    let disposal_only = ways.iter().all(|line| line.way == IncidentWay::Discard);
    Ok(IncidentAnswer {
        kind: row.kind.clone(),
        title: row.title.clone(),
        answer: row.answer.clone(),
        source: row.source.clone(),
        clock,
        phase,
        limit_minutes: limit,
        minutes_left: left,
        ways,
        looser,
        affects: row.affects,
        hold: hold(row, clock, phase),
        disposal_only,
        ask: row.ask.clone(),
        notes: notes(reference, row, clock, question),
    })
}

/// The clock that runs: the kind's own, unless the load is out of the canner or its process was
/// wrong or is unknown.
fn clock(row: &IncidentRow, question: &IncidentQuestion) -> IncidentClock {
    if row.clock == IncidentClock::Restart && !question.in_canner {
        return IncidentClock::WrongProcess;
    }
    match (row.right_process, question.process_was_right) {
        (true, Answer::No) => IncidentClock::WrongProcess,
        (true, Answer::Unknown) => IncidentClock::Discard,
        (true, Answer::Yes) | (false, _) => row.clock,
    }
}

/// How long the clock runs, in minutes; begun hours of a table are cut off.
fn limit_minutes(reference: &Reference, clock: IncidentClock) -> Result<Option<i64>, Refusal> {
    let key = match clock {
        IncidentClock::WrongProcess => "wrong-process-hours",
        IncidentClock::FailedSeal | IncidentClock::LiquidLost => "reprocess-within-hours",
        IncidentClock::Restart
        | IncidentClock::Keep
        | IncidentClock::Broken
        | IncidentClock::Frozen
        | IncidentClock::Discard => return Ok(None),
    };
    let hours = practice(reference, key)?;
    // A figure beyond what can be counted leaves no time at all.
    let whole = i64::try_from(quantity::floor(hours.value)).unwrap_or(0);
    let limit = SignedDuration::try_from_hours(whole).map_or(0, |limit| limit.as_mins());
    Ok(Some(limit))
}

/// The minutes that are left. At the limit itself none are; a lifting that lies ahead, or that
/// nobody knows, leaves none.
fn minutes_left(limit: i64, since_lifted: Option<i64>) -> Option<i64> {
    since_lifted
        .filter(|minutes| (0..limit).contains(minutes))
        .map(|minutes| limit - minutes)
}

fn phase(clock: IncidentClock, left: Option<i64>, sealed: Answer) -> IncidentPhase {
    match clock {
        IncidentClock::Restart => IncidentPhase::InCanner,
        IncidentClock::WrongProcess | IncidentClock::FailedSeal | IncidentClock::LiquidLost => {
            match left {
                Some(_) => IncidentPhase::Open,
                None => IncidentPhase::Over,
            }
        }
        IncidentClock::Frozen => match sealed {
            Answer::Yes => IncidentPhase::Sealed,
            Answer::No => IncidentPhase::Unsealed,
            Answer::Unknown => IncidentPhase::Unsure,
        },
        IncidentClock::Keep | IncidentClock::Broken | IncidentClock::Discard => {
            IncidentPhase::Always
        }
    }
}

/// What goes on hold: nothing while the heat can be brought back or where the jars are found
/// sound, the whole batch where its process was wrong or is unknown.
fn hold(row: &IncidentRow, clock: IncidentClock, phase: IncidentPhase) -> IncidentHold {
    match phase {
        IncidentPhase::InCanner | IncidentPhase::Sealed => IncidentHold::None,
        _ if clock != row.clock => IncidentHold::Batch,
        _ => row.hold,
    }
}

fn notes(
    reference: &Reference,
    row: &IncidentRow,
    clock: IncidentClock,
    question: &IncidentQuestion,
) -> Vec<Statement> {
    let mut notes = Vec::new();
    if row.right_process && clock != row.clock {
        let text = match clock {
            IncidentClock::Discard => {
                "Nobody says that its process was right, and what is unknown counts as wrong."
            }
            _ => {
                "Its process was wrong besides: the short clock of a wrong process rules, and the refrigerator is closed."
            }
        };
        notes.push(note(reference, "process-in-doubt", text, OURS));
    }
    if limited(clock) {
        notes.push(match question.food {
            FoodKind::Acid => note(
                reference,
                "acid-gets-no-longer",
                "That the food is acid gives it no more time.",
                OURS,
            ),
            FoodKind::LowAcid | FoodKind::Mixed | FoodKind::Unknown => note(
                reference,
                "seal-proves-nothing",
                "A lid that is down proves nothing: the poison of botulism is neither seen, smelled nor tasted.",
                "cdc-2019",
            ),
        });
        if question.minutes_since_lifted.is_none() {
            let text = "Nobody knows when the jars were lifted, so the time counts as over.";
            notes.push(note(reference, "lifting-unknown", text, OURS));
        }
    }
    notes
}

fn note(reference: &Reference, key: &str, text: &str, source: &str) -> Statement {
    Statement {
        key: key.to_owned(),
        text: text.to_owned(),
        source: reference.source_text(source).unwrap_or(source.to_owned()),
    }
}

fn limited(clock: IncidentClock) -> bool {
    matches!(
        clock,
        IncidentClock::WrongProcess | IncidentClock::FailedSeal | IncidentClock::LiquidLost
    )
}

/// A text with its number in place of `{n}`.
fn filled(reference: &Reference, text: &str, number: &str) -> Result<String, Refusal> {
    if number.is_empty() {
        return Ok(text.to_owned());
    }
    let found: Sourced = practice(reference, number).or_else(|_| house_rule(reference, number))?;
    Ok(text.replace("{n}", &found.shown()))
}

/// The card by which a jar is discarded: the one protocol, with its sources.
///
/// # Errors
/// A number of the card that is not in the tables.
pub fn disposal_card(reference: &Reference) -> Result<DisposalCard, Refusal> {
    let filled = reference
        .disposal_steps()
        .iter()
        .map(|row| {
            Ok((
                row.case,
                Statement {
                    key: row.step.clone(),
                    text: filled(reference, &row.text, &row.number)?,
                    source: row.source.clone(),
                },
            ))
        })
        .collect::<Result<Vec<_>, Refusal>>()?;
    let steps = |case: DisposalCase| {
        filled
            .iter()
            .filter(|(of, _)| *of == case)
            .map(|(_, step)| step.clone())
            .collect()
    };
    Ok(DisposalCard {
        all: steps(DisposalCase::All),
        sealed: steps(DisposalCase::Sealed),
        open: steps(DisposalCase::Open),
        after: steps(DisposalCase::After),
    })
}
