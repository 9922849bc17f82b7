//! The ledger from outside: what a household relies on.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on should stop")]

mod balances;
mod draws;
mod invariants;
mod random_days;
mod shelf_counts;

use jiff::civil::{Date, date};
use ledger::{ContainerMovement, Content, Movement, Place};

/// The `n`th of August of an invented year.
fn day(n: i8) -> Date {
    date(2031, 8, n)
}

/// Food of one crop moved as the `entry`th act of its day.
fn moved(entry: i64, crop: &str, content: Content, from: Place, to: Place, mg: i64) -> Movement {
    Movement {
        entry,
        line: 0,
        on: day(i8::try_from(entry).unwrap()),
        crop: crop.to_owned(),
        content,
        becomes: None,
        from,
        to,
        milligrams: mg,
        estimated: false,
    }
}

/// As [`moved`], with the food joining a batch.
fn joined(entry: i64, crop: &str, lot: i64, batch: i64, mg: i64) -> Movement {
    Movement {
        becomes: Some(Content::Batch(batch)),
        ..moved(
            entry,
            crop,
            Content::Lot(lot),
            Place::Counter,
            Place::Pot,
            mg,
        )
    }
}

fn jars(entry: i64, batch: i64, size: &str, from: Place, to: Place, n: i64) -> ContainerMovement {
    ContainerMovement {
        entry,
        line: 0,
        on: day(i8::try_from(entry).unwrap()),
        batch,
        size: size.to_owned(),
        from,
        to,
        count: n,
    }
}
