//! The Process page's questions: filled in by the house, refused, and answered up to a permit.

use crate::household::{app_with_house, at};
use app::App;
use app::house::{Canner, House};
use app::request::AskProcess;
use app::view::process::ProcessView;

fn ask(food: &str) -> AskProcess {
    AskProcess {
        food: food.into(),
        ..AskProcess::default()
    }
}

fn answer(app: &App, request: &AskProcess) -> ProcessView {
    app.process(&at("2026-08-27", 480), request).unwrap()
}

fn said(view: &ProcessView) -> (String, Option<i64>, String) {
    let plate = view.answer.as_ref().unwrap();
    (plate.kind.clone(), plate.minutes, plate.code.clone())
}

/// The test household with a dial canner beside its kettle.
fn with_dial(error: &str, tested_on: &str) -> App {
    let app = app_with_house();
    let now = at("2026-08-27", 480);
    let mut house: House = app.house(&now).unwrap().house;
    house.canners.push(Canner {
        name: "dial canner".into(),
        kind: "dial-gauge".into(),
        quarts: 7,
        gauge_error_psi: error.into(),
        gauge_tested_on: tested_on.into(),
        ..Canner::default()
    });
    app.set_house(&now, house, "").unwrap();
    app
}

#[test]
fn a_food_alone_is_answered_with_what_the_house_has() {
    let app = app_with_house();
    // AIB 539 (2015), p. 3-6: quarts of juice, 40 minutes up to 1,000 ft.
    let view = answer(&app, &ask("tomato-juice"));
    assert_eq!(said(&view), ("look-up".into(), Some(40), String::new()));
    assert_eq!(view.filled_in, "hot pack, quart, kettle");
    assert_eq!(view.asked.canner, "kettle");
    let used: Vec<&str> = view
        .bands
        .iter()
        .filter(|row| row.answers)
        .map(|row| row.band.as_str())
        .collect();
    assert_eq!(used, ["0 to 1,000 ft"]);
    assert_eq!(view.bands.len(), 4);
    assert_eq!(view.beside.iter().filter(|line| line.here).count(), 1);
}

#[test]
fn answers_given_one_by_one_lead_to_the_permit_and_no_sooner() {
    let app = app_with_house();
    let mut request = ask("tomato-juice");
    let mut asked = Vec::new();
    for _ in 0..5 {
        let view = answer(&app, &request);
        let Some(open) = &view.open else {
            assert_eq!(said(&view), ("permit".into(), Some(40), String::new()));
            assert_eq!(asked, ["history-unknown", "acid-not-chosen"]);
            return;
        };
        assert_eq!(
            said(&view).0,
            "look-up",
            "no permit while something is open"
        );
        asked.push(open.code.clone());
        for (field, word) in &open.answers[0].asks {
            match field.as_str() {
                "sound" => request.sound.clone_from(word),
                "acid" => request.acid.clone_from(word),
                "food" => assert_eq!(word, "tomato-juice"),
                other => panic!("{other} was not asked"),
            }
        }
    }
    panic!("the questions never ended: {asked:?}");
}

#[test]
fn another_place_than_the_house_is_looked_up_and_never_permitted() {
    let app = app_with_house();
    let request = AskProcess {
        sound: "yes".into(),
        acid: "citric-acid".into(),
        elevation: "2500 ft".into(),
        ..ask("tomato-juice")
    };
    assert_eq!(
        said(&answer(&app, &request)),
        ("look-up".into(), Some(45), String::new())
    );
}

#[test]
fn without_a_house_nothing_is_permitted_and_only_the_elevation_is_needed() {
    let refused = app::ask_process(&ask("tomato-juice")).unwrap();
    assert_eq!(
        said(&refused),
        ("refusal".into(), None, "no-elevation".into())
    );
    assert!(refused.rows.iter().all(|row| !row.answers));
    let request = AskProcess {
        elevation: "2500ft".into(),
        sound: "yes".into(),
        acid: "citric-acid".into(),
        ..ask("Tomato Juice")
    };
    let view = app::ask_process(&request).unwrap();
    assert_eq!(said(&view), ("look-up".into(), Some(45), String::new()));
    assert!(view.open.is_none() && !view.house_known);
}

