//! Incidents on a real store: what is stated, what goes on hold, what may still be done, and when.

use crate::household::{app_with_house, at, juice_batch, pick_tomatoes, seven_quarts};
use app::App;
use app::error::ErrorKind;
use app::house::Canner;
use app::request::{
    AnswerLate, AskIncident, CheckSeals, NewBatch, RecordIncident, SettleIncident, StartBatch,
    TakeContainers,
};
use app::view::incident::IncidentView;
use std::collections::BTreeMap;

const TICKS: [&str; 4] = ["acid", "bubbles", "rim", "covered"];
const DAY: &str = "2026-08-27";

/// Seven quarts of juice begun at 8:00 and finished at 9:00, lifted then.
fn seven(ticks: &[&str]) -> (App, i64) {
    let app = app_with_house();
    let now = at(DAY, 480);
    pick_tomatoes(&app, &now, "24 lb");
    let batch = juice_batch(&app, &now, "23 lb");
    let start = StartBatch {
        batch,
        ..StartBatch::default()
    };
    app.start_batch(&now, &start).unwrap();
    let mut outcome = seven_quarts(batch, "40", ticks);
    outcome.lifted = "9:00".into();
    app.finish_batch(&at(DAY, 540), &outcome).unwrap();
    (app, batch)
}

fn stated(app: &App, batch: i64, minute: i64, kind: &str, count: &str) -> IncidentView {
    let now = at(DAY, minute);
    let request = RecordIncident {
        batch,
        kind: kind.into(),
        count: count.into(),
        ..RecordIncident::default()
    };
    let done = app.record_incident(&now, &request).unwrap();
    app.incident(&now, batch, done.entry).unwrap()
}

fn settle(batch: i64, way: &str) -> SettleIncident {
    SettleIncident {
        batch,
        way: way.into(),
        ..SettleIncident::default()
    }
}

fn take(batch: i64, place: &str, count: &str, to: &str) -> TakeContainers {
    TakeContainers {
        batch,
        size: "quart".into(),
        place: place.into(),
        count: count.into(),
        to: to.into(),
        ..TakeContainers::default()
    }
}

#[test]
fn acid_forgotten_in_time_holds_the_batch_and_offers_a_full_process_or_the_freezer() {
    let (app, batch) = seven(&TICKS);
    let view = stated(&app, batch, 600, "acid-forgotten", "");
    assert_eq!(
        (view.until.as_str(), view.left.as_str()),
        ("before 11:00 today", "1 h left")
    );
    assert_eq!(view.open_count, 7);
    assert!(!view.disposal_only && view.disposal.is_none());
    assert!(
        view.looser
            .iter()
            .all(|line| line.text.contains("24 hours"))
    );
    let card = app.batch(&at(DAY, 600), batch).unwrap();
    assert_eq!(card.state, "held");
    assert!(!card.disposal_only, "an hour is left");
    let refused = app.take_containers(&at(DAY, 601), &take(batch, "shelf", "1", "eaten"));
    assert_eq!(refused.unwrap_err().kind, ErrorKind::Refused);
    // The fridge is not offered for a wrong process.
    let fridge = app.settle_incident(&at(DAY, 601), &settle(batch, "fridge"));
    assert_eq!(fridge.unwrap_err().kind, ErrorKind::Refused);
}

#[test]
fn found_after_three_hours_a_sealed_jar_shows_the_disposal_card_alone() {
    let (app, batch) = seven(&TICKS);
    let view = stated(&app, batch, 720, "acid-forgotten", "");
    assert!(view.disposal_only && view.disposal.is_some() && view.until.is_empty());
    let keys: Vec<&str> = view
        .settle
        .iter()
        .map(|choice| choice.key.as_str())
        .collect();
    assert_eq!(keys, ["discard"]);
    let now = at(DAY, 720);
    let card = app.batch(&now, batch).unwrap();
    assert!(
        card.disposal_only && card.lead.contains("sealed or not"),
        "{}",
        card.lead
    );
    for way in ["reprocess", "freeze", "fridge", "keep"] {
        let error = app.settle_incident(&now, &settle(batch, way)).unwrap_err();
        assert_eq!(error.kind, ErrorKind::Refused, "{way}");
    }
    app.settle_incident(&now, &settle(batch, "discard"))
        .unwrap();
    let stores = app.stores(&now).unwrap();
    let left: i64 = stores
        .places
        .iter()
        .flat_map(|place| &place.holdings)
        .filter(|line| line.size == "quart")
        .map(|line| line.count)
        .sum();
    assert_eq!(left, 0);
    assert!(app.check(&now, None).unwrap().holds);
}

