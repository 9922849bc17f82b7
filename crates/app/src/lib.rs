//! One function per household action, and the read models that pages and commands show.
//!
//! This is the only place where the store meets the rules. An action reads facts, passes them
//! with the date it was given to the pure deciding crates, and appends what came of it in one
//! transaction. Nothing here reads a clock or a random source.

pub mod action;
pub mod balance;
pub mod change;
pub mod dates;
pub mod day;
pub mod demo;
pub mod error;
mod factor;
pub mod facts;
pub mod gate;
pub mod gauge;
pub mod harvest;
pub mod house;
pub mod house_fields;
mod household_recipe;
pub mod incident;
mod load;
pub mod moment;
pub mod questions;
mod read;
pub mod request;
mod size;
pub mod view;

pub use action::Done;
pub use read::incident::{ask_incident, disposal, incident_kinds};
pub use read::printed_other::{print_disposal, print_outline, print_sheets};
pub use read::process::{
    PrintedSeries, ask_process, printed_rows, printed_series, suggested_foods,
};
pub use read::recipe::read_recipe;

use error::AppError;
use facts::Facts;
use kitchen::recipe::RecipeBook;
use reference::Reference;
use request::Now;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Mutex;
use store::{NewEntry, Store, Writer};

/// The household's file within its folder.
const FILE: &str = "stillroom.db";

/// The folder of daily copies within it.
const COPIES: &str = "copies";

/// One household, opened.
pub struct App {
    store: Store,
    reference: &'static Reference,
    recipes: RecipeBook,
    /// The last plan that was made and not yet accepted; it is no fact until it is.
    proposal: Mutex<Option<harvest::Proposal>>,
}

impl App {
    /// A household over an opened store.
    pub fn new(store: Store) -> Self {
        let reference = Reference::embedded();
        Self {
            store,
            reference,
            recipes: kitchen::recipe::recipes(reference),
            proposal: Mutex::new(None),
        }
    }

    /// Opens the household's file in a folder, making both when they do not exist.
    ///
    /// # Errors
    /// A folder that cannot be made or written, a file that is damaged, foreign or newer.
    pub fn open_folder(folder: &Path) -> Result<Self, AppError> {
        std::fs::create_dir_all(folder).map_err(|error| {
            AppError::failed(
                format!("The folder {} cannot be made: {error}.", folder.display()),
                "Name another with `--data FOLDER`.",
            )
        })?;
        Ok(Self::new(Store::open(&folder.join(FILE))?))
    }

    /// Opens the household's file where there is one; makes nothing.
    ///
    /// # Errors
    /// A file that is damaged, foreign or newer.
    pub fn open_existing(folder: &Path) -> Result<Option<Self>, AppError> {
        let file = folder.join(FILE);
        if !file.is_file() {
            return Ok(None);
        }
        Ok(Some(Self::new(Store::open(&file)?)))
    }

    /// A household of nothing, in memory: recipes and amounts, and never a permit.
    ///
    /// # Errors
    /// Only those of the engine itself.
    pub fn without_household() -> Result<Self, AppError> {
        Ok(Self::new(Store::open_in_memory()?))
    }

    /// The store, for checks and copies.
    pub fn store(&self) -> &Store {
        &self.store
    }

    /// The facts as they stand.
    ///
    /// # Errors
    /// Those of reading the file.
    pub fn facts(&self) -> Result<Facts, AppError> {
        self.store.read(load::facts)
    }

    /// Copies the household's file and checks the copy.
    ///
    /// # Errors
    /// A place that cannot be written, or that holds something else.
    pub fn backup(&self, to: &Path) -> Result<(), AppError> {
        self.store.backup(to)?;
        Ok(())
    }

    /// Makes today's copy in the household's own folder unless it exists; seven are kept.
    ///
    /// # Errors
    /// A folder that cannot be written.
    pub fn backup_daily(&self, now: &Now) -> Result<(), AppError> {
        if let Some(folder) = self.store.path().and_then(Path::parent) {
            self.store.backup_daily(&folder.join(COPIES), now.date)?;
        }
        Ok(())
    }

    /// One entry with its facts, in one transaction: its number, and what the closure made.
    pub(crate) fn write<T>(
        &self,
        now: &Now,
        kind: &str,
        note: &str,
        token: &str,
        write: impl FnOnce(&Writer<'_>) -> Result<T, AppError>,
    ) -> Result<(i64, T), AppError> {
        let new = NewEntry {
            at: now.at.clone(),
            on: now.date,
            who: now.who.clone(),
            kind: kind.to_owned(),
            note: note.trim().to_owned(),
            token: (!token.trim().is_empty()).then(|| token.trim().to_owned()),
            reverses: None,
        };
        self.store
            .append(new, |writer, entry| Ok((entry, write(writer)?)))
    }
}

/// Puts a copy in place of the household's file; gives the path under which the old one is kept.
///
/// # Errors
/// A copy that is damaged, foreign or newer; a file that is in use.
pub fn restore(from: &Path, folder: &Path) -> Result<Option<PathBuf>, AppError> {
    std::fs::create_dir_all(folder).map_err(|error| {
        AppError::failed(
            format!("The folder {} cannot be made: {error}.", folder.display()),
            "Name another with `--data FOLDER`.",
        )
    })?;
    Ok(store::restore(from, &folder.join(FILE))?.kept)
}

/// Keys of the history questions, in the order they are asked.
pub fn history_questions() -> Vec<String> {
    kitchen::history::Question::ALL
        .into_iter()
        .map(|question| question.key().to_owned())
        .collect()
}

/// Problems in a folder of printed tables, one sentence each: file, line, rule, what is wrong.
pub fn check_tables(files: &BTreeMap<String, Vec<u8>>) -> Vec<String> {
    reference::table_check::problems(files)
        .into_iter()
        .map(|problem| problem.to_string())
        .collect()
}
