//! The last acts are undone: by an entry that names the one it reverses (ruling 29).

use super::Done;
use crate::App;
use crate::error::{AppError, ErrorKind};
use crate::request::{Now, Undo};
use store::{EntryRecord, NewEntry};

/// Kinds of entries that can be undone as a whole. Starts, outcomes, seal checks, plans and
/// timetables are corrected by what comes after them: a hold, a new plan, a count.
const CAN_BE_UNDONE: [&str; 7] = [
    "picking",
    "lot",
    "sort-out",
    "take",
    "shelf-count",
    "batch",
    "recipe",
];

impl App {
    /// Undoes an entry: the last one that can be, or the one named.
    ///
    /// # Errors
    /// Nothing to undo, an entry of a kind that is not undone, one that was undone already, or one
    /// that later entries rest on; the message then says which, and what can be done instead.
    pub fn undo(&self, now: &Now, request: &Undo) -> Result<Done, AppError> {
        let entry = match request.entry {
            Some(id) => self.store.read(|reader| reader.entry(id))?,
            None => self.last_that_can_be_undone()?,
        };
        if !CAN_BE_UNDONE.contains(&entry.kind.as_str()) || entry.reverses.is_some() {
            return Err(AppError::input(
                "entry",
                format!(
                    "Entry {} ({}) is not undone as a whole.",
                    entry.id, entry.kind
                ),
                "State what is right now instead: hold or discard a batch, count a shelf, make a new plan.",
            ));
        }
        if let Some(by) = entry.reversed_by {
            let mut already = AppError::input(
                "entry",
                format!("Entry {} was undone already, by entry {by}.", entry.id),
                "An entry is undone once.",
            );
            already.kind = ErrorKind::Already;
            already.entry = Some(by);
            return Err(already);
        }
        let dependent = self.store.read(|reader| {
            Ok::<_, AppError>(ledger::first_dependent(
                entry.id,
                &reader.movements()?,
                &reader.container_movements()?,
                &reader.shelf_counts()?,
                &reader.reversals()?,
            ))
        })?;
        if let Some(dependent) = dependent {
            return Err(AppError::refused(
                format!(
                    "Entry {} rests on entry {}: {dependent}",
                    dependent.entry, entry.id
                ),
                format!(
                    "Undo entry {} first, or state the correction as a new entry.",
                    dependent.entry
                ),
            ));
        }
        self.batches_rest_on(&entry)?;
        let new = NewEntry {
            at: now.at.clone(),
            on: now.date,
            who: now.who.clone(),
            kind: "undo".to_owned(),
            note: String::new(),
            token: (!request.token.trim().is_empty()).then(|| request.token.trim().to_owned()),
            reverses: Some(entry.id),
        };
        let id = self.store.append(new, |writer, id| {
            writer.add_opposite_movements()?;
            Ok::<_, AppError>(id)
        })?;
        Ok(Done {
            entry: id,
            id: None,
            words: format!(
                "Entry {} ({}) is undone; both stay in the record.",
                entry.id, entry.kind
            ),
        })
    }

    /// Whether an entry is of a kind that is undone as a whole, and was not undone yet.
    ///
    /// # Errors
    /// No such entry, or those of reading the file.
    pub fn can_be_undone(&self, entry: i64) -> Result<bool, AppError> {
        let entry = self.store.read(|reader| reader.entry(entry))?;
        Ok(CAN_BE_UNDONE.contains(&entry.kind.as_str())
            && entry.reverses.is_none()
            && entry.reversed_by.is_none())
    }

    fn last_that_can_be_undone(&self) -> Result<EntryRecord, AppError> {
        let entries = self.store.read(|reader| reader.entries(50))?;
        entries
            .into_iter()
            .find(|entry| {
                CAN_BE_UNDONE.contains(&entry.kind.as_str())
                    && entry.reversed_by.is_none()
                    && entry.reverses.is_none()
            })
            .ok_or_else(|| {
                AppError::missing(
                    "entry",
                    "There is nothing to undo.",
                    "Only the last acts can be undone.",
                )
            })
    }

    /// A lot that a batch was set up with, or a batch that was begun, cannot vanish beneath it.
    fn batches_rest_on(&self, entry: &EntryRecord) -> Result<(), AppError> {
        let facts = self.facts()?;
        let lots: Vec<i64> = self.store.read(|reader| {
            Ok::<_, AppError>(
                reader
                    .lots()?
                    .into_iter()
                    .filter(|lot| lot.entry == entry.id)
                    .map(|lot| lot.id)
                    .collect(),
            )
        })?;
        let own: Vec<i64> = self.store.read(|reader| {
            Ok::<_, AppError>(
                reader
                    .batches()?
                    .into_iter()
                    .filter(|batch| batch.entry == entry.id)
                    .map(|batch| batch.id)
                    .collect(),
            )
        })?;
        for batch in facts.batches.values() {
            let draws = batch.state == crate::facts::BatchState::Planned
                && batch.inputs.iter().any(|input| lots.contains(&input.lot));
            if draws {
                return Err(AppError::refused(
                    format!("Batch {} is set up with food of this picking.", batch.id),
                    "Make a new plan without it first, or sort the lot out.",
                ));
            }
            if own.contains(&batch.id) && batch.state != crate::facts::BatchState::Planned {
                return Err(AppError::refused(
                    format!("Batch {} is {} already.", batch.id, batch.state.word()),
                    "Enter its outcome; what went wrong is stated there.",
                ));
            }
        }
        Ok(())
    }
}
