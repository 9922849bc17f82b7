//! A minute of a day, as it is typed: when jars were lifted, when something was noticed.

use crate::dates;
use crate::error::AppError;
use crate::request::Now;
use jiff::civil::{Date, Time};
use serde::{Deserialize, Serialize};

/// Minutes of a day.
const DAY: i64 = 24 * 60;

/// A minute of a civil day at the house. Ordered by time.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct Moment {
    /// The day.
    pub date: Date,
    /// Minutes after midnight.
    pub minute: i64,
}

impl Moment {
    /// The moment of acting.
    pub fn now(now: &Now) -> Self {
        Self {
            date: now.date,
            minute: now.minute,
        }
    }

    /// Whole minutes from this moment to a later one; negative when it lies before.
    pub fn minutes_to(self, later: Self) -> i64 {
        dates::days_between(self.date, later.date)
            .saturating_mul(DAY)
            .saturating_add(later.minute - self.minute)
    }

    /// The moment some minutes later.
    pub fn plus(self, minutes: i64) -> Self {
        let all = self.minute.saturating_add(minutes);
        Self {
            date: dates::plus_days(self.date, all.div_euclid(DAY)),
            minute: all.rem_euclid(DAY),
        }
    }

    /// "20:05 today".
    pub fn words(self, today: Date) -> String {
        format!(
            "{} {}",
            dates::clock(self.minute),
            dates::near(self.date, today)
        )
    }

    /// As an ISO time stamp: `2026-08-27T07:30:00`.
    pub fn stamp(self) -> String {
        let (hour, minute) = (self.minute.div_euclid(60), self.minute.rem_euclid(60));
        format!("{}T{hour:02}:{minute:02}:00", self.date)
    }

    /// The minute of an ISO time stamp, `2026-08-27T07:30:00`.
    pub fn of_stamp(stamp: &str) -> Option<Self> {
        let (day, time) = stamp.split_once('T')?;
        Some(Self {
            date: day.parse().ok()?,
            minute: minute_of(time.get(..5)?)?,
        })
    }
}

/// Reads "16:40" (of today), "2026-08-27 16:40" or "2026-08-27" (from its first minute on, the
/// strictest reading). Empty and "unknown" are no moment.
///
/// # Errors
/// A text that is none of these, or a moment that lies ahead.
pub fn read(field: &str, text: &str, now: &Now) -> Result<Option<Moment>, AppError> {
    let text = text.trim();
    if text.is_empty() || text == "unknown" {
        return Ok(None);
    }
    let moment = match text.split_once([' ', 'T']) {
        Some((day, time)) => day.parse().ok().zip(minute_of(time.trim())),
        None if text.contains(':') => Some(now.date).zip(minute_of(text)),
        None => text.parse().ok().zip(Some(0)),
    };
    let Some((date, minute)) = moment else {
        return Err(AppError::input(
            field,
            format!("«{text}» is no time."),
            "Write it as 16:40 for today, or as 2026-08-27 16:40; «unknown» when nobody knows.",
        ));
    };
    let moment = Moment { date, minute };
    if moment > Moment::now(now) {
        return Err(AppError::input(
            field,
            format!("{} is still to come.", moment.words(now.date)),
            "Write the day too when it was not today, such as 2026-08-27 16:40.",
        ));
    }
    Ok(Some(moment))
}

fn minute_of(text: &str) -> Option<i64> {
    let (hour, minute) = text.split_once(':')?;
    let minute = minute.get(..2).filter(|two| two.len() == minute.len())?;
    let time = Time::new(hour.parse().ok()?, minute.parse().ok()?, 0, 0).ok()?;
    Some(i64::from(time.hour()) * 60 + i64::from(time.minute()))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn now() -> Now {
        Now {
            date: jiff::civil::date(2026, 8, 27),
            minute: 14 * 60 + 5,
            at: "2026-08-27T14:05:00".into(),
            who: String::new(),
        }
    }

    #[test]
    fn times_are_read_as_people_write_them() {
        let at = |text: &str| read("lifted", text, &now()).unwrap();
        let today = |minute| {
            Some(Moment {
                date: now().date,
                minute,
            })
        };
        assert_eq!(at("14:05"), today(845));
        assert_eq!(at("9:30"), today(570));
        assert_eq!(at("2026-08-27T09:30"), today(570));
        assert_eq!(at("2026-08-27"), today(0));
        assert_eq!(
            at("2026-08-26 23:59")
                .unwrap()
                .minutes_to(Moment::now(&now())),
            846
        );
        assert_eq!((at(""), at("unknown")), (None, None));
    }

    #[test]
    fn what_is_no_time_or_lies_ahead_is_refused() {
        for text in [
            "14:06",
            "2026-08-28",
            "noon",
            "25:00",
            "9:3",
            "9:301",
            "2026-13-01 9:00",
        ] {
            let error = read("lifted", text, &now()).unwrap_err();
            assert_eq!(error.field, "lifted", "{text}");
        }
    }

    #[test]
    fn a_clock_runs_over_midnight() {
        let moment = Moment::of_stamp("2026-08-27T23:30:00").unwrap().plus(120);
        assert_eq!(
            moment.words(jiff::civil::date(2026, 8, 27)),
            "1:30 tomorrow"
        );
        assert_eq!(moment.stamp(), "2026-08-28T01:30:00");
        assert_eq!(Moment::of_stamp(&moment.stamp()), Some(moment));
        assert_eq!(Moment::of_stamp("later"), None);
    }
}
