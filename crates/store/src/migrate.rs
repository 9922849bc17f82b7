//! Brings an older file up to the newest schema, after a copy of it.

use crate::StoreError;
use crate::backup::{copy_database, first_free};
use crate::connection::{APPLICATION_ID, Kind, identify};
use rusqlite::{Connection, TransactionBehavior};
use std::path::{Path, PathBuf};

/// One step of the schema. The step at position `n` leads to version `n + 1`.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Migration {
    /// File name without its ending.
    pub name: &'static str,
    /// The statements.
    pub sql: &'static str,
}

/// Every migration, never changed once released.
pub(crate) const MIGRATIONS: &[Migration] = &[Migration {
    name: "0001_create_ledger",
    sql: include_str!("../migrations/0001_create_ledger.sql"),
}];

/// The newest schema version this program knows.
#[must_use]
pub fn schema_version() -> i64 {
    newest(MIGRATIONS)
}

fn newest(migrations: &[Migration]) -> i64 {
    // A handful of files: the cast cannot lose anything.
    migrations.len() as i64
}

/// Carries out every missing migration, each in its own transaction together with its version
/// number. An older file is first copied beside itself; the copy's path is the answer.
///
/// # Errors
/// [`StoreError::MigrationFailed`]; the file is then as it was after the last step that worked.
pub(crate) fn migrate(
    conn: &mut Connection,
    path: Option<&Path>,
    kind: Kind,
    migrations: &[Migration],
) -> Result<Option<PathBuf>, StoreError> {
    let from = match kind {
        Kind::Empty => 0,
        Kind::Ours(version) => version,
    };
    if from >= newest(migrations) {
        return Ok(None);
    }
    let copy = match path {
        Some(path) if from > 0 => {
            let name = path.file_name().unwrap_or_default().to_string_lossy();
            let copy = first_free(path, &format!("{name}.before-{:04}", newest(migrations)));
            copy_database(conn, &copy)?;
            Some(copy)
        }
        _ => None,
    };
    // Rebuilding a table needs the keys off for a moment; each step checks them before it commits.
    conn.pragma_update(None, "foreign_keys", false)?;
    let answer = (1..)
        .zip(migrations)
        .try_for_each(|(version, migration)| step(conn, version, migration));
    conn.pragma_update(None, "foreign_keys", true)?;
    answer?;
    Ok(copy)
}

fn step(conn: &mut Connection, version: i64, migration: &Migration) -> Result<(), StoreError> {
    let failed = |detail: String| StoreError::MigrationFailed {
        name: migration.name.to_owned(),
        detail,
    };
    let act = conn.transaction_with_behavior(TransactionBehavior::Immediate)?;
    // Asked inside the transaction: another program may have done this step meanwhile.
    let now: i64 = act.pragma_query_value(None, "user_version", |row| row.get(0))?;
    if now >= version {
        return Ok(());
    }
    act.execute_batch(migration.sql)
        .map_err(|error| match StoreError::from(error) {
            StoreError::DiskFull(file) => StoreError::DiskFull(file),
            other => failed(other.cause()),
        })?;
    let orphans: i64 =
        act.query_row("SELECT count(*) FROM pragma_foreign_key_check", [], |row| {
            row.get(0)
        })?;
    if orphans > 0 {
        return Err(failed(format!(
            "{orphans} rows would lose what they refer to"
        )));
    }
    act.pragma_update(None, "application_id", APPLICATION_ID)?;
    act.pragma_update(None, "user_version", version)?;
    act.commit()?;
    Ok(())
}

/// Identifies and migrates a file that was just opened.
pub(crate) fn bring_up_to_date(
    conn: &mut Connection,
    path: &Path,
) -> Result<Option<PathBuf>, StoreError> {
    let kind = identify(conn, path)?;
    migrate(conn, Some(path), kind, MIGRATIONS).map_err(|error| error.in_file(path))
}

#[cfg(test)]
mod tests;
