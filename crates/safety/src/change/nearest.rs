//! Which tested recipes are near a household's own, and the edits that lead from one to the other.
//!
//! Lines are paired by ingredient, then by kind, then by family (one acid for another); only the
//! same ingredient is the same line, everything else is a swap that the rules answer. The whole is
//! scaled evenly by the factor of one of its lines, whichever leaves the two nearest. All sums
//! are exact, and of two that are equally near the one that stands first in its table is taken.

use super::edit::{Amount, ChangeError, Edit, Measure};
use super::household::HouseholdLine;
use super::line::{self, Line};
use quantity::{Exact, QuantityError, checked_add, checked_div, checked_sub, show, whole};
use reference::{IngredientKind, Jar, RecipeSheet, Reference};

/// A tested recipe held against a household's.
pub(super) struct Fit<'a> {
    pub sheet: &'a RecipeSheet,
    /// Household lines that have a line of the recipe beside them.
    pub shared: usize,
    pub distance: Exact,
    /// What leads from the tested recipe to the household's.
    pub edits: Vec<Edit>,
}

/// Every tested recipe that shares at least half of the household's lines, the nearest first.
///
/// # Errors
/// Amounts too finely divided to compare.
pub(super) fn by_distance<'a>(
    reference: &'a Reference,
    household: &[HouseholdLine],
    jar: Option<Jar>,
) -> Result<Vec<Fit<'a>>, ChangeError> {
    let wished = jar.map(|jar| format!("jar-{}", jar.as_str()));
    let mut fits = Vec::new();
    let kinds: Vec<Option<IngredientKind>> = household
        .iter()
        .map(|own| reference.ingredient(&own.name).map(|row| row.kind))
        .collect();
    for sheet in reference.recipes() {
        let printed = line::printed(reference, &sheet.rows);
        let own = Own {
            lines: household,
            kinds: &kinds,
            pairs: paired(reference, household, &kinds, &printed),
        };
        let left = left(&printed, &own.pairs, wished.as_deref());
        let shared = own.pairs.iter().flatten().count();
        if shared + shared < household.len() {
            continue;
        }
        fits.push(best(sheet, &own, &left, shared)?);
    }
    // A stable sort: equally near recipes keep the order of the table.
    fits.sort_by_key(|fit| fit.distance);
    Ok(fits)
}

/// How a household line goes with a printed one.
#[derive(Clone, Copy)]
struct Pair<'l> {
    line: &'l Line,
    /// The same ingredient, or another in its place.
    same: bool,
}

/// The household's lines, what they are, and the line of the tested recipe beside each.
struct Own<'l> {
    lines: &'l [HouseholdLine],
    kinds: &'l [Option<IngredientKind>],
    pairs: Vec<Option<Pair<'l>>>,
}

/// One way to pair lines, and whether it pairs the same ingredient.
type Round<'r> = (&'r dyn Fn(usize, &Line) -> bool, bool);

/// For each household line, of the kind beside it, the printed line that goes with it; each
/// printed line is used once.
fn paired<'l>(
    reference: &Reference,
    household: &[HouseholdLine],
    kinds: &[Option<IngredientKind>],
    printed: &'l [Line],
) -> Vec<Option<Pair<'l>>> {
    let mut pairs: Vec<Option<Pair<'l>>> = vec![None; household.len()];
    let same_name = |own: usize, line: &Line| {
        let (name, printed) = (&household[own].name, &line.ingredient);
        let same = || {
            reference.same_ingredient(name, printed)
                || (kinds[own].is_some_and(is_one_thing)
                    && Reference::shared_words(name, printed) > 0)
        };
        name == printed || (kinds[own].is_none_or(|kind| Some(kind) == line.kind) && same())
    };
    let same_kind = |own: usize, line: &Line| kinds[own].is_some() && kinds[own] == line.kind;
    let same_family = |own: usize, line: &Line| {
        let family = kinds[own].and_then(family);
        family.is_some() && family == line.kind.and_then(self::family)
    };
    let rounds: &[Round<'_>] = &[
        (&same_name, true),
        (&same_kind, false),
        (&same_family, false),
    ];
    for &(fits, same) in rounds {
        for (index, own) in household.iter().enumerate() {
            if pairs[index].is_some() {
                continue;
            }
            let free = printed.iter().filter(|line| {
                line.per == own.per
                    && line.measure == own.amount.measure
                    && fits(index, line)
                    && !pairs
                        .iter()
                        .flatten()
                        .any(|pair| pair.line.number == line.number)
            });
            // Of several peppers the one whose name says most of the same; the first of equals.
            let likest = free
                .rev()
                .max_by_key(|line| Reference::shared_words(&own.name, &line.ingredient));
            pairs[index] = likest.map(|line| Pair { line, same });
        }
    }
    pairs
}

/// Kinds whose names mean one thing, however particular they are: «sugar» is «white sugar».
fn is_one_thing(kind: IngredientKind) -> bool {
    use IngredientKind as K;
    matches!(kind, K::Salt | K::Sugar | K::Water | K::BottledLemon)
}

