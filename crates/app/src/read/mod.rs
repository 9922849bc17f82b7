//! Read models from the facts: one file per page.

pub mod batch;
pub mod check;
pub mod counter;
pub mod day;
pub mod house;
pub mod plan;
pub mod process;
pub mod stores;
pub mod verdict;
