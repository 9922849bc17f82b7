//! Turns what the rules left into a permit: one printed row for each whole pair, or a refusal.

use super::{Candidate, Case, Draft};
use crate::codes::NO_SINGLE_ROW;
use crate::permit::{GATE_VERSION, Pair, Permit, PermitRecord};
use crate::refusal::Refusal;

/// The permit. The chosen pair is the one asked for, else the one with the least pressure.
pub(super) fn permit(case: &Case<'_>, draft: Draft<'_>) -> Result<Permit, Refusal> {
    let (chosen, pairs) = pairs(case, &draft)?;
    let Some(row_jar) = draft.row_jar else {
        return Err(no_single_row(case));
    };
    Ok(Permit::grant(PermitRecord {
        question: case.question.clone(),
        title: case.food.title.clone(),
        row_jar,
        row_method: case.row_method,
        chosen,
        pairs,
        water: draft.water,
        headspace_in: draft.headspace_in,
        acid: draft.acid,
        conditions: draft.conditions,
        keep_to: draft.keep_to,
        marks: draft.marks,
        rules: draft.rules,
        assumed: draft.assumed,
        cannot_know: draft.cannot_know,
        edition: case.reference.edition().to_owned(),
        gate_version: GATE_VERSION,
    }))
}

/// The pair of least pressure, and all pairs in order; two rows for one pair mean that a rule or
/// a table is at fault.
pub(crate) fn pairs(case: &Case<'_>, draft: &Draft<'_>) -> Result<(Pair, Vec<Pair>), Refusal> {
    let mut pairs: Vec<Pair> = draft.candidates.iter().map(pair).collect();
    pairs.sort_by_key(|pair| pair.option);
    let doubled = pairs
        .iter()
        .zip(pairs.iter().skip(1))
        .any(|(one, next)| one.option == next.option);
    let least = pairs.iter().min_by_key(|pair| (pair.psi, pair.option));
    match (least.cloned(), &draft.place) {
        (Some(least), Some(_)) if !doubled => Ok((least, pairs)),
        _ => Err(no_single_row(case)),
    }
}

fn pair(candidate: &Candidate<'_>) -> Pair {
    let row = candidate.row;
    let (row_key, source, page) = candidate
        .other_row
        .clone()
        .unwrap_or_else(|| (row.key(), row.source.clone(), row.page.clone()));
    Pair {
        option: row.option,
        minutes: candidate.minutes,
        psi: row.psi,
        dial_shows_psi: candidate.dial_shows_psi,
        band_low_ft: row.low_ft,
        band_high_ft: row.high_ft,
        row_key,
        source,
        page,
    }
}

fn no_single_row(case: &Case<'_>) -> Refusal {
    Refusal::new(
        NO_SINGLE_ROW,
        format!(
            "{}: the question does not lead to exactly one printed row.",
            case.food.title
        ),
        "Refrigerate or freeze the food, and report the fault.",
        "process/processes.csv",
    )
}
