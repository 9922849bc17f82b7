//! Load: may the jars of several batches share one canner run?

use super::{verdict, whole};
use crate::frame::Frame;
use crate::part::address::asking;
use crate::part::field::{Field, send};
use crate::part::{Opening, Section, opening, spread};
use app::view::load::LoadView;
use maud::{Markup, html};

/// Draws the page.
pub fn draw(frame: &Frame, view: &LoadView) -> Markup {
    whole(
        frame,
        "One canner load",
        Section::Batch,
        html! {
            (opening(Opening {
                day: "Batches",
                verge: html! {},
                question: "Which jars may share a canner?",
                answer: answer(view),
                lead: html! { "Every jar keeps its own permit; the load runs the longest of their times, at one printed pressure." },
                actions: html! {
                    @if view.verdict.as_ref().is_some_and(|verdict| verdict.kind != "refusal") {
                        @for (paper, words) in [("letter", "Load card, US letter"), ("a4", "Load card, A4")] { a.btn href=(card(view, paper)) { (words) } }
                    }
                    a.btn href="/batch" { "All batches" }
                },
            }))
            @if let Some(answer) = &view.verdict { (spread("The verdict", html! { p { "Asked anew with today's house and lots." } }, verdict::draw(answer))) }
            @if !view.batches.is_empty() { (spread("What goes in", html! { p { "This writes nothing." } }, form(view))) }
        },
    )
}

fn answer(view: &LoadView) -> &'static str {
    match &view.verdict {
        Some(verdict) if verdict.kind == "refusal" => "Not in one load.",
        Some(_) => "Yes, in one load.",
        None if view.batches.is_empty() => "No batch waits for a canner.",
        None => "Choose the batches.",
    }
}

/// Address of the load's card.
fn card(view: &LoadView, paper: &str) -> String {
    let mut fields = vec![("paper".to_owned(), paper.to_owned())];
    for line in view.batches.iter().filter(|line| line.chosen) {
        fields.push(("batch".to_owned(), line.id.to_string()));
    }
    asking("/load/card.pdf", &fields)
}

fn form(view: &LoadView) -> Markup {
    html! {
        form.form method="get" action="/load" {
            fieldset {
                legend { "Batches that wait for a canner" }
                @for line in &view.batches {
                    @let id = line.id.to_string();
                    (Field { name: "batch", label: &line.title, value: &id, ..Field::default() }.tick(line.chosen, &line.words))
                }
            }
            div.row { (send("Ask the gate", true)) }
        }
    }
}
