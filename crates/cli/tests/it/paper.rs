//! Printing into files by command, and a card typed in by command.

use crate::household::{Answer, Household, program};
use std::io::Write as _;
use std::process::Stdio;

fn code(household: &Household) -> String {
    let file = household.folder().join("card.pdf");
    let card = household
        .run(&[
            "--json",
            "print",
            "card",
            "--batch",
            "1",
            "-o",
            file.to_str().unwrap(),
        ])
        .fine()
        .json();
    card["card"]["code"].as_str().unwrap().to_owned()
}

#[test]
fn each_print_command_writes_a_pdf_and_says_what_is_on_it() {
    let household = Household::after_first_day();
    let file = household.folder().join("out.pdf");
    let path = file.to_str().unwrap();
    for command in [
        &[
            "print",
            "labels",
            "--batch",
            "1",
            "--sheet",
            "24-a4",
            "--from",
            "7",
            "--offset-x",
            "0.5",
            "--offset-y",
            "-0.3",
            "--outline",
        ][..],
        &["print", "gift", "--batch", "1"],
        &["print", "disposal", "--paper", "a4"],
        &["print", "outline", "--sheet", "cut-a4"],
    ] {
        let answer = household.run(&[command, &["-o", path]].concat()).fine();
        assert!(answer.out.contains("Print"), "{command:?}: {}", answer.out);
        let bytes = std::fs::read(&file).unwrap();
        assert!(
            bytes.starts_with(b"%PDF-") && bytes.len() > 1000,
            "{command:?}"
        );
        std::fs::remove_file(&file).unwrap();
    }
    let told = household
        .run(&["--json", "print", "labels", "--batch", "1", "-o", path])
        .fine()
        .json();
    assert!(
        !told["labels"][0]["jar"]["code"]
            .as_str()
            .unwrap()
            .is_empty()
    );
}

#[test]
fn a_batch_without_an_outcome_prints_its_card_and_no_label() {
    let household = Household::with_juice();
    assert_eq!(code(&household).len(), 7);
    let file = household.folder().join("labels.pdf");
    let refused = household.run(&[
        "print",
        "labels",
        "--batch",
        "1",
        "-o",
        file.to_str().unwrap(),
    ]);
    assert_eq!(refused.code, 2);
    assert!(
        refused.err.contains("Nothing has come out"),
        "{}",
        refused.err
    );
    assert!(!file.exists());
}

#[test]
fn a_card_is_listed_and_entered_by_the_names_of_its_blanks() {
    let household = Household::with_juice();
    let code = code(&household);
    let list = household.run(&["batch", "enter", &code]).fine().out;
    for name in [
        "--blank start.day=",
        "--tick acid",
        "--blank load.1.from=",
        "--blank out.quart=",
        "--blank seals.day=",
    ] {
        assert!(list.contains(name), "{name}: {list}");
    }
    let done = household
        .run_on(
            "2026-09-02",
            &[
                "batch",
                "enter",
                &code.to_lowercase(),
                "--blank",
                "start.day=2026-08-27",
                "--blank",
                "start.time=8:10",
            ],
        )
        .fine();
    assert!(done.out.contains("has begun"), "{}", done.out);
    let wrong = household.run_on(
        "2026-09-02",
        &["batch", "enter", &code, "--blank", "start.day=2026-08-27"],
    );
    assert_eq!(wrong.code, 2);
    household.run_on("2026-09-02", &["check"]).fine();
}

#[test]
fn asked_blank_by_blank_a_card_is_entered_from_lines() {
    let household = Household::with_juice();
    let code = code(&household);
    let view = household
        .run(&["--json", "batch", "enter", &code])
        .fine()
        .json();
    let answers = |name: &str, kind: &str| match (name, kind) {
        ("start.day" | "outcome.day", _) => "2026-08-27",
        ("start.time", _) => "8:10",
        ("load.1.from", _) => "12:00",
        ("load.1.end", _) => "12:45",
        ("load.1.lifted", _) => "12:50",
        ("out.quart", _) => "7",
        (_, "tick") => "yes",
        _ => "",
    };
    let mut lines = String::new();
    for part in view["parts"].as_array().unwrap() {
        for ask in part["asks"].as_array().unwrap() {
            lines.push_str(answers(
                ask["name"].as_str().unwrap(),
                ask["kind"].as_str().unwrap(),
            ));
            lines.push('\n');
        }
    }
    let mut child = program()
        .env("STILLROOM_DATA", household.folder())
        .args([
            "--date",
            "2026-09-02",
            "--time",
            "07:30",
            "batch",
            "enter",
            &code,
            "--ask",
        ])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    child
        .stdin
        .take()
        .unwrap()
        .write_all(lines.as_bytes())
        .unwrap();
    let answer = Answer::of(&child.wait_with_output().unwrap()).fine();
    assert!(answer.out.contains("7 quarts"), "{}", answer.out);
    let card = household
        .run_on("2026-09-02", &["--json", "batch", "show", "1"])
        .fine()
        .json();
    assert_eq!(card["state"], "finished");
}
