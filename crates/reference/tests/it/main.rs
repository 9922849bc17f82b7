//! Tests of the embedded tables and of the table check.

mod bad_tables;
mod counts;
mod incidents;
