//! Weighing by eye: shares said as people say them, and weights that are exactly what they say.

use std::collections::BTreeMap;

use kitchen::LotError;
use kitchen::weigh::{Crate, WeighBasis, crate_weight, fill, share};
use proptest::prelude::*;
use quantity::{Exact, Mass, MassUnit, Volume, VolumeUnit, exact};
use reference::Reference;

fn green_crate() -> Crate {
    Crate {
        name: "green crate".to_owned(),
        volume: Some(Volume::of(40, VolumeUnit::Litre)),
        own: BTreeMap::from([("tomato-paste".to_owned(), Mass::of(40, MassUnit::Pound))]),
    }
}

fn part(numerator: i128, denominator: i128) -> Exact {
    exact(numerator, denominator).unwrap()
}

#[test]
fn shares_are_said_in_many_ways() {
    for (text, value) in [
        ("two thirds", part(2, 3)),
        ("two-thirds", part(2, 3)),
        ("2/3", part(2, 3)),
        ("Half", part(1, 2)),
        ("half full", part(1, 2)),
        ("a half", part(1, 2)),
        ("half a crate", part(1, 2)),
        ("a third", part(1, 3)),
        ("one third", part(1, 3)),
        ("three quarters full", part(3, 4)),
        ("a quarter", part(1, 4)),
        ("full", part(1, 1)),
        ("a full crate", part(1, 1)),
        ("a crate", part(1, 1)),
        ("70%", part(7, 10)),
        ("70 percent", part(7, 10)),
        ("0.25", part(1, 4)),
        ("1 1/2", part(3, 2)),
        ("one and a half", part(3, 2)),
        ("2 crates", part(2, 1)),
        ("two crates", part(2, 1)),
    ] {
        assert_eq!(share(text), Ok(value), "{text}");
    }
}

#[test]
fn what_is_no_share_is_refused_with_an_example() {
    for text in [
        "",
        "some",
        "two",
        "full of it",
        "a bit",
        "half half half",
        "1/0",
        "and",
        "half and",
    ] {
        if text == "two" {
            // Two crates is a share of a kind.
            assert_eq!(share(text), Ok(part(2, 1)));
            continue;
        }
        let error = share(text).unwrap_err();
        assert!(
            matches!(error, LotError::UnknownShare { .. }),
            "{text}: {error}"
        );
        assert!(
            error
                .to_string()
                .contains("write for example two thirds, 2/3, half or full")
        );
    }
    for text in ["0", "zero", "51", "5000%"] {
        let answer = share(text);
        if text == "5000%" {
            assert_eq!(answer, Ok(part(50, 1)));
        } else {
            assert!(
                matches!(answer, Err(LotError::AbsurdShare { .. })),
                "{text}: {answer:?}"
            );
        }
    }
    assert!(share("-1/2").is_err());
}

#[test]
fn a_share_may_name_its_crate() {
    let said = fill("Two thirds of the green crate").unwrap();
    assert_eq!(said.share, part(2, 3));
    assert_eq!(said.crate_name.as_deref(), Some("green crate"));
    let said = fill("half the big basket").unwrap();
    assert_eq!(said.crate_name.as_deref(), Some("big basket"));
    assert_eq!(fill("3/4").unwrap().crate_name, None);
    assert!(fill("some of the green crate").is_err());
}

#[test]
fn the_own_crate_factor_is_exact_and_comes_first() {
    let weight = crate_weight(
        Reference::embedded(),
        "tomato-paste",
        part(2, 3),
        &green_crate(),
    )
    .unwrap();
    assert_eq!(weight.basis, WeighBasis::Own);
    assert_eq!(weight.mass.in_unit(MassUnit::Pound), part(80, 3));
    assert_eq!((weight.low, weight.high), (weight.mass, weight.mass));
    assert_eq!(weight.source, "own record");
}

#[test]
fn litres_times_the_published_weight_otherwise() {
    // Tomatoes: 0.682 kg per litre from the 53 lb bushel; 40 L x 1/2 x 0.682 = 13.64 kg.
    let weight = crate_weight(
        Reference::embedded(),
        "tomato-slicing",
        part(1, 2),
        &green_crate(),
    )
    .unwrap();
    assert_eq!(weight.basis, WeighBasis::Table);
    assert_eq!(weight.mass.in_unit(MassUnit::Kilogram), part(1364, 100));
    assert!(weight.source.contains("Bushel"), "{}", weight.source);
    // The published bushels of tomatoes run from 45 to 60 lb, the pail to 0.719 kg per litre.
    assert!(weight.low < weight.mass && weight.mass < weight.high);
    assert_eq!(weight.low.in_unit(MassUnit::Kilogram), part(1158, 100));
    assert!(
        weight.sentence.starts_with("1/2 of the green crate: "),
        "{}",
        weight.sentence
    );
}

#[test]
fn a_doubtful_trade_weight_does_not_reach_the_range() {
    // One law gives 56 lb to the bushel of unshelled beans, which cannot be right for pods.
    let beans = crate_weight(
        Reference::embedded(),
        "snap-bean",
        part(1, 1),
        &green_crate(),
    )
    .unwrap();
    assert!(
        beans.high.in_unit(MassUnit::Kilogram) < part(20, 1),
        "{beans:?}"
    );
}

#[test]
fn a_crate_that_tells_nothing_asks_for_one_weighing() {
    let unknown = Crate {
        name: "blue box".to_owned(),
        ..Crate::default()
    };
    let error = crate_weight(Reference::embedded(), "apple", part(1, 2), &unknown).unwrap_err();
    assert_eq!(
        error.to_string(),
        "the blue box is not known to hold any apples: weigh it full of apples once, or give its litres"
    );
    let error =
        crate_weight(Reference::embedded(), "basil", part(1, 2), &green_crate()).unwrap_err();
    assert!(
        error
            .to_string()
            .contains("no published weight per litre for basil"),
        "{error}"
    );
    assert!(crate_weight(Reference::embedded(), "apple", part(0, 1), &green_crate()).is_err());
}

#[test]
fn half_a_crate_of_twenty_pounds_teaches_forty() {
    let full = Crate::full_weight(Mass::of(20, MassUnit::Pound), part(1, 2)).unwrap();
    assert_eq!(full, Mass::of(40, MassUnit::Pound));
    assert!(Crate::full_weight(Mass::of(20, MassUnit::Pound), part(0, 1)).is_err());
}

proptest! {
    #[test]
    fn the_shares_of_one_crate_add_up_to_it(thirds in 1_i128..30, rest in 1_i128..30) {
        let whole = thirds + rest;
        let tables = Reference::embedded();
        let weigh = |share| crate_weight(tables, "tomato-paste", share, &green_crate()).unwrap().mass;
        let sum = weigh(part(thirds, whole)).checked_add(weigh(part(rest, whole))).unwrap();
        prop_assert_eq!(sum, Mass::of(40, MassUnit::Pound));
    }

    #[test]
    fn any_text_is_a_share_or_an_error(text in "\\PC{0,30}") {
        if let Ok(value) = share(&text) {
            prop_assert!(value > part(0, 1) && value <= part(50, 1));
        }
        let _ = fill(&text);
    }
}
