//! Kitchen day: when does each step start? One thing large, the rest in its lanes and its list.

use super::{pairs, whole};
use crate::frame::Frame;
use crate::part::field::{Field, hidden, send};
use crate::part::{Opening, Section, opening, refusal_notice, spread};
use crate::picture::lanes::{self, Block, Chart, Lane};
use app::view::day::{DayStep, DayView};
use maud::{Markup, html};

/// Draws the page. `now` is the minute of today when the day shown is today.
pub fn draw(frame: &Frame, view: &DayView, now: Option<i64>) -> Markup {
    let live = now.filter(|minute| !view.steps.is_empty() && *minute <= view.to);
    whole(
        frame,
        "Kitchen day",
        Section::Day,
        html! {
            @if let Some(minute) = live { (far(view, minute)) }
            (opening(Opening {
                day: &view.title,
                verge: html! { @if !view.quality.is_empty() { p { (view.quality) } } },
                question: "When does each step start?",
                answer: &view.answer,
                lead: html! { (view.lead) },
                actions: html! {
                    @if view.state == "none" { a.btn.first href="/plan" { "To the plan" } a.btn href="/batch" { "Batches" } } @else { (make(frame, view)) }
                },
            }))
            @if !view.clash.is_empty() {
                (spread("What clashes", html! {}, html! {
                    (refusal_notice("These cannot all hold on one day.", "Take one of them away, or move a batch to another day."))
                    ul.dash { @for clash in &view.clash { li { (clash) } } }
                }))
            }
            @if !view.lanes.is_empty() {
                (spread("The lanes", html! { p { "No block may share a pot, a burner, a canner or a pair of hands. Numbers are those of the steps; hands 1 is one person, hands 2 another." } }, html! {
                    (lanes::draw(&chart(view, now)))
                    (lanes::key(now.is_some_and(|minute| (view.from..=view.to).contains(&minute))))
                }))
            }
            @if !view.steps.is_empty() { (spread("The steps", html! { p { "Where a stop is named, the work may rest." } }, steps(view))) }
            @if !view.days.is_empty() { div.screen { (spread("Another day", html! {}, another_day(view))) } }
        },
    )
}

/// The one action of this minute, read across the kitchen.
fn far(view: &DayView, minute: i64) -> Markup {
    let running: Vec<&DayStep> = view
        .steps
        .iter()
        .filter(|step| step.from <= minute && minute < step.to)
        .collect();
    let next = view.steps.iter().find(|step| step.from > minute);
    // What needs a hand comes before what boils by itself.
    let shown = running
        .iter()
        .find(|step| !step.unattended)
        .or(running.first())
        .copied();
    let anew = view
        .steps
        .iter()
        .flat_map(|step| [step.from, step.to])
        .filter(|edge| *edge > minute)
        .min()
        .map(|edge| edge - minute);
    html! {
        section.now.screen aria-label="Now" data-anew=[anew] {
            @if let Some(step) = shown {
                p.when { "Now, " (lanes::clock(minute)) ". " (step.batch) "." }
                p.far { (step.title) }
                p.how { "until " (step.ends) @if !step.uses.is_empty() { ", with " (step.uses) } }
            } @else if let Some(step) = next {
                p.when { "Now, " (lanes::clock(minute)) ". Nothing asks for you." }
                p.far { "At " (step.starts) ": " (step.title) }
                p.how { (step.batch) }
            } @else {
                p.when { "Now, " (lanes::clock(minute)) "." }
                p.far { "The day is done." }
            }
            @for step in running.iter().filter(|step| shown.is_some_and(|shown| !std::ptr::eq(**step, shown))) {
                p.note { (step.title) ", " (step.batch) ", until " (step.ends) @if step.unattended { ", needs nobody" } }
            }
            @if let (Some(_), Some(step)) = (shown, next) { p.note { "Next, at " (step.starts) ": " (step.title) ", " (step.batch) } }
        }
    }
}

fn chart(view: &DayView, now: Option<i64>) -> Chart {
    let number = |from: i64, title: &str, batch: &str| {
        view.steps
            .iter()
            .position(|step| step.from == from && step.title == title && step.batch == batch)
            .map(|index| index + 1)
    };
    Chart {
        from: view.from,
        to: view.to,
        now: now.filter(|minute| (view.from..=view.to).contains(minute)),
        lanes: view
            .lanes
            .iter()
            .map(|lane| Lane {
                name: lane.name.clone(),
                detail: String::new(),
                blocks: lane
                    .blocks
                    .iter()
                    .map(|block| Block {
                        from: block.from,
                        to: block.to,
                        title: block.title.clone(),
                        number: number(block.from, &block.title, &block.batch),
                        alone: block.unattended,
                        hold: block.held,
                    })
                    .collect(),
            })
            .collect(),
    }
}

fn steps(view: &DayView) -> Markup {
    let mut batches: Vec<(i64, &str)> = Vec::new();
    for (id, title) in view
        .steps
        .iter()
        .filter_map(|step| Some((step.batch_id?, step.batch.as_str())))
    {
        if !batches.iter().any(|batch| batch.0 == id) {
            batches.push((id, title));
        }
    }
    html! {
        ol.steps {
            @for step in &view.steps {
                li {
                    span { (step.title) @if !step.batch.is_empty() { ", " (step.batch) } " " span.note { (with(step)) } }
                    span.who { (step.starts) " to " (step.ends) }
                    @if step.stop_point { span.stop { "A good place to stop." } }
                }
            }
        }
        @if !batches.is_empty() {
            p.note.screen { "How each is made:" }
            div.loose.screen { @for (id, title) in batches { a.go href=(format!("/batch/{id}")) { (title) } } }
        }
    }
}

/// What a step uses, and whether it can be left alone.
fn with(step: &DayStep) -> String {
    match (step.uses.is_empty(), step.unattended) {
        (true, true) => "needs nobody".to_owned(),
        (false, true) => format!("{}, needs nobody", step.uses),
        _ => step.uses.clone(),
    }
}

fn another_day(view: &DayView) -> Markup {
    html! {
        form.form autocomplete="off" method="get" action="/day" {
            (Field { name: "date", label: "A day with batches", value: &view.date, ..Field::default() }.list(&pairs(&view.days), None))
            div.row { (send("Show that day", false)) }
        }
    }
}

fn make(frame: &Frame, view: &DayView) -> Markup {
    html! {
        form autocomplete="off" method="post" action="/day" {
            (hidden("date", &view.date))
            (frame.token())
            (send(if view.steps.is_empty() { "Lay the day out" } else { "Lay it out anew" }, view.steps.is_empty()))
        }
    }
}
