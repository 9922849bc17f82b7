//! Dates and clock times as the household says them.

use jiff::civil::{Date, Weekday};

const MONTHS: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];

/// "Thursday".
pub fn weekday(date: Date) -> &'static str {
    match date.weekday() {
        Weekday::Monday => "Monday",
        Weekday::Tuesday => "Tuesday",
        Weekday::Wednesday => "Wednesday",
        Weekday::Thursday => "Thursday",
        Weekday::Friday => "Friday",
        Weekday::Saturday => "Saturday",
        Weekday::Sunday => "Sunday",
    }
}

/// "Thu".
pub fn weekday_short(date: Date) -> &'static str {
    &weekday(date)[..3]
}

/// "Thursday 27 August".
pub fn day(date: Date) -> String {
    format!("{} {} {}", weekday(date), date.day(), month(date))
}

/// "27 August 2026".
pub fn plain(date: Date) -> String {
    format!("{} {} {}", date.day(), month(date), date.year())
}

/// "Thursday 27 August 2026".
pub fn long(date: Date) -> String {
    format!("{} {}", day(date), date.year())
}

/// "today", "yesterday", "tomorrow", "Sunday" within the week to come, else "Sunday 6 September",
/// and with the year, "10 March 2027", in another one.
pub fn near(date: Date, today: Date) -> String {
    match days_between(today, date) {
        0 => "today".to_owned(),
        -1 => "yesterday".to_owned(),
        1 => "tomorrow".to_owned(),
        2..=6 => weekday(date).to_owned(),
        _ if date.year() == today.year() => day(date),
        _ => plain(date),
    }
}

/// Whole days from one date to another; negative when `to` lies before `from`.
pub fn days_between(from: Date, to: Date) -> i64 {
    // Civil dates span fewer than 20,000 years, so the difference in days always exists.
    from.until(to).map_or(0, |span| i64::from(span.get_days()))
}

/// A date some days later; the last date that exists when that is beyond the calendar.
pub fn plus_days(date: Date, days: i64) -> Date {
    date.saturating_add(jiff::SignedDuration::from_hours(days.saturating_mul(24)))
}

/// "8:05" from minutes after midnight; past midnight it counts on ("25:10").
pub fn clock(minutes: i64) -> String {
    format!("{}:{:02}", minutes.div_euclid(60), minutes.rem_euclid(60))
}

/// Monday is 0.
pub fn weekday_index(date: Date) -> usize {
    match date.weekday() {
        Weekday::Monday => 0,
        Weekday::Tuesday => 1,
        Weekday::Wednesday => 2,
        Weekday::Thursday => 3,
        Weekday::Friday => 4,
        Weekday::Saturday => 5,
        Weekday::Sunday => 6,
    }
}

fn month(date: Date) -> &'static str {
    // `Date::month` is 1 to 12 by its own documentation.
    MONTHS[usize::try_from(date.month() - 1).unwrap_or(0).min(11)]
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::date;

    #[test]
    fn says_days_as_people_do() {
        let today = date(2026, 8, 27);
        assert_eq!(long(today), "Thursday 27 August 2026");
        assert_eq!(near(date(2026, 8, 26), today), "yesterday");
        assert_eq!(near(date(2026, 8, 30), today), "Sunday");
        assert_eq!(near(date(2026, 9, 6), today), "Sunday 6 September");
        assert_eq!(near(date(2027, 3, 10), today), "10 March 2027");
        assert_eq!(days_between(date(2027, 1, 1), date(2026, 12, 25)), -7);
        assert_eq!(plus_days(today, 7), date(2026, 9, 3));
        assert_eq!(clock(8 * 60 + 5), "8:05");
    }
}
