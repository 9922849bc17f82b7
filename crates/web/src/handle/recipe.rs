//! The household's own recipes: the list, the dry run of a pasted text, keeping, one recipe.

use super::{Asked, Sent, after, asked, fields, onward, page, sorry};
use crate::form::{Fields, Filled, keep_recipe, read_recipe};
use crate::page;
use crate::state::Site;
use app::error::{AppError, ErrorKind};
use app::view::recipe::RecipeView;
use axum::extract::{Path, State};
use axum::response::Response;

/// GET /recipe
pub async fn list(State(site): State<Site>, query: Asked) -> Response {
    draw(&site, &asked(query), None, Filled::default()).await
}

async fn draw(site: &Site, query: &Fields, read: Option<RecipeView>, filled: Filled) -> Response {
    match site.run(move |app, now| app.household_recipes(now)).await {
        Ok(view) => {
            let frame = site.frame(query, filled).await;
            page(
                frame.filled.wrong.as_ref(),
                page::recipe::list(&frame, &view, read.as_ref()),
            )
        }
        Err(error) => sorry(site, &error).await,
    }
}

/// POST /recipe: the dry run, or, where «keep» was pressed and nothing is open, the keeping.
pub async fn send(State(site): State<Site>, sent: Sent) -> Response {
    let fields = match fields(sent) {
        Ok(fields) => fields,
        Err(answer) => return answer,
    };
    let mut wrong = None;
    if fields.get("act") == "keep" {
        let request = keep_recipe(&fields);
        let kept = site
            .run(move |app, now| {
                let done = app.keep_recipe(now, &request)?;
                let key = app.recipe_key_of(done.entry)?;
                Ok::<_, AppError>((done, key))
            })
            .await;
        match kept {
            Ok((done, key)) => {
                return onward(&site, &fields, &format!("/recipe/{key}"), &done).await;
            }
            Err(error) if error.kind == ErrorKind::Already => return after(&fields, "/recipe"),
            Err(error) => wrong = Some(error),
        }
    }
    let request = read_recipe(&fields);
    let read = match app::read_recipe(&request) {
        Ok(view) => Some(view),
        Err(error) => {
            wrong = wrong.or(Some(error));
            None
        }
    };
    let filled = Filled {
        typed: Some(fields),
        wrong,
    };
    draw(&site, &Fields::default(), read, filled).await
}

/// GET /recipe/{key}
pub async fn show(State(site): State<Site>, Path(key): Path<String>, query: Asked) -> Response {
    match site
        .run(move |app, now| app.household_recipe(now, &key))
        .await
    {
        Ok(view) => {
            let frame = site.frame(&asked(query), Filled::default()).await;
            page(None, page::recipe::one(&frame, &view))
        }
        Err(error) => sorry(&site, &error).await,
    }
}
