//! The tested process by command: the printed row, or a refusal that the exit code shows.

use crate::household::{Answer, Household, program};

const JUICE: [&str; 7] = [
    "process",
    "--food",
    "tomato-juice",
    "--pack",
    "hot",
    "--method",
    "boiling-water",
];

fn ask(rest: &[&str]) -> Answer {
    // A look-up needs no household: there is none here.
    let folder = tempfile::tempdir().unwrap();
    let output = program()
        .env("STILLROOM_DATA", folder.path().join("none"))
        .args(JUICE)
        .args(rest)
        .output()
        .expect("the program starts");
    assert!(
        !folder.path().join("none").exists(),
        "a look-up leaves nothing behind"
    );
    Answer::of(&output)
}

#[test]
fn at_2500_feet_a_quart_of_juice_takes_the_minutes_of_its_band() {
    let answer = ask(&["--jar", "quart", "--elevation", "2500ft", "--json"]).fine();
    let view = answer.json();
    let told = &view["answer"];
    assert_eq!(told["kind"], "look-up");
    assert_eq!(told["minutes"], 45);
    assert_eq!(
        (told["band_low_ft"].as_i64(), told["band_high_ft"].as_i64()),
        (Some(1001), Some(3000))
    );
    let source = told["source"].as_str().unwrap();
    assert!(
        source.contains("AIB 539") && source.contains("p. 3-6"),
        "{source}"
    );
    let text = ask(&["--jar", "quart", "--elevation", "2500ft"]).fine().out;
    assert!(text.contains("45 minutes"), "{text}");
    assert!(text.contains("1,001 to 3,000 ft"), "{text}");
    assert!(text.contains("not a permit"), "{text}");
}

#[test]
fn at_800_feet_it_takes_40() {
    let answer = ask(&["--jar", "quart", "--elevation", "800ft", "--json"]).fine();
    assert_eq!(answer.json()["answer"]["minutes"], 40);
}

#[test]
fn metres_and_an_uncertain_elevation_take_the_upper_band() {
    // 305 m is 1000.66 ft: between the printed rows, so the longer time counts.
    for elevation in ["305 m", "950 ft ± 60"] {
        let answer = ask(&["--jar", "quart", "--elevation", elevation, "--json"]).fine();
        assert_eq!(answer.json()["answer"]["minutes"], 45, "{elevation}");
    }
}

#[test]
fn a_half_gallon_is_refused_with_the_jars_that_may_be_used() {
    for form in [&["--json"][..], &[]] {
        let answer = ask(&[&["--jar", "half-gallon", "--elevation", "2500ft"], form].concat());
        assert_eq!(answer.code, 3);
        assert!(answer.out.contains("jar-too-large"), "{}", answer.out);
        assert!(answer.out.contains("quart jars"), "{}", answer.out);
    }
    let refused = ask(&["--jar", "half-gallon", "--elevation", "2500ft", "--json"]).json();
    assert!(
        refused["answer"]["minutes"].is_null(),
        "no figure beside a refusal"
    );
}

#[test]
fn without_an_elevation_there_is_no_time() {
    let answer = ask(&["--jar", "quart", "--json"]);
    assert_eq!(answer.code, 3);
    let told = &answer.json()["answer"];
    assert_eq!(told["kind"], "refusal");
    assert_eq!(told["code"], "no-elevation");
    assert!(told["minutes"].is_null());
    assert!(told["instead"].as_str().unwrap().contains("elevation"));
    let rows = answer.json()["rows"].as_array().unwrap().clone();
    assert!(rows.iter().all(|row| row["answers"] == false));
}

/// A household at 2500 ft with a dial canner whose gauge was tested with this error.
fn with_dial(error: &str) -> Household {
    let household = Household::empty();
    household
        .run(&[
            "house",
            "elevation=2500 ft",
            "canners.0.name=dial canner",
            "canners.0.kind=dial-gauge",
            "canners.0.quarts=7",
            "canners.0.gauge_tested_on=2026-05-01",
            &format!("canners.0.gauge_error_psi={error}"),
        ])
        .fine();
    household
}

