//! Reads of the file. Everything a [`Reader`] answers belongs to one moment.

use crate::error::StoreError;
use crate::record::{
    BatchEvent, BatchRecord, EntryRecord, HarvestPlanRecord, HouseRecord, HouseholdRecipeRecord,
    LotRecord, LotStatement, TimetableRecord,
};
use crate::rows::{container_movement, count_line, date, movement, parsed, place};
use jiff::civil::Date;
use ledger::{ContainerMovement, CountLine, Movement};
use rusqlite::{Connection, OptionalExtension, Params, Row};

/// A view of the file at one moment: what it answers does not change while it is held.
pub struct Reader<'c> {
    pub(crate) conn: &'c Connection,
}

/// True for a row whose entry was undone.
const UNDONE: &str = "EXISTS (SELECT 1 FROM entry undo WHERE undo.reverses = fact.entry)";

impl Reader<'_> {
    /// The house as last described, unless nothing was ever described.
    ///
    /// # Errors
    /// Those of any read: [`StoreError::Damaged`], [`StoreError::BadRow`], [`StoreError::Busy`].
    pub fn latest_house(&self) -> Result<Option<HouseRecord>, StoreError> {
        self.one(
            &format!(
                "SELECT fact.*, on_day FROM house fact JOIN entry ON entry.id = fact.entry
                 WHERE NOT {UNDONE} ORDER BY fact.entry DESC LIMIT 1"
            ),
            [],
            |row| {
                Ok(HouseRecord {
                    entry: row.get("entry")?,
                    on: date(row, "on_day")?,
                    content: row.get("content")?,
                })
            },
        )
    }

    /// Every version of the household's own recipes whose entry stands, oldest first: the last one
    /// of a key is the recipe as it is now.
    ///
    /// # Errors
    /// Those of any read.
    pub fn household_recipes(&self) -> Result<Vec<HouseholdRecipeRecord>, StoreError> {
        self.many(
            &format!(
                "SELECT fact.*, on_day FROM household_recipe fact
                 JOIN entry ON entry.id = fact.entry
                 WHERE NOT {UNDONE} ORDER BY fact.id"
            ),
            [],
            |row| {
                Ok(HouseholdRecipeRecord {
                    id: row.get("id")?,
                    entry: row.get("entry")?,
                    on: date(row, "on_day")?,
                    key: row.get("key")?,
                    title: row.get("title")?,
                    content: row.get("content")?,
                })
            },
        )
    }

    /// Every lot whose entry stands, in order of number.
    ///
    /// # Errors
    /// Those of any read.
    pub fn lots(&self) -> Result<Vec<LotRecord>, StoreError> {
        self.many(
            &format!(
                "SELECT fact.*, 0 AS reversed FROM lot fact WHERE NOT {UNDONE} ORDER BY fact.id"
            ),
            [],
            lot,
        )
    }

    /// One lot, undone or not.
    ///
    /// # Errors
    /// [`StoreError::Missing`] and those of any read.
    pub fn lot(&self, id: i64) -> Result<LotRecord, StoreError> {
        self.one(
            &format!("SELECT fact.*, {UNDONE} AS reversed FROM lot fact WHERE fact.id = ?1"),
            [id],
            lot,
        )?
        .ok_or(StoreError::Missing { what: "lot", id })
    }

    /// Everything said of one lot, oldest first, undone statements included and marked.
    ///
    /// # Errors
    /// Those of any read.
    pub fn lot_statements(&self, lot: i64) -> Result<Vec<LotStatement>, StoreError> {
        self.many(
            &format!(
                "SELECT fact.*, on_day, {UNDONE} AS reversed
                 FROM lot_statement fact JOIN entry ON entry.id = fact.entry
                 WHERE fact.lot = ?1 ORDER BY fact.id"
            ),
            [lot],
            lot_statement,
        )
    }

    /// Everything said of any lot, oldest first, undone statements included and marked.
    ///
    /// # Errors
    /// Those of any read.
    pub fn all_lot_statements(&self) -> Result<Vec<LotStatement>, StoreError> {
        self.many(
            &format!(
                "SELECT fact.*, on_day, {UNDONE} AS reversed
                 FROM lot_statement fact JOIN entry ON entry.id = fact.entry ORDER BY fact.id"
            ),
            [],
            lot_statement,
        )
    }

    /// Every movement of food, in the order taken down. Undone ones are there with their opposites:
    /// balances are plain sums.
    ///
    /// # Errors
    /// Those of any read.
    pub fn movements(&self) -> Result<Vec<Movement>, StoreError> {
        self.many("SELECT * FROM movement ORDER BY entry, line", [], movement)
    }

    /// The movements of one entry.
    ///
    /// # Errors
    /// Those of any read.
    pub fn movements_of(&self, entry: i64) -> Result<Vec<Movement>, StoreError> {
        self.many(
            "SELECT * FROM movement WHERE entry = ?1 ORDER BY line",
            [entry],
            movement,
        )
    }

    /// Every movement of containers, in the order taken down.
    ///
    /// # Errors
    /// Those of any read.
    pub fn container_movements(&self) -> Result<Vec<ContainerMovement>, StoreError> {
        self.many(
            "SELECT * FROM container_movement ORDER BY entry, line",
            [],
            container_movement,
        )
    }

    /// The container movements of one entry.
    ///
    /// # Errors
    /// Those of any read.
    pub fn container_movements_of(&self, entry: i64) -> Result<Vec<ContainerMovement>, StoreError> {
        self.many(
            "SELECT * FROM container_movement WHERE entry = ?1 ORDER BY line",
            [entry],
            container_movement,
        )
    }

    /// Every batch whose entry stands, in order of number.
    ///
    /// # Errors
    /// Those of any read.
    pub fn batches(&self) -> Result<Vec<BatchRecord>, StoreError> {
        self.many(
            &format!(
                "SELECT fact.*, 0 AS reversed FROM batch fact WHERE NOT {UNDONE} ORDER BY fact.id"
            ),
            [],
            batch,
        )
    }

    /// One batch, undone or not.
    ///
    /// # Errors
    /// [`StoreError::Missing`] and those of any read.
    pub fn batch(&self, id: i64) -> Result<BatchRecord, StoreError> {
        self.one(
            &format!("SELECT fact.*, {UNDONE} AS reversed FROM batch fact WHERE fact.id = ?1"),
            [id],
            batch,
        )?
        .ok_or(StoreError::Missing { what: "batch", id })
    }

    /// Everything that happened to one batch, oldest first, undone events included and marked.
    ///
    /// # Errors
    /// Those of any read.
    pub fn batch_events(&self, batch: i64) -> Result<Vec<BatchEvent>, StoreError> {
        self.many(
            &format!(
                "SELECT fact.*, at, on_day, {UNDONE} AS reversed
                 FROM batch_event fact JOIN entry ON entry.id = fact.entry
                 WHERE fact.batch = ?1 ORDER BY fact.id"
            ),
            [batch],
            batch_event,
        )
    }

    /// Everything that happened to any batch, oldest first, undone events included and marked.
    ///
    /// # Errors
    /// Those of any read.
    pub fn all_batch_events(&self) -> Result<Vec<BatchEvent>, StoreError> {
        self.many(
            &format!(
                "SELECT fact.*, at, on_day, {UNDONE} AS reversed
                 FROM batch_event fact JOIN entry ON entry.id = fact.entry ORDER BY fact.id"
            ),
            [],
            batch_event,
        )
    }

    /// The harvest plan accepted last, unless none was or its acceptance was undone.
    ///
    /// # Errors
    /// Those of any read.
    pub fn latest_harvest_plan(&self) -> Result<Option<HarvestPlanRecord>, StoreError> {
        self.one(
            &format!(
                "SELECT fact.*, on_day FROM harvest_plan fact JOIN entry ON entry.id = fact.entry
                 WHERE NOT {UNDONE} ORDER BY fact.id DESC LIMIT 1"
            ),
            [],
            |row| {
                Ok(HarvestPlanRecord {
                    id: row.get("id")?,
                    entry: row.get("entry")?,
                    on: date(row, "on_day")?,
                    problem: row.get("problem")?,
                    harvest_plan: row.get("harvest_plan")?,
                })
            },
        )
    }

    /// The timetable accepted last for a kitchen day.
    ///
    /// # Errors
    /// Those of any read.
    pub fn timetable_for(&self, day: Date) -> Result<Option<TimetableRecord>, StoreError> {
        self.one(
            &format!(
                "SELECT fact.* FROM timetable fact
                 WHERE fact.day = ?1 AND NOT {UNDONE} ORDER BY fact.id DESC LIMIT 1"
            ),
            [day.to_string()],
            |row| {
                Ok(TimetableRecord {
                    id: row.get("id")?,
                    entry: row.get("entry")?,
                    day: date(row, "day")?,
                    problem: row.get("problem")?,
                    timetable: row.get("timetable")?,
                    labels: row.get("labels")?,
                })
            },
        )
    }

    /// Every shelf count whose entry stands, in the order taken down.
    ///
    /// # Errors
    /// Those of any read.
    pub fn shelf_counts(&self) -> Result<Vec<CountLine>, StoreError> {
        self.many(
            &format!("SELECT * FROM shelf_count fact WHERE NOT {UNDONE} ORDER BY entry, line"),
            [],
            count_line,
        )
    }

    /// The latest `n` entries, newest first.
    ///
    /// # Errors
    /// Those of any read.
    pub fn entries(&self, n: usize) -> Result<Vec<EntryRecord>, StoreError> {
        let limit = i64::try_from(n).unwrap_or(i64::MAX);
        self.many(
            "SELECT entry.*, undo.id AS reversed_by FROM entry
             LEFT JOIN entry undo ON undo.reverses = entry.id
             ORDER BY entry.id DESC LIMIT ?1",
            [limit],
            entry,
        )
    }

    /// The entry that a form's token was taken with.
    ///
    /// # Errors
    /// Those of any read.
    pub fn entry_of_token(&self, token: &str) -> Result<Option<i64>, StoreError> {
        self.one("SELECT id FROM entry WHERE token = ?1", [token], |row| {
            row.get(0)
        })
    }

    /// One entry.
    ///
    /// # Errors
    /// [`StoreError::Missing`] and those of any read.
    pub fn entry(&self, id: i64) -> Result<EntryRecord, StoreError> {
        self.one(
            "SELECT entry.*, undo.id AS reversed_by FROM entry
             LEFT JOIN entry undo ON undo.reverses = entry.id
             WHERE entry.id = ?1",
            [id],
            entry,
        )?
        .ok_or(StoreError::Missing { what: "entry", id })
    }

    /// Pairs of (undoing entry, undone entry).
    ///
    /// # Errors
    /// Those of any read.
    pub fn reversals(&self) -> Result<Vec<(i64, i64)>, StoreError> {
        self.many(
            "SELECT id, reverses FROM entry WHERE reverses IS NOT NULL ORDER BY id",
            [],
            |row| Ok((row.get(0)?, row.get(1)?)),
        )
    }

    pub(crate) fn many<T>(
        &self,
        sql: &str,
        params: impl Params,
        read: impl FnMut(&Row<'_>) -> rusqlite::Result<T>,
    ) -> Result<Vec<T>, StoreError> {
        let mut statement = self.conn.prepare_cached(sql)?;
        let rows = statement.query_map(params, read)?;
        Ok(rows.collect::<Result<_, _>>()?)
    }

    pub(crate) fn one<T>(
        &self,
        sql: &str,
        params: impl Params,
        read: impl FnOnce(&Row<'_>) -> rusqlite::Result<T>,
    ) -> Result<Option<T>, StoreError> {
        let mut statement = self.conn.prepare_cached(sql)?;
        Ok(statement.query_row(params, read).optional()?)
    }
}

pub(crate) fn entry(row: &Row<'_>) -> rusqlite::Result<EntryRecord> {
    Ok(EntryRecord {
        id: row.get("id")?,
        at: row.get("at")?,
        on: date(row, "on_day")?,
        who: row.get("who")?,
        kind: row.get("kind")?,
        note: row.get("note")?,
        reverses: row.get("reverses")?,
        reversed_by: row.get("reversed_by")?,
    })
}

pub(crate) fn lot(row: &Row<'_>) -> rusqlite::Result<LotRecord> {
    Ok(LotRecord {
        id: row.get("id")?,
        entry: row.get("entry")?,
        crop: row.get("crop")?,
        variety: row.get("variety")?,
        grade: row.get("grade")?,
        place: place(row, "place")?,
        temperature_f: row.get("temperature_f")?,
        picked_on: date(row, "picked_on")?,
        milligrams: row.get("milligrams")?,
        how_weighed: row.get("how_weighed")?,
        note: row.get("note")?,
        reversed: row.get("reversed")?,
    })
}

fn lot_statement(row: &Row<'_>) -> rusqlite::Result<LotStatement> {
    Ok(LotStatement {
        id: row.get("id")?,
        entry: row.get("entry")?,
        on: date(row, "on_day")?,
        lot: row.get("lot")?,
        key: row.get("key")?,
        value: row.get("value")?,
        reversed: row.get("reversed")?,
    })
}

pub(crate) fn batch(row: &Row<'_>) -> rusqlite::Result<BatchRecord> {
    Ok(BatchRecord {
        id: row.get("id")?,
        entry: row.get("entry")?,
        recipe: row.get("recipe")?,
        batches: row.get("batches")?,
        for_day: date(row, "for_day")?,
        jar: row.get("jar")?,
        question: row.get("question")?,
        permit_record: row.get("permit_record")?,
        route_verdict: row.get("route_verdict")?,
        card: row.get("card")?,
        planned_inputs: row.get("planned_inputs")?,
        reversed: row.get("reversed")?,
    })
}

pub(crate) fn batch_event(row: &Row<'_>) -> rusqlite::Result<BatchEvent> {
    Ok(BatchEvent {
        id: row.get("id")?,
        entry: row.get("entry")?,
        at: row.get("at")?,
        on: date(row, "on_day")?,
        batch: row.get("batch")?,
        kind: parsed(row, "kind")?,
        content: row.get("content")?,
        reversed: row.get("reversed")?,
    })
}
