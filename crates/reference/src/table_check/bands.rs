//! Elevation bands of a series: they start at 0 ft and follow one another without hole or overlap.
//!
//! A series may end (dial tables at 8,000 ft, some weighted options at 1,000 ft): that is no hole.

use crate::problem::TableProblem;
use crate::rows::ProcessRow;
use crate::tables::Reference;
use std::collections::BTreeMap;

/// The rows of each series and option, by rising lower edge.
pub(super) fn series(reference: &Reference) -> BTreeMap<(String, u8), Vec<&ProcessRow>> {
    let mut all: BTreeMap<(String, u8), Vec<&ProcessRow>> = BTreeMap::new();
    for row in &reference.processes {
        all.entry((row.series(), row.option)).or_default().push(row);
    }
    for rows in all.values_mut() {
        rows.sort_by_key(|row| (row.low_ft, row.line));
    }
    all
}

/// Reports holes, overlaps and series that do not start at sea level.
pub fn check(reference: &Reference, found: &mut Vec<TableProblem>) {
    for rows in series(reference).values() {
        let first = rows[0];
        if first.low_ft != 0 {
            found.push(fault(
                first,
                "band-start",
                "the series does not start at 0 ft".to_owned(),
            ));
        }
        for row in rows {
            if row.high_ft.is_some_and(|high| high <= row.low_ft) {
                found.push(fault(
                    row,
                    "band-overlap",
                    "the band ends where it starts".to_owned(),
                ));
            }
        }
        for pair in rows.windows(2) {
            let (below, above) = (pair[0], pair[1]);
            match below.high_ft {
                Some(high) if above.low_ft == high + 1 => {}
                Some(high) if above.low_ft > high + 1 => found.push(fault(
                    above,
                    "band-hole",
                    format!("nothing between {high} and {} ft", above.low_ft),
                )),
                _ => found.push(fault(
                    above,
                    "band-overlap",
                    format!(
                        "overlaps the band {} ft of line {}",
                        below.band_text(),
                        below.line
                    ),
                )),
            }
        }
    }
}

pub(super) fn fault(row: &ProcessRow, rule: &'static str, what: String) -> TableProblem {
    TableProblem::new(
        "process/processes.csv",
        row.line,
        rule,
        format!("{}: {what}", row.key()),
    )
}
