//! Every invariant that `stillroom check` prints holds on a sound file, has looked at rows, and is
//! named when a copy of that file is broken by plain SQL in one way.

use crate::household::Household;
use rusqlite::Connection;
use std::collections::BTreeSet;

/// One way to break a file.
struct Break {
    /// The invariant that must be named.
    name: &'static str,
    /// What must stand in the line that names the row.
    row: &'static str,
    /// The statements. Entries are found by kind, so that the first day may grow.
    sql: &'static str,
    /// Invariants that cannot but break with it, and why.
    with_it: &'static [(&'static str, &'static str)],
}

const BREAKS: &[Break] = &[
    Break {
        name: "entry-sums-to-zero",
        row: "\"attic\" is no place",
        sql: "UPDATE movement SET to_place = 'attic'
              WHERE entry = (SELECT min(id) FROM entry WHERE kind = 'take')",
        with_it: &[],
    },
    Break {
        name: "entry-is-whole",
        row: "entry 2: closed with 2 movements",
        sql: "UPDATE entry_sum SET movement_lines = 2 WHERE entry = 2",
        with_it: &[],
    },
    Break {
        name: "entry-is-whole",
        row: "was never closed",
        sql: "DELETE FROM entry_sum
              WHERE entry = (SELECT min(id) FROM entry WHERE kind = 'take')",
        with_it: &[],
    },
    Break {
        name: "movement-is-sound",
        row: "movement 900/0",
        sql: "INSERT INTO entry (id, at, on_day, who, kind, note)
                  VALUES (900, '2026-08-27T09:00:00', '2026-08-27', '', 'odd', '');
              INSERT INTO movement VALUES
                  (900, 0, '2026-08-27', 'kale', 3, NULL, NULL, NULL, 'eaten', 'cold-room', 5, 0);
              INSERT INTO entry_sum VALUES (900, 1, 5, 0, 0)",
        with_it: &[],
    },
    Break {
        name: "no-place-below-zero",
        row: "at counter is -",
        sql: "UPDATE movement SET on_day = '2026-08-30' WHERE entry = 2",
        with_it: &[],
    },
    Break {
        name: "no-containers-below-zero",
        row: "quart of batch 1 at shelf is -",
        sql: "UPDATE container_movement SET on_day = '2026-08-30'
              WHERE entry = (SELECT id FROM entry WHERE kind = 'outcome') AND size = 'quart'",
        with_it: &[],
    },
    Break {
        name: "balance-per-crop-is-zero",
        row: "lot 2 is kale, but movement 3/0 books",
        sql: "UPDATE lot SET crop = 'kale' WHERE id = 2",
        with_it: &[],
    },
    Break {
        name: "count-matches-movements",
        row: "quart of batch 1 at shelf: found 400",
        sql: "UPDATE shelf_count SET found = 400",
        with_it: &[],
    },
    Break {
        name: "lot-weight-matches-movements",
        row: "lot 3: taken down as",
        sql: "UPDATE lot SET milligrams = milligrams + 1 WHERE id = 3",
        with_it: &[],
    },
    Break {
        name: "pot-empty-after-outcome",
        row: "batch 1 is finished, but 5 mg of tomato-paste",
        sql: "INSERT INTO entry (id, at, on_day, who, kind, note)
                  VALUES (900, '2026-08-27T09:00:00', '2026-08-27', '', 'odd', '');
              INSERT INTO movement VALUES (900, 0, '2026-08-27', 'tomato-paste', NULL, 1, NULL, NULL,
                  'shelf', 'pot', 5, 0);
              INSERT INTO entry_sum VALUES (900, 1, 5, 0, 0)",
        with_it: &[],
    },
    Break {
        name: "reversal-mirrors-entry",
        row: "does not move exactly the opposite",
        sql: "UPDATE movement SET milligrams = milligrams - 1
                  WHERE entry = (SELECT min(id) FROM entry WHERE kind = 'undo');
              UPDATE entry_sum SET milligrams = milligrams - 1
                  WHERE entry = (SELECT min(id) FROM entry WHERE kind = 'undo')",
        with_it: &[],
    },
    Break {
        name: "rows-are-readable",
        row: "lot 3: ",
        sql: "UPDATE lot SET picked_on = '2026-13-45' WHERE id = 3",
        with_it: &[],
    },
    Break {
        name: "file-is-sound",
        row: "lot_statement row 1 refers to a lot that is not there",
        sql: "UPDATE lot_statement SET lot = 900 WHERE id = 1",
        with_it: &[],
    },
    Break {
        name: "file-is-sound",
        row: "CHECK constraint failed in entry",
        sql: "UPDATE entry SET kind = '' WHERE id = 2",
        with_it: &[],
    },
    Break {
        name: "batch-carries-verdict",
        row: "batch 2: neither a permit record nor a verdict",
        sql: "UPDATE batch SET permit_record = NULL, route_verdict = NULL WHERE id = 2",
        with_it: &[(
            "file-is-sound",
            "the table itself demands one of the two, so the engine's own check notices as well",
        )],
    },
    Break {
        name: "batch-carries-verdict",
        row: "batch 2: what goes in cannot be read",
        sql: "UPDATE batch SET planned_inputs = '{}' WHERE id = 2",
        with_it: &[],
    },
    Break {
        name: "permit-still-stands",
        row: "batch 1: ",
        sql: "UPDATE batch SET permit_record = json_set(permit_record, '$.chosen.minutes', 40)
              WHERE id = 1",
        with_it: &[],
    },
    Break {
        name: "permit-still-stands",
        row: "batch 1: ",
        sql: "UPDATE batch SET permit_record =
                  json_set(permit_record, '$.question.elevation.high_ft', '8000')
              WHERE id = 1",
        with_it: &[],
    },
    Break {
        name: "plan-passes-checker",
        row: "harvest plan 1: P1019 the bound 1 lies below the value",
        sql: "UPDATE harvest_plan SET harvest_plan = json_set(harvest_plan, '$.bound', 1)",
        with_it: &[],
    },
    Break {
        name: "plan-passes-checker",
        row: "harvest plan 1: P10",
        sql: "UPDATE harvest_plan SET harvest_plan = json_set(harvest_plan,
                  '$.left_out[0].grams', harvest_plan ->> '$.left_out[0].grams' + 1000)",
        with_it: &[],
    },
];

