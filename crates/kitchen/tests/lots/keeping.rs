//! Keeping: ranges that hold together, and never more certainty than the tables have.

use jiff::civil::{Date, date};
use kitchen::LotError;
use kitchen::crop::crops;
use kitchen::grade::grades_for;
use kitchen::keeping::{
    Basis, KeepPlace, Keeping, KeepingState, LotOutcome, Observation, check_picked, keeping,
    keeping_with_own, own_factor,
};
use proptest::prelude::*;
use quantity::{Temperature, whole};
use reference::Reference;

const PICKED: Date = date(2031, 8, 20);

fn fahrenheit(degrees: i64) -> Temperature {
    Temperature::from_fahrenheit(whole(degrees))
}

fn kept(crop: &str, grade: &str, place: KeepPlace, degrees: i64) -> Keeping {
    keeping(
        Reference::embedded(),
        crop,
        grade,
        place,
        fahrenheit(degrees),
        PICKED,
    )
    .unwrap()
}

fn every_lot(mut look: impl FnMut(&str, &str, KeepPlace, i64, Keeping)) {
    for crop in crops() {
        for grade in grades_for(&crop.key).unwrap() {
            for place in KeepPlace::ALL {
                for degrees in [33, 38, 45, 52, 55, 60, 68, 77, 90] {
                    let found = kept(&crop.key, &grade.key, place, degrees);
                    look(&crop.key, &grade.key, place, degrees, found);
                }
            }
        }
    }
}

#[test]
fn every_crop_and_grade_keeps_somewhere_and_its_dates_are_in_order() {
    let mut lots = 0;
    every_lot(|crop, grade, place, degrees, found| {
        lots += 1;
        let lot = format!("{crop} {grade} {place:?} {degrees} F: {found:?}");
        assert!(found.picked_on <= found.ready_from, "{lot}");
        assert!(found.ready_from <= found.ready_late, "{lot}");
        assert!(found.ready_from <= found.early, "{lot}");
        assert!(found.early <= found.late, "{lot}");
        assert!(found.ready_late <= found.late, "{lot}");
        assert!(found.picked_on <= found.look_again, "{lot}");
        assert!(found.look_again <= found.early, "{lot}");
        assert!(!found.source.is_empty(), "{lot}");
        assert!(found.reason.ends_with('.'), "{lot}");
    });
    assert!(lots > 5000, "{lots}");
}

#[test]
fn a_remembered_figure_never_gives_a_single_date_and_says_so() {
    let (mut remembered, mut read) = (0, 0);
    every_lot(|crop, grade, place, degrees, found| {
        if found.basis == Basis::Remembered {
            remembered += 1;
            assert!(
                found.early < found.late,
                "{crop} {grade} {place:?} {degrees} F: {found:?}"
            );
            assert!(found.reason.contains("remembered, so widened by half"));
        } else {
            read += 1;
            assert!(found.reason.contains("as read"));
        }
    });
    assert!(remembered > 0 && read > 0);
}

#[test]
fn colder_keeps_longer_for_crops_that_chilling_does_not_harm() {
    let tables = Reference::embedded();
    let mut compared = 0;
    for crop in crops() {
        let chilled = tables
            .storage()
            .iter()
            .any(|row| row.crop == crop.storage_crop && row.chilling_sensitive_below_f.is_some());
        if chilled {
            continue;
        }
        for grade in grades_for(&crop.key).unwrap() {
            for place in KeepPlace::ALL {
                let mut warmer: Option<Keeping> = None;
                for degrees in (32..=100).rev() {
                    let found = kept(&crop.key, &grade.key, place, degrees);
                    if let Some(warmer) = &warmer {
                        compared += 1;
                        let lot = format!("{} {} {place:?} {degrees} F", crop.key, grade.key);
                        assert!(found.early >= warmer.early, "{lot}");
                        // The late end may reach further out only because the figure is less
                        // sure: compare like with like.
                        if found.basis == warmer.basis {
                            assert!(found.late >= warmer.late, "{lot}");
                        }
                    }
                    warmer = Some(found);
                }
            }
        }
    }
    assert!(compared > 1000, "{compared}");
}

