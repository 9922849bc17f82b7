//! The open data file: one writer, a few readers.

use crate::connection::{Settings, make_durable, open_file, prepare, settings};
use crate::error::StoreError;
use crate::migrate::{MIGRATIONS, bring_up_to_date, migrate};
use crate::reader::Reader;
use crate::record::NewEntry;
use crate::writer::Writer;
use rusqlite::{Connection, OptionalExtension, TransactionBehavior, params};
use std::path::{Path, PathBuf};
use std::sync::{Mutex, MutexGuard, PoisonError};
use std::thread::ThreadId;

/// Readers kept open between reads; more are opened when needed and closed afterwards.
const KEPT_READERS: usize = 4;

/// The open data file of one household. Shared between threads by reference.
pub struct Store {
    /// `None` for a store in memory.
    path: Option<PathBuf>,
    writer: Mutex<Connection>,
    readers: Mutex<Vec<Connection>>,
    writing: Mutex<Option<ThreadId>>,
    copied_before_migration: Option<PathBuf>,
}

impl Store {
    /// Opens a data file, creating it when there is none, and brings an older one up to date after
    /// copying it.
    ///
    /// # Errors
    /// [`StoreError::MissingFolder`], [`StoreError::NotAFile`], [`StoreError::NotWritable`],
    /// [`StoreError::NotADatabase`], [`StoreError::NotOurs`], [`StoreError::NewerFile`],
    /// [`StoreError::Damaged`], [`StoreError::MigrationFailed`], [`StoreError::Busy`],
    /// [`StoreError::DiskFull`]. A file that was there is left as it was.
    pub fn open(path: &Path) -> Result<Self, StoreError> {
        check_folder(path)?;
        let was_there = path.exists();
        let answer = Self::open_in_folder(path);
        if answer.is_err() && !was_there {
            // Nothing half-written: what was created in vain goes again. A failure to remove it
            // adds nothing to the first error.
            for file in [
                path.to_path_buf(),
                beside(path, "-wal"),
                beside(path, "-shm"),
            ] {
                let _ = std::fs::remove_file(file);
            }
        }
        answer
    }

    fn open_in_folder(path: &Path) -> Result<Self, StoreError> {
        let mut conn = open_file(path, true)?;
        let here = |error: StoreError| error.in_file(path);
        if conn
            .is_readonly("main")
            .map_err(|error| here(error.into()))?
        {
            return Err(StoreError::NotWritable {
                file: Some(path.to_path_buf()),
                detail: "it may only be read".to_owned(),
            });
        }
        let copied_before_migration = bring_up_to_date(&mut conn, path)?;
        make_durable(&conn).map_err(here)?;
        Ok(Self {
            path: Some(path.to_path_buf()),
            writer: Mutex::new(conn),
            readers: Mutex::new(Vec::new()),
            writing: Mutex::new(None),
            copied_before_migration,
        })
    }

    /// Opens an empty store that lives in memory only.
    ///
    /// # Errors
    /// Only those of the engine itself.
    pub fn open_in_memory() -> Result<Self, StoreError> {
        let mut conn = Connection::open_in_memory()?;
        prepare(&conn)?;
        migrate(&mut conn, None, crate::connection::Kind::Empty, MIGRATIONS)?;
        make_durable(&conn)?;
        Ok(Self {
            path: None,
            writer: Mutex::new(conn),
            readers: Mutex::new(Vec::new()),
            writing: Mutex::new(None),
            copied_before_migration: None,
        })
    }

    /// The file, or `None` for a store in memory.
    #[must_use]
    pub fn path(&self) -> Option<&Path> {
        self.path.as_deref()
    }

    /// The copy made of an older file before it was brought up to date at opening.
    #[must_use]
    pub fn copied_before_migration(&self) -> Option<&Path> {
        self.copied_before_migration.as_deref()
    }

    /// The engine's settings on the writing connection.
    ///
    /// # Errors
    /// [`StoreError::InsideAppend`] and those of any read.
    pub fn settings(&self) -> Result<Settings, StoreError> {
        self.not_inside_append()?;
        settings(&lock(&self.writer))
    }

