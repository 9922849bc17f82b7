//! The house: shown or set.

use super::{Context, pair};
use crate::arguments::HouseArguments;
use crate::output;
use app::error::AppError;
use app::house::House;
use std::process::ExitCode;

/// Shows the house, or sets it from a file, from single facts, or both in that order.
pub fn run(context: &Context, arguments: &HouseArguments) -> Result<ExitCode, AppError> {
    let app = context.open()?;
    if arguments.file.is_none() && arguments.set.is_empty() {
        output::show(&app.house(&context.now)?, context.json, |view| {
            let house = serde_json::to_string_pretty(&view.house).unwrap_or_default();
            let missing: String = view
                .missing
                .iter()
                .chain(&view.reminders)
                .map(|line| format!("! {line}\n"))
                .collect();
            let facts: String = view.facts.iter().map(|line| format!("{line}\n")).collect();
            let gauges: String = view
                .gauges
                .iter()
                .flat_map(|gauge| {
                    let head = format!("Gauge of «{}» ({})\n", gauge.canner, gauge.state);
                    let tests = gauge.tests.iter().map(|test| format!("  {test}\n"));
                    std::iter::once(head).chain(tests)
                })
                .collect();
            format!(
                "{}\n{missing}{}\n{facts}{gauges}{house}\n",
                view.answer, view.band
            )
        })?;
        return Ok(ExitCode::SUCCESS);
    }
    let mut house: House = match &arguments.file {
        None => app.house(&context.now)?.house,
        Some(file) => {
            let text = std::fs::read_to_string(file).map_err(|error| {
                AppError::input(
                    "file",
                    format!("{} cannot be read: {error}.", file.display()),
                    "Name a file that `stillroom house --json` could have written.",
                )
            })?;
            serde_json::from_str(&text).map_err(|error| {
                AppError::input(
                    "file",
                    format!("{} is not a house: {error}.", file.display()),
                    "Compare it with what `stillroom house --json` prints under \"house\".",
                )
            })?
        }
    };
    let fields = arguments
        .set
        .iter()
        .map(|text| pair("house", text))
        .collect::<Result<Vec<_>, _>>()?;
    app::house_fields::apply(&mut house, &fields)?;
    context.done(&app.set_house(&context.now, house, "")?)
}
