//! The kitchen day: shown, laid out.

use super::{Asked, Sent, after, asked, fields, onward, page, sorry};
use crate::form::{Fields, Filled};
use crate::page;
use crate::state::Site;
use app::Done;
use app::error::ErrorKind;
use axum::extract::State;
use axum::response::Response;

/// How long a page waits for a timetable.
const MILLISECONDS: u64 = 1000;

/// GET /day
pub async fn show(State(site): State<Site>, query: Asked) -> Response {
    draw(&site, &asked(query), Filled::default()).await
}

async fn draw(site: &Site, query: &Fields, filled: Filled) -> Response {
    let date = Some(query.get("date").to_owned()).filter(|date| !date.is_empty());
    let seen = site
        .run(move |app, now| {
            let view = app.day(now, date.as_deref())?;
            let today = (view.date == now.date.to_string()).then_some(now.minute);
            Ok((view, today))
        })
        .await;
    match seen {
        Ok((view, today)) => {
            let frame = site.frame(query, filled).await;
            page(
                frame.filled.wrong.as_ref(),
                page::day::draw(&frame, &view, today),
            )
        }
        Err(error) => sorry(site, &error).await,
    }
}

/// POST /day
pub async fn make(State(site): State<Site>, sent: Sent) -> Response {
    let fields = match fields(sent) {
        Ok(fields) => fields,
        Err(answer) => return answer,
    };
    let date = Some(fields.get("date").to_owned()).filter(|date| !date.is_empty());
    let made = site
        .run(move |app, now| app.make_day(now, date.as_deref(), 1, Some(MILLISECONDS)))
        .await;
    // Only a date goes into an address.
    let day: String = fields
        .get("date")
        .chars()
        .filter(|letter| letter.is_ascii_digit() || *letter == '-')
        .collect();
    let to = if day.is_empty() {
        "/day".to_owned()
    } else {
        format!("/day?date={day}")
    };
    match made {
        // A day that cannot be done is written nowhere: it is shown at once, with what clashes.
        Ok(view) if view.steps.is_empty() => {
            let frame = site.frame(&Fields::default(), Filled::default()).await;
            page(None, page::day::draw(&frame, &view, None))
        }
        Ok(view) => {
            onward(
                &site,
                &fields,
                &to,
                &Done {
                    entry: 0,
                    id: None,
                    words: view.answer,
                },
            )
            .await
        }
        Err(error) if error.kind == ErrorKind::Already => after(&fields, &to),
        Err(error) => {
            draw(
                &site,
                &fields.clone(),
                Filled {
                    typed: Some(fields),
                    wrong: Some(error),
                },
            )
            .await
        }
    }
}
