//! Copies and putting them back.

use crate::append_only::{newest_file, old_file};
use crate::{file, pick, sorted_names};
use jiff::ToSpan;
use jiff::civil::date;
use rusqlite::Connection;
use std::fs;
use store::{KEPT_DAILY_BACKUPS, Store, StoreError, restore};

fn lots(path: &std::path::Path) -> usize {
    Store::open(path).unwrap().lots().unwrap().len()
}

#[test]
fn a_copy_made_while_others_write_is_whole_and_of_one_moment() {
    let (folder, path) = file();
    let store = Store::open(&path).unwrap();
    for n in 1..=20 {
        pick(&store, n).unwrap();
    }
    let copy = folder.path().join("copy.db");
    std::thread::scope(|scope| {
        let writing = scope.spawn(|| {
            for n in 21..=60 {
                pick(&store, n).unwrap();
            }
        });
        for _ in 0..10 {
            let report = store.backup(&copy).unwrap();
            assert!(report.bytes > 0 && report.rows >= 80);
            // Entry, sum, lot and movement of every picking.
            assert_eq!(report.rows % 4, 0);
        }
        writing.join().unwrap();
    });
    store.backup(&copy).unwrap();
    assert_eq!(lots(&copy), 60);
    // One plain file: no log, no half-made copy.
    let names = sorted_names(folder.path());
    assert_eq!(
        names,
        ["copy.db", "house.db", "house.db-shm", "house.db-wal"]
    );
}

#[test]
fn a_copy_never_overwrites_what_is_no_copy() {
    let (folder, path) = file();
    let store = Store::open(&path).unwrap();
    let letter = folder.path().join("letter.txt");
    fs::write(&letter, "Dear household").unwrap();
    assert!(matches!(
        store.backup(&letter),
        Err(StoreError::WouldOverwrite(_))
    ));
    assert_eq!(fs::read_to_string(&letter).unwrap(), "Dear household");
    assert!(matches!(
        store.backup(&path),
        Err(StoreError::WouldOverwrite(_))
    ));
    let nowhere = folder.path().join("attic/copy.db");
    assert!(matches!(
        store.backup(&nowhere),
        Err(StoreError::MissingFolder(_))
    ));
    pick(&store, 1).unwrap();
}

#[test]
fn a_damaged_file_gives_no_copy() {
    let (folder, path) = file();
    fs::copy(newest_file(), &path).unwrap();
    let conn = Connection::open(&path).unwrap();
    conn.pragma_update(None, "foreign_keys", false).unwrap();
    conn.execute_batch(
        "INSERT INTO lot_statement (entry, lot, key, value) VALUES (1, 99, 'a', 'b')",
    )
    .unwrap();
    drop(conn);
    let store = Store::open(&path).unwrap();
    let copy = folder.path().join("copy.db");
    assert!(matches!(
        store.backup(&copy),
        Err(StoreError::Damaged { .. })
    ));
    assert!(!copy.exists());
}

#[test]
fn a_store_in_memory_can_be_copied_too() {
    let (_folder, path) = file();
    let store = Store::open_in_memory().unwrap();
    pick(&store, 5).unwrap();
    store.backup(&path).unwrap();
    assert_eq!(lots(&path), 1);
}

#[test]
fn one_copy_a_day_and_seven_are_kept() {
    let (folder, path) = file();
    let store = Store::open(&path).unwrap();
    let backups = folder.path().join("backups");
    let first = date(2031, 8, 28);
    for n in 0..10_i64 {
        pick(&store, n + 1).unwrap();
        let day = first.checked_add(n.days()).unwrap();
        assert!(store.backup_daily(&backups, day).unwrap().is_some());
        assert!(
            store.backup_daily(&backups, day).unwrap().is_none(),
            "a second one on {day}"
        );
        if n == 4 {
            fs::write(backups.join("stillroom-of-old.db"), "not ours to remove").unwrap();
        }
    }
    let names = sorted_names(&backups);
    assert_eq!(names.len(), KEPT_DAILY_BACKUPS + 1);
    assert_eq!(names[0], "stillroom-2031-08-31.db");
    assert_eq!(names[6], "stillroom-2031-09-06.db");
    assert_eq!(names[7], "stillroom-of-old.db");
    assert_eq!(lots(&backups.join("stillroom-2031-08-31.db")), 4);
    // A clock set back does not cost the copy just made.
    let early = store
        .backup_daily(&backups, date(2031, 1, 1))
        .unwrap()
        .unwrap();
    assert!(early.file.exists());
    let missing = folder.path().join("attic/backups");
    assert!(matches!(
        store.backup_daily(&missing, first),
        Err(StoreError::MissingFolder(_))
    ));
}

#[test]
fn a_restore_puts_the_copy_in_place_and_keeps_the_old_file() {
    let (folder, path) = file();
    let copy = folder.path().join("copy.db");
    let store = Store::open(&path).unwrap();
    pick(&store, 1).unwrap();
    store.backup(&copy).unwrap();
    pick(&store, 2).unwrap();
    drop(store);
    let report = restore(&copy, &path).unwrap();
    assert_eq!(report.schema, store::schema_version());
    let kept = report.kept.unwrap();
    assert_eq!(kept.file_name().unwrap(), "house.db.before-restore");
    assert_eq!((lots(&path), lots(&kept)), (1, 2));
    // Again: the first kept file stays.
    let again = restore(&copy, &path).unwrap().kept.unwrap();
    assert_eq!(again.file_name().unwrap(), "house.db.before-restore-2");
    assert_eq!((lots(&path), lots(&kept), lots(&again)), (1, 2, 1));
    // Where there was no file there is nothing to keep.
    let fresh = folder.path().join("fresh.db");
    assert_eq!(restore(&copy, &fresh).unwrap().kept, None);
    assert_eq!(lots(&fresh), 1);
}

