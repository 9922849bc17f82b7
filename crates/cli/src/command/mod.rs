//! One function per command; what they share is opening the household's file.

mod batch;
mod check;
mod counter;
mod demo;
mod file;
mod house;
mod incident;
mod paper;
mod plan;
mod process;
mod recipe;
mod serve;
mod stores;

use crate::arguments::{Arguments, Command};
use crate::{clock, output};
use app::error::AppError;
use app::request::{Now, Undo};
use app::{App, Done};
use std::path::PathBuf;
use std::process::ExitCode;

/// Runs the command that was given.
///
/// # Errors
/// Whatever the action says, with cause and what to do.
pub fn run(arguments: &Arguments) -> Result<ExitCode, AppError> {
    let context = Context::new(arguments)?;
    match &arguments.command {
        Command::House(house) => house::run(&context, house),
        Command::Counter => counter::show(&context),
        Command::Pick(pick) => counter::pick(&context, pick),
        Command::Lot(lot) => counter::lot(&context, lot),
        Command::Sort(sort) => counter::sort(&context, sort),
        Command::Plan(plan) => plan::plan(&context, plan),
        Command::Batch(batch) => batch::run(&context, batch),
        Command::Print(print) => paper::print(&context, print),
        Command::Load { batches } => batch::load(&context, batches),
        Command::Recipe(recipe) => recipe::run(&context, recipe),
        Command::Day(day) => plan::day(&context, day),
        Command::Stores => stores::show(&context),
        Command::Take(take) => stores::take(&context, take),
        Command::Count(count) => stores::count(&context, count),
        Command::Undo { entry } => {
            let request = Undo {
                entry: *entry,
                token: String::new(),
            };
            context.done(&context.open()?.undo(&context.now, &request)?)
        }
        Command::Incident(incident) => incident::incident(&context, incident),
        Command::Settle(settle) => incident::settle(&context, settle),
        Command::Disposal => incident::disposal(&context),
        Command::Process(process) => process::run(&context, process),
        Command::Check(check) => check::run(&context, check),
        Command::Backup(file) => file::backup(&context, &file.file),
        Command::Restore(file) => file::restore(&context, &file.file),
        Command::Serve(serve) => serve::run(&context, serve),
        Command::Demo(demo) => demo::run(&context, demo),
    }
}

/// What every command needs.
pub struct Context {
    /// Folder of the household's file, when one was named.
    pub data: Option<PathBuf>,
    /// JSON wanted.
    pub json: bool,
    /// The moment of acting.
    pub now: Now,
    /// Was the date given, so that a server keeps to it?
    pub date_given: bool,
    /// Was the time given?
    pub time_given: bool,
}

impl Context {
    fn new(arguments: &Arguments) -> Result<Self, AppError> {
        Ok(Self {
            data: arguments.data.clone(),
            json: arguments.json,
            now: clock::now(
                arguments.date.as_deref(),
                arguments.time.as_deref(),
                &arguments.who,
            )?,
            date_given: arguments.date.is_some(),
            time_given: arguments.time.is_some(),
        })
    }

    /// The folder of the household's file: the one named, or one beside the user's other data.
    pub fn folder(&self) -> Result<PathBuf, AppError> {
        if let Some(folder) = &self.data {
            return Ok(folder.clone());
        }
        let home = std::env::var_os("XDG_DATA_HOME")
            .map(PathBuf::from)
            .or_else(|| {
                std::env::var_os("HOME").map(|home| PathBuf::from(home).join(".local/share"))
            });
        home.map(|home| home.join("stillroom")).ok_or_else(|| {
            AppError::input(
                "data",
                "There is no folder to keep the household's file in.",
                "Name one with `--data FOLDER`.",
            )
        })
    }

    /// Opens the household's file, making it when it does not exist.
    pub fn open(&self) -> Result<App, AppError> {
        App::open_folder(&self.folder()?)
    }

    /// Prints what an action did, or its JSON.
    pub fn done(&self, done: &Done) -> Result<ExitCode, AppError> {
        output::show(done, self.json, |done| format!("{}\n", done.words))?;
        Ok(ExitCode::SUCCESS)
    }
}

/// Splits `KEY=VALUE`.
fn pair(field: &str, text: &str) -> Result<(String, String), AppError> {
    text.split_once('=')
        .map(|(key, value)| (key.trim().to_owned(), value.trim().to_owned()))
        .ok_or_else(|| {
            AppError::input(
                field,
                format!("«{text}» has no «=»."),
                if field == "house" {
                    "Write it as FIELD=VALUE, such as elevation=\"1180 ft\"."
                } else {
                    "Write it as NAME=VALUE, such as quart=7."
                },
            )
        })
}
