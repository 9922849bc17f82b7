//! Balances, the season's account, the order of use, and the names of places.

use crate::{day, joined, moved};
use ledger::{Content, Holding, LedgerError, Movement, Place, balances, mass_balance, use_first};

const KG: i64 = 1_000_000;

/// 10 kg of tomatoes picked, 8 cooked with a kilogram of bought vinegar, 6 of it put up.
fn tomato_week() -> Vec<Movement> {
    let lot = Content::Lot(1);
    let batch = Content::Batch(1);
    vec![
        moved(
            1,
            "tomato-paste",
            lot,
            Place::Garden,
            Place::Counter,
            10 * KG,
        ),
        moved(2, "tomato-paste", lot, Place::Counter, Place::Eaten, KG),
        joined(3, "tomato-paste", 1, 1, 8 * KG),
        moved(3, "vinegar", batch, Place::Bought, Place::Pot, KG),
        moved(4, "tomato-paste", batch, Place::Pot, Place::Trimmings, KG),
        moved(4, "tomato-paste", batch, Place::Pot, Place::CookedOff, KG),
        moved(4, "tomato-paste", batch, Place::Pot, Place::Shelf, 6 * KG),
        moved(4, "vinegar", batch, Place::Pot, Place::Shelf, KG),
    ]
}

#[test]
fn food_that_joins_a_batch_leaves_its_lot() {
    let sums = balances(&tomato_week());
    let at = |content, crop: &str, place| sums.get(&(content, crop.to_owned(), place)).copied();
    assert_eq!(
        at(Content::Lot(1), "tomato-paste", Place::Counter),
        Some(KG)
    );
    assert_eq!(at(Content::Batch(1), "tomato-paste", Place::Pot), None);
    assert_eq!(
        at(Content::Batch(1), "tomato-paste", Place::Shelf),
        Some(6 * KG)
    );
    assert_eq!(at(Content::Lot(1), "tomato-paste", Place::Shelf), None);
    assert_eq!(
        at(Content::Lot(1), "tomato-paste", Place::Garden),
        Some(-10 * KG)
    );
}

#[test]
fn the_account_of_a_crop_names_where_all_of_it_went() {
    let account = mass_balance(&tomato_week());
    assert_eq!(account.len(), 2);
    let tomato = &account[0];
    assert_eq!(tomato.crop, "tomato-paste");
    assert_eq!((tomato.picked, tomato.bought), (10 * KG, 0));
    assert_eq!(
        (tomato.stored, tomato.in_work, tomato.eaten),
        (7 * KG, 0, KG)
    );
    assert_eq!((tomato.trimmings, tomato.cooked_off), (KG, KG));
    assert_eq!((tomato.unaccounted, tomato.unaccounted_share), (0, Some(0)));
    assert!(tomato.sum_is_zero && !tomato.warning);
    let vinegar = &account[1];
    assert_eq!(
        (vinegar.picked, vinegar.bought, vinegar.stored),
        (0, KG, KG)
    );
    assert!(vinegar.sum_is_zero);
}

#[test]
fn more_than_five_percent_unexplained_is_a_warning_and_exactly_five_is_none() {
    let lot = Content::Lot(1);
    let picked = moved(1, "kale", lot, Place::Garden, Place::Counter, 1000);
    let lost = |mg| moved(2, "kale", lot, Place::Counter, Place::Unaccounted, mg);
    let at_five = &mass_balance(&[picked.clone(), lost(50)])[0];
    assert_eq!(
        (at_five.unaccounted_share, at_five.warning),
        (Some(500), false)
    );
    assert_eq!(at_five.share_text(), "5.00 %");
    let above = &mass_balance(&[picked.clone(), lost(51)])[0];
    assert_eq!((above.unaccounted_share, above.warning), (Some(510), true));
    // Food found beyond the record is as unexplained as food missing from it.
    let found = moved(2, "kale", lot, Place::Unaccounted, Place::Counter, 60);
    let beyond = &mass_balance(&[picked, found.clone()])[0];
    assert_eq!((beyond.unaccounted, beyond.warning), (-60, true));
    assert!(beyond.sum_is_zero);
    let from_nowhere = &mass_balance(&[found])[0];
    assert_eq!(
        (from_nowhere.unaccounted_share, from_nowhere.warning),
        (None, true)
    );
}

#[test]
fn a_movement_says_what_is_wrong_with_it() {
    let lot = Content::Lot(1);
    let bad = |from, to, mg| moved(1, "kale", lot, from, to, mg).sound().unwrap_err();
    assert_eq!(
        bad(Place::Garden, Place::Counter, 0),
        LedgerError::AbsurdMass(0)
    );
    assert_eq!(
        bad(Place::Garden, Place::Counter, -5),
        LedgerError::AbsurdMass(-5)
    );
    assert_eq!(
        bad(Place::Garden, Place::Counter, i64::MAX),
        LedgerError::AbsurdMass(i64::MAX)
    );
    assert_eq!(
        bad(Place::Counter, Place::Counter, 1),
        LedgerError::GoesNowhere(Place::Counter)
    );
    assert_eq!(
        bad(Place::Eaten, Place::Counter, 1),
        LedgerError::OutOfEnd(Place::Eaten)
    );
    assert_eq!(
        bad(Place::Counter, Place::Garden, 1),
        LedgerError::IntoSource(Place::Garden)
    );
    let nameless = moved(1, " ", lot, Place::Garden, Place::Counter, 1);
    assert_eq!(nameless.sound().unwrap_err(), LedgerError::NoCrop);
    // A new grade is a new lot at the same place: that does go somewhere.
    let mut regraded = moved(1, "kale", lot, Place::Counter, Place::Counter, 1);
    regraded.becomes = Some(Content::Lot(2));
    regraded.sound().unwrap();
}

#[test]
fn the_flagged_come_first_then_the_oldest_and_the_held_never() {
    let holding = |id, since, flagged, held| Holding {
        content: Content::Batch(id),
        name: format!("batch {id}"),
        place: Place::Shelf,
        size: Some("quart".to_owned()),
        count: 1,
        milligrams: 1,
        since,
        flagged,
        held,
    };
    let holdings = [
        holding(1, day(9), false, false),
        holding(2, day(2), false, false),
        holding(3, day(20), true, false),
        holding(4, day(1), true, true),
        holding(5, day(2), false, false),
    ];
    let order: Vec<Content> = use_first(&holdings).iter().map(|h| h.content).collect();
    assert_eq!(order, [3, 2, 5, 1].map(Content::Batch));
}

#[test]
fn every_place_has_one_name_both_ways_and_one_nature() {
    for place in Place::ALL {
        assert_eq!(place.as_str().parse::<Place>().unwrap(), place);
        let natures = [place.is_source(), place.is_touchable(), place.is_end()];
        assert_eq!(natures.iter().filter(|yes| **yes).count(), 1, "{place}");
    }
    let error = "cellar".parse::<Place>().unwrap_err();
    assert!(error.to_string().contains("cold-room"), "{error}");
}
