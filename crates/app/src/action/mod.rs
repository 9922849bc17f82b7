//! What a household can do: one file per kind of act.

pub mod batch;
mod card_entered;
mod card_written;
mod entered;
pub mod finish;
pub mod house;
pub mod incident;
pub mod lot;
pub mod picking;
pub mod plan;
pub mod prepare;
pub mod recipe;
pub(crate) mod scaling;
pub mod seals;
pub mod settle;
pub mod stores;
pub mod undo;

use jiff::civil::Date;
use ledger::{ContainerMovement, Content, Movement, Place};
use serde::Serialize;

/// What an action did.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Done {
    /// The entry it was written as.
    pub entry: i64,
    /// The number of the lot or batch it made, if any.
    pub id: Option<i64>,
    /// One sentence to show.
    pub words: String,
}

/// A movement of one crop's weight, before its entry is known.
pub(crate) fn movement(
    on: Date,
    crop: &str,
    content: Content,
    from: Place,
    to: Place,
    milligrams: i64,
) -> Movement {
    Movement {
        entry: 0,
        line: 0,
        on,
        crop: crop.to_owned(),
        content,
        becomes: None,
        from,
        to,
        milligrams,
        estimated: false,
    }
}

/// A movement of whole containers, before its entry is known.
pub(crate) fn containers(
    on: Date,
    batch: i64,
    size: &str,
    from: Place,
    to: Place,
    count: i64,
) -> ContainerMovement {
    ContainerMovement {
        entry: 0,
        line: 0,
        on,
        batch,
        size: size.to_owned(),
        from,
        to,
        count,
    }
}