#[test]
fn the_clock_goes_on_while_nobody_acts() {
    let (app, batch) = seven(&TICKS);
    let view = stated(&app, batch, 600, "wrong-time", "");
    let entry = view.entry.unwrap();
    let later = |minute| app.incident(&at(DAY, minute), batch, entry).unwrap();
    assert!(!later(659).disposal_only);
    assert!(later(660).disposal_only, "at two hours the time is over");
    assert!(app.batch(&at(DAY, 660), batch).unwrap().disposal_only);
    let frozen = app.settle_incident(&at(DAY, 660), &settle(batch, "freeze"));
    assert_eq!(frozen.unwrap_err().kind, ErrorKind::Refused);
}

#[test]
fn what_was_frozen_in_time_is_free_in_the_freezer_and_nowhere_else() {
    let (app, batch) = seven(&TICKS);
    stated(&app, batch, 600, "wrong-elevation", "");
    let some = SettleIncident {
        count: "5".into(),
        ..settle(batch, "freeze")
    };
    app.settle_incident(&at(DAY, 610), &some).unwrap();
    let eat = |place: &str| app.take_containers(&at(DAY, 620), &take(batch, place, "1", "eaten"));
    assert_eq!(eat("shelf").unwrap_err().kind, ErrorKind::Refused);
    eat("freezer").unwrap();
    let stores = app.stores(&at(DAY, 620)).unwrap();
    for line in stores.places.iter().flat_map(|place| &place.holdings) {
        if line.size == "quart" {
            assert_eq!(line.held.is_empty(), line.place == "freezer", "{line:?}");
        }
    }
}

#[test]
fn a_reprocessing_counts_only_as_a_whole_and_frees_the_batch() {
    let (app, batch) = seven(&TICKS);
    stated(&app, batch, 550, "acid-forgotten", "");
    let now = at(DAY, 650);
    let mut ticks: Vec<String> = TICKS.iter().map(|tick| (*tick).to_owned()).collect();
    let mut request = SettleIncident {
        minutes: "39".into(),
        ticks: ticks.clone(),
        ..settle(batch, "reprocess")
    };
    let field = |request: &SettleIncident| app.settle_incident(&now, request).unwrap_err().field;
    assert_eq!(field(&request), "minutes");
    request.minutes = "40".into();
    assert_eq!(field(&request), "ticks", "the lids are not new");
    ticks.push("new-lids".to_owned());
    request.ticks = ticks;
    request.count = "6".into();
    assert_eq!(field(&request), "count", "one jar would stay as it was");
    request.count = String::new();
    app.settle_incident(&now, &request).unwrap();
    let card = app.batch(&now, batch).unwrap();
    assert_eq!(card.state, "finished");
    app.take_containers(&now, &take(batch, "shelf", "1", "eaten"))
        .unwrap();
    assert!(app.check(&now, None).unwrap().holds);
}

#[test]
fn a_suspect_jar_is_not_mended_by_another_process() {
    let (app, batch) = seven(&TICKS);
    stated(&app, batch, 550, "suspect-jar", "1");
    stated(&app, batch, 551, "wrong-time", "");
    let mut ticks: Vec<String> = TICKS.iter().map(|tick| (*tick).to_owned()).collect();
    ticks.push("new-lids".to_owned());
    let request = SettleIncident {
        minutes: "40".into(),
        ticks,
        ..settle(batch, "reprocess")
    };
    let error = app.settle_incident(&at(DAY, 600), &request).unwrap_err();
    assert_eq!(error.kind, ErrorKind::Refused);
    assert!(error.cause.contains("bulges"), "{}", error.cause);
}

#[test]
fn a_lid_that_did_not_seal_waits_with_its_deadline_shown() {
    let (app, batch) = seven(&TICKS);
    let seals = |to: &str| CheckSeals {
        batch,
        failed: BTreeMap::from([("quart".to_owned(), "2".to_owned())]),
        to: to.into(),
        ..CheckSeals::default()
    };
    let next = at("2026-08-28", 480);
    let done = app.check_seals(&next, &seals("")).unwrap();
    assert!(
        done.words.contains("before 9:00 tomorrow") || done.words.contains("before 9:00 today")
    );
    let card = app.batch(&next, batch).unwrap();
    let incident = &card.incidents[0];
    assert_eq!(
        (incident.kind.as_str(), incident.open_count),
        ("failed-seal", 2)
    );
    assert_eq!(incident.left, "1 h left");
    assert_eq!(card.state, "finished", "five jars are free");
    let eat = |count: &str| app.take_containers(&next, &take(batch, "shelf", count, "eaten"));
    assert_eq!(eat("6").unwrap_err().kind, ErrorKind::Refused);
    eat("5").unwrap();
    // One to the fridge in time, the other is too late a day on.
    let one = SettleIncident {
        count: "1".into(),
        ..settle(batch, "fridge")
    };
    app.settle_incident(&next, &one).unwrap();
    let late = at("2026-08-28", 540);
    assert_eq!(
        app.settle_incident(&late, &one).unwrap_err().kind,
        ErrorKind::Refused
    );
    app.settle_incident(&late, &settle(batch, "discard"))
        .unwrap();
    assert!(app.batch(&late, batch).unwrap().aside.is_empty());
    assert!(app.check(&late, None).unwrap().holds);
}

