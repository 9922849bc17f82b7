//! The invariants over the household's file, or the checks over a folder of printed tables.

use super::Context;
use crate::arguments::CheckArguments;
use crate::output;
use app::error::AppError;
use std::collections::BTreeMap;
use std::path::Path;
use std::process::ExitCode;

/// Runs the checks; the exit code says whether everything holds.
pub fn run(context: &Context, arguments: &CheckArguments) -> Result<ExitCode, AppError> {
    if let Some(folder) = &arguments.tables {
        return tables(context, folder);
    }
    let view = context
        .open()?
        .check(&context.now, arguments.only.as_deref())?;
    output::show(&view, context.json, |view| {
        let mut out = String::new();
        for line in &view.invariants {
            let word = if line.broken.is_empty() {
                "holds"
            } else {
                "BROKEN"
            };
            out.push_str(&format!(
                "{word:<6} {:<28} {:>5} rows  {}\n",
                line.name, line.examined, line.says
            ));
            for row in &line.broken {
                out.push_str(&format!("         {row}\n"));
            }
        }
        out.push_str(&output::balance(&view.balance));
        out
    })?;
    Ok(if view.holds {
        ExitCode::SUCCESS
    } else {
        ExitCode::from(1)
    })
}

fn tables(context: &Context, folder: &Path) -> Result<ExitCode, AppError> {
    let mut files = BTreeMap::new();
    read_tables(folder, "", &mut files)?;
    let problems = app::check_tables(&files);
    output::show(&problems, context.json, |problems| {
        if problems.is_empty() {
            "The tables hold.\n".to_owned()
        } else {
            problems
                .iter()
                .map(|problem| format!("{problem}\n"))
                .collect()
        }
    })?;
    Ok(if problems.is_empty() {
        ExitCode::SUCCESS
    } else {
        ExitCode::from(1)
    })
}

/// Reads every CSV file under a folder, named by its path below it.
fn read_tables(
    folder: &Path,
    below: &str,
    files: &mut BTreeMap<String, Vec<u8>>,
) -> Result<(), AppError> {
    let wrong = |error: std::io::Error| {
        AppError::input(
            "tables",
            format!("{} cannot be read: {error}.", folder.display()),
            "Name a folder laid out like the program's own data folder.",
        )
    };
    for entry in std::fs::read_dir(folder).map_err(wrong)? {
        let entry = entry.map_err(wrong)?;
        let name = format!("{below}{}", entry.file_name().to_string_lossy());
        if entry.path().is_dir() {
            read_tables(&entry.path(), &format!("{name}/"), files)?;
        } else if name.ends_with(".csv") {
            files.insert(name, std::fs::read(entry.path()).map_err(wrong)?);
        }
    }
    Ok(())
}
