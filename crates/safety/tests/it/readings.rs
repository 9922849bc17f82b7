//! Readings of the guide entered by hand, each with its page: what a person finds when following
//! the printed table with a finger. None is taken from the files of `data/`.

use crate::ask::{self, feet};
use reference::{Jar, Method, Pack, Reference};

struct Reading {
    food: &'static str,
    pack: Pack,
    jar: Jar,
    method: Method,
    feet: i128,
    minutes: u32,
    psi: Option<u32>,
    page: &'static str,
}

const BOIL: Method = Method::BoilingWater;
const DIAL: Method = Method::DialGauge;
const WEIGHT: Method = Method::WeightedGauge;

#[rustfmt::skip]
const READINGS: &[Reading] = &[
    // The guide's own example of choosing a time: peaches, hot, quarts, 2,500 ft.
    Reading { food: "peaches", pack: Pack::Hot, jar: Jar::Quart, method: BOIL, feet: 2_500, minutes: 30, psi: None, page: "2-19" },
    Reading { food: "peaches", pack: Pack::Hot, jar: Jar::Quart, method: DIAL, feet: 2_500, minutes: 10, psi: Some(7), page: "2-31" },
    Reading { food: "peaches", pack: Pack::Hot, jar: Jar::Quart, method: WEIGHT, feet: 2_500, minutes: 10, psi: Some(10), page: "2-32" },
    Reading { food: "tomatoes-crushed", pack: Pack::Hot, jar: Jar::Quart, method: BOIL, feet: 500, minutes: 45, psi: None, page: "3-8" },
    Reading { food: "tomatoes-crushed", pack: Pack::Hot, jar: Jar::Pint, method: BOIL, feet: 6_500, minutes: 50, psi: None, page: "3-8" },
    Reading { food: "tomato-juice", pack: Pack::Hot, jar: Jar::Quart, method: BOIL, feet: 4_000, minutes: 50, psi: None, page: "3-6" },
    Reading { food: "snap-and-italian-beans", pack: Pack::Raw, jar: Jar::Quart, method: DIAL, feet: 3_000, minutes: 25, psi: Some(12), page: "4-8" },
    Reading { food: "snap-and-italian-beans", pack: Pack::Hot, jar: Jar::Pint, method: WEIGHT, feet: 1_200, minutes: 20, psi: Some(15), page: "4-8" },
    Reading { food: "corn-whole-kernel", pack: Pack::Raw, jar: Jar::Quart, method: WEIGHT, feet: 800, minutes: 85, psi: Some(10), page: "4-12" },
    Reading { food: "chicken-or-turkey-stock", pack: Pack::Hot, jar: Jar::Quart, method: DIAL, feet: 7_000, minutes: 25, psi: Some(14), page: "5-7" },
    Reading { food: "ground-or-chopped-meat", pack: Pack::Hot, jar: Jar::Pint, method: DIAL, feet: 1_000, minutes: 75, psi: Some(11), page: "5-6" },
    Reading { food: "quick-fresh-pack-dill-pickles", pack: Pack::Raw, jar: Jar::Quart, method: BOIL, feet: 2_000, minutes: 20, psi: None, page: "6-10" },
    Reading { food: "apple-butter", pack: Pack::Hot, jar: Jar::Pint, method: BOIL, feet: 900, minutes: 5, psi: None, page: "2-6" },
];

#[test]
fn readings_by_hand_agree_with_the_gate() {
    let r = Reference::embedded();
    for reading in READINGS {
        let place = feet(reading.feet, 1);
        let question = ask::well_answered(
            r,
            reading.food,
            reading.pack,
            reading.jar,
            reading.method,
            place,
        );
        let verdict = safety::judge_heat(r, &question);
        let permit = verdict
            .permit()
            .unwrap_or_else(|| panic!("{}: {verdict:?}", reading.food));
        assert_eq!(
            (permit.minutes(), permit.psi(), permit.page()),
            (reading.minutes, reading.psi, reading.page),
            "{} {} {} at {} ft",
            reading.food,
            reading.jar,
            reading.method,
            reading.feet
        );
    }
}