#[test]
fn a_seal_that_failed_goes_to_the_fridge_only_while_its_clock_is_open() {
    let seals = |batch, lifted: &str| CheckSeals {
        batch,
        failed: BTreeMap::from([("quart".to_owned(), "1".to_owned())]),
        to: "fridge".into(),
        lifted: lifted.into(),
        ..CheckSeals::default()
    };
    let (app, batch) = seven(&TICKS);
    let at_the_day = app.check_seals(&at("2026-08-28", 540), &seals(batch, ""));
    assert_eq!(
        at_the_day.unwrap_err().kind,
        ErrorKind::Refused,
        "24:00 is over"
    );
    // A later lifting stated afterwards does not buy time: the earlier one counts.
    let bought = app.check_seals(&at("2026-08-28", 540), &seals(batch, "2026-08-27 12:00"));
    assert_eq!(bought.unwrap_err().kind, ErrorKind::Refused);
    app.check_seals(&at("2026-08-28", 539), &seals(batch, ""))
        .unwrap();
}

#[test]
fn a_missing_tick_is_answered_later_and_only_then_is_the_batch_free() {
    let late = |batch, done: &str, who: &str, when: &str| AnswerLate {
        batch,
        tick: "acid".into(),
        done: done.into(),
        who: who.into(),
        when: when.into(),
        ..AnswerLate::default()
    };
    let now = at(DAY, 600);
    let (app, batch) = seven(&TICKS[1..]);
    let card = app.batch(&now, batch).unwrap();
    assert_eq!(card.late[0].key, "acid");
    assert!(!card.disposal_only);
    let field = |request: &AnswerLate| app.answer_late(&now, request).unwrap_err().field;
    assert_eq!(field(&late(batch, "", "A", "8:20")), "done");
    assert_eq!(field(&late(batch, "yes", "A", "")), "when");
    assert_eq!(field(&late(batch, "yes", "A", "23:00")), "when");
    app.answer_late(&now, &late(batch, "yes", "A", "8:20"))
        .unwrap();
    let card = app.batch(&now, batch).unwrap();
    assert_eq!(card.state, "finished");
    let acid = card.ticks.iter().find(|tick| tick.key == "acid").unwrap();
    assert!(acid.done.contains("answered later: A"), "{}", acid.done);
    assert!(app.check(&now, None).unwrap().holds);

    let (app, batch) = seven(&TICKS[1..]);
    app.answer_late(&now, &late(batch, "no", "", "")).unwrap();
    assert_eq!(app.batch(&now, batch).unwrap().state, "held");
    let again = app.answer_late(&now, &late(batch, "yes", "A", "8:20"));
    assert_eq!(
        again.unwrap_err().kind,
        ErrorKind::Refused,
        "a no stays a no"
    );
}

#[test]
fn a_short_load_is_never_released_by_an_answer() {
    let app = app_with_house();
    let now = at(DAY, 480);
    pick_tomatoes(&app, &now, "24 lb");
    let batch = juice_batch(&app, &now, "23 lb");
    let start = StartBatch {
        batch,
        ..StartBatch::default()
    };
    app.start_batch(&now, &start).unwrap();
    app.finish_batch(&now, &seven_quarts(batch, "35", &TICKS[1..]))
        .unwrap();
    let request = AnswerLate {
        batch,
        tick: "acid".into(),
        done: "yes".into(),
        who: "A".into(),
        when: "8:00".into(),
        ..AnswerLate::default()
    };
    let error = app.answer_late(&now, &request).unwrap_err();
    assert_eq!(error.kind, ErrorKind::Refused);
}

#[test]
fn a_load_that_lost_its_boil_owes_the_word_that_it_was_begun_again() {
    let app = app_with_house();
    let now = at(DAY, 480);
    pick_tomatoes(&app, &now, "24 lb");
    let batch = juice_batch(&app, &now, "23 lb");
    let start = StartBatch {
        batch,
        ..StartBatch::default()
    };
    app.start_batch(&now, &start).unwrap();
    let dip = RecordIncident {
        batch,
        kind: "boil-lost".into(),
        in_canner: true,
        ..RecordIncident::default()
    };
    let done = app.record_incident(&at(DAY, 500), &dip).unwrap();
    assert!(
        done.words.contains("count the full time again"),
        "{}",
        done.words
    );
    let card = app.batch(&at(DAY, 500), batch).unwrap();
    assert_eq!(card.state, "started");
    assert!(card.ticks.iter().any(|tick| tick.key == "restarted"));
    let done = app
        .finish_batch(&at(DAY, 560), &seven_quarts(batch, "40", &TICKS))
        .unwrap();
    assert!(done.words.contains("On hold"), "{}", done.words);
}

