//! Reads one table from bytes: header row, then typed rows that know their line and source.

mod column;

use crate::problem::TableProblem;
use crate::sources::Sources;
use serde::de::DeserializeOwned;
use std::collections::BTreeMap;

/// Tables by name (`process/processes.csv`), as bytes. Where they come from is the caller's business.
pub type Files = BTreeMap<String, Vec<u8>>;

/// A row of a printed table.
pub trait Row: DeserializeOwned {
    /// The table's name under `data/`.
    const FILE: &'static str;
    /// The columns the table must have, in any order.
    const COLUMNS: &'static [&'static str];
    /// Where the row was read: the text of its `source` or `page` column.
    fn printed_source(&self) -> &str;
    /// Takes the line number and the source text fit to show.
    fn settle(&mut self, line: u64, source: String);
}

/// Reads every row of `T`; rows that cannot be read become problems, the others are kept.
pub fn read_rows<T: Row>(
    files: &Files,
    sources: &Sources,
    problems: &mut Vec<TableProblem>,
) -> Vec<T> {
    let Some(bytes) = files.get(T::FILE) else {
        problems.push(TableProblem::new(
            T::FILE,
            0,
            "missing-table",
            "the table is not there".to_owned(),
        ));
        return Vec::new();
    };
    let mut reader = csv::Reader::from_reader(bytes.as_slice());
    let headers = match reader.headers() {
        Ok(headers) => headers.clone(),
        Err(error) => {
            problems.push(TableProblem::new(
                T::FILE,
                1,
                "unreadable-row",
                error.to_string(),
            ));
            return Vec::new();
        }
    };
    for column in T::COLUMNS {
        if !headers.iter().any(|h| h == *column) {
            problems.push(TableProblem::new(
                T::FILE,
                1,
                "missing-column",
                format!("no column `{column}` in the header row"),
            ));
            return Vec::new();
        }
    }
    let mut rows = Vec::new();
    let mut lines = Lines::new(bytes);
    for record in reader.records() {
        let record = match record {
            Ok(record) => record,
            Err(error) => {
                let line = lines.of(error.position());
                problems.push(TableProblem::new(
                    T::FILE,
                    line,
                    "unreadable-row",
                    error.to_string(),
                ));
                continue;
            }
        };
        let line = lines.of(record.position());
        match record.deserialize::<T>(Some(&headers)) {
            Ok(mut row) => {
                let printed = row.printed_source().to_owned();
                match sources.show(&printed) {
                    Some(text) => row.settle(line, text),
                    None => {
                        problems.push(no_source(T::FILE, line, &printed));
                        row.settle(line, printed);
                    }
                }
                rows.push(row);
            }
            Err(error) => problems.push(cell_problem::<T>(line, &headers, &record, &error)),
        }
    }
    rows
}

/// Counts lines by bytes: the csv crate places a row that follows `\r\n` one line too early.
struct Lines<'b> {
    bytes: &'b [u8],
    at: usize,
    line: u64,
}

impl<'b> Lines<'b> {
    fn new(bytes: &'b [u8]) -> Lines<'b> {
        Lines {
            bytes,
            at: 0,
            line: 1,
        }
    }

    /// The line of a row; rows are asked in their order.
    fn of(&mut self, position: Option<&csv::Position>) -> u64 {
        let start = position
            .map_or(self.at, |p| p.byte() as usize)
            .min(self.bytes.len());
        let line_end = |byte: &u8| matches!(byte, b'\r' | b'\n');
        while self.at < start || self.bytes.get(self.at).is_some_and(line_end) {
            self.line += u64::from(self.bytes[self.at] == b'\n');
            self.at += 1;
        }
        self.line
    }
}

fn no_source(file: &str, line: u64, printed: &str) -> TableProblem {
    let message = if printed.trim().is_empty() {
        "the row names no source and no page".to_owned()
    } else {
        format!("`{printed}` is neither a page of the guide nor a key of process/sources.csv")
    };
    TableProblem::new(file, line, "no-source", message)
}

/// Names the cell that could not be read, and whether it was empty.
fn cell_problem<T: Row>(
    line: u64,
    headers: &csv::StringRecord,
    record: &csv::StringRecord,
    error: &csv::Error,
) -> TableProblem {
    let csv::ErrorKind::Deserialize { err, .. } = error.kind() else {
        return TableProblem::new(T::FILE, line, "unreadable-row", error.to_string());
    };
    // The csv crate knows the column of a failed number but not that of a failed word.
    let column =
        column::at_fault::<T>(headers, record).or_else(|| err.field().map(|field| field as usize));
    let name = column.and_then(|c| headers.get(c)).unwrap_or("?");
    let cell = column.and_then(|c| record.get(c)).unwrap_or("");
    let (rule, message) = if column.is_some() && cell.trim().is_empty() {
        (
            "empty-number",
            format!("column `{name}` is empty and must hold a value"),
        )
    } else {
        (
            "unreadable-value",
            format!("column `{name}`: {}", err.kind()),
        )
    };
    TableProblem::new(T::FILE, line, rule, message)
}
