//! A printed card that comes back: its code, then its blanks in the order of the card.

use super::whole;
use crate::frame::Frame;
use crate::part::field::{Field, hidden, send};
use crate::part::{Opening, Section, opening, spread};
use app::view::enter::{AskKind, EnterAsk, EnterPart, EnterView};
use maud::{Markup, html};

/// Draws the page: without a card it asks for a code.
pub fn draw(frame: &Frame, view: Option<&EnterView>) -> Markup {
    let answer = match view {
        None => "Which card is it?".to_owned(),
        Some(view) if view.parts.is_empty() => {
            format!("Everything of card {} is in the record.", view.code)
        }
        Some(view) => format!("{}, card {}", view.title, view.code),
    };
    whole(
        frame,
        "Type in a card",
        Section::Batch,
        html! {
            (opening(Opening {
                day: view.map_or("Batches", |view| &view.day),
                verge: html! { @if let Some(view) = view { p { "Batch " (view.batch) } p { (view.state) } } },
                question: "What stands on the card?",
                answer: &answer,
                lead: html! { "Days and times are those of the card, not of the typing." },
                actions: html! {
                    @match view {
                        Some(view) => { a.btn href=(format!("/batch/{}", view.batch)) { "The batch" } }
                        None => { a.btn href="/batch" { "All batches" } }
                    }
                },
            }))
            @match view {
                None => (code(frame)),
                Some(view) if view.parts.is_empty() => {}
                Some(view) => (blanks(frame, view)),
            }
        },
    )
}

fn code(frame: &Frame) -> Markup {
    let filled = &frame.filled;
    spread(
        "The code",
        html! { p { "Thirteen signs, none like another: no O and 0, no I and 1." } },
        html! {
            form.form autocomplete="off" method="get" action="/batch/enter" {
                (Field { name: "code", label: "Code of the card", hint: "at the top of the card, such as 226-223", value: filled.value("code", ""), wrong: filled.wrong("code"), required: true, ..Field::default() }.text("text"))
                div.row { (send("Open its blanks", true)) }
            }
        },
    )
}

fn blanks(frame: &Frame, view: &EnterView) -> Markup {
    html! {
        form.keep autocomplete="off" method="post" action="/batch/enter" {
            (frame.token())
            (hidden("code", &view.code))
            @for part in &view.parts { (spread(&part.title, html! {}, part_fields(frame, part))) }
            (spread("Write it down", html! { p { "A part whose day is empty is left for later. Nothing is written when a blank is not understood." } }, html! { div.row { (send("Write the card down", true)) } }))
        }
    }
}

fn part_fields(frame: &Frame, part: &EnterPart) -> Markup {
    html! {
        div.form {
            @if part.asks.iter().any(|ask| ask.kind == AskKind::Tick) {
                ul.ticks.all { @for ask in &part.asks { li { (tick(frame, ask)) } } }
            } @else {
                @for ask in &part.asks { (blank(frame, ask)) }
            }
        }
    }
}

fn tick(frame: &Frame, ask: &EnterAsk) -> Markup {
    let ticked = frame
        .filled
        .typed
        .as_ref()
        .is_some_and(|typed| typed.all("ticks").contains(&ask.name));
    Field {
        name: "ticks",
        label: &ask.label,
        value: &ask.name,
        ..Field::default()
    }
    .tick(ticked, "")
}

fn blank(frame: &Frame, ask: &EnterAsk) -> Markup {
    let name = format!("blank.{}", ask.name);
    let filled = &frame.filled;
    let field = Field {
        name: &name,
        label: &ask.label,
        hint: match ask.kind {
            AskKind::Text => &ask.hint,
            _ => "",
        },
        value: filled.value(&name, ""),
        wrong: filled.wrong(&name),
        ..Field::default()
    };
    match ask.kind {
        AskKind::Day => field.date(),
        AskKind::Time => field.time(),
        AskKind::Count => field.tally(0, None),
        AskKind::List => field.list(&super::pairs(&ask.choices), None),
        AskKind::Text | AskKind::Tick => field.text("text"),
    }
}
