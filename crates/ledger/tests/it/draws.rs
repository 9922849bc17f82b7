//! Taking containers out of a batch takes the right share of what is in them.

use crate::{day, jars, moved};
use ledger::{
    Content, Draw, LedgerError, Place, Rooms, apply, apply_containers, balances,
    container_balances, draw_containers, draw_share,
};
use proptest::prelude::*;

fn named(parts: &[(&str, i64)]) -> Vec<(String, i64)> {
    parts
        .iter()
        .map(|(crop, mg)| ((*crop).to_owned(), *mg))
        .collect()
}

#[test]
fn one_of_three_jars_takes_a_third_with_the_odd_milligram_to_the_largest_remainder() {
    // A third of 100 + 50 + 10 is 53.33, rounded to 53; floors 33 + 16 + 3 leave one over, and the
    // 50 has the largest remainder.
    let contents = named(&[("tomato-paste", 100), ("pepper-sweet", 50), ("vinegar", 10)]);
    let share = draw_share(&contents, 1, 3).unwrap();
    assert_eq!(
        share,
        named(&[("tomato-paste", 33), ("pepper-sweet", 17), ("vinegar", 3)])
    );
}

#[test]
fn all_of_it_is_everything_and_none_is_nothing() {
    let contents = named(&[("apple", 7), ("sugar", 1)]);
    assert_eq!(draw_share(&contents, 5, 5).unwrap(), contents);
    assert_eq!(draw_share(&contents, 0, 5).unwrap(), []);
}

#[test]
fn a_share_that_is_none_is_refused() {
    let contents = named(&[("apple", 7)]);
    for (taken, of) in [(1, 0), (-1, 3), (4, 3), (0, -1)] {
        let error = draw_share(&contents, taken, of).unwrap_err();
        assert_eq!(error, LedgerError::NoShare { taken, of });
    }
}

fn take(size: &str, count: i64) -> Draw {
    Draw {
        entry: 9,
        on: day(9),
        batch: 1,
        size: size.to_owned(),
        from: Place::Shelf,
        to: Place::Eaten,
        count,
    }
}

#[test]
fn more_jars_than_stand_there_are_refused_with_the_number_that_does() {
    let standing = container_balances(&[jars(1, 1, "quart", Place::Pot, Place::Shelf, 7)]);
    let error = draw_containers(&take("quart", 8), &standing, &balances(&[]), &Rooms::new());
    let error = error.unwrap_err();
    assert_eq!(
        error.to_string(),
        "Batch 1 has 7 quart at shelf, not 8. Take 7 or fewer, or count the shelf first."
    );
    let other = draw_containers(&take("pint", 1), &standing, &balances(&[]), &Rooms::new());
    assert!(matches!(
        other,
        Err(LedgerError::NotThatMany { there: 0, .. })
    ));
}

#[test]
fn a_pint_beside_quarts_takes_half_a_quarts_share_and_needs_the_rooms() {
    let standing = container_balances(&[
        jars(1, 1, "quart", Place::Pot, Place::Shelf, 2),
        jars(1, 1, "pint", Place::Pot, Place::Shelf, 1),
    ]);
    let batch = Content::Batch(1);
    let masses = balances(&[moved(1, "apple", batch, Place::Pot, Place::Shelf, 5000)]);
    let unknown = draw_containers(&take("pint", 1), &standing, &masses, &Rooms::new());
    assert!(matches!(unknown, Err(LedgerError::UnknownRoom(_))));
    let rooms = Rooms::from([("quart".to_owned(), 946), ("pint".to_owned(), 473)]);
    let drawn = draw_containers(&take("pint", 1), &standing, &masses, &rooms).unwrap();
    assert_eq!(drawn.movements.len(), 1);
    assert_eq!(drawn.movements[0].milligrams, 1000);
    assert!(drawn.movements[0].estimated);
}

proptest! {
    /// Whatever order the jars go in, the last one leaves the shelf empty to the milligram, and no
    /// crop ever goes below zero on the way.
    #[test]
    fn jars_taken_in_any_order_leave_nothing_behind(
        contents in prop::collection::vec(1_i64..5_000_000, 1..5),
        takes in prop::collection::vec((any::<bool>(), 1_i64..4), 1..12),
    ) {
        let batch = Content::Batch(1);
        let count = |pint: bool| takes.iter().filter(|(p, _)| *p == pint).map(|(_, n)| n).sum::<i64>();
        let filled: Vec<_> = [("quart", count(false)), ("pint", count(true))]
            .into_iter()
            .filter(|(_, n)| *n > 0)
            .map(|(size, n)| jars(1, 1, size, Place::Pot, Place::Shelf, n))
            .collect();
        let mut standing = container_balances(&filled);
        let put_up: Vec<_> = contents
            .iter()
            .enumerate()
            .map(|(n, mg)| moved(1, &format!("crop-{n}"), batch, Place::Pot, Place::Shelf, *mg))
            .collect();
        let mut masses = balances(&put_up);
        let rooms = Rooms::from([("quart".to_owned(), 946), ("pint".to_owned(), 473)]);
        for (pint, n) in &takes {
            let draw = take(if *pint { "pint" } else { "quart" }, *n);
            let drawn = draw_containers(&draw, &standing, &masses, &rooms).unwrap();
            apply_containers(&mut standing, &drawn.containers);
            for movement in &drawn.movements {
                prop_assert!(movement.sound().is_ok());
                apply(&mut masses, movement);
            }
            prop_assert!(masses.iter().all(|((_, _, place), mg)| *place != Place::Shelf || *mg > 0));
        }
        prop_assert!(!standing.keys().any(|(_, _, place)| *place == Place::Shelf));
        prop_assert!(!masses.keys().any(|(_, _, place)| *place == Place::Shelf));
    }

    /// The shares sum to the whole share, rounded once, and each is within a milligram of exact.
    #[test]
    fn shares_sum_to_the_rounded_whole(
        contents in prop::collection::vec(0_i64..1_000_000_000_000, 1..8),
        of in 1_i64..10_000,
        part in 0_i64..10_000,
    ) {
        let taken = part % (of + 1);
        let parts: Vec<(String, i64)> =
            contents.iter().enumerate().map(|(n, mg)| (n.to_string(), *mg)).collect();
        let share = draw_share(&parts, taken, of).unwrap();
        let whole: i128 = contents.iter().map(|mg| i128::from(*mg)).sum();
        let doubled = 2 * share.iter().map(|(_, mg)| i128::from(*mg)).sum::<i128>() * i128::from(of);
        let exact = 2 * whole * i128::from(taken);
        prop_assert!((doubled - exact).abs() <= i128::from(of));
        for (crop, mg) in share {
            let all = i128::from(contents[crop.parse::<usize>().unwrap()]);
            let off = i128::from(mg) * i128::from(of) - all * i128::from(taken);
            prop_assert!(off.abs() < i128::from(of));
        }
    }
}
