//! The tested process: one look-up, the proof print of all rows, or a file of questions.

use super::{Context, pair};
use crate::arguments::ProcessArguments;
use crate::output;
use app::App;
use app::error::AppError;
use app::questions::{self, Answered};
use app::request::AskProcess;
use std::collections::BTreeMap;
use std::path::Path;
use std::process::ExitCode;

/// Answers printed at a time when a file of questions is answered.
const AT_A_TIME: usize = 1000;

/// Runs the command in the form that was asked for.
pub fn run(context: &Context, arguments: &ProcessArguments) -> Result<ExitCode, AppError> {
    if arguments.all {
        return all(context);
    }
    if let Some(file) = &arguments.questions {
        return answer_file(context, file);
    }
    let mut answers = BTreeMap::new();
    for text in &arguments.answer {
        let (question, answer) = pair("answer", text)?;
        answers.insert(question, answer);
    }
    let request = AskProcess {
        food: arguments.food.clone(),
        pack: arguments.pack.clone(),
        jar: arguments.jar.clone(),
        method: arguments.method.clone(),
        canner: arguments.canner.clone(),
        elevation: arguments.elevation.clone(),
        acid: arguments.acid.clone(),
        vinegar: arguments.vinegar.clone(),
        sound: if arguments.sound_history { "yes" } else { "" }.to_owned(),
        answers,
    };
    // A look-up needs no household and leaves none behind.
    let house = match context.folder() {
        Ok(folder) => App::open_existing(&folder)?,
        Err(_) => None,
    };
    let view = match house {
        Some(app) => app.process(&context.now, &request)?,
        None => app::ask_process(&request)?,
    };
    output::show(&view, context.json, output::process)?;
    let refused = view
        .answer
        .as_ref()
        .is_some_and(|answer| answer.kind == "refusal");
    Ok(if refused {
        ExitCode::from(3)
    } else {
        ExitCode::SUCCESS
    })
}

/// Every printed row, as rows or as the guide lays them out.
fn all(context: &Context) -> Result<ExitCode, AppError> {
    if context.json {
        output::show(&app::printed_rows(), true, |_| String::new())?;
    } else {
        output::show(&app::printed_series(), false, |series| {
            output::printed(series)
        })?;
    }
    Ok(ExitCode::SUCCESS)
}

/// Answers every line of a file; a line that is no question gets an error line, and the exit code
/// says that there was one.
fn answer_file(context: &Context, file: &Path) -> Result<ExitCode, AppError> {
    let text = if file == Path::new("-") {
        std::io::read_to_string(std::io::stdin())
    } else {
        std::fs::read_to_string(file)
    }
    .map_err(|error| {
        AppError::input(
            "questions",
            format!("{} cannot be read: {error}.", file.display()),
            "Name a file with one JSON object a line, or «-» for standard input.",
        )
    })?;
    let today = context.now.date.to_string();
    let mut lines = text
        .lines()
        .enumerate()
        .filter(|(_, line)| !line.trim().is_empty())
        .peekable();
    let mut wrong = 0_usize;
    while lines.peek().is_some() {
        let mut out = String::new();
        for (index, line) in lines.by_ref().take(AT_A_TIME) {
            let answered: Answered = questions::answer(index + 1, line, &today);
            wrong += usize::from(answered.is_error());
            out.push_str(&output::json_line(&answered)?);
        }
        output::print(&out)?;
    }
    if wrong > 0 {
        let lines = if wrong == 1 {
            "1 line is no question".to_owned()
        } else {
            format!("{wrong} lines are no questions")
        };
        eprintln!("stillroom: {lines}; each says why in its place.");
        return Ok(ExitCode::from(2));
    }
    Ok(ExitCode::SUCCESS)
}
