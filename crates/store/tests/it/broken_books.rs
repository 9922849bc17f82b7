//! A sound file broken by plain SQL in one way breaks exactly one rule, which names the row.

use crate::append_only::old_file;
use crate::file;
use ledger::invariant::{NAMES, all};
use rusqlite::Connection;
use std::fs;
use store::Store;

/// The rule, the statements that break it, and what its sentence must name. Every statement leaves
/// types, checks and keys of the file in order: only the rule can notice.
const BREAKS: [(&str, &str, &str); 10] = [
    (
        "entry-sums-to-zero",
        "UPDATE movement SET to_place = 'attic' WHERE entry = 8",
        "entry 8, tomato-paste",
    ),
    (
        "entry-is-whole",
        "UPDATE entry_sum SET movement_lines = 3, milligrams = milligrams + 1 WHERE entry = 5",
        "entry 5:",
    ),
    (
        "movement-is-sound",
        "INSERT INTO entry (id, at, on_day, who, kind, note)
             VALUES (9, '2031-08-06T10:00:00Z', '2031-08-06', '', 'odd', '');
         INSERT INTO movement VALUES
             (9, 0, '2031-08-06', 'tomato-paste', 1, NULL, NULL, NULL, 'eaten', 'counter', 5, 0);
         INSERT INTO entry_sum VALUES (9, 1, 5, 0, 0)",
        "movement 9/0:",
    ),
    (
        "no-place-below-zero",
        "UPDATE movement SET on_day = '2031-08-09' WHERE entry = 2",
        "tomato-paste of lot 1 at counter is -10000000 mg on 2031-08-05",
    ),
    (
        "no-containers-below-zero",
        "UPDATE container_movement SET on_day = '2031-08-09' WHERE entry = 5",
        "quart of batch 1 at shelf is -1 on 2031-08-05",
    ),
    (
        "balance-per-crop-is-zero",
        "UPDATE lot SET crop = 'kale' WHERE id = 1",
        "lot 1 is kale, but movement 2/0",
    ),
    (
        "count-matches-movements",
        "UPDATE shelf_count SET found = 5",
        "count 8/0: quart of batch 1 at shelf",
    ),
    (
        "lot-weight-matches-movements",
        "UPDATE lot SET milligrams = milligrams + 1",
        "lot 1: taken down as 10886218 mg",
    ),
    (
        "pot-empty-after-outcome",
        "INSERT INTO entry (id, at, on_day, who, kind, note)
             VALUES (9, '2031-08-06T10:00:00Z', '2031-08-06', '', 'odd', '');
         INSERT INTO movement VALUES
             (9, 0, '2031-08-06', 'tomato-paste', NULL, 1, NULL, NULL, 'shelf', 'pot', 5, 0);
         INSERT INTO entry_sum VALUES (9, 1, 5, 0, 0)",
        "batch 1 is finished, but 5 mg of tomato-paste",
    ),
    (
        "reversal-mirrors-entry",
        "UPDATE movement SET milligrams = 900000 WHERE entry = 7;
         UPDATE entry_sum SET milligrams = 900000 WHERE entry = 7",
        "entry 7 does not move exactly the opposite of entry 6",
    ),
];

#[test]
fn every_rule_notices_what_breaks_it_and_no_other_rule_does() {
    assert_eq!(BREAKS.map(|(rule, _, _)| rule), NAMES);
    for (rule, sql, named) in BREAKS {
        let (_folder, path) = file();
        fs::copy(old_file(), &path).unwrap();
        let conn = Connection::open(&path).unwrap();
        let mut triggers = conn
            .prepare(
                "SELECT name FROM sqlite_schema WHERE type = 'trigger' AND name LIKE '%_no_update'",
            )
            .unwrap();
        let names: Vec<String> = triggers
            .query_map([], |row| row.get(0))
            .unwrap()
            .map(Result::unwrap)
            .collect();
        drop(triggers);
        for name in names {
            conn.execute_batch(&format!("DROP TRIGGER {name}")).unwrap();
        }
        conn.execute_batch(sql).unwrap();
        drop(conn);
        let rows = Store::open(&path).unwrap().rows_for_check().unwrap();
        assert!(
            rows.file.holds() && rows.unreadable.is_empty(),
            "{rule}: {:?}",
            rows.unreadable
        );
        let broken: Vec<_> = all(&rows.books)
            .into_iter()
            .filter(|finding| !finding.holds())
            .collect();
        let rules: Vec<&str> = broken.iter().map(|finding| finding.invariant).collect();
        assert_eq!(rules, [rule], "{broken:?}");
        assert!(
            broken[0].broken[0].contains(named),
            "{:?}",
            broken[0].broken
        );
    }
}
