//! Labels and cards from a real record, and the card that comes back.

use crate::household::{app_with_house, at, juice_batch, pick_tomatoes, seven_quarts};
use app::App;
use app::error::ErrorKind;
use app::request::{CheckSeals, EnterCard, FinishBatch, Now, PrintCard, PrintLabels, StartBatch};
use app::view::enter::AskKind;
use std::collections::BTreeMap;

const ALL_TICKS: [&str; 4] = ["acid", "bubbles", "rim", "covered"];

fn labels(batch: i64) -> PrintLabels {
    PrintLabels {
        batch,
        ..PrintLabels::default()
    }
}

fn card(batch: i64) -> PrintCard {
    PrintCard {
        batch,
        paper: "a4".into(),
    }
}

/// A household with one batch of juice that is set up.
fn planned() -> (App, i64) {
    let app = app_with_house();
    pick_tomatoes(&app, &at("2026-08-27", 480), "26 lb");
    let batch = juice_batch(&app, &at("2026-08-27", 500), "24 lb");
    (app, batch)
}

fn start(app: &App, now: &Now, batch: i64) {
    app.start_batch(
        now,
        &StartBatch {
            batch,
            ..StartBatch::default()
        },
    )
    .unwrap();
}

fn finished(minutes: &str) -> (App, i64) {
    let (app, batch) = planned();
    start(&app, &at("2026-08-27", 570), batch);
    app.finish_batch(
        &at("2026-08-27", 1010),
        &FinishBatch {
            lifted: "16:40".into(),
            ..seven_quarts(batch, minutes, &ALL_TICKS)
        },
    )
    .unwrap();
    (app, batch)
}

fn jar(label: &print::Label) -> &print::JarLabel {
    match label {
        print::Label::Jar(jar) => jar,
        other => panic!("no jar label: {other:?}"),
    }
}

#[test]
fn each_jar_gets_a_label_with_its_day_its_place_and_a_code_of_its_own() {
    let (app, batch) = finished("40");
    let printed = app
        .print_labels(&at("2026-08-28", 480), &labels(batch))
        .unwrap();
    let quarts: Vec<&print::JarLabel> = printed.labels.iter().map(jar).take(7).collect();
    assert_eq!(printed.labels.len(), 8, "seven quarts and the part jar");
    assert_eq!(quarts[2].container, "Quart 3 of 8");
    assert_eq!(quarts[2].made, "Made 27 August 2026");
    assert_eq!(quarts[2].best, "Best by 27 August 2027");
    assert_eq!(quarts[2].place, "shelf");
    let part = jar(&printed.labels[7]);
    assert_eq!(part.place, "fridge");
    assert!(part.best.starts_with("EAT BY "), "{}", part.best);
    let mut codes: Vec<&str> = printed
        .labels
        .iter()
        .map(|label| jar(label).code.as_str())
        .collect();
    for code in &codes {
        assert_eq!(app.batch_of_code(code).unwrap(), batch);
    }
    codes.sort_unstable();
    codes.dedup();
    assert_eq!(codes.len(), 8);
    assert!(printed.bytes.starts_with(b"%PDF"));
}

#[test]
fn no_label_before_the_outcome_none_for_a_held_batch_and_the_reason_is_said() {
    let (app, batch) = planned();
    let now = at("2026-08-28", 480);
    let error = app.print_labels(&now, &labels(batch)).unwrap_err();
    assert_eq!(error.kind, ErrorKind::Input);
    assert!(error.cause.contains("Nothing has come out"), "{error}");

    let (app, batch) = finished("35");
    for error in [
        app.print_labels(&now, &labels(batch)).unwrap_err(),
        app.print_gift(&now, &labels(batch)).unwrap_err(),
        app.print_card(&now, &card(batch)).unwrap_err(),
    ] {
        assert_eq!(error.kind, ErrorKind::Refused);
        assert!(
            error.cause.contains("35 minutes were kept, 40 are printed"),
            "{error}"
        );
    }
    let offer = app.print_offer(batch).unwrap();
    assert_eq!((offer.labels, offer.card), (0, false));
    assert!(offer.why_not.contains("on hold"));
}

