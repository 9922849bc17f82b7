//! Lots from the crop's name to where they may go.
#![allow(clippy::unwrap_used, reason = "a test may fail loudly")]

mod feeding;
mod history;
mod keeping;
mod names;
mod routes;
mod weigh;
