//! How long a lot keeps: a range of dates with its reason, never a promise.
//!
//! A storage figure holds at its own temperature; it is carried to the lot's temperature by how
//! much faster the crop breathes there. Whatever rests on a remembered figure is widened by half
//! at both ends, so that it never becomes a single date.

mod anchor;
mod own;
mod ripening;
mod state;
mod warmth;

use jiff::civil::Date;
use jiff::{Span, ToSpan};
use quantity::{Temperature, show, to_f64};
use reference::Reference;
use serde::{Deserialize, Serialize};

use crate::crop::{CropRow, crop};
use crate::grade::{GradeRow, grade};
use crate::lot_error::LotError;
use anchor::anchors;
pub use own::{LotOutcome, Observation, OwnFactor, own_factor};
use ripening::{Ripening, days_to_red};
pub use state::{KeepingState, check_picked};
use warmth::Warmth;

/// What a remembered figure is divided and multiplied by at its two ends.
const WIDEN: f64 = 1.5;
/// Longest believed keeping, in days; anything beyond is a slip in a table or a record.
const LONGEST_DAYS: f64 = 3650.0;
/// A lot is looked at again at least this often, in days.
const LOOK_EVERY: i64 = 7;
/// Long keepers (early end beyond this many days) are looked at every other week.
const LONG_KEEPER: i64 = 60;

/// Where fresh food lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum KeepPlace {
    /// In the room: counter, porch, kitchen floor; dry air.
    Counter,
    /// Cool and damp.
    ColdRoom,
    /// Refrigerator.
    Fridge,
}

impl KeepPlace {
    /// All places, warmest first.
    pub const ALL: [KeepPlace; 3] = [KeepPlace::Counter, KeepPlace::ColdRoom, KeepPlace::Fridge];

    /// The word stored and sent.
    pub fn as_str(self) -> &'static str {
        match self {
            KeepPlace::Counter => "counter",
            KeepPlace::ColdRoom => "cold-room",
            KeepPlace::Fridge => "fridge",
        }
    }

    /// "on the counter".
    fn said(self) -> &'static str {
        match self {
            KeepPlace::Counter => "on the counter",
            KeepPlace::ColdRoom => "in the cold room",
            KeepPlace::Fridge => "in the fridge",
        }
    }
}

impl std::str::FromStr for KeepPlace {
    type Err = LotError;

    fn from_str(text: &str) -> Result<Self, LotError> {
        KeepPlace::ALL
            .into_iter()
            .find(|place| place.as_str() == text.trim())
            .ok_or_else(|| LotError::UnknownPlace {
                text: text.trim().to_owned(),
            })
    }
}

/// What a keeping range rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Basis {
    /// Every figure was read on the page named.
    Read,
    /// Some figure was remembered; the range is widened by half.
    Remembered,
    /// The household's own record.
    Own,
}

impl Basis {
    /// "read", "remembered" or "own record".
    pub fn word(self) -> &'static str {
        match self {
            Basis::Read => "read",
            Basis::Remembered => "remembered",
            Basis::Own => "own record",
        }
    }
}

/// How long a lot keeps. Always `ready_from <= early <= late`; a plan uses `early`.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Keeping {
    /// First day it is likely to be ripe; the picking day for what is ripe already.
    pub ready_from: Date,
    /// Day by which it should be ripe; the same as `ready_from` for what is ripe already.
    pub ready_late: Date,
    /// Keeps at least until about this day.
    pub early: Date,
    /// Keeps at most until about this day.
    pub late: Date,
    /// First day to look at it again.
    pub look_again: Date,
    /// Days between one look and the next.
    pub look_every_days: i64,
    /// The day it was picked.
    pub picked_on: Date,
    /// Why, as a sentence.
    pub reason: String,
    /// What it rests on.
    pub basis: Basis,
    /// Where the figures were read.
    pub source: String,
    /// Warnings: chilling, a temperature outside the tables, figures of another crop.
    pub notes: Vec<String>,
}

impl Keeping {
    /// Days from the picking to the early end.
    pub fn early_days(&self) -> i64 {
        days_between(self.picked_on, self.early)
    }

    /// Days from the picking to the late end.
    pub fn late_days(&self) -> i64 {
        days_between(self.picked_on, self.late)
    }
}

