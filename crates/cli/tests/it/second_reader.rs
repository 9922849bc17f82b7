//! `process --questions` against a second reader of the tables that shares no code with the gate:
//! the same 22,176 questions, answered by the built program and by the reader, line by line.

#[path = "../../../safety/tests/it/oracle.rs"]
mod oracle;

use crate::household::Household;
use oracle::Oracle;
use serde_json::{Value, json};

const ACIDS: &str = include_str!("../../../../data/process/acid_additions.csv");
const ASKS: &str = include_str!("../../../../data/process/questions.csv");

const PACKS: [&str; 2] = ["raw", "hot"];
const JARS: [&str; 9] = [
    "half-pint",
    "12-ounce",
    "pint",
    "pint-and-half",
    "quart",
    "half-gallon",
    "250-ml",
    "500-ml",
    "1-litre",
];
const CANNERS: [&str; 4] = ["boiling-water", "dial-gauge", "weighted-gauge", "steam"];

/// Tenths of a foot: the edges of every band, and places between them.
const PLACES: [i64; 24] = [
    -100, 0, 5, 4_000, 9_990, 9_999, 10_000, 10_005, 10_007, 10_010, 15_000, 20_000, 20_001,
    25_000, 30_000, 30_001, 40_000, 40_001, 60_000, 60_004, 70_000, 80_000, 80_001, 90_000,
];

fn rows(text: &str) -> Vec<Vec<String>> {
    csv::Reader::from_reader(text.as_bytes())
        .records()
        .map(|record| record.unwrap().iter().map(str::to_owned).collect())
        .collect()
}

/// A household in good order that answers whatever it may be asked.
fn question(
    food: &str,
    pack: &str,
    jar: &str,
    canner: &str,
    tenths: i64,
    acids: &[Vec<String>],
    asks: &[Vec<String>],
) -> Value {
    let canner = match canner {
        "dial-gauge" => json!({"kind": canner, "error_psi": 0, "tested_on": "2026-05-01",
            "holds_quart_jars": 7, "volume_quarts": 22}),
        "weighted-gauge" => json!({"kind": canner, "weights_psi": [5, 10, 15],
            "holds_quart_jars": 7, "volume_quarts": 22}),
        _ => json!({"kind": canner}),
    };
    let mut answers = serde_json::Map::new();
    for ask in asks {
        let opens = ask[7] != "refuse" && !ask[3].is_empty();
        if ask[0] == food && opens && (ask[4].is_empty() || ask[4] == pack) {
            answers
                .entry(ask[1].clone())
                .or_insert_with(|| json!(ask[3]));
        }
    }
    let mut asked = json!({
        "food": food, "pack": pack, "jar": jar, "canner": canner,
        "elevation": format!("{}.{} ft", tenths / 10, tenths.abs() % 10),
        "vinegar": {"label_percent": 5}, "history": "sound", "answers": answers,
        "jars_sterilised": "yes", "on": "2026-08-15",
    });
    if let Some(acid) = acids.iter().find(|row| row[0] == food) {
        asked["acid"] = json!(acid[2]);
    }
    asked
}

#[test]
fn twenty_thousand_questions_are_answered_as_a_second_reader_answers_them() {
    let reader = Oracle::read();
    let (acids, asks) = (rows(ACIDS), rows(ASKS));
    let mut seed: u64 = 7;
    let mut lines = String::new();
    let mut expected = Vec::new();
    for food in &reader.foods {
        for pack in PACKS {
            for jar in JARS {
                for canner in CANNERS {
                    // Two of the 24 places for each question, drawn with a fixed seed.
                    for _ in 0..2 {
                        seed = seed
                            .wrapping_mul(6_364_136_223_846_793_005)
                            .wrapping_add(1_442_695_040_888_963_407);
                        let tenths = PLACES[(seed >> 33) as usize % PLACES.len()];
                        let asked = question(food, pack, jar, canner, tenths, &acids, &asks);
                        lines.push_str(&asked.to_string());
                        lines.push('\n');
                        expected.push(match reader.ask(food, pack, jar, canner, tenths) {
                            Some((minutes, psi, row, condition)) => {
                                let word = if condition { "permit-if" } else { "permit" };
                                json!([word, minutes, psi, row])
                            }
                            None => json!(["refusal", null, null, null]),
                        });
                    }
                }
            }
        }
    }
    let household = Household::empty();
    let file = household.folder().join("questions.jsonl");
    std::fs::write(&file, &lines).unwrap();
    let file = file.to_str().unwrap().to_owned();
    let answered = household.run(&["process", "--questions", &file]).fine().out;
    let answers: Vec<Value> = answered
        .lines()
        .map(|line| serde_json::from_str(line).unwrap())
        .collect();
    assert_eq!(answers.len(), expected.len());
    let mut counts = std::collections::BTreeMap::new();
    for ((asked, answer), expected) in lines.lines().zip(&answers).zip(&expected) {
        let found = json!([
            answer["verdict"],
            answer["minutes"],
            answer["psi"],
            answer["row"]
        ]);
        assert_eq!(&found, expected, "{asked}\n{answer}");
        *counts
            .entry(expected[0].as_str().unwrap_or_default().to_owned())
            .or_insert(0) += 1;
    }
    let said = format!("{} questions: {counts:?}", answers.len());
    println!("{said}");
    assert_eq!(
        said,
        r#"22176 questions: {"permit": 3107, "permit-if": 1418, "refusal": 17651}"#
    );
}
