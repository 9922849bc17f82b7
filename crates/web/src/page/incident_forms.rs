//! The forms about incidents: when and which jars, what was done, a tick answered later.

use crate::frame::Frame;
use crate::part::field::{Field, hidden, send};
use crate::part::{Mark, spread};
use app::view::batch::{BatchView, TickLine};
use app::view::incident::{IncidentView, KindLine};
use maud::{Markup, html};

const YES_NO: [(&str, &str); 2] = [("yes", "yes"), ("no", "no")];

fn field<'a>(frame: &'a Frame, name: &'a str, label: &'a str, hint: &'a str) -> Field<'a> {
    Field {
        name,
        label,
        hint,
        value: frame.filled.value(name, ""),
        wrong: frame.filled.wrong(name),
        ..Field::default()
    }
}

/// What has to be known of an incident. With a batch it is stated, without one only asked.
pub fn question(frame: &Frame, line: &KindLine, batch: Option<&BatchView>) -> Markup {
    let address = format!("/incident/{}", line.kind);
    let method = if batch.is_some() { "post" } else { "get" };
    spread(
        "What is known",
        html! { p { "The clock runs from the minute the jars were lifted. Left empty, the time counts as over." } },
        html! {
            form.form #question autocomplete="off" method=(method) action=(address) {
                @if let Some(id) = batch.and_then(|batch| batch.id) { (frame.token()) (hidden("batch", id)) }
                @if line.in_canner {
                    (field(frame, "in_canner", "Still in the canner, and the heat can be brought back", "").list(&YES_NO, Some("not known")))
                }
                (field(frame, "lifted_day", "Jars lifted on", "today when only a time is given").date())
                (field(frame, "lifted", "at", "").time())
                @if line.asks_process && batch.is_none() {
                    (field(frame, "process", "Was the process otherwise right, in every point?", "").list(&YES_NO, Some("not known")))
                }
                @if line.asks_sealed { (field(frame, "sealed", "Are the lids still down?", "").list(&YES_NO, Some("nobody has looked"))) }
                @if batch.is_some() {
                    (field(frame, "count", "How many jars", "those concerned; all of the batch where its process was wrong").text("numeric"))
                    div.all { (field(frame, "note", "Note", "").text("text")) }
                }
                div.row { (send(if batch.is_some() { "Write it down and show the answer" } else { "Show the answer" }, true)) }
            }
        },
    )
}

/// What can be written down as done with the jars of an incident.
pub fn settle(frame: &Frame, view: &IncidentView) -> Markup {
    let (Some(batch), Some(entry), false) = (view.batch, view.entry, view.settle.is_empty()) else {
        return html! {};
    };
    let ways: Vec<(&str, &str)> = view
        .settle
        .iter()
        .map(|choice| (choice.key.as_str(), choice.title.as_str()))
        .collect();
    let count = view.open_count.to_string();
    let fresh = ways.last().map_or("discard", |(key, _)| key);
    spread(
        "What was done",
        html! { p { "Written down when it is done, not before." } },
        html! {
            form.form #settle autocomplete="off" method="post" action=(format!("/batch/{batch}/incident/{entry}/settle")) {
                (frame.token())
                (Field { value: frame.filled.value("way", fresh), ..field(frame, "way", "They were", "") }.list(&ways, None))
                (Field { value: frame.filled.value("count", &count), ..field(frame, "count", "How many", "") }.tally(1, Some(view.open_count)))
                @if ways.iter().any(|(key, _)| *key == "reprocess") {
                    (ticks(&view.reprocess_ticks))
                    (field(frame, "minutes", "Reprocessed: minutes", "as the clock kept them, counted from nought").text("numeric"))
                    (field(frame, "lifted", "Reprocessed: lifted again at", "").time())
                }
                div.row { (send("Write it down", true)) }
            }
        },
    )
}

fn ticks(ticks: &[TickLine]) -> Markup {
    html! {
        ul.ticks.all {
            @for tick in ticks {
                li { (Field { name: "ticks", label: &tick.text, value: &tick.key, ..Field::default() }.tick(false, "")) }
            }
        }
    }
}

/// What a batch shows of its incidents: set-aside jars, ticks to answer later, each incident.
pub fn of_batch(frame: &Frame, view: &BatchView) -> Markup {
    let nothing = view.incidents.is_empty() && view.late.is_empty() && view.aside.is_empty();
    if nothing && !view.disposal_only {
        return html! {};
    }
    spread(
        "What went wrong",
        html! { @if view.disposal_only { p { "For these jars there is the disposal card and nothing else." } } },
        html! {
            div #incidents {
                @if view.disposal_only { div.row { a.btn.first href="/incident/disposal" { "The disposal card" } } }
                @for aside in &view.aside { p.mark.state.held { (Mark::Held) span { (aside) } } }
                @if !view.incidents.is_empty() {
                    ul.ruled {
                        @for incident in &view.incidents {
                            li {
                                h3 { a.go href=(format!("/batch/{}/incident/{}", incident.batch.unwrap_or_default(), incident.entry.unwrap_or_default())) { (incident.title) } }
                                @if incident.open_count > 0 || incident.phase == "in-canner" { p.lead { (incident.now) } @if !incident.until.is_empty() { p { (incident.until) ", " (incident.left) } } }
                            }
                        }
                    }
                }
                @if let (false, Some(id)) = (view.late.is_empty(), view.id) { (late(frame, &view.late, id)) }
            }
        },
    )
}

fn late(frame: &Frame, open: &[TickLine], id: i64) -> Markup {
    let choices: Vec<(&str, &str)> = open
        .iter()
        .map(|tick| (tick.key.as_str(), tick.text.as_str()))
        .collect();
    let first = choices.first().map_or("", |(key, _)| key);
    html! {
        h3 { "A tick that was missing" }
        p { "Only who knows it says yes. When the last one is answered, the batch is free." }
        form.form #late autocomplete="off" method="post" action=(format!("/batch/{id}/late")) {
            (frame.token())
            (Field { value: frame.filled.value("tick", first), prefix: "late", ..field(frame, "tick", "Which", "") }.list(&choices, None))
            (Field { prefix: "late", ..field(frame, "done", "Was it done?", "") }.list(&YES_NO, Some("nobody knows")))
            (Field { prefix: "late", ..field(frame, "who", "By whom", "") }.text("text"))
            (Field { prefix: "late", ..field(frame, "when_day", "On", "today when only a time is given") }.date())
            (Field { prefix: "late", ..field(frame, "when", "at", "") }.time())
            div.row { (send("Answer", true)) }
        }
    }
}
