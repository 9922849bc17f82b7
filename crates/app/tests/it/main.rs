//! The household's acts from picking to shelf, on a real store.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on should stop")]

mod acceptance;
mod house_form;
mod household;
mod incidents;
mod paper;
mod process;
mod recipe_card;

use app::App;
use app::error::ErrorKind;
use app::request::{
    CheckSeals, CountShelf, FinishBatch, MakePlan, NewBatch, RecordPicking, SortOut, StartBatch,
    StateLot, TakeContainers, Undo,
};
use household::{app_with_house, at, juice_batch, pick_tomatoes, plan};
use std::collections::BTreeMap;

#[test]
fn an_unknown_crop_is_refused_with_the_nearest_name_and_nothing_is_written() {
    let app = app_with_house();
    let error = app
        .record_picking(
            &at("2026-08-27", 480),
            &RecordPicking {
                crop: "tomatoe".into(),
                amount: "4 lb".into(),
                temperature: "70F".into(),
                ..RecordPicking::default()
            },
        )
        .unwrap_err();
    assert_eq!(
        (error.kind, error.field.as_str()),
        (ErrorKind::Input, "crop")
    );
    assert!(error.cause.contains("tomato"), "{}", error.cause);
    assert!(app.counter(&at("2026-08-27", 480)).unwrap().lots.is_empty());
}

#[test]
fn weights_that_cannot_be_are_refused_by_field() {
    let app = app_with_house();
    for amount in ["-3 lb", "0 lb", "4 bushels of", "9000 lb", "", "NaN kg"] {
        let error = app
            .record_picking(
                &at("2026-08-27", 480),
                &RecordPicking {
                    crop: "kale".into(),
                    amount: amount.into(),
                    temperature: "50F".into(),
                    ..RecordPicking::default()
                },
            )
            .unwrap_err();
        assert_eq!(error.field, "amount", "{amount}: {}", error.cause);
    }
}

#[test]
fn a_picking_that_is_past_its_time_is_refused_and_one_to_come_too() {
    let app = app_with_house();
    for date in ["2026-06-01", "2026-09-01", "yesterday"] {
        let error = app
            .record_picking(
                &at("2026-08-27", 480),
                &RecordPicking {
                    crop: "kale".into(),
                    amount: "3 lb".into(),
                    temperature: "50F".into(),
                    picked_on: date.into(),
                    ..RecordPicking::default()
                },
            )
            .unwrap_err();
        assert_eq!(error.field, "picked_on", "{date}: {}", error.cause);
    }
}

#[test]
fn the_same_form_sent_twice_is_one_picking() {
    let app = app_with_house();
    let form = RecordPicking {
        crop: "kale".into(),
        amount: "3 lb".into(),
        temperature: "50F".into(),
        token: "form-1".into(),
        ..RecordPicking::default()
    };
    let now = at("2026-08-27", 480);
    let first = app.record_picking(&now, &form).unwrap();
    let again = app.record_picking(&now, &form).unwrap_err();
    assert_eq!(
        (again.kind, again.entry),
        (ErrorKind::Already, Some(first.entry))
    );
    assert_eq!(app.counter(&now).unwrap().lots.len(), 1);
}

#[test]
fn two_thirds_of_a_known_crate_weighs_by_the_households_own_factor() {
    let app = app_with_house();
    let now = at("2026-08-27", 480);
    app.record_picking(
        &now,
        &RecordPicking {
            crop: "tomato-paste".into(),
            grade: "red".into(),
            crate_name: "green crate".into(),
            share: "two thirds".into(),
            temperature: "70F".into(),
            ..RecordPicking::default()
        },
    )
    .unwrap();
    let lot = &app.counter(&now).unwrap().lots[0];
    // 2/3 of 45 lb is 30 lb.
    assert_eq!(lot.weight.us, "30 lb");
    assert!(lot.how_weighed.contains("estimated"));
}

#[test]
fn a_plan_of_an_empty_counter_or_without_a_house_says_what_to_do() {
    let app = app_with_house();
    let now = at("2026-08-27", 480);
    let error = app.make_plan(&now, &plan()).unwrap_err();
    assert!(error.action.contains("Counter"), "{}", error.action);
    let bare = App::new(store::Store::open_in_memory().unwrap());
    assert_eq!(bare.make_plan(&now, &plan()).unwrap_err().field, "house");
}

