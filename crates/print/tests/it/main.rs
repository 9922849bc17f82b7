//! What is printed, measured on the pages themselves.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on should stop")]

mod cards;
mod codes;
mod page;
mod sheets;
mod squares;