#[test]
fn bad_input_is_told_word_for_word() {
    let says = |answer: &Answer, code: i32, lines: &[&str]| {
        assert_eq!(answer.code, code, "{}", answer.out);
        for line in lines {
            assert!(
                answer.out.lines().any(|printed| printed == *line),
                "«{line}» is not in\n{}",
                answer.out
            );
        }
    };
    says(
        &ask(&["--jar", "quart"]),
        3,
        &[
            "REFUSED [no-elevation]: Without the elevation of the kitchen there is no process time: water boils cooler higher up.",
            "Instead: Enter the elevation of the house, such as 2500ft or 305 m; a map or the county shows it.",
        ],
    );
    says(
        &ask(&["--jar", "quart", "--elevation", "-10 ft"]),
        0,
        &[
            "LOOK-UP, not a permit: 40 minutes",
            "  Note: A place below sea level counts as sea level; water boils hotter there, and no publication was read for it. (our decision, stricter than the source)",
        ],
    );
    says(
        &ask(&["--jar", "quart", "--elevation", "305 m"]),
        0,
        &[
            "LOOK-UP, not a permit: 45 minutes",
            "  Band used: 1,001 to 3,000 ft; you entered 305 m",
        ],
    );
    says(
        &ask(&["--jar", "quart", "--elevation", "9000 ft"]),
        0,
        &[
            "LOOK-UP, not a permit: 55 minutes",
            "  Note: Above 8000 ft: the table names no ceiling; ask your extension service. (USDA, Complete Guide to Home Canning (AIB 539, revised 2015), p. 2-31)",
        ],
    );
    let dial = Household::empty().run(&[
        "process",
        "--food",
        "tomato-juice",
        "--jar",
        "quart",
        "--method",
        "dial-gauge",
        "--elevation",
        "9000 ft",
    ]);
    says(
        &dial,
        3,
        &[
            "REFUSED [above-dial-ceiling]: The dial-gauge tables end below 9000 ft; no pressure is published above.",
            "  Try: boiling water (--food tomato-juice --jar quart --method boiling-water --elevation \"9000 ft\")",
        ],
    );
    let raw = Household::empty().run(&[
        "process",
        "--food",
        "tomato-juice",
        "--pack",
        "raw",
        "--elevation",
        "800 ft",
    ]);
    says(
        &raw,
        3,
        &[
            "REFUSED [pack-not-listed]: Tomato juice in boiling-water: no printed process for raw pack.",
            "  Try: hot pack (--food tomato-juice --pack hot --elevation \"800 ft\")",
        ],
    );
}

#[test]
fn a_gauge_off_by_more_than_two_pounds_is_replaced_and_one_that_is_not_is_corrected() {
    let beans = ["process", "--food", "snap-and-italian-beans"];
    for error in ["3", "-3", "2 1/4"] {
        let answer = with_dial(error).run(&beans);
        assert_eq!(answer.code, 3, "{error}");
        let off = error.trim_start_matches('-');
        let wanted = format!("REFUSED [gauge-replace]: The dial gauge is off by {off} psi.");
        assert!(answer.out.contains(&wanted), "{}", answer.out);
        assert!(
            answer
                .out
                .contains("Instead: Replace a gauge that is off by more than 2 psi.")
        );
    }
    // AIB 539 (2015), p. 4-8: 25 minutes at 12 psi between 2,001 and 4,000 ft.
    let answer = with_dial("2").run(&beans).fine();
    assert!(
        answer.out.contains("PERMIT: 25 minutes at 14 psi"),
        "{}",
        answer.out
    );
    let answer = with_dial("-2").run(&beans).fine();
    assert!(
        answer.out.contains("PERMIT: 25 minutes at 12 psi"),
        "{}",
        answer.out
    );
}

#[test]
fn the_house_and_the_counter_ask_for_the_next_gauge_test() {
    let household = with_dial("0");
    let on = |date: &str, command: &str| household.run_on(date, &[command]).fine().out;
    for command in ["house", "counter"] {
        assert!(!on("2026-08-27", command).contains("gauge before"));
        assert!(
            on("2027-04-01", command)
                .contains("! «dial canner»: test the gauge before 1 May 2027.\n")
        );
        assert!(on("2027-05-02", command).contains(
            "! «dial canner»: no permit at any dial pressure until tested; the last test was on 1 May 2026.\n"
        ));
    }
    let house = on("2026-08-27", "house");
    assert!(
        house.contains("1 May 2026: shows the true pressure\n"),
        "{house}"
    );
    assert!(
        house.contains("Water boils at 207.4 F (97.4 C) here.\n"),
        "{house}"
    );
}