#[test]
fn a_dial_out_of_test_is_looked_up_and_one_too_far_off_is_refused() {
    let beans = ask("snap-and-italian-beans");
    let old = answer(&with_dial("0", "2025-08-01"), &beans);
    // AIB 539 (2015), p. 4-8: hot quarts, 25 minutes at 11 psi up to 2,000 ft.
    assert_eq!(said(&old), ("look-up".into(), Some(25), String::new()));
    assert_eq!(old.open.unwrap().code, "gauge-test-old");
    let off = answer(&with_dial("3", "2026-08-01"), &beans);
    assert_eq!(said(&off), ("refusal".into(), None, "gauge-replace".into()));
    let fine = answer(&with_dial("1", "2026-08-01"), &beans);
    assert_eq!(said(&fine).0, "permit");
    assert_eq!(
        fine.answer.unwrap().psi.as_deref(),
        Some("12"),
        "printed 11, shown 1 too much"
    );
}

#[test]
fn an_answer_that_closes_the_table_shows_no_minutes() {
    let mut request = AskProcess {
        elevation: "800 ft".into(),
        ..ask("peaches")
    };
    assert!(said(&app::ask_process(&request).unwrap()).1.is_some());
    request.answers.insert("flesh".into(), "white".into());
    let closed = app::ask_process(&request).unwrap();
    assert_eq!(
        said(&closed),
        ("refusal".into(), None, "answer-closes-table".into())
    );
}

#[test]
fn a_label_that_takes_either_pack_says_what_it_means() {
    let request = |pack: &str| AskProcess {
        pack: pack.into(),
        elevation: "800 ft".into(),
        ..ask("pickled-yellow-pepper-rings")
    };
    for pack in ["raw", "hot", ""] {
        let view = app::ask_process(&request(pack)).unwrap();
        let plate = view.answer.unwrap();
        assert_eq!(plate.minutes, Some(10), "{pack}");
        assert!(
            plate.top.contains("raw vegetables, boiling brine"),
            "{}",
            plate.top
        );
        assert!(view.switches.iter().all(|switch| switch.name != "pack"));
    }
}

#[test]
fn the_treatment_below_the_boil_is_told_where_it_is_printed() {
    let told = |food: &str, jar: &str| {
        let request = AskProcess {
            jar: jar.into(),
            elevation: "800 ft".into(),
            ..ask(food)
        };
        let view = app::ask_process(&request).unwrap();
        view.questions.iter().any(|question| {
            question
                .text
                .contains("30 minutes in water held at 180 to 185 F")
        })
    };
    // AIB 539 (2015), p. 6-11: sweet gherkins in pints only.
    assert!(told("sweet-gherkin-pickles", "pint"));
    assert!(!told("sweet-gherkin-pickles", "half-pint"));
    assert!(!told("tomato-juice", "pint"));
}

#[test]
fn acid_is_told_for_the_jar_in_question_and_marked_cell_by_cell() {
    let acid = |jar: &str| {
        let request = AskProcess {
            jar: jar.into(),
            elevation: "800 ft".into(),
            ..ask("tomato-juice")
        };
        app::ask_process(&request).unwrap().acid
    };
    let vinegar = |jar: &str| {
        let lines = acid(jar);
        lines
            .into_iter()
            .find(|line| line.text.contains("vinegar"))
            .unwrap()
    };
    // The pint's vinegar stands in an older copy, the quart's in the 2015 text (p. 3-5).
    assert_eq!(vinegar("quart").mark, "");
    assert_eq!(
        vinegar("pint").mark,
        "printed in full only in an older edition"
    );
    // Ruling 9: 500 ml is a share of the printed ratio, rounded up to a spoon.
    let half_litre = acid("500-ml").remove(0);
    assert!(
        half_litre.text.starts_with("1 tbsp + 1/4 tsp"),
        "{}",
        half_litre.text
    );
    assert_eq!(half_litre.mark, "computed from the printed ratio");
}

#[test]
fn a_canner_the_house_does_not_have_is_named_with_those_it_has() {
    let request = AskProcess {
        canner: "big kettle".into(),
        ..ask("tomato-juice")
    };
    let error = app_with_house()
        .process(&at("2026-08-27", 480), &request)
        .unwrap_err();
    assert_eq!(error.field, "canner");
    assert!(error.action.contains("«kettle»"), "{}", error.action);
}
