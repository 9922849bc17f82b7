//! The proof print and the file of questions: every printed row, and many answers at once.

use crate::household::{Answer, Household, program, root};
use std::collections::BTreeMap;
use std::fs;

/// The table's file, read here by the csv crate alone.
fn table() -> (Vec<String>, Vec<Vec<String>>) {
    let mut reader = csv::Reader::from_path(root().join("data/process/processes.csv")).unwrap();
    let columns = reader
        .headers()
        .unwrap()
        .iter()
        .map(str::to_owned)
        .collect();
    let rows = reader
        .records()
        .map(|row| row.unwrap().iter().map(str::to_owned).collect())
        .collect();
    (columns, rows)
}

fn run(arguments: &[&str]) -> Answer {
    let folder = tempfile::tempdir().unwrap();
    let output = program()
        .env("STILLROOM_DATA", folder.path())
        .args(["--date", "2026-08-27"])
        .args(arguments)
        .output()
        .expect("the program starts");
    Answer::of(&output)
}

#[test]
fn every_row_is_printed_under_the_columns_of_the_table_and_none_differs() {
    let printed = run(&["process", "--all", "--json"]).fine().json();
    let printed = printed.as_array().unwrap();
    let (columns, rows) = table();
    assert_eq!((rows.len(), printed.len()), (1526, 1526));
    for (index, (row, told)) in rows.iter().zip(printed).enumerate() {
        for (column, cell) in columns.iter().zip(row) {
            let value = match &told[column] {
                serde_json::Value::Null => {
                    assert!(told.get(column).is_some(), "row {index} has no {column}");
                    String::new()
                }
                serde_json::Value::String(text) => text.clone(),
                other => other.to_string(),
            };
            assert_eq!(&value, cell, "row {index}, {column}");
        }
    }
}

#[test]
fn the_proof_print_has_the_bands_across_and_marks_single_cells() {
    let printed = run(&["process", "--all"]).fine().out;
    assert!(printed.ends_with("\n1526 rows.\n"));
    let words = |line: &str| {
        line.split("  ")
            .map(str::trim)
            .filter(|word| !word.is_empty())
            .map(str::to_owned)
            .collect::<Vec<_>>()
    };
    let mut lines = printed
        .lines()
        .skip_while(|line| !line.ends_with("[tomato-juice]"))
        .map(words);
    // AIB 539 (2015), p. 3-6, tables 1 and 2.
    assert_eq!(lines.next().unwrap(), ["Tomato juice [tomato-juice]"]);
    assert_eq!(
        lines.next().unwrap(),
        [
            "hot pack, boiling water",
            "0-1,000 ft",
            "1,001-3,000 ft",
            "3,001-6,000 ft",
            "above 6,000 ft",
            "page"
        ]
    );
    assert_eq!(
        lines.next().unwrap(),
        ["pint", "35", "40", "45", "50", "3-6"]
    );
    assert_eq!(
        lines.next().unwrap(),
        ["quart", "40", "45", "50", "55", "3-6"]
    );
    let third = printed
        .lines()
        .skip_while(|line| !line.ends_with("[tomato-juice]"))
        .find(|line| line.contains("weighted gauge, pair 3"));
    assert!(third.is_some(), "the third pair has a line of its own");
    assert!(printed.contains("10 at 15 psi* older copy; doubtful, shown only"));
}

