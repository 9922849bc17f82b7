//! What a count of the shelf does to the record.

use crate::{day, jars, moved};
use ledger::{
    Balances, ContainerBalances, Content, Found, LedgerError, Place, Rooms, apply,
    apply_containers, balances, container_balances, shelf_difference,
};

const BATCH: Content = Content::Batch(1);

fn seven_quarts() -> (ContainerBalances, Balances) {
    (
        container_balances(&[jars(1, 1, "quart", Place::Pot, Place::Shelf, 7)]),
        balances(&[
            moved(
                1,
                "tomato-paste",
                BATCH,
                Place::Pot,
                Place::Shelf,
                6_300_000,
            ),
            moved(1, "lemon-juice", BATCH, Place::Pot, Place::Shelf, 210_000),
        ]),
    )
}

fn found(size: &str, count: i64) -> Found {
    Found {
        batch: 1,
        size: size.to_owned(),
        count,
    }
}

#[test]
fn missing_jars_go_to_unaccounted_with_what_was_in_them() {
    let (standing, masses) = seven_quarts();
    let found = [found("quart", 5)];
    let answer = shelf_difference(
        3,
        day(3),
        Place::Shelf,
        &found,
        &standing,
        &masses,
        &Rooms::new(),
    )
    .unwrap();
    assert_eq!((answer.counts[0].found, answer.counts[0].recorded), (5, 7));
    assert_eq!(answer.containers.len(), 1);
    assert_eq!(
        (answer.containers[0].count, answer.containers[0].to),
        (2, Place::Unaccounted)
    );
    let moved: Vec<(&str, i64)> = answer
        .movements
        .iter()
        .map(|m| (m.crop.as_str(), m.milligrams))
        .collect();
    assert_eq!(
        moved,
        [("lemon-juice", 60_000), ("tomato-paste", 1_800_000)]
    );
}

#[test]
fn a_jar_too_many_carries_the_mass_of_one_that_stands_there() {
    let (standing, masses) = seven_quarts();
    let found = [found("quart", 8)];
    let answer = shelf_difference(
        3,
        day(3),
        Place::Shelf,
        &found,
        &standing,
        &masses,
        &Rooms::new(),
    )
    .unwrap();
    assert_eq!(
        (answer.containers[0].count, answer.containers[0].from),
        (1, Place::Unaccounted)
    );
    let moved: Vec<(&str, i64)> = answer
        .movements
        .iter()
        .map(|m| (m.crop.as_str(), m.milligrams))
        .collect();
    assert_eq!(moved, [("lemon-juice", 30_000), ("tomato-paste", 900_000)]);
    assert!(
        answer
            .movements
            .iter()
            .all(|m| m.sound().is_ok() && m.estimated)
    );
}

#[test]
fn jars_thought_lost_come_back_with_the_mass_that_went_with_them() {
    let (mut standing, mut masses) = seven_quarts();
    let rooms = Rooms::new();
    let gone = shelf_difference(
        3,
        day(3),
        Place::Shelf,
        &[found("quart", 0)],
        &standing,
        &masses,
        &rooms,
    )
    .unwrap();
    gone.containers
        .iter()
        .for_each(|c| apply_containers(&mut standing, c));
    gone.movements.iter().for_each(|m| apply(&mut masses, m));
    assert!(!masses.keys().any(|(_, _, place)| *place == Place::Shelf));
    let back = shelf_difference(
        4,
        day(4),
        Place::Shelf,
        &[found("quart", 7)],
        &standing,
        &masses,
        &rooms,
    )
    .unwrap();
    back.containers
        .iter()
        .for_each(|c| apply_containers(&mut standing, c));
    back.movements.iter().for_each(|m| apply(&mut masses, m));
    assert_eq!((standing, masses), seven_quarts());
}

#[test]
fn an_unchanged_shelf_is_kept_as_counted_and_moves_nothing() {
    let (standing, masses) = seven_quarts();
    // Two boards of one shelf.
    let found = [found("quart", 3), found("quart", 4)];
    let answer = shelf_difference(
        3,
        day(3),
        Place::Shelf,
        &found,
        &standing,
        &masses,
        &Rooms::new(),
    )
    .unwrap();
    assert_eq!(answer.counts.len(), 1);
    assert_eq!((answer.counts[0].found, answer.counts[0].recorded), (7, 7));
    assert!(answer.containers.is_empty() && answer.movements.is_empty());
}

#[test]
fn a_jar_of_a_batch_that_never_stood_there_is_counted_without_a_mass() {
    let (standing, masses) = (ContainerBalances::new(), Balances::new());
    let answer = shelf_difference(
        3,
        day(3),
        Place::Shelf,
        &[found("quart", 1)],
        &standing,
        &masses,
        &Rooms::new(),
    )
    .unwrap();
    assert_eq!(answer.containers[0].count, 1);
    assert!(answer.movements.is_empty());
}

#[test]
fn fewer_than_none_and_places_without_containers_are_refused() {
    let (standing, masses) = seven_quarts();
    let refused = |place, count| {
        shelf_difference(
            3,
            day(3),
            place,
            &[found("quart", count)],
            &standing,
            &masses,
            &Rooms::new(),
        )
        .unwrap_err()
    };
    assert_eq!(refused(Place::Shelf, -1), LedgerError::AbsurdCount(-1));
    assert_eq!(
        refused(Place::Eaten, 1),
        LedgerError::NoContainersThere(Place::Eaten)
    );
    assert_eq!(
        refused(Place::Pot, 1),
        LedgerError::NoContainersThere(Place::Pot)
    );
}
