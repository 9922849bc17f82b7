//! The invented household: set up in a folder of its own, printed, and served.

use super::{Context, serve};
use crate::arguments::DemoArguments;
use crate::{clock, output};
use app::App;
use app::error::AppError;
use std::process::ExitCode;
use std::sync::Arc;

/// Plays the invented household, prints its day and serves its pages.
pub fn run(context: &Context, arguments: &DemoArguments) -> Result<ExitCode, AppError> {
    let folder = context
        .data
        .clone()
        .unwrap_or_else(|| "demo-household".into());
    let app = App::open_folder(&folder)?;
    let now = app.play_demo()?;
    let mut text = format!(
        "An invented household, in {} (delete the folder to start afresh).\n\n",
        folder.display()
    );
    text.push_str(&output::counter(&app.counter(&now)?));
    text.push('\n');
    text.push_str(&output::plan(&app.plan(&now)?));
    text.push('\n');
    let list = app.batches(&now)?;
    for line in list.batches.iter().filter(|line| line.state == "planned") {
        let batch = app.batch(&now, line.id)?;
        text.push_str(&format!(
            "Batch #{} {}: {}\n",
            line.id, batch.title, batch.answer
        ));
    }
    text.push('\n');
    text.push_str(&output::day(&app.day(&now, None)?));
    text.push('\n');
    text.push_str(&output::stores(&app.stores(&now)?));
    output::print(&text)?;
    if arguments.once {
        return Ok(ExitCode::SUCCESS);
    }
    let day = now.date;
    let served = Context {
        data: Some(folder),
        json: false,
        now: clock::at(day, jiff::civil::Time::constant(7, 30, 0, 0), "demo"),
        date_given: true,
        time_given: true,
    };
    serve::pages(&served, Arc::new(app), arguments.port)
}
