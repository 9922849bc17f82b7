//! The acceptance stories, each with its numbers, by the names the list gives them.

use crate::household::{app_with_house, at, pick_tomatoes};
use app::App;
use app::house::{Canner, Ingredient};
use app::request::{FinishBatch, NewBatch, StartBatch};
use app::view::batch::BatchView;
use std::collections::BTreeMap;

/// All stories, and whether the work they test is in.
const STORIES: [(&str, bool); 12] = [
    ("a1_", true),
    ("a2_", true),
    ("a3_", false),
    ("a4_", false),
    ("a5_", false),
    ("a6_", true),
    ("a7_", false),
    ("a8_", false),
    ("a9_", false),
    ("a10_", false),
    ("a11_", false),
    ("a12_", true),
];

#[test]
fn every_story_that_is_due_has_its_test() {
    let source = include_str!("acceptance.rs");
    for (story, due) in STORIES {
        let found = source.contains(&format!("\n#[test]\nfn {story}"));
        assert_eq!(found, due, "{story}: mark it due when its test is written");
    }
}

fn scaled(app: &App, request: NewBatch) -> BatchView {
    app.try_batch(&at("2026-08-27", 480), &request).unwrap()
}

fn line<'a>(view: &'a BatchView, name: &str) -> &'a str {
    view.lines
        .iter()
        .find(|line| line.name.to_lowercase().contains(name))
        .map_or_else(
            || panic!("no {name} in {:?}", view.lines),
            |line| &line.kitchen,
        )
}

/// The house of the tests at another elevation.
fn house_at(elevation: &str, canner: Option<Canner>) -> App {
    let app = app_with_house();
    let now = at("2026-08-20", 481);
    let mut house = app.house(&now).unwrap().house;
    house.elevation = elevation.into();
    house.ingredients.push(Ingredient {
        key: "cider-vinegar-5pct".into(),
        amount: "11 cups".into(),
    });
    if let Some(canner) = canner {
        house.canners = vec![canner];
    }
    app.set_house(&now, house, "").unwrap();
    app
}

#[test]
fn a1_first_canner_day() {
    let app = app_with_house();
    pick_tomatoes(&app, &at("2026-08-27", 470), "24 lb");
    let view = scaled(
        &app,
        NewBatch {
            recipe: "tomato-juice".into(),
            jar: "quart".into(),
            produce: "24 lb".into(),
            acid: "bottled-lemon-juice".into(),
            ..NewBatch::default()
        },
    );
    assert_eq!(view.verdict.minutes, Some(40), "{:?}", view.verdict);
    let jars = view.jars.as_ref().unwrap();
    assert_eq!(jars.words, "7 quarts, could be 6 to 8; heat 9");
    assert!(
        jars.partial.contains("about 1 1/2 cups"),
        "{}",
        jars.partial
    );
    let acid = &view.acid.as_ref().unwrap().choices;
    assert!(
        acid.iter()
            .any(|one| one.contains("2 tbsp") && one.contains("14 tbsp = 7/8 cup (207 mL)")),
        "{acid:?}"
    );
    assert!(view.loads.as_ref().unwrap().starts_with("1 load of 7"));
}

#[test]
fn a2_pepper_rings_at_height() {
    let app = house_at("2400 ft", None);
    let request = |jar: &str, have: &[&str], batches: &str| NewBatch {
        recipe: "pickled-yellow-pepper-rings".into(),
        jar: jar.into(),
        have: have.iter().map(|text| (*text).to_owned()).collect(),
        batches: batches.into(),
        ..NewBatch::default()
    };
    let goods = ["yellow-peppers=7 lb", "vinegar-5pct=11 cups"];
    let view = scaled(&app, request("pint", &goods, ""));
    assert_eq!(view.verdict.minutes, Some(15), "{:?}", view.verdict);
    assert_eq!(line(&view, "vinegar"), "10 cups");
    assert_eq!(line(&view, "water"), "2 1/2 cups");
    assert_eq!(line(&view, "salt"), "3 tbsp + 1 tsp");
    assert_eq!(view.jars.as_ref().unwrap().words, "8 pints; heat 9");
    assert!(view.loads.as_ref().unwrap().starts_with("1 load of 8"));
    let runs_out = view
        .scaling
        .iter()
        .find(|line| line.contains("runs out first"))
        .unwrap();
    assert!(
        runs_out.contains("for 2 1/3") && runs_out.contains("for 2.2"),
        "{runs_out}"
    );
    assert!(runs_out.contains("1 lb of yellow peppers"), "{runs_out}");
    assert!(
        view.scaling
            .iter()
            .any(|line| line.contains("4 % acid") || line.contains("4.00 % acid")),
        "{:?}",
        view.scaling
    );
    let small = scaled(&app, request("250-ml", &[], "2"));
    assert_eq!(small.verdict.minutes, Some(15), "{:?}", small.verdict);
    assert!(small.jars.unwrap().words.starts_with("15 "));
    // The steam canner may do it too: 15 minutes are under its 45.
    let steam = house_at(
        "2400 ft",
        Some(Canner {
            name: "steamer".into(),
            kind: "steam".into(),
            quarts: 7,
            pints: 8,
            half_pints: 8,
            ..Canner::default()
        }),
    );
    let view = scaled(&steam, request("pint", &[], "2"));
    assert_eq!(view.verdict.minutes, Some(15), "{:?}", view.verdict);
}

