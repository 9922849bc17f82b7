//! The clock of the program: this machine's, or the one given on the command line.

use app::error::AppError;
use app::request::Now;
use jiff::civil::{Date, Time};

/// A moment from the machine's clock, with date or time replaced where they are given.
///
/// # Errors
/// A date or time that is not understood.
pub fn now(date: Option<&str>, time: Option<&str>, who: &str) -> Result<Now, AppError> {
    let wall = jiff::ZonedDateTime::now();
    let day: Date = match date {
        None => wall.date(),
        Some(text) => text.parse().map_err(|_| {
            AppError::input(
                "date",
                format!("«{text}» is not a date."),
                "Write it as 2026-08-27.",
            )
        })?,
    };
    let clock: Time = match time {
        None => wall.time(),
        Some(text) => parse_time(text)?,
    };
    Ok(at(day, clock, who))
}

/// A moment from a civil date and time, read in this machine's time zone only for the stamp.
pub fn at(day: Date, clock: Time, who: &str) -> Now {
    Now {
        date: day,
        minute: i64::from(clock.hour()) * 60 + i64::from(clock.minute()),
        at: format!(
            "{day}T{:02}:{:02}:{:02}",
            clock.hour(),
            clock.minute(),
            clock.second()
        ),
        who: who.to_owned(),
    }
}

fn parse_time(text: &str) -> Result<Time, AppError> {
    let wrong = || {
        AppError::input(
            "time",
            format!("«{text}» is not a time of day."),
            "Write it as 14:05.",
        )
    };
    let (hour, minute) = text.split_once(':').ok_or_else(wrong)?;
    let hour: i8 = hour.trim().parse().map_err(|_| wrong())?;
    let minute: i8 = minute.trim().parse().map_err(|_| wrong())?;
    Time::new(hour, minute, 0, 0).map_err(|_| wrong())
}