#[test]
fn a_shown_plan_has_passed_the_checker_and_its_value_stays_below_the_bound() {
    let app = App::new(store::Store::open_in_memory().unwrap());
    let now = app.play_demo().unwrap();
    let view = app.make_plan(&now, &plan()).unwrap();
    assert!(view.goal.value <= view.goal.bound);
    assert!(view.goal.gap_percent < 5.0, "{}", view.goal.gap_percent);
    // Every picked pound of the flow goes somewhere, up to the crumbs that are not drawn.
    let lots: i64 = view.flow.lots.iter().map(|lot| lot.grams).sum();
    let places: i64 = view.flow.places.iter().map(|place| place.grams).sum();
    let crumbs = lots - places;
    assert!((0..100 * 12).contains(&crumbs), "{crumbs} g");
}

#[test]
fn the_same_facts_and_seed_give_the_same_plan() {
    let plans: Vec<String> = (0..3)
        .map(|_| {
            let app = App::new(store::Store::open_in_memory().unwrap());
            let now = app.play_demo().unwrap();
            serde_json::to_string(&app.make_plan(&now, &plan()).unwrap()).unwrap()
        })
        .collect();
    assert!(plans.windows(2).all(|two| two[0] == two[1]));
}

#[test]
fn a_frost_killed_vine_calls_off_what_was_not_begun_and_holds_the_rest() {
    let app = app_with_house();
    let now = at("2026-08-27", 480);
    pick_tomatoes(&app, &now, "46 lb");
    let begun = juice_batch(&app, &now, "23 lb");
    let waiting = juice_batch(&app, &now, "23 lb");
    app.start_batch(
        &now,
        &StartBatch {
            batch: begun,
            ..StartBatch::default()
        },
    )
    .unwrap();
    let done = app
        .state_lot(
            &now,
            &StateLot {
                lot: 1,
                question: "dead-or-frosted-vine".into(),
                answer: "yes".into(),
                ..StateLot::default()
            },
        )
        .unwrap();
    assert!(
        done.words.contains("called off") && done.words.contains("on hold"),
        "{}",
        done.words
    );
    assert_eq!(app.batch(&now, begun).unwrap().state, "held");
    assert_eq!(app.batch(&now, waiting).unwrap().state, "cancelled");
    // And no new batch for jars comes from it.
    let refused = app
        .new_batch(
            &now,
            &NewBatch {
                recipe: "tomato-juice".into(),
                produce: "10 lb".into(),
                ..NewBatch::default()
            },
        )
        .unwrap_err();
    assert!(refused.cause.contains("tomatoes"), "{}", refused.cause);
}

#[test]
fn unanswered_tomatoes_are_not_for_jars_until_someone_answers() {
    let app = app_with_house();
    let now = at("2026-08-27", 480);
    app.record_picking(
        &now,
        &RecordPicking {
            crop: "tomato-paste".into(),
            grade: "red".into(),
            amount: "24 lb".into(),
            temperature: "70F".into(),
            ..RecordPicking::default()
        },
    )
    .unwrap();
    let view = app.make_plan(&now, &plan()).unwrap();
    let jars: Vec<_> = view
        .days
        .iter()
        .flat_map(|day| &day.batches)
        .filter(|batch| batch.place == "shelf")
        .collect();
    assert!(jars.is_empty(), "{jars:?}");
    assert!(
        app.counter(&now).unwrap().lots[0]
            .closed
            .iter()
            .any(|why| why.contains("answered"))
    );
}

