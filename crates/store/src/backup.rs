//! Copies of the file while it is in use, each checked before it counts as one.

use crate::connection::{Kind, identify, open_file, open_to_read};
use crate::error::StoreError;
use crate::reader::Reader;
use crate::store::{Store, check_folder, folder_of};
use jiff::civil::Date;
use rusqlite::Connection;
use rusqlite::backup::{Backup, StepResult};
use serde::Serialize;
use std::fs;
use std::path::{Path, PathBuf};

/// Daily copies kept in the backup folder.
pub const KEPT_DAILY_BACKUPS: usize = 7;

/// A copy that was made and checked.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct BackupReport {
    /// The copy.
    pub file: PathBuf,
    /// Its size.
    pub bytes: u64,
    /// Rows in it.
    pub rows: i64,
}

impl Store {
    /// Copies the file as it is at this moment, also while others write, and checks both the file
    /// and the copy (integrity and foreign keys). An older copy of the same name is replaced only
    /// once the new one is complete.
    ///
    /// # Errors
    /// [`StoreError::WouldOverwrite`] when `to` is something else than a copy of this program's, or
    /// the data file itself; [`StoreError::Damaged`] when the file is not sound (then there is no
    /// copy); [`StoreError::MissingFolder`], [`StoreError::NotWritable`], [`StoreError::DiskFull`].
    pub fn backup(&self, to: &Path) -> Result<BackupReport, StoreError> {
        check_folder(to)?;
        if self.path().is_some_and(|own| same_file(own, to)) {
            return Err(StoreError::WouldOverwrite(to.to_path_buf()));
        }
        if to.exists() {
            let theirs = open_to_read(to).and_then(|conn| identify(&conn, to));
            if !matches!(
                theirs,
                Ok(Kind::Ours(_)) | Err(StoreError::NewerFile { .. })
            ) {
                return Err(StoreError::WouldOverwrite(to.to_path_buf()));
            }
        }
        let name = to.file_name().unwrap_or_default().to_string_lossy();
        let part = first_free(to, &format!("{name}.part"));
        let rows = self.with_reading_connection(|conn| {
            if let Some(own) = self.path() {
                verify(conn, own)?;
            }
            copy_database(conn, &part)
        })?;
        put_in_place(&part, to)?;
        let bytes = fs::metadata(to)
            .map_err(|error| StoreError::io(to, &error))?
            .len();
        Ok(BackupReport {
            file: to.to_path_buf(),
            bytes,
            rows,
        })
    }

    /// Makes the copy of `date` in `folder` (created when its parent is there) unless there is one,
    /// then removes all but the newest [`KEPT_DAILY_BACKUPS`]. Only files named as this function
    /// names them are ever removed. `None` = the day's copy was there already.
    ///
    /// # Errors
    /// As [`Store::backup`]; older copies are removed only after a new one is in place.
    pub fn backup_daily(
        &self,
        folder: &Path,
        date: Date,
    ) -> Result<Option<BackupReport>, StoreError> {
        if !folder.is_dir() {
            let parent = folder_of(folder);
            if !parent.is_dir() {
                return Err(StoreError::MissingFolder(parent.to_path_buf()));
            }
            fs::create_dir(folder).map_err(|error| StoreError::io(folder, &error))?;
        }
        let file = folder.join(format!("stillroom-{date}.db"));
        if file.exists() {
            return Ok(None);
        }
        let report = self.backup(&file)?;
        let failed = |error: std::io::Error| StoreError::io(folder, &error);
        let mut copies = Vec::new();
        for found in fs::read_dir(folder).map_err(failed)? {
            let name = found.map_err(failed)?.file_name();
            if let Some(day) = day_of_copy(&name.to_string_lossy()) {
                copies.push((day, folder.join(name)));
            }
        }
        copies.sort();
        let surplus = copies.len().saturating_sub(KEPT_DAILY_BACKUPS);
        // A clock that was set back must not cost the copy just made.
        for (_, old) in copies
            .into_iter()
            .filter(|(day, _)| *day != date)
            .take(surplus)
        {
            fs::remove_file(&old).map_err(|error| StoreError::io(&old, &error))?;
        }
        Ok(Some(report))
    }
}

fn day_of_copy(name: &str) -> Option<Date> {
    let day: Date = name
        .strip_prefix("stillroom-")?
        .strip_suffix(".db")?
        .parse()
        .ok()?;
    (name == format!("stillroom-{day}.db")).then_some(day)
}

/// Copies a whole database into a new file, as one file without a log beside it, and checks the
/// copy. Gives the number of rows. On any error no file is left.
pub(crate) fn copy_database(conn: &Connection, to: &Path) -> Result<i64, StoreError> {
    let copy = || -> Result<i64, StoreError> {
        let mut target = open_file(to, true)?;
        let backup = Backup::new(conn, &mut target)?;
        loop {
            // All pages in one step: one moment of the source.
            match backup.step(-1)? {
                StepResult::Done => break,
                StepResult::More => {}
                _ => return Err(StoreError::Busy(None)),
            }
        }
        drop(backup);
        // The source's log mode comes along with its header; a copy is one plain file.
        let _mode: String =
            target.pragma_update_and_check(None, "journal_mode", "delete", |row| row.get(0))?;
        let rows = verify(&target, to)?;
        target.close().map_err(|(_, error)| error)?;
        let file = fs::File::open(to).map_err(|error| StoreError::io(to, &error))?;
        file.sync_all()
            .map_err(|error| StoreError::io(to, &error))?;
        Ok(rows)
    };
    copy().map_err(|error| {
        let _ = fs::remove_file(to);
        error.in_file(to)
    })
}

/// Integrity and foreign keys hold; gives the number of rows.
pub(crate) fn verify(conn: &Connection, path: &Path) -> Result<i64, StoreError> {
    let check = Reader { conn }
        .file_check()
        .map_err(|error| error.in_file(path))?;
    match check.integrity.iter().chain(&check.foreign_keys).next() {
        Some(complaint) => Err(StoreError::Damaged {
            file: Some(path.to_path_buf()),
            detail: complaint.clone(),
        }),
        None => Ok(check.rows),
    }
}

/// Renames a finished file over another, so that at any moment one of the two is whole.
pub(crate) fn put_in_place(finished: &Path, to: &Path) -> Result<(), StoreError> {
    fs::rename(finished, to).map_err(|error| {
        let _ = fs::remove_file(finished);
        StoreError::io(to, &error)
    })?;
    sync_folder(to);
    Ok(())
}

/// Asks the system to make a rename last. Some file systems cannot sync a folder; the rename has
/// happened all the same, so a refusal is no error.
pub(crate) fn sync_folder(file: &Path) {
    if let Ok(folder) = fs::File::open(folder_of(file)) {
        let _ = folder.sync_all();
    }
}

/// A name in the folder of `path` that nothing has yet: `name`, `name-2`, `name-3`.
pub(crate) fn first_free(path: &Path, name: &str) -> PathBuf {
    let folder = folder_of(path);
    let mut candidate = folder.join(name);
    let mut n = 2_u32;
    while fs::symlink_metadata(&candidate).is_ok() {
        candidate = folder.join(format!("{name}-{n}"));
        n += 1;
    }
    candidate
}

pub(crate) fn same_file(a: &Path, b: &Path) -> bool {
    matches!((fs::canonicalize(a), fs::canonicalize(b)), (Ok(a), Ok(b)) if a == b)
}
