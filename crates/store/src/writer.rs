//! What can be appended to an entry while it is open.

use crate::error::StoreError;
use crate::reader::Reader;
use crate::record::{BatchEventKind, NewBatch, NewLot};
use jiff::civil::Date;
use ledger::{ContainerMovement, Content, CountLine, Movement, Place, reverse, reverse_containers};
use rusqlite::{Connection, params};
use std::cell::{Cell, RefCell};
use std::collections::BTreeSet;
use std::ops::Deref;

/// An open entry. Reads through it see what it has written so far; everything becomes visible to
/// others at once when the entry is finished, or never.
pub struct Writer<'c> {
    reader: Reader<'c>,
    entry: i64,
    on: Date,
    undoing: bool,
    lines: Cell<u16>,
    milligrams: Cell<i64>,
    container_lines: Cell<u16>,
    containers: Cell<i64>,
    counts: Cell<u16>,
    emptied: RefCell<BTreeSet<(Content, String, Place)>>,
    fetched: RefCell<BTreeSet<(i64, String, Place)>>,
}

impl<'c> Deref for Writer<'c> {
    type Target = Reader<'c>;

    fn deref(&self) -> &Reader<'c> {
        &self.reader
    }
}

impl<'c> Writer<'c> {
    pub(crate) fn new(conn: &'c Connection, entry: i64, on: Date, undoing: bool) -> Self {
        Self {
            reader: Reader { conn },
            entry,
            on,
            undoing,
            lines: Cell::new(0),
            milligrams: Cell::new(0),
            container_lines: Cell::new(0),
            containers: Cell::new(0),
            counts: Cell::new(0),
            emptied: RefCell::default(),
            fetched: RefCell::default(),
        }
    }

    /// The open entry's number.
    #[must_use]
    pub const fn entry_id(&self) -> i64 {
        self.entry
    }

    /// Describes the house anew (JSON).
    ///
    /// # Errors
    /// [`StoreError::Refused`] when the text is no JSON or the house was described in this entry
    /// already; those of any write.
    pub fn add_house(&self, content: &str) -> Result<(), StoreError> {
        self.insert(
            "INSERT INTO house (entry, content) VALUES (?1, ?2)",
            params![self.entry, content],
        )?;
        Ok(())
    }

    /// Keeps a version of a household's own recipe (JSON) and gives its number.
    ///
    /// # Errors
    /// [`StoreError::Refused`] for a text that is no JSON, an empty key or title; those of any
    /// write.
    pub fn add_household_recipe(
        &self,
        key: &str,
        title: &str,
        content: &str,
    ) -> Result<i64, StoreError> {
        self.insert(
            "INSERT INTO household_recipe (entry, key, title, content) VALUES (?1, ?2, ?3, ?4)",
            params![self.entry, key, title, content],
        )
    }