#[test]
fn a_read_figure_at_its_own_temperature_stands_as_printed() {
    // 8 to 12 days at 40 to 45 F, both read.
    let beans = kept("snap-bean", "sound", KeepPlace::ColdRoom, 42);
    assert_eq!(beans.basis, Basis::Read);
    assert_eq!((beans.early_days(), beans.late_days()), (8, 12));
    assert_eq!(beans.ready_from, PICKED);
    assert_eq!(
        beans.reason,
        "Snap beans (sound) keep 8 to 12 days in the cold room at 42 F (5.6 C); the table has 8 to 12 days at 40 to 45 F; as read."
    );
}

#[test]
fn a_figure_carried_by_remembered_breathing_is_marked_and_widened() {
    // From 45 F to 60 F snap beans breathe 95 to 42.9 times: 8 to 12 days become 3.6 to 5.4,
    // and widened by half 2 to 9 whole days.
    let beans = kept("snap-bean", "sound", KeepPlace::ColdRoom, 60);
    assert_eq!(beans.basis, Basis::Remembered);
    assert_eq!((beans.early_days(), beans.late_days()), (2, 9));
    assert!(beans.source.contains("from memory"), "{}", beans.source);
}

#[test]
fn two_lists_that_disagree_give_the_shorter_and_the_longer_end() {
    // Lima beans in the pod: 5 to 7 days in one list, 7 to 10 in another.
    let lima = kept("lima-bean", "sound", KeepPlace::ColdRoom, 40);
    assert_eq!((lima.early_days(), lima.late_days()), (5, 10));
    assert!(lima.source.contains("engineeringtoolbox") && lima.source.contains("agrimaint"));
}

#[test]
fn chilling_is_warned_of_and_gains_no_time() {
    let at_home = kept("winter-squash", "sound", KeepPlace::ColdRoom, 52);
    let too_cold = kept("winter-squash", "sound", KeepPlace::ColdRoom, 38);
    assert!(at_home.notes.iter().all(|note| !note.contains("Chilling")));
    assert!(
        too_cold
            .notes
            .iter()
            .any(|note| note.contains("below 50 F"))
    );
    assert!(too_cold.early < at_home.early);
    assert!(too_cold.late <= at_home.late);
}

#[test]
fn ripe_tomatoes_keep_two_or_three_days_in_the_room() {
    let red = kept("tomato-slicing", "red", KeepPlace::Counter, 70);
    assert_eq!(red.basis, Basis::Read);
    assert_eq!((red.early_days(), red.late_days()), (2, 3));
    let soft = kept("tomato-slicing", "soft", KeepPlace::Counter, 70);
    assert!(soft.early < red.early, "soft fruit comes first");
    assert_eq!(soft.early, PICKED);
}

#[test]
fn unripe_tomatoes_are_ripe_in_the_order_of_their_classes() {
    let classes = ["green", "breakers", "turning", "pink", "light-red", "red"];
    for degrees in [50, 55, 62, 70, 77, 80] {
        let kept: Vec<Keeping> = classes
            .iter()
            .map(|class| kept("tomato-paste", class, KeepPlace::Counter, degrees))
            .collect();
        for pair in kept.windows(2) {
            assert!(pair[0].ready_from >= pair[1].ready_from, "{degrees} F");
            assert!(pair[0].ready_late >= pair[1].ready_late, "{degrees} F");
            assert!(pair[0].late >= pair[1].late, "{degrees} F");
        }
        assert!(kept[0].ready_from > PICKED);
        assert_eq!(kept[5].ready_from, PICKED);
    }
}

#[test]
fn days_to_red_are_read_between_the_lines_of_the_grid() {
    // Breakers: 8 days at 68 F and 6 at 72.5 F, so 64/9 = 7.1 at 70 F; widened 4.7 to 10.7.
    let breakers = kept("tomato-slicing", "breakers", KeepPlace::Counter, 70);
    assert_eq!(
        breakers.ready_from,
        PICKED.checked_add(jiff::Span::new().days(4)).unwrap()
    );
    assert_eq!(
        breakers.ready_late,
        PICKED.checked_add(jiff::Span::new().days(11)).unwrap()
    );
    assert_eq!(breakers.basis, Basis::Remembered);
}

