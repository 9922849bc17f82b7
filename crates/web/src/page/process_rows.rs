//! The rows round an answer: its bands, what stands beside it, and the whole line.

use crate::part::table::{Row, figures, stacked, table, words};
use crate::part::{asking, spread};
use app::view::process::{BesideLine, ProcessView, RowLine};
use maud::{Markup, html};

/// Draws the bands, the other jars, packs and canners, and all rows folded away.
pub fn draw(view: &ProcessView) -> Markup {
    html! {
        @if !view.bands.is_empty() {
            (spread("By elevation", html! { p { "The same food, pack, jar and canner in every band; the one used is in full ink." } }, rows("The bands of this row", &view.bands, false)))
        }
        @if !view.beside.is_empty() {
            (spread("Beside it", html! { p { "Other jars, packs and canners at this elevation." } }, beside(&view.beside)))
        }
        @if !view.rows.is_empty() {
            (spread("The whole line", html! { p { "As printed, so that you can check this page against the book on your own shelf." } }, html! {
                details { summary { "All " (view.rows.len()) " printed rows of this food" } (rows("All printed rows of this food", &view.rows, true)) }
            }))
        }
    }
}

fn beside(lines: &[BesideLine]) -> Markup {
    let columns = [words("Jar, pack, canner"), words("time"), words("page")];
    let rows = lines
        .iter()
        .map(|line| Row {
            cells: vec![
                html! { a.go href=(asking("/process", &line.asks)) { (line.title) } },
                html! { (line.time) },
                html! { (page(&line.page)) @if !line.mark.is_empty() { " " span.note { (line.mark) } } },
            ],
            this: line.here,
        })
        .collect();
    stacked("Other jars, packs and canners here", &columns, rows)
}

/// A page number is never broken over a line; the name of another source may be.
fn page(page: &str) -> Markup {
    html! { span.amt[page.starts_with("p. ")] { (page) } }
}

fn rows(caption: &str, rows: &[RowLine], all: bool) -> Markup {
    let pressure = rows.iter().any(|row| !row.psi.is_empty());
    let pairs = rows.iter().any(|row| !row.pair.is_empty()) && all;
    let marked = rows.iter().any(|row| !row.mark.is_empty());
    let mut columns = vec![words("Elevation")];
    if all {
        columns.extend([words("canner"), words("pack"), words("jar")]);
    }
    if pairs {
        columns.push(figures("pair"));
    }
    columns.push(figures("minutes"));
    if pressure {
        columns.push(figures("psi"));
    }
    columns.push(words("page"));
    if marked {
        columns.push(words("mark"));
    }
    let lines = rows
        .iter()
        .map(|row| {
            let mut cells = vec![html! { (row.band) }];
            if all {
                cells.extend([
                    html! { (row.method) },
                    html! { (row.pack) },
                    html! { (row.jar) },
                ]);
            }
            if pairs {
                cells.push(html! { (row.pair) });
            }
            cells.push(html! { (row.minutes) });
            if pressure {
                cells.push(html! { (row.psi) });
            }
            cells.push(page(&row.page));
            if marked {
                cells.push(html! { (row.mark) });
            }
            Row {
                cells,
                this: row.answers,
            }
        })
        .collect();
    table(caption, &columns, lines)
}
