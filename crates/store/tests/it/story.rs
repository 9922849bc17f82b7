//! One week of one invented household, through the whole interface, on a file and in memory.

use crate::{DAY, act, file, kale, pick, undo};
use jiff::civil::date;
use ledger::invariant::all;
use ledger::{
    ContainerMovement, Content, CountLine, Movement, Place, balances, container_balances,
};
use store::{BatchEventKind, NewBatch, NewEntry, Store, StoreError};

fn bags(batch: i64, from: Place, to: Place, count: i64) -> ContainerMovement {
    ContainerMovement {
        entry: 0,
        line: 0,
        on: DAY,
        batch,
        size: "pint-bag".to_owned(),
        from,
        to,
        count,
    }
}

fn frozen_kale() -> NewBatch {
    NewBatch {
        recipe: "frozen-greens".to_owned(),
        batches: "3/2".to_owned(),
        for_day: DAY,
        jar: None,
        question: "{\"route\":\"freezer\"}".to_owned(),
        permit_record: None,
        route_verdict: Some("{\"allowed\":true}".to_owned()),
        card: "{\"lines\":[]}".to_owned(),
        planned_inputs: "[{\"lot\":1}]".to_owned(),
    }
}

#[test]
fn a_week_in_a_file() {
    let (_folder, path) = file();
    let store = Store::open(&path).unwrap();
    live(&store);
    drop(store);
    // Everything is there again after the program ended.
    assert_eq!(end_of(&Store::open(&path).unwrap()), end_of_week());
}

#[test]
fn a_week_in_memory() {
    let store = Store::open_in_memory().unwrap();
    live(&store);
    assert_eq!(end_of(&store), end_of_week());
}

/// Entries, milligrams of kale in the freezer, bags in the freezer.
fn end_of(store: &Store) -> (usize, Option<i64>, Option<i64>) {
    let food = balances(&store.movements().unwrap());
    let bags = container_balances(&store.container_movements().unwrap());
    (
        store.entries(100).unwrap().len(),
        food.get(&(Content::Batch(1), "kale".to_owned(), Place::Freezer))
            .copied(),
        bags.get(&(1, "pint-bag".to_owned(), Place::Freezer))
            .copied(),
    )
}

fn end_of_week() -> (usize, Option<i64>, Option<i64>) {
    (12, Some(1500), Some(3))
}

fn live(store: &Store) {
    empty_at_first(store);
    house_is_described_twice(store);
    let lot = kale_is_picked_and_spoken_of(store);
    a_form_sent_twice_counts_once(store);
    let batch = a_plan_is_accepted(store, lot);
    the_batch_is_made(store, lot, batch);
    a_gift_is_undone(store, batch);
    the_freezer_is_counted(store, batch);
    the_books_hold(store);
}

fn empty_at_first(store: &Store) {
    assert_eq!(store.latest_house().unwrap(), None);
    assert_eq!(store.lots().unwrap(), []);
    assert_eq!(store.movements().unwrap(), []);
    assert_eq!(store.latest_harvest_plan().unwrap(), None);
    assert_eq!(store.timetable_for(DAY).unwrap(), None);
    assert!(matches!(
        store.lot(1),
        Err(StoreError::Missing { what: "lot", id: 1 })
    ));
    assert!(matches!(
        store.batch(1),
        Err(StoreError::Missing {
            what: "batch",
            id: 1
        })
    ));
    assert!(matches!(
        store.entry(1),
        Err(StoreError::Missing {
            what: "entry",
            id: 1
        })
    ));
}

fn house_is_described_twice(store: &Store) {
    let describe = |content: &str| {
        store.append(act("house"), |w, entry| {
            w.add_house(content)?;
            Ok::<_, StoreError>(entry)
        })
    };
    describe("{\"burners\":3}").unwrap();
    let later = describe("{\"burners\":4}").unwrap();
    let house = store.latest_house().unwrap().unwrap();
    assert_eq!(
        (house.entry, house.content.as_str()),
        (later, "{\"burners\":4}")
    );
    // The second description is undone: the first one counts again.
    store
        .append(undo(later), |_, _| Ok::<_, StoreError>(()))
        .unwrap();
    assert_eq!(
        store.latest_house().unwrap().unwrap().content,
        "{\"burners\":3}"
    );
    let refused = describe("{burners").unwrap_err();
    assert!(matches!(refused, StoreError::Refused(_)), "{refused}");
    assert_eq!(store.entries(100).unwrap().len(), 3);
}

