//! Counter, pickings, lots and sort-outs.

use super::{Context, pair};
use crate::arguments::{LotArguments, PickArguments, SortArguments};
use crate::output;
use app::error::AppError;
use app::request::{RecordPicking, SortOut, StateLot};
use std::collections::BTreeMap;
use std::process::ExitCode;

/// Shows the counter.
pub fn show(context: &Context) -> Result<ExitCode, AppError> {
    let view = context.open()?.counter(&context.now)?;
    output::show(&view, context.json, output::counter)?;
    Ok(ExitCode::SUCCESS)
}

/// Weighs a picking in.
pub fn pick(context: &Context, arguments: &PickArguments) -> Result<ExitCode, AppError> {
    let mut history = BTreeMap::new();
    if arguments.sound_history {
        for key in app::history_questions() {
            history.insert(key, "no".to_owned());
        }
    }
    for text in &arguments.history {
        let (key, answer) = pair("history", text)?;
        history.insert(key, answer);
    }
    let done = context.open()?.record_picking(
        &context.now,
        &RecordPicking {
            crop: arguments.crop.clone(),
            variety: arguments.variety.clone(),
            grade: arguments.grade.clone(),
            amount: arguments.amount.clone(),
            crate_name: arguments.crate_name.clone(),
            share: arguments.share.clone(),
            place: arguments.place.clone(),
            temperature: arguments.temperature.clone(),
            picked_on: arguments.picked_on.clone(),
            history,
            note: arguments.note.clone(),
            token: String::new(),
        },
    )?;
    context.done(&done)
}

/// States something of a lot.
pub fn lot(context: &Context, arguments: &LotArguments) -> Result<ExitCode, AppError> {
    let (question, answer) = match &arguments.history {
        Some(text) => pair("history", text)?,
        None => (String::new(), String::new()),
    };
    let done = context.open()?.state_lot(
        &context.now,
        &StateLot {
            lot: arguments.lot,
            question,
            answer,
            grade: arguments.grade.clone(),
            place: arguments.place.clone(),
            temperature: arguments.temperature.clone(),
            token: String::new(),
        },
    )?;
    context.done(&done)
}

/// Takes part of a lot away.
pub fn sort(context: &Context, arguments: &SortArguments) -> Result<ExitCode, AppError> {
    let done = context.open()?.sort_out(
        &context.now,
        &SortOut {
            lot: arguments.lot,
            amount: arguments.amount.clone(),
            to: arguments.to.clone(),
            animal: arguments.animal.clone(),
            part: arguments.part.clone(),
            token: String::new(),
        },
    )?;
    context.done(&done)
}
