//! What the ledger refuses, each with its cause and what to do.

use crate::Place;

/// A move the ledger does not take.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum LedgerError {
    /// The text names no place.
    #[error("\"{0}\" is no place the ledger knows. Use one of: {list}.", list = place_list())]
    UnknownPlace(String),
    /// A movement of nothing, of less than nothing, or of an absurd mass.
    #[error(
        "A movement of {0} mg cannot be taken down. Give a weight above zero and below 1000 tonnes."
    )]
    AbsurdMass(i64),
    /// A container movement of none, of fewer than none, or of an absurd number.
    #[error(
        "A movement of {0} containers cannot be taken down. Give a whole number from 1 to 1,000,000."
    )]
    AbsurdCount(i64),
    /// From and to are the same and nothing changes.
    #[error(
        "The food would go from {0} to {0} and stay what it is. Name another place to move it to."
    )]
    GoesNowhere(Place),
    /// Nothing leaves an end place except by undoing the entry that brought it there.
    #[error("Nothing can be taken back out of {0}. Undo the entry that put it there instead.")]
    OutOfEnd(Place),
    /// Nothing goes back into a source except by undoing the entry that took it out.
    #[error("Food cannot be moved back into {0}. Undo the entry that took it from there instead.")]
    IntoSource(Place),
    /// A shelf count of a place where containers do not stand.
    #[error(
        "No containers stand at {0}, so there is nothing to count. Count a shelf, freezer, fridge or cold room."
    )]
    NoContainersThere(Place),
    /// A movement of no named crop.
    #[error("A movement names no crop. Say which crop or bought ingredient it is.")]
    NoCrop,
    /// More containers asked for than stand there.
    #[error(
        "Batch {batch} has {there} {size} at {place}, not {asked}. Take {there} or fewer, or count the shelf first."
    )]
    NotThatMany {
        /// The batch.
        batch: i64,
        /// The container size.
        size: String,
        /// Where they were looked for.
        place: Place,
        /// How many stand there.
        there: i64,
        /// How many were asked for.
        asked: i64,
    },
    /// The shares of a mixed shelf need the room of each size.
    #[error(
        "How much a {0} holds is not known, so its share of the batch cannot be told. Give its room in millilitres."
    )]
    UnknownRoom(String),
    /// A share that is no share.
    #[error("{taken} of {of} is no share. Take at least none and at most all.")]
    NoShare {
        /// How much is taken.
        taken: i64,
        /// Out of how much.
        of: i64,
    },
}

fn place_list() -> String {
    Place::ALL.map(Place::as_str).join(", ")
}
