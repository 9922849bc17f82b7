//! Elevations at the edges of bands.

use crate::ask::{self, feet};
use quantity::{Elevation, Exact, parse};
use reference::{Jar, Method, Pack, Reference};
use safety::{AcidUse, HeatQuestion, ProduceHistory};

/// Tomato juice, hot, in a jar and canner in good order.
fn juice(jar: Jar, method: Method, place: Option<Elevation>) -> HeatQuestion {
    let mut q = HeatQuestion::new(
        "tomato-juice",
        Pack::Hot,
        jar,
        ask::canner(method),
        ask::TODAY,
    );
    q.canner_holds_quart_jars = Some(7);
    q.elevation = place;
    q.history = ProduceHistory::sound();
    q.acid = Some(AcidUse::whole("citric-acid"));
    q
}

fn minutes(method: Method, place: Elevation) -> Result<(u32, Option<u32>), &'static str> {
    let verdict = safety::judge_heat(
        Reference::embedded(),
        &juice(Jar::Quart, method, Some(place)),
    );
    match verdict {
        safety::Verdict::Permit(permit) => Ok((permit.minutes(), permit.psi())),
        safety::Verdict::Refusal(refusal) => Err(refusal.code),
    }
}

#[test]
fn boiling_water_edges() {
    let at = |place| minutes(Method::BoilingWater, place).map(|(m, _)| m);
    assert_eq!(at(feet(800, 1)), Ok(40));
    assert_eq!(at(feet(999, 1)), Ok(40));
    assert_eq!(at(feet(9999, 10)), Ok(40));
    // Table 0-1,000, text "at 1,000 ft and above": the stricter.
    assert_eq!(at(feet(1000, 1)), Ok(45));
    assert_eq!(at(feet(2001, 2)), Ok(45));
    assert_eq!(at(feet(1001, 1)), Ok(45));
    assert_eq!(at(parse::elevation("305 m").expect("metres")), Ok(45));
    assert_eq!(at(parse::elevation("304 m").expect("metres")), Ok(40));
    assert_eq!(at(feet(2500, 1)), Ok(45));
    assert_eq!(at(feet(2999, 1)), Ok(45));
    assert_eq!(at(feet(3000, 1)), Ok(45));
    assert_eq!(at(feet(30001, 10)), Ok(50));
    assert_eq!(at(feet(3001, 1)), Ok(50));
    assert_eq!(at(feet(6000, 1)), Ok(50));
    assert_eq!(at(feet(60004, 10)), Ok(55));
    assert_eq!(at(feet(8000, 1)), Ok(55));
    assert_eq!(at(feet(8001, 1)), Ok(55));
    assert_eq!(at(feet(-10, 1)), Ok(40));
}

#[test]
fn an_uncertain_place_takes_its_upper_edge() {
    let at = |text: &str| {
        minutes(
            Method::BoilingWater,
            parse::elevation(text).expect("elevation"),
        )
        .map(|(m, _)| m)
    };
    assert_eq!(at("950+-60 ft"), Ok(45));
    assert_eq!(at("900+-60 ft"), Ok(40));
    assert_eq!(at("950+-50 ft"), Ok(45));
}

#[test]
fn an_interval_written_backwards_still_takes_its_upper_edge() {
    let place = Elevation {
        low_ft: Exact::from_integer(1200),
        high_ft: Exact::from_integer(800),
    };
    assert_eq!(minutes(Method::BoilingWater, place), Ok((45, None)));
}

#[test]
fn dial_edges() {
    let at = |place| minutes(Method::DialGauge, place);
    assert_eq!(at(feet(1000, 1)), Ok((20, Some(6))));
    assert_eq!(at(feet(2000, 1)), Ok((20, Some(6))));
    assert_eq!(at(feet(4001, 2)), Ok((20, Some(7))));
    assert_eq!(at(feet(8000, 1)), Ok((20, Some(9))));
    assert_eq!(at(feet(8001, 1)), Err("above-dial-ceiling"));
    assert_eq!(at(feet(80001, 10)), Err("above-dial-ceiling"));
}

