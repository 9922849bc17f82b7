//! One shift of food or of containers between two places.

use crate::{LedgerError, Place};
use jiff::civil::Date;
use serde::{Deserialize, Serialize};
use std::fmt;

/// The largest mass one movement may carry, in milligrams (1000 tonnes). It keeps every sum of a
/// household's lifetime far inside an `i64`.
pub const MAX_MILLIGRAMS: i64 = 1_000_000_000_000;

/// The largest number of containers one movement may carry.
pub const MAX_CONTAINERS: i64 = 1_000_000;

/// Which lot or batch a mass belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Content {
    /// Still as picked or bought.
    Lot(i64),
    /// Part of a batch.
    Batch(i64),
}

impl fmt::Display for Content {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Lot(id) => write!(f, "lot {id}"),
            Self::Batch(id) => write!(f, "batch {id}"),
        }
    }
}

/// One crop's mass going from one place to another.
///
/// `content` is what the mass is counted as where it leaves; `becomes`, when given, is what it is
/// counted as where it arrives. Food of lot 5 that goes into batch 3 is
/// `content: Lot(5), becomes: Some(Batch(3)), from: Counter, to: Pot`: it leaves the lot and joins
/// the batch in one line, so both stay exact and the batch's origin can be followed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Movement {
    /// The entry it belongs to.
    pub entry: i64,
    /// Line within the entry.
    pub line: u16,
    /// The day it happened.
    pub on: Date,
    /// Crop, or bought ingredient, whose mass this is.
    pub crop: String,
    /// What the mass is part of where it leaves.
    pub content: Content,
    /// What the mass is part of where it arrives; `None` = the same.
    pub becomes: Option<Content>,
    /// Where it leaves.
    pub from: Place,
    /// Where it arrives.
    pub to: Place,
    /// Milligrams, above zero.
    pub milligrams: i64,
    /// The mass was computed (fill volume, share of a batch), not weighed.
    pub estimated: bool,
}

impl Movement {
    /// What the mass is part of once it has arrived.
    #[must_use]
    pub fn content_after(&self) -> Content {
        self.becomes.unwrap_or(self.content)
    }

    /// What is wrong with this movement as a first-hand record (not as the undoing of one).
    ///
    /// # Errors
    /// A mass out of range, no crop, nothing changing, into a source, or out of an end other than
    /// `unaccounted` (a shelf count may find what was thought lost).
    pub fn sound(&self) -> Result<(), LedgerError> {
        self.sound_as_reversal()?;
        if self.from.is_end() && self.from != Place::Unaccounted {
            return Err(LedgerError::OutOfEnd(self.from));
        }
        if self.to.is_source() {
            return Err(LedgerError::IntoSource(self.to));
        }
        Ok(())
    }

    /// What is wrong with this movement even if it undoes another one.
    ///
    /// # Errors
    /// A mass out of range, no crop, or nothing changing.
    pub fn sound_as_reversal(&self) -> Result<(), LedgerError> {
        if !(1..=MAX_MILLIGRAMS).contains(&self.milligrams) {
            return Err(LedgerError::AbsurdMass(self.milligrams));
        }
        if self.crop.trim().is_empty() {
            return Err(LedgerError::NoCrop);
        }
        if self.from == self.to && self.content == self.content_after() {
            return Err(LedgerError::GoesNowhere(self.from));
        }
        Ok(())
    }
}

/// Whole containers of one batch and size going from one place to another. They are filled in the
/// pot, so a batch's outcome moves them from `Pot` to where they stand.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ContainerMovement {
    /// The entry it belongs to.
    pub entry: i64,
    /// Line within the entry.
    pub line: u16,
    /// The day it happened.
    pub on: Date,
    /// The batch the containers hold.
    pub batch: i64,
    /// Kind of container: "quart", "pint-bag".
    pub size: String,
    /// Where they leave.
    pub from: Place,
    /// Where they arrive.
    pub to: Place,
    /// How many, above zero.
    pub count: i64,
}

impl ContainerMovement {
    /// What is wrong with this movement as a first-hand record.
    ///
    /// # Errors
    /// As [`Movement::sound`].
    pub fn sound(&self) -> Result<(), LedgerError> {
        self.sound_as_reversal()?;
        if self.from.is_end() && self.from != Place::Unaccounted {
            return Err(LedgerError::OutOfEnd(self.from));
        }
        if self.to.is_source() || self.to == Place::Pot {
            return Err(LedgerError::IntoSource(self.to));
        }
        Ok(())
    }

    /// What is wrong with this movement even if it undoes another one.
    ///
    /// # Errors
    /// A count out of range, no size, or nothing changing.
    pub fn sound_as_reversal(&self) -> Result<(), LedgerError> {
        if !(1..=MAX_CONTAINERS).contains(&self.count) {
            return Err(LedgerError::AbsurdCount(self.count));
        }
        if self.size.trim().is_empty() {
            return Err(LedgerError::UnknownRoom(self.size.clone()));
        }
        if self.from == self.to {
            return Err(LedgerError::GoesNowhere(self.from));
        }
        Ok(())
    }
}
