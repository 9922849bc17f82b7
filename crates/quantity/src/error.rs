//! What can be wrong with an amount, said so that the next try works.

/// A text that is no amount, or a calculation that has no exact answer.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum QuantityError {
    /// Nothing was typed.
    #[error("nothing was typed; write for example {example}")]
    Empty {
        /// A text that works.
        example: &'static str,
    },
    /// The text holds no number where one is needed.
    #[error("\"{text}\" is not a number; write for example {example}")]
    NotANumber {
        /// The text as typed.
        text: String,
        /// A text that works.
        example: &'static str,
    },
    /// A comma may mean thousands or a decimal.
    #[error("the comma in \"{text}\" could mean thousands or a decimal; write 2000 or 2.5")]
    Comma {
        /// The text as typed.
        text: String,
    },
    /// A fraction over nothing.
    #[error("\"{text}\" divides by zero; write for example 1/2")]
    DivideByZero {
        /// The text as typed, or the calculation.
        text: String,
    },
    /// A number without a unit.
    #[error("\"{text}\" has no unit; write for example {example}")]
    NoUnit {
        /// The text as typed.
        text: String,
        /// A text that works.
        example: &'static str,
    },
    /// A unit that is not known here.
    #[error("the unit \"{unit}\" in \"{text}\" is not understood; write for example {example}")]
    UnknownUnit {
        /// The text as typed.
        text: String,
        /// The word that was taken for a unit.
        unit: String,
        /// A text that works.
        example: &'static str,
    },
    /// A unit of another kind (a volume where a weight is needed, or the reverse).
    #[error(
        "\"{unit}\" in \"{text}\" measures {found}, but {needed} is needed; write for example {example}"
    )]
    WrongKind {
        /// The text as typed.
        text: String,
        /// The unit as typed.
        unit: String,
        /// What the unit measures.
        found: &'static str,
        /// What is needed.
        needed: &'static str,
        /// A text that works.
        example: &'static str,
    },
    /// An amount below nothing.
    #[error("\"{text}\" is below zero; write for example {example}")]
    Negative {
        /// The text as typed.
        text: String,
        /// A text that works.
        example: &'static str,
    },
    /// Nothing at all where something is needed.
    #[error("\"{text}\" is nothing; write the amount, for example {example}")]
    Zero {
        /// The text as typed.
        text: String,
        /// A text that works.
        example: &'static str,
    },
    /// More than a household can mean.
    #[error(
        "\"{text}\" is outside what is believed here ({limit}); look for a slipped digit or unit, and write for example {example}"
    )]
    Absurd {
        /// The text as typed.
        text: String,
        /// The limit in words.
        limit: &'static str,
        /// A text that works.
        example: &'static str,
    },
    /// Minutes that are not whole.
    #[error("\"{text}\" is not a whole number of minutes; write for example 1 h 30 min")]
    NotWholeMinutes {
        /// The text as typed.
        text: String,
    },
    /// The exact fraction no longer fits.
    #[error(
        "the amount is too large or too finely divided to be exact; write fewer digits, for example 2.25"
    )]
    Overflow,
}
