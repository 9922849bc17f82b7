//! Backup and restore of the household's file.

use super::Context;
use crate::output;
use app::error::AppError;
use serde::Serialize;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// What was copied, for JSON.
#[derive(Serialize)]
struct Copied<'a> {
    /// The copy that was made, or restored from.
    copy: &'a Path,
    /// Where the file that stood there is kept, after a restore.
    kept: Option<PathBuf>,
}

/// Copies the household's file while it may be in use, and checks the copy.
pub fn backup(context: &Context, to: &Path) -> Result<ExitCode, AppError> {
    let app = context.open()?;
    app.backup(to)?;
    let done = Copied {
        copy: to,
        kept: None,
    };
    output::show(&done, context.json, |done| {
        format!("Copied to {} and checked.\n", done.copy.display())
    })?;
    Ok(ExitCode::SUCCESS)
}

/// Puts a copy in place of the household's file; the old file is kept beside it.
pub fn restore(context: &Context, from: &Path) -> Result<ExitCode, AppError> {
    let done = Copied {
        copy: from,
        kept: app::restore(from, &context.folder()?)?,
    };
    output::show(&done, context.json, |done| match &done.kept {
        Some(kept) => format!(
            "Restored from {}; the file that stood there is kept as {}.\n",
            done.copy.display(),
            kept.display()
        ),
        None => format!("Restored from {}.\n", done.copy.display()),
    })?;
    Ok(ExitCode::SUCCESS)
}