#[test]
fn bad_input_is_refused_by_field_and_nothing_is_written() {
    let (app, batch) = seven(&TICKS);
    let now = at(DAY, 600);
    let base = RecordIncident {
        batch,
        kind: "failed-seal".into(),
        ..RecordIncident::default()
    };
    let cases = [
        (
            "kind",
            RecordIncident {
                kind: "acid-forgoten".into(),
                ..base.clone()
            },
        ),
        (
            "kind",
            RecordIncident {
                kind: "gauge-bad".into(),
                ..base.clone()
            },
        ),
        (
            "lifted",
            RecordIncident {
                lifted: "10:01".into(),
                ..base.clone()
            },
        ),
        (
            "lifted",
            RecordIncident {
                lifted: "7:59".into(),
                ..base.clone()
            },
        ),
        (
            "noticed",
            RecordIncident {
                noticed: "2026-08-28".into(),
                ..base.clone()
            },
        ),
        (
            "lifted",
            RecordIncident {
                in_canner: true,
                ..base.clone()
            },
        ),
        (
            "count",
            RecordIncident {
                count: "8".into(),
                ..base.clone()
            },
        ),
        (
            "count",
            RecordIncident {
                count: "0".into(),
                ..base.clone()
            },
        ),
        (
            "place",
            RecordIncident {
                place: "moon".into(),
                ..base.clone()
            },
        ),
        (
            "sealed",
            RecordIncident {
                sealed: "perhaps".into(),
                ..base.clone()
            },
        ),
        (
            "batch",
            RecordIncident {
                batch: 99,
                ..base.clone()
            },
        ),
    ];
    for (field, request) in cases {
        let error = app.record_incident(&now, &request).unwrap_err();
        assert_eq!(error.field, field, "{request:?}: {}", error.cause);
        assert!(!error.action.is_empty(), "{request:?}");
    }
    let near = app
        .record_incident(
            &now,
            &RecordIncident {
                kind: "acid-forgoten".into(),
                ..base
            },
        )
        .unwrap_err();
    assert!(near.action.contains("acid-forgotten"), "{}", near.action);
    assert!(app.batch(&now, batch).unwrap().incidents.is_empty());
}

#[test]
fn a_jar_that_was_found_is_answered_without_any_batch() {
    let now = at(DAY, 600);
    let ask = |kind: &str, lifted: &str, process: &str| {
        let request = AskIncident {
            kind: kind.into(),
            lifted: lifted.into(),
            process: process.into(),
            ..AskIncident::default()
        };
        app::ask_incident(&now, &request).unwrap()
    };
    assert!(ask("history-unknown", "", "").disposal_only);
    assert!(
        ask("failed-seal", "9:00", "").disposal_only,
        "nobody says its process was right"
    );
    let right = ask("failed-seal", "9:00", "yes");
    assert_eq!(right.left, "23 h left");
    assert!(
        right.settle.is_empty(),
        "without a batch there is nothing to write down"
    );
}

#[test]
fn a_gauge_that_reads_high_holds_every_batch_since_its_last_test_and_no_other() {
    let app = app_with_house();
    let now = at(DAY, 480);
    let mut house = app.house(&now).unwrap().house;
    house.canners.push(Canner {
        name: "dial pot".into(),
        kind: "dial-gauge".into(),
        quarts: 7,
        pints: 9,
        gauge_error_psi: "0".into(),
        gauge_tested_on: "2026-05-01".into(),
        ..Canner::default()
    });
    app.set_house(&now, house, "").unwrap();
    pick_tomatoes(&app, &now, "90 lb");
    let begun = |canner: &str| {
        let new = NewBatch {
            recipe: "tomato-juice".into(),
            jar: "quart".into(),
            produce: "23 lb".into(),
            canner: canner.into(),
            ..NewBatch::default()
        };
        let batch = app.new_batch(&now, &new).unwrap().id.unwrap();
        let start = StartBatch {
            batch,
            ..StartBatch::default()
        };
        app.start_batch(&now, &start).unwrap();
        batch
    };
    let (first, second, kettle) = (begun("dial pot"), begun("dial pot"), begun("kettle"));
    let request = RecordIncident {
        batch: second,
        kind: "gauge-bad".into(),
        ..RecordIncident::default()
    };
    let done = app.record_incident(&at(DAY, 600), &request).unwrap();
    assert!(done.words.contains("On hold too"), "{}", done.words);
    let state = |batch| app.batch(&at(DAY, 600), batch).unwrap().state;
    assert_eq!(
        (state(first), state(second)),
        ("held".into(), "held".into())
    );
    assert_eq!(state(kettle), "started");
}