#[test]
fn a_jar_set_aside_gets_no_label() {
    let (app, batch) = finished("40");
    app.check_seals(
        &at("2026-08-28", 600),
        &CheckSeals {
            batch,
            failed: BTreeMap::from([("quart".to_owned(), "2".to_owned())]),
            ..CheckSeals::default()
        },
    )
    .unwrap();
    let printed = app
        .print_labels(&at("2026-08-28", 610), &labels(batch))
        .unwrap();
    let shelf = printed
        .labels
        .iter()
        .filter(|label| jar(label).place == "shelf");
    assert_eq!(shelf.count(), 5);
}

#[test]
fn a_house_that_moves_up_the_hill_gets_no_card_and_the_batch_is_held() {
    let (app, batch) = planned();
    let mut house = app.house(&at("2026-08-27", 510)).unwrap().house;
    house.elevation = "2500 ft".into();
    app.set_house(&at("2026-08-27", 511), house, "").unwrap();
    let error = app
        .print_card(&at("2026-08-27", 520), &card(batch))
        .unwrap_err();
    assert_eq!(error.kind, ErrorKind::Refused);
    assert_eq!(
        app.batch(&at("2026-08-27", 521), batch).unwrap().state,
        "held"
    );
}

#[test]
fn the_card_carries_permit_acid_ticks_and_a_blank_for_everything_that_is_asked_later() {
    let (app, batch) = planned();
    let printed = app
        .print_card(&at("2026-08-27", 520), &card(batch))
        .unwrap();
    let words = serde_json::to_string(&printed.card).unwrap();
    for wanted in [
        "40 minutes",
        "bottled lemon juice",
        "Headspace",
        "AIB 539",
        "Acid is in every jar",
    ] {
        assert!(words.contains(wanted), "{wanted}: {words}");
    }
    let code = printed.card.unwrap().code;
    let view = app.card_to_enter(&code).unwrap();
    assert_eq!(view.batch, batch);
    let mut at = 0;
    for ask in view.parts.iter().flat_map(|part| &part.asks) {
        // In the order of the card: each blank stands after the one before.
        let found = words[at..].find(&ask.label);
        at += found.unwrap_or_else(|| panic!("«{}» is out of order or missing", ask.label));
    }
}

/// Everything that the record says of the batches, without when it was written down.
fn record(app: &App) -> String {
    let facts = app.facts().unwrap();
    format!(
        "{:#?}\n{:#?}\n{:#?}\n{:#?}",
        facts.movements, facts.containers, facts.batches, facts.balances
    )
}

fn blanks(pairs: &[(&str, &str)]) -> BTreeMap<String, String> {
    pairs
        .iter()
        .map(|(name, text)| ((*name).to_owned(), (*text).to_owned()))
        .collect()
}

/// The card of the batch as it was filled in at the stove.
fn filled(app: &App, batch: i64) -> EnterCard {
    let code = app.print_offer(batch).unwrap().code;
    EnterCard {
        code,
        blanks: blanks(&[
            ("start.day", "2026-08-27"),
            ("start.time", "9:30"),
            ("load.1.from", "15:55"),
            ("load.1.end", "16:35"),
            ("load.1.lifted", "16:40"),
            ("outcome.day", "2026-08-27"),
            ("out.quart", "7"),
            ("partial", "1 1/2 cups"),
            ("trimmings", "5 lb"),
            ("cooked_off", "2 lb"),
            ("note", "thick"),
            ("seals.day", "2026-08-28"),
            ("seals.time", "10:00"),
            ("failed.quart", "1"),
        ]),
        ticks: ALL_TICKS.map(str::to_owned).to_vec(),
        token: "card-1".into(),
    }
}

