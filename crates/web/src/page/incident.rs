//! Something went wrong: the kinds as big buttons, the question, the answer large, the disposal card.

use super::{incident_forms, whole};
use crate::frame::Frame;
use crate::part::amount::fractions;
use crate::part::{Mark, Opening, Section, opening, spread};
use app::view::batch::BatchView;
use app::view::incident::{DisposalView, IncidentKindsView, IncidentView, KindLine, WayLine};
use maud::{Markup, html};

/// The choice of a kind, for a batch or for a jar that was found.
pub fn kinds(frame: &Frame, view: &IncidentKindsView, batch: Option<&BatchView>) -> Markup {
    let of = batch.and_then(|batch| batch.id);
    let about = batch.map_or_else(
        || "A jar of no batch here".to_owned(),
        |batch| format!("Batch {}, {}", batch.id.unwrap_or_default(), batch.title),
    );
    whole(
        frame,
        "Something went wrong",
        Section::Batch,
        html! {
            (opening(Opening {
                day: &about,
                verge: html! { p { "Until it is answered, nothing of it is eaten, given or tasted." } },
                question: "What went wrong?",
                answer: "Choose what comes nearest.",
                lead: html! {},
                actions: html! { a.btn href="/incident/disposal" { "The disposal card" } },
            }))
            @for group in &view.groups {
                (spread(&group.title, html! {}, html! {
                    div.row {
                        @for line in &group.kinds { a.btn href=(address(&line.kind, of)) { (line.button) } }
                    }
                }))
            }
        },
    )
}

fn address(kind: &str, batch: Option<i64>) -> String {
    match batch {
        Some(batch) => format!("/incident/{kind}?batch={batch}"),
        None => format!("/incident/{kind}"),
    }
}

/// One kind: what has to be known, and, without a batch, the answer above it.
pub fn question(
    frame: &Frame,
    line: &KindLine,
    batch: Option<&BatchView>,
    answered: Option<&IncidentView>,
) -> Markup {
    whole(
        frame,
        &line.title,
        Section::Batch,
        html! {
            @match answered {
                Some(view) => (large(view)),
                None => (opening(Opening {
                    day: &batch.map_or_else(String::new, |batch| format!("Batch {}, {}", batch.id.unwrap_or_default(), batch.title)),
                    verge: html! { p { "What is not known is answered the stricter way." } },
                    question: &line.title,
                    answer: "When, and which jars?",
                    lead: html! {},
                    actions: html! {},
                })),
            }
            (incident_forms::question(frame, line, batch))
        },
    )
}

/// An incident of a batch, with its clock as it stands, and what can be written down as done.
pub fn answer(frame: &Frame, view: &IncidentView) -> Markup {
    whole(
        frame,
        &view.title,
        Section::Batch,
        html! {
            (large(view))
            (incident_forms::settle(frame, view))
        },
    )
}

/// The answer: what to do now, until when, which jars, whom to ask.
fn large(view: &IncidentView) -> Markup {
    html! {
        (opening(Opening {
            day: &view.product,
            verge: html! { p { (view.title) } p.src { (view.source) } },
            question: "What now?",
            answer: &view.now,
            lead: html! { (view.answer) },
            actions: html! {
                @if view.disposal_only { a.btn.first href="/incident/disposal" { "The disposal card, to print" } }
                @if let Some(batch) = view.batch { a.btn href=(format!("/batch/{batch}")) { "The batch" } }
                @else { a.btn href="/incident" { "Something else" } }
            },
        }))
        @if !view.until.is_empty() {
            (spread("Until when", html! { p { "From the minute the jars were lifted." } }, html! { p.say { (capital(&view.until)) } p.lead { (view.left) } }))
        }
        (spread("Which jars", html! {}, html! {
            p.lead { (view.jars) }
            @if !view.hold.is_empty() { p.mark.state.held { (Mark::Held) span { (view.hold) } } }
        }))
        @if !view.disposal_only { (spread("What may be done", html! {}, lines(&view.ways))) }
        @else { (spread("Why", html! {}, lines(&view.ways))) }
        @if !view.looser.is_empty() {
            (spread("Sources disagree", html! { p { "The stricter reading acts. This one is shown and cannot be chosen." } }, html! {
                ul.dash.note aria-disabled="true" { @for line in &view.looser { li { s { (fractions(&line.text)) } " Not to be chosen. " span.src { (line.source) } } } }
            }))
        }
        @if let Some(card) = &view.disposal { (parts(card)) }
        (spread("Ask", html! {}, html! {
            p { (capital(&view.ask)) "." }
            @if !view.notes.is_empty() { ul.dash.note { @for note in &view.notes { li { (note) } } } }
        }))
    }
}

fn lines(ways: &[WayLine]) -> Markup {
    html! {
        ul.ruled { @for line in ways { li { p.lead { (fractions(&line.text)) } p.src { (line.source) } } } }
    }
}

/// The disposal card on a sheet of its own.
pub fn disposal(frame: &Frame, card: &DisposalView) -> Markup {
    whole(
        frame,
        "Disposal card",
        Section::Batch,
        html! {
            (opening(Opening {
                day: "Disposal card",
                verge: html! {},
                question: "How is a jar thrown away that is suspect, on hold or past its time?",
                answer: "Closed, untasted, out of everyone's reach.",
                lead: html! {},
                actions: html! { button type="button" hidden data-print { "Print the card" } a.btn href="/incident/disposal.pdf?paper=letter" { "PDF, US letter" } a.btn href="/incident/disposal.pdf?paper=a4" { "PDF, A4" } a.btn href="/incident" { "Something went wrong" } },
            }))
            (parts(card))
        },
    )
}

/// Text and source on one line, all of it in one spread: the card is one sheet of paper.
fn parts(card: &DisposalView) -> Markup {
    spread(
        "Disposal",
        html! {},
        html! {
            @for part in &card.parts {
                h3 { (part.title) }
                ul.dash { @for step in &part.steps { li { (fractions(&step.text)) " " span.src { (step.source) } } } }
            }
        },
    )
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}