/// How long a lot of this crop and grade keeps in this place at this temperature.
/// Errors: `UnknownCrop`, `UnknownGrade`, `Freezing`, `TooWarm`, `NoKeeping`, `DateOutOfRange`.
pub fn keeping(
    reference: &Reference,
    crop_key: &str,
    grade_key: &str,
    place: KeepPlace,
    temperature: Temperature,
    picked_on: Date,
) -> Result<Keeping, LotError> {
    keeping_with_own(
        reference,
        crop_key,
        grade_key,
        place,
        temperature,
        picked_on,
        None,
    )
}

/// The same, with what the household's own record taught. Errors: as [`keeping`].
pub fn keeping_with_own(
    reference: &Reference,
    crop_key: &str,
    grade_key: &str,
    place: KeepPlace,
    temperature: Temperature,
    picked_on: Date,
    own: Option<&OwnFactor>,
) -> Result<Keeping, LotError> {
    let asked = Asked {
        crop: crop(crop_key)?,
        grade: grade(crop_key, grade_key)?,
        place,
        temperature,
    };
    let life = life(reference, &asked)?;
    let ripening = asked
        .grade
        .ripening_class
        .as_deref()
        .and_then(|class| days_to_red(reference, class, to_f64(temperature.fahrenheit())));
    let basis = match own {
        Some(_) => Basis::Own,
        None if life.remembered || ripening.is_some() => Basis::Remembered,
        None => Basis::Read,
    };
    let mut kept = whole_days(life.low, life.high, life.remembered);
    kept.0 = kept.0.max(life.at_least.floor() as i64);
    let (ready_low, ready_high) = ripening.as_ref().map_or((0, 0), |ripening| {
        whole_days(ripening.low, ripening.high, true)
    });
    let (mut early_days, mut late_days) = (ready_low + kept.0, ready_high + kept.1);
    if let Some(own) = own {
        (early_days, late_days) = own.apply(early_days, late_days);
        // A lot cannot be past before it is ripe.
        early_days = early_days.max(ready_low);
        late_days = late_days.max(early_days).max(ready_high);
    }
    let look_every_days = look_every(early_days);
    let mut notes = life.notes;
    if let Some(ripening) = &ripening {
        notes.extend(ripening.notes.iter().cloned());
    }
    let at = |days: i64| date_after(picked_on, days);
    Ok(Keeping {
        ready_from: at(ready_low)?,
        ready_late: at(ready_high)?,
        early: at(early_days)?,
        late: at(late_days)?,
        look_again: at(look_every_days.min(early_days))?,
        look_every_days,
        picked_on,
        reason: match own {
            Some(own) => own.reason(&asked, early_days, late_days),
            None => reason(&asked, &life.figure, kept, ripening.as_ref(), basis),
        },
        basis,
        source: source(&life.source, ripening.as_ref(), own),
        notes,
    })
}

/// What was asked.
struct Asked {
    crop: &'static CropRow,
    grade: &'static GradeRow,
    place: KeepPlace,
    temperature: Temperature,
}

impl Asked {
    /// "on the counter at 70 F (21.1 C)".
    fn lies(&self) -> String {
        format!(
            "{} at {}",
            self.place.said(),
            show::temperature(self.temperature)
        )
    }
}

/// Days kept at the lot's temperature, not yet widened.
struct Life {
    low: f64,
    /// The early end is never below this, however the range is widened.
    at_least: f64,
    high: f64,
    remembered: bool,
    /// "8 to 12 days at 40 to 45 F", as the table has it.
    figure: String,
    source: String,
    notes: Vec<String>,
}

