//! Rows of the smaller process tables: foods, limits, changes, practice, acid, measures, sugar work.

use super::{row, yes_no};
use crate::number::{Exact, Printed};
use crate::words::{AcidClass, ChangeVerdict, Jar, Mark, Severity};
use serde::{Deserialize, Serialize};

/// A food of the process tables.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct FoodRow {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    /// Key.
    pub food: String,
    /// As printed.
    pub title: String,
    /// Group, such as `tomato` or `pickle`.
    pub group: String,
    /// Acidity class.
    pub acid_class: AcidClass,
    /// Headspace, inches.
    pub headspace_in: Option<Printed>,
    /// Pounds of raw produce for a load of 7 quarts.
    pub raw_lb_per_7qt: Option<Printed>,
    /// Pounds of raw produce for a load of 9 pints.
    pub raw_lb_per_9pt: Option<Printed>,
    /// Pounds in a bushel.
    pub bushel_lb: Option<Printed>,
    /// Quarts from a bushel, low.
    pub quarts_per_bushel_low: Option<Printed>,
    /// Quarts from a bushel, high.
    pub quarts_per_bushel_high: Option<Printed>,
    /// Pounds of raw produce per quart.
    pub raw_lb_per_quart: Option<Printed>,
    /// Acid per quart, alternatives split by `;`.
    pub acid_per_quart: String,
    /// Acid per pint, alternatives split by `;`.
    pub acid_per_pint: String,
    /// Largest jar with a printed time.
    pub largest_jar: Jar,
    /// Guide number.
    pub guide: String,
    /// Page where the product begins.
    pub page: String,
    /// How it was read.
    #[serde(rename = "verified")]
    pub mark: Mark,
    /// Upper end of `raw_lb_per_7qt`.
    pub raw_lb_per_7qt_high: Option<Printed>,
    /// Upper end of `raw_lb_per_9pt`.
    pub raw_lb_per_9pt_high: Option<Printed>,
    /// Upper end of `raw_lb_per_quart`.
    pub raw_lb_per_quart_high: Option<Printed>,
    /// Another container: crate, lug, bag.
    pub other_container: String,
    /// Pounds in it.
    pub other_container_lb: Option<Printed>,
    /// Quarts from it, low.
    pub other_container_quarts_low: Option<Printed>,
    /// Quarts from it, high.
    pub other_container_quarts_high: Option<Printed>,
}

row!(
    FoodRow,
    "process/foods.csv",
    page,
    [
        "food",
        "title",
        "group",
        "acid_class",
        "headspace_in",
        "largest_jar",
        "guide",
        "page",
        "verified",
    ]
);

/// One acid that may stand in each jar, whole.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct AcidAddition {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    /// Food key.
    pub food: String,
    /// Jar.
    pub jar: Jar,
    /// Acid: `bottled-lemon-juice`, `citric-acid`, `vinegar-5pct`, `lemon-juice`.
    pub acid: String,
    /// Amount in `unit`.
    pub amount: Printed,
    /// `tbsp` or `tsp`.
    pub unit: String,
    /// Guide number.
    pub guide: String,
    /// Page.
    pub page: String,
    /// How it was read.
    #[serde(rename = "verified")]
    pub mark: Mark,
}

row!(
    AcidAddition,
    "process/acid_additions.csv",
    page,
    [
        "food", "jar", "acid", "amount", "unit", "guide", "page", "verified",
    ]
);

/// A limit of the publication.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct LimitRow {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    /// Scope: a food or recipe key, `group:`, `class:` or `all`.
    #[serde(rename = "food_or_recipe")]
    pub scope: String,
    /// Rule key.
    pub rule: String,
    /// What it says.
    pub detail: String,
    /// Whether it binds.
    pub severity: Severity,
    /// Page, or `memory`.
    pub page: String,
    /// Its number, where it has one.
    pub value: Option<Printed>,
    /// Unit of the number.
    pub unit: String,
}

impl LimitRow {
    /// The limit in whole days, where its unit is a span of time; a month counts as its shortest,
    /// so that a printed month is never stretched.
    pub fn days(&self) -> Option<i64> {
        let days = match self.unit.as_str() {
            "days" => 1,
            "weeks" => 7,
            "months" => 28,
            _ => return None,
        };
        let value = i64::try_from(quantity::floor(self.value.as_ref()?.low())).ok()?;
        value.checked_mul(days)
    }
}

row!(
    LimitRow,
    "process/limits.csv",
    page,
    [
        "food_or_recipe",
        "rule",
        "detail",
        "severity",
        "page",
        "value",
        "unit",
    ]
);

/// A change the publication names.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ChangeRow {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    #[serde(rename(deserialize = "source"), skip_serializing)]
    printed: String,
    /// Key of the change.
    pub change: String,
    /// Scope: a food or recipe key, `group:`, `class:` or `all`.
    #[serde(rename = "applies_to")]
    pub scope: String,
    /// What it says.
    pub verdict: ChangeVerdict,
    /// Under which condition.
    pub condition: String,
}

row!(
    ChangeRow,
    "process/changes.csv",
    printed,
    ["change", "applies_to", "verdict", "condition", "source",]
);

/// A fact of good practice: a number, a flag or a word.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct PracticeRow {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    #[serde(rename(deserialize = "source"), skip_serializing)]
    printed: String,
    /// Key.
    pub key: String,
    /// Value as printed: a number, `yes`, or a word.
    pub value: String,
    /// Unit.
    pub unit: String,
    /// Note.
    pub note: String,
}

row!(
    PracticeRow,
    "process/practice.csv",
    printed,
    ["key", "value", "unit", "note", "source"]
);

impl PracticeRow {
    /// The value when it is a number.
    pub fn number(&self) -> Option<Exact> {
        Printed::parse(&self.value).and_then(|p| p.single())
    }
}

/// A physical constant or a derived figure, as a range.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ConstantRow {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    #[serde(rename(deserialize = "source"), skip_serializing)]
    printed: String,
    /// Key.
    pub key: String,
    /// Low end.
    pub value_low: Printed,
    /// High end.
    pub value_high: Printed,
    /// Unit.
    pub unit: String,
    /// Marked doubtful.
    #[serde(with = "yes_no")]
    pub doubtful: bool,
}

row!(
    ConstantRow,
    "process/constants.csv",
    printed,
    [
        "key",
        "value_low",
        "value_high",
        "unit",
        "doubtful",
        "source",
    ]
);

/// pH of a food as a list prints it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct AcidityRow {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    #[serde(rename(deserialize = "source"), skip_serializing)]
    printed: String,
    /// Key.
    pub food: String,
    /// As printed.
    pub title: String,
    /// Lowest pH.
    pub ph_low: Printed,
    /// Highest pH.
    pub ph_high: Printed,
    /// Marked doubtful.
    #[serde(with = "yes_no")]
    pub doubtful: bool,
}

row!(
    AcidityRow,
    "process/acidity.csv",
    printed,
    ["food", "title", "ph_low", "ph_high", "doubtful", "source",]
);

/// Weight of a household measure of something.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct MeasureRow {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    #[serde(rename(deserialize = "source"), skip_serializing)]
    printed: String,
    /// What is weighed.
    pub substance: String,
    /// The measure, such as `cup`.
    pub measure: String,
    /// Grams as printed; one line prints several figures.
    pub grams: String,
    /// Marked doubtful.
    #[serde(with = "yes_no")]
    pub doubtful: bool,
}

row!(
    MeasureRow,
    "process/measures.csv",
    printed,
    ["substance", "measure", "grams", "doubtful", "source",]
);
