//! The house: shown, written down.

use super::{Asked, Sent, after, asked, fields, onward, page, sorry};
use crate::form::{Fields, Filled, house};
use crate::page;
use crate::state::Site;
use app::error::ErrorKind;
use axum::extract::State;
use axum::response::Response;

/// GET /house
pub async fn show(State(site): State<Site>, query: Asked) -> Response {
    draw(&site, &asked(query), Filled::default()).await
}

async fn draw(site: &Site, query: &Fields, filled: Filled) -> Response {
    match site.run(|app, now| app.house(now)).await {
        Ok(view) => {
            let frame = site.frame(query, filled).await;
            page(
                frame.filled.wrong.as_ref(),
                page::house::draw(&frame, &view),
            )
        }
        Err(error) => sorry(site, &error).await,
    }
}

/// POST /house
pub async fn set(State(site): State<Site>, sent: Sent) -> Response {
    let fields = match fields(sent) {
        Ok(fields) => fields,
        Err(answer) => return answer,
    };
    let token = fields.get("token").to_owned();
    let typed = fields.clone();
    match site
        .run(move |app, now| app.set_house(now, house::read(&typed)?, &token))
        .await
    {
        Ok(done) => onward(&site, &fields, "/house", &done).await,
        Err(error) if error.kind == ErrorKind::Already => after(&fields, "/house"),
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