/// What may stand in for what, so that a difference is read as a swap.
fn family(kind: IngredientKind) -> Option<&'static str> {
    use IngredientKind as K;
    match kind {
        K::UnknownVinegar | K::HomeMadeVinegar => Some("acid"),
        K::Salt | K::TableSalt | K::FlakeSalt | K::ReducedSodiumSalt => Some("salt"),
        K::Sugar | K::Honey | K::Sucralose | K::OtherSweetener => Some("sugar"),
        K::Tomato | K::GreenTomato | K::Tomatillo => Some("tomato"),
        K::CanningStarch | K::Thickener => Some("starch"),
        kind if kind.is_acid() => Some("acid"),
        kind if kind.is_low_acid() => Some("low-acid"),
        _ => None,
    }
}

/// The even factor that leaves the two nearest, and the edits that remain.
fn best<'a>(
    sheet: &'a RecipeSheet,
    own: &Own<'_>,
    left: &[&Line],
    shared: usize,
) -> Result<Fit<'a>, ChangeError> {
    let (mut distance, mut edits) = apart(own, left, whole(1))?;
    for (line, pair) in own.lines.iter().zip(&own.pairs) {
        // A factor that no exact fraction holds is not tried.
        let factor = pair
            .filter(|pair| pair.line.per == "batch" && pair.line.low > whole(0))
            .and_then(|pair| checked_div(line.amount.size, pair.line.low).ok());
        let Some(factor) = factor else {
            continue;
        };
        let nearer = apart(own, left, factor)?;
        if nearer.0 < distance {
            (distance, edits) = nearer;
        }
    }
    Ok(Fit {
        sheet,
        shared,
        distance,
        edits,
    })
}

/// Distance and edits at one even factor.
fn apart(
    own: &Own<'_>,
    left: &[&Line],
    factor: Exact,
) -> Result<(Exact, Vec<Edit>), QuantityError> {
    let mut distance = whole(0);
    let mut edits = Vec::new();
    if factor != whole(1) {
        edits.push(Edit::Scale { times: factor });
    }
    for ((line, kind), pair) in own.lines.iter().zip(own.kinds).zip(&own.pairs) {
        let by = if line.per == "batch" {
            factor
        } else {
            whole(1)
        };
        let amount = as_one_batch(&line.amount, by)?;
        let Some(Pair {
            line: printed,
            same,
        }) = pair
        else {
            distance = checked_add(distance, whole(1))?;
            edits.push(Edit::Add {
                ingredient: line.name.clone(),
                amount,
            });
            continue;
        };
        let differs = part(amount.size, printed)?;
        distance = checked_add(distance, differs)?;
        // «pepper» is printed as a dried spice; more of it may be the vegetable.
        let another =
            amount.size > printed.high && kind.is_some_and(|kind| Some(kind) != printed.kind);
        let number = printed.number.to_string();
        if another || !same {
            distance = checked_add(distance, whole(1))?;
            edits.push(Edit::Swap {
                line: number,
                replaced: None,
                with: line.name.clone(),
                amount: Some(amount),
            });
        } else if differs != whole(0) {
            edits.push(Edit::Amount {
                line: number,
                amount,
            });
        }
    }
    for line in left {
        distance = checked_add(distance, whole(1))?;
        edits.push(Edit::LeaveOut {
            line: line.number.to_string(),
        });
    }
    Ok((distance, edits))
}

/// The part by which an amount lies outside a printed one: nothing within it, one at most.
fn part(size: Exact, line: &Line) -> Result<Exact, QuantityError> {
    let edge = size.max(line.low).min(line.high);
    let (least, most) = (size.min(edge), size.max(edge));
    if least == most {
        return Ok(whole(0));
    }
    checked_div(checked_sub(most, least)?, most)
}

/// A household amount brought down to one printed batch, with its text.
fn as_one_batch(amount: &Amount, factor: Exact) -> Result<Amount, QuantityError> {
    if factor == whole(1) {
        return Ok(amount.clone());
    }
    let size = checked_div(amount.size, factor)?;
    let shown = match amount.measure {
        Measure::Mass => show::mass(quantity::Mass::from_exact(size)).us,
        Measure::Volume => show::volume(quantity::Volume::from_exact(size)).us,
        Measure::Each | Measure::Clove | Measure::Drop => {
            format!("{} {}", show::number(size), amount.measure.words())
        }
    };
    Ok(Amount {
        size,
        measure: amount.measure,
        text: format!("{shown} to one batch"),
    })
}

/// Printed lines that the household does not have and that are missed: not those that may be left
/// out, not another of several alternatives, not the amounts for another jar. For a jar wished that
/// the recipe has amounts for, those are the ones that count.
fn left<'l>(
    printed: &'l [Line],
    pairs: &[Option<Pair<'_>>],
    wished: Option<&str>,
) -> Vec<&'l Line> {
    let wished = wished.filter(|per| printed.iter().any(|line| line.per == *per));
    let used =
        |wanted: &dyn Fn(&Line) -> bool| pairs.iter().flatten().any(|pair| wanted(pair.line));
    let goes_in = |line: &Line, taken: &Line| wished.is_none() || taken.per == line.per;
    printed
        .iter()
        .filter(|line| !line.optional)
        .filter(|line| line.per == "batch" || wished.is_none_or(|per| per == line.per))
        .filter(|line| !used(&|taken| taken.number == line.number))
        .filter(|line| {
            line.choice.is_empty()
                || !used(&|taken| taken.choice == line.choice && goes_in(line, taken))
        })
        .filter(|line| {
            line.per == "batch"
                || wished.is_some()
                || !used(&|taken| taken.ingredient == line.ingredient && taken.per != line.per)
        })
        .collect()
}
