//! What can be done instead: other methods with a printed row, and the freezer.

use super::{Case, row_applies};
use crate::refusal::Offer;
use quantity::Exact;
use reference::{AcidClass, Method};

/// Each word once, in the order met.
pub(super) fn one_of(words: impl Iterator<Item = String>) -> Vec<String> {
    let mut seen: Vec<String> = Vec::new();
    for word in words {
        if !seen.contains(&word) {
            seen.push(word);
        }
    }
    seen
}

/// Other methods that print a row for this food and jar, and the freezer.
///
/// With `feet`, only methods whose rows hold that place.
pub(super) fn methods(case: &Case<'_>, feet: Option<Exact>) -> Vec<Offer> {
    let rows = case.reference.processes_for(&case.food.food);
    let mut offers: Vec<Offer> = [
        (Method::BoilingWater, "boiling water"),
        (
            Method::WeightedGauge,
            "pressure canner with a weighted gauge",
        ),
        (
            Method::DialGauge,
            "pressure canner with a tested dial gauge",
        ),
    ]
    .into_iter()
    .filter(|(method, _)| *method != case.row_method)
    .filter(|(method, _)| case.food.acid_class != AcidClass::LowAcid || method.is_pressure())
    .filter(|(method, _)| {
        rows.iter().any(|row| {
            row.method == *method
                && row.jar.volume() >= case.question.jar.volume()
                && feet.is_none_or(|feet| row_applies(row, feet))
        })
    })
    .map(|(method, text)| Offer {
        kind: "method",
        value: method.to_string(),
        text: text.to_owned(),
    })
    .collect();
    offers.push(Offer {
        kind: "freezer",
        value: "freezer".to_owned(),
        text: "the freezer".to_owned(),
    });
    offers
}
