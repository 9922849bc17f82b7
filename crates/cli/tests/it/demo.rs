//! `demo --once`: the invented household set up, its whole day printed, the same again.

use crate::household::{Answer, Household, program};
use crate::served::Served;

fn demo(household: &Household) -> Answer {
    let output = program()
        .arg("--data")
        .arg(household.folder())
        .args(["demo", "--once"])
        .output()
        .expect("the program starts");
    Answer::of(&output)
}

#[test]
fn it_prints_the_day_and_ends() {
    let household = Household::empty();
    let printed = demo(&household).fine().out;
    assert!(printed.contains("invented"), "it says what it is");
    for heading in ["Counter, ", "Plan, ", "Kitchen day, ", "Stores"] {
        assert!(
            printed.lines().any(|line| line.starts_with(heading)),
            "{heading}"
        );
    }
    assert!(
        printed.contains("keeps until about"),
        "lots with their time"
    );
    assert!(printed.contains("How good: "), "the plan with its gap");
    assert!(
        printed.contains("Boiling water: 45 minutes"),
        "batches with permits"
    );
    assert!(printed.contains(" psi"), "and a second canner in use");
    assert!(
        printed.contains("hands, "),
        "the timetable says who is busy"
    );
    let crops = household.run(&["counter", "--json"]).fine().json();
    let kinds: std::collections::BTreeSet<&str> = crops["lots"]
        .as_array()
        .unwrap()
        .iter()
        .map(|lot| lot["crop"].as_str().unwrap())
        .collect();
    assert!(kinds.len() >= 6, "{kinds:?}");
    household.run(&["check"]).fine();
}

#[test]
fn a_second_time_it_prints_the_same_and_writes_nothing() {
    let household = Household::empty();
    let first = demo(&household).fine().out;
    let rows = household.rows();
    assert_eq!(demo(&household).fine().out, first);
    assert_eq!(household.rows(), rows);
    let other = Household::empty();
    let elsewhere = demo(&other).fine().out;
    let place = |household: &Household| household.folder().display().to_string();
    assert_eq!(
        elsewhere.replace(&place(&other), ""),
        first.replace(&place(&household), ""),
        "in another folder it is the same day"
    );
}

#[test]
fn a_folder_with_a_household_of_its_own_is_left_alone() {
    let household = Household::with_tomatoes();
    let rows = household.rows();
    let answer = demo(&household);
    assert_eq!(answer.code, 2);
    assert!(
        answer.err.contains("a household of its own"),
        "{}",
        answer.err
    );
    assert_eq!(household.rows(), rows);
}

#[test]
fn without_once_it_prints_its_address_and_serves_the_day() {
    let household = Household::empty();
    demo(&household).fine();
    let mut command = program();
    command
        .arg("--data")
        .arg(household.folder())
        .args(["demo", "--port", "0"]);
    let served = Served::by(command);
    let page = served.ask("GET /plan", "");
    assert!(page.starts_with("HTTP/1.1 200"), "{page:.60}");
    assert!(page.contains("Tomato juice"));
}
