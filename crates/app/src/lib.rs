//! One function per household action, and the read models that pages and commands show.
//!
//! This is the only place where the store meets the rules. An action reads facts, passes them
//! with the date it was given to the pure deciding crates, and appends what came of it in one
//! transaction. Nothing here reads a clock or a random source.

pub mod error;
pub mod house;
pub mod house_fields;
pub mod request;
pub mod view;
