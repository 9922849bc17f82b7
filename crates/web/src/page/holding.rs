//! One holding: take from it, or say what was found.

use super::{both, pairs, whole};
use crate::frame::Frame;
use crate::part::field::{Field, hidden, send};
use crate::part::{Mark, Opening, Place, Section, opening, spread};
use app::view::stores::{HoldingLine, StoresView};
use maud::{Markup, html};

/// Draws the page of one holding out of the Stores' view.
pub fn draw(frame: &Frame, view: &StoresView, line: &HoldingLine) -> Markup {
    let place = Place::of(&line.place);
    whole(
        frame,
        &line.product,
        Section::Stores,
        html! {
            (opening(Opening {
                day: &format!("Batch {}", line.batch),
                verge: html! { p { (place.tag(place.word())) } p { (line.age) } p { (line.made) " made" } },
                question: "How many are there, and who takes some?",
                answer: &format!("{}, {} {}", line.product, line.count, line.size_words),
                lead: html! { (both(&line.weight)) },
                actions: html! { a.btn href="/stores" { "Back to the Stores" } a.btn href=(format!("/batch/{}", line.batch)) { "The batch" } },
            }))
            @if !line.held.is_empty() || !line.aside.is_empty() || !line.eat_by.is_empty() {
                (spread("Mind", html! {}, html! {
                    @if !line.eat_by.is_empty() { p.mark.state.due { (Mark::Due) span { (line.eat_by) } } }
                    @if !line.held.is_empty() { p.mark.state.held { (Mark::Held) span { "held: " (line.held) } } }
                    @if !line.aside.is_empty() { p.mark.state.held { (Mark::Held) span { (line.aside) } } }
                    @if !line.held.is_empty() || !line.aside.is_empty() { div.row { a.btn href=(format!("/batch/{}#incidents", line.batch)) { "What may be done" } a.btn href="/incident/disposal" { "Disposal card" } } }
                }))
            }
            (spread("Take", html! { p { "A wrong tap is corrected by a count." } }, take(frame, view, line)))
            (spread("Count", html! { p { "Say what was found. A difference is booked as unaccounted, where everyone sees it." } }, count(frame, line)))
        },
    )
}

fn which(line: &HoldingLine) -> Markup {
    html! { (hidden("batch", line.batch)) (hidden("size", &line.size)) (hidden("place", &line.place)) }
}

fn take(frame: &Frame, view: &StoresView, line: &HoldingLine) -> Markup {
    let filled = &frame.filled;
    html! {
        form.form autocomplete="off" method="post" action="/stores/take" {
            (frame.token()) (which(line))
            (Field { name: "count", label: "How many", value: filled.value("count", "1"), wrong: filled.wrong("count"), required: true, prefix: "take", ..Field::default() }.tally(1, Some(line.count)))
            (Field { name: "to", label: "Where to", value: filled.value("to", if line.held.is_empty() { "eaten" } else { "discarded" }), wrong: filled.wrong("to"), required: true, prefix: "take", ..Field::default() }.list(&pairs(&view.ends), None))
            div.row { (send("Take", true)) }
        }
    }
}

fn count(frame: &Frame, line: &HoldingLine) -> Markup {
    let filled = &frame.filled;
    let stands = line.count.to_string();
    html! {
        form.form autocomplete="off" method="post" action="/stores/count" {
            (frame.token()) (which(line))
            (Field { name: "found", label: "Found", value: filled.value("found", &stands), wrong: filled.wrong("found"), required: true, prefix: "count", ..Field::default() }.tally(0, None))
            div.row { (send("Write the count down", false)) }
        }
    }
}
