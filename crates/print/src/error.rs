//! What can be wrong with a wish to print.

use thiserror::Error;

/// Why nothing was printed.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum PrintError {
    /// No sheet has this name.
    #[error("there is no sheet «{0}»")]
    UnknownSheet(String),
    /// No paper has this name.
    #[error("there is no paper «{0}»")]
    UnknownPaper(String),
    /// The first label to print lies beyond the sheet.
    #[error("the sheet has {labels} labels, so it cannot begin at {from}")]
    BeyondSheet {
        /// The position asked for, counted from one.
        from: usize,
        /// Labels on the sheet.
        labels: usize,
    },
    /// The sheet would be shifted further than a printer can be off.
    #[error("an offset of {0} mm is more than any printer is off")]
    OffsetTooLarge(String),
    /// An address too long for a code that a phone reads at this size.
    #[error("the address «{0}» is too long for the square on a label")]
    AddressTooLong(String),
    /// A code that no card and no label carries.
    #[error("«{code}» is no code of a card or label: {why}")]
    WrongCode {
        /// As it was given.
        code: String,
        /// What is wrong with it.
        why: String,
    },
    /// A batch or container number that no code can be made of.
    #[error("no code can be made for batch {batch}, container {container}")]
    NoCode {
        /// The batch.
        batch: i64,
        /// The container.
        container: i64,
    },
    /// The page could not be written: a fault of the program or of its fonts.
    #[error("the page could not be written: {0}")]
    Failed(String),
}
