//! Incidents: every kind and every edge of the clocks, by the case table, and what may never be said.

use reference::{IncidentWay, Reference};
use safety::{
    Answer, FoodKind, IncidentAnswer, IncidentError, IncidentQuestion, disposal_card,
    judge_incident,
};
use std::collections::{BTreeMap, BTreeSet};

const CASES: &str = include_str!("../../../../data/cases/incidents.csv");
const KINDS: [FoodKind; 4] = [
    FoodKind::Acid,
    FoodKind::LowAcid,
    FoodKind::Mixed,
    FoodKind::Unknown,
];
const ANSWERS: [Answer; 3] = [Answer::Yes, Answer::No, Answer::Unknown];

type Row = BTreeMap<String, String>;

fn cases() -> Vec<Row> {
    let mut reader = csv::Reader::from_reader(CASES.as_bytes());
    let head = reader.headers().expect("header row").clone();
    reader
        .records()
        .map(|record| {
            let record = record.expect("well-formed row");
            head.iter()
                .zip(record.iter())
                .map(|(name, cell)| (name.to_owned(), cell.to_owned()))
                .collect()
        })
        .collect()
}

fn minutes(text: &str) -> Option<i64> {
    let (sign, text) = match text.strip_prefix('-') {
        Some(rest) => (-1, rest),
        None => (1, text),
    };
    let (hours, minutes) = text.split_once(':')?;
    let number = |text: &str| text.parse::<i64>().expect("a number");
    Some(sign * (number(hours) * 60 + number(minutes)))
}

fn answer(text: &str) -> Answer {
    match text {
        "yes" => Answer::Yes,
        "no" => Answer::No,
        "" => Answer::Unknown,
        other => panic!("answer `{other}`"),
    }
}

fn question(row: &Row) -> IncidentQuestion {
    let food = serde_json::Value::String(row["food"].clone());
    IncidentQuestion {
        kind: row["kind"].clone(),
        food: serde_json::from_value(food).expect("a food kind"),
        minutes_since_lifted: minutes(&row["lifted"]),
        in_canner: row["in_canner"] == "yes",
        process_was_right: answer(&row["process"]),
        sealed: answer(&row["sealed"]),
    }
}

/// What is wrong with an answer, if anything.
fn fault(row: &Row, given: &Result<IncidentAnswer, IncidentError>) -> Option<String> {
    let given = match given {
        Ok(given) => given,
        Err(error) => return Some(error.to_string()),
    };
    let ways: Vec<&str> = given.ways.iter().map(|line| line.way.as_str()).collect();
    let yes_no = |yes: bool| if yes { "yes" } else { "no" };
    let left = given.minutes_left.map(|left| left.to_string());
    for (name, is) in [
        ("clock", given.clock.as_str()),
        ("phase", given.phase.as_str()),
        ("left", left.as_deref().unwrap_or_default()),
        ("ways", ways.join(" ").as_str()),
        ("looser", yes_no(!given.looser.is_empty())),
        ("hold", given.hold.as_str()),
        ("affects", given.affects.as_str()),
        ("disposal_only", yes_no(given.disposal_only)),
    ] {
        if row[name] != is {
            return Some(format!("{name} is `{is}`, expected `{}`", row[name]));
        }
    }
    let text = format!("{given:?}").to_lowercase();
    row["must_say"]
        .split("; ")
        .find(|said| !text.contains(&said.to_lowercase()))
        .map(|said| format!("does not say `{said}`"))
}

fn faults(reference: &Reference) -> Vec<String> {
    cases()
        .iter()
        .filter_map(|row| {
            let given = judge_incident(reference, &question(row));
            fault(row, &given).map(|what| format!("{}: {what}", row["nr"]))
        })
        .collect()
}