#[test]
fn a6_broth_and_an_awkward_remainder() {
    let app = house_at(
        "1850 ft",
        Some(Canner {
            name: "pressure canner".into(),
            kind: "weighted-gauge".into(),
            quarts: 7,
            pints: 9,
            weights_psi: vec![10, 15],
            ..Canner::default()
        }),
    );
    let view = scaled(
        &app,
        NewBatch {
            recipe: "chicken-or-turkey-stock".into(),
            jar: "quart".into(),
            batches: "8 1/2".into(),
            ..NewBatch::default()
        },
    );
    assert_eq!(
        (view.verdict.minutes, view.verdict.psi.as_deref()),
        (Some(25), Some("15")),
        "{:?}",
        view.verdict
    );
    let loads = view.loads.unwrap();
    assert!(loads.contains("do not run it"), "{loads}");
    let pints = scaled(
        &app,
        NewBatch {
            recipe: "chicken-or-turkey-stock".into(),
            jar: "pint".into(),
            batches: "3".into(),
            ..NewBatch::default()
        },
    );
    assert_eq!(pints.verdict.minutes, Some(20), "{:?}", pints.verdict);
}

/// Four batches of juice with their outcomes, in pounds, quarts, cups over, and their note.
fn four_batches(app: &App) {
    let now = at("2026-08-27", 480);
    pick_tomatoes(app, &at("2026-08-27", 470), "130 lb");
    for (pounds, quarts, over, note) in [
        ("24 lb", "6", "3 cups", ""),
        ("20 lb", "7", "1.6 cups", "two passes"),
        ("31 lb", "9", "2 cups", ""),
        ("26 lb", "7", "3 cups", ""),
    ] {
        let batch = crate::household::juice_batch(app, &now, pounds);
        let start = StartBatch {
            batch,
            ..StartBatch::default()
        };
        app.start_batch(&now, &start).unwrap();
        let finish = FinishBatch {
            batch,
            containers: BTreeMap::from([("quart".to_owned(), quarts.to_owned())]),
            partial: over.into(),
            minutes: "40".into(),
            note: note.into(),
            ..FinishBatch::default()
        };
        app.finish_batch(&now, &finish).unwrap();
    }
}

#[test]
fn a12_the_households_own_factor() {
    let app = app_with_house();
    let before = app.factor("tomato-juice").unwrap();
    assert_eq!((before.plain, before.batches.len()), (None, 0));
    assert!((before.value - 3.25).abs() < 1e-9);
    four_batches(&app);
    let found = app.factor("tomato-juice").unwrap();
    let plain = found.plain.unwrap();
    assert!((plain - 3.217).abs() < 0.0005, "{plain}");
    assert!(found.words.contains("3.217"), "{}", found.words);
    assert!(plain < found.value && found.value < 3.25, "{}", found.value);
    assert!(found.low < found.value && found.value < found.high);
    assert!(found.words.contains("2.70 to 3.56"), "{}", found.words);
    let unusual: Vec<&str> = found
        .batches
        .iter()
        .filter(|batch| batch.unusual)
        .map(|batch| batch.note.as_str())
        .collect();
    assert_eq!(unusual, ["two passes"]);
    // The next 24 lb are reckoned by it.
    let view = scaled(
        &app,
        NewBatch {
            recipe: "tomato-juice".into(),
            jar: "quart".into(),
            produce: "24 lb".into(),
            ..NewBatch::default()
        },
    );
    let jars = view.jars.unwrap();
    assert_eq!(jars.words, "7 quarts, could be 6 to 8; heat 9");
    assert!(
        jars.basis
            .iter()
            .any(|line| line.contains("4 batches of your own")),
        "{:?}",
        jars.basis
    );
}

#[test]
fn what_was_expected_of_a_batch_stays_when_it_has_taught_something() {
    let app = app_with_house();
    four_batches(&app);
    let view = app.batch(&at("2026-08-28", 480), 1).unwrap();
    let basis = view.jars.unwrap().basis;
    assert!(
        basis.iter().all(|line| !line.contains("of your own")),
        "{basis:?}"
    );
    let view = app.batch(&at("2026-08-28", 480), 3).unwrap();
    let basis = view.jars.unwrap().basis;
    assert!(
        basis
            .iter()
            .any(|line| line.contains("2 batches of your own")),
        "{basis:?}"
    );
}

