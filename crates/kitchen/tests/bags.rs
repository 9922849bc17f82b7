//! Freezer bags fit the recipes they are meant for, and no bag is a scrap.

use kitchen::bags::{bag_weight, share_out};
use kitchen::{Amount, KitchenError};
use proptest::prelude::*;
use quantity::{Exact, Mass, MassUnit, Volume, VolumeUnit, whole};

fn pounds(n: i64) -> Mass {
    Mass::of(n, MassUnit::Pound)
}

fn cups(numerator: i128, denominator: i128) -> Amount {
    Amount::Volume(
        Volume::new(Exact::new(numerator, denominator), VolumeUnit::Cup).expect("a small fraction"),
    )
}

/// Check values, common practice, no source.
#[test]
fn a_bag_goes_into_every_recipe_a_whole_number_of_times() {
    let weight = |recipes: &[i64], largest| {
        let recipes: Vec<Mass> = recipes.iter().map(|n| pounds(*n)).collect();
        bag_weight(&recipes, pounds(largest)).unwrap()
    };
    assert_eq!(weight(&[12, 24], 8), pounds(6));
    assert_eq!(weight(&[10, 20], 8), pounds(5));
    assert_eq!(weight(&[12, 24], 12), pounds(12));
}

/// Check values, common practice, no source.
#[test]
fn a_rest_is_spread_while_no_bag_is_more_than_a_third_too_full() {
    let two = share_out(cups(5, 2), cups(1, 1)).unwrap();
    assert_eq!((two.number(), two.each, two.last), (2, cups(5, 4), None));
    let three = share_out(cups(4, 1), cups(5, 4)).unwrap();
    assert_eq!(
        (three.number(), three.each, three.last),
        (3, cups(4, 3), None)
    );
    let at_the_limit = share_out(cups(4, 3), cups(1, 1)).unwrap();
    assert_eq!((at_the_limit.number(), at_the_limit.each), (1, cups(4, 3)));
    let beyond = share_out(cups(3, 2), cups(1, 1)).unwrap();
    assert_eq!(beyond.number(), 2);
    assert_eq!((beyond.each, beyond.last), (cups(1, 1), Some(cups(1, 2))));
    let little = share_out(cups(1, 4), cups(1, 1)).unwrap();
    assert_eq!((little.number(), little.each), (1, cups(1, 4)));
}

#[test]
fn amounts_that_make_no_bag_are_refused() {
    let none = Mass::of(0, MassUnit::Pound);
    for (recipes, largest) in [
        (vec![], pounds(8)),
        (vec![none], pounds(8)),
        (vec![pounds(12)], none),
        (vec![pounds(12), pounds(-6)], pounds(8)),
    ] {
        assert_eq!(bag_weight(&recipes, largest), Err(KitchenError::BagAmount));
    }
    let metric = bag_weight(&[pounds(12), Mass::of(5, MassUnit::Kilogram)], pounds(8));
    assert!(
        matches!(metric, Err(KitchenError::NoCommonBag { .. })),
        "{metric:?}"
    );
    for total in [cups(0, 1), cups(-1, 1)] {
        assert_eq!(share_out(total, cups(1, 1)), Err(KitchenError::BagAmount));
    }
    for size in [cups(0, 1), cups(-1, 1)] {
        assert_eq!(share_out(cups(1, 1), size), Err(KitchenError::BagAmount));
    }
    assert_eq!(
        share_out(cups(-1, 1), cups(-1, 1)),
        Err(KitchenError::BagAmount)
    );
    let mixed = share_out(Amount::Mass(pounds(3)), cups(1, 1));
    assert_eq!(mixed, Err(KitchenError::BagMeasure));
    let many = share_out(cups(1_000_000, 1), cups(1, 1));
    assert!(
        matches!(many, Err(KitchenError::TooManyBags { .. })),
        "{many:?}"
    );
}

proptest! {
    /// Held against trying every number of bags, largest bag first.
    #[test]
    fn no_larger_bag_fits_all_recipes(a in 1i64..200, b in 1i64..200, largest in 1i64..40) {
        let bag = bag_weight(&[pounds(a), pounds(b)], pounds(largest)).unwrap();
        let tried = (1..=3200)
            .map(|parts| (parts, Exact::new(i128::from(a), i128::from(parts))))
            .find(|(_, size)| *size <= whole(largest) && (whole(b) / size).is_integer())
            .map(|(_, size)| Mass::new(size, MassUnit::Pound).unwrap());
        prop_assert_eq!(Some(bag), tried);
    }

    #[test]
    fn bags_hold_exactly_what_there_is(total in 1i128..400, size in 1i128..40) {
        let (total, size) = (cups(total, 4), cups(size, 4));
        let shared = share_out(total, size).unwrap();
        let even = shared.each.ratio(size).unwrap().unwrap();
        let last = shared.last.map_or(whole(0), |last| last.ratio(size).unwrap().unwrap());
        prop_assert!(even <= Exact::new(4, 3) && last < whole(1));
        let held = even * whole(i64::from(shared.even)) + last;
        prop_assert_eq!(Some(held), total.ratio(size).unwrap());
    }
}
