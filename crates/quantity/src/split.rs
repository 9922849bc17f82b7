//! Splitting a stored whole number so that the parts sum to it.

use num_traits::{Signed, Zero};

use crate::{Exact, checked_add, checked_div, checked_mul, floor, to_f64, whole};

/// Splits `total` in proportion to `shares` by largest remainder: the parts sum to `total`, and
/// each differs from its exact share by less than one. Ties go to the earlier share. Shares below
/// zero count as zero; when none is above zero the split is even. No shares, no parts.
pub fn split_by_share(total: i64, shares: &[Exact]) -> Vec<i64> {
    if shares.is_empty() {
        return Vec::new();
    }
    let size = i128::from(total).abs();
    let weights = usable_weights(shares);
    let wanted = exact_parts(size, &weights).unwrap_or_else(|| {
        // Fractions too fine for exact work: weights to a billionth keep the sum and the order.
        exact_parts(size, &coarse_weights(&weights))
            .unwrap_or_else(|| vec![Exact::zero(); shares.len()])
    });
    let mut parts: Vec<i128> = wanted.iter().map(|part| floor(*part)).collect();
    let mut left = size - parts.iter().sum::<i128>();
    let mut order: Vec<usize> = (0..parts.len()).collect();
    order.sort_by(|&a, &b| wanted[b].fract().cmp(&wanted[a].fract()).then(a.cmp(&b)));
    for &at in order.iter().cycle() {
        if left <= 0 {
            break;
        }
        parts[at] += 1;
        left -= 1;
    }
    let sign = if total < 0 { -1 } else { 1 };
    parts
        .into_iter()
        // Each part lies between 0 and |total|, so it fits.
        .map(|part| i64::try_from(part * sign).unwrap_or(total))
        .collect()
}

fn usable_weights(shares: &[Exact]) -> Vec<Exact> {
    if shares.iter().any(|share| share.is_positive()) {
        shares
            .iter()
            .map(|share| {
                if share.is_positive() {
                    *share
                } else {
                    Exact::zero()
                }
            })
            .collect()
    } else {
        vec![whole(1); shares.len()]
    }
}

/// `size * weight / sum` for each weight, or none when the fractions overflow.
fn exact_parts(size: i128, weights: &[Exact]) -> Option<Vec<Exact>> {
    let sum = weights
        .iter()
        .try_fold(Exact::zero(), |sum, weight| checked_add(sum, *weight).ok())?;
    weights
        .iter()
        .map(|weight| {
            let share = checked_div(*weight, sum).ok()?;
            checked_mul(Exact::from_integer(size), share).ok()
        })
        .collect()
}

fn coarse_weights(weights: &[Exact]) -> Vec<Exact> {
    let largest = weights
        .iter()
        .map(|weight| to_f64(*weight))
        .fold(0.0, f64::max);
    weights
        .iter()
        .map(|weight| Exact::from_integer((to_f64(*weight) / largest * 1e9).round() as i128))
        .collect()
}
