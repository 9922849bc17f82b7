//! Changes to a recipe: asked, never written.

use super::{Asked, asked, page};
use crate::form::{Fields, Filled};
use crate::page;
use crate::state::Site;
use app::change::{AskChange, AskEdit, ask_change};
use app::error::AppError;
use axum::extract::State;
use axum::response::Response;

/// GET /change
pub async fn show(State(site): State<Site>, query: Asked) -> Response {
    let fields = asked(query);
    let mut edits: Vec<AskEdit> = fields
        .all("edit")
        .iter()
        .map(|text| AskEdit::from_text(text))
        .collect();
    let before = edits.len();
    edits.extend(added(&fields));
    let ask = |recipe: &str, edits: &[AskEdit]| {
        ask_change(&AskChange {
            recipe: recipe.to_owned(),
            edits: edits.to_vec(),
            ..AskChange::default()
        })
    };
    let recipe = fields.get("recipe");
    let (view, wrong) = match ask(recipe, &edits) {
        Ok(view) => (view, None),
        Err(error) => {
            // The page stands with what was understood before, and says what was not.
            edits.truncate(before);
            let understood = ask(recipe, &edits).or_else(|_| {
                edits.clear();
                ask(recipe, &edits)
            });
            match understood.or_else(|_| ask("", &[])) {
                Ok(view) => (view, Some(of_form(error))),
                Err(error) => return super::sorry(&site, &error).await,
            }
        }
    };
    let typed = wrong.is_some().then(|| fields.clone());
    let frame = site.frame(&fields, Filled { typed, wrong }).await;
    page(
        frame.filled.wrong.as_ref(),
        page::change::draw(&frame, &view, &edits),
    )
}

/// The change that a form adds, if one was sent.
fn added(fields: &Fields) -> Option<AskEdit> {
    let get = |name: &str| fields.get(name).to_owned();
    let edit = AskEdit {
        line: get("new.line"),
        amount: get("new.amount"),
        with: get("new.with"),
        to: get("new.to"),
        diluted: !get("new.diluted").is_empty(),
        ..AskEdit::default()
    };
    match fields.get("new.form") {
        "line" => {
            let kind = get("new.kind");
            Some(match kind.as_str() {
                // A word for something else says a swap, whatever was chosen above it.
                "amount" if !edit.with.is_empty() => AskEdit {
                    kind: "swap".to_owned(),
                    ..edit
                },
                "leave-out" => AskEdit {
                    kind,
                    line: edit.line,
                    ..AskEdit::default()
                },
                _ => AskEdit { kind, ..edit },
            })
        }
        "way" => {
            let way = get("new.way");
            let (kind, to) = way.split_once('=').unwrap_or((&way, ""));
            Some(AskEdit {
                kind: kind.to_owned(),
                to: to.to_owned(),
                ..AskEdit::default()
            })
        }
        form @ ("add" | "vinegar" | "scale") => Some(AskEdit {
            kind: form.to_owned(),
            ..edit
        }),
        _ => None,
    }
}

/// The error at the form's own field: `edits.3.amount` was typed as `new.amount`.
fn of_form(mut error: AppError) -> AppError {
    if let Some(name) = error
        .field
        .strip_prefix("edits.")
        .and_then(|rest| rest.split('.').nth(1))
    {
        error.field = match name {
            "ingredient" | "with" => "new.with".to_owned(),
            "times" => "new.to".to_owned(),
            other => format!("new.{other}"),
        };
    }
    error
}
