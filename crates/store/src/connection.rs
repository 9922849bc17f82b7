//! How a connection is opened and set up, and whose file it is.

use crate::StoreError;
use crate::migrate::schema_version;
use rusqlite::config::DbConfig;
use rusqlite::{Connection, OpenFlags};
use std::path::Path;
use std::time::Duration;

/// Marks the file as one of this program's in SQLite's header ("Stil" in ASCII).
pub const APPLICATION_ID: i32 = 0x5374_696C;

/// How long a connection waits for another one's lock.
const BUSY_TIMEOUT: Duration = Duration::from_secs(5);

/// The engine's settings on the writing connection, as the engine itself reports them.
#[derive(Debug, Clone, PartialEq, Eq, serde::Serialize)]
pub struct Settings {
    /// "wal" for a file.
    pub journal_mode: String,
    /// 2 = FULL: an acknowledged entry has reached the disk.
    pub synchronous: i64,
    /// Foreign keys are enforced.
    pub foreign_keys: bool,
    /// A misspelt column name in double quotes is an error, not a text.
    pub double_quoted_text_off: bool,
    /// Milliseconds a connection waits for a lock.
    pub busy_timeout: i64,
}

/// What kind of file a connection looks at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Kind {
    /// Nothing in it yet.
    Empty,
    /// One of ours, at this schema version (never above the newest known).
    Ours(i64),
}

/// Opens `path` for reading and writing without touching its content.
pub(crate) fn open_file(path: &Path, create: bool) -> Result<Connection, StoreError> {
    let mut flags = OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_NO_MUTEX;
    if create {
        flags |= OpenFlags::SQLITE_OPEN_CREATE;
    }
    let conn = Connection::open_with_flags(path, flags)
        .map_err(|error| StoreError::from(error).in_file(path))?;
    prepare(&conn).map_err(|error| error.in_file(path))?;
    Ok(conn)
}

/// Opens `path` for reading only; fails where there is no file.
pub(crate) fn open_to_read(path: &Path) -> Result<Connection, StoreError> {
    let flags = OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_NO_MUTEX;
    let conn = Connection::open_with_flags(path, flags)
        .map_err(|error| StoreError::from(error).in_file(path))?;
    prepare(&conn).map_err(|error| error.in_file(path))?;
    Ok(conn)
}

/// Settings of the connection that do not touch the file.
pub(crate) fn prepare(conn: &Connection) -> Result<(), StoreError> {
    conn.busy_timeout(BUSY_TIMEOUT)?;
    conn.set_db_config(DbConfig::SQLITE_DBCONFIG_DQS_DML, false)?;
    conn.set_db_config(DbConfig::SQLITE_DBCONFIG_DQS_DDL, false)?;
    conn.set_db_config(DbConfig::SQLITE_DBCONFIG_TRUSTED_SCHEMA, false)?;
    conn.pragma_update(None, "foreign_keys", true)?;
    // Without this a REPLACE would remove rows behind the triggers' back.
    conn.pragma_update(None, "recursive_triggers", true)?;
    conn.set_prepared_statement_cache_capacity(64);
    Ok(())
}

/// Write-ahead log, every commit on the disk before it is acknowledged.
pub(crate) fn make_durable(conn: &Connection) -> Result<(), StoreError> {
    // The answer is the mode that now holds; an in-memory database stays "memory".
    let _mode: String =
        conn.pragma_update_and_check(None, "journal_mode", "wal", |row| row.get(0))?;
    conn.pragma_update(None, "synchronous", "FULL")?;
    Ok(())
}

/// Whose file this is.
///
/// # Errors
/// [`StoreError::NotOurs`], [`StoreError::NewerFile`], [`StoreError::NotADatabase`],
/// [`StoreError::Damaged`].
pub(crate) fn identify(conn: &Connection, path: &Path) -> Result<Kind, StoreError> {
    let read = || -> Result<(i32, i64, i64), rusqlite::Error> {
        let application: i32 = conn.pragma_query_value(None, "application_id", |row| row.get(0))?;
        let version: i64 = conn.pragma_query_value(None, "user_version", |row| row.get(0))?;
        let tables = conn.query_row("SELECT count(*) FROM sqlite_schema", [], |row| row.get(0))?;
        Ok((application, version, tables))
    };
    match read().map_err(|error| StoreError::from(error).in_file(path))? {
        (0, 0, 0) => Ok(Kind::Empty),
        (APPLICATION_ID, version, _) if version > schema_version() => Err(StoreError::NewerFile {
            file: path.to_path_buf(),
            found: version,
            known: schema_version(),
        }),
        (APPLICATION_ID, version, _) if version > 0 => Ok(Kind::Ours(version)),
        (APPLICATION_ID, version, _) => Err(StoreError::Damaged {
            file: Some(path.to_path_buf()),
            detail: format!("its schema version is {version}"),
        }),
        _ => Err(StoreError::NotOurs(path.to_path_buf())),
    }
}

/// Reads the settings back from the engine.
pub(crate) fn settings(conn: &Connection) -> Result<Settings, StoreError> {
    let number = |name: &str| conn.pragma_query_value(None, name, |row| row.get::<_, i64>(0));
    Ok(Settings {
        journal_mode: conn.pragma_query_value(None, "journal_mode", |row| row.get(0))?,
        synchronous: number("synchronous")?,
        foreign_keys: number("foreign_keys")? == 1,
        double_quoted_text_off: !conn.db_config(DbConfig::SQLITE_DBCONFIG_DQS_DML)?
            && !conn.db_config(DbConfig::SQLITE_DBCONFIG_DQS_DDL)?,
        busy_timeout: number("busy_timeout")?,
    })
}