fn kale_is_picked_and_spoken_of(store: &Store) -> i64 {
    let (entry, lot) = pick(store, 5000).unwrap();
    let record = store.lot(lot).unwrap();
    assert_eq!(
        (record.entry, record.milligrams, record.picked_on),
        (entry, 5000, DAY)
    );
    assert_eq!(record.temperature_f, None);
    assert!(!record.reversed);
    store
        .append(act("statement"), |w, _| {
            w.add_lot_statement(lot, "history.diseased", "no")?;
            w.add_lot_statement(lot, "grade", "soft")
        })
        .unwrap();
    let said = store.lot_statements(lot).unwrap();
    let said: Vec<(&str, &str)> = said
        .iter()
        .map(|s| (s.key.as_str(), s.value.as_str()))
        .collect();
    assert_eq!(said, [("history.diseased", "no"), ("grade", "soft")]);
    assert_eq!(store.all_lot_statements().unwrap().len(), 2);
    let refused = store.append(act("statement"), |w, _| {
        w.add_lot_statement(99, "grade", "soft")
    });
    assert!(matches!(refused, Err(StoreError::Refused(_))));
    lot
}

fn a_form_sent_twice_counts_once(store: &Store) {
    let form = || NewEntry {
        token: Some("form-7".to_owned()),
        ..act("note")
    };
    let first = store
        .append(form(), |_, entry| Ok::<_, StoreError>(entry))
        .unwrap();
    let mut ran = false;
    let second = store.append(form(), |_, _| {
        ran = true;
        Ok::<_, StoreError>(())
    });
    assert!(matches!(second, Err(StoreError::AlreadyEntered(entry)) if entry == first));
    assert!(!ran);
}

fn a_plan_is_accepted(store: &Store, lot: i64) -> i64 {
    let batch = store
        .append(act("harvest-plan"), |w, _| {
            w.add_harvest_plan("{\"lots\":1}", "{\"runs\":1}")?;
            w.add_timetable(DAY, "{\"steps\":1}", "{\"starts\":[0]}", "[\"blanch\"]")?;
            w.add_timetable(DAY, "{\"steps\":1}", "{\"starts\":[5]}", "[\"blanch\"]")?;
            w.add_batch(&frozen_kale())
        })
        .unwrap();
    let harvest_plan = store.latest_harvest_plan().unwrap().unwrap();
    assert_eq!(harvest_plan.harvest_plan, "{\"runs\":1}");
    assert_eq!(
        store.timetable_for(DAY).unwrap().unwrap().timetable,
        "{\"starts\":[5]}"
    );
    assert_eq!(store.timetable_for(date(2031, 8, 5)).unwrap(), None);
    let record = store.batch(batch).unwrap();
    assert_eq!(
        (record.batches.as_str(), record.jar.as_deref()),
        ("3/2", None)
    );
    assert_eq!(record.route_verdict.as_deref(), Some("{\"allowed\":true}"));
    let without = NewBatch {
        route_verdict: None,
        ..frozen_kale()
    };
    let refused = store.append(act("batch"), |w, _| w.add_batch(&without));
    assert!(matches!(refused, Err(StoreError::Refused(text)) if text.contains("permit")));
    assert_eq!(
        (store.batches().unwrap().len(), store.lots().unwrap()[0].id),
        (1, lot)
    );
    batch
}

