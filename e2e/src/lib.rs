//! What the browser tests stand on: the built program on a fresh folder, a
//! headless Chromium, measuring of pages as they are drawn, and the
//! accessibility checker.
//!
//! Nothing here knows the product's code. What the tests know of the program
//! is what a person sees: addresses, words on labels, words on buttons.

pub mod accessibility;
pub mod browser;
pub mod measure;
pub mod program;

pub use browser::{Browser, Paper, Window};
pub use program::Program;

use std::path::{Path, PathBuf};

/// What a browser test can fail with; tests pass it on with `?`.
pub type Fault = Box<dyn std::error::Error + Send + Sync>;

/// The folder of this workspace.
pub fn here() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// The folder that screenshots go to, for looking at; made when missing.
pub fn shots() -> std::io::Result<PathBuf> {
    let folder = here().join("target").join("shots");
    std::fs::create_dir_all(&folder)?;
    Ok(folder)
}
