//! The jar rule: a listed jar, a smaller one under the next listed row, never a larger one.

use super::offers::one_of;
use super::{Case, Draft};
use crate::codes::JAR_TOO_LARGE;
use crate::numbers::limit_source;
use crate::refusal::{Offer, Refusal};
use reference::{AcidClass, Jar};

/// Keeps the rows of the jar, or of the smallest listed jar that is not smaller.
pub(super) fn jar<'a>(case: &Case<'a>, draft: &mut Draft<'a>) -> Result<(), Refusal> {
    let jar = case.question.jar;
    let listed: Vec<Jar> = {
        let mut jars: Vec<Jar> = draft.candidates.iter().map(|c| c.row.jar).collect();
        jars.sort();
        jars.dedup();
        jars
    };
    let taken_as = metric_row(case, draft).unwrap_or(jar);
    let row_jar = listed
        .iter()
        .copied()
        .filter(|row| row.volume() >= taken_as.volume())
        .min_by_key(|row| row.volume());
    let Some(row_jar) = row_jar else {
        return Err(too_large(case, &listed));
    };
    if row_jar != jar && taken_as == jar {
        let rule = match (jar, row_jar) {
            (Jar::HalfPint, Jar::Pint) => "half-pint-uses-pint-time",
            (Jar::PintAndHalf, Jar::Quart) => "pint-and-half-uses-quart-time",
            _ => "table-jar-only",
        };
        draft.fired(
            "jar",
            format!("The {jar} jar takes the row of the {row_jar}, the next listed size."),
            limit_source(case.reference, "all", rule),
        );
    }
    draft.candidates.retain(|c| c.row.jar == row_jar);
    draft.row_jar = Some(row_jar);
    Ok(())
}

/// The row a metric jar takes by the maker's metric table, when the house follows it.
///
/// Only foods that are acid or made acid; the mark goes to the card and the record.
fn metric_row(case: &Case<'_>, draft: &mut Draft<'_>) -> Option<Jar> {
    let size = case.reference.jar_size(case.question.jar)?;
    let row = size.metric_setting_row?;
    let acid = matches!(case.food.acid_class, AcidClass::Acid | AcidClass::Acidified);
    if !case.question.metric_jars_setting || !acid {
        return None;
    }
    let ours = if case.food.group == "tomato" {
        "as read there for tomatoes"
    } else {
        "our own extension from tomatoes to other acid food"
    };
    let larger = case.question.jar.percent_larger_than(row);
    draft.mark(
        "metric-jar",
        format!(
            "The {} jar is {} % larger than the {row} whose row is used, by house setting: {ours}. {}.",
            size.title,
            quantity::show::decimal(larger, 1),
            size.note
        ),
        size.source.clone(),
    );
    draft.condition(
        "metric-jar",
        "The house follows the maker's metric jar table; the federal table lists no metric jar.",
        size.source.clone(),
    );
    Some(row)
}

fn too_large(case: &Case<'_>, listed: &[Jar]) -> Refusal {
    let jar = case.question.jar;
    // The rules before this one leave at least one row.
    let largest = listed.iter().copied().max_by_key(|j| j.volume());
    let largest = largest.unwrap_or(jar);
    let mut reason = format!(
        "{} ({} pack, {}): the largest jar with a printed time is the {largest}, and the {jar} is larger.",
        case.food.title, case.question.pack, case.method
    );
    if jar == Jar::HalfGallon
        && let Some(limit) = case.reference.limit("all", "half-gallon-juice-only")
    {
        reason = format!("{reason} {}.", limit.detail);
    }
    let fits = |candidate: &&Jar| candidate.volume() <= largest.volume();
    let metric: Vec<Jar> = Jar::ALL
        .iter()
        .filter(|j| j.is_metric() == jar.is_metric())
        .filter(fits)
        .copied()
        .collect();
    // A metric house may have no jar small enough; then the listed jars are named.
    let jars = if metric.is_empty() {
        listed.to_vec()
    } else {
        metric
    };
    let offers = one_of(jars.iter().map(|j| j.to_string()))
        .into_iter()
        .map(|word| Offer {
            kind: "jar",
            text: format!("{word} jars"),
            value: word,
        })
        .collect();
    Refusal::new(
        JAR_TOO_LARGE,
        reason,
        "Use a jar no larger than that; the rest goes to the refrigerator or freezer.",
        limit_source(case.reference, "all", "table-jar-only"),
    )
    .offering(offers)
}
