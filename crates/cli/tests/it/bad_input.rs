//! Everything that can be typed wrong, asked too early or found broken: the exit code is not zero,
//! the message says what is wrong and what to do, and nothing is written.

use crate::household::{Answer, Household, golden, program};
use crate::served::Served;
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

/// One wrong command: the golden file's name, the exit code, the command.
type Case = (&'static str, i32, &'static [&'static str]);

/// Exit code of something that was typed wrong or is not there.
const WRONG: i32 = 2;

/// Exit code of what the gate or a rule of the house refuses.
const REFUSED: i32 = 3;

/// Exit code of a file, folder or port that cannot be used.
const FAILED: i32 = 1;

/// On an empty folder.
const EMPTY: &[Case] = &[
    ("plan-without-house", WRONG, &["plan", "--make"]),
    ("undo-nothing", WRONG, &["undo"]),
    ("house-without-equals-sign", WRONG, &["house", "elevation"]),
    ("house-unknown-field", WRONG, &["house", "hight=2500 ft"]),
    (
        "house-elevation-without-unit",
        WRONG,
        &["house", "elevation=2500"],
    ),
    (
        "house-elevation-in-the-sky",
        WRONG,
        &["house", "elevation=90000 ft"],
    ),
    ("house-negative-burners", WRONG, &["house", "burners=-3"]),
    (
        "house-unknown-canner-kind",
        WRONG,
        &["house", "canners.0.kind=oven"],
    ),
    (
        "house-from-a-file-that-is-gone",
        WRONG,
        &["house", "--file", "nowhere.json"],
    ),
    ("date-that-is-none", WRONG, &["day", "--on", "someday"]),
    (
        "check-unknown-invariant",
        WRONG,
        &["check", "--only", "everything"],
    ),
    (
        "process-unknown-food",
        WRONG,
        &["process", "--food", "moonfruit", "--jar", "quart"],
    ),
    (
        "process-unknown-canner",
        WRONG,
        &[
            "process",
            "--food",
            "tomato-juice",
            "--jar",
            "quart",
            "--method",
            "microwave",
        ],
    ),
    (
        "process-misspelt-food",
        WRONG,
        &["process", "--food", "tomatoe juice", "--elevation", "800ft"],
    ),
    (
        "process-elevation-below-the-sea",
        WRONG,
        &[
            "process",
            "--food",
            "tomato-juice",
            "--elevation",
            "-2000 ft",
        ],
    ),
    (
        "process-unknown-canner-of-the-house",
        WRONG,
        &[
            "process",
            "--food",
            "tomato-juice",
            "--canner",
            "big kettle",
        ],
    ),
    (
        "process-questions-gone",
        WRONG,
        &["process", "--questions", "nowhere.jsonl"],
    ),
    (
        "house-amount-of-nothing",
        WRONG,
        &["house", "ingredients.0.amount=3 cups"],
    ),
    (
        "house-jars-of-no-size",
        WRONG,
        &["house", "jars.0.count=12"],
    ),
    (
        "house-unknown-animal",
        WRONG,
        &["house", "animals=hens, wolves"],
    ),
    (
        "house-gauge-test-without-day",
        WRONG,
        &[
            "house",
            "canners.0.name=dial canner",
            "canners.0.kind=dial-gauge",
            "canners.0.quarts=7",
            "canners.0.gauge_error_psi=1",
        ],
    ),
    (
        "process-elevation-without-unit",
        WRONG,
        &["process", "--food", "tomato-juice", "--elevation", "2500"],
    ),
];

/// With a house and 60 lb of tomatoes.
const TOMATOES: &[Case] = &[
    (
        "pick-unknown-crop",
        WRONG,
        &["pick", "moonfruit", "3 lb", "--temperature", "70F"],
    ),
    (
        "pick-misspelt-crop",
        WRONG,
        &["pick", "tomatos", "3 lb", "--temperature", "70F"],
    ),
    (
        "pick-negative-weight",
        WRONG,
        &["pick", "kale", "-3 lb", "--temperature", "50F"],
    ),
    (
        "pick-no-weight-at-all",
        WRONG,
        &["pick", "kale", "0 lb", "--temperature", "50F"],
    ),
    (
        "pick-absurd-weight",
        WRONG,
        &["pick", "kale", "900000 lb", "--temperature", "50F"],
    ),
    (
        "pick-unit-not-understood",
        WRONG,
        &["pick", "kale", "3 stones", "--temperature", "50F"],
    ),
    (
        "pick-weight-without-unit",
        WRONG,
        &["pick", "kale", "3", "--temperature", "50F"],
    ),
    (
        "pick-weight-in-words",
        WRONG,
        &["pick", "kale", "some", "--temperature", "50F"],
    ),
    (
        "pick-without-weight",
        WRONG,
        &["pick", "kale", "--temperature", "50F"],
    ),
    ("pick-without-temperature", WRONG, &["pick", "kale", "3 lb"]),
    (
        "pick-oven-temperature",
        WRONG,
        &["pick", "kale", "3 lb", "--temperature", "900F"],
    ),
    (
        "pick-unknown-grade",
        WRONG,
        &[
            "pick",
            "kale",
            "3 lb",
            "--grade",
            "purple",
            "--temperature",
            "50F",
        ],
    ),
    (
        "pick-unknown-place",
        WRONG,
        &[
            "pick",
            "kale",
            "3 lb",
            "--place",
            "attic",
            "--temperature",
            "50F",
        ],
    ),
    (
        "pick-past-its-keeping",
        WRONG,
        &[
            "pick",
            "kale",
            "3 lb",
            "--picked-on",
            "2026-06-01",
            "--temperature",
            "50F",
        ],
    ),
    (
        "pick-still-to-come",
        WRONG,
        &[
            "pick",
            "kale",
            "3 lb",
            "--picked-on",
            "2026-09-01",
            "--temperature",
            "50F",
        ],
    ),
    (
        "pick-unknown-crate",
        WRONG,
        &[
            "pick",
            "kale",
            "--crate",
            "green",
            "--share",
            "two thirds",
            "--temperature",
            "50F",
        ],
    ),
    (
        "pick-unknown-history-question",
        WRONG,
        &[
            "pick",
            "kale",
            "3 lb",
            "--temperature",
            "50F",
            "--history",
            "happy=yes",
        ],
    ),
    (
        "pick-unknown-history-answer",
        WRONG,
        &[
            "pick",
            "kale",
            "3 lb",
            "--temperature",
            "50F",
            "--history",
            "diseased=perhaps",
        ],
    ),
    ("lot-unknown", WRONG, &["lot", "99", "--grade", "soft"]),
    ("lot-nothing-stated", WRONG, &["lot", "1"]),
    (
        "sort-more-than-there-is",
        WRONG,
        &["sort", "1", "100 lb", "--to", "eaten"],
    ),
    (
        "sort-nowhere",
        WRONG,
        &["sort", "1", "1 lb", "--to", "moon"],
    ),
    (
        "sort-mouldy-to-hens",
        REFUSED,
        &[
            "sort", "1", "1 lb", "--to", "animals", "--animal", "hens", "--part", "mouldy",
        ],
    ),
    (
        "plan-too-far-ahead",
        WRONG,
        &["plan", "--make", "--days", "9999"],
    ),
    (
        "plan-no-day-ahead",
        WRONG,
        &["plan", "--make", "--days", "0"],
    ),
    ("plan-backwards", WRONG, &["plan", "--make", "--days", "-4"]),
    (
        "batch-unknown-recipe",
        WRONG,
        &["batch", "new", "moonfruit-jam"],
    ),
    (
        "batch-unknown-jar",
        WRONG,
        &["batch", "new", "tomato-juice", "--jar", "teacup"],
    ),
    (
        "batch-jar-without-process",
        REFUSED,
        &["batch", "new", "tomato-juice", "--jar", "half-gallon"],
    ),
    (
        "batch-jar-without-process-tried",
        REFUSED,
        &["batch", "new", "tomato-juice", "--jar", "1-litre"],
    ),
    (
        "batch-unknown-canner",
        WRONG,
        &[
            "batch",
            "new",
            "tomato-juice",
            "--jar",
            "quart",
            "--canner",
            "red one",
        ],
    ),
    (
        "batch-none-of-it",
        WRONG,
        &["batch", "new", "tomato-juice", "--batches", "0"],
    ),
    (
        "batch-less-than-none",
        WRONG,
        &["batch", "new", "tomato-juice", "--batches", "-1"],
    ),
    (
        "batch-more-than-lies-there",
        WRONG,
        &[
            "batch",
            "new",
            "tomato-juice",
            "--jar",
            "quart",
            "--produce",
            "90 lb",
        ],
    ),
    ("batch-unknown", WRONG, &["batch", "show", "77"]),
    ("undo-unknown-entry", WRONG, &["undo", "999"]),
    ("undo-the-house", WRONG, &["undo", "1"]),
    (
        "backup-into-no-folder",
        FAILED,
        &["backup", "no-such-folder/copy.db"],
    ),
    (
        "restore-from-no-file",
        FAILED,
        &["restore", "no-such-copy.db"],
    ),
];

/// As [`TOMATOES`], with one batch of juice planned.
const PLANNED: &[Case] = &[
    (
        "finish-not-started",
        WRONG,
        &["batch", "finish", "1", "--out", "quart=7"],
    ),
    (
        "seals-before-outcome",
        WRONG,
        &["batch", "seals", "1", "--failed", "quart=1"],
    ),
    (
        "start-unknown-tick",
        WRONG,
        &["batch", "start", "1", "--tick", "bubble"],
    ),
    ("undo-a-picking-that-is-used", REFUSED, &["undo", "2"]),
];

/// As [`PLANNED`], started.
const STARTED: &[Case] = &[
    ("start-twice", WRONG, &["batch", "start", "1"]),
    (
        "finish-without-saying-what",
        WRONG,
        &["batch", "finish", "1", "--minutes", "45"],
    ),
    (
        "finish-larger-jar-than-permitted",
        WRONG,
        &[
            "batch",
            "finish",
            "1",
            "--out",
            "half-gallon=3",
            "--minutes",
            "45",
        ],
    ),
    (
        "finish-without-equals-sign",
        WRONG,
        &["batch", "finish", "1", "--out", "quart7"],
    ),
    (
        "finish-count-in-words",
        WRONG,
        &["batch", "finish", "1", "--out", "quart=seven"],
    ),
    (
        "finish-negative-count",
        WRONG,
        &["batch", "finish", "1", "--out", "quart=-7"],
    ),
    (
        "finish-ten-times-the-jars",
        WRONG,
        &[
            "batch",
            "finish",
            "1",
            "--out",
            "quart=70",
            "--minutes",
            "45",
        ],
    ),
    (
        "finish-time-in-words",
        WRONG,
        &[
            "batch",
            "finish",
            "1",
            "--out",
            "quart=7",
            "--minutes",
            "long",
        ],
    ),
    (
        "finish-negative-time",
        WRONG,
        &[
            "batch",
            "finish",
            "1",
            "--out",
            "quart=7",
            "--minutes",
            "-45",
        ],
    ),
    (
        "finish-more-trimmings-than-food",
        WRONG,
        &[
            "batch",
            "finish",
            "1",
            "--out",
            "quart=7",
            "--trimmings",
            "50 lb",
        ],
    ),
    (
        "finish-more-boiled-away-than-food",
        WRONG,
        &[
            "batch",
            "finish",
            "1",
            "--out",
            "quart=7",
            "--cooked-off",
            "50 lb",
        ],
    ),
    (
        "finish-partial-jar-larger-than-the-pot",
        WRONG,
        &[
            "batch",
            "finish",
            "1",
            "--out",
            "quart=7",
            "--partial",
            "9 gallons",
        ],
    ),
    (
        "finish-unknown-tick",
        WRONG,
        &[
            "batch",
            "finish",
            "1",
            "--out",
            "quart=7",
            "--minutes",
            "45",
            "--tick",
            "bubble",
        ],
    ),
    (
        "finish-trimmings-nowhere",
        WRONG,
        &[
            "batch",
            "finish",
            "1",
            "--out",
            "quart=7",
            "--trimmings-to",
            "moon",
        ],
    ),
];

/// As [`STARTED`], finished with too few minutes and so on hold.
const HELD: &[Case] = &[
    (
        "take-from-a-held-batch",
        REFUSED,
        &["take", "1", "quart", "1"],
    ),
    (
        "give-from-a-held-batch",
        REFUSED,
        &["take", "1", "quart", "1", "--to", "given"],
    ),
    (
        "move-from-a-held-batch",
        REFUSED,
        &["take", "1", "quart", "1", "--to", "fridge"],
    ),
    (
        "seals-of-a-held-batch-to-the-fridge",
        REFUSED,
        &[
            "batch", "seals", "1", "--failed", "quart=1", "--to", "fridge",
        ],
    ),
    (
        "finish-a-held-batch-again",
        WRONG,
        &["batch", "finish", "1", "--out", "quart=7"],
    ),
];

/// After the first day.
const FIRST_DAY: &[Case] = &[
    (
        "seals-more-than-there-are",
        WRONG,
        &["batch", "seals", "1", "--failed", "quart=40"],
    ),
    (
        "seals-nowhere",
        WRONG,
        &["batch", "seals", "1", "--failed", "quart=1", "--to", "moon"],
    ),
    (
        "take-more-than-there-are",
        WRONG,
        &["take", "1", "quart", "99"],
    ),
    ("take-less-than-none", WRONG, &["take", "1", "quart", "-1"]),
    ("take-half-a-jar", WRONG, &["take", "1", "quart", "1.5"]),
    (
        "take-of-a-size-that-is-not-there",
        WRONG,
        &["take", "1", "pint", "1"],
    ),
    (
        "take-from-nowhere",
        WRONG,
        &["take", "1", "quart", "1", "--place", "attic"],
    ),
    (
        "take-to-nowhere",
        WRONG,
        &["take", "1", "quart", "1", "--to", "attic"],
    ),
    (
        "take-of-an-unknown-batch",
        WRONG,
        &["take", "77", "quart", "1"],
    ),
    (
        "count-less-than-none",
        WRONG,
        &["count", "1", "quart", "-4"],
    ),
    ("count-absurd", WRONG, &["count", "1", "quart", "9999999"]),
    (
        "count-of-an-unknown-batch",
        WRONG,
        &["count", "77", "quart", "1"],
    ),
    ("undo-a-start", WRONG, &["undo", "7"]),
];

/// After the first day, with its batch of frozen kale started.
const BAGS: &[Case] = &[
    (
        "finish-a-hundred-times-the-bags",
        WRONG,
        &["batch", "finish", "3", "--out", "pint-bag=400"],
    ),
    (
        "finish-bags-in-jars",
        WRONG,
        &["batch", "finish", "3", "--out", "quart=4"],
    ),
];

/// With tomatoes in a house whose elevation nobody entered.
const NO_ELEVATION: &[Case] = &[(
    "batch-without-elevation",
    REFUSED,
    &[
        "batch",
        "new",
        "tomato-juice",
        "--jar",
        "quart",
        "--acid",
        "citric-acid",
    ],
)];

/// With a house and nothing picked.
const NOTHING_PICKED: &[Case] = &[
    ("plan-of-an-empty-counter", WRONG, &["plan", "--make"]),
    (
        "accept-a-plan-of-an-empty-counter",
        WRONG,
        &["plan", "--accept"],
    ),
];

const GROUPS: [&[Case]; 9] = [
    EMPTY,
    TOMATOES,
    PLANNED,
    STARTED,
    HELD,
    FIRST_DAY,
    BAGS,
    NO_ELEVATION,
    NOTHING_PICKED,
];

/// Golden files of the cases that have a test of their own.
const APART: [&str; 9] = [
    "folder-read-only",
    "file-broken",
    "file-cut-short",
    "file-of-another-program",
    "folder-is-a-file",
    "folder-below-a-file",
    "port-taken",
    "date-outside-the-calendar",
    "time-outside-the-day",
];

/// The message says what is wrong, and what to do: on a line of its own or behind a semicolon.
fn says_cause_and_action(name: &str, answer: &Answer) {
    assert_eq!(answer.out, "", "{name}: nothing but the message");
    assert!(
        answer.err.starts_with("stillroom: "),
        "{name}: {}",
        answer.err
    );
    assert!(
        answer.err.lines().count() >= 2 || answer.err.contains("; "),
        "{name} says nothing to do: {}",
        answer.err
    );
    assert!(!answer.err.contains("panicked"), "{name}: {}", answer.err);
}

fn compare(name: &str, arguments: &[&str], answer: &Answer, folder: &Path) {
    let typed: Vec<String> = arguments
        .iter()
        .map(|word| {
            if word.contains(' ') {
                format!("\"{word}\"")
            } else {
                (*word).to_owned()
            }
        })
        .collect();
    let told = format!(
        "$ stillroom {}\n{}[exit {}]\n",
        typed.join(" "),
        answer.err,
        answer.code
    );
    let told = told.replace(folder.to_str().unwrap(), "FOLDER");
    golden(&format!("bad_input/{name}.txt"), &told);
}

fn all_refused(household: &Household, cases: &[Case]) {
    let before = household.rows();
    for (name, code, arguments) in cases {
        let answer = household.run(arguments);
        assert_eq!(answer.code, *code, "{name}: {}{}", answer.out, answer.err);
        says_cause_and_action(name, &answer);
        let after = household.rows();
        assert!(
            after == before || before.is_empty() && after.iter().all(|row| !row.contains("entry")),
            "{name} left something behind"
        );
        compare(name, arguments, &answer, household.folder());

        let json = household.run(&[&["--json"], *arguments].concat());
        assert_eq!(json.code, *code, "{name}");
        let told = json.json();
        assert!(!told["cause"].as_str().unwrap().is_empty(), "{name}");
        assert!(told["action"].is_string(), "{name}");
    }
    let after = household.rows();
    assert!(after == before || before.is_empty());
    household.run(&["check"]).fine();
}

fn started() -> Household {
    let household = Household::with_juice();
    household.run(&["batch", "start", "1"]).fine();
    household
}

#[test]
fn nothing_wrong_is_taken_on_an_empty_folder() {
    all_refused(&Household::empty(), EMPTY);
}

#[test]
fn nothing_wrong_is_taken_on_the_counter() {
    all_refused(&Household::with_tomatoes(), TOMATOES);
}

#[test]
fn nothing_wrong_is_taken_for_a_planned_batch() {
    all_refused(&Household::with_juice(), PLANNED);
}

#[test]
fn nothing_wrong_is_taken_for_a_batch_in_the_pot() {
    let household = started();
    all_refused(&household, STARTED);
    // What was wrong eight times can still be entered right.
    let right = [
        "batch",
        "finish",
        "1",
        "--out",
        "quart=7",
        "--minutes",
        "45",
    ];
    household.run(&right).fine();
}

#[test]
fn nothing_leaves_a_held_batch_but_to_be_thrown_away() {
    let household = started();
    let short = [
        "batch",
        "finish",
        "1",
        "--out",
        "quart=7",
        "--minutes",
        "30",
        "--tick",
        "acid",
        "--tick",
        "bubbles",
        "--tick",
        "rim",
        "--tick",
        "covered",
    ];
    let said = household.run(&short).fine().out;
    assert!(said.contains("On hold: 30 minutes were kept"), "{said}");
    all_refused(&household, HELD);
    household
        .run(&["take", "1", "quart", "7", "--to", "discarded"])
        .fine();
}

#[test]
fn nothing_wrong_is_taken_in_the_stores() {
    all_refused(&Household::after_first_day(), FIRST_DAY);
}

#[test]
fn nothing_wrong_is_taken_for_the_freezer() {
    let household = Household::after_first_day();
    household.run(&["batch", "start", "3"]).fine();
    all_refused(&household, BAGS);
    household
        .run(&["batch", "finish", "3", "--out", "pint-bag=4"])
        .fine();
}

#[test]
fn without_an_elevation_no_batch_is_set_up() {
    let household = Household::with_tomatoes();
    household.run(&["house", "elevation="]).fine();
    all_refused(&household, NO_ELEVATION);
}

#[test]
fn a_plan_of_nothing_is_refused() {
    let household = Household::with_tomatoes();
    household.run(&["sort", "1", "all", "--to", "eaten"]).fine();
    all_refused(&household, NOTHING_PICKED);
}

#[test]
fn a_jar_that_has_no_process_is_refused_when_it_is_only_tried() {
    let household = Household::with_tomatoes();
    let before = household.rows();
    let answer = household.run(&["batch", "scale", "tomato-juice", "--jar", "half-gallon"]);
    assert_eq!(answer.code, REFUSED);
    assert!(
        answer.out.contains("REFUSED [jar-too-large]"),
        "{}",
        answer.out
    );
    assert!(answer.out.contains("Instead: "), "{}", answer.out);
    assert_eq!(household.rows(), before);
}

#[test]
fn a_broken_file_is_named_and_left_as_it_is() {
    let sound = &crate::household::first_day().file;
    let foreign = {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("birds.db");
        rusqlite::Connection::open(&path)
            .unwrap()
            .execute_batch("CREATE TABLE seen (bird TEXT)")
            .unwrap();
        fs::read(path).unwrap()
    };
    for (name, bytes) in [
        ("file-broken", b"This is no household.\n".repeat(400)),
        ("file-cut-short", sound[..sound.len() / 2].to_vec()),
        ("file-of-another-program", foreign),
    ] {
        let household = Household::empty();
        fs::write(household.file(), &bytes).unwrap();
        for command in [
            &["counter"][..],
            &["check"],
            &["pick", "kale", "3 lb", "--temperature", "50F"],
            &["serve", "--port", "0"],
        ] {
            let answer = household.run(command);
            assert_eq!(answer.code, FAILED, "{name} {command:?}");
            says_cause_and_action(name, &answer);
            assert!(answer.err.contains("stillroom.db"), "{}", answer.err);
            if command == ["counter"] {
                compare(name, command, &answer, household.folder());
            }
        }
        assert_eq!(fs::read(household.file()).unwrap(), bytes, "{name}");
    }
}

#[test]
fn a_folder_that_is_a_file_is_named() {
    let around = tempfile::tempdir().unwrap();
    let file = around.path().join("letter.txt");
    fs::write(&file, "Dear Ida").unwrap();
    for (name, data) in [
        ("folder-is-a-file", file.clone()),
        ("folder-below-a-file", file.join("house")),
    ] {
        let arguments = ["pick", "kale", "3 lb", "--temperature", "50F"];
        let output = program()
            .arg("--data")
            .arg(&data)
            .args(arguments)
            .output()
            .expect("the program starts");
        let answer = Answer::of(&output);
        assert_eq!(answer.code, FAILED);
        says_cause_and_action(name, &answer);
        compare(name, &arguments, &answer, around.path());
    }
    assert_eq!(fs::read_to_string(&file).unwrap(), "Dear Ida");
}

#[cfg(unix)]
#[test]
fn a_read_only_folder_is_named() {
    use std::os::unix::fs::PermissionsExt as _;
    use std::os::unix::process::CommandExt as _;
    let rights = |mode: u32, path: &Path| {
        fs::set_permissions(path, fs::Permissions::from_mode(mode)).unwrap();
    };
    let household = Household::with_tomatoes();
    let before = household.rows();
    let (folder, file) = (household.folder(), household.file());
    rights(0o444, &file);
    rights(0o555, folder);
    // To a user who may write everywhere no folder is read-only, so the program runs as another.
    let writes_everywhere = fs::write(folder.join("probe"), "").is_ok();
    let own = tempfile::tempdir().unwrap();
    let mut command = program();
    if writes_everywhere {
        fs::remove_file(folder.join("probe")).unwrap();
        rights(0o755, own.path());
        let copy = own.path().join("stillroom");
        fs::copy(crate::household::PROGRAM, &copy).unwrap();
        command = std::process::Command::new(copy);
        command.uid(65534).gid(65534);
    }
    let arguments = ["pick", "kale", "3 lb", "--temperature", "50F"];
    let output = command
        .env("STILLROOM_DATA", folder)
        .args(arguments)
        .output();
    rights(0o755, folder);
    rights(0o644, &file);
    let answer = match output {
        Ok(output) => Answer::of(&output),
        Err(error) if writes_everywhere => {
            println!("no other user to run the program as ({error}), so nothing is read-only");
            return;
        }
        Err(error) => panic!("{error}"),
    };
    assert_eq!(answer.code, FAILED, "{}{}", answer.out, answer.err);
    says_cause_and_action("folder-read-only", &answer);
    assert!(answer.err.contains("cannot be written"), "{}", answer.err);
    assert!(answer.err.contains("stillroom.db"), "{}", answer.err);
    compare("folder-read-only", &arguments, &answer, folder);
    assert_eq!(household.rows(), before);
    household.run(&["check"]).fine();
}

#[test]
fn a_taken_port_is_named() {
    let other = Household::empty();
    let served = Served::on(&other);
    let port = served.address.port().to_string();
    let household = Household::after_first_day();
    let before = household.rows();
    let answer = household.run(&["serve", "--port", &port]);
    assert_eq!(answer.code, FAILED);
    says_cause_and_action("port-taken", &answer);
    assert!(answer.err.contains(&port), "{}", answer.err);
    let told = Answer {
        err: answer.err.replace(&port, "PORT"),
        ..answer
    };
    compare(
        "port-taken",
        &["serve", "--port", "PORT"],
        &told,
        household.folder(),
    );
    assert_eq!(household.rows(), before);
}

#[test]
fn a_moment_that_does_not_exist_is_refused() {
    for (name, option, text) in [
        ("date-outside-the-calendar", "--date", "2026-13-01"),
        ("time-outside-the-day", "--time", "25:00"),
    ] {
        let household = Household::empty();
        let output = program()
            .env("STILLROOM_DATA", household.folder())
            .args([option, text, "counter"])
            .output()
            .expect("the program starts");
        let answer = Answer::of(&output);
        assert_eq!(answer.code, WRONG);
        says_cause_and_action(name, &answer);
        compare(
            name,
            &[option, text, "counter"],
            &answer,
            household.folder(),
        );
        assert!(!household.file().exists());
    }
}

#[test]
fn a_form_sent_twice_is_written_once() {
    let household = Household::with_tomatoes();
    let form = "token=00ab-7&crop=kale&amount=3+lb&grade=sound&place=cold-room&temperature=50F";
    let served = Served::on(&household);
    let first = served.ask("POST /counter", form);
    assert!(first.starts_with("HTTP/1.1 303"), "{first:.400}");
    let once = household.rows();
    assert!(once.iter().any(|row| row.contains("kale")));
    let second = served.ask("POST /counter", form);
    assert!(second.starts_with("HTTP/1.1 303"), "{second:.400}");
    assert_eq!(household.rows(), once);
    household.run(&["check"]).fine();
}

#[test]
fn every_golden_file_belongs_to_a_case() {
    let cases: BTreeSet<&str> = GROUPS
        .iter()
        .flat_map(|group| group.iter().map(|(name, ..)| *name))
        .chain(APART)
        .collect();
    let count: usize = GROUPS.iter().map(|group| group.len()).sum();
    assert_eq!(cases.len(), count + APART.len(), "every name is used once");
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/golden/bad_input");
    let files: BTreeSet<String> = fs::read_dir(folder)
        .unwrap()
        .map(|file| {
            let name = file.unwrap().file_name().into_string().unwrap();
            name.trim_end_matches(".txt").to_owned()
        })
        .collect();
    for file in &files {
        assert!(cases.contains(file.as_str()), "{file}.txt has no case");
    }
    if std::env::var_os("UPDATE_GOLDEN").is_none() {
        for case in &cases {
            assert!(files.contains(*case), "{case} has no golden file");
        }
    }
}
