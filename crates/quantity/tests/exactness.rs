//! Amounts stay exact: the sums a kitchen relies on come out to the last digit.

use proptest::prelude::*;
use quantity::{
    Exact, Mass, MassUnit, QuantityError, Volume, VolumeUnit, exact, floor, split_by_share, whole,
};

#[test]
fn sixteen_cups_are_one_gallon() {
    assert_eq!(
        Volume::of(16, VolumeUnit::Cup),
        Volume::of(1, VolumeUnit::Gallon)
    );
    assert_eq!(
        Volume::of(768, VolumeUnit::Teaspoon),
        Volume::of(1, VolumeUnit::Gallon)
    );
    assert_eq!(
        Volume::of(1, VolumeUnit::Gallon).microlitres(),
        Ok(3_785_412)
    );
    let sum = Volume::sum(std::iter::repeat_n(Volume::of(1, VolumeUnit::Cup), 16)).unwrap();
    assert_eq!(sum, Volume::of(1, VolumeUnit::Gallon));
}

#[test]
fn sixteen_ounces_are_one_pound() {
    assert_eq!(Mass::of(16, MassUnit::Ounce), Mass::of(1, MassUnit::Pound));
    assert_eq!(
        Mass::of(1, MassUnit::Pound).exact(),
        exact(45_359_237, 100_000).unwrap()
    );
    assert_eq!(Mass::of(1, MassUnit::Pound).milligrams(), Ok(453_592));
}

#[test]
fn three_thirds_of_a_pound_are_a_pound() {
    let pound = Mass::of(1, MassUnit::Pound);
    let third = pound.checked_div(whole(3)).unwrap();
    assert_eq!(Mass::sum([third, third, third]), Ok(pound));
    // Stored whole milligrams too: the parts sum to the pound, not to three rounded thirds.
    let parts = split_by_share(453_592, &[whole(1); 3]);
    assert_eq!(parts, vec![151_198, 151_197, 151_197]);
}

#[test]
fn overflow_is_an_error_not_a_wrong_amount() {
    let huge = Mass::from_exact(Exact::from_integer(i128::MAX / 2));
    assert_eq!(huge.checked_mul(whole(3)), Err(QuantityError::Overflow));
    assert_eq!(
        huge.checked_add(huge).and_then(|m| m.checked_add(huge)),
        Err(QuantityError::Overflow)
    );
    assert_eq!(huge.milligrams(), Err(QuantityError::Overflow));
    assert!(matches!(
        huge.checked_div(whole(0)),
        Err(QuantityError::DivideByZero { .. })
    ));
    assert_eq!(
        Volume::of(1, VolumeUnit::Cup).checked_mul(Exact::from_integer(i128::MAX)),
        Err(QuantityError::Overflow)
    );
}

#[test]
fn milligrams_round_once_and_half_away_from_zero() {
    let half = Mass::new(exact(1, 2).unwrap(), MassUnit::Milligram).unwrap();
    assert_eq!(half.milligrams(), Ok(1));
    let below = Mass::ZERO.checked_sub(half).unwrap();
    assert_eq!(below.milligrams(), Ok(-1));
    let less = Mass::new(exact(49, 100).unwrap(), MassUnit::Milligram).unwrap();
    assert_eq!(less.milligrams(), Ok(0));
}

#[test]
fn a_metric_jar_is_not_a_us_jar() {
    let ratio = Volume::of(1, VolumeUnit::Litre)
        .ratio(Volume::of(1, VolumeUnit::Quart))
        .unwrap();
    assert!(ratio > exact(10566, 10000).unwrap() && ratio < exact(10568, 10000).unwrap());
}

#[test]
fn splits_without_any_share_are_even_and_empty_ones_are_empty() {
    assert_eq!(split_by_share(7, &[]), Vec::<i64>::new());
    assert_eq!(split_by_share(7, &[whole(0), whole(0)]), vec![4, 3]);
    assert_eq!(split_by_share(7, &[whole(-5), whole(1)]), vec![0, 7]);
    assert_eq!(split_by_share(-7, &[whole(1), whole(1)]), vec![-4, -3]);
}

#[test]
fn stored_amounts_are_fraction_texts() {
    let mass = Mass::new(exact(1, 3).unwrap(), MassUnit::Pound).unwrap();
    let text = quantity::exact_text::to_text(&mass.exact());
    assert_eq!(text, "45359237/300000");
    assert_eq!(quantity::exact_text::from_text(&text), Ok(mass.exact()));
    assert!(quantity::exact_text::from_text("1/0").is_err());
    assert!(quantity::exact_text::from_text("one").is_err());
}

proptest! {
    #[test]
    fn parts_sum_to_the_whole_and_stay_within_one(
        total in -1_000_000_000_i64..1_000_000_000,
        shares in prop::collection::vec((0_i128..5000, 1_i128..200), 1..12),
    ) {
        let shares: Vec<Exact> = shares.into_iter().map(|(n, d)| Exact::new(n, d)).collect();
        let parts = split_by_share(total, &shares);
        prop_assert_eq!(parts.iter().sum::<i64>(), total);
        let sum: Exact = shares.iter().copied().sum();
        if sum > whole(0) {
            for (part, share) in parts.iter().zip(&shares) {
                let wanted = whole(total) * share / sum;
                let off = wanted - whole(*part);
                prop_assert!(off < whole(1) && off > whole(-1), "{part} of {wanted}");
            }
        }
    }

    #[test]
    fn splitting_fine_fractions_still_sums(
        total in any::<i64>(),
        shares in prop::collection::vec((0_i128..i128::MAX, 1_i128..i128::MAX), 1..6),
    ) {
        let shares: Vec<Exact> = shares.into_iter().map(|(n, d)| Exact::new(n, d)).collect();
        let parts = split_by_share(total, &shares);
        let sum: i128 = parts.iter().map(|part| i128::from(*part)).sum();
        prop_assert_eq!(sum, i128::from(total));
    }

    #[test]
    fn a_unit_there_and_back_is_the_same(n in -1_000_000_i128..1_000_000, d in 1_i128..1000) {
        let number = Exact::new(n, d);
        for unit in [MassUnit::Ounce, MassUnit::Pound, MassUnit::Gram, MassUnit::Milligram] {
            prop_assert_eq!(Mass::new(number, unit).unwrap().in_unit(unit), number);
        }
        for unit in [VolumeUnit::Teaspoon, VolumeUnit::Cup, VolumeUnit::Quart, VolumeUnit::MetricCup] {
            prop_assert_eq!(Volume::new(number, unit).unwrap().in_unit(unit), number);
        }
    }

    #[test]
    fn floor_and_rounding_agree(n in any::<i64>(), d in 1_i128..1_000_000) {
        let value = Exact::new(i128::from(n), d);
        let below = Exact::from_integer(floor(value));
        prop_assert!(below <= value && value < below + whole(1));
        let near = Exact::from_integer(quantity::round_half_away(value));
        let off = if near > value { near - value } else { value - near };
        prop_assert!(off <= Exact::new(1, 2));
        prop_assert!(Exact::from_integer(quantity::ceil(value)) >= value);
    }
}
