//! A number that is missing from the tables is never guessed: the gate refuses and names it.

use crate::case_file::{self, Answered, Ask};
use reference::{Files, Reference};
use std::collections::BTreeSet;

/// Every question of the case tables.
fn questions() -> Vec<Ask> {
    let tables = [
        include_str!("../../../../data/cases/nasty.csv"),
        include_str!("../../../../data/cases/gallery.csv"),
    ];
    let mut asked: Vec<Ask> = tables
        .iter()
        .flat_map(|text| case_file::read(text))
        .map(|case| case.ask)
        .collect();
    let loads = case_file::loads(include_str!("../../../../data/cases/loads.csv"));
    asked.extend(loads.into_iter().map(|load| Ask::Load(load.questions)));
    asked
}

/// What the household may do, without words: permit with its figures, or refusal with its code.
fn act(answered: &Answered) -> String {
    match answered {
        Answered::Heat(verdict) => match verdict.permit() {
            Some(permit) => format!("permit {} {:?}", permit.minutes(), permit.psi()),
            None => verdict.refusal().map_or("", |r| r.code).to_owned(),
        },
        Answered::Load(verdict) => match verdict.permit() {
            Some(permit) => format!("permit {} {:?}", permit.minutes(), permit.record().psi),
            None => verdict.refusal().map_or("", |r| r.code).to_owned(),
        },
        Answered::LookUp(Ok(found)) => format!("permit {} {:?}", found.minutes, found.psi),
        Answered::LookUp(Err(refusal)) => refusal.code.to_owned(),
        Answered::Route(verdict) if verdict.allowed => "permit route".to_owned(),
        Answered::Route(verdict) => verdict.code.clone(),
        Answered::Change(verdict) => format!("{:?}", verdict.answer),
        // Incidents are tested with the tables about them.
        Answered::Incident(_) | Answered::Later => String::new(),
    }
}

/// Numbers the gate compares with, by table: key column and the keys.
const COMPARED: [(&str, usize, &[&str]); 3] = [
    (
        "process/practice.csv",
        0,
        &[
            "smallest-canner-quarts",
            "dial-gauge-replace-over",
            "dial-gauge-replace-stricter",
            "max-psi",
            "steam-canner-max-process",
            "jar-sterilise-needed-under",
            "jar-sterilise-minutes",
            "jar-sterilise-extra-per-1000-ft",
            "preheat-water-hot-pack",
            "preheat-water-raw-pack",
            "kraut-salt-per-5-lb",
        ],
    ),
    (
        "process/house_rules.csv",
        0,
        &[
            "elevation-floor",
            "gauge-test-max-age",
            "vinegar-dilution-max",
            "sterilise-step",
            "fridge-oil-days",
            "fridge-untested-days",
            "fridge-unsealed-days",
            "kraut-room-low",
            "kraut-room-high",
        ],
    ),
    (
        "process/limits.csv",
        1,
        &["adjust-for-elevation", "dial-gauge-ceiling", "vinegar-5pct"],
    ),
];

/// The file with every row of this key left out, and with its value emptied.
fn without(text: &str, column: usize, key: &str) -> [String; 2] {
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let headers = reader.headers().expect("headers").clone();
    let value = headers.iter().position(|h| h == "value").expect("value");
    let mut gone = csv::Writer::from_writer(Vec::new());
    let mut empty = csv::Writer::from_writer(Vec::new());
    for writer in [&mut gone, &mut empty] {
        writer.write_record(&headers).expect("write");
    }
    let mut met = 0;
    for record in reader.records() {
        let record = record.expect("row");
        if &record[column] == key {
            met += 1;
            let fields = record.iter().enumerate();
            let cleared: Vec<&str> = fields
                .map(|(at, field)| if at == value { "" } else { field })
                .collect();
            empty.write_record(&cleared).expect("write");
        } else {
            gone.write_record(&record).expect("write");
            empty.write_record(&record).expect("write");
        }
    }
    assert!(met > 0, "{key} is a row of the table");
    [gone, empty].map(|w| String::from_utf8(w.into_inner().expect("written")).expect("text"))
}

#[test]
fn a_number_that_is_gone_gives_a_refusal_and_never_other_figures() {
    let sound = Reference::embedded();
    let asked = questions();
    let before: Vec<String> = asked
        .iter()
        .map(|ask| act(&case_file::answer(sound, ask)))
        .collect();
    let mut unnoticed = BTreeSet::new();
    for (file, column, keys) in COMPARED {
        let files: Files = reference::embedded::files();
        let text = String::from_utf8(files[file].clone()).expect("text");
        for key in keys {
            let mut noticed = false;
            for patched in without(&text, column, key) {
                let mut files = files.clone();
                files.insert(file.to_owned(), patched.into_bytes());
                let tables = Reference::read(&files).0;
                for (ask, before) in asked.iter().zip(&before) {
                    let after = act(&case_file::answer(&tables, ask));
                    assert!(
                        after == *before || after == "table-number-missing",
                        "{key} gone: {before} became {after}"
                    );
                    noticed |= after != *before;
                }
            }
            if !noticed {
                unnoticed.insert(*key);
            }
        }
    }
    assert!(unnoticed.is_empty(), "nobody asks for {unnoticed:?}");
}
