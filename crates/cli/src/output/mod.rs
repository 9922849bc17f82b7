//! What is printed: one text per view, or the view itself as JSON.

mod batch;
mod change;
mod counter;
mod day;
mod enter;
mod incident;
mod plan;
mod process;
mod recipe;
mod stores;

pub use batch::{batch, batches, factor, load, recipes};
pub use change::change;
pub use counter::counter;
pub use day::day;
pub use enter::{blank_words, card_to_enter};
pub use incident::{disposal, incident, incident_kinds};
pub use plan::plan;
pub use process::{printed, process};
pub use recipe::{household_recipes, recipe};
pub use stores::{balance, stores};

use app::error::{AppError, ErrorKind};
use serde::Serialize;
use std::process::ExitCode;

/// Prints a view as text, or as JSON when asked.
///
/// # Errors
/// Standard output that cannot be written is an [`AppError`]; a closed pipe is not.
pub fn show<V: Serialize>(
    view: &V,
    json: bool,
    text: impl FnOnce(&V) -> String,
) -> Result<(), AppError> {
    let out = if json {
        let mut out = serde_json::to_string_pretty(view).map_err(|error| {
            AppError::failed(
                format!("The answer cannot be written as JSON: {error}."),
                "",
            )
        })?;
        out.push('\n');
        out
    } else {
        text(view)
    };
    print(&out)
}

/// One line of JSON.
///
/// # Errors
/// A value that JSON cannot hold.
pub fn json_line<V: Serialize>(value: &V) -> Result<String, AppError> {
    let mut line = serde_json::to_string(value).map_err(|error| {
        AppError::failed(
            format!("The answer cannot be written as JSON: {error}."),
            "",
        )
    })?;
    line.push('\n');
    Ok(line)
}

/// Writes text to standard output; a reader that went away is no error.
///
/// # Errors
/// Any other failure of writing.
pub fn print(text: &str) -> Result<(), AppError> {
    use std::io::Write;
    match std::io::stdout().lock().write_all(text.as_bytes()) {
        Ok(()) => Ok(()),
        Err(error) if error.kind() == std::io::ErrorKind::BrokenPipe => Ok(()),
        Err(error) => Err(AppError::failed(
            format!("The answer cannot be printed: {error}."),
            "",
        )),
    }
}

/// Prints an error to standard error (or as JSON to standard output) and gives its exit code.
pub fn report(error: &AppError, json: bool) -> ExitCode {
    if json {
        let text = serde_json::to_string_pretty(error).unwrap_or_else(|_| error.to_string());
        // There is nobody left to tell when even this cannot be printed; the exit code still says it.
        let _ = print(&format!("{text}\n"));
    } else {
        let place = if error.field.is_empty() {
            String::new()
        } else {
            format!(" ({})", error.field)
        };
        eprintln!("stillroom: {}{place}", error.cause);
        if !error.action.is_empty() {
            eprintln!("  {}", error.action);
        }
    }
    ExitCode::from(match error.kind {
        ErrorKind::Already => 0,
        ErrorKind::Input | ErrorKind::Missing => 2,
        ErrorKind::Refused => 3,
        ErrorKind::Failed => 1,
    })
}

/// A heading with a rule under it.
fn heading(out: &mut String, text: &str) {
    out.push_str(text);
    out.push('\n');
    out.push_str(&"─".repeat(text.chars().count()));
    out.push('\n');
}

/// Pads text to a width counted in characters.
fn pad(text: &str, width: usize) -> String {
    let have = text.chars().count();
    format!("{text}{}", " ".repeat(width.saturating_sub(have)))
}
