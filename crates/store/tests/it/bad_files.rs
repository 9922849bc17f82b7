//! Files and folders that cannot be used: the cause, what to do, and nothing touched.

use crate::append_only::{newest_file, old_file};
use crate::{file, pick, sorted_names};
use rusqlite::Connection;
use std::fs;
use std::path::Path;
use store::{Store, StoreError};

fn refusal(path: &Path) -> StoreError {
    let error = Store::open(path)
        .err()
        .unwrap_or_else(|| panic!("{} opened", path.display()));
    let (cause, action) = (error.cause(), error.action());
    assert!(
        cause.contains(&path.file_name().unwrap().to_string_lossy().into_owned())
            || matches!(error, StoreError::MissingFolder(_)),
        "{cause}"
    );
    assert!(cause.ends_with('.') && action.ends_with('.'));
    assert_eq!(error.to_string(), format!("{cause} {action}"));
    error
}

#[test]
fn a_missing_folder_is_named_and_not_made() {
    let (folder, _) = file();
    let error = refusal(&folder.path().join("attic/house.db"));
    assert!(matches!(error, StoreError::MissingFolder(_)) && error.is_bad_place());
    assert!(error.cause().contains("attic does not exist"), "{error}");
    assert_eq!(sorted_names(folder.path()), [] as [String; 0]);
}

#[test]
fn a_folder_is_no_file() {
    let (_folder, path) = file();
    fs::create_dir(&path).unwrap();
    assert!(matches!(refusal(&path), StoreError::NotAFile(_)));
}

#[test]
fn a_text_file_is_left_as_it_is() {
    let (folder, path) = file();
    let letter = "Dear household, ".repeat(500);
    fs::write(&path, &letter).unwrap();
    let error = refusal(&path);
    assert!(
        matches!(error, StoreError::NotADatabase(Some(_))) && error.is_bad_file(),
        "{error:?}"
    );
    assert_eq!(fs::read_to_string(&path).unwrap(), letter);
    assert_eq!(sorted_names(folder.path()), ["house.db"]);
}

#[test]
fn another_programs_database_is_left_as_it_is() {
    let (folder, path) = file();
    let conn = Connection::open(&path).unwrap();
    conn.execute_batch("CREATE TABLE song (title TEXT); INSERT INTO song VALUES ('rain')")
        .unwrap();
    drop(conn);
    let before = fs::read(&path).unwrap();
    assert!(matches!(refusal(&path), StoreError::NotOurs(_)));
    let conn = Connection::open(&path).unwrap();
    conn.pragma_update(None, "application_id", 77).unwrap();
    drop(conn);
    let marked = fs::read(&path).unwrap();
    assert_ne!(before, marked);
    assert!(matches!(refusal(&path), StoreError::NotOurs(_)));
    assert!(fs::read(&path).unwrap() == marked, "the file was touched");
    assert_eq!(sorted_names(folder.path()), ["house.db"]);
}

#[test]
fn an_empty_file_becomes_a_new_household() {
    let (_folder, path) = file();
    fs::write(&path, "").unwrap();
    pick(&Store::open(&path).unwrap(), 5).unwrap();
    assert_eq!(Store::open(&path).unwrap().lots().unwrap().len(), 1);
}

#[test]
fn a_file_cut_in_half_is_called_damaged() {
    let (_folder, path) = file();
    let whole = fs::read(old_file()).unwrap();
    fs::write(&path, &whole[..whole.len() / 2]).unwrap();
    let error = refusal(&path);
    assert!(matches!(error, StoreError::Damaged { .. }), "{error:?}");
    assert!(error.action().contains("stillroom restore"));
    assert!(
        fs::read(&path).unwrap() == whole[..whole.len() / 2],
        "the file was touched"
    );
}

#[test]
fn a_page_of_rubbish_is_found_by_the_check_or_by_the_first_read() {
    let (_folder, path) = file();
    let whole = fs::read(old_file()).unwrap();
    let pages = whole.len() / 4096;
    let mut named = 0;
    for page in 1..pages {
        let mut broken = whole.clone();
        broken[page * 4096..(page + 1) * 4096].fill(0xA5);
        fs::write(&path, &broken).unwrap();
        let noticed = match Store::open(&path) {
            Ok(store) => match store.rows_for_check() {
                Ok(rows) => !rows.file.integrity.is_empty(),
                Err(error) => matches!(error, StoreError::Damaged { .. }),
            },
            Err(error) => matches!(error, StoreError::Damaged { .. }),
        };
        assert!(noticed, "page {page} of {pages}");
        named += 1;
    }
    assert!(named > 10);
}

#[test]
fn a_folder_that_may_not_be_written_is_named() {
    // The administrator may write in any ordinary folder, so the kernel's own is tried as well.
    let (folder, _) = file();
    let mut rights = fs::metadata(folder.path()).unwrap().permissions();
    rights.set_readonly(true);
    fs::set_permissions(folder.path(), rights.clone()).unwrap();
    let barred = if fs::write(folder.path().join("probe"), "").is_err() {
        folder.path().to_path_buf()
    } else {
        Path::new("/proc/self").to_path_buf()
    };
    let error = refusal(&barred.join("house.db"));
    assert!(
        matches!(error, StoreError::NotWritable { .. }) && error.is_bad_place(),
        "{error:?}"
    );
    assert!(error.cause().contains("cannot be written"));
    assert!(!barred.join("house.db").exists());
    #[allow(clippy::permissions_set_readonly_false)]
    rights.set_readonly(false);
    fs::set_permissions(folder.path(), rights).unwrap();
}

#[test]
fn rows_nobody_understands_are_named_one_by_one_and_stop_nothing_else() {
    let (_folder, path) = file();
    fs::copy(old_file(), &path).unwrap();
    let conn = Connection::open(&path).unwrap();
    conn.execute_batch(
        "DROP TRIGGER movement_no_update; DROP TRIGGER lot_no_update;
         UPDATE movement SET on_day = '2031-99-99' WHERE entry = 2;
         UPDATE lot SET place = 'attic';",
    )
    .unwrap();
    drop(conn);
    let store = Store::open(&path).unwrap();
    assert!(matches!(store.movements(), Err(StoreError::BadRow(_))));
    let rows = store.rows_for_check().unwrap();
    assert_eq!(rows.unreadable.len(), 2, "{:?}", rows.unreadable);
    assert!(
        rows.unreadable[0].starts_with("movement 2/0:"),
        "{:?}",
        rows.unreadable
    );
    assert!(rows.unreadable[0].contains("2031-99-99"));
    assert!(
        rows.unreadable[1].starts_with("lot 1:"),
        "{:?}",
        rows.unreadable
    );
    assert!(rows.unreadable[1].contains("attic"));
    assert_eq!(rows.entries.len(), 8);
    assert_eq!(rows.books.legs.len(), 2 * (rows.books.movements.len() + 1));
}

#[test]
fn a_row_that_refers_to_nothing_is_named_by_the_engine() {
    let (_folder, path) = file();
    fs::copy(newest_file(), &path).unwrap();
    let conn = Connection::open(&path).unwrap();
    conn.pragma_update(None, "foreign_keys", false).unwrap();
    conn.execute_batch(
        "INSERT INTO lot_statement (entry, lot, key, value) VALUES (1, 99, 'a', 'b')",
    )
    .unwrap();
    drop(conn);
    let check = Store::open(&path).unwrap().rows_for_check().unwrap().file;
    assert!(!check.holds());
    assert_eq!(check.foreign_keys.len(), 1);
    assert!(
        check.foreign_keys[0].contains("lot_statement row 2 refers to a lot"),
        "{check:?}"
    );
}