    /// Writes one entry: the entry row, then whatever `write` adds to it, then its sums, all in one
    /// transaction that takes the writing lock first. When `write` refuses, or anything fails,
    /// nothing is written. Once this returns, the entry has reached the disk.
    ///
    /// # Errors
    /// [`StoreError::AlreadyEntered`] for a token seen before; [`StoreError::Missing`],
    /// [`StoreError::AlreadyReversed`], [`StoreError::UndoOfUndo`] for an entry that cannot be
    /// undone; whatever `write` refuses; those of any write.
    pub fn append<T, E>(
        &self,
        new: NewEntry,
        write: impl FnOnce(&Writer<'_>, i64) -> Result<T, E>,
    ) -> Result<T, E>
    where
        E: From<StoreError>,
    {
        self.not_inside_append()?;
        let mut conn = lock(&self.writer);
        let _marked = self.mark_writing();
        let act = conn
            .transaction_with_behavior(TransactionBehavior::Immediate)
            .map_err(|error| self.here(error.into()))?;
        let entry = insert_entry(&act, &new).map_err(|error| self.here(error))?;
        let writer = Writer::new(&act, entry, new.on, new.reverses.is_some());
        let answer = write(&writer, entry)?;
        writer.close().map_err(|error| self.here(error))?;
        act.commit().map_err(|error| self.here(error.into()))?;
        Ok(answer)
    }

    /// Reads at one moment: everything `read` sees belongs together.
    ///
    /// # Errors
    /// [`StoreError::InsideAppend`] when this thread is writing an entry (read through its writer
    /// instead); whatever `read` refuses; those of any read.
    pub fn read<T, E>(&self, read: impl FnOnce(&Reader<'_>) -> Result<T, E>) -> Result<T, E>
    where
        E: From<StoreError>,
    {
        self.with_reading_connection(|conn| {
            let moment = conn
                .unchecked_transaction()
                .map_err(|error| self.here(error.into()))?;
            read(&Reader { conn: &moment })
        })
    }

    pub(crate) fn with_reading_connection<T, E>(
        &self,
        act: impl FnOnce(&Connection) -> Result<T, E>,
    ) -> Result<T, E>
    where
        E: From<StoreError>,
    {
        self.not_inside_append()?;
        let Some(path) = &self.path else {
            return act(&lock(&self.writer));
        };
        let kept = lock(&self.readers).pop();
        let conn = match kept {
            Some(conn) => conn,
            None => open_reader(path)?,
        };
        let answer = act(&conn);
        let mut readers = lock(&self.readers);
        if readers.len() < KEPT_READERS {
            readers.push(conn);
        }
        answer
    }

    fn here(&self, error: StoreError) -> StoreError {
        match &self.path {
            Some(path) => error.in_file(path),
            None => error,
        }
    }

    fn not_inside_append(&self) -> Result<(), StoreError> {
        if *lock(&self.writing) == Some(std::thread::current().id()) {
            return Err(StoreError::InsideAppend);
        }
        Ok(())
    }

    fn mark_writing(&self) -> Marked<'_> {
        *lock(&self.writing) = Some(std::thread::current().id());
        Marked(&self.writing)
    }
}

/// Takes the mark of the writing thread away again, whatever happened meanwhile.
struct Marked<'s>(&'s Mutex<Option<ThreadId>>);

impl Drop for Marked<'_> {
    fn drop(&mut self) {
        *lock(self.0) = None;
    }
}

/// A thread that panicked while holding the lock has had its transaction rolled back, so what the
/// lock guards is sound.
fn lock<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}

fn open_reader(path: &Path) -> Result<Connection, StoreError> {
    let conn = open_file(path, false)?;
    conn.pragma_update(None, "query_only", true)
        .map_err(|error| StoreError::from(error).in_file(path))?;
    Ok(conn)
}

/// The folder must be there and the path must not be a folder.
pub(crate) fn check_folder(path: &Path) -> Result<(), StoreError> {
    let folder = folder_of(path);
    if !folder.is_dir() {
        return Err(StoreError::MissingFolder(folder.to_path_buf()));
    }
    if path.file_name().is_none() || (path.exists() && !path.is_file()) {
        return Err(StoreError::NotAFile(path.to_path_buf()));
    }
    Ok(())
}

/// The folder a file is in; the current one for a bare name.
pub(crate) fn folder_of(path: &Path) -> &Path {
    match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    }
}

/// The file of the same name with something added.
pub(crate) fn beside(path: &Path, ending: &str) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push(ending);
    PathBuf::from(name)
}

fn insert_entry(conn: &Connection, new: &NewEntry) -> Result<i64, StoreError> {
    if let Some(token) = &new.token {
        let earlier: Option<i64> = conn
            .prepare_cached("SELECT id FROM entry WHERE token = ?1")?
            .query_row([token], |row| row.get(0))
            .optional()?;
        if let Some(entry) = earlier {
            return Err(StoreError::AlreadyEntered(entry));
        }
    }
    if let Some(undone) = new.reverses {
        let record = Reader { conn }.entry(undone)?;
        if let Some(by) = record.reversed_by {
            return Err(StoreError::AlreadyReversed { entry: undone, by });
        }
        if record.reverses.is_some() {
            return Err(StoreError::UndoOfUndo(undone));
        }
    }
    conn.prepare_cached(
        "INSERT INTO entry (at, on_day, who, kind, note, token, reverses)
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7)",
    )?
    .execute(params![
        new.at,
        new.on.to_string(),
        new.who,
        new.kind,
        new.note,
        new.token,
        new.reverses
    ])?;
    Ok(conn.last_insert_rowid())
}
