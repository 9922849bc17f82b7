//! The look-up of the printed tables.

use super::{Asked, asked, page};
use crate::form::{Filled, process};
use crate::page;
use crate::state::Site;
use app::request::AskProcess;
use axum::extract::State;
use axum::response::Response;

/// GET /process
pub async fn show(State(site): State<Site>, query: Asked) -> Response {
    let fields = asked(query);
    let question = process::read(&fields);
    let tried = question.clone();
    let (view, wrong) = match site.run(move |app, now| app.process(now, &tried)).await {
        Ok(view) => (view, None),
        // The page stands without an answer, and says what was wrong with the question.
        Err(error) => {
            let nothing = AskProcess::default();
            match site.run(move |app, now| app.process(now, &nothing)).await {
                Ok(mut view) => {
                    view.asked.food.clone_from(&question.food);
                    view.asked.elevation.clone_from(&question.elevation);
                    (view, Some(error))
                }
                Err(error) => return super::sorry(&site, &error).await,
            }
        }
    };
    let suggestions = match &wrong {
        Some(error) if error.field == "food" => app::suggested_foods(&question.food),
        _ => Vec::new(),
    };
    let frame = site.frame(&fields, Filled { typed: None, wrong }).await;
    page(
        frame.filled.wrong.as_ref(),
        page::process::draw(&frame, &view, &suggestions),
    )
}
