//! The program from outside: its commands on real folders, what they print, refuse and leave behind.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on should stop")]

mod backup;
mod bad_input;
mod batch_ticks;
mod demo;
mod first_day;
mod household;
mod incidents;
mod invariants;
mod json;
mod load;
mod loopback;
mod paper;
mod process;
mod process_table;
mod recipe_check;
mod recipe_text;
mod second_reader;
mod served;
mod tables;
