//! The gate's yes for heat. A [`Permit`] lives in memory only and can be made by the gate alone;
//! what is stored is a [`PermitRecord`], which arms nothing.

use crate::question::HeatQuestion;
use quantity::{Exact, exact_text};
use reference::{Jar, Method};
use serde::{Deserialize, Serialize};

/// Version of the gate's rules, stored with each record.
pub const GATE_VERSION: u32 = 1;

/// Leave to process these jars now, in this way, and in no other.
///
/// Its fields are private, it has no default and cannot be deserialised: whoever holds one got it
/// from [`crate::judge_heat`].
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Permit {
    record: PermitRecord,
}

/// Plain data about a permit that was given: shows what was allowed then, arms nothing now.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct PermitRecord {
    /// The question as it was asked.
    pub question: HeatQuestion,
    /// Food as printed.
    pub title: String,
    /// The jar whose row was used.
    pub row_jar: Jar,
    /// The method whose row was used.
    pub row_method: Method,
    /// The pair chosen.
    pub chosen: Pair,
    /// Every whole pair permitted, the chosen one among them.
    pub pairs: Vec<Pair>,
    /// Water held at a temperature instead of boiling, where that treatment was asked for.
    #[serde(default)]
    pub water: Option<WaterBand>,
    /// Headspace in inches as printed.
    pub headspace_in: Option<String>,
    /// The acid rows for each jar, as printed.
    pub acid: Vec<AcidLine>,
    /// What must be true or ticked.
    pub conditions: Vec<Statement>,
    /// What the publication asks on the way: limits of the food, water, venting, restarts.
    pub keep_to: Vec<Statement>,
    /// Marks that go to the card and the record: doubtful cells, own extensions, disagreements.
    pub marks: Vec<Statement>,
    /// The rules that acted, with their sources.
    pub rules: Vec<Statement>,
    /// What was taken as given without being told.
    pub assumed: Vec<String>,
    /// What the program cannot know.
    pub cannot_know: Vec<String>,
    /// Edition of the tables.
    pub edition: String,
    /// Version of the gate's rules.
    pub gate_version: u32,
}

/// One whole printed pair of minutes and pressure. Halves of two pairs are never combined.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Pair {
    /// Number of the pair in the table.
    pub option: u8,
    /// Process minutes.
    pub minutes: u32,
    /// Printed pressure, pounds per square inch.
    pub psi: Option<u32>,
    /// What the dial must show, the gauge's error added; for weights and boiling water `None`.
    #[serde(with = "exact_text::option", default)]
    pub dial_shows_psi: Option<Exact>,
    /// Lower edge of the band, feet.
    pub band_low_ft: u32,
    /// Upper edge of the band, feet; `None` where no ceiling is printed.
    pub band_high_ft: Option<u32>,
    /// Key of the row.
    pub row_key: String,
    /// Where it was read, fit to show.
    pub source: String,
    /// Page.
    pub page: String,
}

/// The water of the low-temperature treatment: kept between these all of the time.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct WaterBand {
    /// Lowest, degrees Fahrenheit.
    pub low_f: u32,
    /// Highest, degrees Fahrenheit.
    pub high_f: u32,
}

/// A rule, condition or mark in words, with its source.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Statement {
    /// Its key.
    pub key: String,
    /// In words.
    pub text: String,
    /// Where it was read, or `our decision`.
    pub source: String,
}

/// One acid that may go into each jar, as printed for a jar size.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct AcidLine {
    /// Acid.
    pub acid: String,
    /// Jar the amount is printed for.
    pub jar: Jar,
    /// Amount as printed.
    pub amount: String,
    /// Unit.
    pub unit: String,
    /// Where it was read.
    pub source: String,
    /// Whether this is the acid the question named.
    pub chosen: bool,
}

impl Permit {
    /// Only the gate calls this.
    pub(crate) fn grant(record: PermitRecord) -> Permit {
        Permit { record }
    }

    /// The question as it was asked.
    pub fn question(&self) -> &HeatQuestion {
        &self.record.question
    }

    /// The food as printed.
    pub fn title(&self) -> &str {
        &self.record.title
    }

    /// Process minutes, as printed.
    pub fn minutes(&self) -> u32 {
        self.record.chosen.minutes
    }

    /// Printed pressure, pounds per square inch; `None` in boiling water and steam.
    pub fn psi(&self) -> Option<u32> {
        self.record.chosen.psi
    }

    /// What the dial must show: the printed pressure plus the gauge's error.
    pub fn dial_shows_psi(&self) -> Option<Exact> {
        self.record.chosen.dial_shows_psi
    }

    /// The elevation band used, feet; `None` above where no ceiling is printed.
    pub fn band(&self) -> (u32, Option<u32>) {
        (
            self.record.chosen.band_low_ft,
            self.record.chosen.band_high_ft,
        )
    }

    /// Where the figure was read, fit to show.
    pub fn source(&self) -> &str {
        &self.record.chosen.source
    }

    /// Page of the publication.
    pub fn page(&self) -> &str {
        &self.record.chosen.page
    }

    /// Keys of the rows the permit rests on.
    pub fn row_keys(&self) -> Vec<&str> {
        self.record
            .pairs
            .iter()
            .map(|p| p.row_key.as_str())
            .collect()
    }

    /// The chosen pair.
    pub fn chosen(&self) -> &Pair {
        &self.record.chosen
    }

    /// Every whole pair permitted; the chosen one among them.
    pub fn pairs(&self) -> &[Pair] {
        &self.record.pairs
    }

    /// The jar whose row was used.
    pub fn row_jar(&self) -> Jar {
        self.record.row_jar
    }

    /// The water's temperature where the low-temperature treatment was asked for; else it boils.
    pub fn water(&self) -> Option<WaterBand> {
        self.record.water
    }

    /// Headspace in inches, as printed.
    pub fn headspace(&self) -> Option<&str> {
        self.record.headspace_in.as_deref()
    }

    /// Acids printed for each jar.
    pub fn acid(&self) -> &[AcidLine] {
        &self.record.acid
    }

    /// What the publication asks on the way.
    pub fn keep_to(&self) -> &[Statement] {
        &self.record.keep_to
    }

    /// What must be true or ticked; a permit without conditions has none.
    pub fn conditions(&self) -> &[Statement] {
        &self.record.conditions
    }

    /// Marks that go to the card and the record.
    pub fn marks(&self) -> &[Statement] {
        &self.record.marks
    }

    /// The rules that acted.
    pub fn rules(&self) -> &[Statement] {
        &self.record.rules
    }

    /// Marks, assumptions and limits of knowledge in words, for a card.
    pub fn notes(&self) -> Vec<String> {
        let marks = self.record.marks.iter().map(|m| m.text.clone());
        marks
            .chain(self.record.assumed.iter().cloned())
            .chain(self.record.cannot_know.iter().cloned())
            .collect()
    }

    /// What was taken as given without being told.
    pub fn assumed(&self) -> &[String] {
        &self.record.assumed
    }

    /// What the program cannot know.
    pub fn cannot_know(&self) -> &[String] {
        &self.record.cannot_know
    }

    /// The plain record for the store.
    pub fn record(&self) -> PermitRecord {
        self.record.clone()
    }
}