/// Five cups of vinegar and 1 1/4 of water for ten jars of 250 ml (common practice, no source).
#[test]
fn a_brine_that_will_not_reach_is_said_before_it_is_made() {
    let app = App::without_household().unwrap();
    let view = scaled(
        &app,
        NewBatch {
            recipe: "pickled-yellow-pepper-rings".into(),
            jar: "250-ml".into(),
            batches: "1".into(),
            jars_count: "10".into(),
            ..NewBatch::default()
        },
    );
    let words = view.scaling.join(" ");
    for part in [
        "59.1 %",
        "78.1 %",
        "never top up with water",
        "about 2 cups",
    ] {
        assert!(words.contains(part), "{part}: {words}");
    }
    assert_eq!(view.verdict.code, "no-canner");
    assert_eq!(view.verdict.minutes, None);
}

#[test]
fn the_same_recipe_is_scaled_by_jars_and_by_a_pot() {
    let app = App::without_household().unwrap();
    let by = |jars: &str, pot: &str| {
        scaled(
            &app,
            NewBatch {
                recipe: "pickled-yellow-pepper-rings".into(),
                jar: "pint".into(),
                jars_count: jars.into(),
                pot: pot.into(),
                ..NewBatch::default()
            },
        )
    };
    assert_eq!(line(&by("6", ""), "vinegar"), "7 1/2 cups");
    // 12 quarts, three quarters full, are 9: four batches and a half of 4 pints.
    assert!(
        by("", "12 quarts")
            .jars
            .unwrap()
            .words
            .starts_with("18 pints")
    );
}

#[test]
fn what_cannot_be_scaled_is_said_and_why() {
    let app = App::without_household().unwrap();
    let now = at("2026-08-27", 480);
    let rings = |change: &dyn Fn(&mut NewBatch)| {
        let mut request = NewBatch {
            recipe: "pickled-yellow-pepper-rings".into(),
            jar: "pint".into(),
            ..NewBatch::default()
        };
        change(&mut request);
        let error = app.try_batch(&now, &request).unwrap_err();
        (error.field, format!("{} {}", error.cause, error.action))
    };
    type Case<'a> = (&'a dyn Fn(&mut NewBatch), &'a str, &'a str);
    let cases: [Case<'_>; 9] = [
        (&|r| r.batches = "0".into(), "batches", "above 0"),
        (&|r| r.produce = "-3 lb".into(), "produce", ""),
        (&|r| r.produce = "3 blobs".into(), "produce", "blobs"),
        (&|r| r.jars_count = "0".into(), "jars_count", "above 0"),
        (&|r| r.pot = "1 cup".into(), "recipe", "larger pot"),
        (&|r| r.have = vec!["vinegar-5pct".into()], "have", "no «=»"),
        (
            &|r| r.have = vec!["sugar=1 cup".into()],
            "have",
            "no ingredient",
        ),
        (&|r| r.have = vec!["vinegar-5pct=0 cups".into()], "have", ""),
        (
            &|r| r.have = vec!["vinegar-5pct=1 cup".into()],
            "have",
            "not make one batch",
        ),
    ];
    for (change, field, words) in cases {
        let (found, said) = rings(change);
        assert_eq!(found, field, "{said}");
        assert!(said.contains(words), "{said}");
    }
    let both = app
        .try_batch(
            &now,
            &NewBatch {
                recipe: "tomato-juice".into(),
                batches: "2".into(),
                produce: "24 lb".into(),
                ..NewBatch::default()
            },
        )
        .unwrap_err();
    assert!(both.cause.contains("Both"), "{}", both.cause);
}

#[test]
fn jars_that_are_not_there_are_shared_over_smaller_ones() {
    let app = app_with_house();
    let now = at("2026-08-20", 482);
    let mut house = app.house(&now).unwrap().house;
    house.jars[0].count = 5;
    house.lids_wide = 0;
    app.set_house(&now, house, "").unwrap();
    pick_tomatoes(&app, &at("2026-08-27", 470), "24 lb");
    let view = scaled(
        &app,
        NewBatch {
            recipe: "tomato-juice".into(),
            jar: "quart".into(),
            produce: "24 lb".into(),
            ..NewBatch::default()
        },
    );
    let words = view.scaling.join(" ");
    assert!(words.contains("Only 5 empty quarts"), "{words}");
    assert!(words.contains("5 quarts and 4 pints"), "{words}");
    assert!(view.jars.unwrap().lids.contains("only 0 lids"));
}
