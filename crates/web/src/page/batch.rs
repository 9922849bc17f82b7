//! Batch: how exactly is this batch made?

use super::batch_list::{Offers, state_class, state_mark, try_form};
use super::{batch_forms, incident_forms, verdict, whole};
use crate::frame::Frame;
use crate::part::amount::{amount, fractions};
use crate::part::{Opening, Section, opening, spread};
use crate::picture::jar::{self, Filling, Jar};
use app::view::batch::{BatchView, StepLine};
use maud::{Markup, html};

/// Draws the page of one batch, or, with what else is offered, of one that is only being tried out.
pub fn draw(frame: &Frame, view: &BatchView, offers: Option<&Offers<'_>>) -> Markup {
    let number = view
        .id
        .map_or_else(|| "Tried out".to_owned(), |id| format!("Batch {id}"));
    let answer = format!("{}: {}", view.title, lower_first(&view.answer));
    whole(
        frame,
        &view.title,
        Section::Batch,
        html! {
            (opening(Opening {
                day: &view.day,
                verge: html! {
                    p { (number) }
                    p { span.mark.state.(state_class(&view.state)) { (state_mark(&view.state)) span { (view.state) } } }
                    p.src { (view.source) }
                },
                question: "How exactly is this batch made?",
                answer: &answer,
                lead: html! { (view.lead) },
                actions: actions(view),
            }))
            @if !view.disposal_only {
                (spread("The verdict", html! { p { "Looked up in the tested tables, never worked out." } }, html! {
                    (verdict::draw(&view.verdict))
                    @if !view.cautions.is_empty() { ul.dash { @for caution in &view.cautions { li { (caution) } } } }
                }))
            }
            @if !view.lines.is_empty() || !view.takes.is_empty() { (spread("What to take", html! { p { "Scaled in exact fractions, then turned into the spoons and cups of the drawer. Acid never rounds down." } }, takes(view))) }
            @if view.jars.is_some() || view.acid.is_some() || view.loads.is_some() { (spread("Jars and acid", html! {}, facts(view))) }
            @if !view.steps.is_empty() || view.headspace.is_some() { (spread("Step by step", html! { @if let Some(headspace) = &view.headspace { p { "Headspace " (fractions(headspace)) } } }, how(view))) }
            (incident_forms::of_batch(frame, view))
            (batch_forms::draw(frame, view))
            @if let Some(offers) = offers { (spread("Try it otherwise", html! { p { "This writes nothing." } }, try_form(frame, offers))) }
            @if let Some(outcome) = &view.outcome {
                (spread("What came of it", html! {}, html! {
                    p.lead { (outcome.words) }
                    @for line in [&outcome.against, &outcome.factor, &outcome.seals].into_iter().filter(|line| !line.is_empty()) { p { (line) } }
                    @if !outcome.places.is_empty() { dl.facts { @for (place, weight) in &outcome.places { div { dt { (place) } dd { (weight.us) small { (weight.metric) } } } } } }
                }))
            }
            @if !view.events.is_empty() { (spread("The record", html! { p { "Newest first. A correction is written beside, never over." } }, html! { ul.ruled { @for event in &view.events { li { (event) } } } })) }
        },
    )
}

/// The answer after a colon: a first letter is lowered where it is a plain word.
fn lower_first(text: &str) -> String {
    let mut letters = text.chars();
    match (letters.next(), letters.clone().next()) {
        (Some(first), Some(second)) if first.is_uppercase() && second.is_lowercase() => {
            first.to_lowercase().chain(letters).collect()
        }
        _ => text.to_owned(),
    }
}

fn actions(view: &BatchView) -> Markup {
    let first = match view.state.as_str() {
        "planned" => Some(("#start", "Begin at the sink")),
        "started" => Some(("#finish", "Write down what came out")),
        "trial" if view.verdict.kind != "refusal" => Some(("#set-up", "Set this batch up")),
        _ if view.seal_check_due => Some(("#seals", "Check the seals")),
        _ => None,
    };
    html! {
        @if let Some((address, words)) = first { a.btn.first href=(address) { (words) } }
        @if let (true, Some(id)) = (view.may_go_wrong, view.id) { a.btn href=(format!("/incident?batch={id}")) { "Something went wrong" } }
        @if let (false, Some(id)) = (view.disposal_only, view.id) { a.btn href=(format!("/batch/{id}/print")) { "Card and labels" } }
        button type="button" hidden data-print { "Print the card" }
        @if first.is_none() { a.btn href="/batch" { "All batches" } }
    }
}

