//! Harvest plan and kitchen-day timetable as plain data, and the checkers that judge them.

pub mod allocation;
pub mod kitchen_day;
