//! Writes a small invented household's file with this program's schema, to be kept under
//! `tests/old/NNNN.db` when a schema is released and opened by a test ever after:
//! `cargo run -p store --example write_old_file -- crates/store/tests/old/0001.db`.

use jiff::civil::{Date, date};
use ledger::{ContainerMovement, Content, CountLine, Movement, Place};
use std::error::Error;
use std::path::Path;
use store::{BatchEventKind, NewBatch, NewEntry, NewLot, Store, StoreError};

const PICKED: Date = date(2031, 8, 4);
const COOKED: Date = date(2031, 8, 5);

fn main() -> Result<(), Box<dyn Error>> {
    let path = std::env::args().nth(1).ok_or("name the file to write")?;
    let path = Path::new(&path);
    if path.exists() {
        return Err("the file is there already; a released one is never written again".into());
    }
    let store = Store::open(path)?;
    write_sample(&store)?;
    println!("{}: schema {}", path.display(), store::schema_version());
    Ok(())
}

fn act(on: Date, kind: &str, token: Option<&str>, reverses: Option<i64>) -> NewEntry {
    NewEntry {
        at: format!("{on}T10:00:00Z"),
        on,
        who: "Wren".to_owned(),
        kind: kind.to_owned(),
        note: "invented".to_owned(),
        token: token.map(str::to_owned),
        reverses,
    }
}

fn food(on: Date, content: Content, from: Place, to: Place, milligrams: i64) -> Movement {
    Movement {
        entry: 0,
        line: 0,
        on,
        crop: "tomato-paste".to_owned(),
        content,
        becomes: None,
        from,
        to,
        milligrams,
        estimated: false,
    }
}

fn quarts(on: Date, batch: i64, from: Place, to: Place, count: i64) -> ContainerMovement {
    ContainerMovement {
        entry: 0,
        line: 0,
        on,
        batch,
        size: "quart".to_owned(),
        from,
        to,
        count,
    }
}

fn write_sample(store: &Store) -> Result<(), StoreError> {
    store.append(act(PICKED, "house", None, None), |w, _| {
        w.add_house("{\"name\":\"an invented house\"}")
    })?;
    let lot = store.append(act(PICKED, "picking", Some("form-1"), None), |w, _| {
        let lot = w.add_lot(&NewLot {
            crop: "tomato-paste".to_owned(),
            variety: "unnamed red".to_owned(),
            grade: "sound".to_owned(),
            place: Place::Counter,
            temperature_f: Some("70".to_owned()),
            picked_on: PICKED,
            milligrams: 10_886_217,
            how_weighed: "scale, 24 lb".to_owned(),
            note: String::new(),
        })?;
        w.add_lot_statement(lot, "history.diseased", "no")?;
        let content = Content::Lot(lot);
        w.add_movements(&[food(
            PICKED,
            content,
            Place::Garden,
            Place::Counter,
            10_886_217,
        )])?;
        Ok::<_, StoreError>(lot)
    })?;
    let batch = store.append(act(PICKED, "harvest-plan", None, None), |w, _| {
        w.add_harvest_plan("{\"lots\":[1]}", "{\"runs\":[1]}")?;
        w.add_timetable(COOKED, "{\"steps\":[]}", "{\"starts\":[]}", "[]")?;
        w.add_batch(&NewBatch {
            recipe: "tomato-juice".to_owned(),
            batches: "1".to_owned(),
            for_day: COOKED,
            jar: Some("quart".to_owned()),
            question: "{\"food\":\"tomato-juice\"}".to_owned(),
            permit_record: Some("{\"minutes\":45}".to_owned()),
            route_verdict: None,
            card: "{}".to_owned(),
            planned_inputs: "[1]".to_owned(),
        })
    })?;
    store.append(act(COOKED, "start", None, None), |w, _| {
        w.add_batch_event(batch, BatchEventKind::Started, "{}")?;
        w.add_movements(&[Movement {
            becomes: Some(Content::Batch(batch)),
            ..food(
                COOKED,
                Content::Lot(lot),
                Place::Counter,
                Place::Pot,
                10_000_000,
            )
        }])
    })?;
    let put_up = Content::Batch(batch);
    store.append(act(COOKED, "outcome", None, None), |w, _| {
        w.add_batch_event(batch, BatchEventKind::Outcome, "{\"quarts\":7}")?;
        w.add_movements(&[
            food(COOKED, put_up, Place::Pot, Place::Trimmings, 3_000_000),
            food(COOKED, put_up, Place::Pot, Place::Shelf, 7_000_000),
        ])?;
        w.add_container_movements(&[quarts(COOKED, batch, Place::Pot, Place::Shelf, 7)])
    })?;
    let given = store.append(act(COOKED, "give", None, None), |w, entry| {
        w.add_movements(&[food(COOKED, put_up, Place::Shelf, Place::Given, 1_000_000)])?;
        w.add_container_movements(&[quarts(COOKED, batch, Place::Shelf, Place::Given, 1)])?;
        Ok::<_, StoreError>(entry)
    })?;
    store.append(act(COOKED, "undo", None, Some(given)), |w, _| {
        w.add_opposite_movements()
    })?;
    store.append(act(COOKED, "count", None, None), |w, _| {
        w.add_shelf_count(&[CountLine {
            entry: 0,
            line: 0,
            place: Place::Shelf,
            batch,
            size: "quart".to_owned(),
            found: 6,
            recorded: 7,
        }])?;
        w.add_movements(&[food(
            COOKED,
            put_up,
            Place::Shelf,
            Place::Unaccounted,
            1_000_000,
        )])?;
        w.add_container_movements(&[quarts(COOKED, batch, Place::Shelf, Place::Unaccounted, 1)])
    })?;
    store.append(act(COOKED, "recipe", None, None), |w, _| {
        w.add_household_recipe(
            "porch-relish",
            "Porch relish",
            "{\"lines\":[\"2 cups onions\"]}",
        )?;
        Ok(())
    })
}
