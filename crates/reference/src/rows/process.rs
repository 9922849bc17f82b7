//! Rows of the process tables: times and pressures, what is not recommended, low-temperature treatment.

use super::row;
use crate::words::{AcidClass, Jar, Mark, Method, TablePack};
use serde::{Deserialize, Serialize};

/// One printed process: minutes, and pressure where there is one, for a food, pack, jar, method and band.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ProcessRow {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    /// Food key.
    pub food: String,
    /// Food as printed.
    pub title: String,
    /// Pack the line serves.
    pub pack: TablePack,
    /// Jar the line is printed for.
    pub jar: Jar,
    /// Boiling water, dial or weighted gauge.
    pub method: Method,
    /// Lower edge of the band, whole feet as printed.
    #[serde(rename = "elevation_low_ft")]
    pub low_ft: u32,
    /// Upper edge of the band, feet; `None` where no ceiling is printed.
    #[serde(rename = "elevation_high_ft")]
    pub high_ft: Option<u32>,
    /// Process minutes.
    pub minutes: u32,
    /// Pressure in pounds per square inch, for pressure methods.
    pub psi: Option<u32>,
    /// Which complete (minutes, pressure) pair of the table this is; 1 where there is one.
    pub option: u8,
    /// Guide number of the publication, or `other`.
    pub guide: String,
    /// Page, or source key for guide `other`.
    pub page: String,
    /// How the cell was read.
    #[serde(rename = "verified")]
    pub mark: Mark,
}

row!(
    ProcessRow,
    "process/processes.csv",
    page,
    [
        "food",
        "title",
        "pack",
        "jar",
        "method",
        "elevation_low_ft",
        "elevation_high_ft",
        "minutes",
        "psi",
        "option",
        "guide",
        "page",
        "verified",
    ]
);

impl ProcessRow {
    /// The row's key: `food/pack/jar/method/low-high/option`.
    pub fn key(&self) -> String {
        format!("{}/{}/{}", self.series(), self.band_text(), self.option)
    }

    /// Everything but band and option: `food/pack/jar/method`.
    pub fn series(&self) -> String {
        format!("{}/{}/{}/{}", self.food, self.pack, self.jar, self.method)
    }

    /// The band in words: `0 to 1000 ft`, or `above 6000 ft` where no ceiling is printed.
    pub fn band_words(&self) -> String {
        match self.high_ft {
            Some(high) => format!("{} to {high} ft", self.low_ft),
            None => format!("above {} ft", self.low_ft.saturating_sub(1)),
        }
    }

    /// The band as `0-1000`, or `6001-` where no ceiling is printed.
    pub fn band_text(&self) -> String {
        match self.high_ft {
            Some(high) => format!("{}-{high}", self.low_ft),
            None => format!("{}-", self.low_ft),
        }
    }
}

/// A pair the tables print as not recommended, or a food that is refrigerator-only (then without method).
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct NotRecommended {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    /// Food key.
    pub food: String,
    /// Food as printed.
    pub title: String,
    /// Pack.
    pub pack: TablePack,
    /// Jar.
    pub jar: Jar,
    /// Method; `None` for refrigerator-only foods.
    pub method: Option<Method>,
    /// Lower edge of the band, feet.
    #[serde(rename = "elevation_low_ft")]
    pub low_ft: Option<u32>,
    /// Upper edge of the band, feet.
    #[serde(rename = "elevation_high_ft")]
    pub high_ft: Option<u32>,
    /// Minutes printed beside the refusal.
    pub minutes: Option<u32>,
    /// Pressure of the refused pair.
    pub psi: Option<u32>,
    /// Option number.
    pub option: Option<u8>,
    /// Guide number.
    pub guide: String,
    /// Page.
    pub page: String,
    /// How it was read.
    #[serde(rename = "verified")]
    pub mark: Mark,
    /// Why.
    pub reason: String,
}

row!(
    NotRecommended,
    "process/not_recommended.csv",
    page,
    [
        "food",
        "title",
        "pack",
        "jar",
        "method",
        "elevation_low_ft",
        "elevation_high_ft",
        "minutes",
        "psi",
        "option",
        "guide",
        "page",
        "verified",
        "reason",
    ]
);

/// The 180 to 185 F treatment, for the recipes that offer it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct LowTempRow {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    /// Food key.
    pub food: String,
    /// Food as printed.
    pub title: String,
    /// Pack.
    pub pack: TablePack,
    /// Jar.
    pub jar: Jar,
    /// Lowest water temperature, degrees Fahrenheit.
    pub water_low_f: u32,
    /// Highest water temperature, degrees Fahrenheit.
    pub water_high_f: u32,
    /// Minutes.
    pub minutes: u32,
    /// Guide number.
    pub guide: String,
    /// Page.
    pub page: String,
    /// How it was read.
    #[serde(rename = "verified")]
    pub mark: Mark,
}

row!(
    LowTempRow,
    "process/low_temp_pasteurize.csv",
    page,
    [
        "food",
        "title",
        "pack",
        "jar",
        "water_low_f",
        "water_high_f",
        "minutes",
        "guide",
        "page",
        "verified",
    ]
);

impl LowTempRow {
    /// The row's key.
    pub fn key(&self) -> String {
        format!("low-temperature/{}/{}/{}", self.food, self.pack, self.jar)
    }

    /// The row as a process in a boiling-water canner: the water is kept at its temperature by a
    /// thermometer, so one band holds at every elevation.
    pub(crate) fn series(&self) -> ProcessRow {
        ProcessRow {
            line: self.line,
            source: self.source.clone(),
            food: self.food.clone(),
            title: self.title.clone(),
            pack: self.pack,
            jar: self.jar,
            method: Method::BoilingWater,
            low_ft: 0,
            high_ft: None,
            minutes: self.minutes,
            psi: None,
            option: 1,
            guide: self.guide.clone(),
            page: self.page.clone(),
            mark: self.mark,
        }
    }
}

/// The pressure that goes with a gauge, a food class and a band.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct PressureBand {
    /// Line in the table.
    #[serde(skip_deserializing)]
    pub line: u64,
    /// Where it was read, fit to show.
    #[serde(skip_deserializing)]
    pub source: String,
    #[serde(rename(deserialize = "source"), skip_serializing)]
    printed: String,
    /// Dial or weighted gauge.
    pub gauge: Method,
    /// Acid or low-acid.
    pub food_class: AcidClass,
    /// Lower edge of the band, feet.
    #[serde(rename = "elevation_low_ft")]
    pub low_ft: u32,
    /// Upper edge of the band, feet.
    #[serde(rename = "elevation_high_ft")]
    pub high_ft: Option<u32>,
    /// Pressure, pounds per square inch.
    pub psi: u32,
}

row!(
    PressureBand,
    "process/pressure_bands.csv",
    printed,
    [
        "gauge",
        "food_class",
        "elevation_low_ft",
        "elevation_high_ft",
        "psi",
        "source",
    ]
);
