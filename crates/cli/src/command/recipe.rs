//! Recipes: changes held against the published rules.

use super::Context;
use crate::arguments::RecipeCommand;
use crate::output;
use app::change::{AskChange, ask_change};
use app::error::AppError;
use std::path::Path;
use std::process::ExitCode;

/// Runs a recipe command.
pub fn run(context: &Context, command: &RecipeCommand) -> Result<ExitCode, AppError> {
    match command {
        RecipeCommand::Check { file } => check(context, file),
    }
}

/// Answers a file of changes; a refusal ends with 3.
fn check(context: &Context, file: &Path) -> Result<ExitCode, AppError> {
    let read = if file == Path::new("-") {
        std::io::read_to_string(std::io::stdin())
    } else {
        std::fs::read_to_string(file)
    };
    let text = read.map_err(|error| {
        AppError::input(
            "file",
            format!("«{}» cannot be read: {error}.", file.display()),
            "Name a file that is there, or «-» for standard input.",
        )
    })?;
    let view = ask_change(&AskChange::from_json(&text)?)?;
    output::show(&view, context.json, output::change)?;
    Ok(if view.cold.is_some() {
        ExitCode::from(3)
    } else {
        ExitCode::SUCCESS
    })
}