#[test]
fn weighted_edges_and_pairs_kept_whole() {
    let r = Reference::embedded();
    assert_eq!(
        minutes(Method::WeightedGauge, feet(999, 1)),
        Ok((20, Some(5)))
    );
    assert_eq!(
        minutes(Method::WeightedGauge, feet(1000, 1)),
        Ok((20, Some(10)))
    );
    assert_eq!(
        minutes(Method::WeightedGauge, feet(20000, 1)),
        Ok((20, Some(10)))
    );
    let question = juice(Jar::Quart, Method::WeightedGauge, Some(feet(1500, 1)));
    let verdict = safety::judge_heat(r, &question);
    let permit = verdict.permit().expect("a permit");
    let pairs: Vec<(u8, u32, Option<u32>)> = permit
        .pairs()
        .iter()
        .map(|p| (p.option, p.minutes, p.psi))
        .collect();
    assert_eq!(pairs, [(1, 20, Some(10)), (2, 15, Some(15))]);
    assert_eq!(
        permit.chosen().option,
        1,
        "the pair with the least pressure"
    );
}

#[test]
fn half_gallons_and_missing_elevation_are_refused_with_a_way_out() {
    let r = Reference::embedded();
    let verdict = safety::judge_heat(
        r,
        &juice(Jar::HalfGallon, Method::BoilingWater, Some(feet(800, 1))),
    );
    let refusal = verdict.refusal().expect("a refusal");
    assert_eq!(refusal.code, "jar-too-large");
    assert!(refusal.reason.contains("largest jar"), "{refusal}");
    assert!(
        refusal
            .offers
            .iter()
            .any(|o| o.kind == "jar" && o.value == "quart"),
        "{refusal}"
    );
    let verdict = safety::judge_heat(r, &juice(Jar::Quart, Method::BoilingWater, None));
    assert_eq!(verdict.refusal().expect("a refusal").code, "no-elevation");
}

#[test]
fn a_look_up_prints_the_row_and_what_it_does_not_know() {
    let r = Reference::embedded();
    let ask = |jar, place| {
        safety::look_up(
            r,
            "tomato-juice",
            Pack::Hot,
            jar,
            Method::BoilingWater,
            place,
        )
    };
    let found = ask(Jar::Quart, Some(feet(2500, 1))).expect("a row");
    assert_eq!(
        (found.minutes, found.band_low_ft, found.band_high_ft),
        (45, 1001, Some(3000))
    );
    assert_eq!(found.heading, "look-up, not a permit");
    assert_eq!(found.page, "3-6");
    assert!(found.does_not_know.iter().any(|text| text.contains("acid")));
    assert!(
        found
            .acid
            .contains(&"2 tbsp bottled-lemon-juice per quart".to_owned())
    );
    assert_eq!(
        ask(Jar::Quart, Some(feet(800, 1))).expect("a row").minutes,
        40
    );
    assert_eq!(
        ask(Jar::HalfGallon, Some(feet(800, 1)))
            .expect_err("refused")
            .code,
        "jar-too-large"
    );
    assert_eq!(
        ask(Jar::Quart, None).expect_err("refused").code,
        "no-elevation"
    );
    let json = serde_json::to_value(&found).expect("JSON");
    assert_eq!(json["minutes"], 45);
    assert_eq!(json["pairs"][0]["minutes"], 45);
}

#[test]
fn a_look_up_shows_a_doubtful_pair_with_its_mark_and_not_first() {
    let found = safety::look_up(
        Reference::embedded(),
        "tomato-juice",
        Pack::Hot,
        Jar::Quart,
        Method::WeightedGauge,
        Some(feet(500, 1)),
    )
    .expect("a row");
    let shown: Vec<(u8, bool)> = found
        .pairs
        .iter()
        .map(|p| (p.pair.option, p.show_only))
        .collect();
    assert_eq!(shown, [(1, false), (2, false), (3, true)]);
    assert!(found.pairs[2].marks[0].contains("show-only"));
    assert_eq!((found.minutes, found.psi), (20, Some(5)));
}
