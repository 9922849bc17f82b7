//! The pages as they are sent: one binary for all integration tests.

mod change;
mod forms;
mod guards;
mod html;
mod incidents;
mod pages;
mod paper;
mod pieces;
mod process;
mod recipe;
mod serving;
mod site;
