//! Recipes: changes held against the published rules, and the household's own as text or card.

use super::Context;
use crate::arguments::{RecipeCommand, RecipeFileArguments};
use crate::output;
use app::change::{AskChange, ask_change};
use app::error::{AppError, ErrorKind};
use app::request::{KeepRecipe, ReadRecipe};
use std::collections::BTreeMap;
use std::path::Path;
use std::process::ExitCode;

/// Runs a recipe command.
pub fn run(context: &Context, command: &RecipeCommand) -> Result<ExitCode, AppError> {
    match command {
        RecipeCommand::Check { file } => check(context, file),
        RecipeCommand::Read(arguments) => {
            let view = app::read_recipe(&ReadRecipe {
                text: text_of(&arguments.file)?,
                answers: answers(arguments)?,
            })?;
            output::show(&view, context.json, output::recipe)?;
            Ok(ExitCode::SUCCESS)
        }
        RecipeCommand::Keep(arguments) => keep(context, arguments),
        RecipeCommand::List => {
            let view = context.open()?.household_recipes(&context.now)?;
            output::show(&view, context.json, output::household_recipes)?;
            Ok(ExitCode::SUCCESS)
        }
        RecipeCommand::Show { key } => {
            let view = context.open()?.household_recipe(&context.now, key)?;
            output::show(&view, context.json, output::recipe)?;
            Ok(ExitCode::SUCCESS)
        }
        RecipeCommand::Export { key, form } => {
            let text = context.open()?.export_recipe(key, form)?;
            output::print(&text)?;
            Ok(ExitCode::SUCCESS)
        }
    }
}

/// Answers a file of changes; a refusal ends with 3.
fn check(context: &Context, file: &Path) -> Result<ExitCode, AppError> {
    let view = ask_change(&AskChange::from_json(&text_of(file)?)?)?;
    output::show(&view, context.json, output::change)?;
    Ok(if view.cold.is_some() {
        ExitCode::from(3)
    } else {
        ExitCode::SUCCESS
    })
}

/// Keeps a recipe; the same one once more is no fault.
fn keep(context: &Context, arguments: &RecipeFileArguments) -> Result<ExitCode, AppError> {
    let request = KeepRecipe {
        text: text_of(&arguments.file)?,
        answers: answers(arguments)?,
        token: String::new(),
    };
    match context.open()?.keep_recipe(&context.now, &request) {
        Err(mut error) if error.kind == ErrorKind::Input => {
            // The page names a field; here the same thing is an option.
            if error.field.starts_with("answers.") {
                error.action = error.action.replace("Answer ", "Add --answer ");
            }
            Err(error)
        }
        Err(error) => Err(error),
        Ok(done) => context.done(&done),
    }
}

fn answers(arguments: &RecipeFileArguments) -> Result<BTreeMap<String, String>, AppError> {
    arguments
        .answer
        .iter()
        .map(|text| super::pair("answer", text))
        .collect()
}

/// A file's text, or that of standard input.
fn text_of(file: &Path) -> Result<String, AppError> {
    let read = if file == Path::new("-") {
        std::io::read_to_string(std::io::stdin())
    } else {
        std::fs::read_to_string(file)
    };
    read.map_err(|error| {
        AppError::input(
            "file",
            format!("«{}» cannot be read: {error}.", file.display()),
            "Name a file that is there, or «-» for standard input.",
        )
    })
}
