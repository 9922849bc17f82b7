//! The Counter, the picking form, and one lot.

use super::{Asked, Sent, after, asked, fields, number, onward, page, sorry};
use crate::form::{Fields, Filled, lot, picking};
use crate::page;
use crate::state::Site;
use app::error::{AppError, ErrorKind};
use app::view::counter::{CounterView, LotView};
use axum::extract::{Path, State};
use axum::response::Response;

/// GET /counter
pub async fn show(State(site): State<Site>, query: Asked) -> Response {
    draw(&site, &asked(query), Filled::default()).await
}

async fn draw(site: &Site, query: &Fields, filled: Filled) -> Response {
    match site
        .run(|app, now| Ok((app.counter(now)?, now.minute)))
        .await
    {
        Ok((view, minute)) => {
            let frame = site.frame(query, filled).await;
            page(
                frame.filled.wrong.as_ref(),
                page::counter::draw(&frame, &view, minute),
            )
        }
        Err(error) => sorry(site, &error).await,
    }
}

/// POST /counter
pub async fn weigh_in(State(site): State<Site>, sent: Sent) -> Response {
    let fields = match fields(sent) {
        Ok(fields) => fields,
        Err(answer) => return answer,
    };
    let request = picking::read(&fields);
    match site
        .run(move |app, now| app.record_picking(now, &request))
        .await
    {
        Ok(done) => onward(&site, &fields, "/counter", &done).await,
        Err(error) if error.kind == ErrorKind::Already => after(&fields, "/counter"),
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

fn find(view: &CounterView, id: i64) -> Result<&LotView, AppError> {
    view.lots.iter().find(|lot| lot.id == id).ok_or_else(|| {
        AppError::missing(
            "lot",
            format!("Lot {id} does not lie on the counter."),
            "It may be used up. The Counter shows what is there.",
        )
    })
}

/// GET /counter/{lot}
pub async fn show_lot(State(site): State<Site>, Path(lot): Path<String>, query: Asked) -> Response {
    draw_lot(&site, &lot, &asked(query), Filled::default()).await
}

async fn draw_lot(site: &Site, lot: &str, query: &Fields, filled: Filled) -> Response {
    let view = match site.run(|app, now| app.counter(now)).await {
        Ok(view) => view,
        Err(error) => return sorry(site, &error).await,
    };
    match number(lot, "lot").and_then(|id| find(&view, id)) {
        Ok(line) => {
            let frame = site.frame(query, filled).await;
            page(
                frame.filled.wrong.as_ref(),
                page::lot::draw(&frame, &view, line),
            )
        }
        Err(error) => sorry(site, &error).await,
    }
}

/// POST /counter/{lot}/state
pub async fn state_lot(State(site): State<Site>, Path(lot): Path<String>, sent: Sent) -> Response {
    let fields = match fields(sent) {
        Ok(fields) => fields,
        Err(answer) => return answer,
    };
    let id = match number(&lot, "lot") {
        Ok(id) => id,
        Err(error) => return sorry(&site, &error).await,
    };
    let typed = fields.clone();
    let result = site
        .run(move |app, now| {
            let view = app.counter(now)?;
            let statements = lot::statements(&typed, find(&view, id)?);
            let mut last: Option<app::Done> = None;
            for statement in &statements {
                match app.state_lot(now, statement) {
                    // Every answer is said back, not only the last.
                    Ok(mut done) => {
                        if let Some(before) = last {
                            let new = done.words.split_once(": ").map_or("", |(_, new)| new);
                            done.words = format!("{} {new}", before.words);
                        }
                        last = Some(done);
                    }
                    // A second sending finds some of its statements written already.
                    Err(error) if error.kind == ErrorKind::Already => {}
                    Err(error) => return Err(error),
                }
            }
            Ok(last)
        })
        .await;
    let to = format!("/counter/{id}");
    match result {
        Ok(Some(done)) => onward(&site, &fields, &to, &done).await,
        Ok(None) => after(&fields, &to),
        Err(error) => {
            draw_lot(
                &site,
                &lot,
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

/// POST /counter/{lot}/sort-out
pub async fn sort_out(State(site): State<Site>, Path(lot): Path<String>, sent: Sent) -> Response {
    let fields = match fields(sent) {
        Ok(fields) => fields,
        Err(answer) => return answer,
    };
    let id = match number(&lot, "lot") {
        Ok(id) => id,
        Err(error) => return sorry(&site, &error).await,
    };
    let request = lot::sort_out(&fields, id);
    // The lot may be gone after this, so the Counter says what was done.
    match site.run(move |app, now| app.sort_out(now, &request)).await {
        Ok(done) => onward(&site, &fields, "/counter", &done).await,
        Err(error) if error.kind == ErrorKind::Already => after(&fields, "/counter"),
        Err(error) => {
            draw_lot(
                &site,
                &lot,
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
