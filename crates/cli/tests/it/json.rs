//! Every command answers in JSON as well, with the same exit code.

use crate::household::Household;

#[test]
fn every_view_is_printed_as_json() {
    let household = Household::after_first_day();
    for (command, field) in [
        (&["house"][..], "house"),
        (&["counter"], "lots"),
        (&["plan"], "days"),
        (&["batch", "list"], "batches"),
        (&["batch", "show", "1"], "verdict"),
        (&["batch", "scale", "freeze-kale"], "verdict"),
        (&["day"], "steps"),
        (&["stores"], "balance"),
        (&["process", "--food", "tomato-juice"], "rows"),
        (&["check"], "invariants"),
    ] {
        let text = household.run(command).fine();
        let told = household.run(&[&["--json"], command].concat()).fine();
        assert!(!told.json()[field].is_null(), "{command:?}");
        assert!(!text.out.trim_start().starts_with('{'), "{command:?}");
    }
    let recipes = household.run(&["--json", "batch", "recipes"]).fine().json();
    let printed = household.run(&["batch", "recipes"]).fine().out;
    for recipe in recipes.as_array().unwrap() {
        let key = recipe["key"].as_str().unwrap();
        assert!(printed.lines().any(|line| line.starts_with(key)), "{key}");
    }
    assert!(recipes.as_array().unwrap().len() > 20);
}

#[test]
fn every_action_says_its_entry() {
    let household = Household::with_tomatoes();
    let copy = household.folder().join("copy.db");
    let copy = copy.to_str().unwrap();
    for command in [
        &["house", "burners=3"][..],
        &[
            "pick",
            "kale",
            "3 lb",
            "--grade",
            "sound",
            "--temperature",
            "50F",
        ],
        &["lot", "2", "--place", "cold-room", "--temperature", "45F"],
        &["sort", "2", "1 lb", "--to", "eaten"],
        &["undo"],
        &[
            "batch",
            "new",
            "tomato-juice",
            "--jar",
            "quart",
            "--acid",
            "citric-acid",
        ],
        &["batch", "start", "1"],
        &[
            "batch",
            "finish",
            "1",
            "--out",
            "quart=7",
            "--minutes",
            "45",
            "--tick",
            "acid",
            "--tick",
            "bubbles",
            "--tick",
            "rim",
            "--tick",
            "covered",
        ],
        &["batch", "seals", "1"],
        &["take", "1", "quart", "2"],
        &["count", "1", "quart", "4"],
    ] {
        let done = household
            .run(&[&["--json"], command].concat())
            .fine()
            .json();
        assert!(
            done["entry"].as_i64().is_some_and(|entry| entry > 2),
            "{command:?}"
        );
        assert!(!done["words"].as_str().unwrap().is_empty(), "{command:?}");
    }
    let copied = household.run(&["--json", "backup", copy]).fine().json();
    assert_eq!(copied["copy"], copy);
    let restored = household.run(&["--json", "restore", copy]).fine().json();
    assert!(restored["kept"].as_str().is_some());
    household.run(&["check"]).fine();
}
