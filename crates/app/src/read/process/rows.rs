//! The printed rows round an answer: the other bands of its series, the other jars, packs and
//! methods at the same place, and all rows of the food.

use super::choose::{Chosen, serves};
use super::{Question, address};
use crate::read::house::jar_words;
use crate::read::verdict;
use crate::view::process::{BesideLine, ProcessView, RowLine};
use reference::{DoubtVerdict, FoodRow, Mark, Pack, ProcessRow, Reference, TablePack};

/// Key of the row that the plate shows; none where it refuses or shows the figure of another table.
pub(super) fn answering(
    reference: &Reference,
    view: &ProcessView,
    food: &FoodRow,
    chosen: &Chosen<'_>,
) -> Option<String> {
    let plate = view.answer.as_ref()?;
    let (minutes, low) = (plate.minutes?, plate.band_low_ft?);
    reference
        .processes_for(&food.food)
        .into_iter()
        .filter(|row| row.method == chosen.row_method() && i64::from(row.low_ft) == low)
        .filter(|row| i64::from(row.minutes) == minutes)
        .filter(|row| row.jar.volume() >= chosen.jar.volume())
        .filter(|row| serves(reference, row, chosen.pack))
        .min_by_key(|row| (row.jar.volume(), row.psi, row.option))
        .map(ProcessRow::key)
}

/// Fills the tables of the view in.
pub(super) fn fill(
    view: &mut ProcessView,
    reference: &Reference,
    question: &Question<'_>,
    chosen: &Chosen<'_>,
    answering: Option<&str>,
) {
    let rows = reference.processes_for(&question.food.food);
    let line = |row: &ProcessRow| row_line(reference, row, Some(row.key().as_str()) == answering);
    // The series of the answer, or, where nothing answers, that of what was asked.
    let of_answer = rows
        .iter()
        .find(|row| Some(row.key().as_str()) == answering);
    let of_question = || {
        rows.iter().find(|row| {
            row.method == chosen.row_method()
                && row.jar == chosen.jar
                && serves(reference, row, chosen.pack)
        })
    };
    if let Some(first) = of_answer.or_else(of_question) {
        view.bands = rows
            .iter()
            .filter(|row| row.series() == first.series() && row.option == first.option)
            .map(|row| line(row))
            .collect();
    }
    view.rows = rows.iter().map(|row| line(row)).collect();
    view.beside = beside(reference, question, chosen, &rows, answering);
}

/// One line for each series of the food with a row at this place.
fn beside(
    reference: &Reference,
    question: &Question<'_>,
    chosen: &Chosen<'_>,
    rows: &[&ProcessRow],
    answering: Option<&str>,
) -> Vec<BesideLine> {
    let mut seen: Vec<String> = Vec::new();
    let mut lines = Vec::new();
    for row in rows {
        if seen.contains(&row.series()) {
            continue;
        }
        seen.push(row.series());
        let pack = match row.pack {
            TablePack::Raw => Pack::Raw,
            TablePack::Hot => Pack::Hot,
            TablePack::Any => chosen.pack,
        };
        let Ok(found) = safety::look_up(
            reference,
            &row.food,
            pack,
            row.jar,
            row.method,
            question.elevation,
        ) else {
            continue;
        };
        let Some(shown) = found
            .pairs
            .iter()
            .find(|shown| shown.pair.minutes == found.minutes && shown.pair.psi == found.psi)
        else {
            continue;
        };
        let printed = rows.iter().find(|row| row.key() == shown.pair.row_key);
        let mut changes = vec![("jar", row.jar.as_str()), ("pack", pack.as_str())];
        if row.method != chosen.row_method() {
            changes.extend([("method", row.method.as_str()), ("canner", "")]);
        }
        lines.push(BesideLine {
            asks: address::with(question, &changes),
            title: format!(
                "{}, {}, {}",
                jar_words(row.jar, 1),
                match row.pack {
                    TablePack::Any => "raw or hot pack",
                    TablePack::Raw => "raw pack",
                    TablePack::Hot => "hot pack",
                },
                verdict::method_words(row.method)
            ),
            time: match found.psi {
                None => format!("{} minutes", found.minutes),
                Some(psi) => format!("{} minutes at {psi} psi", found.minutes),
            },
            page: page(row),
            mark: printed
                .map(|row| cell_mark(reference, row))
                .unwrap_or_default(),
            here: found
                .pairs
                .iter()
                .any(|shown| Some(shown.pair.row_key.as_str()) == answering),
        });
    }
    lines
}

fn row_line(reference: &Reference, row: &ProcessRow, answers: bool) -> RowLine {
    let several = reference
        .processes_for(&row.food)
        .iter()
        .any(|other| other.series() == row.series() && other.option != row.option);
    RowLine {
        pack: row.pack.as_str().to_owned(),
        jar: jar_words(row.jar, 1),
        method: verdict::method_words(row.method).to_owned(),
        band: verdict::band_words(row.low_ft, row.high_ft, ""),
        minutes: i64::from(row.minutes),
        psi: row.psi.map(|psi| psi.to_string()).unwrap_or_default(),
        pair: if several {
            row.option.to_string()
        } else {
            String::new()
        },
        page: page(row),
        mark: cell_mark(reference, row),
        answers,
    }
}

/// "p. 3-6", or the source's own key where the row stands outside the guide.
fn page(row: &ProcessRow) -> String {
    if row.guide == "other" {
        row.source.clone()
    } else {
        format!("p. {}", row.page)
    }
}

/// How this cell, and no other, was read: empty where it stands clear in the 2015 text.
pub(super) fn cell_mark(reference: &Reference, row: &ProcessRow) -> String {
    let mut marks = Vec::new();
    if row.mark != Mark::Text2015 {
        marks.push("older copy".to_owned());
    }
    for doubt in reference.doubts("processes", &row.key()) {
        match (doubt.verdict, doubt.only_if()) {
            (DoubtVerdict::ShowOnly, None) => marks.push("doubtful, shown only".to_owned()),
            (DoubtVerdict::ShowOnly, Some((_, answer))) => {
                marks.push(format!("not for {}", answer.replace('-', " ")));
            }
            (DoubtVerdict::PermitMarked, _) if marks.is_empty() => {
                marks.push("doubtful".to_owned());
            }
            (DoubtVerdict::PermitMarked, _) => {}
        }
    }
    marks.join("; ")
}
