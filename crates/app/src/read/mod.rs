//! Read models from the facts: one file per page.

mod asks;
pub mod batch;
mod batch_words;
pub mod check;
pub mod counter;
pub mod day;
pub mod here;
pub mod house;
pub mod incident;
mod load;
pub mod plan;
mod plan_flow;
mod plan_words;
pub mod process;
mod scaling;
pub mod stores;
pub mod verdict;
