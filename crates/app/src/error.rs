//! What an action says when it cannot: what is wrong, where, and what to do.

use serde::Serialize;

/// What kind of "no" this is; faces choose the exit code and the HTTP status by it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum ErrorKind {
    /// Something typed was not understood or is out of bounds.
    Input,
    /// The gate refused.
    Refused,
    /// The thing asked for does not exist.
    Missing,
    /// It was entered already; nothing was written.
    Already,
    /// The file, the folder or the program failed.
    Failed,
}

/// An error with its cause and the action that helps.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, thiserror::Error)]
#[error("{cause} {action}")]
pub struct AppError {
    /// Kind.
    pub kind: ErrorKind,
    /// The form's field, or empty.
    pub field: String,
    /// What is wrong, as a sentence.
    pub cause: String,
    /// What to do, as a sentence.
    pub action: String,
    /// The entry that exists already, for [`ErrorKind::Already`].
    pub entry: Option<i64>,
}

impl AppError {
    /// Something typed in `field` is wrong.
    pub fn input(field: &str, cause: impl Into<String>, action: impl Into<String>) -> Self {
        Self::new(ErrorKind::Input, field, cause, action)
    }

    /// The gate or a rule of the house refused.
    pub fn refused(cause: impl Into<String>, action: impl Into<String>) -> Self {
        Self::new(ErrorKind::Refused, "", cause, action)
    }

    /// Not there.
    pub fn missing(field: &str, cause: impl Into<String>, action: impl Into<String>) -> Self {
        Self::new(ErrorKind::Missing, field, cause, action)
    }

    /// The file or the program failed.
    pub fn failed(cause: impl Into<String>, action: impl Into<String>) -> Self {
        Self::new(ErrorKind::Failed, "", cause, action)
    }

    fn new(
        kind: ErrorKind,
        field: &str,
        cause: impl Into<String>,
        action: impl Into<String>,
    ) -> Self {
        Self {
            kind,
            field: field.to_owned(),
            cause: cause.into(),
            action: action.into(),
            entry: None,
        }
    }
}

impl From<store::StoreError> for AppError {
    fn from(error: store::StoreError) -> Self {
        if let store::StoreError::AlreadyEntered(entry) = &error {
            let mut already = Self::new(
                ErrorKind::Already,
                "",
                "This form was sent already; nothing was written a second time.",
                "Go on from the page as it stands.",
            );
            already.entry = Some(*entry);
            return already;
        }
        if let store::StoreError::Missing { what, .. } = &error {
            return Self::missing(what, error.cause(), error.action());
        }
        Self::failed(error.cause(), error.action())
    }
}

impl From<quantity::QuantityError> for AppError {
    fn from(error: quantity::QuantityError) -> Self {
        Self::input("amount", error.to_string(), "Check the amount.")
    }
}

impl From<kitchen::KitchenError> for AppError {
    fn from(error: kitchen::KitchenError) -> Self {
        use kitchen::KitchenError::{
            JarNotServed, Multiplier, NoJar, UnknownRecipe, WholeBatchesOnly,
        };
        let (field, action) = match &error {
            UnknownRecipe { .. } => ("recipe", "Choose a recipe from the list."),
            JarNotServed { .. } | NoJar { .. } => ("jar", "Choose a jar from the list."),
            Multiplier { .. } | WholeBatchesOnly { .. } => {
                ("batches", "Write how many, such as 2.")
            }
            _ => ("recipe", ""),
        };
        Self::input(field, error.to_string(), action)
    }
}

impl From<kitchen::LotError> for AppError {
    fn from(error: kitchen::LotError) -> Self {
        Self::input("crop", error.to_string(), "")
    }
}

impl From<print::PrintError> for AppError {
    fn from(error: print::PrintError) -> Self {
        use print::PrintError;
        let (field, action) = match &error {
            PrintError::UnknownSheet(_) => {
                let names: Vec<&str> = print::SHEETS.iter().map(|sheet| sheet.key).collect();
                ("sheet", format!("The sheets are: {}.", names.join(", ")))
            }
            PrintError::UnknownPaper(_) => ("paper", "Choose a4 or letter.".to_owned()),
            PrintError::BeyondSheet { labels, .. } => {
                ("from", format!("Count from 1 to {labels} along the rows."))
            }
            PrintError::OffsetTooLarge(_) => (
                "offset_x",
                format!("Write millimetres up to {} either way.", print::MOST_OFFSET),
            ),
            PrintError::AddressTooLong(_) => (
                "address",
                "Give the house a shorter address, or none.".to_owned(),
            ),
            PrintError::WrongCode { .. } => ("code", "Read it from the card once more.".to_owned()),
            PrintError::NoCode { .. } => ("batch", String::new()),
            PrintError::Failed(_) => return Self::failed(sentence(&error), ""),
        };
        Self::input(field, sentence(&error), action)
    }
}

/// A message as a sentence of its own.
fn sentence(error: &print::PrintError) -> String {
    let text = error.to_string();
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        format!("{}{}.", first.to_uppercase(), letters.as_str())
    })
}
