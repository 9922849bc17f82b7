//! The stillroom program.
fn main() {}