#[test]
fn every_case_is_answered_as_it_should_be() {
    let wrong = faults(Reference::embedded());
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_kind_and_every_way_out_stands_in_a_case() {
    let cases = cases();
    let tried: BTreeSet<&str> = cases.iter().map(|row| row["kind"].as_str()).collect();
    for row in Reference::embedded().incidents() {
        assert!(tried.contains(row.kind.as_str()), "{}", row.kind);
    }
}

#[test]
fn no_row_about_incidents_can_be_lost_unnoticed() {
    let sound = reference::embedded::files();
    for file in ["process/incidents.csv", "process/incident_ways.csv"] {
        let text = String::from_utf8(sound[file].clone()).expect("text");
        for gone in text.lines().skip(1) {
            let left: String = text
                .lines()
                .filter(|line| *line != gone)
                .map(|line| format!("{line}\n"))
                .collect();
            let mut files = sound.clone();
            files.insert(file.to_owned(), left.into_bytes());
            let (reference, _) = Reference::read(&files);
            assert!(!faults(&reference).is_empty(), "{gone}");
        }
    }
}

fn every_question() -> Vec<IncidentQuestion> {
    let mut all = Vec::new();
    for row in Reference::embedded().incidents() {
        for food in KINDS {
            for lifted in [
                None,
                Some(-1),
                Some(0),
                Some(119),
                Some(120),
                Some(1439),
                Some(1440),
            ] {
                for in_canner in [true, false] {
                    for process_was_right in ANSWERS {
                        for sealed in ANSWERS {
                            all.push(IncidentQuestion {
                                kind: row.kind.clone(),
                                food,
                                minutes_since_lifted: lifted,
                                in_canner,
                                process_was_right,
                                sealed,
                            });
                        }
                    }
                }
            }
        }
    }
    all
}

#[test]
fn no_answer_to_an_incident_offers_boiling_as_a_cure() {
    let r = Reference::embedded();
    for q in every_question() {
        let given = judge_incident(r, &q).expect("an answer");
        if given.disposal_only {
            let text = format!("{:?} {:?} {:?}", given.ways, given.looser, given.notes);
            assert!(!text.to_lowercase().contains("boil"), "{text}");
        }
        let text = format!("{given:?}");
        assert!(
            !text.contains("10 min") && !text.contains("before eating"),
            "{text}"
        );
    }
}

#[test]
fn acid_and_seal_never_buy_time_and_the_fridge_asks_for_a_right_process() {
    let r = Reference::embedded();
    for q in every_question() {
        let given = judge_incident(r, &q).expect("an answer");
        let unlike = IncidentQuestion {
            food: FoodKind::LowAcid,
            ..q.clone()
        };
        let other = judge_incident(r, &unlike).expect("an answer");
        assert_eq!(given.ways, other.ways, "{q:?}");
        if given.offers(IncidentWay::Fridge) {
            assert_eq!(q.process_was_right, Answer::Yes, "{q:?}");
        }
        if given.offers(IncidentWay::Discard) {
            assert!(
                given.disposal_only,
                "a jar to be discarded has no other way: {q:?}"
            );
        }
        assert!(!given.ways.is_empty() && !given.ask.is_empty() && !given.source.is_empty());
        assert!(
            given
                .ways
                .iter()
                .all(|line| !line.text.contains("{n}") && !line.source.is_empty())
        );
    }
}

#[test]
fn an_unknown_kind_is_answered_with_the_nearest() {
    let asked = judge_incident(
        Reference::embedded(),
        &IncidentQuestion::new("acid-forgoten"),
    );
    let error = asked.expect_err("no such kind");
    assert_eq!(error.to_string(), "`acid-forgoten` is no kind of incident");
    let IncidentError::UnknownKind { near, .. } = error else {
        panic!("{error:?}");
    };
    assert_eq!(near.first().map(String::as_str), Some("acid-forgotten"));
}

fn without_number(file: &str, key: &str) -> Reference {
    let mut files = reference::embedded::files();
    let text = String::from_utf8(files[file].clone()).expect("text");
    assert_eq!(text.matches(key).count(), 1, "{key}");
    files.insert(file.to_owned(), text.replace(key, "gone,").into_bytes());
    Reference::read(&files).0
}

#[test]
fn a_number_that_is_gone_is_never_guessed() {
    let ask = |kind: &str| IncidentQuestion {
        minutes_since_lifted: Some(10),
        process_was_right: Answer::Yes,
        ..IncidentQuestion::new(kind)
    };
    for (file, key, kind) in [
        ("process/practice.csv", "wrong-process-hours,", "wrong-time"),
        (
            "process/practice.csv",
            "reprocess-within-hours,",
            "failed-seal",
        ),
        (
            "process/practice.csv",
            "unsealed-freeze-headspace,",
            "failed-seal",
        ),
        (
            "process/house_rules.csv",
            "fridge-liquid-lost-days,",
            "liquid-lost-more",
        ),
    ] {
        let reference = without_number(file, key);
        let asked = judge_incident(&reference, &ask(kind));
        let error = asked.expect_err("no number, no answer");
        assert!(
            error.to_string().contains("table-number-missing"),
            "{error}"
        );
    }
    for key in ["detox-boil-minutes,", "bleach-solution-parts-water,"] {
        let reference = without_number("process/practice.csv", key);
        assert!(disposal_card(&reference).is_err(), "{key}");
    }
}

#[test]
fn without_ways_nothing_is_left_but_to_discard() {
    let mut files = reference::embedded::files();
    files.insert(
        "process/incident_ways.csv".to_owned(),
        b"clock,phase,way,text,number,source\n".to_vec(),
    );
    files.insert(
        "process/sources.csv".to_owned(),
        b"key,title,kind\n".to_vec(),
    );
    let (reference, _) = Reference::read(&files);
    let given = judge_incident(&reference, &IncidentQuestion::new("wrong-time"));
    let given = given.expect("an answer");
    assert!(given.disposal_only && given.ways.is_empty());
    assert!(given.notes.iter().all(|note| !note.source.is_empty()));
}

#[test]
fn the_disposal_card_is_the_protocol_as_printed() {
    let card = disposal_card(Reference::embedded()).expect("the card");
    let keys = |steps: &[safety::Statement]| {
        steps
            .iter()
            .map(|step| step.key.clone())
            .collect::<Vec<_>>()
            .join(" ")
    };
    // Each step by its key: a row that is lost, or lands in another case, is noticed.
    assert_eq!(keys(&card.all), "no-tasting keep-away sister-jars no-drain");
    assert_eq!(keys(&card.sealed), "bag");
    assert_eq!(keys(&card.open), "gloves boil bin");
    assert_eq!(keys(&card.after), "bleach throw-cloths ill two-readings");
    // Thirty minutes under water make an open jar fit to be thrown away, and nothing else.
    let boil = &card.open[1];
    assert!(boil.text.contains("30 minutes") && boil.text.contains("never to be eaten"));
    assert!(boil.source.ends_with("p. 1-27"), "{}", boil.source);
    for step in [&card.all, &card.sealed, &card.after].into_iter().flatten() {
        assert!(!step.text.to_lowercase().contains("boil"), "{}", step.text);
    }
    assert!(
        card.after[0]
            .text
            .contains("1 part bleach (5 to 6 percent) to 5 parts water")
    );
    assert!(card.after[0].text.contains("a second time"));
}