#[test]
fn a_batch_entered_from_its_card_gives_the_facts_of_the_live_run() {
    let (live, batch) = planned();
    start(&live, &at("2026-08-27", 570), batch);
    live.finish_batch(
        &at("2026-08-27", 1010),
        &FinishBatch {
            lifted: "16:40".into(),
            note: "thick".into(),
            ..seven_quarts(batch, "40", &ALL_TICKS)
        },
    )
    .unwrap();
    live.check_seals(
        &at("2026-08-28", 600),
        &CheckSeals {
            batch,
            failed: BTreeMap::from([("quart".to_owned(), "1".to_owned())]),
            ..CheckSeals::default()
        },
    )
    .unwrap();

    let (paper, same) = planned();
    assert_eq!(batch, same);
    paper
        .enter_card(&at("2026-09-02", 1200), &filled(&paper, batch))
        .unwrap();
    assert_eq!(record(&live), record(&paper));
    let entries = |app: &App| app.store().read(|reader| reader.entries(3)).unwrap();
    for (typed, lived) in entries(&paper).into_iter().zip(entries(&live)) {
        assert_eq!(
            (typed.on, &typed.kind, &typed.who),
            (lived.on, &lived.kind, &lived.who)
        );
        assert!(
            typed.at.starts_with("2026-09-02"),
            "the entry time is that of typing"
        );
    }
    assert!(paper.check(&at("2026-09-02", 1201), None).unwrap().holds);
}

#[test]
fn a_card_is_entered_in_pieces_once_each_and_asks_only_what_is_open() {
    let (app, batch) = planned();
    let whole = filled(&app, batch);
    let only = |names: &[&str]| EnterCard {
        blanks: whole
            .blanks
            .iter()
            .filter(|(name, _)| names.iter().any(|start| name.starts_with(start)))
            .map(|(name, text)| (name.clone(), text.clone()))
            .collect(),
        ticks: Vec::new(),
        token: String::new(),
        code: whole.code.to_lowercase(),
    };
    let now = at("2026-09-02", 600);
    app.enter_card(&now, &only(&["start"])).unwrap();
    let error = app.enter_card(&now, &only(&["start"])).unwrap_err();
    assert_eq!(error.field, "start.day", "{error}");
    let view = app.card_to_enter(&whole.code).unwrap();
    assert!(view.parts.iter().all(|part| part.key != "start"));
    let mut rest = only(&["load", "out", "partial"]);
    rest.ticks.clone_from(&whole.ticks);
    app.enter_card(&now, &rest).unwrap();
    app.enter_card(&now, &only(&["seals"])).unwrap();
    assert!(app.card_to_enter(&whole.code).unwrap().parts.is_empty());
    assert_eq!(app.batch(&now, batch).unwrap().state, "finished");
}

#[test]
fn a_card_that_is_sent_twice_is_entered_once() {
    let (app, batch) = planned();
    let now = at("2026-09-02", 600);
    app.enter_card(&now, &filled(&app, batch)).unwrap();
    let before = record(&app);
    let error = app.enter_card(&now, &filled(&app, batch)).unwrap_err();
    assert_eq!(error.kind, ErrorKind::Already);
    assert_eq!(record(&app), before);
}

#[test]
fn a_wrong_blank_is_named_and_nothing_of_the_card_is_written() {
    let (app, batch) = planned();
    let now = at("2026-09-02", 600);
    let before = record(&app);
    for (name, text, field) in [
        ("start.day", "2026-09-03", "start.day"),
        // Before the tomatoes were picked.
        ("start.day", "2026-08-26", "start.day"),
        ("start.day", "", "start.day"),
        ("start.time", "half past nine", "start.time"),
        ("start.time", "", "start.time"),
        ("load.1.end", "noon", "load.1.end"),
        ("outcome.day", "2026-08-26", "outcome.day"),
        ("outcome.day", "", "outcome.day"),
        ("out.quart", "seven", "out.quart"),
        ("out.quart", "70", "out.quart"),
        ("trimmings", "90 lb", "trimmings"),
        ("seals.day", "2026-08-26", "seals.day"),
        ("failed.quart", "9", "failed.quart"),
        ("failed_to", "shelf", "failed_to"),
        ("out.half-gallon", "2", "out.half-gallon"),
        ("load.9.from", "9:00", "load.9.from"),
    ] {
        let mut request = filled(&app, batch);
        request.blanks.insert(name.to_owned(), text.to_owned());
        let error = app.enter_card(&now, &request).unwrap_err();
        assert_eq!(error.field, field, "{name}={text}: {error}");
        assert_eq!(record(&app), before, "{name}={text} left something behind");
    }
    let mut request = filled(&app, batch);
    request.ticks.push("rims".into());
    assert_eq!(app.enter_card(&now, &request).unwrap_err().field, "ticks");
    for code in ["", "223-22", "223-222", "O23-22K", "no code"] {
        let mut request = filled(&app, batch);
        request.code = code.into();
        assert_eq!(
            app.enter_card(&now, &request).unwrap_err().field,
            "code",
            "{code}"
        );
    }
    assert_eq!(record(&app), before);
}

