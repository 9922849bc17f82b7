//! One module for each page: form or address in, an action or a view, page or redirect out.

pub mod batch;
pub mod change;
pub mod counter;
pub mod day;
pub mod house;
pub mod incident;
pub mod paper;
pub mod plan;
pub mod process;
pub mod recipe;
pub mod stores;
pub mod undo;

use crate::form::{Fields, Filled};
use crate::page::message;
use crate::server::plain_page;
use crate::state::Site;
use app::Done;
use app::error::{AppError, ErrorKind};
use axum::Form;
use axum::extract::Query;
use axum::extract::rejection::{FormRejection, QueryRejection};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use maud::Markup;

/// A form as it came, or why it could not be read.
pub type Sent = Result<Form<Vec<(String, String)>>, FormRejection>;

/// The question part of an address as it came.
pub type Asked = Result<Query<Vec<(String, String)>>, QueryRejection>;

/// The fields of a sent form.
#[expect(
    clippy::result_large_err,
    reason = "the error is the answer that is sent"
)]
fn fields(sent: Sent) -> Result<Fields, Response> {
    match sent {
        Ok(Form(list)) => Ok(Fields(list)),
        Err(rejection) => Err(plain_page(
            rejection.status(),
            "What was sent cannot be read as this page's form.",
            "Open the page and send its form.",
        )),
    }
}

/// The fields of an address; one that cannot be read asks nothing.
fn asked(asked: Asked) -> Fields {
    asked.map(|Query(list)| Fields(list)).unwrap_or_default()
}

/// The HTTP status of an error.
fn status(error: &AppError) -> StatusCode {
    match error.kind {
        ErrorKind::Input | ErrorKind::Refused => StatusCode::UNPROCESSABLE_ENTITY,
        ErrorKind::Missing => StatusCode::NOT_FOUND,
        ErrorKind::Already => StatusCode::CONFLICT,
        ErrorKind::Failed => StatusCode::INTERNAL_SERVER_ERROR,
    }
}

/// A page with the status its form's error asks for.
fn page(filled_error: Option<&AppError>, markup: Markup) -> Response {
    let code = filled_error.map_or(StatusCode::OK, status);
    (code, markup).into_response()
}

/// A page that only says what went wrong: when the view itself could not be had.
async fn sorry(site: &Site, error: &AppError) -> Response {
    let frame = site.frame(&Fields::default(), Filled::default()).await;
    (
        status(error),
        message::draw(&frame, &error.cause, &error.action),
    )
        .into_response()
}

/// To the page after something was done, which says what.
async fn onward(site: &Site, fields: &Fields, to: &str, done: &Done) -> Response {
    let entry = done.entry;
    let can = site.run(move |app, _| app.can_be_undone(entry)).await;
    let undo = can.unwrap_or(false).then(|| (entry, to.to_owned()));
    site.say(fields.get("token"), &done.words, undo);
    after(fields, to)
}

/// The same page again for a form that was sent twice: it says what the first sending did.
fn after(fields: &Fields, to: &str) -> Response {
    let token = fields.get("token");
    // Only a token of our own making goes into an address.
    let ours = !token.is_empty()
        && token.len() < 80
        && token
            .chars()
            .all(|letter| letter.is_ascii_hexdigit() || letter == '-');
    let address = match (ours, to.contains('?')) {
        (false, _) => to.to_owned(),
        (true, false) => format!("{to}?said={token}"),
        (true, true) => format!("{to}&said={token}"),
    };
    Redirect::to(&address).into_response()
}

/// A number in an address.
fn number(text: &str, what: &str) -> Result<i64, AppError> {
    text.parse().map_err(|_| {
        AppError::missing(
            "",
            format!("There is no {what} «{text}»."),
            "Go back to the list and open one from there.",
        )
    })
}

#[cfg(test)]
mod tests {
    use super::{after, number};
    use crate::form::Fields;
    use axum::http::header;

    #[test]
    fn a_foreign_token_never_reaches_an_address() {
        let to = |token: &str| {
            let response = after(&Fields(vec![("token".into(), token.into())]), "/plan");
            response.headers()[header::LOCATION]
                .to_str()
                .map(str::to_owned)
                .unwrap_or_default()
        };
        assert_eq!(to("00ff-3"), "/plan?said=00ff-3");
        assert_eq!(to("x\r\nSet-Cookie: a"), "/plan");
        assert_eq!(to("a&b"), "/plan");
        assert_eq!(to(""), "/plan");
    }

    #[test]
    fn a_word_is_no_batch_number() {
        assert!(number("12", "batch").is_ok_and(|id| id == 12));
        assert!(number("twelve", "batch").is_err_and(|error| error.cause.contains("twelve")));
    }
}