fn life(reference: &Reference, asked: &Asked) -> Result<Life, LotError> {
    let degrees = to_f64(asked.temperature.fahrenheit());
    let said = || show::temperature(asked.temperature).to_string();
    let anchors = anchors(reference, asked.crop, asked.grade, asked.place);
    let Some(first) = anchors.first() else {
        return Err(LotError::NoKeeping {
            plural: asked.crop.plural.clone(),
            grade: asked.grade.title.clone(),
        });
    };
    let coldest = anchors
        .iter()
        .map(|anchor| anchor.low_f)
        .fold(32.0, f64::min);
    if degrees < coldest {
        return Err(LotError::Freezing {
            temperature: said(),
            plural: asked.crop.plural.clone(),
        });
    }
    let warmth = Warmth::new(reference, asked.crop.respiration.as_deref());
    let mut life = Life {
        low: f64::INFINITY,
        at_least: f64::INFINITY,
        high: 0.0,
        remembered: false,
        figure: first.figure(),
        source: String::new(),
        notes: Vec::new(),
    };
    for anchor in &anchors {
        let carried = anchor
            .carry(&warmth, degrees)
            .ok_or_else(|| LotError::TooWarm {
                temperature: said(),
                plural: asked.crop.plural.clone(),
            })?;
        // Where two lists disagree the shorter gives the early end and the longer the late one.
        life.low = life.low.min(carried.low);
        life.at_least = life.at_least.min(carried.at_least);
        life.high = life.high.max(carried.high);
        life.remembered |= carried.remembered;
        for part in [&anchor.source, &carried.source] {
            if !part.is_empty() && !life.source.contains(part.as_str()) {
                if !life.source.is_empty() {
                    life.source.push_str("; ");
                }
                life.source.push_str(part);
            }
        }
        for note in carried.notes {
            if !life.notes.contains(&note) {
                life.notes.push(note);
            }
        }
    }
    if let Some(stand_in) = warmth.stands_in_for(&asked.crop.storage_crop)
        && life.remembered
    {
        life.notes.push(format!(
            "The effect of warmth is taken from {stand_in}: no figures for {} itself.",
            asked.crop.plural
        ));
    }
    Ok(life)
}

/// Whole days: the early end down, the late end up; a remembered range is widened by half first
/// and never closes to one day.
fn whole_days(low: f64, high: f64, remembered: bool) -> (i64, i64) {
    let (low, high) = if remembered {
        (low / WIDEN, high * WIDEN)
    } else {
        (low, high)
    };
    // A thousandth of a day is noise of the arithmetic, not a day more or less.
    let early = (low + 0.001).min(LONGEST_DAYS).floor() as i64;
    let late = (high - 0.001).clamp(0.0, LONGEST_DAYS).ceil() as i64;
    let late = late.max(early);
    (
        early,
        if remembered && late == early {
            late + 1
        } else {
            late
        },
    )
}

fn look_every(early_days: i64) -> i64 {
    if early_days > LONG_KEEPER {
        2 * LOOK_EVERY
    } else {
        ((early_days + 1) / 2).clamp(1, LOOK_EVERY)
    }
}

fn date_after(date: Date, days: i64) -> Result<Date, LotError> {
    let span: Span = days.days();
    date.checked_add(span)
        .map_err(|_| LotError::DateOutOfRange { picked: date })
}

fn days_between(from: Date, to: Date) -> i64 {
    from.duration_until(to).as_hours() / 24
}

/// "3 days", "2 to 4 days", "about a day".
fn said_days(low: i64, high: i64) -> String {
    match (low, high) {
        (0, 0) => "today only".to_owned(),
        (1, 1) => "about a day".to_owned(),
        (low, high) if low == high => format!("{low} days"),
        (low, high) => format!("{low} to {high} days"),
    }
}

fn reason(
    asked: &Asked,
    figure: &str,
    (low, high): (i64, i64),
    ripening: Option<&Ripening>,
    basis: Basis,
) -> String {
    let Asked { crop, grade, .. } = asked;
    let where_it_lies = asked.lies();
    let basis = match basis {
        Basis::Read => "as read",
        Basis::Remembered => "remembered, so widened by half",
        // Said by the record itself.
        Basis::Own => "own record",
    };
    match ripening {
        Some(ripening) => {
            let (from, to) = whole_days(ripening.low, ripening.high, true);
            format!(
                "{} ({}) turn red in {} {where_it_lies}, then keep {} as red fruit; {basis}.",
                capital(&crop.plural),
                grade.title,
                said_days(from, to),
                said_days(low, high)
            )
        }
        None => format!(
            "{} ({}) keep {} {where_it_lies}; the table has {figure}; {basis}.",
            capital(&crop.plural),
            grade.title,
            said_days(low, high)
        ),
    }
}

fn source(life: &str, ripening: Option<&Ripening>, own: Option<&OwnFactor>) -> String {
    let mut parts = Vec::new();
    if let Some(own) = own {
        parts.push(own.source());
    }
    if let Some(ripening) = ripening {
        parts.push(ripening.source.clone());
    }
    parts.push(life.to_owned());
    parts.join("; ")
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    match letters.next() {
        Some(first) => first.to_uppercase().chain(letters).collect(),
        None => String::new(),
    }
}
