//! Batches: tried, set up, started, finished, checked.

use super::{Context, pair};
use crate::arguments::{BatchCommand, NewBatchArguments};
use crate::output;
use app::App;
use app::error::AppError;
use app::request::{AnswerLate, CheckSeals, FinishBatch, NewBatch, StartBatch};
use std::collections::BTreeMap;
use std::process::ExitCode;

/// Asks whether batches may share a canner run; a refusal ends with 3.
pub fn load(context: &Context, batches: &[i64]) -> Result<ExitCode, AppError> {
    let view = context.open()?.load_together(&context.now, batches)?;
    output::show(&view, context.json, output::load)?;
    let refused = |verdict: &app::view::batch::VerdictView| verdict.kind == "refusal";
    Ok(if view.verdict.as_ref().is_some_and(refused) {
        ExitCode::from(3)
    } else {
        ExitCode::SUCCESS
    })
}

/// Runs a batch command.
pub fn run(context: &Context, command: &BatchCommand) -> Result<ExitCode, AppError> {
    let app = match command {
        BatchCommand::Scale(new) => return scale(context, new),
        _ => context.open()?,
    };
    match command {
        BatchCommand::List => {
            output::show(&app.batches(&context.now)?, context.json, output::batches)?;
            Ok(ExitCode::SUCCESS)
        }
        BatchCommand::Recipes => {
            let list = app.batches(&context.now)?.recipes;
            output::show(&list, context.json, |list| output::recipes(list))?;
            Ok(ExitCode::SUCCESS)
        }
        BatchCommand::Show { batch } => {
            output::show(
                &app.batch(&context.now, *batch)?,
                context.json,
                output::batch,
            )?;
            Ok(ExitCode::SUCCESS)
        }
        BatchCommand::Scale(new) => scale(context, new),
        BatchCommand::Factor { recipe } => {
            output::show(&app.factor(recipe)?, context.json, output::factor)?;
            Ok(ExitCode::SUCCESS)
        }
        BatchCommand::New(new) => context.done(&app.new_batch(&context.now, &request(new)?)?),
        BatchCommand::Start { batch, tick } => context.done(&app.start_batch(
            &context.now,
            &StartBatch {
                batch: *batch,
                ticks: tick.clone(),
                token: String::new(),
            },
        )?),
        BatchCommand::Finish(finish) => {
            // What was ticked at the start stays ticked, as it does on the page.
            let mut ticks: Vec<String> = app
                .batch(&context.now, finish.batch)?
                .ticks
                .into_iter()
                .filter(|tick| !tick.done.is_empty())
                .map(|tick| tick.key)
                .collect();
            ticks.extend(finish.tick.iter().cloned());
            context.done(&app.finish_batch(
                &context.now,
                &FinishBatch {
                    batch: finish.batch,
                    containers: pairs("out", &finish.containers)?,
                    partial: finish.partial.clone(),
                    trimmings: finish.trimmings.clone(),
                    trimmings_to: finish.trimmings_to.clone(),
                    cooked_off: finish.cooked_off.clone(),
                    ticks,
                    minutes: finish.minutes.clone(),
                    lifted: finish.lifted.clone(),
                    note: finish.note.clone(),
                    token: String::new(),
                },
            )?)
        }
        BatchCommand::Seals {
            batch,
            failed,
            to,
            lifted,
        } => context.done(&app.check_seals(
            &context.now,
            &CheckSeals {
                batch: *batch,
                failed: pairs("failed", failed)?,
                to: to.clone(),
                lifted: lifted.clone(),
                token: String::new(),
            },
        )?),
        BatchCommand::Enter(enter) => super::paper::enter(context, enter),
        BatchCommand::Late {
            batch,
            tick,
            done,
            by,
            at,
        } => context.done(&app.answer_late(
            &context.now,
            &AnswerLate {
                batch: *batch,
                tick: tick.clone(),
                done: done.clone(),
                who: by.clone(),
                when: at.clone(),
                token: String::new(),
            },
        )?),
    }
}

/// Amounts need no household and leave none behind; the permit needs the house.
fn scale(context: &Context, new: &NewBatchArguments) -> Result<ExitCode, AppError> {
    let house = match context.folder() {
        Ok(folder) => App::open_existing(&folder)?,
        Err(_) => None,
    };
    let alone = house.is_none();
    let app = match house {
        Some(app) => app,
        None => App::without_household()?,
    };
    let view = app.try_batch(&context.now, &request(new)?)?;
    output::show(&view, context.json, output::batch)?;
    Ok(if view.verdict.kind == "refusal" && !alone {
        ExitCode::from(3)
    } else {
        ExitCode::SUCCESS
    })
}

fn request(new: &NewBatchArguments) -> Result<NewBatch, AppError> {
    Ok(NewBatch {
        recipe: new.recipe.clone(),
        jar: new.jar.clone(),
        batches: new.batches.clone(),
        produce: new.produce.clone(),
        jars_count: new.jars_count.clone(),
        have: new.have.clone(),
        pot: new.pot.clone(),
        lots: new.lot.clone(),
        canner: new.canner.clone(),
        acid: new.acid.clone(),
        answers: pairs("answer", &new.answer)?,
        day: new.day.clone(),
        token: String::new(),
    })
}

fn pairs(field: &str, texts: &[String]) -> Result<BTreeMap<String, String>, AppError> {
    texts.iter().map(|text| pair(field, text)).collect()
}
