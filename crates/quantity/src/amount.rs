//! `Mass` and `Volume`: exact, and impossible to add to each other.

use serde::{Deserialize, Deserializer, Serialize, Serializer, de::Error as _};

use crate::{
    Exact, MassUnit, QuantityError, VolumeUnit, checked_add, checked_div, checked_mul, checked_sub,
    exact_text, round_half_away, to_f64,
};

/// The part that `Mass` and `Volume` share; they stay two types.
macro_rules! amount {
    ($name:ident, $unit:ident, $base:literal) => {
        impl $name {
            /// Nothing.
            pub const ZERO: Self = Self(Exact::new_raw(0, 1));

            /// A whole number of units; always fits.
            pub fn of(number: i64, unit: $unit) -> Self {
                Self(Exact::from_integer(i128::from(number)) * unit.factor())
            }

            /// An exact number of units. Error: `Overflow`.
            pub fn new(number: Exact, unit: $unit) -> Result<Self, QuantityError> {
                checked_mul(number, unit.factor()).map(Self)
            }

            #[doc = concat!("From an exact number of ", $base, ".")]
            pub const fn from_exact(number: Exact) -> Self {
                Self(number)
            }

            #[doc = concat!("The exact number of ", $base, ".")]
            pub const fn exact(self) -> Exact {
                self.0
            }

            /// How many units this is, exactly. An amount too finely divided for the unit's
            /// factor is given to the nearest millionth instead of failing.
            pub fn in_unit(self, unit: $unit) -> Exact {
                checked_div(self.0, unit.factor()).unwrap_or_else(|_| {
                    let millionths = to_f64(self.0) / to_f64(unit.factor()) * 1e6;
                    // A float cast saturates, so this cannot fail.
                    Exact::new(millionths.round() as i128, 1_000_000)
                })
            }

            /// How many units this is, as a floating number for drawing and sorting.
            pub fn to_f64(self, unit: $unit) -> f64 {
                to_f64(self.0) / to_f64(unit.factor())
            }

            /// Sum. Error: `Overflow`.
            pub fn checked_add(self, other: Self) -> Result<Self, QuantityError> {
                checked_add(self.0, other.0).map(Self)
            }

            /// Difference; may fall below zero. Error: `Overflow`.
            pub fn checked_sub(self, other: Self) -> Result<Self, QuantityError> {
                checked_sub(self.0, other.0).map(Self)
            }

            /// Multiple. Error: `Overflow`.
            pub fn checked_mul(self, by: Exact) -> Result<Self, QuantityError> {
                checked_mul(self.0, by).map(Self)
            }

            /// Part. Errors: `DivideByZero`, `Overflow`.
            pub fn checked_div(self, by: Exact) -> Result<Self, QuantityError> {
                checked_div(self.0, by).map(Self)
            }

            /// How many times `other` goes into this. Errors: `DivideByZero`, `Overflow`.
            pub fn ratio(self, other: Self) -> Result<Exact, QuantityError> {
                checked_div(self.0, other.0)
            }

            /// Sum of all. Error: `Overflow`.
            pub fn sum(parts: impl IntoIterator<Item = Self>) -> Result<Self, QuantityError> {
                parts
                    .into_iter()
                    .try_fold(Self::ZERO, |total, part| total.checked_add(part))
            }

            /// Nothing at all?
            pub fn is_zero(self) -> bool {
                self.0 == Self::ZERO.0
            }

            /// Below nothing?
            pub fn is_negative(self) -> bool {
                self.0 < Self::ZERO.0
            }

            /// Above nothing?
            pub fn is_positive(self) -> bool {
                self.0 > Self::ZERO.0
            }

            /// The nearest whole number of thousandths, halves away from zero.
            fn thousandths(self) -> Result<i64, QuantityError> {
                let fine = checked_mul(self.0, Exact::from_integer(1000))?;
                i64::try_from(round_half_away(fine)).map_err(|_| QuantityError::Overflow)
            }
        }

        impl Serialize for $name {
            fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                exact_text::serialize(&self.0, serializer)
            }
        }

        impl<'de> Deserialize<'de> for $name {
            fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                let text = String::deserialize(deserializer)?;
                exact_text::from_text(&text)
                    .map(Self)
                    .map_err(D::Error::custom)
            }
        }
    };
}

/// A weight, exact in grams.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Mass(Exact);

/// A volume, exact in millilitres.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Volume(Exact);

amount!(Mass, MassUnit, "grams");
amount!(Volume, VolumeUnit, "millilitres");

impl Mass {
    /// Whole milligrams, rounded once, halves away from zero. Error: `Overflow`.
    pub fn milligrams(self) -> Result<i64, QuantityError> {
        self.thousandths()
    }

    /// From stored milligrams.
    pub fn from_milligrams(milligrams: i64) -> Self {
        Self::of(milligrams, MassUnit::Milligram)
    }

    /// From whole grams.
    pub fn from_grams(grams: i64) -> Self {
        Self::of(grams, MassUnit::Gram)
    }

    /// Nearest whole gram, for planning; a weight beyond `i64` grams is held at its end.
    pub fn grams_rounded(self) -> i64 {
        let grams = round_half_away(self.0);
        i64::try_from(grams).unwrap_or(if grams < 0 { i64::MIN } else { i64::MAX })
    }
}

impl Volume {
    /// Whole microlitres, rounded once, halves away from zero. Error: `Overflow`.
    pub fn microlitres(self) -> Result<i64, QuantityError> {
        self.thousandths()
    }

    /// From stored microlitres.
    pub fn from_microlitres(microlitres: i64) -> Self {
        Self::of(microlitres, VolumeUnit::Microlitre)
    }

    /// From whole millilitres.
    pub fn from_millilitres(millilitres: i64) -> Self {
        Self::of(millilitres, VolumeUnit::Millilitre)
    }

    /// Nearest whole millilitre, for planning; held at the ends of `i64`.
    pub fn millilitres_rounded(self) -> i64 {
        let millilitres = round_half_away(self.0);
        i64::try_from(millilitres).unwrap_or(if millilitres < 0 { i64::MIN } else { i64::MAX })
    }
}

impl std::fmt::Display for Mass {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        crate::show::mass(*self).fmt(f)
    }
}

impl std::fmt::Display for Volume {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        crate::show::volume(*self).fmt(f)
    }
}
