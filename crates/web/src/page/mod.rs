//! One module for each page: a read model and a frame in, the whole document out.

pub mod batch;
pub mod batch_forms;
pub mod batch_list;
pub mod batch_refused;
pub mod counter;
pub mod day;
pub mod holding;
pub mod house;
pub mod house_lists;
pub mod lot;
pub mod message;
pub mod plan;
pub mod plan_tables;
pub mod process;
pub mod stores;
pub mod verdict;
pub mod weigh_in;

use crate::frame::Frame;
use crate::part::{Page, Section, amount, page};
use app::view::{Both, Choice};
use maud::Markup;

/// Puts a body into the shell with the page's frame.
fn whole(frame: &Frame, title: &str, section: Section, body: Markup) -> Markup {
    page(Page {
        title,
        section,
        house: frame.house.as_deref(),
        body,
    })
}

/// An amount of a view.
fn both(amounts: &Both) -> Markup {
    amount(&amounts.us, &amounts.metric)
}

/// Choices of a view as pairs for a list.
fn pairs(choices: &[Choice]) -> Vec<(&str, &str)> {
    choices
        .iter()
        .map(|choice| (choice.key.as_str(), choice.title.as_str()))
        .collect()
}
