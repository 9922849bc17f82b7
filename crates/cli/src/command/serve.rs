//! Serving the pages on this machine.

use super::Context;
use crate::arguments::ServeArguments;
use crate::{clock, output};
use app::App;
use app::error::AppError;
use std::process::ExitCode;
use std::sync::Arc;

/// Serves the household's pages until the program is stopped.
pub fn run(context: &Context, arguments: &ServeArguments) -> Result<ExitCode, AppError> {
    let app = Arc::new(context.open()?);
    pages(context, app, arguments.port)
}

/// Serves pages over an opened household, with a copy of its file made once a day.
pub fn pages(context: &Context, app: Arc<App>, port: u16) -> Result<ExitCode, AppError> {
    let fixed = context.date_given.then(|| context.now.clone());
    let time_fixed = context.time_given;
    let started = std::time::Instant::now();
    let who = context.now.who.clone();
    let clock: web::Clock = Arc::new(move || match &fixed {
        None => clock::now(None, None, &who)
            .unwrap_or_else(|_| clock::at(jiff::civil::Date::ZERO, jiff::civil::Time::MIN, "")),
        Some(now) => {
            let mut now = now.clone();
            if !time_fixed {
                return clock::now(Some(&now.date.to_string()), None, &who).unwrap_or(now);
            }
            now.minute += i64::try_from(started.elapsed().as_secs() / 60).unwrap_or(0);
            now
        }
    });
    let keeper = Arc::clone(&app);
    let today = Arc::clone(&clock);
    // The copy is made on a thread of its own: a page never waits for it.
    std::thread::spawn(move || {
        loop {
            if let Err(error) = keeper.backup_daily(&today()) {
                eprintln!("stillroom: no daily copy: {error}");
            }
            std::thread::sleep(std::time::Duration::from_secs(3600));
        }
    });
    web::serve(app, clock, port, |address| {
        // A closed output does not stop the server.
        let _ = output::print(&format!("listening on http://{address}/\n"));
    })
    .map_err(|error| {
        AppError::failed(
            format!("The pages cannot be served on port {port}: {error}."),
            "Another program may hold the port: choose another with `--port`, or 0 for a free one.",
        )
    })?;
    Ok(ExitCode::SUCCESS)
}
