//! What was written into the blanks of a card, held against those the card has, and read as days,
//! times and counts.

use crate::dates;
use crate::error::AppError;
use crate::moment::{self, Moment};
use crate::request::{EnterCard, Now};
use crate::view::enter::{AskKind, EnterPart};
use jiff::civil::Date;
use std::collections::BTreeMap;

/// What stands in the blanks, held against those the card has.
pub(super) struct Written<'a> {
    blanks: &'a BTreeMap<String, String>,
    parts: &'a [EnterPart],
}

impl<'a> Written<'a> {
    pub(super) fn new(request: &'a EnterCard, parts: &'a [EnterPart]) -> Result<Self, AppError> {
        let known: Vec<&str> = parts
            .iter()
            .flat_map(|part| &part.asks)
            .filter(|ask| ask.kind != AskKind::Tick)
            .map(|ask| ask.name.as_str())
            .collect();
        if !request.ticks.is_empty() && !parts.iter().any(|part| part.key == "ticks") {
            return Err(AppError::input(
                "ticks",
                "The card has no box to tick that is still open.",
                "A tick that was missing is answered on the page of the batch.",
            ));
        }
        for (name, text) in &request.blanks {
            if !text.trim().is_empty() && !known.contains(&name.as_str()) {
                return Err(AppError::input(
                    name,
                    format!("The card has no open blank «{name}»."),
                    format!("It has: {}.", known.join(", ")),
                ));
            }
        }
        Ok(Self {
            blanks: &request.blanks,
            parts,
        })
    }

    /// Is this part still asked?
    pub(super) fn asks(&self, part: &str) -> bool {
        self.parts.iter().any(|known| known.key == part)
    }

    pub(super) fn text(&self, name: &str) -> String {
        self.blanks
            .get(name)
            .map_or_else(String::new, |text| text.trim().to_owned())
    }

    pub(super) fn under(&self, prefix: &'a str) -> impl Iterator<Item = (&'a str, &'a str)> {
        self.blanks
            .iter()
            .filter(move |(name, text)| name.starts_with(prefix) && !text.trim().is_empty())
            .map(|(name, text)| (name.as_str(), text.trim()))
    }

    pub(super) fn says_anything(&self) -> bool {
        self.under("").next().is_some()
    }

    pub(super) fn counts(&self, prefix: &'a str) -> BTreeMap<String, String> {
        self.under(prefix)
            .map(|(name, text)| (name[prefix.len()..].to_owned(), text.to_owned()))
            .collect()
    }

    pub(super) fn day_missing(&self, field: &str, what: &str) -> AppError {
        AppError::input(
            field,
            format!("{what} was not filled in."),
            "Write the day as 2026-08-27.",
        )
    }

    /// The day of a part; nothing when it was not filled in.
    pub(super) fn day(&self, part: &str, now: &Now) -> Result<Option<Date>, AppError> {
        let field = format!("{part}.day");
        let text = self.text(&field);
        if text.is_empty() {
            return Ok(None);
        }
        let day: Date = text.parse().map_err(|_| {
            AppError::input(
                &field,
                format!("«{text}» is no day."),
                "Write it as 2026-08-27.",
            )
        })?;
        if day > now.date {
            return Err(AppError::input(
                &field,
                format!("{} is still to come.", dates::day(day)),
                "Look at the day on the card.",
            ));
        }
        Ok(Some(day))
    }

    /// A time of a day, or of the next one where it would lie before `after`.
    pub(super) fn time(
        &self,
        name: &str,
        day: Date,
        after: Option<Moment>,
        now: &Now,
    ) -> Result<Option<Moment>, AppError> {
        let text = self.text(name);
        if text.is_empty() {
            return Ok(None);
        }
        let on = |day: Date| {
            // A time alone is of the card's day; a whole moment stays as it was written.
            let whole = text.contains(' ') || text.contains('T');
            let text = if whole {
                text.clone()
            } else {
                format!("{day} {text}")
            };
            moment::read(name, &text, now)
        };
        let first = on(day)?;
        match (first, after) {
            (Some(first), Some(after)) if first < after => on(dates::plus_days(day, 1)),
            _ => Ok(first),
        }
    }

    /// The shortest time that any load was kept, and when the first was lifted. A load that says
    /// only part of its times makes the minutes unknown.
    pub(super) fn loads(
        &self,
        begun: Option<Moment>,
        day: Date,
        now: &Now,
    ) -> Result<(Option<i64>, Option<Moment>), AppError> {
        let first_day = begun.map_or(day, |begun| begun.date);
        let mut kept: Option<i64> = None;
        let mut known = true;
        let mut lifted: Option<Moment> = None;
        for part in self
            .parts
            .iter()
            .filter(|part| part.key.starts_with("load."))
        {
            let name = |blank: &str| format!("{}.{blank}", part.key);
            let from = self.time(&name("from"), first_day, begun, now)?;
            let earliest = from.or(begun);
            let on = from.map_or(first_day, |from| from.date);
            let end = self.time(&name("end"), on, earliest, now)?;
            let out = self.time(&name("lifted"), on, end.or(earliest), now)?;
            match (from, end) {
                (Some(from), Some(end)) => {
                    let minutes = from.minutes_to(end);
                    kept = Some(kept.map_or(minutes, |kept| kept.min(minutes)));
                }
                (None, None) if out.is_none() => {}
                _ => known = false,
            }
            lifted = match (lifted, out) {
                (Some(one), Some(other)) => Some(one.min(other)),
                (one, other) => one.or(other),
            };
        }
        Ok((kept.filter(|_| known), lifted))
    }
}
