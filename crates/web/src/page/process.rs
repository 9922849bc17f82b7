//! Process: how long, and at what pressure? A look-up of the printed tables, free to use without a house.

use super::{pairs, verdict, whole};
use crate::frame::Frame;
use crate::part::amount::fractions;
use crate::part::field::{Field, send};
use crate::part::table::{Row, figures, table, words};
use crate::part::{Opening, Section, opening, spread};
use app::view::process::ProcessView;
use maud::{Markup, html};

/// Draws the page.
pub fn draw(frame: &Frame, view: &ProcessView) -> Markup {
    let answer = match &view.answer {
        None => "Five choices, then one plate.",
        Some(plate) if plate.minutes.is_some() => "One printed row answers.",
        Some(_) => "No printed row answers.",
    };
    whole(
        frame,
        "Process",
        Section::Process,
        html! {
            (opening(Opening {
                day: "Look-up",
                verge: html! { p { "No figure on this page is worked out: each is a row of a tested table, or there is none." } },
                question: "How long, and at what pressure?",
                answer,
                lead: html! {},
                actions: html! {},
            }))
            (spread("The question", html! { p { "Elevation has no default: below it the water boils at another heat." } }, question(frame, view)))
            @if let Some(plate) = &view.answer { (spread("The answer", html! { p { "A look-up arms nothing: a batch asks the gate again." } }, verdict::draw(plate))) }
            @if !view.headspace.is_empty() || !view.acid.is_empty() || !view.cautions.is_empty() {
                (spread("With it", html! {}, html! {
                    @if !view.headspace.is_empty() { p { "Headspace " (fractions(&view.headspace)) } }
                    @if !view.acid.is_empty() { h3 { "Acid, one of these, whole" } ul.dash { @for acid in &view.acid { li { (fractions(acid)) } } } }
                    @if !view.cautions.is_empty() { h3 { "Mind" } ul.dash { @for caution in &view.cautions { li { (caution) } } } }
                }))
            }
            @if !view.rows.is_empty() { (spread("The whole line", html! { p { "As printed, so that you can check this page against the book on your own shelf." } }, rows(view))) }
        },
    )
}

fn question(frame: &Frame, view: &ProcessView) -> Markup {
    let filled = &frame.filled;
    let asked = &view.asked;
    let field = |name: &'static str, label: &'static str, hint: &'static str, value| Field {
        name,
        label,
        hint,
        value,
        wrong: filled.wrong(name),
        ..Field::default()
    };
    html! {
        form.form autocomplete="off" method="get" action="/process" {
            (Field { required: true, ..field("food", "1. Food", "", &asked.food) }.list(&pairs(&view.foods), Some("choose a food")))
            (field("pack", "2. Pack", "", &asked.pack).list(&pairs(&view.packs), Some("not said")))
            (field("jar", "3. Jar", "", &asked.jar).list(&pairs(&view.jars), Some("choose a jar")))
            (field("method", "4. Canner", "", &asked.method).list(&pairs(&view.methods), Some("choose a canner")))
            (field("elevation", "5. Elevation", "such as 2500ft, 305 m or 950 ft ± 60", &asked.elevation).text("text"))
            div.row { (send("Look it up", true)) }
        }
    }
}

fn rows(view: &ProcessView) -> Markup {
    let pressure = view.rows.iter().any(|row| !row.psi.is_empty());
    let marked = view.rows.iter().any(|row| !row.mark.is_empty());
    let mut columns = vec![
        words("Canner"),
        words("pack"),
        words("jar"),
        words("elevation"),
        figures("minutes"),
    ];
    if pressure {
        columns.push(figures("psi"));
    }
    columns.push(words("page"));
    if marked {
        columns.push(words("mark"));
    }
    let lines = view
        .rows
        .iter()
        .map(|row| {
            let mut cells = vec![
                html! { (row.method) },
                html! { (row.pack) },
                html! { (row.jar) },
                html! { (row.band) },
                html! { (row.minutes) },
            ];
            if pressure {
                cells.push(html! { (row.psi) });
            }
            cells.push(html! { (row.page) });
            if marked {
                cells.push(html! { (row.mark) });
            }
            Row {
                cells,
                this: row.answers,
            }
        })
        .collect();
    table("All printed rows of this food", &columns, lines)
}
