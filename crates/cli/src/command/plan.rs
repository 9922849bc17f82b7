//! The harvest plan and the kitchen day.

use super::Context;
use crate::arguments::{DayArguments, PlanArguments};
use crate::output;
use app::error::AppError;
use app::request::MakePlan;
use std::process::ExitCode;

/// Shows, makes or accepts a harvest plan.
pub fn plan(context: &Context, arguments: &PlanArguments) -> Result<ExitCode, AppError> {
    let app = context.open()?;
    if arguments.days == 0 {
        return Err(AppError::input(
            "days",
            "A plan looks at least one day ahead, not 0.",
            "Most households look a week ahead.",
        ));
    }
    let view = if arguments.make || arguments.accept {
        let made = app.make_plan(
            &context.now,
            &MakePlan {
                days: arguments.days,
                seed: arguments.seed,
                iterations: arguments.iterations,
                milliseconds: arguments.milliseconds,
            },
        )?;
        if arguments.accept {
            app.accept_plan(&context.now, "")?;
            app.plan(&context.now)?
        } else {
            made
        }
    } else {
        app.plan(&context.now)?
    };
    output::show(&view, context.json, output::plan)?;
    Ok(ExitCode::SUCCESS)
}

/// Shows or makes a kitchen day.
pub fn day(context: &Context, arguments: &DayArguments) -> Result<ExitCode, AppError> {
    let app = context.open()?;
    let view = if arguments.make {
        app.make_day(
            &context.now,
            arguments.on.as_deref(),
            arguments.seed,
            arguments.milliseconds,
        )?
    } else {
        app.day(&context.now, arguments.on.as_deref())?
    };
    output::show(&view, context.json, output::day)?;
    Ok(if view.state == "clash" {
        ExitCode::from(3)
    } else {
        ExitCode::SUCCESS
    })
}
