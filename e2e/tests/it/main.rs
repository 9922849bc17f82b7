//! Browser tests: one binary, found by its folder.

mod errors;
mod measuring;
mod pages;
mod still_page;
mod three_taps;
mod whole_way;
