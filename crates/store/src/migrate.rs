//! Brings an older file up to the newest schema, after a copy of it.

use crate::StoreError;
use crate::backup::{copy_database, first_free};
use crate::connection::{APPLICATION_ID, Kind, identify};
use rusqlite::{Connection, TransactionBehavior};
use std::path::{Path, PathBuf};

/// One step of the schema. Its number is the version of the file after it; numbers rise and may
/// leave gaps, since each area of the program has a block of its own. A step that comes later must
/// have a number above every released one: files that stand at a number skip all below it.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Migration {
    /// The version after it, the number its file name begins with.
    pub number: i64,
    /// File name without its ending.
    pub name: &'static str,
    /// The statements.
    pub sql: &'static str,
}

/// Every migration, never changed once released.
pub(crate) const MIGRATIONS: &[Migration] = &[
    Migration {
        number: 1,
        name: "0001_create_ledger",
        sql: include_str!("../migrations/0001_create_ledger.sql"),
    },
    Migration {
        number: 200,
        name: "0200_add_household_recipe",
        sql: include_str!("../migrations/0200_add_household_recipe.sql"),
    },
];

/// The newest schema version this program knows.
#[must_use]
pub fn schema_version() -> i64 {
    newest(MIGRATIONS)
}

/// Every released schema version, oldest first.
#[must_use]
pub fn schema_versions() -> Vec<i64> {
    MIGRATIONS
        .iter()
        .map(|migration| migration.number)
        .collect()
}

fn newest(migrations: &[Migration]) -> i64 {
    migrations
        .iter()
        .map(|migration| migration.number)
        .max()
        .unwrap_or(0)
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
    let answer = migrations
        .iter()
        .try_for_each(|migration| step(conn, migration));
    conn.pragma_update(None, "foreign_keys", true)?;
    answer?;
    Ok(copy)
}

fn step(conn: &mut Connection, migration: &Migration) -> Result<(), StoreError> {
    let failed = |detail: String| StoreError::MigrationFailed {
        name: migration.name.to_owned(),
        detail,
    };
    let act = conn.transaction_with_behavior(TransactionBehavior::Immediate)?;
    // Asked inside the transaction: another program may have done this step meanwhile.
    let now: i64 = act.pragma_query_value(None, "user_version", |row| row.get(0))?;
    if now >= migration.number {
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
    act.pragma_update(None, "user_version", migration.number)?;
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
