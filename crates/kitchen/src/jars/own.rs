//! Jars by the household's own record: it says what is likely, the printed lines keep the range.

use quantity::{Exact, exact_text};
use serde::{Deserialize, Serialize};

use super::{JarBasis, JarsExpected, expected, jars_in_a_quart};
use crate::error::KitchenError;

/// What the household's record says of an amount of produce. It arms nothing and shortens no
/// printed range: more jars are heated, never fewer.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct OwnRecord {
    /// Quarts that are likely.
    #[serde(with = "exact_text")]
    pub likely: Exact,
    /// Fewest quarts.
    #[serde(with = "exact_text")]
    pub low: Exact,
    /// Most quarts.
    #[serde(with = "exact_text")]
    pub high: Exact,
    /// "4 batches of your own at 3.223 lb a quart".
    pub words: String,
}

impl JarsExpected {
    /// The same with the household's own record as its likely figure. Error: overflow.
    pub fn with_own(self, own: &OwnRecord) -> Result<Self, KitchenError> {
        let per_quart = jars_in_a_quart(self.jar)?;
        let jars = |quarts| quantity::checked_mul(quarts, per_quart);
        let (low, high) = (jars(own.low)?, jars(own.high)?);
        let mut basis = self.basis;
        basis.push(JarBasis {
            words: own.words.clone(),
            low,
            high,
            source: "the household's own record".to_owned(),
        });
        expected(self.jar, basis, low, jars(own.likely)?, true)
    }
}
