//! Puts a backup in the place of the data file, keeping the old one.

use crate::backup::{copy_database, first_free, put_in_place, same_file, sync_folder, verify};
use crate::connection::{Kind, identify, open_file, open_to_read};
use crate::error::StoreError;
use crate::store::{beside, check_folder};
use rusqlite::config::DbConfig;
use serde::Serialize;
use std::fs;
use std::path::{Path, PathBuf};
use std::time::Duration;

/// A restore that was carried out.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct RestoreReport {
    /// The data file, now with the backup's content.
    pub file: PathBuf,
    /// Rows in it.
    pub rows: i64,
    /// Schema version of the backup; an older one is brought up to date when the file is opened.
    pub schema: i64,
    /// Where the old data file is now, if there was one.
    pub kept: Option<PathBuf>,
}

/// Replaces the data file `to` by the backup `from`. The backup is checked first (whose file,
/// schema version, integrity, foreign keys), then copied, checked again and put in place in one
/// step; the old data file is kept beside it under another name.
///
/// # Errors
/// [`StoreError::MissingFile`], [`StoreError::NotADatabase`], [`StoreError::NotOurs`],
/// [`StoreError::NewerFile`], [`StoreError::Damaged`] for the backup; [`StoreError::Busy`] when a
/// program has the data file open; [`StoreError::NotOurs`] when `to` belongs to another program.
/// On any error the data file is what it was.
pub fn restore(from: &Path, to: &Path) -> Result<RestoreReport, StoreError> {
    if !from.exists() {
        return Err(StoreError::MissingFile(from.to_path_buf()));
    }
    check_folder(from)?;
    check_folder(to)?;
    if same_file(from, to) {
        return Err(StoreError::SameFile(to.to_path_buf()));
    }
    let source = open_to_read(from)?;
    let Kind::Ours(schema) = identify(&source, from)? else {
        return Err(StoreError::NotADatabase(Some(from.to_path_buf())));
    };
    verify(&source, from)?;
    let name = to.file_name().unwrap_or_default().to_string_lossy();
    let fresh = first_free(to, &format!("{name}.restoring"));
    let rows = copy_database(&source, &fresh)?;
    let kept = set_aside(to).inspect_err(|_| {
        let _ = fs::remove_file(&fresh);
    })?;
    put_in_place(&fresh, to)?;
    Ok(RestoreReport {
        file: to.to_path_buf(),
        rows,
        schema,
        kept,
    })
}

/// Gives the old data file a second name, and takes its log away: a log left behind would be
/// played into the new file.
fn set_aside(to: &Path) -> Result<Option<PathBuf>, StoreError> {
    let name = to.file_name().unwrap_or_default().to_string_lossy();
    let kept = first_free(to, &format!("{name}.before-restore"));
    if to.exists() {
        fold_log_in(to)?;
    }
    let log = beside(to, "-wal");
    if log.exists() {
        rename(&log, &beside(&kept, "-wal"))?;
    }
    let index = beside(to, "-shm");
    if index.exists() {
        fs::remove_file(&index).map_err(|error| StoreError::io(&index, &error))?;
    }
    if !to.exists() {
        return Ok(None);
    }
    // A second name first, so that there is no moment without the old file; a file system without
    // hard links gets a copy.
    if fs::hard_link(to, &kept).is_err() {
        fs::copy(to, &kept).map_err(|error| StoreError::io(&kept, &error))?;
    }
    sync_folder(to);
    Ok(Some(kept))
}

/// Writes a sound old file's log into it, which also shows whether a program still has it open. A
/// damaged file cannot be asked and is kept as it is: damage is what a restore is for.
fn fold_log_in(to: &Path) -> Result<(), StoreError> {
    let conn = match open_file(to, false) {
        Ok(conn) => conn,
        Err(error @ StoreError::NotWritable { .. }) => return Err(error),
        Err(_) => return Ok(()),
    };
    // Closing must not play the log into a file that is only being looked at.
    conn.set_db_config(DbConfig::SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, true)?;
    match identify(&conn, to) {
        Ok(_) | Err(StoreError::NewerFile { .. }) => {}
        Err(error @ (StoreError::NotOurs(_) | StoreError::Busy(_))) => return Err(error),
        Err(_) => return Ok(()),
    }
    conn.busy_timeout(Duration::from_millis(300))?;
    let mode: Result<String, _> =
        conn.pragma_update_and_check(None, "journal_mode", "delete", |row| row.get(0));
    match mode.map_err(|error| StoreError::from(error).in_file(to)) {
        Ok(mode) if mode == "delete" => Ok(()),
        Err(StoreError::Damaged { .. }) => Ok(()),
        Ok(_) => Err(StoreError::Busy(Some(to.to_path_buf()))),
        Err(error) => Err(error),
    }
}

fn rename(from: &Path, to: &Path) -> Result<(), StoreError> {
    fs::rename(from, to).map_err(|error| StoreError::io(from, &error))
}
