//! Read models from the facts: one file per page.

mod asks;
pub mod batch;
mod batch_words;
pub mod check;
pub mod counter;
pub mod day;
pub mod enter;
pub mod here;
pub mod house;
pub mod incident;
mod load;
pub mod plan;
mod plan_flow;
mod plan_words;
mod printed_card;
pub(crate) mod printed_labels;
pub mod printed_other;
pub mod process;
pub mod recipe;
mod scaling;
pub mod stores;
pub mod verdict;
