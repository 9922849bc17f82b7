//! The look-up in a known house: the printed row, and what its canner closes.

use crate::ask::{self, feet};
use reference::{Jar, Method, Pack, Reference};
use safety::{CannerFacts, HeatQuestion, look_up_in_house};

fn beans(canner: CannerFacts) -> HeatQuestion {
    let mut question = HeatQuestion::new(
        "snap-and-italian-beans",
        Pack::Hot,
        Jar::Quart,
        canner,
        ask::TODAY,
    );
    question.elevation = Some(feet(2500, 1));
    question.canner_holds_quart_jars = Some(7);
    question
}

fn dial(error: (i128, i128), tested_on: &str) -> CannerFacts {
    CannerFacts::Dial {
        error_psi: Some(quantity::Exact::new(error.0, error.1)),
        tested_on: Some(tested_on.to_owned()),
    }
}

fn code(question: &HeatQuestion) -> Result<(u32, Option<String>), &'static str> {
    look_up_in_house(Reference::embedded(), question)
        .map(|found| {
            let shows = found.pairs[0].pair.dial_shows_psi;
            (found.minutes, shows.map(|psi| psi.to_string()))
        })
        .map_err(|refusal| refusal.code)
}

#[test]
fn the_dial_shows_the_printed_pressure_and_its_own_error() {
    // AIB 539 (2015), p. 4-8: hot quarts 25 minutes, 12 psi between 2,001 and 4,000 ft.
    assert_eq!(
        code(&beans(dial((3, 2), "2026-05-01"))),
        Ok((25, Some("27/2".to_owned())))
    );
    assert_eq!(
        code(&beans(dial((5, 2), "2026-05-01"))),
        Err("gauge-replace")
    );
    assert_eq!(
        code(&beans(dial((-3, 1), "2026-05-01"))),
        Err("gauge-replace")
    );
    assert_eq!(
        code(&beans(dial((0, 1), "2025-05-01"))),
        Err("gauge-test-old")
    );
    let untested = CannerFacts::unknown(Method::DialGauge);
    assert_eq!(code(&beans(untested)), Err("gauge-untested"));
}

#[test]
fn a_weight_the_house_lacks_and_a_small_vessel_close_the_row() {
    let weights = |weights_psi| beans(CannerFacts::Weighted { weights_psi });
    assert_eq!(code(&weights(vec![15])), Ok((25, None)));
    assert_eq!(code(&weights(vec![10])), Err("weight-missing"));
    let mut small = weights(vec![15]);
    small.canner_holds_quart_jars = Some(3);
    assert_eq!(code(&small), Err("not-a-canner"));
    small.canner_holds_quart_jars = None;
    assert_eq!(code(&small), Err("canner-size-unknown"));
}

#[test]
fn what_is_known_of_the_canner_is_not_said_to_be_unknown() {
    let r = Reference::embedded();
    let question = beans(CannerFacts::Weighted {
        weights_psi: vec![15],
    });
    let here = look_up_in_house(r, &question).expect("a row");
    let anywhere = safety::look_up(
        r,
        &question.food,
        question.pack,
        question.jar,
        Method::WeightedGauge,
        question.elevation,
    )
    .expect("a row");
    let weights = |text: &String| text.contains("weights");
    assert!(!here.does_not_know.iter().any(weights));
    assert!(anywhere.does_not_know.iter().any(weights));
    assert!(here.does_not_know.iter().any(|text| text.contains("frost")));
}
