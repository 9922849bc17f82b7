//! How a lot stands today against its keeping range.

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::{Keeping, days_between};
use crate::lot_error::LotError;

/// How a lot stands on one day.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum KeepingState {
    /// Picked later than this day: a slip in the date.
    NotPicked,
    /// Not ripe yet.
    Ripening,
    /// Can wait.
    Waiting,
    /// The early end is this day or the next.
    Due,
    /// Past the early end and not past the late one: look before use.
    Doubtful,
    /// Past the late end.
    Past,
}

impl KeepingState {
    /// The word sent to pages.
    pub fn as_str(self) -> &'static str {
        match self {
            KeepingState::NotPicked => "not-picked",
            KeepingState::Ripening => "ripening",
            KeepingState::Waiting => "waiting",
            KeepingState::Due => "due",
            KeepingState::Doubtful => "doubtful",
            KeepingState::Past => "past",
        }
    }
}

impl Keeping {
    /// How the lot stands on `today`.
    pub fn state_on(&self, today: Date) -> KeepingState {
        if today < self.picked_on {
            KeepingState::NotPicked
        } else if today > self.late {
            KeepingState::Past
        } else if today > self.early {
            KeepingState::Doubtful
        } else if days_between(today, self.early) <= 1 {
            KeepingState::Due
        } else if today < self.ready_from {
            KeepingState::Ripening
        } else {
            KeepingState::Waiting
        }
    }

    /// The next day to look at the lot, `today` or later.
    pub fn look_again_after(&self, today: Date) -> Date {
        let mut look = self.look_again;
        while look < today && look < self.early {
            match super::date_after(look, self.look_every_days.max(1)) {
                Ok(next) => look = next,
                Err(_) => break,
            }
        }
        // From the early end on, every day.
        look.min(self.early).max(today)
    }

    /// Such as "keeps until about 3 Sep to 6 Sep" or "past: kept until about 6 Sep at most".
    pub fn said_on(&self, today: Date) -> String {
        let day = |date: Date| date.strftime("%-d %b").to_string();
        let range = if self.early == self.late {
            day(self.early)
        } else {
            format!("{} to {}", day(self.early), day(self.late))
        };
        match self.state_on(today) {
            KeepingState::NotPicked => {
                format!("picked on {}, which is still to come", self.picked_on)
            }
            KeepingState::Past => format!(
                "already past: it kept until about {} at most; look closely, and compost what is bad",
                day(self.late)
            ),
            KeepingState::Ripening => format!(
                "ripe from about {}, then keeps until about {range}",
                day(self.ready_from)
            ),
            KeepingState::Doubtful => format!("keeps until about {range}: look before use"),
            KeepingState::Waiting | KeepingState::Due => format!("keeps until about {range}"),
        }
    }
}

/// A picking cannot lie in the future. Error: `PickedInFuture`.
pub fn check_picked(picked: Date, today: Date) -> Result<(), LotError> {
    if picked > today {
        return Err(LotError::PickedInFuture { picked, today });
    }
    Ok(())
}