#[test]
fn nothing_is_worked_out_beyond_the_ripening_grid() {
    let edge = kept("tomato-slicing", "green", KeepPlace::Counter, 77);
    let hot = kept("tomato-slicing", "green", KeepPlace::Counter, 95);
    assert_eq!(hot.ready_from, edge.ready_from);
    assert!(hot.notes.iter().any(|note| note.contains("ends at 77 F")));
    assert!(
        hot.notes
            .iter()
            .any(|note| note.contains("does not colour red"))
    );
    assert!(edge.notes.iter().all(|note| !note.contains("ends at")));

    let cold = kept("tomato-slicing", "green", KeepPlace::Fridge, 40);
    // 18 days at the cold edge, 54.5 F, widened to 12 to 27.
    assert_eq!(
        cold.ready_from,
        PICKED.checked_add(jiff::Span::new().days(12)).unwrap()
    );
    assert!(
        cold.notes
            .iter()
            .any(|note| note.contains("begins at 54.5 F"))
    );
    assert!(
        cold.notes
            .iter()
            .any(|note| note.contains("does not ripen below 50 F"))
    );
    assert!(
        cold.notes
            .iter()
            .any(|note| note.contains("Chilling harms it"))
    );
}

#[test]
fn light_red_has_no_figure_and_lies_between_its_neighbours() {
    let light = kept("tomato-slicing", "light-red", KeepPlace::Counter, 70);
    let pink = kept("tomato-slicing", "pink", KeepPlace::Counter, 70);
    assert_eq!(light.ready_from, PICKED);
    assert_eq!(light.ready_late, pink.ready_late);
    assert!(
        light
            .notes
            .iter()
            .any(|note| note.contains("No figure was read for light red"))
    );
}

#[test]
fn freezing_and_heat_beyond_the_tables_are_refused_in_words() {
    let ask = |degrees| {
        keeping(
            Reference::embedded(),
            "snap-bean",
            "sound",
            KeepPlace::Counter,
            fahrenheit(degrees),
            PICKED,
        )
    };
    let Err(cold @ LotError::Freezing { .. }) = ask(20) else {
        panic!("beans freeze at 20 F");
    };
    assert!(
        cold.to_string()
            .contains("at 20 F (-6.7 C) snap beans freeze"),
        "{cold}"
    );
    let Err(hot @ LotError::TooWarm { .. }) = ask(150) else {
        panic!("no figure reaches 150 F");
    };
    assert!(
        hot.to_string()
            .contains("move snap beans to a cooler place"),
        "{hot}"
    );
}

#[test]
fn the_state_follows_the_calendar_from_ripening_to_past() {
    let lot = kept("tomato-slicing", "turning", KeepPlace::Counter, 60);
    let day = |days: i64| PICKED.checked_add(jiff::Span::new().days(days)).unwrap();
    assert_eq!(lot.state_on(day(-1)), KeepingState::NotPicked);
    assert_eq!(lot.state_on(PICKED), KeepingState::Ripening);
    assert_eq!(lot.state_on(lot.early), KeepingState::Due);
    assert_eq!(lot.state_on(lot.late), KeepingState::Doubtful);
    assert_eq!(lot.state_on(day(lot.late_days() + 1)), KeepingState::Past);
    assert!(
        lot.said_on(day(200))
            .starts_with("already past: it kept until about")
    );
    let waiting = kept("cabbage", "sound", KeepPlace::ColdRoom, 34);
    assert_eq!(waiting.state_on(PICKED), KeepingState::Waiting);
}

#[test]
fn the_next_look_never_lies_behind_and_comes_daily_at_the_end() {
    let lot = kept("cabbage", "sound", KeepPlace::ColdRoom, 34);
    for days in 0..=lot.late_days() + 3 {
        let today = PICKED.checked_add(jiff::Span::new().days(days)).unwrap();
        let look = lot.look_again_after(today);
        assert!(look >= today);
        assert!(look <= today.max(lot.early));
        if today >= lot.early {
            assert_eq!(look, today);
        }
    }
}

#[test]
fn a_picking_in_the_future_is_refused() {
    let today = date(2031, 8, 19);
    assert_eq!(check_picked(today, today), Ok(()));
    let error = check_picked(PICKED, today).unwrap_err();
    assert_eq!(
        error.to_string(),
        "picked on 2031-08-20 lies after today, 2031-08-19; check the date"
    );
}

#[test]
fn a_date_at_the_end_of_the_calendar_is_an_error() {
    let last = keeping(
        Reference::embedded(),
        "cabbage",
        "sound",
        KeepPlace::ColdRoom,
        fahrenheit(34),
        Date::MAX,
    );
    assert!(matches!(last, Err(LotError::DateOutOfRange { .. })));
}

