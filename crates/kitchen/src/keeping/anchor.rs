//! Keeping figures of the tables, each at its own temperature, and how they are carried to another.

use std::sync::LazyLock;

use quantity::to_f64;
use reference::{BasisKind, Printed, Reference, StorageRow};
use serde::Deserialize;

use super::warmth::Warmth;
use super::{KeepPlace, WIDEN};
use crate::crop::CropRow;
use crate::grade::GradeRow;

/// Room temperature of the grades that keep so many days whatever the crop, degrees F.
const ROOM_F: (f64, f64) = (65.0, 75.0);

/// One figure: so many days between these temperatures.
pub(super) struct Anchor {
    pub(super) low_f: f64,
    pub(super) high_f: f64,
    days_low: f64,
    days_high: f64,
    /// Chilling harms below this, degrees F.
    floor_f: Option<f64>,
    remembered: bool,
    pub(super) source: String,
}

/// A figure carried to another temperature.
pub(super) struct Carried {
    pub(super) low: f64,
    /// The early end is never below this, however the range is widened.
    pub(super) at_least: f64,
    pub(super) high: f64,
    pub(super) remembered: bool,
    pub(super) source: String,
    pub(super) notes: Vec<String>,
}

impl Anchor {
    /// "8 to 12 days at 40 to 45 F".
    pub(super) fn figure(&self) -> String {
        let range = |low: f64, high: f64| {
            if low == high {
                format!("{low}")
            } else {
                format!("{low} to {high}")
            }
        };
        format!(
            "{} days at {} F",
            range(self.days_low, self.days_high),
            range(self.low_f, self.high_f)
        )
    }

    /// The figure at `degrees` F; `None` above what the tables reach.
    ///
    /// Warmer shortens. Colder lengthens, except that a chilling-sensitive crop gains nothing
    /// below its floor: there the early end is halved (our decision, no figure read).
    pub(super) fn carry(&self, warmth: &Warmth, degrees: f64) -> Option<Carried> {
        let mut carried = Carried {
            low: self.days_low,
            at_least: 0.0,
            high: self.days_high,
            remembered: self.remembered,
            source: String::new(),
            notes: Vec::new(),
        };
        // A figure for chilled produce already counts the chilling in.
        let chilled_figure = self.floor_f.is_some_and(|floor| self.high_f < floor);
        let gain_down_to = match self.floor_f {
            Some(_) if chilled_figure => self.low_f,
            Some(floor) => degrees.max(floor).min(self.low_f),
            None => degrees,
        };
        if degrees > self.high_f {
            let growth = warmth.growth(self.high_f, degrees)?;
            carried.low /= growth.high;
            carried.high /= growth.low;
            carried.remembered |= growth.remembered;
            carried.source = growth.source;
        } else if gain_down_to < self.low_f {
            let growth = warmth.growth(gain_down_to, self.low_f)?;
            // Colder is never worse than the figure itself; only the gain is less sure.
            carried.at_least = if self.remembered {
                self.days_low / WIDEN
            } else {
                self.days_low
            };
            carried.low *= growth.low;
            carried.high *= growth.high;
            carried.remembered |= growth.remembered;
            carried.source = growth.source;
        }
        if let Some(floor) = self.floor_f
            && degrees < floor
        {
            carried.notes.push(format!(
                "Chilling harms it below {floor} F: pitting, poor ripening, early decay."
            ));
            if !chilled_figure {
                // Halving is caution enough: the early end is not widened on top of it.
                carried.low = self.days_low / 2.0;
                carried.at_least = if self.remembered {
                    carried.low / WIDEN
                } else {
                    carried.low
                };
                carried.remembered = true;
            }
        }
        Some(carried)
    }
}

#[derive(Debug, Clone, Deserialize)]
struct HouseholdLine {
    crop: String,
    stage: String,
    place: KeepPlace,
    temp_f_low: f64,
    temp_f_high: f64,
    days_low: f64,
    days_high: f64,
    source: String,
    basis: String,
}

static HOUSEHOLD: LazyLock<Vec<HouseholdLine>> = LazyLock::new(|| {
    let text = include_str!("../../../../data/kitchen/household_keeping.csv");
    csv::Reader::from_reader(text.as_bytes())
        .deserialize()
        .collect::<Result<_, _>>()
        // The text is compiled in, and a test reads every line of it.
        .expect("the table of keeping in the house is compiled in and read whole by a test")
});

/// The figures that speak of this lot: of the house for this place where there are any (dry room
/// air, a refrigerator), else of the storage table. Several where lists disagree.
pub(super) fn anchors(
    reference: &Reference,
    crop: &CropRow,
    grade: &GradeRow,
    place: KeepPlace,
) -> Vec<Anchor> {
    if let Some((low, high)) = grade.room_days {
        return vec![Anchor {
            low_f: ROOM_F.0,
            high_f: ROOM_F.1,
            days_low: low as f64,
            days_high: high as f64,
            floor_f: None,
            remembered: grade.remembered,
            source: grade.source.clone(),
        }];
    }
    let stages = if grade.storage_stages.is_empty() {
        &crop.storage_stages
    } else {
        &grade.storage_stages
    };
    let rows: Vec<&StorageRow> = reference
        .storage()
        .iter()
        .filter(|row| row.crop == crop.storage_crop && stages.contains(&row.stage))
        .collect();
    let floor_f = rows
        .iter()
        .filter_map(|row| Some(to_f64(row.chilling_sensitive_below_f.as_ref()?.high())))
        .reduce(f64::max);
    let house: Vec<Anchor> = HOUSEHOLD
        .iter()
        .filter(|line| line.crop == crop.storage_crop && stages.contains(&line.stage))
        .filter(|line| line.place == place)
        .map(|line| Anchor {
            low_f: line.temp_f_low,
            high_f: line.temp_f_high,
            days_low: line.days_low,
            days_high: line.days_high,
            floor_f,
            remembered: line.basis != "read",
            source: line.source.clone(),
        })
        .collect();
    if !house.is_empty() {
        return house;
    }
    rows.into_iter()
        .filter_map(|row| {
            let number = |cell: &Option<Printed>| cell.as_ref().map(|cell| to_f64(cell.low()));
            Some(Anchor {
                low_f: number(&row.temp_f_low)?,
                high_f: number(&row.temp_f_high)?,
                days_low: number(&row.days_low)?,
                days_high: number(&row.days_high)?,
                floor_f,
                remembered: !matches!(row.basis.kind, BasisKind::Read | BasisKind::ReadConverted),
                source: row.source.clone(),
            })
        })
        .collect()
}