#[test]
fn a_file_of_questions_is_answered_line_by_line_and_a_bad_line_stops_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("questions.jsonl");
    let juice = r#"{"food":"tomato-juice","pack":"hot","jar":"quart","elevation":"2500 ft","#;
    fs::write(
        &file,
        [
            &format!(r#"{juice}"canner":{{"kind":"boiling-water"}},"acid":"citric-acid","history":"sound"}}"#),
            &format!(r#"{juice}"method":"boiling-water","look_up":true}}"#),
            "not json",
            "",
            &format!(r#"{juice}"canner":{{"kind":"dial-gauge","error_psi":"3","tested_on":"2026-05-01","holds_quart_jars":7}},"acid":"citric-acid","history":"sound"}}"#),
            &format!(r#"{juice}"canner":{{"kind":"steam"}},"acid":"citric-acid","history":"sound"}}"#),
            &format!(r#"{juice}"look_up":false}}"#),
        ]
        .map(|line| line.to_owned())
        .join("\n"),
    )
    .unwrap();
    let answer = run(&["process", "--questions", file.to_str().unwrap()]);
    assert_eq!(answer.code, 2);
    assert!(
        answer.err.contains("2 lines are no questions"),
        "{}",
        answer.err
    );
    let told: Vec<serde_json::Value> = answer
        .out
        .lines()
        .map(|line| serde_json::from_str(line).unwrap())
        .collect();
    let short: Vec<(i64, &str)> = told
        .iter()
        .map(|line| {
            (
                line["line"].as_i64().unwrap(),
                line["verdict"].as_str().unwrap(),
            )
        })
        .collect();
    assert_eq!(
        short,
        [
            (1, "permit"),
            (2, "look-up"),
            (3, "error"),
            (5, "refusal"),
            (6, "permit-if"),
            (7, "error")
        ]
    );
    assert_eq!(told[0]["minutes"], 45);
    assert!(told[2]["error"].as_str().unwrap().starts_with("line 3: "));
    assert_eq!(told[3]["code"], "gauge-replace");
    assert_eq!(told[4]["conditions"], serde_json::json!(["steam"]));
    assert_eq!(told[5]["field"], "canner");
}

/// The examples of the guide are questions, and their answers are the ones it prints.
#[test]
fn the_guides_examples_are_answered_as_it_says() {
    let guide = fs::read_to_string(root().join("docs/guide/process-questions.md")).unwrap();
    let block = |tag: &str| {
        let start = format!("```{tag}\n");
        guide
            .split(&start)
            .nth(1)
            .and_then(|rest| rest.split("```").next())
            .unwrap_or_else(|| panic!("no block {tag}"))
            .to_owned()
    };
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("questions.jsonl");
    fs::write(&file, block("jsonl questions")).unwrap();
    let answer = run(&["process", "--questions", file.to_str().unwrap()]);
    assert_eq!(answer.code, 2, "one of the examples is wrong on purpose");
    assert_eq!(answer.out, block("jsonl answers"));
}

#[test]
fn twenty_thousand_questions_take_one_start_of_the_program() {
    let (_, rows) = table();
    let mut lines = String::new();
    let mut printed: BTreeMap<usize, &str> = BTreeMap::new();
    for (index, row) in rows.iter().cycle().take(20_000).enumerate() {
        let pack = if row[2] == "any" { "hot" } else { &row[2] };
        lines.push_str(&format!(
            r#"{{"food":"{}","pack":"{pack}","jar":"{}","method":"{}","elevation":"{} ft","look_up":true}}"#,
            row[0], row[3], row[4], row[5]
        ));
        lines.push('\n');
        if row[9] == "1" && row[4] == "boiling-water" {
            printed.insert(index, &row[7]);
        }
    }
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("questions.jsonl");
    fs::write(&file, lines).unwrap();
    let answer = run(&["process", "--questions", file.to_str().unwrap()]).fine();
    let told: Vec<serde_json::Value> = answer
        .out
        .lines()
        .map(|line| serde_json::from_str(line).unwrap())
        .collect();
    assert_eq!(told.len(), 20_000);
    assert!(printed.len() > 5_000);
    for (index, minutes) in printed {
        assert_eq!(
            told[index]["minutes"].to_string(),
            minutes,
            "line {}",
            index + 1
        );
    }
}

#[test]
fn without_a_food_the_foods_are_listed() {
    let household = Household::empty();
    let printed = household.run(&["process"]).fine().out;
    assert!(printed.contains("Tomatoes\n") && printed.contains("snap-and-italian-beans"));
    assert!(!household.file().exists(), "a look-up makes no file");
}