/// Breaks a file: the triggers that keep it append-only go first, then the statements run with keys
/// and checks switched off, as another program could do it.
fn break_file(household: &Household, sql: &str) {
    let conn = Connection::open(household.file()).unwrap();
    let triggers: Vec<String> = conn
        .prepare("SELECT name FROM sqlite_schema WHERE type = 'trigger'")
        .unwrap()
        .query_map([], |row| row.get(0))
        .unwrap()
        .map(Result::unwrap)
        .collect();
    if !sql.starts_with("INSERT") {
        let error = conn.execute_batch(sql).expect_err("an append-only file");
        let told = error.to_string();
        assert!(told.contains("appended, never changed"), "{sql}: {told}");
    }
    for name in triggers {
        conn.execute_batch(&format!("DROP TRIGGER {name}")).unwrap();
    }
    conn.execute_batch("PRAGMA foreign_keys = OFF; PRAGMA ignore_check_constraints = ON;")
        .unwrap();
    conn.execute_batch(sql).unwrap();
}

/// (name, rows examined, what is broken) of each invariant, as `check --json` prints them.
fn checked(household: &Household) -> (i32, Vec<(String, u64, Vec<String>)>) {
    let answer = household.run(&["check", "--json"]);
    let lines = answer.json()["invariants"]
        .as_array()
        .expect("the invariants")
        .iter()
        .map(|line| {
            let broken = line["broken"].as_array().unwrap().iter();
            (
                line["name"].as_str().unwrap().to_owned(),
                line["examined"].as_u64().unwrap(),
                broken.map(|row| row.as_str().unwrap().to_owned()).collect(),
            )
        })
        .collect();
    (answer.code, lines)
}

#[test]
fn on_the_sound_file_every_invariant_holds_and_has_looked_at_rows() {
    let household = Household::after_first_day();
    let (code, lines) = checked(&household);
    assert_eq!(code, 0);
    for (name, examined, broken) in &lines {
        assert_eq!(broken, &Vec::<String>::new(), "{name}");
        assert!(*examined > 0, "{name} looked at nothing");
    }
    let text = household.run(&["check"]).fine().out;
    for (name, examined, _) in &lines {
        let line = text
            .lines()
            .find(|line| line.contains(&format!(" {name} ")));
        let line = line.unwrap_or_else(|| panic!("{name} is not printed"));
        assert!(line.starts_with("holds"), "{line}");
        assert!(line.contains(&format!(" {examined} rows")), "{line}");
    }
}

#[test]
fn every_invariant_that_check_prints_has_a_broken_file() {
    let (_, lines) = checked(&Household::after_first_day());
    let printed: BTreeSet<&str> = lines.iter().map(|(name, ..)| name.as_str()).collect();
    let broken: BTreeSet<&str> = BREAKS.iter().map(|fault| fault.name).collect();
    assert_eq!(printed, broken);
}

#[test]
fn a_file_broken_in_one_way_names_the_invariant_and_the_row_and_no_other() {
    for fault in BREAKS {
        let household = Household::after_first_day();
        break_file(&household, fault.sql);
        let (code, lines) = checked(&household);
        let broken: Vec<_> = lines.iter().filter(|(.., rows)| !rows.is_empty()).collect();
        assert_eq!(code, 1, "{}: {}", fault.name, fault.sql);
        let named: BTreeSet<&str> = broken.iter().map(|(name, ..)| name.as_str()).collect();
        let wanted: BTreeSet<&str> = fault
            .with_it
            .iter()
            .map(|(name, _)| *name)
            .chain([fault.name])
            .collect();
        assert_eq!(named, wanted, "{}: {broken:?}", fault.sql);
        let rows = broken
            .iter()
            .find(|(name, ..)| name == fault.name)
            .map(|(.., rows)| rows.clone())
            .unwrap_or_default();
        assert_eq!(rows.len(), 1, "{}: one row is broken: {rows:?}", fault.name);
        assert!(rows[0].contains(fault.row), "{}: {rows:?}", fault.name);

        let text = household.run(&["check"]);
        assert_eq!(text.code, 1);
        let line = format!("BROKEN {} ", fault.name);
        assert!(text.out.contains(&line), "{}", text.out);
        assert!(text.out.contains(fault.row), "{}", text.out);

        // Asked for alone it is named alone; any other that was not hurt still holds alone.
        assert_eq!(household.run(&["check", "--only", fault.name]).code, 1);
        let sound = lines
            .iter()
            .find(|(name, ..)| !wanted.contains(name.as_str()))
            .map(|(name, ..)| name.clone())
            .expect("another invariant");
        household.run(&["check", "--only", &sound]).fine();
    }
}

#[test]
fn a_name_that_is_no_invariant_is_answered_with_those_there_are() {
    let answer = Household::after_first_day().run(&["check", "--only", "everything"]);
    assert_eq!(answer.code, 2);
    for fault in BREAKS {
        assert!(answer.err.contains(fault.name), "{}", answer.err);
    }
}
