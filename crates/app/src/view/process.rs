//! Process: the tested process for one food, jar, canner and place.

use super::Choice;
use super::batch::VerdictView;
use serde::Serialize;

/// The Process page.
#[derive(Debug, Clone, Serialize)]
pub struct ProcessView {
    /// The question as asked, for the form.
    pub asked: Asked,
    /// Choices.
    pub foods: Vec<Choice>,
    /// Packs.
    pub packs: Vec<Choice>,
    /// Jars.
    pub jars: Vec<Choice>,
    /// Methods.
    pub methods: Vec<Choice>,
    /// The answer, when a food was asked for.
    pub answer: Option<VerdictView>,
    /// All rows of the food, as printed: for comparing.
    pub rows: Vec<RowLine>,
    /// Headspace in words.
    pub headspace: String,
    /// Acid in words.
    pub acid: Vec<String>,
    /// Cautions.
    pub cautions: Vec<String>,
}

/// The question as typed.
#[derive(Debug, Clone, Default, Serialize)]
pub struct Asked {
    /// Food key or typed text.
    pub food: String,
    /// Pack key.
    pub pack: String,
    /// Jar key.
    pub jar: String,
    /// Method key.
    pub method: String,
    /// Elevation as typed.
    pub elevation: String,
}

/// One printed row.
#[derive(Debug, Clone, Serialize)]
pub struct RowLine {
    /// "hot", "raw" or "any".
    pub pack: String,
    /// Jar.
    pub jar: String,
    /// Method.
    pub method: String,
    /// "1,001 to 3,000 ft".
    pub band: String,
    /// Minutes.
    pub minutes: i64,
    /// Pressure.
    pub psi: String,
    /// Page.
    pub page: String,
    /// Mark of doubt, empty when read in the 2015 text.
    pub mark: String,
    /// Is it the row that answers?
    pub answers: bool,
}