fn the_batch_is_made(store: &Store, lot: i64, batch: i64) {
    let content = Content::Batch(batch);
    store
        .append(act("start"), |w, _| {
            w.add_batch_event(batch, BatchEventKind::Started, "{}")?;
            w.add_movements(&[Movement {
                becomes: Some(content),
                ..kale(Content::Lot(lot), Place::Counter, Place::Pot, 3000)
            }])
        })
        .unwrap();
    // More than is left: refused by the file itself, and nothing of the entry stays.
    let greedy = store.append(act("eat"), |w, _| {
        w.add_movements(&[kale(Content::Lot(lot), Place::Counter, Place::Eaten, 2001)])
    });
    let error = greedy.unwrap_err();
    assert_eq!(
        error.to_string(),
        "There is not that much kale of lot 1 at counter: 1 mg short. \
         Nothing was written; look at what is there now, and take less."
    );
    store
        .append(act("outcome"), |w, _| {
            w.add_batch_event(batch, BatchEventKind::Outcome, "{\"bags\":4}")?;
            w.add_movements(&[
                kale(content, Place::Pot, Place::Trimmings, 1000),
                kale(content, Place::Pot, Place::Freezer, 2000),
            ])?;
            // What the open entry wrote can be read through it.
            assert_eq!(w.movements()?.len(), 4);
            w.add_container_movements(&[bags(batch, Place::Pot, Place::Freezer, 4)])
        })
        .unwrap();
    let events = store.batch_events(batch).unwrap();
    let kinds: Vec<BatchEventKind> = events.iter().map(|event| event.kind).collect();
    assert_eq!(kinds, [BatchEventKind::Started, BatchEventKind::Outcome]);
    assert_eq!(store.all_batch_events().unwrap(), events);
}

fn a_gift_is_undone(store: &Store, batch: i64) {
    let given = store
        .append(act("give"), |w, entry| {
            let content = Content::Batch(batch);
            w.add_movements(&[kale(content, Place::Freezer, Place::Given, 500)])?;
            w.add_container_movements(&[bags(batch, Place::Freezer, Place::Given, 1)])?;
            Ok::<_, StoreError>(entry)
        })
        .unwrap();
    let undoing = store
        .append(undo(given), |w, entry| {
            w.add_opposite_movements()?;
            Ok::<_, StoreError>(entry)
        })
        .unwrap();
    assert_eq!(store.entry(given).unwrap().reversed_by, Some(undoing));
    assert_eq!(store.movements_of(undoing).unwrap()[0].from, Place::Given);
    assert_eq!(store.container_movements_of(undoing).unwrap()[0].count, 1);
    let again = store.append(undo(given), |w, _| w.add_opposite_movements());
    assert!(
        matches!(again, Err(StoreError::AlreadyReversed { entry, by }) if entry == given && by == undoing)
    );
    let back = store.append(undo(undoing), |w, _| w.add_opposite_movements());
    assert!(matches!(back, Err(StoreError::UndoOfUndo(entry)) if entry == undoing));
    let unknown = store.append(undo(4711), |w, _| w.add_opposite_movements());
    assert!(matches!(
        unknown,
        Err(StoreError::Missing {
            what: "entry",
            id: 4711
        })
    ));
    assert!(store.reversals().unwrap().contains(&(undoing, given)));
}

fn the_freezer_is_counted(store: &Store, batch: i64) {
    store
        .append(act("count"), |w, _| {
            w.add_shelf_count(&[CountLine {
                entry: 0,
                line: 0,
                place: Place::Freezer,
                batch,
                size: "pint-bag".to_owned(),
                found: 3,
                recorded: 4,
            }])?;
            let content = Content::Batch(batch);
            w.add_movements(&[kale(content, Place::Freezer, Place::Unaccounted, 500)])?;
            w.add_container_movements(&[bags(batch, Place::Freezer, Place::Unaccounted, 1)])
        })
        .unwrap();
    assert_eq!(store.shelf_counts().unwrap()[0].found, 3);
    let greedy = store.append(act("give"), |w, _| {
        w.add_container_movements(&[bags(batch, Place::Freezer, Place::Given, 4)])
    });
    assert!(matches!(
        greedy,
        Err(StoreError::NotThatMuch {
            place: Place::Freezer,
            ..
        })
    ));
}

