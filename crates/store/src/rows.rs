//! Reading single columns: dates, places, contents, kinds.

use jiff::civil::Date;
use ledger::{ContainerMovement, Content, CountLine, Movement, Place};
use rusqlite::Row;
use rusqlite::types::Type;
use std::fmt::Display;
use std::str::FromStr;

/// A text column that must parse as `T`; a text that does not names its column in the error.
pub(crate) fn parsed<T>(row: &Row<'_>, column: &str) -> rusqlite::Result<T>
where
    T: FromStr,
    T::Err: Display,
{
    let text: String = row.get(column)?;
    text.parse::<T>()
        .map_err(|error| bad(row, column, format!("{column} \"{text}\": {error}")))
}

pub(crate) fn date(row: &Row<'_>, column: &str) -> rusqlite::Result<Date> {
    parsed(row, column)
}

pub(crate) fn place(row: &Row<'_>, column: &str) -> rusqlite::Result<Place> {
    parsed(row, column)
}

fn bad(row: &Row<'_>, column: &str, detail: String) -> rusqlite::Error {
    let at = row.as_ref().column_index(column).unwrap_or(0);
    rusqlite::Error::FromSqlConversionFailure(at, Type::Text, detail.into())
}

fn content(row: &Row<'_>, lot: &str, batch: &str) -> rusqlite::Result<Option<Content>> {
    let lot_id: Option<i64> = row.get(lot)?;
    let batch_id: Option<i64> = row.get(batch)?;
    Ok(lot_id.map(Content::Lot).or(batch_id.map(Content::Batch)))
}

pub(crate) fn movement(row: &Row<'_>) -> rusqlite::Result<Movement> {
    let content_before = content(row, "lot", "batch")?
        .ok_or_else(|| bad(row, "lot", "neither lot nor batch".to_owned()))?;
    Ok(Movement {
        entry: row.get("entry")?,
        line: row.get("line")?,
        on: date(row, "on_day")?,
        crop: row.get("crop")?,
        content: content_before,
        becomes: content(row, "becomes_lot", "becomes_batch")?,
        from: place(row, "from_place")?,
        to: place(row, "to_place")?,
        milligrams: row.get("milligrams")?,
        estimated: row.get("estimated")?,
    })
}

pub(crate) fn container_movement(row: &Row<'_>) -> rusqlite::Result<ContainerMovement> {
    Ok(ContainerMovement {
        entry: row.get("entry")?,
        line: row.get("line")?,
        on: date(row, "on_day")?,
        batch: row.get("batch")?,
        size: row.get("size")?,
        from: place(row, "from_place")?,
        to: place(row, "to_place")?,
        count: row.get("count")?,
    })
}

pub(crate) fn count_line(row: &Row<'_>) -> rusqlite::Result<CountLine> {
    Ok(CountLine {
        entry: row.get("entry")?,
        line: row.get("line")?,
        place: place(row, "place")?,
        batch: row.get("batch")?,
        size: row.get("size")?,
        found: row.get("found")?,
        recorded: row.get("recorded")?,
    })
}

/// The row would be understood if its places had names the ledger knows.
pub(crate) fn only_place_unknown(row: &Row<'_>) -> bool {
    date(row, "on_day").is_ok()
        && (place(row, "from_place").is_err() || place(row, "to_place").is_err())
}
