//! What is asked: a tested recipe or food, and the edits somebody would make to it.

use quantity::{Exact, Mass, QuantityError, Volume, exact_text, show};
use reference::{Jar, Method, Pack, TableUnit};
use serde::Serialize;

/// How an amount is measured; amounts of different measures are never compared.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Measure {
    /// By weight, grams.
    Mass,
    /// By volume, millilitres.
    Volume,
    /// Whole pieces.
    Each,
    /// Cloves.
    Clove,
    /// Drops.
    Drop,
}

impl Measure {
    /// Whether pieces are counted: one large for one small is then no equal swap.
    pub fn is_count(self) -> bool {
        matches!(self, Measure::Each | Measure::Clove | Measure::Drop)
    }

    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Measure::Mass => "weight",
            Measure::Volume => "volume",
            Measure::Each => "pieces",
            Measure::Clove => "cloves",
            Measure::Drop => "drops",
        }
    }

    /// An amount of this measure that can be written, for messages.
    pub fn example(self) -> &'static str {
        match self {
            Measure::Mass => "2 lb",
            Measure::Volume => "1 1/2 cups",
            Measure::Each => "4 each",
            Measure::Clove => "3 cloves",
            Measure::Drop => "5 drops",
        }
    }
}

/// How much of an ingredient, exactly.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Amount {
    /// Grams, millilitres, or the count.
    #[serde(with = "exact_text")]
    pub size: Exact,
    /// How it is measured.
    pub measure: Measure,
    /// As typed or printed, for the text.
    pub text: String,
}

impl Amount {
    /// A weight.
    pub fn mass(mass: Mass, text: impl Into<String>) -> Amount {
        Amount {
            size: mass.exact(),
            measure: Measure::Mass,
            text: text.into(),
        }
    }

    /// A volume.
    pub fn volume(volume: Volume, text: impl Into<String>) -> Amount {
        Amount {
            size: volume.exact(),
            measure: Measure::Volume,
            text: text.into(),
        }
    }

    /// A count of pieces, cloves or drops.
    pub fn count(number: Exact, measure: Measure, text: impl Into<String>) -> Amount {
        Amount {
            size: number,
            measure,
            text: text.into(),
        }
    }

    /// From a number and a unit of the recipe table; a unit of no weight or volume counts pieces.
    ///
    /// # Errors
    /// Overflow.
    pub fn from_table(number: Exact, unit: &str) -> Result<Amount, QuantityError> {
        let text = format!("{} {unit}", show::number(number));
        Ok(match TableUnit::of(unit) {
            Some(TableUnit::Mass(unit)) => Amount::mass(Mass::new(number, unit)?, text),
            Some(TableUnit::Volume(unit)) => Amount::volume(Volume::new(number, unit)?, text),
            Some(TableUnit::Clove) => Amount::count(number, Measure::Clove, text),
            Some(TableUnit::Drop) => Amount::count(number, Measure::Drop, text),
            Some(TableUnit::Each) | None => Amount::count(number, Measure::Each, text),
        })
    }
}

/// One edit of a recipe. A line is named by its ingredient key or by its number, from 1.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum Edit {
    /// A line in another amount.
    Amount {
        /// The line.
        line: String,
        /// The amount wished.
        amount: Amount,
    },
    /// Another ingredient in place of a line, or of part of it.
    Swap {
        /// The line.
        line: String,
        /// How much of it goes; `None` = all.
        replaced: Option<Amount>,
        /// What comes in its place.
        with: String,
        /// How much of that; `None` = the same amount.
        amount: Option<Amount>,
    },
    /// A line left out.
    LeaveOut {
        /// The line.
        line: String,
    },
    /// An ingredient the recipe does not have.
    Add {
        /// The ingredient.
        ingredient: String,
        /// How much.
        amount: Amount,
    },
    /// The whole recipe, evenly.
    Scale {
        /// How many times.
        #[serde(with = "exact_text")]
        times: Exact,
    },
    /// Another jar.
    Jar {
        /// The jar wished.
        jar: Jar,
    },
    /// Another pack.
    Pack {
        /// The pack wished.
        pack: Pack,
    },
    /// Another canner.
    Canner {
        /// The method wished.
        canner: Method,
    },
    /// The vinegar at hand.
    Vinegar {
        /// Percent on its label; `None` = not known.
        #[serde(with = "exact_text::option")]
        percent: Option<Exact>,
        /// Diluted in the house to the strength the recipe asks.
        diluted: bool,
    },
    /// Another manner of working, by a word of the tables: `thicken`, `drain`, `skip-venting`, ...
    Manner {
        /// The word.
        manner: String,
    },
}

/// A tested recipe, or a food of the tables, and the edits to it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct RecipeChange {
    /// Key of a tested recipe, or of a food that is put up without one.
    pub recipe: String,
    /// The edits; amounts are those of one batch as printed.
    pub edits: Vec<Edit>,
}

/// What cannot be judged because it is not understood: where, why, and a text that works.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{cause} {example}")]
pub struct ChangeError {
    /// The field, such as `edits.2.line`, counted from 1.
    pub field: String,
    /// What is wrong, as a sentence.
    pub cause: String,
    /// What to write instead, as a sentence.
    pub example: String,
}

impl ChangeError {
    /// A field that is not understood.
    pub fn new(
        field: impl Into<String>,
        cause: impl Into<String>,
        example: impl Into<String>,
    ) -> ChangeError {
        ChangeError {
            field: field.into(),
            cause: cause.into(),
            example: example.into(),
        }
    }
}

/// Amounts that no exact fraction holds.
impl From<QuantityError> for ChangeError {
    fn from(error: QuantityError) -> ChangeError {
        ChangeError::new(
            "edits",
            error.to_string(),
            "Write fewer digits, such as 2.25 cups.",
        )
    }
}
