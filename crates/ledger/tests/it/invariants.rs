//! Each rule, on sound books and on books broken in one way.

use crate::{day, jars, joined, moved};
use ledger::invariant::{Books, End, EntrySum, Finding, Leg, LotWeight, NAMES, all};
use ledger::{
    ContainerMovement, Content, CountLine, Movement, Place, first_dependent, reverse,
    reverse_containers,
};

/// A picking, a batch, its outcome, a count, a jar eaten, and the eating undone.
fn sound() -> Books {
    let batch = Content::Batch(1);
    let mut movements = vec![
        moved(
            1,
            "apple",
            Content::Lot(1),
            Place::Garden,
            Place::Counter,
            9000,
        ),
        joined(2, "apple", 1, 1, 8000),
        moved(3, "apple", batch, Place::Pot, Place::Shelf, 7000),
        Movement {
            line: 1,
            ..moved(3, "apple", batch, Place::Pot, Place::Trimmings, 1000)
        },
        moved(4, "apple", batch, Place::Shelf, Place::Unaccounted, 1000),
        moved(5, "apple", batch, Place::Shelf, Place::Eaten, 1000),
    ];
    let mut containers = vec![
        jars(3, 1, "quart", Place::Pot, Place::Shelf, 7),
        jars(4, 1, "quart", Place::Shelf, Place::Unaccounted, 1),
        jars(5, 1, "quart", Place::Shelf, Place::Eaten, 1),
    ];
    movements.extend(reverse(&movements[5..], 6, day(6)));
    containers.extend(reverse_containers(&containers[2..], 6, day(6)));
    let counts = vec![CountLine {
        entry: 4,
        line: 0,
        place: Place::Shelf,
        batch: 1,
        size: "quart".to_owned(),
        found: 6,
        recorded: 7,
    }];
    let mut books = Books {
        entries: (1..=6).collect(),
        reversals: vec![(6, 5)],
        legs: Vec::new(),
        sums: Vec::new(),
        movements,
        containers,
        lots: vec![LotWeight {
            lot: 1,
            entry: 1,
            crop: "apple".to_owned(),
            milligrams: 9000,
        }],
        finished_batches: vec![1],
        counts,
    };
    again(&mut books);
    books
}

/// Legs and sums as they would be written with these movements.
fn again(books: &mut Books) {
    books.legs = legs(&books.movements);
    books.sums = sums(books);
}

fn legs(movements: &[Movement]) -> Vec<Leg> {
    let leg = |m: &Movement, place: Place, end| Leg {
        entry: m.entry,
        line: i64::from(m.line),
        crop: m.crop.clone(),
        place: place.to_string(),
        end,
        milligrams: m.milligrams,
    };
    movements
        .iter()
        .flat_map(|m| [leg(m, m.from, End::Leaves), leg(m, m.to, End::Arrives)])
        .collect()
}

fn sums(books: &Books) -> Vec<EntrySum> {
    let own = |entry: i64| {
        let food = books.movements.iter().filter(move |m| m.entry == entry);
        let moved = books.containers.iter().filter(move |c| c.entry == entry);
        EntrySum {
            entry,
            lines: i64::try_from(food.clone().count()).unwrap(),
            milligrams: food.map(|m| m.milligrams).sum(),
            container_lines: i64::try_from(moved.clone().count()).unwrap(),
            containers: moved.map(|c| c.count).sum(),
        }
    };
    books.entries.iter().map(|entry| own(*entry)).collect()
}

/// Breaks sound books and says which rules noticed.
fn noticed(break_it: impl FnOnce(&mut Books)) -> Vec<Finding> {
    let mut books = sound();
    break_it(&mut books);
    all(&books)
        .into_iter()
        .filter(|finding| !finding.holds())
        .collect()
}

fn only(findings: &[Finding], invariant: &str) -> String {
    let names: Vec<&str> = findings.iter().map(|f| f.invariant).collect();
    assert_eq!(names, [invariant]);
    findings[0].broken.join("; ")
}

#[test]
fn sound_books_hold_and_every_rule_looked_at_something() {
    let findings = all(&sound());
    assert_eq!(
        findings.iter().map(|f| f.invariant).collect::<Vec<_>>(),
        NAMES
    );
    for finding in findings {
        assert!(finding.holds(), "{finding:?}");
        assert!(finding.examined > 0, "{finding:?}");
    }
}

#[test]
fn a_place_nobody_knows_breaks_the_sum_of_its_entry() {
    let found = noticed(|books| books.legs[1].place = "attic".to_owned());
    let text = only(&found, "entry-sums-to-zero");
    assert!(
        text.contains("entry 1, apple") && text.contains("\"attic\""),
        "{text}"
    );
}

#[test]
fn a_lost_line_shows_against_the_sums_of_its_entry() {
    let found = noticed(|books| books.sums[2].lines = 3);
    assert!(only(&found, "entry-is-whole").contains("entry 3"));
    let found = noticed(|books| {
        books.sums.remove(0);
    });
    assert!(only(&found, "entry-is-whole").contains("never closed"));
}

