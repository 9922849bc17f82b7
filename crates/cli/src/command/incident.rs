//! Incidents: the kinds, the answer with or without a batch, what was done, the disposal card.

use super::Context;
use crate::arguments::{IncidentArguments, SettleArguments};
use crate::output;
use app::error::AppError;
use app::request::{AskIncident, RecordIncident, SettleIncident};
use std::process::ExitCode;

/// Lists the kinds, states an incident on a batch, or only answers.
pub fn incident(context: &Context, arguments: &IncidentArguments) -> Result<ExitCode, AppError> {
    if arguments.kind == "list" {
        output::show(&app::incident_kinds(), context.json, output::incident_kinds)?;
        return Ok(ExitCode::SUCCESS);
    }
    let view = match (arguments.batch, arguments.entry) {
        (None, _) => app::ask_incident(
            &context.now,
            &AskIncident {
                kind: arguments.kind.clone(),
                noticed: arguments.noticed.clone(),
                lifted: arguments.lifted.clone(),
                in_canner: arguments.in_canner,
                process: arguments.process.clone(),
                sealed: arguments.sealed.clone(),
            },
        )?,
        (Some(batch), Some(entry)) => context.open()?.incident(&context.now, batch, entry)?,
        (Some(batch), None) => {
            let app = context.open()?;
            let done = app.record_incident(
                &context.now,
                &RecordIncident {
                    batch,
                    kind: arguments.kind.clone(),
                    noticed: arguments.noticed.clone(),
                    lifted: arguments.lifted.clone(),
                    in_canner: arguments.in_canner,
                    sealed: arguments.sealed.clone(),
                    size: arguments.size.clone(),
                    place: arguments.place.clone(),
                    count: arguments.count.clone(),
                    note: arguments.note.clone(),
                    token: String::new(),
                },
            )?;
            app.incident(&context.now, batch, done.entry)?
        }
    };
    output::show(&view, context.json, output::incident)?;
    Ok(ExitCode::SUCCESS)
}

/// Writes down what was done.
pub fn settle(context: &Context, arguments: &SettleArguments) -> Result<ExitCode, AppError> {
    let done = context.open()?.settle_incident(
        &context.now,
        &SettleIncident {
            batch: arguments.batch,
            incident: arguments.incident.unwrap_or(0),
            way: arguments.way.clone(),
            count: arguments.count.clone(),
            minutes: arguments.minutes.clone(),
            lifted: arguments.lifted.clone(),
            ticks: arguments.tick.clone(),
            token: String::new(),
        },
    )?;
    context.done(&done)
}

/// Prints the disposal card.
pub fn disposal(context: &Context) -> Result<ExitCode, AppError> {
    output::show(&app::disposal()?, context.json, output::disposal)?;
    Ok(ExitCode::SUCCESS)
}
