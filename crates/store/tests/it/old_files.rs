//! Files of every released schema, kept as they were written then, open today.

use ledger::invariant::all;
use ledger::{Content, Place, balances};
use rusqlite::Connection;
use std::path::Path;
use store::{Store, schema_version, schema_versions};

#[test]
fn a_file_of_every_released_schema_opens_with_everything_in_it() {
    let kept = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/old");
    for version in schema_versions() {
        let old = kept.join(format!("{version:04}.db"));
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("house.db");
        std::fs::copy(&old, &path).unwrap();
        let store = Store::open(&path).unwrap();
        let copied = store.copied_before_migration().is_some();
        assert_eq!(copied, version < schema_version(), "{version}");
        // The first schema had no recipes of the household.
        let recipes = store.household_recipes().unwrap();
        assert_eq!(recipes.len(), usize::from(version >= 200), "{version}");
        assert!(recipes.iter().all(|recipe| recipe.key == "porch-relish"));
        assert_eq!(store.entries(100).unwrap().len(), 8 + recipes.len());
        assert_eq!(store.lot(1).unwrap().milligrams, 10_886_217);
        assert_eq!(store.lot_statements(1).unwrap()[0].key, "history.diseased");
        assert_eq!(
            store.batch(1).unwrap().permit_record.as_deref(),
            Some("{\"minutes\":45}")
        );
        assert_eq!(store.batch_events(1).unwrap().len(), 2);
        assert!(store.latest_house().unwrap().is_some());
        assert!(store.latest_harvest_plan().unwrap().is_some());
        assert!(
            store
                .timetable_for("2031-08-05".parse().unwrap())
                .unwrap()
                .is_some()
        );
        assert_eq!(store.shelf_counts().unwrap()[0].found, 6);
        let food = balances(&store.movements().unwrap());
        let on_shelf = (Content::Batch(1), "tomato-paste".to_owned(), Place::Shelf);
        assert_eq!(food[&on_shelf], 6_000_000);
        let rows = store.rows_for_check().unwrap();
        assert!(rows.file.holds() && rows.unreadable.is_empty());
        for finding in all(&rows.books) {
            assert!(
                finding.holds() && finding.examined > 0,
                "{version}: {finding:?}"
            );
        }
    }
}

/// Every table, index and trigger with the statement that made it.
fn schema(path: &Path) -> Vec<(String, Option<String>)> {
    let conn = Connection::open(path).unwrap();
    let mut rows = conn
        .prepare("SELECT name, sql FROM sqlite_schema ORDER BY name")
        .unwrap();
    rows.query_map([], |row| Ok((row.get(0)?, row.get(1)?)))
        .unwrap()
        .map(Result::unwrap)
        .collect()
}

/// Fails when a released migration is changed instead of a new one being added.
#[test]
fn an_old_file_brought_up_to_date_has_the_schema_of_a_new_one() {
    let folder = tempfile::tempdir().unwrap();
    let fresh = folder.path().join("fresh.db");
    drop(Store::open(&fresh).unwrap());
    let kept = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/old");
    for version in schema_versions() {
        let path = folder.path().join(format!("{version}.db"));
        std::fs::copy(kept.join(format!("{version:04}.db")), &path).unwrap();
        drop(Store::open(&path).unwrap());
        assert_eq!(schema(&path), schema(&fresh), "version {version}");
    }
}
