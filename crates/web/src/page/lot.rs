//! One lot: its history, where it lies, and what leaves it.

use super::{both, pairs, weigh_in, whole};
use crate::frame::Frame;
use crate::page::counter;
use crate::part::field::{Field, send};
use crate::part::{Opening, Place, Section, opening, spread};
use app::view::counter::{CounterView, LotView};
use maud::{Markup, html};

/// Where a part of a lot can go from the counter, as the sort-out form offers it.
const WAYS_OUT: [(&str, &str); 6] = [
    ("eaten", "eaten fresh"),
    ("animals", "animals"),
    ("compost", "compost"),
    ("given", "given away"),
    ("seed", "kept for seed"),
    ("discarded", "thrown away"),
];

/// Draws the page of one lot out of the Counter's view.
pub fn draw(frame: &Frame, view: &CounterView, lot: &LotView) -> Markup {
    whole(
        frame,
        &lot.title,
        Section::Counter,
        html! {
            (opening(Opening {
                day: &format!("Lot {}", lot.id),
                verge: html! { p { (lot.picked) } p { (lot.how_weighed) } },
                question: "What is this lot, and what may become of it?",
                answer: &lot.title,
                lead: html! { (both(&lot.weight)) ", " (lot.where_it_lies) },
                actions: html! { a.btn href="/counter" { "Back to the Counter" } },
            }))
            (spread("Keeping", html! {}, html! {
                (counter::state(lot))
                @if !lot.reason.is_empty() { p { (lot.reason) } }
                (counter::why(lot))
            }))
            (spread("What it is", html! { p { "An answer can be changed later; the earlier one stays in the record." } }, state_form(frame, view, lot)))
            (spread("Sort out", html! { p { "Mouldy food never goes to animals. A part that no feeding row names goes to the compost." } }, sort_out_form(frame, view, lot)))
        },
    )
}

fn state_form(frame: &Frame, view: &CounterView, lot: &LotView) -> Markup {
    let filled = &frame.filled;
    let field = |name: &'static str, label: &'static str| Field {
        name,
        label,
        wrong: filled.wrong(name),
        prefix: "state",
        ..Field::default()
    };
    html! {
        form.form autocomplete="off" method="post" action=(format!("/counter/{}/state", lot.id)) {
            (frame.token())
            @if !lot.history.is_empty() {
                div.asks.all { @for line in &lot.history { (weigh_in::ask(filled, line)) } }
            }
            (Field { value: filled.value("grade", &lot.grade), ..field("grade", "Grade or ripeness") }.list(&pairs(&lot.grades), None))
            (Field { value: filled.value("place", &lot.place), ..field("place", "Where it lies") }.list(&pairs(&view.form.places), None))
            (Field { value: filled.value("temperature", ""), hint: "only if it changed, such as 51F", ..field("temperature", "How warm it is there") }.text("text"))
            div.row { (send("Write it down", true)) }
        }
    }
}

fn sort_out_form(frame: &Frame, view: &CounterView, lot: &LotView) -> Markup {
    let filled = &frame.filled;
    let field = |name: &'static str, label: &'static str, fresh: &'static str| Field {
        name,
        label,
        value: filled.value(name, fresh),
        wrong: filled.wrong(name),
        prefix: "out",
        ..Field::default()
    };
    let ways: Vec<_> = WAYS_OUT
        .iter()
        .map(|(key, words)| (*key, *words, Some(html! { (Place::of(key).mark()) })))
        .collect();
    html! {
        form.form autocomplete="off" method="post" action=(format!("/counter/{}/sort-out", lot.id)) {
            (frame.token())
            (Field { required: true, hint: "such as 2 lb, or all", ..field("amount", "How much", "") }.text("text"))
            (Field { hint: "such as fruit, leaves, peel, mouldy", ..field("part", "Which part", "") }.text("text"))
            @if !view.form.animals.is_empty() {
                (field("animal", "Which animals, if it goes to them", "").list(&pairs(&view.form.animals), Some("none")))
            }
            div.all { (Field { required: true, ..field("to", "Where does it go?", "") }.one_of(&ways)) }
            div.row { (send("Sort it out", true)) }
        }
    }
}
