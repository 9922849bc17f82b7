//! An invented household for the tests, and its usual acts.

use app::App;
use app::house::{Canner, Crate, Freezer, House, JarCount, Need, Person, Pot};
use app::request::{FinishBatch, MakePlan, NewBatch, Now, RecordPicking};
use std::collections::BTreeMap;

/// A moment of a test.
pub fn at(date: &str, minute: i64) -> Now {
    Now {
        date: date.parse().unwrap(),
        minute,
        at: format!("{date}T{:02}:{:02}:00", minute / 60, minute % 60),
        who: "tester".to_owned(),
    }
}

/// A search that gives the same plan each time.
pub fn plan() -> MakePlan {
    MakePlan {
        seed: 1,
        iterations: Some(5_000),
        ..MakePlan::default()
    }
}

/// A household at 620 ft with one boiling-water canner.
pub fn app_with_house() -> App {
    let app = App::new(store::Store::open_in_memory().unwrap());
    let house = House {
        name: "Test house (invented)".into(),
        elevation: "620 ft".into(),
        canners: vec![Canner {
            name: "kettle".into(),
            kind: "boiling-water".into(),
            quarts: 7,
            pints: 9,
            half_pints: 12,
            ..Canner::default()
        }],
        burners: 4,
        pots: vec![
            Pot {
                name: "tall pot".into(),
                litres: "16".into(),
            },
            Pot {
                name: "pot".into(),
                litres: "8".into(),
            },
        ],
        food_mills: 1,
        sinks: 1,
        dryer_trays: 4,
        freezer: Some(Freezer {
            litres: 300,
            free_litres: 60,
        }),
        people: vec![Person {
            name: "A".into(),
            minutes: [480; 7],
        }],
        jars: vec![
            JarCount {
                jar: "quart".into(),
                count: 30,
                mouth: "wide".into(),
            },
            JarCount {
                jar: "pint".into(),
                count: 30,
                mouth: "regular".into(),
            },
        ],
        lids_wide: 30,
        lids_regular: 30,
        bags_pint: 30,
        needs: vec![Need {
            product: "tomato-juice".into(),
            wanted: 21,
            unit: "quart".into(),
            priority: "must".into(),
        }],
        crates: vec![Crate {
            name: "green crate".into(),
            litres: String::new(),
            full_weights: BTreeMap::from([("tomato-paste".to_owned(), "45 lb".to_owned())]),
        }],
        ..House::default()
    };
    app.set_house(&at("2026-08-20", 480), house, "").unwrap();
    app
}

/// Ripe paste tomatoes of known history.
pub fn pick_tomatoes(app: &App, now: &Now, amount: &str) {
    app.record_picking(
        now,
        &RecordPicking {
            crop: "tomato-paste".into(),
            grade: "red".into(),
            amount: amount.into(),
            temperature: "70F".into(),
            history: app::history_questions()
                .into_iter()
                .map(|key| (key, "no".to_owned()))
                .collect(),
            ..RecordPicking::default()
        },
    )
    .unwrap();
}

/// A batch of tomato juice in quarts.
pub fn juice_batch(app: &App, now: &Now, produce: &str) -> i64 {
    app.new_batch(
        now,
        &NewBatch {
            recipe: "tomato-juice".into(),
            jar: "quart".into(),
            produce: produce.into(),
            ..NewBatch::default()
        },
    )
    .unwrap()
    .id
    .unwrap()
}

/// Seven quarts, with a partial jar and trimmings.
pub fn seven_quarts(batch: i64, minutes: &str, ticks: &[&str]) -> FinishBatch {
    FinishBatch {
        batch,
        containers: BTreeMap::from([("quart".to_owned(), "7".to_owned())]),
        partial: "1 1/2 cups".into(),
        trimmings: "5 lb".into(),
        cooked_off: "2 lb".into(),
        minutes: minutes.into(),
        ticks: ticks.iter().map(|tick| (*tick).to_owned()).collect(),
        ..FinishBatch::default()
    }
}
