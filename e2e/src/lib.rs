//! What the browser tests stand on: the built program on a fresh folder, a
//! headless Chromium, measuring of pages as they are drawn, and the
//! accessibility checker.
//!
//! Nothing here knows the product's code. What the tests know of the program
//! is what a person sees: addresses, words on labels, words on buttons.

pub mod accessibility;
pub mod browser;
mod driver;
pub mod measure;
pub mod program;

pub use browser::{Browser, Paper, Window};
pub use program::Program;

use std::path::{Path, PathBuf};

/// What a browser test can fail with; tests pass it on with `?`.
pub type Fault = Box<dyn std::error::Error + Send + Sync>;

/// Runs the body of a browser test, and fails it when it takes far longer than
/// it should: a browser that stopped answering must not hold the whole run up.
pub fn in_browser(body: impl Future<Output = Result<(), Fault>>) -> Result<(), Fault> {
    let runtime = tokio::runtime::Builder::new_current_thread()
        .enable_all()
        .build()?;
    runtime.block_on(async {
        match tokio::time::timeout(TEST_LIMIT, body).await {
            Ok(result) => result,
            Err(_) => Err(format!("no end after {} minutes", TEST_LIMIT.as_secs() / 60).into()),
        }
    })
}

/// Far more than the longest test needs on two busy cores.
const TEST_LIMIT: std::time::Duration = std::time::Duration::from_secs(600);

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
