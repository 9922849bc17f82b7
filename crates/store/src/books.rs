//! Everything the invariants look at, and the engine's own opinion of the file.

use crate::error::StoreError;
use crate::reader::Reader;
use crate::record::{BatchEvent, BatchEventKind, BatchRecord, EntryRecord, LotRecord};
use crate::rows::{container_movement, count_line, movement, only_place_unknown};
use ledger::invariant::{Books, End, EntrySum, Leg, LotWeight};
use rusqlite::Row;
use serde::Serialize;

/// What the engine says of the file.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct FileCheck {
    /// Rows in all tables together.
    pub rows: i64,
    /// Complaints about pages, types, checks, missing values, duplicate keys; empty = sound.
    pub integrity: Vec<String>,
    /// Rows that refer to something that is not there; empty = sound.
    pub foreign_keys: Vec<String>,
}

impl FileCheck {
    /// The engine has nothing to complain about.
    #[must_use]
    pub fn holds(&self) -> bool {
        self.integrity.is_empty() && self.foreign_keys.is_empty()
    }
}

/// Everything the invariants need, read at one moment.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CheckRows {
    /// For [`ledger::invariant::all`].
    pub books: Books,
    /// Rows that could not be understood (an unknown place, a date that is none), one sentence
    /// each. They are missing from `books`, except that the legs of movements are there as written.
    /// A movement whose only fault is a place nobody knows is not named here: `entry-sums-to-zero`
    /// names it.
    pub unreadable: Vec<String>,
    /// Rows tried for `unreadable`.
    pub tried: usize,
    /// Every entry, oldest first.
    pub entries: Vec<EntryRecord>,
    /// Every lot that could be understood and stands.
    pub lots: Vec<LotRecord>,
    /// Every batch that could be understood and stands.
    pub batches: Vec<BatchRecord>,
    /// Everything that happened to batches, undone included and marked.
    pub batch_events: Vec<BatchEvent>,
    /// The engine's own check.
    pub file: FileCheck,
}

