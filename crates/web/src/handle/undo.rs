//! What was just done is undone: both stay in the record.

use super::{Sent, after, fields, onward, sorry};
use crate::state::Site;
use app::error::{AppError, ErrorKind};
use app::request::Undo;
use axum::extract::State;
use axum::response::Response;

/// POST /undo
pub async fn undo(State(site): State<Site>, sent: Sent) -> Response {
    let fields = match fields(sent) {
        Ok(fields) => fields,
        Err(answer) => return answer,
    };
    // Back only to a page of our own.
    let back = match fields.get("back") {
        path if path.starts_with('/') && !path.starts_with("//") => path.to_owned(),
        _ => "/counter".to_owned(),
    };
    let Ok(entry) = fields.get("entry").parse::<i64>() else {
        let error = AppError::missing(
            "entry",
            "There is no such entry.",
            "Go on from the Counter.",
        );
        return sorry(&site, &error).await;
    };
    let token = fields.get("token").to_owned();
    let done = site
        .run(move |app, now| {
            app.undo(
                now,
                &Undo {
                    entry: Some(entry),
                    token,
                },
            )
        })
        .await;
    match done {
        Ok(done) => onward(&site, &fields, &back, &done).await,
        Err(error) if error.kind == ErrorKind::Already => after(&fields, &back),
        Err(error) => sorry(&site, &error).await,
    }
}
