//! Turns a planning problem into a plan, with a bound.

pub mod allocate;
mod chance;
pub mod effort;
pub mod kitchen_day;

pub use effort::Effort;
