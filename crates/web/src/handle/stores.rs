//! The stores and one holding: taken from, counted.

use super::{Asked, Sent, after, asked, fields, onward, page, sorry};
use crate::form::{Fields, Filled, stores};
use crate::page;
use crate::state::Site;
use app::error::{AppError, ErrorKind};
use app::request::Now;
use app::view::stores::{HoldingLine, StoresView};
use app::{App, Done};
use axum::extract::{Path, State};
use axum::response::Response;

/// GET /stores
pub async fn show(State(site): State<Site>, query: Asked) -> Response {
    draw(&site, &asked(query), Filled::default()).await
}

async fn draw(site: &Site, query: &Fields, filled: Filled) -> Response {
    match site
        .run(|app, now| Ok((app.stores(now)?, app::dates::long(now.date))))
        .await
    {
        Ok((view, today)) => {
            let frame = site.frame(query, filled).await;
            page(
                frame.filled.wrong.as_ref(),
                page::stores::draw(&frame, &view, &today),
            )
        }
        Err(error) => sorry(site, &error).await,
    }
}

fn find<'a>(
    view: &'a StoresView,
    place: &str,
    batch: i64,
    size: &str,
) -> Result<&'a HoldingLine, AppError> {
    view.places
        .iter()
        .flat_map(|place| &place.holdings)
        .find(|line| line.place == place && line.batch == batch && line.size == size)
        .ok_or_else(|| {
            AppError::missing(
                "",
                "None of these stand there any more.",
                "The Stores show what is there.",
            )
        })
}

/// GET /stores/{place}/{batch}/{size}
pub async fn show_holding(
    State(site): State<Site>,
    Path((place, batch, size)): Path<(String, String, String)>,
) -> Response {
    let view = match site.run(|app, now| app.stores(now)).await {
        Ok(view) => view,
        Err(error) => return sorry(&site, &error).await,
    };
    match super::number(&batch, "batch").and_then(|batch| find(&view, &place, batch, &size)) {
        Ok(line) => {
            let frame = site.frame(&Fields::default(), Filled::default()).await;
            page(None, page::holding::draw(&frame, &view, line))
        }
        Err(error) => sorry(&site, &error).await,
    }
}

/// Writes something down on a holding. A mistake shows the holding's own page with the form.
async fn write(
    site: &Site,
    sent: Sent,
    action: impl FnOnce(&App, &Now, &Fields) -> Result<Done, AppError> + Send + 'static,
) -> Response {
    let fields = match fields(sent) {
        Ok(fields) => fields,
        Err(answer) => return answer,
    };
    let typed = fields.clone();
    let error = match site.run(move |app, now| action(app, now, &typed)).await {
        Ok(done) => return onward(site, &fields, "/stores", &done).await,
        Err(error) if error.kind == ErrorKind::Already => return after(&fields, "/stores"),
        Err(error) => error,
    };
    let view = match site.run(|app, now| app.stores(now)).await {
        Ok(view) => view,
        Err(_) => return sorry(site, &error).await,
    };
    let (place, batch, size) = (
        fields.get("place").to_owned(),
        fields.number("batch"),
        fields.get("size").to_owned(),
    );
    match find(&view, &place, batch, &size) {
        Ok(line) => {
            let frame = site
                .frame(
                    &Fields::default(),
                    Filled {
                        typed: Some(fields),
                        wrong: Some(error),
                    },
                )
                .await;
            page(
                frame.filled.wrong.as_ref(),
                page::holding::draw(&frame, &view, line),
            )
        }
        Err(_) => sorry(site, &error).await,
    }
}

/// POST /stores/take
pub async fn take(State(site): State<Site>, sent: Sent) -> Response {
    write(&site, sent, |app, now, fields| {
        app.take_containers(now, &stores::take(fields))
    })
    .await
}

/// POST /stores/count
pub async fn count(State(site): State<Site>, sent: Sent) -> Response {
    write(&site, sent, |app, now, fields| {
        app.count_shelf(now, &stores::count(fields))
    })
    .await
}
