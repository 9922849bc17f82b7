//! Stores, takings and counts.

use super::Context;
use crate::arguments::{CountArguments, TakeArguments};
use crate::output;
use app::error::AppError;
use app::request::{CountShelf, TakeContainers};
use std::process::ExitCode;

/// Shows what stands where.
pub fn show(context: &Context) -> Result<ExitCode, AppError> {
    let view = context.open()?.stores(&context.now)?;
    output::show(&view, context.json, output::stores)?;
    Ok(ExitCode::SUCCESS)
}

/// Takes containers.
pub fn take(context: &Context, arguments: &TakeArguments) -> Result<ExitCode, AppError> {
    let done = context.open()?.take_containers(
        &context.now,
        &TakeContainers {
            batch: arguments.batch,
            size: arguments.size.clone(),
            place: arguments.place.clone(),
            count: arguments.count.clone(),
            to: arguments.to.clone(),
            token: String::new(),
        },
    )?;
    context.done(&done)
}

/// States what was found.
pub fn count(context: &Context, arguments: &CountArguments) -> Result<ExitCode, AppError> {
    let done = context.open()?.count_shelf(
        &context.now,
        &CountShelf {
            batch: arguments.batch,
            size: arguments.size.clone(),
            place: arguments.place.clone(),
            found: arguments.found.clone(),
            token: String::new(),
        },
    )?;
    context.done(&done)
}