#[test]
fn a_load_kept_too_short_a_missing_tick_or_times_unsaid_come_out_on_hold() {
    for (name, text, why) in [
        (
            "load.1.end",
            "16:30",
            "35 minutes were kept, 40 are printed",
        ),
        ("load.1.end", "", "was not said"),
    ] {
        let (app, batch) = planned();
        let mut request = filled(&app, batch);
        request.blanks.insert(name.to_owned(), text.to_owned());
        let done = app.enter_card(&at("2026-09-02", 600), &request).unwrap();
        assert_eq!(
            app.batch(&at("2026-09-02", 601), batch).unwrap().state,
            "held"
        );
        assert!(done.words.contains(why), "{}", done.words);
    }
    let (app, batch) = planned();
    let mut request = filled(&app, batch);
    request.ticks.retain(|tick| tick != "acid");
    let done = app.enter_card(&at("2026-09-02", 600), &request).unwrap();
    assert!(
        done.words.contains("acid is in every jar"),
        "{}",
        done.words
    );
}

#[test]
fn what_ran_in_a_house_that_the_gate_now_judges_otherwise_is_taken_down_and_held() {
    let (app, batch) = planned();
    let mut house = app.house(&at("2026-08-27", 510)).unwrap().house;
    house.elevation = "2500 ft".into();
    app.set_house(&at("2026-08-27", 511), house, "").unwrap();
    app.enter_card(&at("2026-09-02", 600), &filled(&app, batch))
        .unwrap();
    let view = app.batch(&at("2026-09-02", 601), batch).unwrap();
    assert_eq!(view.state, "held");
    assert!(app.check(&at("2026-09-02", 602), None).unwrap().holds);
}

#[test]
fn times_past_midnight_are_of_the_next_day() {
    let (app, batch) = planned();
    let mut request = filled(&app, batch);
    for (name, text) in [
        ("load.1.from", "23:40"),
        ("load.1.end", "0:20"),
        ("load.1.lifted", "0:25"),
        ("outcome.day", "2026-08-28"),
        ("seals.day", "2026-08-29"),
    ] {
        request.blanks.insert(name.to_owned(), text.to_owned());
    }
    app.enter_card(&at("2026-09-02", 600), &request).unwrap();
    let words = record(&app);
    assert!(words.contains("\"minutes\": Number(40)"), "{words}");
    assert_eq!(
        app.batch(&at("2026-09-02", 601), batch).unwrap().state,
        "finished"
    );
}

#[test]
fn blanks_have_one_name_each_and_every_day_part_begins_with_its_day() {
    let (app, batch) = planned();
    let view = app
        .card_to_enter(&app.print_offer(batch).unwrap().code)
        .unwrap();
    let mut names: Vec<&str> = view
        .parts
        .iter()
        .flat_map(|part| &part.asks)
        .map(|ask| ask.name.as_str())
        .collect();
    let all = names.len();
    names.sort_unstable();
    names.dedup();
    assert_eq!(names.len(), all);
    for key in ["start", "outcome", "seals"] {
        let part = view.parts.iter().find(|part| part.key == key).unwrap();
        assert_eq!(part.asks[0].kind, AskKind::Day);
    }
}

