//! The harvest plan: shown, made, accepted.

use super::{Asked, Sent, after, asked, fields, onward, page, sorry};
use crate::form::{Fields, Filled};
use crate::page;
use crate::state::Site;
use app::error::{AppError, ErrorKind};
use app::request::MakePlan;
use axum::extract::State;
use axum::response::{IntoResponse, Redirect, Response};

/// How long a page waits for a plan.
const MILLISECONDS: u64 = 1000;

/// GET /plan
pub async fn show(State(site): State<Site>, query: Asked) -> Response {
    draw(&site, &asked(query), Filled::default()).await
}

async fn draw(site: &Site, query: &Fields, filled: Filled) -> Response {
    match site
        .run(|app, now| Ok((app.plan(now)?, now.date.to_string())))
        .await
    {
        Ok((view, date)) => {
            let frame = site.frame(query, filled).await;
            page(
                frame.filled.wrong.as_ref(),
                page::plan::draw(&frame, &view, &date),
            )
        }
        Err(error) => sorry(site, &error).await,
    }
}

/// POST /plan: makes a proposal, which is shown until it is accepted or another is made.
pub async fn make(State(site): State<Site>, sent: Sent) -> Response {
    let fields = match fields(sent) {
        Ok(fields) => fields,
        Err(answer) => return answer,
    };
    let days = match fields.get("days") {
        "" => 0,
        text => match text.parse() {
            Ok(days) => days,
            Err(_) => {
                let wrong = AppError::input(
                    "days",
                    format!("«{text}» is no number of days."),
                    "Choose one of the spans.",
                );
                return draw(
                    &site,
                    &Fields::default(),
                    Filled {
                        typed: Some(fields),
                        wrong: Some(wrong),
                    },
                )
                .await;
            }
        },
    };
    let request = MakePlan {
        days,
        seed: 1,
        iterations: None,
        milliseconds: Some(MILLISECONDS),
    };
    match site.run(move |app, now| app.make_plan(now, &request)).await {
        Ok(_) => Redirect::to("/plan").into_response(),
        Err(error) => {
            draw(
                &site,
                &Fields::default(),
                Filled {
                    typed: Some(fields),
                    wrong: Some(error),
                },
            )
            .await
        }
    }
}

/// POST /plan/accept
pub async fn accept(State(site): State<Site>, sent: Sent) -> Response {
    let fields = match fields(sent) {
        Ok(fields) => fields,
        Err(answer) => return answer,
    };
    let token = fields.get("token").to_owned();
    match site.run(move |app, now| app.accept_plan(now, &token)).await {
        Ok(done) => onward(&site, &fields, "/plan", &done).await,
        Err(error) if error.kind == ErrorKind::Already => after(&fields, "/plan"),
        Err(error) => {
            draw(
                &site,
                &Fields::default(),
                Filled {
                    typed: Some(fields),
                    wrong: Some(error),
                },
            )
            .await
        }
    }
}
