//! The migration loop on files of its own making.

use super::*;
use crate::connection::{Kind, open_file, open_to_read};
use crate::{Store, StoreError};

const WITH_SECOND: &[Migration] = &[
    MIGRATIONS[0],
    Migration {
        number: 2,
        name: "0002_add_pantry_note",
        sql: "CREATE TABLE pantry_note (id INTEGER PRIMARY KEY, text TEXT NOT NULL) STRICT;",
    },
];

const WITH_BROKEN_SECOND: &[Migration] = &[
    MIGRATIONS[0],
    Migration {
        number: 2,
        name: "0002_break_halfway",
        sql: "CREATE TABLE half (id INTEGER PRIMARY KEY) STRICT; SELECT no_such_function();",
    },
];

const WITH_ORPHANING_SECOND: &[Migration] = &[
    MIGRATIONS[0],
    Migration {
        number: 2,
        name: "0002_orphan_a_row",
        sql:
            "CREATE TABLE leaf (id INTEGER PRIMARY KEY, entry INTEGER REFERENCES entry (id)) STRICT;
              INSERT INTO leaf (entry) VALUES (4711);",
    },
];

/// A file at the first schema.
fn old_file(folder: &Path) -> PathBuf {
    let path = folder.join("house.db");
    let mut conn = open_file(&path, true).unwrap();
    migrate(&mut conn, Some(&path), Kind::Empty, &MIGRATIONS[..1]).unwrap();
    path
}

fn version(path: &Path) -> i64 {
    let conn = open_to_read(path).unwrap();
    conn.pragma_query_value(None, "user_version", |row| row.get(0))
        .unwrap()
}

fn tables(path: &Path, name: &str) -> i64 {
    let conn = open_to_read(path).unwrap();
    conn.query_row(
        "SELECT count(*) FROM sqlite_schema WHERE name = ?1",
        [name],
        |row| row.get(0),
    )
    .unwrap()
}

#[test]
fn an_older_file_is_copied_before_it_is_changed() {
    let folder = tempfile::tempdir().unwrap();
    let path = old_file(folder.path());
    let mut conn = open_file(&path, false).unwrap();
    let copy = migrate(&mut conn, Some(&path), Kind::Ours(1), WITH_SECOND)
        .unwrap()
        .unwrap();
    drop(conn);
    assert_eq!(copy.file_name().unwrap(), "house.db.before-0002");
    assert_eq!((version(&path), tables(&path, "pantry_note")), (2, 1));
    assert_eq!((version(&copy), tables(&copy, "pantry_note")), (1, 0));
}

#[test]
fn a_file_of_a_newer_program_is_refused_and_left_alone() {
    let folder = tempfile::tempdir().unwrap();
    let path = old_file(folder.path());
    let newer = schema_version() + 1;
    let conn = open_file(&path, false).unwrap();
    conn.pragma_update(None, "user_version", newer).unwrap();
    drop(conn);
    let before = std::fs::read(&path).unwrap();
    let error = Store::open(&path).err().unwrap();
    assert!(
        matches!(
            error,
            StoreError::NewerFile { found, known, .. }
                if found == newer && known == schema_version()
        ),
        "{error}"
    );
    assert!(error.is_bad_file());
    assert!(error.to_string().contains("newer Stillroom"), "{error}");
    assert!(
        std::fs::read(&path).unwrap() == before,
        "the file was touched"
    );
}

#[test]
fn a_migration_that_fails_halfway_leaves_nothing_behind() {
    for broken in [WITH_BROKEN_SECOND, WITH_ORPHANING_SECOND] {
        let folder = tempfile::tempdir().unwrap();
        let path = old_file(folder.path());
        let mut conn = open_file(&path, false).unwrap();
        let error = migrate(&mut conn, Some(&path), Kind::Ours(1), broken).unwrap_err();
        assert!(
            matches!(&error, StoreError::MigrationFailed { name, .. } if name == broken[1].name)
        );
        drop(conn);
        assert_eq!(version(&path), 1);
        assert_eq!(tables(&path, "half") + tables(&path, "leaf"), 0);
        Store::open(&path).unwrap();
    }
}

#[test]
fn migrations_rise_in_number_and_all_of_them_are_built_in() {
    let mut before = 0;
    for migration in MIGRATIONS {
        let number = migration.number;
        assert!(
            migration.name.starts_with(&format!("{number:04}_")),
            "{}",
            migration.name
        );
        assert!(number > before, "{}", migration.name);
        before = number;
    }
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("migrations");
    let mut files: Vec<String> = std::fs::read_dir(folder)
        .unwrap()
        .map(|file| file.unwrap().file_name().into_string().unwrap())
        .collect();
    files.sort();
    let built_in: Vec<String> = MIGRATIONS
        .iter()
        .map(|m| format!("{}.sql", m.name))
        .collect();
    assert_eq!(files, built_in);
}
