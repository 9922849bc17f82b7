//! Elevation, temperature and strength: the conditions a kitchen works under.

use num_traits::Zero;
use serde::{Deserialize, Serialize};

use crate::{Exact, QuantityError, checked_add, checked_div, checked_mul, checked_sub, exact_text};

/// Feet in a metre: exactly 1/0.3048.
const FEET_PER_METRE: Exact = Exact::new_raw(1250, 381);

/// Where the kitchen stands, as an interval of exact feet above sea level.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Elevation {
    /// Lowest the place can be, in feet.
    #[serde(with = "exact_text")]
    pub low_ft: Exact,
    /// Highest the place can be, in feet; the gate uses this one.
    #[serde(with = "exact_text")]
    pub high_ft: Exact,
}

impl Elevation {
    /// A place known to the foot.
    pub fn feet(feet: Exact) -> Self {
        Self {
            low_ft: feet,
            high_ft: feet,
        }
    }

    /// A place given in metres. Error: `Overflow`.
    pub fn metres(metres: Exact) -> Result<Self, QuantityError> {
        Ok(Self::feet(feet_of_metres(metres)?))
    }

    /// `middle` feet, give or take `spread` feet. Errors: `Negative` spread, `Overflow`.
    pub fn around(middle: Exact, spread: Exact) -> Result<Self, QuantityError> {
        if spread < Exact::zero() {
            return Err(QuantityError::Negative {
                text: spread.to_string(),
                example: "950 +- 60 ft",
            });
        }
        Ok(Self {
            low_ft: checked_sub(middle, spread)?,
            high_ft: checked_add(middle, spread)?,
        })
    }

    /// Is the place known without spread?
    pub fn is_certain(&self) -> bool {
        self.low_ft == self.high_ft
    }
}

/// Metres as exact feet. Error: `Overflow`.
pub(crate) fn feet_of_metres(metres: Exact) -> Result<Exact, QuantityError> {
    checked_mul(metres, FEET_PER_METRE)
}

/// Feet as exact metres. Error: `Overflow`.
pub(crate) fn metres_of_feet(feet: Exact) -> Result<Exact, QuantityError> {
    checked_div(feet, FEET_PER_METRE)
}

/// A temperature, exact in degrees Fahrenheit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct Temperature(#[serde(with = "exact_text")] Exact);

impl Temperature {
    /// From degrees Fahrenheit.
    pub fn from_fahrenheit(degrees: Exact) -> Self {
        Self(degrees)
    }

    /// From degrees Celsius. Error: `Overflow`.
    pub fn from_celsius(degrees: Exact) -> Result<Self, QuantityError> {
        let scaled = checked_mul(degrees, Exact::new_raw(9, 5))?;
        checked_add(scaled, Exact::from_integer(32)).map(Self)
    }

    /// Degrees Fahrenheit.
    pub fn fahrenheit(self) -> Exact {
        self.0
    }

    /// Degrees Celsius, exactly; a value too fine for that is given to the nearest millionth.
    pub fn celsius(self) -> Exact {
        checked_sub(self.0, Exact::from_integer(32))
            .and_then(|above| checked_mul(above, Exact::new_raw(5, 9)))
            .unwrap_or_else(|_| {
                let degrees = (crate::to_f64(self.0) - 32.0) * 5.0 / 9.0;
                Exact::new((degrees * 1e6).round() as i128, 1_000_000)
            })
    }
}

/// A strength in percent: `Percent::new(5)` is 5 %.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct Percent(#[serde(with = "exact_text")] Exact);

impl Percent {
    /// From the number before the sign.
    pub fn new(number: Exact) -> Self {
        Self(number)
    }

    /// The number before the sign.
    pub fn number(self) -> Exact {
        self.0
    }

    /// From a share of one: 1/20 is 5 percent. Error: `Overflow`.
    pub fn from_share(share: Exact) -> Result<Self, QuantityError> {
        Ok(Self(crate::exact::checked_mul(
            share,
            Exact::from_integer(100),
        )?))
    }

    /// As a share of one. Error: `Overflow`.
    pub fn share(self) -> Result<Exact, QuantityError> {
        checked_div(self.0, Exact::from_integer(100))
    }
}
