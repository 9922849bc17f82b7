//! Paper: what can be printed of a batch, the files themselves, and cards that come back.

use super::{Asked, Sent, after, asked, fields, number, onward, page, sorry};
use crate::form::{Fields, Filled, enter_card, print_labels};
use crate::page;
use crate::state::Site;
use app::App;
use app::error::{AppError, ErrorKind};
use app::request::{Now, PrintCard, PrintLabels};
use app::view::enter::EnterView;
use app::view::printed::Printed;
use axum::extract::{Path, State};
use axum::http::header;
use axum::response::{IntoResponse, Redirect, Response};

/// GET /batch/{id}/print
pub async fn offer(State(site): State<Site>, Path(id): Path<String>, query: Asked) -> Response {
    let offer = match number(&id, "batch") {
        Ok(id) => site.run(move |app, _| app.print_offer(id)).await,
        Err(error) => Err(error),
    };
    match offer {
        Ok(view) => {
            let frame = site.frame(&asked(query), Filled::default()).await;
            page(None, page::paper::offer(&frame, &view))
        }
        Err(error) => sorry(&site, &error).await,
    }
}

/// A file to be shown and printed; its name is one of our own making.
fn file(printed: Printed) -> Response {
    (
        [
            (header::CONTENT_TYPE, "application/pdf".to_owned()),
            (
                header::CONTENT_DISPOSITION,
                format!("inline; filename=\"{}\"", printed.name),
            ),
        ],
        printed.bytes,
    )
        .into_response()
}

async fn of_batch(
    site: &Site,
    id: &str,
    query: Asked,
    print: impl FnOnce(&App, &Now, &PrintLabels) -> Result<Printed, AppError> + Send + 'static,
) -> Response {
    let fields = asked(query);
    let id = match number(id, "batch") {
        Ok(id) => id,
        Err(error) => return sorry(site, &error).await,
    };
    let request = print_labels(&fields, id);
    match site.run(move |app, now| print(app, now, &request)).await {
        Ok(printed) => file(printed),
        Err(error) => sorry(site, &error).await,
    }
}

/// GET /batch/{id}/labels.pdf
pub async fn labels(State(site): State<Site>, Path(id): Path<String>, query: Asked) -> Response {
    of_batch(&site, &id, query, App::print_labels).await
}

/// GET /batch/{id}/gift.pdf
pub async fn gift(State(site): State<Site>, Path(id): Path<String>, query: Asked) -> Response {
    of_batch(&site, &id, query, App::print_gift).await
}

/// GET /batch/{id}/seed.pdf
pub async fn seed(State(site): State<Site>, Path(id): Path<String>, query: Asked) -> Response {
    of_batch(&site, &id, query, App::print_seed).await
}

/// GET /print/outline.pdf
pub async fn outline(State(site): State<Site>, query: Asked) -> Response {
    match app::print_outline(&print_labels(&asked(query), 0)) {
        Ok(printed) => file(printed),
        Err(error) => sorry(&site, &error).await,
    }
}

/// GET /batch/{id}/card.pdf
pub async fn card(State(site): State<Site>, Path(id): Path<String>, query: Asked) -> Response {
    let paper = asked(query).get("paper").to_owned();
    let printed = match number(&id, "batch") {
        Ok(batch) => {
            site.run(move |app, now| app.print_card(now, &PrintCard { batch, paper }))
                .await
        }
        Err(error) => Err(error),
    };
    match printed {
        Ok(printed) => file(printed),
        Err(error) => sorry(&site, &error).await,
    }
}

/// GET /load/card.pdf
pub async fn load_card(State(site): State<Site>, query: Asked) -> Response {
    let fields = asked(query);
    let batches: Result<Vec<i64>, AppError> = fields
        .all("batch")
        .iter()
        .map(|text| number(text, "batch"))
        .collect();
    let paper = fields.get("paper").to_owned();
    let printed = match batches {
        Ok(batches) => {
            site.run(move |app, now| app.print_load_card(now, &batches, &paper))
                .await
        }
        Err(error) => Err(error),
    };
    match printed {
        Ok(printed) => file(printed),
        Err(error) => sorry(&site, &error).await,
    }
}

/// GET /incident/disposal.pdf
pub async fn disposal(State(site): State<Site>, query: Asked) -> Response {
    match app::print_disposal(asked(query).get("paper")) {
        Ok(printed) => file(printed),
        Err(error) => sorry(&site, &error).await,
    }
}

/// GET /jar/{code}: where the square of a label or a card leads.
pub async fn jar(State(site): State<Site>, Path(code): Path<String>) -> Response {
    match site.run(move |app, _| app.batch_of_code(&code)).await {
        Ok(batch) => Redirect::to(&format!("/batch/{batch}")).into_response(),
        Err(error) => {
            let missing = AppError::missing("", error.cause, error.action);
            sorry(&site, &missing).await
        }
    }
}

/// GET /batch/enter: asks for a code, then for the blanks of its card.
pub async fn enter(State(site): State<Site>, query: Asked) -> Response {
    draw_enter(&site, asked(query), None).await
}

async fn draw_enter(site: &Site, fields: Fields, wrong: Option<AppError>) -> Response {
    let code = fields.get("code").to_owned();
    let (view, wrong): (Option<EnterView>, _) = if code.is_empty() {
        (None, wrong)
    } else {
        match site.run(move |app, _| app.card_to_enter(&code)).await {
            Ok(view) => (Some(view), wrong),
            Err(error) => (None, Some(wrong.unwrap_or(error))),
        }
    };
    let filled = Filled {
        typed: Some(fields.clone()),
        wrong: wrong.map(|error| on_form(error, view.as_ref())),
    };
    let frame = site.frame(&fields, filled).await;
    page(
        frame.filled.wrong.as_ref(),
        page::enter::draw(&frame, view.as_ref()),
    )
}

/// An error of a blank, by the name its field has in the form.
fn on_form(mut error: AppError, view: Option<&EnterView>) -> AppError {
    let blank = view.is_some_and(|view| {
        view.parts
            .iter()
            .flat_map(|part| &part.asks)
            .any(|ask| ask.name == error.field)
    });
    if blank {
        error.field = format!("blank.{}", error.field);
    }
    error
}

/// POST /batch/enter
pub async fn entered(State(site): State<Site>, sent: Sent) -> Response {
    let fields = match fields(sent) {
        Ok(fields) => fields,
        Err(answer) => return answer,
    };
    let request = enter_card(&fields);
    match site
        .run(move |app, now| app.enter_card(now, &request))
        .await
    {
        Ok(done) => {
            let to = done
                .id
                .map_or_else(|| "/batch".to_owned(), |id| format!("/batch/{id}"));
            onward(&site, &fields, &to, &done).await
        }
        Err(error) if error.kind == ErrorKind::Already => after(&fields, "/batch"),
        Err(error) => draw_enter(&site, fields, Some(error)).await,
    }
}
