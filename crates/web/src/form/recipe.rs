//! The form of a household's own recipe: fields into typed requests.

use super::Fields;
use app::request::{KeepRecipe, ReadRecipe};

/// A dry run.
pub fn read(fields: &Fields) -> ReadRecipe {
    ReadRecipe {
        text: fields.get("text").into(),
        answers: fields.under("answers"),
    }
}

/// The recipe is kept.
pub fn keep(fields: &Fields) -> KeepRecipe {
    KeepRecipe {
        text: fields.get("text").into(),
        answers: fields.under("answers"),
        token: fields.get("token").into(),
    }
}
