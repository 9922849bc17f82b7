//! The tested process by command: the printed row, or a refusal that the exit code shows.

use crate::household::{Answer, program};

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
