//! Turns a planning problem into a plan, with a bound.

mod chance;
pub mod effort;

pub use effort::Effort;
