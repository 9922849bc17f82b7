//! From the day's batches and the house to a kitchen-day problem, and back to lanes.

pub mod hours;
pub mod problem;
pub mod rest;