    /// Adds a lot and gives its number. Its weight comes into it by [`Writer::add_movements`].
    ///
    /// # Errors
    /// [`StoreError::Refused`] for a weight out of range or an empty crop; those of any write.
    pub fn add_lot(&self, lot: &NewLot) -> Result<i64, StoreError> {
        self.insert(
            "INSERT INTO lot (entry, crop, variety, grade, place, temperature_f, picked_on,
                              milligrams, how_weighed, note)
             VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10)",
            params![
                self.entry,
                lot.crop,
                lot.variety,
                lot.grade,
                lot.place.as_str(),
                lot.temperature_f,
                lot.picked_on.to_string(),
                lot.milligrams,
                lot.how_weighed,
                lot.note,
            ],
        )
    }

    /// Says something of a lot: its history, a new grade, another place, spoiled.
    ///
    /// # Errors
    /// [`StoreError::Refused`] for an unknown lot or an empty key; those of any write.
    pub fn add_lot_statement(&self, lot: i64, key: &str, value: &str) -> Result<i64, StoreError> {
        self.insert(
            "INSERT INTO lot_statement (entry, lot, key, value) VALUES (?1, ?2, ?3, ?4)",
            params![self.entry, lot, key, value],
        )
    }

    /// Moves food. The movements become this entry's, numbered on from those already added,
    /// whatever entry and line they came with.
    ///
    /// # Errors
    /// [`StoreError::Ledger`] for a movement that is not sound; [`StoreError::Refused`] for an
    /// unknown lot or batch; those of any write.
    pub fn add_movements(&self, movements: &[Movement]) -> Result<(), StoreError> {
        for movement in movements {
            if self.undoing {
                movement.sound_as_reversal()?;
            } else {
                movement.sound()?;
            }
            let (lot, batch) = columns(Some(movement.content));
            let (becomes_lot, becomes_batch) = columns(movement.becomes);
            let line = self.lines.get();
            self.insert(
                "INSERT INTO movement (entry, line, on_day, crop, lot, batch, becomes_lot,
                                       becomes_batch, from_place, to_place, milligrams, estimated)
                 VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12)",
                params![
                    self.entry,
                    line,
                    movement.on.to_string(),
                    movement.crop,
                    lot,
                    batch,
                    becomes_lot,
                    becomes_batch,
                    movement.from.as_str(),
                    movement.to.as_str(),
                    movement.milligrams,
                    movement.estimated,
                ],
            )?;
            self.lines.set(next(line)?);
            self.emptied.borrow_mut().insert((
                movement.content,
                movement.crop.clone(),
                movement.from,
            ));
            self.milligrams
                .set(self.milligrams.get().saturating_add(movement.milligrams));
        }
        Ok(())
    }

    /// Moves containers; entry and line are set as for [`Writer::add_movements`].
    ///
    /// # Errors
    /// As for [`Writer::add_movements`].
    pub fn add_container_movements(
        &self,
        movements: &[ContainerMovement],
    ) -> Result<(), StoreError> {
        for movement in movements {
            if self.undoing {
                movement.sound_as_reversal()?;
            } else {
                movement.sound()?;
            }
            let line = self.container_lines.get();
            self.insert(
                "INSERT INTO container_movement (entry, line, on_day, batch, size, from_place,
                                                 to_place, count)
                 VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8)",
                params![
                    self.entry,
                    line,
                    movement.on.to_string(),
                    movement.batch,
                    movement.size,
                    movement.from.as_str(),
                    movement.to.as_str(),
                    movement.count,
                ],
            )?;
            self.container_lines.set(next(line)?);
            self.fetched.borrow_mut().insert((
                movement.batch,
                movement.size.clone(),
                movement.from,
            ));
            self.containers
                .set(self.containers.get().saturating_add(movement.count));
        }
        Ok(())
    }

    /// Adds the opposite of everything the entry that this one undoes had moved.
    ///
    /// # Errors
    /// [`StoreError::Refused`] when this entry undoes none; those of any write.
    pub fn add_opposite_movements(&self) -> Result<(), StoreError> {
        let undone = self.entry(self.entry)?.reverses.ok_or_else(|| {
            StoreError::Refused(format!("entry {} does not undo another", self.entry))
        })?;
        self.add_movements(&reverse(&self.movements_of(undone)?, self.entry, self.on))?;
        let containers = self.container_movements_of(undone)?;
        self.add_container_movements(&reverse_containers(&containers, self.entry, self.on))
    }

    /// Adds a batch and gives its number.
    ///
    /// # Errors
    /// [`StoreError::Refused`] when neither a permit record nor a route verdict comes with it, or a
    /// column that should be JSON is not; those of any write.
    pub fn add_batch(&self, batch: &NewBatch) -> Result<i64, StoreError> {
        if batch.permit_record.is_none() && batch.route_verdict.is_none() {
            return Err(StoreError::Refused(format!(
                "the batch of {} carries neither a permit nor a verdict of the gate",
                batch.recipe
            )));
        }
        self.insert(
            "INSERT INTO batch (entry, recipe, batches, for_day, jar, question, permit_record,
                                route_verdict, card, planned_inputs)
             VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10)",
            params![
                self.entry,
                batch.recipe,
                batch.batches,
                batch.for_day.to_string(),
                batch.jar,
                batch.question,
                batch.permit_record,
                batch.route_verdict,
                batch.card,
                batch.planned_inputs,
            ],
        )
    }

    /// Takes down what happened to a batch (JSON).
    ///
    /// # Errors
    /// [`StoreError::Refused`] for an unknown batch or a text that is no JSON; those of any write.
    pub fn add_batch_event(
        &self,
        batch: i64,
        kind: BatchEventKind,
        content: &str,
    ) -> Result<i64, StoreError> {
        self.insert(
            "INSERT INTO batch_event (entry, batch, kind, content) VALUES (?1, ?2, ?3, ?4)",
            params![self.entry, batch, kind.as_str(), content],
        )
    }

    /// Keeps an accepted harvest plan with the problem it answers (both JSON).
    ///
    /// # Errors
    /// [`StoreError::Refused`] for a text that is no JSON; those of any write.
    pub fn add_harvest_plan(&self, problem: &str, harvest_plan: &str) -> Result<i64, StoreError> {
        self.insert(
            "INSERT INTO harvest_plan (entry, problem, harvest_plan) VALUES (?1, ?2, ?3)",
            params![self.entry, problem, harvest_plan],
        )
    }

    /// Keeps an accepted kitchen-day timetable with its problem and names (all JSON).
    ///
    /// # Errors
    /// [`StoreError::Refused`] for a text that is no JSON; those of any write.
    pub fn add_timetable(
        &self,
        day: Date,
        problem: &str,
        timetable: &str,
        labels: &str,
    ) -> Result<i64, StoreError> {
        self.insert(
            "INSERT INTO timetable (entry, day, problem, timetable, labels)
             VALUES (?1, ?2, ?3, ?4, ?5)",
            params![self.entry, day.to_string(), problem, timetable, labels],
        )
    }

    /// Keeps what a shelf count found; entry and line are set as for [`Writer::add_movements`].
    ///
    /// # Errors
    /// [`StoreError::Refused`] for an unknown batch or a finding below zero; those of any write.
    pub fn add_shelf_count(&self, counts: &[CountLine]) -> Result<(), StoreError> {
        for count in counts {
            let line = self.counts.get();
            self.insert(
                "INSERT INTO shelf_count (entry, line, place, batch, size, found, recorded)
                 VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7)",
                params![
                    self.entry,
                    line,
                    count.place.as_str(),
                    count.batch,
                    count.size,
                    count.found,
                    count.recorded,
                ],
            )?;
            self.counts.set(next(line)?);
        }
        Ok(())
    }

    /// Ends the entry: nothing may be taken that is not there, and what was moved is written down
    /// so that a line lost later shows.
    pub(crate) fn close(&self) -> Result<(), StoreError> {
        self.refuse_below_zero()?;
        self.insert(
            "INSERT INTO entry_sum (entry, movement_lines, milligrams, container_lines, containers)
             VALUES (?1, ?2, ?3, ?4, ?5)",
            params![
                self.entry,
                self.lines.get(),
                self.milligrams.get(),
                self.container_lines.get(),
                self.containers.get(),
            ],
        )?;
        Ok(())
    }

    /// The last defence of two people taking the same jar at once: whoever decided on figures that
    /// have changed since is refused here, inside the transaction.
    fn refuse_below_zero(&self) -> Result<(), StoreError> {
        for (content, crop, place) in self.emptied.borrow().iter() {
            let (content_column, becomes, id) = match content {
                Content::Lot(id) => ("lot", "becomes_lot", id),
                Content::Batch(id) => ("batch", "becomes_batch", id),
            };
            let sql = format!(
                "SELECT coalesce(sum(CASE WHEN to_place = ?3 THEN milligrams ELSE 0 END), 0)
                 FROM movement WHERE crop = ?2 AND {becomes} = ?1
                 UNION ALL
                 SELECT coalesce(sum(CASE WHEN from_place = ?3 THEN -milligrams ELSE 0 END
                                   + CASE WHEN to_place = ?3 AND becomes_lot IS NULL
                                               AND becomes_batch IS NULL
                                          THEN milligrams ELSE 0 END), 0)
                 FROM movement WHERE crop = ?2 AND {content_column} = ?1"
            );
            let parts: Vec<i64> =
                self.many(&sql, params![id, crop, place.as_str()], |row| row.get(0))?;
            let sum: i64 = parts.into_iter().fold(0, i64::saturating_add);
            if place.is_touchable() && sum < 0 {
                return Err(StoreError::NotThatMuch {
                    what: format!("{crop} of {content}"),
                    place: *place,
                    short_by: format!("{} mg", sum.saturating_neg()),
                });
            }
        }
        for (batch, size, place) in self.fetched.borrow().iter() {
            let sum: Option<i64> = self.one(
                "SELECT coalesce(sum(CASE WHEN to_place = ?3 THEN count ELSE 0 END
                                   - CASE WHEN from_place = ?3 THEN count ELSE 0 END), 0)
                 FROM container_movement WHERE batch = ?1 AND size = ?2",
                params![batch, size, place.as_str()],
                |row| row.get(0),
            )?;
            let sum = sum.unwrap_or(0);
            if place.holds_containers() && sum < 0 {
                return Err(StoreError::NotThatMuch {
                    what: format!("{size} of batch {batch}"),
                    place: *place,
                    short_by: sum.saturating_neg().to_string(),
                });
            }
        }
        Ok(())
    }

    fn insert(&self, sql: &str, values: impl rusqlite::Params) -> Result<i64, StoreError> {
        self.conn.prepare_cached(sql)?.execute(values)?;
        Ok(self.conn.last_insert_rowid())
    }
}

const fn columns(content: Option<Content>) -> (Option<i64>, Option<i64>) {
    match content {
        Some(Content::Lot(lot)) => (Some(lot), None),
        Some(Content::Batch(batch)) => (None, Some(batch)),
        None => (None, None),
    }
}

fn next(line: u16) -> Result<u16, StoreError> {
    line.checked_add(1)
        .ok_or_else(|| StoreError::Refused("one entry holds at most 65,535 lines".to_owned()))
}
