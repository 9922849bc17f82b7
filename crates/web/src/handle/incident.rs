//! Incidents: the kinds, the question, the answer, what was done, the disposal card.

use super::{Asked, Sent, after, asked, fields, number, onward, page, sorry};
use crate::form::{Fields, Filled, ask_incident, settle_incident, state_incident};
use crate::page;
use crate::state::Site;
use app::error::{AppError, ErrorKind};
use app::view::batch::BatchView;
use app::view::incident::{IncidentView, KindLine};
use axum::extract::{Path, State};
use axum::response::Response;

/// GET /incident
pub async fn kinds(State(site): State<Site>, query: Asked) -> Response {
    let query = asked(query);
    let batch = match batch_of(&site, &query).await {
        Ok(batch) => batch,
        Err(error) => return sorry(&site, &error).await,
    };
    let frame = site.frame(&query, Filled::default()).await;
    page(
        None,
        page::incident::kinds(&frame, &app::incident_kinds(), batch.as_ref()),
    )
}

/// GET /incident/disposal
pub async fn disposal(State(site): State<Site>) -> Response {
    match app::disposal() {
        Ok(card) => {
            let frame = site.frame(&Fields::default(), Filled::default()).await;
            page(None, page::incident::disposal(&frame, &card))
        }
        Err(error) => sorry(&site, &error).await,
    }
}

/// The batch an address or a form names, if it names one.
async fn batch_of(site: &Site, fields: &Fields) -> Result<Option<BatchView>, AppError> {
    match fields.get("batch") {
        "" => Ok(None),
        text => {
            let id = number(text, "batch")?;
            site.run(move |app, now| app.batch(now, id)).await.map(Some)
        }
    }
}

fn line_of(kind: &str) -> Result<KindLine, AppError> {
    app::incident_kinds()
        .groups
        .into_iter()
        .flat_map(|group| group.kinds)
        .find(|line| line.kind == kind)
        .ok_or_else(|| {
            AppError::missing(
                "",
                format!("«{kind}» is no kind of incident."),
                "Choose one from the page of incidents.",
            )
        })
}

/// GET /incident/{kind}: the question, and without a batch the answer.
pub async fn ask(State(site): State<Site>, Path(kind): Path<String>, query: Asked) -> Response {
    let query = asked(query);
    let request = ask_incident(&query, &kind);
    let answered = match query.get("batch") {
        "" => {
            site.run(move |_, now| app::ask_incident(now, &request))
                .await
        }
        _ => {
            return draw_question(&site, &kind, query, None, None).await;
        }
    };
    match answered {
        Ok(view) => draw_question(&site, &kind, query, Some(view), None).await,
        Err(error) => draw_question(&site, &kind, query, None, Some(error)).await,
    }
}

async fn draw_question(
    site: &Site,
    kind: &str,
    fields: Fields,
    answer: Option<IncidentView>,
    wrong: Option<AppError>,
) -> Response {
    let line = match line_of(kind) {
        Ok(line) => line,
        Err(error) => return sorry(site, &error).await,
    };
    let batch = match batch_of(site, &fields).await {
        Ok(batch) => batch,
        Err(error) => return sorry(site, &error).await,
    };
    let filled = Filled {
        typed: Some(fields.clone()),
        wrong,
    };
    let frame = site.frame(&fields, filled).await;
    page(
        frame.filled.wrong.as_ref(),
        page::incident::question(&frame, &line, batch.as_ref(), answer.as_ref()),
    )
}

/// POST /incident/{kind}: stated on a batch.
pub async fn state(State(site): State<Site>, Path(kind): Path<String>, sent: Sent) -> Response {
    let fields = match fields(sent) {
        Ok(fields) => fields,
        Err(answer) => return answer,
    };
    let request = state_incident(&fields, &kind);
    let batch = request.batch;
    match site
        .run(move |app, now| app.record_incident(now, &request))
        .await
    {
        Ok(done) => {
            let to = format!("/batch/{batch}/incident/{}", done.entry);
            onward(&site, &fields, &to, &done).await
        }
        Err(error) if error.kind == ErrorKind::Already => {
            after(&fields, &format!("/batch/{batch}"))
        }
        Err(error) => draw_question(&site, &kind, fields, None, Some(error)).await,
    }
}

/// GET /batch/{id}/incident/{entry}
pub async fn of_batch(
    State(site): State<Site>,
    Path((id, entry)): Path<(String, String)>,
    query: Asked,
) -> Response {
    draw_of_batch(&site, &id, &entry, &asked(query), Filled::default()).await
}

async fn draw_of_batch(
    site: &Site,
    id: &str,
    entry: &str,
    query: &Fields,
    filled: Filled,
) -> Response {
    let view = match (number(id, "batch"), number(entry, "incident")) {
        (Ok(id), Ok(entry)) => site.run(move |app, now| app.incident(now, id, entry)).await,
        (Err(error), _) | (_, Err(error)) => Err(error),
    };
    match view {
        Ok(view) => {
            let frame = site.frame(query, filled).await;
            page(
                frame.filled.wrong.as_ref(),
                page::incident::answer(&frame, &view),
            )
        }
        Err(error) => sorry(site, &error).await,
    }
}

/// POST /batch/{id}/incident/{entry}/settle
pub async fn settle(
    State(site): State<Site>,
    Path((id, entry)): Path<(String, String)>,
    sent: Sent,
) -> Response {
    let fields = match fields(sent) {
        Ok(fields) => fields,
        Err(answer) => return answer,
    };
    let (batch, incident) = match (number(&id, "batch"), number(&entry, "incident")) {
        (Ok(batch), Ok(incident)) => (batch, incident),
        (Err(error), _) | (_, Err(error)) => return sorry(&site, &error).await,
    };
    let request = settle_incident(&fields, batch, incident);
    let to = format!("/batch/{batch}/incident/{incident}");
    match site
        .run(move |app, now| app.settle_incident(now, &request))
        .await
    {
        Ok(done) => onward(&site, &fields, &to, &done).await,
        Err(error) if error.kind == ErrorKind::Already => after(&fields, &to),
        Err(error) => {
            let filled = Filled {
                typed: Some(fields),
                wrong: Some(error),
            };
            draw_of_batch(&site, &id, &entry, &Fields::default(), filled).await
        }
    }
}