/// What the guide says of jars (p. 1-23): a half-pint takes the pint's time, a pint-and-half the
/// quart's, and no jar is larger than the table's largest.
#[test]
fn the_jar_statements_of_the_guide_hold_for_every_food() {
    let r = Reference::embedded();
    let minutes = |food: &str, pack, jar, method| {
        let question = ask::well_answered(r, food, pack, jar, method, feet(500, 1));
        let verdict = safety::judge_heat(r, &question);
        verdict
            .permit()
            .map(|p| (p.minutes(), p.psi(), p.row_jar()))
    };
    let (mut half, mut large) = (0, 0);
    for food in r.foods() {
        for method in [BOIL, DIAL, WEIGHT] {
            for pack in Pack::ALL {
                let listed = |jar| {
                    r.processes_for(&food.food)
                        .iter()
                        .any(|row| row.jar == jar && row.method == method)
                };
                let pint = minutes(&food.food, *pack, Jar::Pint, method);
                let quart = minutes(&food.food, *pack, Jar::Quart, method);
                if pint.is_some_and(|p| p.2 == Jar::Pint)
                    && !listed(Jar::HalfPint)
                    && !listed(Jar::Ounce12)
                {
                    assert_eq!(minutes(&food.food, *pack, Jar::HalfPint, method), pint);
                    half += 1;
                }
                if quart.is_some_and(|q| q.2 == Jar::Quart) && !listed(Jar::PintAndHalf) {
                    assert_eq!(minutes(&food.food, *pack, Jar::PintAndHalf, method), quart);
                    large += 1;
                }
                if quart.is_none() {
                    assert_eq!(minutes(&food.food, *pack, Jar::HalfGallon, method), None);
                }
            }
        }
    }
    assert!(half > 100 && large > 100, "{half} and {large} were asked");
}

/// What the guide says of bands (p. 1-20, 1-22, 2-31): higher up it is never less.
#[test]
fn minutes_and_pressure_never_fall_with_elevation() {
    let r = Reference::embedded();
    let mut steps = 0;
    for food in r.foods() {
        for method in [BOIL, DIAL, WEIGHT, Method::Steam] {
            for pack in Pack::ALL {
                for jar in [Jar::HalfPint, Jar::Pint, Jar::Quart, Jar::HalfGallon] {
                    for option in [None, Some(1), Some(2), Some(3)] {
                        let mut last: Option<(u32, Option<u32>)> = None;
                        for at in [0, 1_001, 2_001, 3_001, 4_001, 6_001, 8_001] {
                            let mut question =
                                ask::well_answered(r, &food.food, *pack, jar, method, feet(at, 1));
                            question.option = option;
                            let verdict = safety::judge_heat(r, &question);
                            let Some(permit) = verdict.permit() else {
                                continue;
                            };
                            let now = (permit.minutes(), permit.psi());
                            if let Some(last) = last {
                                assert!(
                                    now.0 >= last.0 && now.1 >= last.1,
                                    "{} {method} {jar} at {at} ft: {last:?} then {now:?}",
                                    food.food
                                );
                                steps += 1;
                            }
                            last = Some(now);
                        }
                    }
                }
            }
        }
    }
    assert!(steps > 5_000, "{steps} steps upward");
}

/// The pressures of the process tables are those of the printed bands for gauge and class.
#[test]
fn pressures_stand_in_the_printed_bands() {
    let r = Reference::embedded();
    let mut met = 0;
    for row in r.processes().iter().filter(|row| row.option == 1) {
        let Some(psi) = row.psi else { continue };
        let food = r.food(&row.food).expect("a food");
        let bands: Vec<_> = r
            .pressure_bands()
            .iter()
            .filter(|band| band.gauge == row.method && band.food_class == food.acid_class)
            .filter(|band| (band.low_ft, band.high_ft) == (row.low_ft, row.high_ft))
            .collect();
        for band in bands {
            assert_eq!(psi, band.psi, "{}", row.key());
            met += 1;
        }
    }
    assert!(met > 400, "{met} rows held against the bands");
}
