//! Rounding cuts over rows of whole variables.
//!
//! A row `sum a x <= b` over whole `x` is divided by one of its coefficients and rounded (mixed
//! integer rounding). Whole plans keep the result; fractional ones near the optimum often do not.

use super::relax::{Row, WholeRow};

/// At most so many divisors are tried per row.
const DIVISORS: usize = 8;
/// How far a cut must be broken, against its size, to be worth adding.
const LEAST_BREACH: f64 = 1e-3;
/// Nearer to a whole number than this, rounding gains nothing that can be trusted.
const NEARLY_WHOLE: f64 = 1e-4;

/// The most broken cut of each row at a point, best first.
pub(super) fn separate(rows: &[WholeRow], most: &[f64], point: &[f64]) -> Vec<Row> {
    let mut found: Vec<(f64, Row)> = rows
        .iter()
        .filter_map(|row| best_cut(row, most, point))
        .collect();
    found.sort_by(|a, b| b.0.total_cmp(&a.0));
    found.into_iter().map(|(_, row)| row).collect()
}

fn best_cut(row: &WholeRow, most: &[f64], point: &[f64]) -> Option<(f64, Row)> {
    let used: f64 = row.terms.iter().map(|(v, a)| *a as f64 * point[*v]).sum();
    let size: f64 = row
        .terms
        .iter()
        .map(|(v, a)| (*a as f64 * most[*v]).abs())
        .sum();
    // A slack row has no fractional corner to cut off.
    if row.limit as f64 - used > 0.1 * size.max(1.0) {
        return None;
    }
    let mut divisors: Vec<i64> = Vec::new();
    for (variable, a) in &row.terms {
        let x = point[*variable];
        if fraction(x) > NEARLY_WHOLE && *a != 0 && !divisors.contains(&a.abs()) {
            divisors.push(a.abs());
        }
    }
    divisors.truncate(DIVISORS);
    let mut best: Option<(f64, Row)> = None;
    for divisor in divisors {
        for turned in [false, true] {
            if let Some((breach, cut)) = round(row, most, point, divisor, turned)
                && best.as_ref().is_none_or(|(known, _)| breach > *known)
            {
                best = Some((breach, cut));
            }
        }
    }
    best
}

/// Distance to the nearest whole number.
fn fraction(x: f64) -> f64 {
    (x - x.round()).abs()
}

/// Divides a row and rounds it. `turned` counts variables in the upper half of their range from
/// above, which changes what is rounded. Every figure before the last division is a whole number.
fn round(
    row: &WholeRow,
    most: &[f64],
    point: &[f64],
    divisor: i64,
    turned: bool,
) -> Option<(f64, Row)> {
    let counts_down = |variable: usize| turned && point[variable] > most[variable] / 2.0;
    let mut limit = i128::from(row.limit);
    for (variable, a) in &row.terms {
        if counts_down(*variable) {
            limit -= i128::from(*a) * most[*variable] as i128;
        }
    }
    let wide = i128::from(divisor);
    let rest = limit.rem_euclid(wide);
    let rest_share = rest as f64 / divisor as f64;
    if !(NEARLY_WHOLE..=1.0 - NEARLY_WHOLE).contains(&rest_share) {
        return None;
    }
    // With f = rest / divisor, a coefficient a becomes floor(a / divisor) plus
    // max(0, frac(a / divisor) - f) / (1 - f). Multiplied by (divisor - rest) all is whole.
    let scale = wide - rest;
    let mut cut_limit = limit.div_euclid(wide) * scale;
    let mut whole: Vec<(usize, i128)> = Vec::with_capacity(row.terms.len());
    for (variable, a) in &row.terms {
        let down = counts_down(*variable);
        let a = if down {
            -i128::from(*a)
        } else {
            i128::from(*a)
        };
        let rounded = a.div_euclid(wide) * scale + (a.rem_euclid(wide) - rest).max(0);
        if down {
            cut_limit -= rounded * most[*variable] as i128;
            whole.push((*variable, -rounded));
        } else {
            whole.push((*variable, rounded));
        }
    }
    whole.retain(|(_, a)| *a != 0);
    let largest = whole.iter().map(|(_, a)| a.abs()).max()? as f64;
    let smallest = whole.iter().map(|(_, a)| a.abs()).min()? as f64;
    // Coefficients too far apart do the linear solver more harm than the cut does good.
    if largest / smallest > 1e4 {
        return None;
    }
    let terms: Vec<(usize, f64)> = whole
        .iter()
        .map(|(variable, a)| (*variable, *a as f64 / largest))
        .collect();
    let limit = cut_limit as f64 / largest;
    let used: f64 = terms.iter().map(|(v, a)| a * point[*v]).sum();
    let length = terms.iter().map(|(_, a)| a * a).sum::<f64>().sqrt();
    let breach = (used - limit) / length;
    (breach > LEAST_BREACH).then(|| {
        let row = Row {
            terms,
            limit,
            equal: false,
        };
        (breach, row)
    })
}
