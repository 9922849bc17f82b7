//! The file refuses to change or lose a fact, whoever asks.

use crate::{file, pick};
use rusqlite::Connection;
use store::Store;

#[test]
fn no_table_takes_an_update_or_a_delete() {
    let (_folder, path) = file();
    std::fs::copy(newest_file(), &path).unwrap();
    let conn = Connection::open(&path).unwrap();
    let mut names = conn
        .prepare("SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%'")
        .unwrap();
    let tables: Vec<String> = names
        .query_map([], |row| row.get(0))
        .unwrap()
        .map(Result::unwrap)
        .collect();
    assert_eq!(tables.len(), 13);
    for table in tables {
        let rows: i64 = conn
            .query_row(&format!("SELECT count(*) FROM {table}"), [], |row| {
                row.get(0)
            })
            .unwrap();
        assert!(rows > 0, "{table} has no row to try it on");
        for sql in [
            format!("DELETE FROM {table}"),
            format!("UPDATE {table} SET rowid = rowid"),
        ] {
            let error = conn.execute(&sql, []).unwrap_err().to_string();
            assert!(
                error.contains("facts are appended, never changed"),
                "{sql}: {error}"
            );
        }
    }
}

#[test]
fn the_file_itself_refuses_what_is_no_fact() {
    let (_folder, path) = file();
    let store = Store::open(&path).unwrap();
    pick(&store, 1000).unwrap();
    let conn = Connection::open(&path).unwrap();
    conn.pragma_update(None, "foreign_keys", true).unwrap();
    let movement = |values: &str| {
        conn.execute(
            &format!(
                "INSERT INTO movement (entry, line, on_day, crop, lot, batch, from_place, to_place,
                                       milligrams, estimated) VALUES ({values})"
            ),
            [],
        )
    };
    for (values, why) in [
        (
            "1, 9, '2031-08-04', 'kale', 1, NULL, 'garden', 'counter', 0, 0",
            "CHECK",
        ),
        (
            "1, 9, '2031-08-04', 'kale', 1, NULL, 'garden', 'counter', -7, 0",
            "CHECK",
        ),
        (
            "1, 9, '2031-08-04', 'kale', 1, NULL, 'garden', 'counter', 'much', 0",
            "cannot store TEXT",
        ),
        (
            "1, 9, 'yesterday', 'kale', 1, NULL, 'garden', 'counter', 7, 0",
            "CHECK",
        ),
        (
            "1, 9, '2031-08-04', 'kale', 1, 1, 'garden', 'counter', 7, 0",
            "CHECK",
        ),
        (
            "1, 9, '2031-08-04', 'kale', NULL, NULL, 'garden', 'counter', 7, 0",
            "CHECK",
        ),
        (
            "1, 9, '2031-08-04', 'kale', 99, NULL, 'garden', 'counter', 7, 0",
            "FOREIGN KEY",
        ),
        (
            "99, 0, '2031-08-04', 'kale', 1, NULL, 'garden', 'counter', 7, 0",
            "FOREIGN KEY",
        ),
        (
            "1, 0, '2031-08-04', 'kale', 1, NULL, 'garden', 'counter', 7, 0",
            "UNIQUE",
        ),
    ] {
        let error = movement(values).unwrap_err().to_string();
        assert!(error.contains(why), "{values}: {error}");
    }
    movement("1, 9, '2031-08-04', 'kale', 1, NULL, 'garden', 'counter', 7, 0").unwrap();
}

/// A file of the newest schema, which is opened as it stands.
pub fn newest_file() -> std::path::PathBuf {
    old_file().with_file_name(format!("{:04}.db", store::schema_version()))
}

pub fn old_file() -> std::path::PathBuf {
    std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/old/0001.db")
}

#[test]
fn no_statement_in_the_code_changes_or_removes_a_row() {
    let source = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut read = 0;
    for file in std::fs::read_dir(source).unwrap() {
        let file = file.unwrap().path();
        if file.is_file() {
            let text = std::fs::read_to_string(&file).unwrap();
            for verb in ["UPDATE ", "DELETE FROM", "REPLACE INTO", "OR REPLACE"] {
                assert!(!text.contains(verb), "{} has {verb}", file.display());
            }
            read += 1;
        }
    }
    assert!(read > 10);
}
