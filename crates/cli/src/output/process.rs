//! The tested process as text, and the proof print of all of them.

use super::{heading, pad};
use app::PrintedSeries;
use app::view::process::{ProcessView, RowLine};

/// The answer, what a permit still wants, then the rows round it.
pub fn process(view: &ProcessView) -> String {
    let mut out = String::new();
    if view.answer.is_none() {
        heading(&mut out, "Process: foods by the names that --food takes");
        for group in &view.groups {
            out.push_str(&format!("\n{}\n", group.title));
            for food in &group.foods {
                out.push_str(&format!("  {} {}\n", pad(&food.key, 40), food.title));
            }
        }
        return out;
    }
    heading(&mut out, &format!("Process: {}", view.asked.food));
    if let Some(answer) = &view.answer {
        out.push_str(&super::batch::verdict(answer));
    }
    if !view.filled_in.is_empty() {
        out.push_str(&format!("  Not said, filled in: {}\n", view.filled_in));
    }
    for offer in view.offers.iter().filter(|offer| !offer.asks.is_empty()) {
        out.push_str(&format!(
            "  Try: {} ({})\n",
            offer.text,
            options(&offer.asks)
        ));
    }
    if let Some(open) = &view.open {
        out.push_str(&format!("  For a permit [{}]: {}\n", open.code, open.text));
        out.push_str(&format!("    {}\n", open.instead));
        for answer in &open.answers {
            out.push_str(&format!(
                "    {} ({})\n",
                answer.title,
                options(&answer.asks)
            ));
        }
    }
    if !view.headspace.is_empty() {
        out.push_str(&format!("  Headspace: {}\n", view.headspace));
    }
    for acid in &view.acid {
        let mark = if acid.mark.is_empty() {
            String::new()
        } else {
            format!("; {}", acid.mark)
        };
        out.push_str(&format!("  Acid: {} ({}{mark})\n", acid.text, acid.source));
    }
    for question in &view.questions {
        out.push_str(&format!("  Asks: {}\n", question.text));
        for answer in &question.answers {
            let mark = if answer.key == question.given {
                ">"
            } else {
                "-"
            };
            out.push_str(&format!("    {mark} {}\n", answer.title));
        }
    }
    if !view.bands.is_empty() {
        out.push_str("\nThe bands of this row\n");
        out.push_str(&rows(&view.bands));
    }
    if !view.beside.is_empty() {
        out.push_str("\nOther jars, packs and canners here\n");
        for line in &view.beside {
            let here = if line.here { ">" } else { " " };
            out.push_str(&format!(
                "{here} {} {} {} {}\n",
                pad(&line.title, 50),
                pad(&line.time, 22),
                line.page,
                line.mark
            ));
        }
    }
    if !view.rows.is_empty() {
        out.push_str("\nRows as printed\n");
        out.push_str(&rows(&view.rows));
    }
    if !view.here.is_empty() {
        out.push('\n');
        for line in &view.here {
            out.push_str(&format!("{line}\n"));
        }
    }
    for caution in &view.cautions {
        out.push_str(&format!("! {caution}\n"));
    }
    out
}

fn rows(rows: &[RowLine]) -> String {
    let mut out = String::new();
    for row in rows {
        let here = if row.answers { ">" } else { " " };
        let psi = if row.psi.is_empty() {
            String::new()
        } else {
            format!("{:>2} psi", row.psi)
        };
        let pair = if row.pair.is_empty() {
            String::new()
        } else {
            format!("pair {} ", row.pair)
        };
        let line = format!(
            "{here} {:<4} {:<15} {:<24} {:<34} {:>3} min {psi:>6} {pair}{} {}",
            row.pack, row.jar, row.method, row.band, row.minutes, row.page, row.mark
        );
        out.push_str(line.trim_end());
        out.push('\n');
    }
    out
}

/// A whole question as the options that ask it.
fn options(asks: &[(String, String)]) -> String {
    asks.iter()
        .map(|(field, word)| match field.as_str() {
            "sound" => "--sound-history".to_owned(),
            field => {
                let (option, word) = match field.strip_prefix("answers.") {
                    Some(question) => ("answer", format!("{question}={word}")),
                    None => (field, word.clone()),
                };
                if word.contains(' ') {
                    format!("--{option} \"{word}\"")
                } else {
                    format!("--{option} {word}")
                }
            }
        })
        .collect::<Vec<_>>()
        .join(" ")
}

/// Every printed row: a heading for each food, a line for each jar, the bands across. A star marks
/// a cell whose reading is not clear; what it means stands below the line.
pub fn printed(all: &[PrintedSeries]) -> String {
    let mut out = String::new();
    heading(
        &mut out,
        "Every process of the tables, to be held against the printed guide",
    );
    out.push_str("Cells are minutes, or minutes at pounds of pressure. * marks that one cell.\n");
    let mut food = "";
    let mut cells = 0;
    for series in all {
        if series.food != food {
            food = &series.food;
            out.push_str(&format!("\n{} [{}]\n", series.title, series.food));
        }
        let wide = |column: usize| {
            series
                .lines
                .iter()
                .filter_map(|line| line.cells.get(column))
                .chain(series.bands.get(column))
                .map(|text| text.chars().count())
                .max()
                .unwrap_or(0)
        };
        out.push_str(&format!("  {}", pad(&series.head, 40)));
        for (column, band) in series.bands.iter().enumerate() {
            out.push_str(&format!("  {}", pad(band, wide(column))));
        }
        out.push_str("  page\n");
        for line in &series.lines {
            out.push_str(&format!("    {}", pad(&line.jar, 38)));
            for (column, cell) in line.cells.iter().enumerate() {
                out.push_str(&format!("  {}", pad(cell, wide(column))));
            }
            out.push_str(&format!("  {}\n", line.page));
            for mark in &line.marks {
                out.push_str(&format!("      {mark}\n"));
            }
            cells += line.cells.len();
        }
    }
    out.push_str(&format!("\n{cells} rows.\n"));
    out
}