fn takes(view: &BatchView) -> Markup {
    html! {
        @if !view.takes.is_empty() { ul.dash { @for take in &view.takes { li { (take) } } } }
        @if !view.lines.is_empty() {
            table.stack {
                caption { "Everything the batch takes, in kitchen measures and metric" }
                thead { tr { th scope="col" { "what" } th.n scope="col" { "take" } th scope="col" { "notes" } } }
                tbody {
                    @for line in &view.lines {
                        tr {
                            th scope="row" { (line.name) }
                            td.n { (amount(&fractions(&line.kitchen), &line.metric)) }
                            td.all.note {
                                @let notes = [note("exactly ", &line.exact, line.exact == line.kitchen), note("", &line.per_jar, false), note("", &line.role, false)];
                                (notes.into_iter().flatten().collect::<Vec<_>>().join("; "))
                                @if !line.short.is_empty() { " " strong { (line.short) } }
                            }
                        }
                    }
                }
            }
        }
    }
}

fn note(before: &str, words: &str, skip: bool) -> Option<String> {
    (!words.is_empty() && !skip).then(|| format!("{before}{}", fractions(words)))
}

fn facts(view: &BatchView) -> Markup {
    html! {
        dl.facts {
            @if let Some(jars) = &view.jars {
                div { dt { "Expect" } dd { (range(jars.low, jars.high)) small { (jars.words) } } }
                div { dt { "Heat" } dd { (jars.heat) " jars" small { (jars.lids) } } }
            }
            @if let Some(loads) = &view.loads { div { dt { "Loads" } dd { small { (loads) } } } }
        }
        @if let Some(acid) = &view.acid {
            h3 { "Acid, one of these, whole" }
            ul.ruled { @for choice in &acid.choices { li.lead { (fractions(choice)) } } }
            p.src { (acid.source) }
        }
        @if let Some(jars) = &view.jars {
            @if !jars.partial.is_empty() { p { (fractions(&jars.partial)) } }
            @if !view.scaling.is_empty() { ul.dash { @for line in &view.scaling { li { (fractions(line)) } } } }
            @if !jars.basis.is_empty() { ul.dash.note.screen { @for line in &jars.basis { li { (line) } } } }
        }
    }
}

fn range(low: i64, high: i64) -> String {
    if low == high {
        low.to_string()
    } else {
        format!("{low} to {high}")
    }
}

fn how(view: &BatchView) -> Markup {
    let list = html! { ol.steps { @for step in &view.steps { (step_line(step)) } } };
    let Some((headspace, hundredths)) = view.headspace.as_deref().zip(view.headspace_hundredths)
    else {
        return list;
    };
    let (first, metric) = headspace
        .split_once(" (")
        .map_or((headspace, ""), |(first, rest)| {
            (first, rest.trim_end_matches(')'))
        });
    html! {
        div.pair {
            (list)
            (jar::draw(&Jar {
                size: &format!("one {}", view.jar.replace('-', " ")),
                quarts: quarts_of(&view.jar),
                headspace_hundredths: hundredths,
                headspace: &fractions(first),
                headspace_metric: metric,
                filling: Filling::Smooth,
                holds: Vec::new(),
            }))
        }
    }
}

/// How large a jar is drawn; a key of no known kind is drawn as a pint.
fn quarts_of(jar: &str) -> f64 {
    match jar {
        "half-pint" | "ml-250" | "250-ml" => 0.25,
        "12-ounce" | "ounce-12" => 0.375,
        "pint-and-half" => 0.75,
        "quart" | "litre-1" | "1-litre" => 1.0,
        "half-gallon" => 1.2,
        _ => 0.5,
    }
}

fn step_line(step: &StepLine) -> Markup {
    html! {
        li {
            span { (step.text) }
            span.who { (step.time) }
            @if !step.stop.is_empty() { span.stop { (step.stop) } }
        }
    }
}
