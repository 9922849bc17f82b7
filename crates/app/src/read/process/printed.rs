//! Every printed row: for comparing with the table's file, and laid out as the guide lays it out,
//! for holding against the book.

use super::rows::cell_mark;
use crate::read::house::jar_words;
use crate::read::verdict;
use crate::view::process::PrintedRow;
use reference::{ProcessRow, Reference};
use serde::Serialize;

/// Rows of one food, pack, method and printed pair, a line for each jar, the bands across.
#[derive(Debug, Clone, Serialize)]
pub struct PrintedSeries {
    /// Food key.
    pub food: String,
    /// Food as printed.
    pub title: String,
    /// "hot pack, boiling water", with the number of the pair where there are several.
    pub head: String,
    /// The bands, as heads of the columns: "0-1,000 ft".
    pub bands: Vec<String>,
    /// The jars.
    pub lines: Vec<PrintedLine>,
}

/// One jar of a series.
#[derive(Debug, Clone, Serialize)]
pub struct PrintedLine {
    /// The jar.
    pub jar: String,
    /// Minutes, or "minutes at psi", one for each band; a mark of doubt stands behind its own cell.
    pub cells: Vec<String>,
    /// Page, or the key of the source.
    pub page: String,
    /// What the marks mean, cell by cell.
    pub marks: Vec<String>,
}

/// Every printed row in the order of the table.
pub fn printed_rows() -> Vec<PrintedRow> {
    let reference = Reference::embedded();
    reference
        .processes()
        .iter()
        .map(|row| PrintedRow {
            row: row.clone(),
            doubts: reference
                .doubts("processes", &row.key())
                .into_iter()
                .map(|doubt| match doubt.only_if() {
                    None => format!("{}: {}", doubt.verdict, doubt.why),
                    Some((question, answer)) => {
                        format!("{} if {question} is {answer}: {}", doubt.verdict, doubt.why)
                    }
                })
                .collect(),
        })
        .collect()
}

/// Every printed row, grouped as the guide prints them.
pub fn printed_series() -> Vec<PrintedSeries> {
    let reference = Reference::embedded();
    let mut all: Vec<PrintedSeries> = Vec::new();
    for food in reference.foods() {
        let rows = reference.processes_for(&food.food);
        let mut heads: Vec<(String, Vec<String>)> = Vec::new();
        for row in &rows {
            let head = (head(row, &rows), bands(row, &rows));
            if !heads.contains(&head) {
                heads.push(head);
            }
        }
        for (title, across) in heads {
            let ours: Vec<&ProcessRow> = rows
                .iter()
                .copied()
                .filter(|row| head(row, &rows) == title && bands(row, &rows) == across)
                .collect();
            all.push(PrintedSeries {
                food: food.food.clone(),
                title: food.title.clone(),
                head: title,
                bands: across,
                lines: lines(reference, &ours),
            });
        }
    }
    all
}

fn head(row: &ProcessRow, rows: &[&ProcessRow]) -> String {
    let several = rows
        .iter()
        .any(|other| other.series() == row.series() && other.option != row.option);
    let pair = if several {
        format!(", pair {}", row.option)
    } else {
        String::new()
    };
    let pack = match row.pack.as_str() {
        "any" => "raw or hot",
        pack => pack,
    };
    format!("{pack} pack, {}{pair}", verdict::method_words(row.method))
}

/// The bands of a row's own series and pair, in order.
fn bands(row: &ProcessRow, rows: &[&ProcessRow]) -> Vec<String> {
    rows.iter()
        .filter(|other| other.series() == row.series() && other.option == row.option)
        .map(|other| match other.high_ft {
            Some(high) => format!(
                "{}-{} ft",
                verdict::thousands(other.low_ft),
                verdict::thousands(high)
            ),
            None => format!(
                "above {} ft",
                verdict::thousands(other.low_ft.saturating_sub(1))
            ),
        })
        .collect()
}

/// A line for each jar, its rows in the order of their bands.
fn lines(reference: &Reference, rows: &[&ProcessRow]) -> Vec<PrintedLine> {
    let mut lines: Vec<(reference::Jar, PrintedLine)> = Vec::new();
    for row in rows {
        let mark = cell_mark(reference, row);
        let mut cell = match row.psi {
            None => row.minutes.to_string(),
            Some(psi) => format!("{} at {psi} psi", row.minutes),
        };
        if !mark.is_empty() {
            cell.push('*');
        }
        let index = lines
            .iter()
            .position(|(jar, _)| *jar == row.jar)
            .unwrap_or_else(|| {
                lines.push((
                    row.jar,
                    PrintedLine {
                        jar: jar_words(row.jar, 1),
                        cells: Vec::new(),
                        page: row.page.clone(),
                        marks: Vec::new(),
                    },
                ));
                lines.len() - 1
            });
        if let Some((_, line)) = lines.get_mut(index) {
            if !mark.is_empty() {
                line.marks.push(format!("{cell} {mark}"));
            }
            if line.page != row.page && !line.page.ends_with(&format!(", {}", row.page)) {
                line.page = format!("{}, {}", line.page, row.page);
            }
            line.cells.push(cell);
        }
    }
    lines.into_iter().map(|(_, line)| line).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_print_holds_every_cell_once() {
        let reference = Reference::embedded();
        let series = printed_series();
        let cells: usize = series
            .iter()
            .flat_map(|series| &series.lines)
            .map(|line| line.cells.len())
            .sum();
        assert_eq!(cells, reference.processes().len());
        for series in &series {
            for line in &series.lines {
                assert_eq!(
                    line.cells.len(),
                    series.bands.len(),
                    "{} {}",
                    series.food,
                    line.jar
                );
            }
        }
        assert_eq!(printed_rows().len(), reference.processes().len());
    }

    #[test]
    fn a_mark_stands_at_its_own_cell_only() {
        // Only the 3,001 to 6,000 ft cell of this series was read in an older copy.
        let series = printed_series();
        let pie = series
            .iter()
            .find(|series| series.food == "blueberry-pie-filling")
            .unwrap();
        let marked: Vec<bool> = pie.lines[0]
            .cells
            .iter()
            .map(|cell| cell.ends_with('*'))
            .collect();
        assert_eq!(marked, [false, false, true, false]);
    }
}
