//! Batches: the list, one being tried out, one set up, started, finished, its seals checked.

use super::{Asked, Sent, after, asked, fields, number, onward, page, sorry};
use crate::form::{Fields, Filled, batch};
use crate::page;
use crate::page::batch_list::Offers;
use crate::state::Site;
use app::error::{AppError, ErrorKind};
use app::request::Now;
use app::view::batch::{BatchListView, BatchView};
use app::view::house::HouseView;
use app::{App, Done};
use axum::extract::{Path, State};
use axum::response::{IntoResponse, Redirect, Response};

fn offers<'a>(list: &'a BatchListView, house: &'a HouseView) -> Offers<'a> {
    Offers {
        recipes: &list.recipes,
        jars: &house.jars,
        canners: house
            .house
            .canners
            .iter()
            .map(|canner| canner.name.as_str())
            .collect(),
    }
}

/// GET /batch
pub async fn list(State(site): State<Site>, query: Asked) -> Response {
    draw_list(&site, &asked(query), Filled::default()).await
}

async fn draw_list(site: &Site, query: &Fields, filled: Filled) -> Response {
    match site
        .run(|app, now| Ok((app.batches(now)?, app.house(now)?)))
        .await
    {
        Ok((view, house)) => {
            let frame = site.frame(query, filled).await;
            page(
                frame.filled.wrong.as_ref(),
                page::batch_list::draw(&frame, &view, &offers(&view, &house)),
            )
        }
        Err(error) => sorry(site, &error).await,
    }
}

/// GET /load: may these batches share a canner run? Writes nothing.
pub async fn load(State(site): State<Site>, query: Asked) -> Response {
    let fields = asked(query);
    let numbers: Result<Vec<i64>, AppError> = fields
        .all("batch")
        .iter()
        .map(|text| number(text, "batch"))
        .collect();
    let chosen = match numbers {
        Ok(chosen) => chosen,
        Err(error) => return sorry(&site, &error).await,
    };
    let (view, wrong) = match site
        .run(move |app, now| app.load_together(now, &chosen))
        .await
    {
        Ok(view) => (view, None),
        Err(error) => match site.run(|app, now| app.load_together(now, &[])).await {
            Ok(view) => (view, Some(error)),
            Err(error) => return sorry(&site, &error).await,
        },
    };
    let frame = site.frame(&fields, Filled { typed: None, wrong }).await;
    page(frame.filled.wrong.as_ref(), page::load::draw(&frame, &view))
}

/// GET /batch/new: how it would be made; writes nothing.
pub async fn try_out(State(site): State<Site>, query: Asked) -> Response {
    let fields = asked(query);
    if fields.get("recipe").is_empty() {
        return Redirect::to("/batch").into_response();
    }
    draw_trial(&site, fields, None).await
}

async fn draw_trial(site: &Site, fields: Fields, wrong: Option<AppError>) -> Response {
    let request = batch::new(&fields);
    match site
        .run(move |app, now| {
            Ok((
                app.try_batch(now, &request)?,
                app.batches(now)?,
                app.house(now)?,
            ))
        })
        .await
    {
        Ok((view, list, house)) => {
            let frame = site
                .frame(
                    &Fields::default(),
                    Filled {
                        typed: Some(fields),
                        wrong,
                    },
                )
                .await;
            page(
                frame.filled.wrong.as_ref(),
                page::batch::draw(&frame, &view, Some(&offers(&list, &house))),
            )
        }
        Err(error) => {
            let refused = match error.kind {
                ErrorKind::Refused => true,
                ErrorKind::Input => ["recipe", "jar", "canner"].contains(&error.field.as_str()),
                _ => false,
            };
            draw_untried(site, fields, wrong.unwrap_or(error), refused).await
        }
    }
}

