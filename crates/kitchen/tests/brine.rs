//! A brine that will not reach is named before it is made.

use kitchen::KitchenError;
use kitchen::brine::{ShareQuestion, acid_percent, brine_share};
use quantity::{Exact, Volume, VolumeUnit, show, whole};
use reference::Jar;

fn cups(numerator: i128, denominator: i128) -> Volume {
    Volume::new(Exact::new(numerator, denominator), VolumeUnit::Cup).expect("a small fraction")
}

/// Five cups of vinegar and 1 1/4 cups of water, for four US pints in the tested recipe.
fn rings(jars: u32) -> ShareQuestion {
    ShareQuestion {
        brine: cups(25, 4),
        jars,
        jar: Jar::Ml250,
        tested_brine: cups(25, 4),
        tested_jars: Volume::of(4, VolumeUnit::Pint),
    }
}

/// Check value, common practice, no source.
#[test]
fn ten_jars_of_rings_are_two_cups_short_before_the_brine_is_made() {
    assert_eq!(
        show::decimal(cups(25, 4).in_unit(VolumeUnit::Millilitre), 1),
        "1478.7"
    );
    let found = brine_share(&rings(10)).unwrap();
    let percent = |share: Exact| show::decimal(share * whole(100), 1);
    assert_eq!(percent(found.share), "59.1");
    assert_eq!(percent(found.tested), "78.1");
    assert_eq!(show::decimal(found.enough_for, 2), "7.57");
    assert_eq!(show::decimal(found.short.in_unit(VolumeUnit::Cup), 1), "2");
    assert!(!found.reaches());
    assert!(
        found.words.contains("enough for 7 jars of 250 ml, not 10"),
        "{}",
        found.words
    );
    assert!(
        found.words.contains("about 2 cups (474 mL) short"),
        "{}",
        found.words
    );
    // 474.4 mL are a little more than 2 cups: what is mixed goes up, or it would not reach.
    assert!(
        found.words.contains("Mix 2 1/4 cups more"),
        "{}",
        found.words
    );
    assert!(found.words.contains("never top up with water"));
}

#[test]
fn the_jars_it_is_enough_for_are_reached() {
    assert!(brine_share(&rings(7)).unwrap().reaches());
    assert!(!brine_share(&rings(8)).unwrap().reaches());
}

/// Check value, common practice, no source.
#[test]
fn the_brine_of_the_rings_has_four_percent_acid() {
    let percent = acid_percent(cups(5, 1), whole(5), cups(5, 4)).unwrap();
    assert_eq!(percent, whole(4));
}

#[test]
fn a_brine_of_nothing_is_refused() {
    let none = cups(0, 1);
    assert_eq!(brine_share(&rings(0)), Err(KitchenError::BrineAmount));
    for brine in [none, cups(-1, 1)] {
        let asked = ShareQuestion { brine, ..rings(10) };
        assert_eq!(brine_share(&asked), Err(KitchenError::BrineAmount));
        let asked = ShareQuestion {
            tested_brine: brine,
            ..rings(10)
        };
        assert_eq!(brine_share(&asked), Err(KitchenError::BrineAmount));
    }
    assert_eq!(
        acid_percent(none, whole(5), none),
        Err(KitchenError::BrineAmount)
    );
    assert_eq!(
        acid_percent(cups(5, 1), whole(5), cups(-1, 1)),
        Err(KitchenError::BrineAmount)
    );
}
