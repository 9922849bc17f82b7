//! Printing: the PDF goes into a file, the words of it to whoever asked. And cards that come back.

use super::{Context, pair};
use crate::arguments::{EnterArguments, PlaceArguments, PrintCommand, SheetArguments};
use crate::output;
use app::error::AppError;
use app::request::{EnterCard, PrintCard, PrintLabels};
use app::view::enter::{AskKind, EnterView};
use app::view::printed::Printed;
use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// Prints labels or a card.
pub fn print(context: &Context, command: &PrintCommand) -> Result<ExitCode, AppError> {
    let now = &context.now;
    let (printed, file) = match command {
        PrintCommand::Labels(sheet) => (
            context.open()?.print_labels(now, &labels(sheet))?,
            &sheet.place.output,
        ),
        PrintCommand::Gift(sheet) => (
            context.open()?.print_gift(now, &labels(sheet))?,
            &sheet.place.output,
        ),
        PrintCommand::Seed(sheet) => (
            context.open()?.print_seed(now, &labels(sheet))?,
            &sheet.place.output,
        ),
        PrintCommand::Card { batch, on } => {
            let request = PrintCard {
                batch: *batch,
                paper: on.paper.clone(),
            };
            (context.open()?.print_card(now, &request)?, &on.output)
        }
        PrintCommand::LoadCard { batches, on } => (
            context.open()?.print_load_card(now, batches, &on.paper)?,
            &on.output,
        ),
        PrintCommand::Disposal(on) => (app::print_disposal(&on.paper)?, &on.output),
        PrintCommand::Outline(place) => (app::print_outline(&on_sheet(place))?, &place.output),
    };
    write(context, &printed, file.as_deref())?;
    Ok(ExitCode::SUCCESS)
}

fn on_sheet(place: &PlaceArguments) -> PrintLabels {
    PrintLabels {
        sheet: place.sheet.clone(),
        from: place.from.clone(),
        offset_x: place.offset_x.clone(),
        offset_y: place.offset_y.clone(),
        ..PrintLabels::default()
    }
}

fn labels(sheet: &SheetArguments) -> PrintLabels {
    PrintLabels {
        batch: sheet.batch,
        count: sheet.count.clone(),
        outline: sheet.outline,
        ..on_sheet(&sheet.place)
    }
}

fn write(context: &Context, printed: &Printed, file: Option<&Path>) -> Result<(), AppError> {
    if file == Some(Path::new("-")) {
        return std::io::stdout()
            .lock()
            .write_all(&printed.bytes)
            .map_err(|error| {
                AppError::failed(format!("The file cannot be printed: {error}."), "")
            });
    }
    let file = file.map_or_else(|| PathBuf::from(&printed.name), Path::to_path_buf);
    std::fs::write(&file, &printed.bytes).map_err(|error| {
        AppError::input(
            "output",
            format!("{} cannot be written: {error}.", file.display()),
            "Name another file with `-o FILE`.",
        )
    })?;
    output::show(printed, context.json, |printed| {
        format!("{} It is in {}.\n", printed.words, file.display())
    })
}

/// Lists the blanks of a card, or enters what stands in them.
pub fn enter(context: &Context, arguments: &EnterArguments) -> Result<ExitCode, AppError> {
    let app = context.open()?;
    let mut request = EnterCard {
        code: arguments.code.clone(),
        ticks: arguments.tick.clone(),
        ..EnterCard::default()
    };
    for text in &arguments.blank {
        let (name, text) = pair("blank", text)?;
        request.blanks.insert(name, text);
    }
    if arguments.ask {
        ask(&app.card_to_enter(&arguments.code)?, &mut request)?;
    } else if arguments.blank.is_empty() && arguments.tick.is_empty() {
        let view = app.card_to_enter(&arguments.code)?;
        output::show(&view, context.json, output::card_to_enter)?;
        return Ok(ExitCode::SUCCESS);
    }
    context.done(&app.enter_card(&context.now, &request)?)
}

/// Reads a line for each blank, in the order of the card.
fn ask(view: &EnterView, request: &mut EnterCard) -> Result<(), AppError> {
    let failed =
        |error: std::io::Error| AppError::failed(format!("Nothing can be read: {error}."), "");
    for part in &view.parts {
        eprintln!("{}", part.title);
        for ask in &part.asks {
            eprint!("{}: ", output::blank_words(ask));
            let mut line = String::new();
            std::io::stdin().read_line(&mut line).map_err(failed)?;
            let line = line.trim();
            match ask.kind {
                AskKind::Tick if ["yes", "y", "x"].contains(&line) => {
                    request.ticks.push(ask.name.clone());
                }
                AskKind::Tick if ["", "no", "n"].contains(&line) => {}
                AskKind::Tick => {
                    return Err(AppError::input(
                        &ask.name,
                        format!("«{line}» is neither a tick nor none."),
                        "Write yes or no.",
                    ));
                }
                _ if line.is_empty() => {}
                _ => {
                    request.blanks.insert(ask.name.clone(), line.to_owned());
                }
            }
        }
    }
    Ok(())
}
