//! Turns the short source keys of the tables into text fit to show.

use crate::problem::TableProblem;
use serde::Deserialize;
use std::collections::BTreeMap;

const FILE: &str = "process/sources.csv";
/// The key that a bare page number means.
const GUIDE: &str = "aib539-2015";

/// The publications, by key.
#[derive(Debug, Clone, Default)]
pub struct Sources {
    titles: BTreeMap<String, String>,
}

#[derive(Deserialize)]
struct SourceRow {
    key: String,
    title: String,
}

impl Sources {
    /// Reads `process/sources.csv`.
    pub fn read(files: &crate::table::Files, problems: &mut Vec<TableProblem>) -> Sources {
        let mut titles = BTreeMap::new();
        let Some(bytes) = files.get(FILE) else {
            problems.push(TableProblem::new(
                FILE,
                0,
                "missing-table",
                "the table is not there".to_owned(),
            ));
            return Sources::default();
        };
        for record in csv::Reader::from_reader(bytes.as_slice()).deserialize::<SourceRow>() {
            match record {
                Ok(row) => {
                    if titles.insert(row.key.clone(), row.title).is_some() {
                        problems.push(TableProblem::new(
                            FILE,
                            0,
                            "duplicate-key",
                            format!("source `{}` stands twice", row.key),
                        ));
                    }
                }
                Err(error) => problems.push(TableProblem::new(
                    FILE,
                    error.position().map_or(0, csv::Position::line),
                    "unreadable-row",
                    error.to_string(),
                )),
            }
        }
        Sources { titles }
    }

    /// The text to show for `printed`: a page (`3-6`), a key with or without page
    /// (`aib539-2015:3-6`, `nchfp-steam`), or, in the garden tables, free text.
    /// `None` when it is empty or looks like a key that nobody declared.
    pub fn show(&self, printed: &str) -> Option<String> {
        let printed = printed.trim();
        if printed.is_empty() {
            return None;
        }
        if is_page(printed) {
            return Some(format!("{}, p. {printed}", self.titles.get(GUIDE)?));
        }
        if let Some(title) = self.titles.get(printed) {
            return Some(title.clone());
        }
        if let Some((key, page)) = printed.split_once(':')
            && let Some(title) = self.titles.get(key)
        {
            return Some(format!("{title}, p. {page}"));
        }
        // Free text has a space in it, a web address a dot; a lone word is a key, and an unknown one is a fault.
        printed.contains([' ', '.']).then(|| printed.to_owned())
    }
}

/// A page as the guide prints it: `3-6`.
fn is_page(text: &str) -> bool {
    text.split_once('-').is_some_and(|(guide, page)| {
        let digits =
            |s: &str| !s.is_empty() && s.len() < 4 && s.bytes().all(|b| b.is_ascii_digit());
        digits(guide) && digits(page)
    })
}