#[test]
fn wishes_that_no_sheet_can_meet_are_named() {
    let (app, batch) = finished("40");
    let now = at("2026-08-28", 480);
    for (field, request) in [
        (
            "sheet",
            PrintLabels {
                sheet: "31-letter".into(),
                ..labels(batch)
            },
        ),
        (
            "from",
            PrintLabels {
                from: "31".into(),
                ..labels(batch)
            },
        ),
        (
            "from",
            PrintLabels {
                from: "-1".into(),
                ..labels(batch)
            },
        ),
        (
            "offset_x",
            PrintLabels {
                offset_x: "NaN".into(),
                ..labels(batch)
            },
        ),
        (
            "offset_y",
            PrintLabels {
                offset_y: "11".into(),
                ..labels(batch)
            },
        ),
        (
            "count",
            PrintLabels {
                count: "9".into(),
                ..labels(batch)
            },
        ),
        (
            "count",
            PrintLabels {
                count: "0".into(),
                ..labels(batch)
            },
        ),
    ] {
        assert_eq!(
            app.print_labels(&now, &request).unwrap_err().field,
            field,
            "{request:?}"
        );
    }
    let one = PrintLabels {
        count: "1".into(),
        from: "30".into(),
        offset_x: "-0.3".into(),
        ..labels(batch)
    };
    assert_eq!(app.print_labels(&now, &one).unwrap().labels.len(), 1);
    let paper = PrintCard {
        batch,
        paper: "a5".into(),
    };
    assert_eq!(app.print_card(&now, &paper).unwrap_err().field, "paper");
}

#[test]
fn an_address_of_the_house_stands_on_the_label_and_a_bad_one_is_refused() {
    let (app, batch) = finished("40");
    let mut house = app.house(&at("2026-08-28", 470)).unwrap().house;
    for bad in [
        "stillroom",
        "http://",
        "http://a b",
        "javascript:alert(1)",
        "http://x?y",
        &format!("http://{}", "a".repeat(60)),
    ] {
        house.address = bad.to_owned();
        let error = app
            .set_house(&at("2026-08-28", 471), house.clone(), "")
            .unwrap_err();
        assert_eq!(error.field, "address", "{bad}");
    }
    house.address = "http://stillroom.home.arpa:7310".into();
    app.set_house(&at("2026-08-28", 472), house, "").unwrap();
    let printed = app
        .print_labels(&at("2026-08-28", 480), &labels(batch))
        .unwrap();
    let label = jar(&printed.labels[0]);
    assert_eq!(
        label.address,
        format!("http://stillroom.home.arpa:7310/jar/{}", label.code)
    );
}

#[test]
fn a_gift_label_names_the_acid_that_went_in_and_warns_of_it() {
    let (app, batch) = finished("40");
    let printed = app
        .print_gift(&at("2026-08-28", 480), &labels(batch))
        .unwrap();
    assert_eq!(printed.labels.len(), 7, "the part jar stays at home");
    let print::Label::Gift(gift) = &printed.labels[0] else {
        panic!("{:?}", printed.labels[0]);
    };
    assert_eq!(
        gift.ingredients,
        "Contains: tomatoes and bottled lemon juice."
    );
    assert!(gift.flags[0].contains("sulphites"), "{:?}", gift.flags);
    assert!(gift.made.starts_with("27 August 2026"), "{}", gift.made);
}

#[test]
fn the_same_record_prints_the_same_bytes() {
    let (app, batch) = finished("40");
    let print = |now: &Now| app.print_labels(now, &labels(batch)).unwrap().bytes;
    assert_eq!(print(&at("2026-08-28", 480)), print(&at("2026-08-29", 900)));
}

#[test]
fn the_disposal_card_prints_on_both_papers_and_offers_no_cure() {
    for paper in ["a4", "letter", ""] {
        let printed = app::print_disposal(paper).unwrap();
        let words = serde_json::to_string(&printed.card).unwrap();
        assert!(words.contains("Do not taste it"));
        assert!(!words.contains("boil before eating"));
    }
    assert_eq!(app::print_disposal("a5").unwrap_err().field, "paper");
}
