//! What the engine itself says of the writing connection.

use crate::file;
use store::Store;

#[test]
fn an_acknowledged_entry_has_reached_the_disk() {
    let (_folder, path) = file();
    // A new file and one that was there.
    for _ in 0..2 {
        let settings = Store::open(&path).unwrap().settings().unwrap();
        // 2 = FULL: every commit waits for the disk.
        assert_eq!(settings.synchronous, 2);
        assert_eq!(settings.journal_mode, "wal");
    }
}

#[test]
fn keys_are_enforced_and_misspelt_columns_are_errors() {
    let (_folder, path) = file();
    for store in [
        Store::open_in_memory().unwrap(),
        Store::open(&path).unwrap(),
    ] {
        let settings = store.settings().unwrap();
        assert!(settings.foreign_keys && settings.double_quoted_text_off);
        assert!(settings.busy_timeout >= 1000);
    }
}
