//! Backup and restore of the household's file.

use super::Context;
use crate::output;
use app::error::AppError;
use std::path::Path;
use std::process::ExitCode;

/// Copies the household's file while it may be in use, and checks the copy.
pub fn backup(context: &Context, to: &Path) -> Result<ExitCode, AppError> {
    let app = context.open()?;
    app.backup(to)?;
    output::print(&format!("Copied to {} and checked.\n", to.display()))?;
    Ok(ExitCode::SUCCESS)
}

/// Puts a copy in place of the household's file; the old file is kept beside it.
pub fn restore(context: &Context, from: &Path) -> Result<ExitCode, AppError> {
    let kept = app::restore(from, &context.folder()?)?;
    output::print(&match kept {
        Some(kept) => format!(
            "Restored from {}; the file that stood there is kept as {}.\n",
            from.display(),
            kept.display()
        ),
        None => format!("Restored from {}.\n", from.display()),
    })?;
    Ok(ExitCode::SUCCESS)
}
