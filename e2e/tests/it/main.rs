//! Browser tests: one binary, found by its folder.

mod measuring;
mod pages;
mod still_page;