impl Reader<'_> {
    /// Reads everything the invariants look at. A row that cannot be understood does not stop it.
    ///
    /// # Errors
    /// [`StoreError::Damaged`] when the file cannot be read at all; those of any read.
    pub fn rows_for_check(&self) -> Result<CheckRows, StoreError> {
        let mut notes = Notes::default();
        let movements = self.lenient(
            "SELECT * FROM movement ORDER BY entry, line",
            &mut notes,
            |row| {
                let name = named(row, "movement", "entry", "line");
                // The rule over legs names a place nobody knows; saying it twice helps nobody.
                (name.filter(|_| !only_place_unknown(row)), movement(row))
            },
        )?;
        let containers = self.lenient(
            "SELECT * FROM container_movement ORDER BY entry, line",
            &mut notes,
            |row| {
                (
                    named(row, "container movement", "entry", "line"),
                    container_movement(row),
                )
            },
        )?;
        let counts = self.lenient(
            "SELECT * FROM shelf_count ORDER BY entry, line",
            &mut notes,
            |row| (named(row, "shelf count", "entry", "line"), count_line(row)),
        )?;
        let entries = self.lenient(
            "SELECT entry.*, undo.id AS reversed_by FROM entry
             LEFT JOIN entry undo ON undo.reverses = entry.id ORDER BY entry.id",
            &mut notes,
            |row| (named(row, "entry", "id", "id"), crate::reader::entry(row)),
        )?;
        let lots = self.lenient(
            "SELECT *, EXISTS (SELECT 1 FROM entry undo WHERE undo.reverses = lot.entry) AS reversed
             FROM lot ORDER BY id",
            &mut notes,
            |row| (named(row, "lot", "id", "id"), crate::reader::lot(row)),
        )?;
        let batches = self.lenient(
            "SELECT *, EXISTS (SELECT 1 FROM entry undo WHERE undo.reverses = batch.entry) AS reversed
             FROM batch ORDER BY id",
            &mut notes,
            |row| (named(row, "batch", "id", "id"), crate::reader::batch(row)),
        )?;
        let batch_events = self.lenient(
            "SELECT fact.*, at, on_day,
                    EXISTS (SELECT 1 FROM entry undo WHERE undo.reverses = fact.entry) AS reversed
             FROM batch_event fact LEFT JOIN entry ON entry.id = fact.entry ORDER BY fact.id",
            &mut notes,
            |row| {
                (
                    named(row, "batch event", "id", "id"),
                    crate::reader::batch_event(row),
                )
            },
        )?;
        let books = Books {
            entries: self.many("SELECT id FROM entry ORDER BY id", [], |row| row.get(0))?,
            reversals: self.reversals()?,
            legs: self.legs()?,
            sums: self.sums()?,
            movements,
            containers,
            lots: self.many(
                "SELECT id, entry, milligrams, crop FROM lot ORDER BY id",
                [],
                |row| {
                    Ok(LotWeight {
                        lot: row.get(0)?,
                        entry: row.get(1)?,
                        milligrams: row.get(2)?,
                        crop: row.get(3)?,
                    })
                },
            )?,
            finished_batches: batch_events
                .iter()
                .filter(|event| event.kind == BatchEventKind::Outcome && !event.reversed)
                .map(|event| event.batch)
                .collect(),
            counts,
        };
        Ok(CheckRows {
            books,
            unreadable: notes.unreadable,
            tried: notes.tried,
            entries,
            lots: lots.into_iter().filter(|lot| !lot.reversed).collect(),
            batches: batches
                .into_iter()
                .filter(|batch| !batch.reversed)
                .collect(),
            batch_events,
            file: self.file_check()?,
        })
    }

    /// The engine's integrity and foreign-key checks.
    ///
    /// # Errors
    /// [`StoreError::Damaged`] when the file is too broken even to be checked.
    pub fn file_check(&self) -> Result<FileCheck, StoreError> {
        let integrity: Vec<String> = self
            .many(
                "SELECT integrity_check FROM pragma_integrity_check",
                [],
                |row| row.get(0),
            )?
            .into_iter()
            .filter(|line: &String| line != "ok")
            .collect();
        let foreign_keys = self.many(
            "SELECT \"table\", rowid, parent FROM pragma_foreign_key_check",
            [],
            |row| {
                let (table, parent): (String, String) = (row.get(0)?, row.get(2)?);
                let rowid: Option<i64> = row.get(1)?;
                let rowid = rowid.map_or_else(String::new, |rowid| format!(" row {rowid}"));
                Ok(format!(
                    "{table}{rowid} refers to a {parent} that is not there"
                ))
            },
        )?;
        let tables: Vec<String> = self.many(
            "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%'",
            [],
            |row| row.get(0),
        )?;
        let mut rows = 0_i64;
        for table in tables {
            // Names come from the schema itself, quoted as an identifier.
            let sql = format!("SELECT count(*) FROM \"{}\"", table.replace('"', "\"\""));
            rows = rows.saturating_add(self.conn.query_row(&sql, [], |row| row.get(0))?);
        }
        Ok(FileCheck {
            rows,
            integrity,
            foreign_keys,
        })
    }

    fn legs(&self) -> Result<Vec<Leg>, StoreError> {
        let ends = self.many(
            "SELECT entry, line, crop, from_place, to_place, milligrams FROM movement
             ORDER BY entry, line",
            [],
            |row| {
                let (leaves, arrives): (String, String) = (row.get(3)?, row.get(4)?);
                let leg = Leg {
                    entry: row.get(0)?,
                    line: row.get(1)?,
                    crop: row.get(2)?,
                    place: leaves,
                    end: End::Leaves,
                    milligrams: row.get(5)?,
                };
                let other = Leg {
                    place: arrives,
                    end: End::Arrives,
                    ..leg.clone()
                };
                Ok([leg, other])
            },
        )?;
        Ok(ends.into_iter().flatten().collect())
    }

    fn sums(&self) -> Result<Vec<EntrySum>, StoreError> {
        self.many("SELECT * FROM entry_sum ORDER BY entry", [], |row| {
            Ok(EntrySum {
                entry: row.get("entry")?,
                lines: row.get("movement_lines")?,
                milligrams: row.get("milligrams")?,
                container_lines: row.get("container_lines")?,
                containers: row.get("containers")?,
            })
        })
    }

    /// Reads rows one by one; those that cannot be understood go to the notes.
    fn lenient<T>(
        &self,
        sql: &str,
        notes: &mut Notes,
        read: impl Fn(&Row<'_>) -> (Option<String>, rusqlite::Result<T>),
    ) -> Result<Vec<T>, StoreError> {
        let mut statement = self.conn.prepare_cached(sql)?;
        let mut rows = statement.query([])?;
        let mut understood = Vec::new();
        while let Some(row) = rows.next()? {
            notes.tried += 1;
            match read(row) {
                (_, Ok(record)) => understood.push(record),
                (Some(name), Err(error)) => notes.unreadable.push(format!("{name}: {error}")),
                (None, Err(_)) => {}
            }
        }
        Ok(understood)
    }
}

#[derive(Default)]
struct Notes {
    unreadable: Vec<String>,
    tried: usize,
}

fn named(row: &Row<'_>, kind: &str, first: &str, second: &str) -> Option<String> {
    let number = |column: &str| row.get::<_, i64>(column).unwrap_or_default();
    Some(if first == second {
        format!("{kind} {}", number(first))
    } else {
        format!("{kind} {}/{}", number(first), number(second))
    })
}