#[test]
fn a_batch_from_start_to_shelf_moves_every_milligram() {
    let app = app_with_house();
    let now = at("2026-08-27", 480);
    pick_tomatoes(&app, &now, "24 lb");
    let batch = juice_batch(&app, &now, "23 lb");
    let view = app.batch(&now, batch).unwrap();
    assert_eq!(view.verdict.minutes, Some(40), "at 620 ft");
    assert_eq!(view.jars.as_ref().unwrap().heat, 8);
    app.start_batch(
        &now,
        &StartBatch {
            batch,
            ..StartBatch::default()
        },
    )
    .unwrap();
    app.finish_batch(
        &now,
        &household::seven_quarts(batch, "40", &["acid", "bubbles", "rim", "covered"]),
    )
    .unwrap();
    let tomorrow = at("2026-08-28", 479);
    assert!(app.batch(&tomorrow, batch).unwrap().seal_check_due);
    app.check_seals(
        &tomorrow,
        &CheckSeals {
            batch,
            failed: BTreeMap::from([("quart".to_owned(), "1".to_owned())]),
            to: "fridge".into(),
            lifted: "2026-08-27 08:00".into(),
            ..CheckSeals::default()
        },
    )
    .unwrap();
    let stores = app.stores(&tomorrow).unwrap();
    let shelf = stores
        .places
        .iter()
        .find(|place| place.key == "shelf")
        .unwrap();
    assert_eq!(shelf.holdings[0].count, 6);
    let fridge = stores
        .places
        .iter()
        .find(|place| place.key == "fridge")
        .unwrap();
    assert!(
        fridge
            .holdings
            .iter()
            .all(|line| line.eat_by.contains("eat by")),
        "{fridge:?}"
    );
    let check = app.check(&tomorrow, None).unwrap();
    assert!(check.holds, "{check:?}");
    assert!(check.balance.iter().all(|line| line.zero));
}

#[test]
fn a_short_load_or_a_missing_tick_comes_out_on_hold_and_stays_there() {
    for (minutes, ticks, word) in [
        (
            "35",
            &["acid", "bubbles", "rim", "covered"][..],
            "35 minutes",
        ),
        ("", &["acid", "bubbles", "rim", "covered"][..], "not said"),
        ("40", &["bubbles", "rim", "covered"][..], "acid"),
    ] {
        let app = app_with_house();
        let now = at("2026-08-27", 480);
        pick_tomatoes(&app, &now, "24 lb");
        let batch = juice_batch(&app, &now, "23 lb");
        app.start_batch(
            &now,
            &StartBatch {
                batch,
                ..StartBatch::default()
            },
        )
        .unwrap();
        let done = app
            .finish_batch(&now, &household::seven_quarts(batch, minutes, ticks))
            .unwrap();
        assert!(
            done.words.contains("On hold") && done.words.contains(word),
            "{}",
            done.words
        );
        let take = |to: &str| {
            app.take_containers(
                &now,
                &TakeContainers {
                    batch,
                    size: "quart".into(),
                    place: "shelf".into(),
                    count: "1".into(),
                    to: to.into(),
                    ..TakeContainers::default()
                },
            )
        };
        assert_eq!(take("eaten").unwrap_err().kind, ErrorKind::Refused);
        assert_eq!(take("given").unwrap_err().kind, ErrorKind::Refused);
        assert!(take("discarded").is_ok());
        // No text of the page offers boiling as a cure (ruling 11).
        let page = serde_json::to_string(&app.batch(&now, batch).unwrap()).unwrap();
        assert!(!page.contains("boil it for 10 minutes"), "{page}");
        assert_eq!(
            app.stores(&now).unwrap().needs[0].stands,
            0,
            "held jars meet no need"
        );
    }
}

#[test]
fn a_house_that_moves_up_the_hill_holds_the_batch_at_its_start() {
    let app = app_with_house();
    let now = at("2026-08-27", 480);
    pick_tomatoes(&app, &now, "24 lb");
    let batch = juice_batch(&app, &now, "23 lb");
    let mut house = app.house(&now).unwrap().house;
    house.elevation = "3200 ft".into();
    app.set_house(&now, house, "").unwrap();
    let refused = app
        .start_batch(
            &now,
            &StartBatch {
                batch,
                ..StartBatch::default()
            },
        )
        .unwrap_err();
    assert_eq!(refused.kind, ErrorKind::Refused);
    assert!(
        refused.cause.contains("40 minutes then, 50 minutes now"),
        "{}",
        refused.cause
    );
    assert_eq!(app.batch(&now, batch).unwrap().state, "held");
    assert!(
        app.check(&now, None).unwrap().holds,
        "a held batch is no broken promise"
    );
}

#[test]
fn no_elevation_no_process_time() {
    let app = app_with_house();
    let now = at("2026-08-27", 480);
    let mut house = app.house(&now).unwrap().house;
    house.elevation.clear();
    app.set_house(&now, house, "").unwrap();
    pick_tomatoes(&app, &now, "24 lb");
    let view = app
        .try_batch(
            &now,
            &NewBatch {
                recipe: "tomato-juice".into(),
                ..NewBatch::default()
            },
        )
        .unwrap();
    assert_eq!(
        (view.verdict.kind.as_str(), view.verdict.minutes),
        ("refusal", None)
    );
    assert_eq!(view.verdict.code, "no-elevation");
}

