//! Exact fractions and the checked arithmetic on them.

use num_traits::{CheckedAdd, CheckedDiv, CheckedMul, CheckedSub, Signed, Zero};

use crate::QuantityError;

/// An exact fraction. Plain `+ - * /` panic on overflow: use the `checked_*` functions on
/// anything that came from outside.
pub type Exact = num_rational::Ratio<i128>;

/// `numerator / denominator`; a zero denominator is an error.
pub fn exact(numerator: i128, denominator: i128) -> Result<Exact, QuantityError> {
    if denominator == 0 {
        return Err(QuantityError::DivideByZero {
            text: format!("{numerator}/0"),
        });
    }
    if numerator == i128::MIN || denominator == i128::MIN {
        return Err(QuantityError::Overflow);
    }
    Ok(Exact::new(numerator, denominator))
}

/// A whole number as a fraction.
pub fn whole(number: i64) -> Exact {
    Exact::from_integer(i128::from(number))
}

/// Sum, or `Overflow`.
pub fn checked_add(a: Exact, b: Exact) -> Result<Exact, QuantityError> {
    CheckedAdd::checked_add(&a, &b).ok_or(QuantityError::Overflow)
}

/// Difference, or `Overflow`.
pub fn checked_sub(a: Exact, b: Exact) -> Result<Exact, QuantityError> {
    CheckedSub::checked_sub(&a, &b).ok_or(QuantityError::Overflow)
}

/// Product, or `Overflow`.
pub fn checked_mul(a: Exact, b: Exact) -> Result<Exact, QuantityError> {
    CheckedMul::checked_mul(&a, &b).ok_or(QuantityError::Overflow)
}

/// Quotient; division by zero and overflow are errors.
pub fn checked_div(a: Exact, b: Exact) -> Result<Exact, QuantityError> {
    if b.is_zero() {
        return Err(QuantityError::DivideByZero {
            text: format!("{a} / 0"),
        });
    }
    CheckedDiv::checked_div(&a, &b).ok_or(QuantityError::Overflow)
}

/// Nearest floating number, for drawing and sorting only.
pub fn to_f64(value: Exact) -> f64 {
    *value.numer() as f64 / *value.denom() as f64
}

/// Largest whole number not above `value`.
pub fn floor(value: Exact) -> i128 {
    value.numer().div_euclid(*value.denom())
}

/// Smallest whole number not below `value`.
pub fn ceil(value: Exact) -> i128 {
    let below = floor(value);
    if value.is_integer() { below } else { below + 1 }
}

/// Nearest whole number, halves away from zero.
pub fn round_half_away(value: Exact) -> i128 {
    let size = value.abs();
    let below = floor(size);
    // The rest lies in [0, 1), so comparing it with a half cannot overflow.
    let rest = Exact::new(size.numer().rem_euclid(*size.denom()), *size.denom());
    let rounded = if rest >= Exact::new_raw(1, 2) {
        below + 1
    } else {
        below
    };
    if value.is_negative() {
        -rounded
    } else {
        rounded
    }
}