/// A recipe that exists and is refused gets its plate; anything else is the list's form again.
async fn draw_untried(site: &Site, fields: Fields, error: AppError, refused: bool) -> Response {
    let recipe = fields.get("recipe").to_owned();
    let lists = site
        .run(|app, now| Ok((app.batches(now)?, app.house(now)?)))
        .await;
    let (list, house) = match lists {
        Ok(lists) => lists,
        Err(error) => return sorry(site, &error).await,
    };
    let plate = refused && list.recipes.iter().any(|choice| choice.key == recipe);
    let filled = Filled {
        typed: Some(fields),
        // On the plate's page the reason stands on the plate, and once is enough.
        wrong: (!plate).then(|| error.clone()),
    };
    let frame = site.frame(&Fields::default(), filled).await;
    let offers = offers(&list, &house);
    let drawn = if plate {
        page::batch_refused::draw(&frame, &offers, &error)
    } else {
        page::batch_list::draw(&frame, &list, &offers)
    };
    page(Some(&error), drawn)
}

/// POST /batch/new
pub async fn set_up(State(site): State<Site>, sent: Sent) -> Response {
    let fields = match fields(sent) {
        Ok(fields) => fields,
        Err(answer) => return answer,
    };
    let request = batch::new(&fields);
    match site.run(move |app, now| app.new_batch(now, &request)).await {
        Ok(done) => {
            let to = done
                .id
                .map_or_else(|| "/batch".to_owned(), |id| format!("/batch/{id}"));
            onward(&site, &fields, &to, &done).await
        }
        Err(error) if error.kind == ErrorKind::Already => after(&fields, "/batch"),
        Err(error) => draw_trial(&site, fields, Some(error)).await,
    }
}

/// GET /batch/{id}
pub async fn show(State(site): State<Site>, Path(id): Path<String>, query: Asked) -> Response {
    draw(&site, &id, &asked(query), Filled::default()).await
}

async fn view(site: &Site, id: &str) -> Result<BatchView, AppError> {
    let id = number(id, "batch")?;
    site.run(move |app, now| app.batch(now, id)).await
}

async fn draw(site: &Site, id: &str, query: &Fields, filled: Filled) -> Response {
    match view(site, id).await {
        Ok(view) => {
            let frame = site.frame(query, filled).await;
            page(
                frame.filled.wrong.as_ref(),
                page::batch::draw(&frame, &view, None),
            )
        }
        Err(error) => sorry(site, &error).await,
    }
}

/// Writes something down on a batch and goes back to its page.
async fn write(
    site: &Site,
    id: &str,
    sent: Sent,
    action: impl FnOnce(&App, &Now, &Fields, i64) -> Result<Done, AppError> + Send + 'static,
) -> Response {
    let fields = match fields(sent) {
        Ok(fields) => fields,
        Err(answer) => return answer,
    };
    let number = match number(id, "batch") {
        Ok(number) => number,
        Err(error) => return sorry(site, &error).await,
    };
    let to = format!("/batch/{number}");
    let typed = fields.clone();
    match site
        .run(move |app, now| action(app, now, &typed, number))
        .await
    {
        Ok(done) => onward(site, &fields, &to, &done).await,
        Err(error) if error.kind == ErrorKind::Already => after(&fields, &to),
        Err(error) => {
            draw(
                site,
                id,
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

/// POST /batch/{id}/start
pub async fn start(State(site): State<Site>, Path(id): Path<String>, sent: Sent) -> Response {
    write(&site, &id, sent, |app, now, fields, id| {
        app.start_batch(now, &batch::start(fields, id))
    })
    .await
}

/// POST /batch/{id}/finish
pub async fn finish(State(site): State<Site>, Path(id): Path<String>, sent: Sent) -> Response {
    write(&site, &id, sent, |app, now, fields, id| {
        app.finish_batch(now, &batch::finish(fields, id))
    })
    .await
}

/// POST /batch/{id}/seals
pub async fn seals(State(site): State<Site>, Path(id): Path<String>, sent: Sent) -> Response {
    write(&site, &id, sent, |app, now, fields, id| {
        app.check_seals(now, &batch::seals(fields, id))
    })
    .await
}

/// POST /batch/{id}/late
pub async fn late(State(site): State<Site>, Path(id): Path<String>, sent: Sent) -> Response {
    write(&site, &id, sent, |app, now, fields, id| {
        app.answer_late(now, &batch::late(fields, id))
    })
    .await
}
