//! The list of batches, and the form that starts one by hand.

use super::{pairs, whole};
use crate::frame::Frame;
use crate::part::field::{Field, send};
use crate::part::{Mark, Opening, Section, opening, spread};
use app::view::Choice;
use app::view::batch::{BatchLine, BatchListView};
use maud::{Markup, html};

/// Draws the list.
pub fn draw(frame: &Frame, view: &BatchListView, offers: &Offers<'_>) -> Markup {
    let open: Vec<&BatchLine> = view
        .batches
        .iter()
        .filter(|batch| matches!(batch.state.as_str(), "planned" | "started" | "held"))
        .collect();
    let closed: Vec<&BatchLine> = view
        .batches
        .iter()
        .filter(|batch| !matches!(batch.state.as_str(), "planned" | "started" | "held"))
        .collect();
    whole(
        frame,
        "Batches",
        Section::Batch,
        html! {
            (opening(Opening {
                day: "Batches",
                verge: html! {},
                question: "Which batch comes next?",
                answer: &view.answer,
                lead: html! {},
                actions: html! { @if let Some(next) = open.first() { a.btn.first href=(format!("/batch/{}", next.id)) { "Open " (next.title) } } a.btn.first[open.is_empty()] href="#by-hand" { "Try a recipe out" } @if view.batches.is_empty() { a.btn href="/plan" { "To the plan" } } @if open.len() > 1 { a.btn href="/load" { "Share a canner load" } } @if !open.is_empty() { a.btn href="/batch/enter" { "Type in a printed card" } } a.btn href="/change" { "May I change a recipe?" } a.btn href="/recipe" { "Your own recipes" } },
            }))
            @if !open.is_empty() { (spread("To make", html! {}, lines(&open))) }
            @if !closed.is_empty() { (spread("Made", html! {}, lines(&closed))) }
            (spread("By hand", html! { p { "The gate is asked before anything is written: what it refuses cannot be set up for jars." } }, try_form(frame, offers)))
        },
    )
}

fn lines(batches: &[&BatchLine]) -> Markup {
    html! {
        ul.ruled {
            @for batch in batches {
                li {
                    h3 { a.go href=(format!("/batch/{}", batch.id)) { (batch.title) } }
                    p.loose { span.mark.state.(state_class(&batch.state)) { (state_mark(&batch.state)) span { (batch.state) } } span { (batch.day) } span.note { (batch.makes) } }
                }
            }
        }
    }
}

/// The ink of a batch's state.
pub fn state_class(state: &str) -> &'static str {
    match state {
        "held" => "held",
        "started" => "due",
        "finished" => "tested",
        "trial" => "trial",
        _ => "wait",
    }
}

/// The mark of a batch's state.
pub fn state_mark(state: &str) -> Mark {
    match state {
        "held" => Mark::Held,
        "started" => Mark::Due,
        "finished" => Mark::Tested,
        "trial" => Mark::Trial,
        "cancelled" => Mark::Refused,
        _ => Mark::Wait,
    }
}

/// What a batch by hand can be made of and in.
pub struct Offers<'a> {
    /// Recipes by key.
    pub recipes: &'a [Choice],
    /// Jars by key.
    pub jars: &'a [Choice],
    /// Names of the house's canners.
    pub canners: Vec<&'a str>,
}

/// The form that shows how a batch would be made; it writes nothing.
pub fn try_form(frame: &Frame, offers: &Offers<'_>) -> Markup {
    let filled = &frame.filled;
    let field = |name: &'static str, label: &'static str, hint: &'static str| Field {
        name,
        label,
        hint,
        value: filled.value(name, ""),
        wrong: filled.wrong(name),
        ..Field::default()
    };
    let canners: Vec<(&str, &str)> = offers.canners.iter().map(|name| (*name, *name)).collect();
    html! {
        form.form #by-hand autocomplete="off" method="get" action="/batch/new" {
            (Field { required: true, ..field("recipe", "Recipe", "") }.list(&pairs(offers.recipes), Some("choose a recipe")))
            (field("produce", "Produce to use up", "such as 24 lb; or leave empty and give batches").text("text"))
            (field("batches", "or how many batches", "such as 2 or 1 1/2").text("text"))
            (field("jars_count", "or how many jars", "such as 10; beside batches, the jars these are to fill").text("text"))
            (field("have", "or what there is of one ingredient", "such as cider-vinegar-5pct=3 cups").text("text"))
            (field("pot", "or the pot to fill", "such as 12 quarts").text("text"))
            (field("jar", "Jar", "").list(&pairs(offers.jars), Some("as the recipe says")))
            @if canners.len() > 1 { (field("canner", "Canner", "").list(&canners, Some("the first that fits"))) }
            div.row { (send("Show how it is made", true)) }
        }
    }
}
