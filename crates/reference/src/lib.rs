//! The printed tables of `data/` as typed rows with their sources; states facts, decides nothing.
//!
//! Values stand as printed. Where one is missing or doubtful the row says so; what follows from that
//! is for the gate (crate `safety`) to decide.

pub mod embedded;
mod kinds;
mod lists;
pub mod number;
mod problem;
pub mod rows;
mod sources;
mod suggest;
mod table;
pub mod table_check;
mod tables;
mod unit;
mod words;

pub use number::{Exact, Printed};
pub use problem::TableProblem;
pub use rows::*;
pub use table::Files;
pub use tables::Reference;
pub use unit::TableUnit;
pub use words::*;
