//! What can be printed of a batch: its card, labels, gift labels, seed packets.

use super::whole;
use crate::frame::Frame;
use crate::part::field::Field;
use crate::part::{Opening, Section, opening, spread};
use app::view::printed::PrintOffer;
use maud::{Markup, html};

/// Draws the page.
pub fn offer(frame: &Frame, view: &PrintOffer) -> Markup {
    let title = format!("Print: {}", view.title);
    whole(
        frame,
        &title,
        Section::Batch,
        html! {
            (opening(Opening {
                day: &view.day,
                verge: html! { p { "Batch " (view.batch) } p { "Card " (view.code) } },
                question: "What goes onto paper?",
                answer: &view.answer,
                lead: html! { "Files to print at 100 %, true to size, black on white." },
                actions: html! { a.btn href=(format!("/batch/{}", view.batch)) { "The batch" } },
            }))
            @if view.card { (spread("The card", html! { p { "For the stove: tick and write on it, and type it in later by its code." } }, card(view))) }
            (spread("Labels", html! { @if !view.square { p { "The house has no address, so labels carry no square for a phone to read. " a href="/house" { "Give it one" } "." } } }, html! {
                @if view.why_not.is_empty() { (sheet(view)) } @else { p.lead { (view.why_not) } }
            }))
            (spread("Hold it against the sheet", html! { p { "Print the outline on plain paper first and hold both against the light; what is off goes into the two offsets." } }, html! {
                div.row { @for sheet in &view.sheets { a.btn href=(format!("/print/outline.pdf?sheet={}", sheet.key)) { (sheet.title) } } }
            }))
        },
    )
}

fn card(view: &PrintOffer) -> Markup {
    html! {
        div.row {
            @for paper in &view.papers { a.btn href=(format!("/batch/{}/card.pdf?paper={}", view.batch, paper.key)) { "Card on " (paper.title) } }
            a.btn href=(format!("/batch/enter?code={}", view.code)) { "Type the card in" }
        }
    }
}

fn sheet(view: &PrintOffer) -> Markup {
    let sheets = super::pairs(&view.sheets);
    let first = sheets.first().map_or("", |sheet| sheet.0);
    let address = |what: &str| format!("/batch/{}/{what}.pdf", view.batch);
    let field =
        |name: &'static str, label: &'static str, hint: &'static str, value: &'static str| {
            Field {
                name,
                label,
                hint,
                value,
                ..Field::default()
            }
            .text("text")
        };
    html! {
        form.form autocomplete="off" method="get" action=(address(if view.seed { "seed" } else { "labels" })) {
            div.all { (Field { name: "sheet", label: "Sheet", value: first, ..Field::default() }.list(&sheets, None)) }
            (field("count", "How many", "empty: one for each that stands", ""))
            (field("from", "First label to use", "counted along the rows, for a part-used sheet", "1"))
            (field("offset_x", "Move right, mm", "such as 0.5 or -0.3", "0"))
            (field("offset_y", "Move down, mm", "", "0"))
            div.all { ul.ticks { li { (Field { name: "outline", label: "Print the edges of the labels too", ..Field::default() }.tick(false, "")) } } }
            div.row {
                button.first type="submit" { @if view.seed { "Seed packets" } @else { "Labels for the shelf" } }
                @if !view.seed { button type="submit" formaction=(address("gift")) { "Gift labels" } }
            }
        }
    }
}