#[test]
fn food_out_of_an_end_is_noticed_unless_it_is_an_undoing() {
    let found = noticed(|books| books.reversals.clear());
    let text = only(&found, "movement-is-sound");
    assert!(
        text.contains("movement 6/0") && text.contains("container movement 6/0"),
        "{text}"
    );
}

#[test]
fn a_place_below_zero_is_named_with_its_day() {
    let found = noticed(|books| {
        // The batch was begun a day before its apples were picked.
        books.movements[0].on = day(3);
    });
    let text = only(&found, "no-place-below-zero");
    assert_eq!(text, "apple of lot 1 at counter is -8000 mg on 2031-08-02");
}

#[test]
fn containers_below_zero_are_named() {
    let found = noticed(|books| books.containers[0].on = day(5));
    let text = only(&found, "no-containers-below-zero");
    assert_eq!(text, "quart of batch 1 at shelf is -1 on 2031-08-04");
}

#[test]
fn a_count_that_the_movements_do_not_bear_out_is_named() {
    for break_it in [
        (|count: &mut CountLine| count.found = 5) as fn(&mut CountLine),
        |count| count.recorded = 8,
    ] {
        let found = noticed(|books| break_it(&mut books.counts[0]));
        assert!(only(&found, "count-matches-movements").contains("count 4/0"));
    }
}

#[test]
fn a_lot_that_weighs_other_than_what_was_moved_into_it_is_named() {
    let found = noticed(|books| books.lots[0].milligrams = 9001);
    assert!(only(&found, "lot-weight-matches-movements").contains("lot 1"));
}

#[test]
fn a_lot_booked_under_another_crop_is_named() {
    let found = noticed(|books| books.lots[0].crop = "pear".to_owned());
    let text = only(&found, "balance-per-crop-is-zero");
    assert!(
        text.contains("lot 1 is pear, but movement 1/0 books 9000 mg of it as apple"),
        "{text}"
    );
}

#[test]
fn a_new_grade_is_a_lot_whose_weight_comes_out_of_another() {
    let found = noticed(|books| {
        let regraded = Movement {
            becomes: Some(Content::Lot(2)),
            ..moved(
                7,
                "apple",
                Content::Lot(1),
                Place::Counter,
                Place::Counter,
                400,
            )
        };
        books.movements.push(regraded);
        books.entries.push(7);
        books.lots.push(LotWeight {
            lot: 2,
            entry: 7,
            crop: "apple".to_owned(),
            milligrams: 400,
        });
        again(books);
    });
    assert_eq!(found, []);
}

#[test]
fn food_left_in_the_pot_of_a_finished_batch_is_named() {
    let found = noticed(|books| {
        books.movements.remove(3);
        again(books);
    });
    assert!(only(&found, "pot-empty-after-outcome").contains("1000 mg of apple"));
}

#[test]
fn an_undoing_that_is_not_the_exact_opposite_is_named() {
    let found = noticed(|books| {
        let last = books.movements.last_mut().unwrap();
        last.milligrams = 900;
        again(books);
    });
    assert!(only(&found, "reversal-mirrors-entry").contains("entry 6"));
    let found = noticed(|books| books.reversals.push((6, 5)));
    assert!(only(&found, "reversal-mirrors-entry").contains("more than once"));
}

fn dependent(
    entry: i64,
    movements: &[Movement],
    containers: &[ContainerMovement],
) -> Option<String> {
    let books = sound();
    first_dependent(
        entry,
        movements,
        containers,
        &books.counts,
        &books.reversals,
    )
    .map(|dependent| dependent.to_string())
}

#[test]
fn what_others_built_on_cannot_be_undone_and_the_reason_names_them() {
    let books = sound();
    let ask = |entry| dependent(entry, &books.movements, &books.containers);
    assert_eq!(
        ask(1).unwrap(),
        "entry 2 has since moved apple on from counter"
    );
    assert_eq!(ask(2).unwrap(), "entry 3 has since moved apple on from pot");
    assert_eq!(
        ask(3).unwrap(),
        "entry 4 has since counted quart of batch 1 at shelf"
    );
    // Nothing came after the count but an eating that was undone.
    assert_eq!(ask(4), None);
}

#[test]
fn a_later_picking_of_the_same_lot_does_not_hide_what_rested_on_the_first() {
    // Picked 10, eaten 10, picked 10 more: without the first picking the eating has no food.
    let lot = Content::Lot(1);
    let movements = [
        moved(1, "kale", lot, Place::Garden, Place::Counter, 10),
        moved(2, "kale", lot, Place::Counter, Place::Eaten, 10),
        moved(3, "kale", lot, Place::Garden, Place::Counter, 10),
    ];
    let found = first_dependent(1, &movements, &[], &[], &[]).unwrap();
    assert_eq!(found.entry, 2);
    assert_eq!(first_dependent(3, &movements, &[], &[], &[]), None);
}
