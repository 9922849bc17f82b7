//! Process: how long, and at what pressure? The printed row, free to look up without a house; with
//! one, the gate's own answer.

use super::{process_foods, process_rows, verdict, whole};
use crate::frame::Frame;
use crate::part::field::{Field, hidden, send};
use crate::part::{Opening, Section, asking, fractions, opening, spread};
use app::view::Choice;
use app::view::process::{OpenLine, ProcessView, SwitchChoice};
use maud::{Markup, html};

/// Draws the page; `suggestions` are foods like the one that was typed and is not in the tables.
pub fn draw(frame: &Frame, view: &ProcessView, suggestions: &[Choice]) -> Markup {
    whole(
        frame,
        "Process",
        Section::Process,
        html! {
            (opening(Opening {
                day: day(view),
                verge: html! { p { "No figure on this page is worked out: each is a row of a tested table, or there is none." } },
                question: "How long, and at what pressure?",
                answer: &answer(view),
                lead: html! { @if !view.filled_in.is_empty() { "Nobody said " (view.filled_in) ": it is filled in, and one tap changes it." } },
                actions: html! {},
            }))
            @if !suggestions.is_empty() { (spread("Is one of these meant?", html! {}, process_foods::links(view, suggestions))) }
            @if view.answer.is_some() { (answered(frame, view)) }
            (process_foods::find(frame, view))
        },
    )
}

fn day(view: &ProcessView) -> &'static str {
    match view.answer.as_ref().map(|plate| plate.kind.as_str()) {
        Some("permit" | "permit-if") => "Permit",
        Some("refusal") => "Refusal",
        _ => "Look-up, not a permit",
    }
}

/// The answer as a sentence a person could say.
fn answer(view: &ProcessView) -> String {
    let Some(plate) = &view.answer else {
        return "Choose a food; the row follows.".to_owned();
    };
    if plate.code == "no-elevation" {
        return format!("{}: at which elevation?", view.title);
    }
    match (plate.minutes, &plate.psi) {
        (Some(minutes), None) => format!("{}: {minutes} minutes.", view.title),
        (Some(minutes), Some(psi)) => format!("{}: {minutes} minutes at {psi} psi.", view.title),
        (None, _) => format!("{}: no printed row answers this.", view.title),
    }
}

fn answered(frame: &Frame, view: &ProcessView) -> Markup {
    let permit = view
        .answer
        .as_ref()
        .is_some_and(|plate| plate.kind.starts_with("permit"));
    html! {
        (spread(
            if permit { "The permit" } else { "The answer" },
            html! { p { @if permit { "It holds for this house and canner, and arms nothing here: a batch asks the gate again." } @else { "A look-up arms nothing: label, clock and batch need a permit." } } },
            html! {
                @if let Some(plate) = &view.answer { (verdict::draw(plate)) }
                (offers(view))
                (elsewhere(frame, view))
            },
        ))
        (spread("Chosen otherwise", html! { p { "Each is one tap; what has no row is refused with what has one." } }, switches(view)))
        @if let Some(open) = &view.open { (spread("For a permit", html! { p { "The gate permits what it was told, never what it may suppose." } }, wanted(open))) }
        (spread("With it", html! { p { a.go href=(change(view)) { "May I change this?" } } p { a.go href="/incident" { "Something went wrong" } } }, with_it(view)))
        (process_rows::draw(view))
        @if !view.here.is_empty() {
            (spread("Water and steam here", html! { p { "Weather moves the boiling point by a degree or so." } }, html! { ul.plain { @for line in &view.here { li { (line) } } } }))
        }
    }
}

/// Other ways that have a printed row, each a link.
fn offers(view: &ProcessView) -> Markup {
    let open: Vec<_> = view
        .offers
        .iter()
        .filter(|offer| !offer.asks.is_empty())
        .collect();
    html! {
        @if !open.is_empty() {
            p.note { "There is a printed row for:" }
            div.picks { @for offer in open { a.pick href=(asking("/process", &offer.asks)) { span { (offer.text) } } } }
        }
    }
}

/// The same question for another elevation.
fn elsewhere(frame: &Frame, view: &ProcessView) -> Markup {
    let asked = &view.asked;
    let missing = view
        .answer
        .as_ref()
        .is_some_and(|plate| plate.code == "no-elevation");
    let form = html! {
        form.form autocomplete="off" method="get" action="/process" {
            @for (field, word) in [("food", &asked.food), ("pack", &asked.pack), ("jar", &asked.jar), ("method", &asked.method)] { (hidden(field, word)) }
            (Field { name: "elevation", prefix: "here", label: "Elevation", hint: "such as 2500ft, 305 m or 950 ft ± 60", value: &asked.elevation, wrong: frame.filled.wrong("elevation"), ..Field::default() }.text("text"))
            div.row { (send("Show its row", missing)) }
        }
    };
    html! {
        @if missing { (form) } @else { details { summary { "At another elevation" } (form) } }
    }
}

fn switches(view: &ProcessView) -> Markup {
    html! {
        @for switch in &view.switches {
            h3 { (switch.title) }
            div.picks { @for choice in &switch.choices { (pick(choice)) } }
        }
    }
}

fn pick(choice: &SwitchChoice) -> Markup {
    html! {
        a.pick href=(asking("/process", &choice.asks)) aria-current=[choice.here.then_some("true")] { span { (choice.title) } }
    }
}

fn wanted(open: &OpenLine) -> Markup {
    html! {
        p.lead { (open.text) }
        p { (open.instead) }
        @if !open.answers.is_empty() { div.picks { @for choice in &open.answers { (pick(choice)) } } }
        p.src { "Asked by " (open.code) "." }
    }
}

fn change(view: &ProcessView) -> String {
    let recipe = view.recipes.first();
    let key = recipe.map_or(&view.asked.food, |recipe| &recipe.key);
    asking("/change", &[("recipe".to_owned(), key.clone())])
}

fn with_it(view: &ProcessView) -> Markup {
    html! {
        @if !view.headspace.is_empty() { p { "Headspace " (fractions(&view.headspace)) } }
        @if !view.acid.is_empty() {
            h3 { "Acid, one of these, whole" }
            ul.dash {
                @for acid in &view.acid {
                    li { (fractions(&acid.text)) " " span.src { (acid.source) @if !acid.mark.is_empty() { "; " (acid.mark) } } }
                }
            }
        }
        @for question in &view.questions {
            h3 { (question.text) }
            @if !question.answers.is_empty() {
                ul.dash { @for answer in &question.answers { li { (answer.title) @if answer.key == question.given { ": " strong { "answered so" } } } } }
            }
            p.src { (question.source) }
        }
        h3 { "Mind" }
        ul.dash { @for caution in &view.cautions { li { (caution) } } }
    }
}
