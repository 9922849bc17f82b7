//! Integration tests of the checkers.

mod allocation;