#[test]
fn undo_gives_back_what_was_taken_and_refuses_what_others_rest_on() {
    let app = app_with_house();
    let now = at("2026-08-27", 480);
    pick_tomatoes(&app, &now, "24 lb");
    app.sort_out(
        &now,
        &SortOut {
            lot: 1,
            amount: "4 lb".into(),
            to: "eaten".into(),
            ..SortOut::default()
        },
    )
    .unwrap();
    let entries = app.store().entries(10).unwrap();
    let picking = entries
        .iter()
        .find(|entry| entry.kind == "picking")
        .unwrap()
        .id;
    let refused = app
        .undo(
            &now,
            &Undo {
                entry: Some(picking),
                ..Undo::default()
            },
        )
        .unwrap_err();
    assert_eq!(refused.kind, ErrorKind::Refused);
    app.undo(&now, &Undo::default()).unwrap();
    assert_eq!(app.counter(&now).unwrap().lots[0].weight.us, "24 lb");
    app.undo(
        &now,
        &Undo {
            entry: Some(picking),
            ..Undo::default()
        },
    )
    .unwrap();
    assert!(app.counter(&now).unwrap().lots.is_empty());
    assert!(app.check(&now, None).unwrap().holds);
}

#[test]
fn a_count_books_the_difference_as_unaccounted() {
    let app = App::new(store::Store::open_in_memory().unwrap());
    let now = app.play_demo().unwrap();
    let done = app
        .count_shelf(
            &now,
            &CountShelf {
                batch: 1,
                size: "quart".into(),
                place: "shelf".into(),
                found: "5".into(),
                ..CountShelf::default()
            },
        )
        .unwrap();
    assert!(
        done.words.contains("2 booked as unaccounted"),
        "{}",
        done.words
    );
    let check = app.check(&now, None).unwrap();
    assert!(check.holds, "{check:?}");
    assert_eq!(app.stores(&now).unwrap().needs[0].stands, 5);
}

#[test]
fn more_than_went_in_cannot_come_out() {
    let app = app_with_house();
    let now = at("2026-08-27", 480);
    pick_tomatoes(&app, &now, "24 lb");
    let batch = juice_batch(&app, &now, "23 lb");
    let not_begun = app
        .finish_batch(&now, &household::seven_quarts(batch, "40", &[]))
        .unwrap_err();
    assert_eq!(not_begun.field, "batch");
    app.start_batch(
        &now,
        &StartBatch {
            batch,
            ..StartBatch::default()
        },
    )
    .unwrap();
    let heavy = FinishBatch {
        batch,
        trimmings: "30 lb".into(),
        ..FinishBatch::default()
    };
    assert_eq!(
        app.finish_batch(&now, &heavy).unwrap_err().field,
        "trimmings"
    );
    let larger = FinishBatch {
        batch,
        containers: BTreeMap::from([("half-gallon".to_owned(), "3".to_owned())]),
        ..FinishBatch::default()
    };
    assert_eq!(
        app.finish_batch(&now, &larger).unwrap_err().field,
        "half-gallon"
    );
    assert_eq!(
        app.batch(&now, batch).unwrap().state,
        "started",
        "nothing was half-written"
    );
}

#[test]
fn accepting_a_plan_sets_its_batches_up_once() {
    let app = app_with_house();
    let now = at("2026-08-27", 480);
    pick_tomatoes(&app, &now, "46 lb");
    app.make_plan(&now, &plan()).unwrap();
    app.accept_plan(&now, "accept-1").unwrap();
    let first = app.batches(&now).unwrap().batches.len();
    assert!(first > 0);
    assert_eq!(
        app.accept_plan(&now, "accept-2").unwrap_err().field,
        "plan",
        "no proposal is left"
    );
    // A new plan calls the old one's batches off instead of doubling them.
    app.make_plan(&now, &MakePlan { seed: 2, ..plan() })
        .unwrap();
    app.accept_plan(&now, "accept-3").unwrap();
    assert_eq!(app.batches(&now).unwrap().batches.len(), first);
}
