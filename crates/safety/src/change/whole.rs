//! Checks that look at all edits together, by exact sums: what each edit alone may do, several
//! together may not.

use super::Case;
use super::edit::Measure;
use super::line::Line;
use super::verdict::Finding;
use crate::numbers::limit_source;
use quantity::{Exact, QuantityError, checked_add, checked_mul, whole};
use reference::{AcidClass, ChangeAnswer, IngredientKind};
use std::collections::BTreeMap;

/// One check of the whole.
#[derive(Clone, Copy)]
pub(super) struct Check {
    /// Its name, the key of what it finds.
    pub name: &'static str,
    /// Whether the edited lines break it.
    pub broken: fn(&Case<'_>, &[Line]) -> Result<bool, QuantityError>,
    /// What it says.
    pub says: &'static str,
    /// Scope and rule of the limit it rests on.
    pub rests_on: (&'static str, &'static str),
}

/// The checks, in the order they are made.
pub(super) const CHECKS: &[Check] = &[
    Check {
        name: "low-acid-total",
        broken: low_acid_total,
        says: "All edits together raise the low-acid produce of the recipe.",
        rests_on: ("class:acidified", "tested-recipe-only"),
    },
    Check {
        name: "onion-or-pepper-total",
        broken: onion_or_pepper_total,
        says: "All edits together raise the onions, the peppers or the mushrooms of the recipe.",
        rests_on: ("group:salsa", "use-listed-vegetable-amounts"),
    },
    Check {
        name: "acid-total",
        broken: acid_total,
        says: "All edits together cut the acid of the recipe.",
        rests_on: ("class:acidified", "acid-not-reduced"),
    },
    Check {
        name: "acid-water-food",
        broken: acid_water_food,
        says: "All edits together leave more food or water to the acid than the tested recipe does.",
        rests_on: ("group:pickle", "no-change-vinegar-food-water"),
    },
];

/// What the checks find.
///
/// # Errors
/// Sums that no exact fraction holds.
pub(super) fn check(case: &Case<'_>, now: &[Line]) -> Result<Vec<Finding>, QuantityError> {
    let mut found = Vec::new();
    for check in case.checks {
        if (check.broken)(case, now)? {
            let (scope, rule) = check.rests_on;
            found.push(Finding {
                rule: check.name.to_owned(),
                answer: ChangeAnswer::Refuse,
                text: check.says.to_owned(),
                source: limit_source(case.reference, scope, rule),
                other_reading: None,
            });
        }
    }
    Ok(found)
}

/// What is summed together: amounts of one measure, for the batch or for one jar.
type Sums = BTreeMap<(String, Measure), Exact>;

fn sums(
    lines: &[Line],
    wanted: impl Fn(&Line) -> bool,
    size: fn(&Line) -> Exact,
) -> Result<Sums, QuantityError> {
    let mut sums = Sums::new();
    for line in lines.iter().filter(|line| wanted(line)) {
        let sum = sums
            .entry((line.per.clone(), line.measure))
            .or_insert(whole(0));
        *sum = checked_add(*sum, size(line))?;
    }
    Ok(sums)
}

/// Whether any sum of the edited lines is above that of the printed ones; a range counts in full.
fn raised(
    case: &Case<'_>,
    now: &[Line],
    wanted: impl Fn(&Line) -> bool,
) -> Result<bool, QuantityError> {
    let printed = sums(&case.printed, &wanted, |line| line.high)?;
    let edited = sums(now, &wanted, |line| line.high)?;
    Ok(edited
        .iter()
        .any(|(key, sum)| *sum > printed.get(key).copied().unwrap_or(whole(0))))
}

/// Low-acid food is processed as such; everything else rests on how little low-acid it holds.
fn low_acid_total(case: &Case<'_>, now: &[Line]) -> Result<bool, QuantityError> {
    if case.class() == Some(AcidClass::LowAcid) {
        return Ok(false);
    }
    raised(case, now, Line::is_low_acid)
}

fn onion_or_pepper_total(case: &Case<'_>, now: &[Line]) -> Result<bool, QuantityError> {
    use IngredientKind as K;
    for family in [
        &[K::Onion, K::OtherOnion][..],
        &[K::Pepper, K::CannedPepper],
        &[K::Mushroom, K::WildMushroom],
    ] {
        if raised(case, now, |line| {
            line.kind.is_some_and(|kind| family.contains(&kind))
        })? {
            return Ok(true);
        }
    }
    Ok(false)
}

/// Acid that every jar needs may be one of several; then one of them must stand whole. All other
/// acid is summed: it never falls.
fn acid_total(case: &Case<'_>, now: &[Line]) -> Result<bool, QuantityError> {
    let whole_one = |printed: &Line| {
        now.iter().any(|line| {
            line.choice == printed.choice
                && line.per == printed.per
                && case
                    .printed
                    .iter()
                    .any(|was| was.number == line.number && line.low >= was.low)
        })
    };
    let alternatives = |line: &&Line| line.is_acid() && !line.choice.is_empty();
    if !case.printed.iter().filter(alternatives).all(whole_one) {
        return Ok(true);
    }
    let single = |line: &Line| line.is_acid() && line.choice.is_empty();
    let printed = sums(&case.printed, single, |line| line.low)?;
    let edited = sums(now, single, |line| line.low)?;
    Ok(printed
        .iter()
        .any(|(key, sum)| edited.get(key).copied().unwrap_or(whole(0)) < *sum))
}

/// In food made acid by its recipe, neither food nor water grows faster than the acid.
fn acid_water_food(case: &Case<'_>, now: &[Line]) -> Result<bool, QuantityError> {
    if case.class() != Some(AcidClass::Acidified) {
        return Ok(false);
    }
    let acid = |line: &Line| line.is_acid() && line.choice.is_empty();
    let thins =
        |line: &Line| (line.is_food() || line.kind == Some(IngredientKind::Water)) && !line.drained;
    let (acid_was, acid_is) = (
        sums(&case.printed, acid, |line| line.low)?,
        sums(now, acid, |line| line.low)?,
    );
    let (was, is) = (
        sums(&case.printed, thins, |line| line.high)?,
        sums(now, thins, |line| line.high)?,
    );
    for (key, sum) in &is {
        let before = was.get(key).copied().unwrap_or(whole(0));
        for (acid_key, acid_before) in &acid_was {
            let acid_now = acid_is.get(acid_key).copied().unwrap_or(whole(0));
            // sum / before > acid_now / acid_before, without dividing.
            if checked_mul(*sum, *acid_before)? > checked_mul(acid_now, before)? {
                return Ok(true);
            }
        }
    }
    Ok(false)
}
