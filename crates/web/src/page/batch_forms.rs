//! What can be written down on a batch: set up, start, outcome, seal check.

use crate::frame::Frame;
use crate::part::field::{Field, hidden, send};
use crate::part::spread;
use app::view::batch::{BatchView, TickLine};
use maud::{Markup, html};

/// Draws the forms that fit the batch's state.
pub fn draw(frame: &Frame, view: &BatchView) -> Markup {
    html! {
        @match (view.state.as_str(), view.id) {
            ("trial", None) => {
                @if !view.asks.is_empty() { (asks(frame, view)) }
                @if view.verdict.kind != "refusal" { (set_up(frame, view)) }
            }
            ("planned", Some(id)) => (start(frame, view, id)),
            ("started", Some(id)) => (finish(frame, view, id)),
            _ => {}
        }
        @if let (true, Some(id)) = (view.seal_check_due && !view.disposal_only, view.id) { (seals(frame, view, id)) }
    }
}

/// What can be chosen before the gate is asked: the acid, and the food's own questions.
fn asks(frame: &Frame, view: &BatchView) -> Markup {
    let filled = &frame.filled;
    spread(
        "To be answered",
        html! { p { "The gate takes nothing for granted." } },
        html! {
            form.form #asks autocomplete="off" method="get" action="/batch/new" {
                @for name in ["recipe", "jar", "produce", "batches", "jars_count", "have", "pot", "canner"] { (hidden(name, filled.value(name, ""))) }
                @for ask in &view.asks {
                    (Field { name: &ask.name, label: &ask.question, value: &ask.chosen, ..Field::default() }
                        .ask(&ask.choices.iter().map(|choice| (choice.key.as_str(), choice.title.as_str())).collect::<Vec<_>>()))
                }
                div.row { (send("Ask again", false)) }
            }
        },
    )
}

fn set_up(frame: &Frame, view: &BatchView) -> Markup {
    let filled = &frame.filled;
    spread(
        "Set it up",
        html! { p { "Nothing leaves a lot before the batch is started." } },
        html! {
            form.form #set-up autocomplete="off" method="post" action="/batch/new" {
                (frame.token())
                (hidden("recipe", &view.recipe))
                (hidden("jar", filled.value("jar", &view.jar)))
                (hidden("produce", filled.value("produce", "")))
                (hidden("batches", filled.value("batches", "")))
                (hidden("jars_count", filled.value("jars_count", "")))
                (hidden("have", filled.value("have", "")))
                (hidden("pot", filled.value("pot", "")))
                (hidden("canner", filled.value("canner", "")))
                (hidden("acid", filled.value("acid", "")))
                // What the food's own questions were answered with goes along unchanged.
                @for (name, value) in filled.typed.iter().flat_map(|typed| &typed.0).filter(|(name, _)| name.starts_with("answers.")) { (hidden(name, value)) }
                (Field { name: "day", label: "On which day", value: filled.value("day", ""), wrong: filled.wrong("day"), hint: "today when left empty", ..Field::default() }.date())
                div.row { (send("Set this batch up", true)) }
            }
        },
    )
}

fn ticks(ticks: &[TickLine]) -> Markup {
    html! {
        ul.ticks.all {
            @for tick in ticks {
                li { (Field { name: "ticks", label: &tick.text, value: &tick.key, ..Field::default() }.tick(!tick.done.is_empty(), &tick.done)) }
            }
        }
    }
}

fn start(frame: &Frame, view: &BatchView, id: i64) -> Markup {
    let open = view
        .ticks
        .iter()
        .filter(|tick| tick.done.is_empty())
        .count();
    spread(
        "Begin",
        html! { @if open > 0 { p { (open) " ticks are open; each keeps who and when. Those left open are asked again with the outcome." } } },
        html! {
            form.form.keep #start autocomplete="off" method="post" action=(format!("/batch/{id}/start")) {
                (frame.token())
                (ticks(&view.ticks))
                div.row { (send("Start: the food goes into the pot", true)) }
            }
        },
    )
}

fn finish(frame: &Frame, view: &BatchView, id: i64) -> Markup {
    let filled = &frame.filled;
    let field = |name: &'static str, label: &'static str, hint: &'static str| Field {
        name,
        label,
        hint,
        value: filled.value(name, ""),
        wrong: filled.wrong(name),
        ..Field::default()
    };
    let heat = view.verdict.minutes.is_some();
    spread(
        "What came out",
        html! {
            p { "Count what stands. What is not counted is not there." }
            @if heat { p { strong { "A tick left open, or minutes left empty or too few, puts the batch on hold: not to be eaten." } } }
        },
        html! {
            form.form #finish autocomplete="off" method="post" action=(format!("/batch/{id}/finish")) {
                (frame.token())
                (ticks(&view.ticks))
                @for container in &view.containers {
                    @let name = format!("containers.{}", container.key);
                    (Field { name: &name, label: &container.title, value: filled.value(&name, ""), wrong: filled.wrong(&name), ..Field::default() }.tally(0, None))
                }
                @if heat { (field("partial", "A partial jar, to the fridge", "such as 1 1/2 cups; empty when none").text("text")) }
                (field("trimmings", "Trimmings, skins, stones", "weight, such as 3 lb; empty when not weighed").text("text"))
                (field("trimmings_to", "They went to", "").list(&[("compost", "compost"), ("animals", "animals")], None))
                (field("cooked_off", "Boiled or dried away", "weight, if weighed").text("text"))
                @if heat {
                    (field("minutes", "Minutes the load was processed", "as the clock kept them").text("numeric"))
                    (field("lifted", "Jars lifted at", "today; the clock of a lid that does not seal runs from here").time())
                }
                div.all { (field("note", "Note", "").text("text")) }
                div.row { (send("Write the outcome down", true)) }
            }
        },
    )
}

fn seals(frame: &Frame, view: &BatchView, id: i64) -> Markup {
    let filled = &frame.filled;
    let ways = [
        ("", "nowhere yet: they wait, and the answer is shown"),
        ("fridge", "to the fridge"),
        ("freezer", "to the freezer"),
        ("discarded", "thrown away"),
    ];
    spread(
        "Check the seals",
        html! { p { "The day after. A seal does not make a jar safe; only its process does." } },
        html! {
            form.form #seals autocomplete="off" method="post" action=(format!("/batch/{id}/seals")) {
                (frame.token())
                @for container in &view.containers {
                    @let name = format!("failed.{}", container.key);
                    @let label = format!("{} that did not seal", container.title);
                    (Field { name: &name, label: &label, value: filled.value(&name, "0"), wrong: filled.wrong(&name), ..Field::default() }.tally(0, None))
                }
                (Field { name: "to", label: "Those go", value: filled.value("to", ""), wrong: filled.wrong("to"), ..Field::default() }.list(&ways, None))
                (Field { name: "lifted_day", label: "Jars lifted on", value: filled.value("lifted_day", ""), hint: "where the outcome does not say it", ..Field::default() }.date())
                (Field { name: "lifted", label: "at", value: filled.value("lifted", ""), wrong: filled.wrong("lifted"), ..Field::default() }.time())
                div.row { (send("Write the check down", true)) }
            }
        },
    )
}
