//! Plan: what becomes what, on which day?

use super::{plan_tables, whole};
use crate::frame::Frame;
use crate::part::field::{Field, send};
use crate::part::{Mark, Opening, Place, Section, fractions, opening, spread};
use crate::picture::flow::{self, Flow, Node, PlaceNode};
use app::view::Both;
use app::view::plan::{self, PlanDay, PlanView, PlannedBatch};
use maud::{Markup, html};
use quantity::Mass;

/// Days ahead that the form offers.
const AHEAD: [(&str, &str); 4] = [
    ("3", "three days"),
    ("5", "five days"),
    ("7", "a week"),
    ("10", "ten days"),
];

/// Draws the page. `date` is today in ISO form: the accepted plan's day can be started from here.
pub fn draw(frame: &Frame, view: &PlanView, date: &str) -> Markup {
    let none = view.state == "none";
    whole(
        frame,
        "Plan",
        Section::Plan,
        html! {
            (opening(Opening {
                day: &view.span,
                verge: html! { @if !none { p { (state_words(&view.state)) } } @if !view.goal.gap_words.is_empty() { p { (view.goal.gap_words) } } },
                question: "What becomes what, on which day?",
                answer: &fractions(&view.answer),
                lead: html! { (view.lead) },
                actions: html! {
                    @if view.state == "proposed" { (accept(frame)) }
                    @if view.state == "accepted" && view.days.iter().any(|day| day.date == date) { a.btn.first href=(format!("/day?date={date}")) { "Today in the kitchen" } }
                    @if none { a.btn href="/counter" { "To the Counter" } }
                },
            }))
            @if none { (spread("Make a plan", make_words(), make(frame, "Make the plan", true))) }
            @if !view.flow.lots.is_empty() {
                (spread("The flow", html! { p { "Width is weight. Pale bands are lots; each hatching is a place." } p { "Dashed: no batch takes it." } }, flow::draw(&picture(&view.flow), &weigh)))
            }
            @if !view.days.is_empty() { (spread("Day by day", html! { p { "Hands are counted for everyone together. A quarter of the hours said on the House page stays free, so that the day can be laid out." } }, html! { @for day in &view.days { (one_day(day)) } })) }
            (plan_tables::draw(view))
            @if !none { (spread("Plan again", make_words(), make(frame, "Make another plan", false))) }
        },
    )
}

fn state_words(state: &str) -> &'static str {
    match state {
        "accepted" => "Accepted: its batches are set up.",
        "proposed" => "Proposed: nothing is set up until it is accepted.",
        _ => "",
    }
}

fn accept(frame: &Frame) -> Markup {
    html! {
        form autocomplete="off" method="post" action="/plan/accept" { (frame.token()) (send("Accept this plan", true)) }
        span.note { "sets up its batches; the gate is asked again for each" }
    }
}

fn make_words() -> Markup {
    html! { p { "A plan takes what lies on the Counter and looks for the best use of it under every limit of the house. It is a proposal until it is accepted." } }
}

fn make(frame: &Frame, words: &str, first: bool) -> Markup {
    let filled = &frame.filled;
    html! {
        form.form autocomplete="off" method="post" action="/plan" {
            div.all { (Field { name: "days", label: "How far ahead?", value: filled.value("days", "7"), wrong: filled.wrong("days"), ..Field::default() }.one_of(&AHEAD.map(|(key, words)| (key, words, None)))) }
            div.row { (send(words, first)) }
        }
    }
}

/// Grams in both units.
fn weigh(grams: i64) -> String {
    Both::mass(Mass::from_grams(grams)).to_string()
}

fn picture(view: &plan::Flow) -> Flow {
    let node = |node: &plan::FlowNode| Node {
        title: node.title.clone(),
        detail: node.detail.clone(),
        day: node.day.clone(),
    };
    Flow {
        lots: view.lots.iter().map(node).collect(),
        batches: view.batches.iter().map(node).collect(),
        places: view
            .places
            .iter()
            .map(|place| PlaceNode {
                place: Place::of(&place.key),
                detail: place.detail.clone(),
            })
            .collect(),
        into: view.into.clone(),
        out: view.out.clone(),
        past: view.past.clone(),
    }
}

fn one_day(day: &PlanDay) -> Markup {
    html! {
        h3 { (day.title) @if !day.hands.is_empty() { ", " span.note { "hands " (day.hands) } } }
        ul.ruled { @for batch in &day.batches { (one_batch(batch)) } }
    }
}

fn one_batch(batch: &PlannedBatch) -> Markup {
    html! {
        li {
            @if let Some(id) = batch.id {
                h3 { a.go href=(format!("/batch/{id}")) { (batch.title) } }
            } @else {
                h3 { (batch.title) }
            }
            p.loose { (Place::of(&batch.place).tag(&batch.makes)) @if !batch.times.is_empty() { span { (batch.times) } } }
            @if !batch.takes.is_empty() { p.note { "from " (batch.takes.join("; ")) } }
            @if !batch.reason.is_empty() { p { (batch.reason) } }
            @if !batch.verdict.is_empty() { p.mark.note.seal { (Mark::Tested) span { (batch.verdict) } } }
        }
    }
}
