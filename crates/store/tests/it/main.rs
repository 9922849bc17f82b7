//! The store from outside, on real files.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on should stop")]

mod append_only;
mod backups;
mod bad_files;
mod broken_books;
mod faults;
mod old_files;
mod settings;
mod story;

use jiff::civil::{Date, date};
use ledger::{Content, Movement, Place};
use std::path::{Path, PathBuf};
use store::{NewEntry, NewLot, Store, StoreError};
use tempfile::TempDir;

const DAY: Date = date(2031, 8, 4);

fn file() -> (TempDir, PathBuf) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("house.db");
    (folder, path)
}

fn act(kind: &str) -> NewEntry {
    NewEntry {
        at: format!("{DAY}T10:00:00Z"),
        on: DAY,
        who: "Wren".to_owned(),
        kind: kind.to_owned(),
        note: String::new(),
        token: None,
        reverses: None,
    }
}

fn undo(entry: i64) -> NewEntry {
    NewEntry {
        reverses: Some(entry),
        ..act("undo")
    }
}

fn kale(content: Content, from: Place, to: Place, milligrams: i64) -> Movement {
    Movement {
        entry: 0,
        line: 0,
        on: DAY,
        crop: "kale".to_owned(),
        content,
        becomes: None,
        from,
        to,
        milligrams,
        estimated: false,
    }
}

/// Picks some kale and gives (entry, lot).
fn pick(store: &Store, milligrams: i64) -> Result<(i64, i64), StoreError> {
    store.append(act("picking"), |w, entry| {
        let lot = w.add_lot(&NewLot {
            crop: "kale".to_owned(),
            variety: String::new(),
            grade: "sound".to_owned(),
            place: Place::Counter,
            temperature_f: None,
            picked_on: DAY,
            milligrams,
            how_weighed: "scale".to_owned(),
            note: String::new(),
        })?;
        let content = Content::Lot(lot);
        w.add_movements(&[kale(content, Place::Garden, Place::Counter, milligrams)])?;
        Ok((entry, lot))
    })
}

fn sorted_names(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> = std::fs::read_dir(folder)
        .unwrap()
        .map(|file| file.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    names
}
