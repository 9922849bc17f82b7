//! Incidents from outside: the kinds, an answer without a household, a held batch and its card.

use crate::household::{Answer, Household, golden, program, root};
use std::path::Path;

/// Runs a command without any household.
fn without(arguments: &[&str]) -> Answer {
    let output = program()
        .args(["--date", "2026-08-27", "--time", "12:00"])
        .args(arguments)
        .output()
        .expect("the program starts");
    Answer::of(&output)
}

/// Seven quarts finished at 7:30 with everything ticked.
fn seven_quarts() -> Household {
    let household = Household::with_juice();
    household.run(&["batch", "start", "1"]).fine();
    household
        .run(&[
            "batch",
            "finish",
            "1",
            "--out",
            "quart=7",
            "--minutes",
            "45",
            "--lifted",
            "7:30",
            "--tick",
            "acid",
            "--tick",
            "bubbles",
            "--tick",
            "rim",
            "--tick",
            "covered",
        ])
        .fine();
    household
}

#[test]
fn the_kinds_and_the_disposal_card_print_what_they_printed_before() {
    let kinds = without(&["incident", "list"]).fine().out;
    let card = without(&["disposal"]).fine().out;
    let asked = without(&["incident", "wrong-time", "--lifted", "11:00"])
        .fine()
        .out;
    let late = without(&["incident", "acid-forgotten", "--lifted", "9:00"])
        .fine()
        .out;
    golden(
        "incidents.txt",
        &format!("{kinds}\n{card}\n{asked}\n{late}"),
    );
}

#[test]
fn every_kind_is_answered_without_a_household_in_text_and_json() {
    let kinds = without(&["--json", "incident", "list"]).fine().json();
    let mut seen = 0;
    for group in kinds["groups"].as_array().unwrap() {
        for line in group["kinds"].as_array().unwrap() {
            let kind = line["kind"].as_str().unwrap();
            let text = without(&["incident", kind]).fine().out;
            assert!(text.contains("Ask:"), "{text}");
            let json = without(&["--json", "incident", kind]).fine().json();
            assert_eq!(json["kind"], kind);
            assert_eq!(json["disposal_only"], !json["disposal"].is_null(), "{kind}");
            seen += 1;
        }
    }
    assert_eq!(seen, 21);
    let card = without(&["--json", "disposal"]).fine().json();
    assert_eq!(card["parts"].as_array().unwrap().len(), 4);
}

#[test]
fn what_is_wrong_with_a_question_is_said() {
    for (arguments, said) in [
        (&["incident", "acid-forgoten"][..], "acid-forgotten"),
        (&["incident", "xyzzy"][..], "incident list"),
        (
            &["incident", "wrong-time", "--lifted", "12:01"][..],
            "still to come",
        ),
        (
            &["incident", "wrong-time", "--noticed", "2026-09-01"][..],
            "still to come",
        ),
        (
            &["incident", "wrong-time", "--lifted", "noon"][..],
            "no time",
        ),
        (
            &["incident", "failed-seal", "--process", "maybe"][..],
            "no answer",
        ),
    ] {
        let answer = without(arguments);
        assert_eq!(answer.code, 2, "{arguments:?}");
        assert!(answer.err.contains(said), "{arguments:?}: {}", answer.err);
    }
    let household = seven_quarts();
    let before = household.rows();
    for (arguments, said) in [
        (&["--batch", "1", "--lifted", "7:29"][..], "begun at 7:30"),
        (&["--batch", "1", "--count", "8"][..], "7 quarts"),
        (&["--batch", "1", "--count", "-1"][..], "whole number"),
        (&["--batch", "9"][..], "no batch 9"),
    ] {
        let answer = household.run(&[&["incident", "failed-seal"], arguments].concat());
        assert_eq!(answer.code, 2, "{arguments:?}");
        assert!(answer.err.contains(said), "{arguments:?}: {}", answer.err);
    }
    assert_eq!(household.rows(), before, "nothing was written");
}

/// Whether a line speaks of boiling otherwise than as the way to throw a jar away.
fn cure(line: &str) -> bool {
    line.to_lowercase().contains("boil")
        && !line.contains("fit to be thrown away, never to be eaten")
}

#[test]
fn nothing_printed_for_a_held_jar_offers_boiling_as_a_cure() {
    let household = seven_quarts();
    household
        .run(&[
            "incident",
            "acid-forgotten",
            "--batch",
            "1",
            "--lifted",
            "7:30",
        ])
        .fine();
    let next = |arguments: &[&str]| household.run_on("2026-08-28", arguments).fine().out;
    let card = next(&["batch", "show", "1"]);
    assert!(card.contains("Only the disposal card is left"), "{card}");
    let stores = next(&["stores"]);
    for text in [card, stores, next(&["disposal"])] {
        for line in text.lines() {
            // The recipe's own steps are no advice for a jar on hold.
            let step = line
                .trim_start()
                .starts_with(|first: char| first.is_ascii_digit());
            assert!(step || !cure(line), "{line}");
        }
    }
    assert!(
        cure("Boil it 10 minutes before eating."),
        "the net has no hole"
    );
}

/// Every text under a folder, by path.
fn texts(folder: &Path, found: &mut Vec<(String, String)>) {
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            texts(&path, found);
        } else if let Ok(text) = std::fs::read_to_string(&path) {
            found.push((path.display().to_string(), text));
        }
    }
}

#[test]
fn no_code_reads_the_boil_before_eating() {
    let mut found = Vec::new();
    for krate in std::fs::read_dir(root().join("crates")).unwrap() {
        texts(&krate.unwrap().path().join("src"), &mut found);
    }
    assert!(found.len() > 100, "the sources were found");
    for (path, text) in found {
        assert!(!text.contains("boil-before-eating"), "{path}");
    }
}

#[test]
fn an_incident_is_stated_shown_and_settled_by_command() {
    let household = seven_quarts();
    let stated = household
        .run(&[
            "--json",
            "incident",
            "failed-seal",
            "--batch",
            "1",
            "--count",
            "2",
        ])
        .fine()
        .json();
    assert_eq!(stated["open_count"], 2);
    let entry = stated["entry"].to_string();
    let shown = household
        .run(&["incident", "failed-seal", "--batch", "1", "--entry", &entry])
        .fine()
        .out;
    assert!(shown.contains("before 7:30 tomorrow, 24 h left"), "{shown}");
    household
        .run(&["settle", "1", "fridge", "--count", "1"])
        .fine();
    household.run(&["settle", "1", "freeze"]).fine();
    assert_eq!(
        household.run(&["settle", "1", "fridge"]).code,
        2,
        "none is left"
    );
    household.run(&["check"]).fine();
}

#[test]
fn a_missing_tick_is_answered_by_command() {
    let household = Household::with_juice();
    household.run(&["batch", "start", "1"]).fine();
    let ticks = ["--tick", "bubbles", "--tick", "rim", "--tick", "covered"];
    let finish = [
        "batch",
        "finish",
        "1",
        "--out",
        "quart=7",
        "--minutes",
        "45",
    ];
    household.run(&[&finish[..], &ticks[..]].concat()).fine();
    let late = [
        "batch", "late", "1", "acid", "--done", "yes", "--at", "7:20",
    ];
    assert_eq!(household.run(&late).code, 2, "who did it is not said");
    let said = household
        .run(&[&late[..], &["--by", "Ida"]].concat())
        .fine()
        .out;
    assert!(said.contains("released"), "{said}");
    household.run(&["take", "1", "quart"]).fine();
}