fn the_books_hold(store: &Store) {
    let rows = store.rows_for_check().unwrap();
    assert!(rows.file.holds(), "{:?}", rows.file);
    assert!(rows.file.rows > 30);
    assert_eq!(rows.unreadable, [] as [String; 0]);
    assert!(rows.tried > 15);
    for finding in all(&rows.books) {
        assert!(finding.holds() && finding.examined > 0, "{finding:?}");
    }
}

#[test]
fn a_refused_entry_leaves_nothing_and_the_store_goes_on() {
    let store = Store::open_in_memory().unwrap();
    let refused: Result<(), StoreError> = store.append(act("picking"), |w, _| {
        w.add_house("{}")?;
        Err(StoreError::Refused("changed my mind".to_owned()))
    });
    assert!(refused.is_err());
    assert_eq!(store.entries(10).unwrap(), []);
    assert_eq!(store.latest_house().unwrap(), None);
    pick(&store, 1).unwrap();
    assert_eq!(store.entries(10).unwrap().len(), 1);
}

#[test]
fn a_panic_in_the_middle_of_an_entry_rolls_it_back() {
    let (_folder, path) = file();
    let store = Store::open(&path).unwrap();
    let panicked = std::thread::scope(|scope| {
        scope
            .spawn(|| {
                store.append(act("house"), |w, _| -> Result<(), StoreError> {
                    w.add_house("{}")?;
                    panic!("the power went, so to say");
                })
            })
            .join()
    });
    assert!(panicked.is_err());
    assert_eq!(store.entries(10).unwrap(), []);
    pick(&store, 1).unwrap();
}

#[test]
fn using_the_store_inside_its_own_entry_is_an_error_and_no_standstill() {
    let (_folder, path) = file();
    for store in [
        Store::open(&path).unwrap(),
        Store::open_in_memory().unwrap(),
    ] {
        let answer = store.append(act("house"), |_, _| store.lots());
        assert!(matches!(answer, Err(StoreError::InsideAppend)));
        let answer = store.append(act("house"), |_, _| pick(&store, 1));
        assert!(matches!(answer, Err(StoreError::InsideAppend)));
        pick(&store, 1).unwrap();
    }
}

#[test]
fn reads_see_finished_entries_only_and_one_moment_each() {
    let (_folder, path) = file();
    let store = Store::open(&path).unwrap();
    pick(&store, 1000).unwrap();
    store
        .read(|reader| {
            assert_eq!(reader.lots()?.len(), 1);
            std::thread::scope(|scope| scope.spawn(|| pick(&store, 1000)).join()).unwrap()?;
            assert_eq!(reader.lots()?.len(), 1, "the moment moved on");
            assert_eq!(reader.movements()?.len(), 1);
            Ok::<_, StoreError>(())
        })
        .unwrap();
    assert_eq!(store.lots().unwrap().len(), 2);
}

#[test]
fn of_two_who_take_the_last_of_it_one_is_refused() {
    let (_folder, path) = file();
    // Two programs on one file, eight hands at once.
    let stores = [Store::open(&path).unwrap(), Store::open(&path).unwrap()];
    let (_, lot) = pick(&stores[0], 3).unwrap();
    let taken: usize = std::thread::scope(|scope| {
        let hands: Vec<_> = (0..8)
            .map(|n| {
                let store = &stores[n % 2];
                scope.spawn(move || {
                    store.append(act("eat"), |w, _| {
                        w.add_movements(&[kale(Content::Lot(lot), Place::Counter, Place::Eaten, 1)])
                    })
                })
            })
            .collect();
        let answers: Vec<_> = hands.into_iter().map(|hand| hand.join().unwrap()).collect();
        for answer in &answers {
            assert!(
                matches!(answer, Ok(()) | Err(StoreError::NotThatMuch { .. })),
                "{answer:?}"
            );
        }
        answers.iter().filter(|answer| answer.is_ok()).count()
    });
    assert_eq!(taken, 3);
}