#[test]
fn a_file_in_use_is_not_replaced() {
    let (folder, path) = file();
    let copy = folder.path().join("copy.db");
    let store = Store::open(&path).unwrap();
    pick(&store, 1).unwrap();
    store.backup(&copy).unwrap();
    pick(&store, 2).unwrap();
    let error = restore(&copy, &path).unwrap_err();
    assert!(error.is_busy(), "{error:?}");
    assert!(
        error.to_string().contains("in use by another program"),
        "{error}"
    );
    pick(&store, 3).unwrap();
    assert_eq!(store.lots().unwrap().len(), 3);
    let names = sorted_names(folder.path());
    assert_eq!(
        names,
        ["copy.db", "house.db", "house.db-shm", "house.db-wal"]
    );
}

#[test]
fn what_is_no_sound_copy_of_ours_is_not_put_in_place() {
    let (folder, path) = file();
    pick(&Store::open(&path).unwrap(), 1).unwrap();
    let bad = folder.path().join("bad.db");
    let refused = || {
        let error = restore(&bad, &path).unwrap_err();
        assert_eq!(lots(&path), 1);
        assert!(!folder.path().join("house.db.before-restore").exists());
        error
    };
    assert!(matches!(refused(), StoreError::MissingFile(_)));
    fs::write(&bad, "Dear household, ".repeat(500)).unwrap();
    assert!(matches!(refused(), StoreError::NotADatabase(_)));
    fs::write(&bad, "").unwrap();
    assert!(matches!(refused(), StoreError::NotADatabase(_)));
    let whole = fs::read(old_file()).unwrap();
    fs::write(&bad, &whole[..whole.len() / 2]).unwrap();
    assert!(matches!(refused(), StoreError::Damaged { .. }));
    let mut broken = whole.clone();
    let middle = whole.len() / 8192 * 4096;
    broken[middle..middle + 4096].fill(0xA5);
    fs::write(&bad, &broken).unwrap();
    assert!(matches!(refused(), StoreError::Damaged { .. }));
    fs::write(&bad, &whole).unwrap();
    let conn = Connection::open(&bad).unwrap();
    conn.pragma_update(None, "user_version", 9999).unwrap();
    drop(conn);
    assert!(matches!(
        refused(),
        StoreError::NewerFile { found: 9999, .. }
    ));
    fs::remove_file(&bad).unwrap();
    Connection::open(&bad)
        .unwrap()
        .execute_batch("CREATE TABLE song (title TEXT)")
        .unwrap();
    assert!(matches!(refused(), StoreError::NotOurs(_)));
    assert!(matches!(
        restore(&path, &path),
        Err(StoreError::SameFile(_))
    ));
}

#[test]
fn a_damaged_data_file_is_kept_aside_and_its_log_never_reaches_the_new_one() {
    let (folder, path) = file();
    let copy = folder.path().join("copy.db");
    // The schema is folded into the file first, so that the log cannot mend the first page.
    drop(Store::open(&path).unwrap());
    let store = Store::open(&path).unwrap();
    pick(&store, 1).unwrap();
    store.backup(&copy).unwrap();
    pick(&store, 2).unwrap();
    // The machine stops here: file and log as they are, then the file's first pages are lost.
    let database = fs::read(&path).unwrap();
    let log = fs::read(folder.path().join("house.db-wal")).unwrap();
    drop(store);
    let mut broken = database;
    broken[..4096].fill(0xA5);
    fs::write(&path, &broken).unwrap();
    fs::write(folder.path().join("house.db-wal"), &log).unwrap();
    let kept = restore(&copy, &path).unwrap().kept.unwrap();
    assert!(
        fs::read(&kept).unwrap() == broken,
        "the damaged file was touched"
    );
    let kept_log = fs::read(folder.path().join("house.db.before-restore-wal")).unwrap();
    assert!(kept_log == log, "the log was touched");
    assert_eq!(lots(&path), 1);
}

#[test]
fn entries_still_in_the_old_files_log_are_kept_with_it() {
    let (folder, path) = file();
    let copy = folder.path().join("copy.db");
    let store = Store::open(&path).unwrap();
    pick(&store, 1).unwrap();
    store.backup(&copy).unwrap();
    pick(&store, 2).unwrap();
    // The machine stops here: what was picked last is in the log only.
    let stopped = folder.path().join("stopped.db");
    fs::copy(&path, &stopped).unwrap();
    fs::copy(
        folder.path().join("house.db-wal"),
        folder.path().join("stopped.db-wal"),
    )
    .unwrap();
    let kept = restore(&copy, &stopped).unwrap().kept.unwrap();
    assert_eq!((lots(&stopped), lots(&kept)), (1, 2));
}