#[test]
fn the_own_record_takes_over_after_three_spoiled_lots() {
    let seen = |days, outcome| Observation {
        early_days: 4,
        late_days: 8,
        days,
        outcome,
    };
    let mut record = vec![seen(3, LotOutcome::Spoiled), seen(6, LotOutcome::Spoiled)];
    assert_eq!(own_factor(&record), None, "two lots are no record");
    record.push(seen(5, LotOutcome::StillFine));
    assert_eq!(
        own_factor(&record),
        None,
        "a lot still fine has not shown its end"
    );
    record.push(seen(4, LotOutcome::Spoiled));
    let own = own_factor(&record).unwrap();
    assert_eq!((own.low, own.high, own.lots), (0.5, 1.0, 4));
    record.push(seen(9, LotOutcome::StillFine));
    assert_eq!(
        own_factor(&record).unwrap().high,
        1.5,
        "still fine later lengthens it"
    );

    let by_tables = kept("snap-bean", "sound", KeepPlace::ColdRoom, 42);
    let by_record = keeping_with_own(
        Reference::embedded(),
        "snap-bean",
        "sound",
        KeepPlace::ColdRoom,
        fahrenheit(42),
        PICKED,
        Some(&own),
    )
    .unwrap();
    // The middle of 8 to 12 days is 10: half of it to all of it.
    assert_eq!((by_record.early_days(), by_record.late_days()), (5, 10));
    assert_eq!(by_record.basis, Basis::Own);
    assert_eq!(by_tables.basis, Basis::Read);
    assert!(by_record.source.starts_with("own record of 4 lots"));
}

#[test]
fn places_are_read_by_their_words() {
    for place in KeepPlace::ALL {
        assert_eq!(place.as_str().parse(), Ok(place));
    }
    assert_eq!(
        "freezer".parse::<KeepPlace>().unwrap_err().to_string(),
        "fresh food does not lie in \"freezer\"; write counter, cold-room or fridge"
    );
}

proptest! {
    #[test]
    fn any_temperature_gives_ordered_dates_or_a_sentence(
        crop in 0..crops().len(),
        grade in 0_usize..11,
        place in 0_usize..3,
        tenths in -400_i64..1600,
        record in proptest::collection::vec((0_i64..400, any::<bool>()), 0..8),
    ) {
        let crop = &crops()[crop];
        let grades = grades_for(&crop.key).unwrap();
        let record: Vec<Observation> = record
            .into_iter()
            .map(|(days, spoiled)| Observation {
                early_days: days / 3,
                late_days: days / 2,
                days,
                outcome: if spoiled { LotOutcome::Spoiled } else { LotOutcome::StillFine },
            })
            .collect();
        let answer = keeping_with_own(
            Reference::embedded(),
            &crop.key,
            &grades[grade % grades.len()].key,
            KeepPlace::ALL[place],
            Temperature::from_fahrenheit(quantity::exact(tenths.into(), 10).unwrap()),
            PICKED,
            own_factor(&record).as_ref(),
        );
        match answer {
            Ok(found) => {
                prop_assert!(found.ready_from <= found.early && found.early <= found.late);
                prop_assert!(found.ready_late <= found.late);
                prop_assert!(found.look_again >= PICKED && found.look_again <= found.early);
            }
            Err(error) => prop_assert!(matches!(
                error,
                LotError::Freezing { .. } | LotError::TooWarm { .. }
            ), "{error}"),
        }
    }
}

#[test]
fn uncured_and_half_grown_stores_are_for_the_week() {
    for crop in ["winter-squash", "onion", "garlic", "potato"] {
        let young = kept(crop, "immature", KeepPlace::ColdRoom, 50);
        let cured = kept(crop, "sound", KeepPlace::ColdRoom, 50);
        assert!(young.late < cured.early, "{crop}");
    }
}

#[test]
fn beans_a_little_too_cold_keep_half_of_the_printed_least() {
    // 8 days at 40 to 45 F, chilling below 40 F: 4 at 38 F, and no wider than that.
    let beans = kept("snap-bean", "sound", KeepPlace::Fridge, 38);
    assert_eq!(beans.early_days(), 4);
    assert_eq!(beans.basis, Basis::Remembered);
}
