//! An ingredient's amount: a weight, a volume or a count.

use quantity::{Exact, Mass, QuantityError, Volume, checked_mul, exact_text};
use reference::TableUnit;
use serde::{Deserialize, Serialize};

/// How much of an ingredient.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Amount {
    /// By weight.
    Mass(Mass),
    /// By volume.
    Volume(Volume),
    /// By number: cloves, heads, drops.
    Count {
        /// How many.
        #[serde(with = "exact_text")]
        number: Exact,
        /// Of what.
        of: CountWord,
    },
}

/// What is counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum CountWord {
    /// Whole pieces.
    Each,
    /// Cloves of garlic.
    Clove,
    /// Drops.
    Drop,
}

impl Amount {
    /// From a number and a unit of the recipe table; `None` for a unit the table does not use.
    pub fn from_table(number: Exact, unit: &str) -> Result<Option<Amount>, QuantityError> {
        let count = |of| Ok(Some(Amount::Count { number, of }));
        match TableUnit::of(unit) {
            Some(TableUnit::Mass(unit)) => Ok(Some(Amount::Mass(Mass::new(number, unit)?))),
            Some(TableUnit::Volume(unit)) => Ok(Some(Amount::Volume(Volume::new(number, unit)?))),
            Some(TableUnit::Each) => count(CountWord::Each),
            Some(TableUnit::Clove) => count(CountWord::Clove),
            Some(TableUnit::Drop) => count(CountWord::Drop),
            None => Ok(None),
        }
    }

    /// The same amount several times over. Error: overflow.
    pub fn times(self, by: Exact) -> Result<Amount, QuantityError> {
        Ok(match self {
            Amount::Mass(mass) => Amount::Mass(mass.checked_mul(by)?),
            Amount::Volume(volume) => Amount::Volume(volume.checked_mul(by)?),
            Amount::Count { number, of } => Amount::Count {
                number: checked_mul(number, by)?,
                of,
            },
        })
    }

    /// How many times `other` goes into this; `None` when the two are measured differently.
    /// Errors: division by zero, overflow.
    pub fn ratio(self, other: Amount) -> Result<Option<Exact>, QuantityError> {
        match (self, other) {
            (Amount::Mass(a), Amount::Mass(b)) => a.ratio(b).map(Some),
            (Amount::Volume(a), Amount::Volume(b)) => a.ratio(b).map(Some),
            (Amount::Count { number: a, .. }, Amount::Count { number: b, .. }) => {
                quantity::checked_div(a, b).map(Some)
            }
            _ => Ok(None),
        }
    }

    /// What is left after taking `other`; `None` when the two are measured differently.
    pub fn less(self, other: Amount) -> Result<Option<Amount>, QuantityError> {
        match (self, other) {
            (Amount::Mass(a), Amount::Mass(b)) => Ok(Some(Amount::Mass(a.checked_sub(b)?))),
            (Amount::Volume(a), Amount::Volume(b)) => Ok(Some(Amount::Volume(a.checked_sub(b)?))),
            (Amount::Count { number: a, of }, Amount::Count { number: b, .. }) => {
                Ok(Some(Amount::Count {
                    number: quantity::checked_sub(a, b)?,
                    of,
                }))
            }
            _ => Ok(None),
        }
    }

    /// Nothing at all?
    pub fn is_zero(self) -> bool {
        match self {
            Amount::Mass(mass) => mass.is_zero(),
            Amount::Volume(volume) => volume.is_zero(),
            Amount::Count { number, .. } => number == Exact::from_integer(0),
        }
    }

    /// "weight", "volume" or "number".
    pub fn measured_by(self) -> &'static str {
        match self {
            Amount::Mass(_) => "weight",
            Amount::Volume(_) => "volume",
            Amount::Count { .. } => "number",
        }
    }
}
