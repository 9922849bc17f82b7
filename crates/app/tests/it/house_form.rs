//! Facts of the house that are half said, and the record of gauge tests.

use crate::household::{app_with_house, at};
use app::house::House;
use app::house_fields;

fn fields(list: &[(&str, &str)]) -> Vec<(String, String)> {
    list.iter()
        .map(|(path, value)| ((*path).to_owned(), (*value).to_owned()))
        .collect()
}

#[test]
fn half_a_row_is_named_by_the_field_that_is_missing() {
    for (set, field) in [
        (
            &[("ingredients.0.amount", "3 cups")][..],
            "ingredients.0.key",
        ),
        (&[("jars.0.count", "12")], "jars.0.jar"),
        (
            &[("needs.0.wanted", "7"), ("needs.0.unit", "quart")],
            "needs.0.product",
        ),
        (&[("crates.0.litres", "20")], "crates.0.name"),
        (&[("people.0.thu", "6 h")], "people.0.name"),
        (&[("canners.0.quarts", "7")], "canners.0.kind"),
    ] {
        let error = house_fields::apply(&mut House::default(), &fields(set)).unwrap_err();
        assert_eq!(error.field, field);
        assert!(!error.action.is_empty());
    }
}

#[test]
fn a_row_whose_name_is_emptied_is_dropped() {
    let now = at("2026-08-27", 480);
    let mut house = app_with_house().house(&now).unwrap().house;
    let jars = house.jars.len();
    house_fields::apply(&mut house, &fields(&[("jars.0.jar", "")])).unwrap();
    assert_eq!(house.jars.len(), jars - 1);
    // A form is read into a new house: it sends the name the row had, then the emptied one.
    let mut read = House::default();
    let sent = [
        ("ingredients.0.key", "citric-acid"),
        ("ingredients.0.key", ""),
        ("ingredients.0.amount", "2 tsp"),
    ];
    house_fields::apply(&mut read, &fields(&sent)).unwrap();
    assert!(read.ingredients.is_empty());
}

#[test]
fn an_animal_without_a_feeding_rule_is_refused() {
    let (app, now) = (app_with_house(), at("2026-08-27", 480));
    let mut house = app.house(&now).unwrap().house;
    house.animals = vec!["hens".into(), "wolves".into()];
    let error = app.set_house(&now, house.clone(), "").unwrap_err();
    assert_eq!(error.field, "animals");
    assert!(error.cause.contains("wolves") && error.cause.contains("hens"));
    house.animals = vec!["chickens".into()];
    app.set_house(&now, house, "").unwrap();
}

#[test]
fn gauge_tests_are_kept_as_a_record_and_half_a_test_is_refused() {
    let (app, now) = (app_with_house(), at("2026-08-27", 480));
    let set = |list: &[(&str, &str)]| {
        let mut house = app.house(&now).unwrap().house;
        house_fields::apply(&mut house, &fields(list))?;
        app.set_house(&now, house, "")
    };
    set(&[
        ("canners.1.name", "dial canner"),
        ("canners.1.kind", "dial-gauge"),
        ("canners.1.quarts", "7"),
    ])
    .unwrap();
    assert_eq!(app.house(&now).unwrap().gauges[0].state, "never-tested");
    for (list, field) in [
        (
            &[("canners.1.gauge_error_psi", "1")][..],
            "canners.1.gauge_tested_on",
        ),
        (
            &[("canners.1.gauge_tested_on", "2026-05-04")],
            "canners.1.gauge_error_psi",
        ),
        (
            &[
                ("canners.1.gauge_tested_on", "2026-09-04"),
                ("canners.1.gauge_error_psi", "0"),
            ],
            "canners.1.gauge_tested_on",
        ),
        (
            &[
                ("canners.1.gauge_tested_on", "2026-05-04"),
                ("canners.1.gauge_error_psi", "some"),
            ],
            "canners.1.gauge_error_psi",
        ),
    ] {
        assert_eq!(set(list).unwrap_err().field, field);
    }
    for (on, error) in [("2025-08-27", "1"), ("2026-05-04", "1/2")] {
        set(&[
            ("canners.1.gauge_tested_on", on),
            ("canners.1.gauge_error_psi", error),
            ("canners.1.gauge_tested_by", "extension office"),
        ])
        .unwrap();
    }
    let view = app.house(&now).unwrap();
    assert_eq!(
        view.gauges[0].tests,
        [
            "4 May 2026: shows 1/2 psi too much, tested by extension office",
            "27 August 2025: shows 1 psi too much, tested by extension office"
        ]
    );
    assert_eq!(view.gauges[0].state, "tested");
    set(&[("canners.1.gauge_tests.0.on", "")]).unwrap();
    let view = app.house(&now).unwrap();
    assert_eq!(
        (view.gauges[0].tests.len(), view.gauges[0].state.as_str()),
        (1, "test-soon")
    );
    let words = "«dial canner»: test the gauge before 27 August 2026.";
    assert_eq!(view.reminders, [words]);
    assert_eq!(app.counter(&now).unwrap().reminders, [words]);
    let later = at("2026-08-28", 480);
    assert!(
        app.counter(&later).unwrap().reminders[0]
            .contains("no permit at any dial pressure until tested")
    );
}
