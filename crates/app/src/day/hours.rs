//! The hours of a kitchen day: when it starts and ends, who is there, when everyone rests.

use crate::error::AppError;
use crate::house::House;
use jiff::civil::Date;

/// The frame of a working day in minutes after midnight.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Hours {
    /// First minute.
    pub starts: i64,
    /// Latest end.
    pub ends: i64,
    /// Break for everyone, if any.
    pub lunch: Option<(i64, i64)>,
}

/// Start of a day where the house says nothing (our own choice; nothing unsafe hangs on it).
const STARTS: i64 = 8 * 60;
/// End of a day where the house says nothing (our own choice).
const ENDS: i64 = 19 * 60;

/// A person who gives so many minutes is about for a quarter longer: hands rest between steps
/// (our own choice).
const ABOUT_PERCENT: i64 = 125;

/// The plan books at most this share of the hands' minutes, so that a timetable can be found
/// (our own choice).
const BOOKED_PERCENT: i64 = 75;

/// The hours of a house.
///
/// # Errors
/// Times that are not understood or stand in the wrong order, with their field.
pub fn of_house(house: &House) -> Result<Hours, AppError> {
    let starts = time("day_starts", &house.day_starts)?.unwrap_or(STARTS);
    let ends = time("day_ends", &house.day_ends)?.unwrap_or(ENDS);
    if ends <= starts {
        return Err(AppError::input(
            "day_ends",
            "The kitchen day ends before it starts.",
            "Give an end after the start, such as 8:00 and 18:00.",
        ));
    }
    let lunch = match house.lunch.trim() {
        "" => None,
        text => {
            let wrong = || {
                AppError::input(
                    "lunch",
                    format!("«{text}» is no break."),
                    "Write it as 12:30-13:00.",
                )
            };
            let (from, to) = text.split_once('-').ok_or_else(wrong)?;
            let from = time("lunch", from)?.ok_or_else(wrong)?;
            let to = time("lunch", to)?.ok_or_else(wrong)?;
            if to <= from {
                return Err(wrong());
            }
            Some((from, to))
        }
    };
    Ok(Hours {
        starts,
        ends,
        lunch,
    })
}

/// People who work on a date: name and minutes given.
pub fn people(house: &House, date: Date) -> Vec<(String, i64)> {
    let weekday = crate::dates::weekday_index(date);
    house
        .people
        .iter()
        .map(|person| (person.name.clone(), i64::from(person.minutes[weekday])))
        .filter(|(_, minutes)| *minutes > 0)
        .collect()
}

/// How long a person who gives so many minutes is about, break included.
pub fn about(minutes: i64, hours: &Hours) -> i64 {
    let rest = hours.lunch.map_or(0, |(from, to)| to - from);
    (minutes * ABOUT_PERCENT / 100 + rest).min(hours.ends - hours.starts)
}

/// Minutes of hands that a plan may book on a date, from a minute of that day on.
pub fn bookable(house: &House, date: Date, hours: &Hours, from_minute: i64) -> i64 {
    let gone = (from_minute - hours.starts).clamp(0, hours.ends - hours.starts);
    people(house, date)
        .into_iter()
        .map(|(_, minutes)| {
            let there = about(minutes, hours);
            // What is left of the time the person is about, in proportion.
            if there == 0 {
                0
            } else {
                minutes * (there - gone).max(0) / there
            }
        })
        .sum::<i64>()
        * BOOKED_PERCENT
        / 100
}

/// "8:30" as minutes after midnight; nothing when empty.
fn time(field: &str, text: &str) -> Result<Option<i64>, AppError> {
    let text = text.trim();
    if text.is_empty() {
        return Ok(None);
    }
    let wrong = || {
        AppError::input(
            field,
            format!("«{text}» is not a time of day."),
            "Write it as 8:30.",
        )
    };
    let (hour, minute) = text.split_once(':').ok_or_else(wrong)?;
    let hour: i64 = hour.parse().map_err(|_| wrong())?;
    let minute: i64 = minute.parse().map_err(|_| wrong())?;
    if (0..=24).contains(&hour) && (0..60).contains(&minute) {
        Ok(Some(hour * 60 + minute))
    } else {
        Err(wrong())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::house::Person;

    #[test]
    fn late_in_the_day_less_can_be_booked() {
        let house = House {
            people: vec![Person {
                name: "A".into(),
                minutes: [0, 0, 0, 240, 0, 0, 0],
            }],
            day_starts: "8:00".into(),
            day_ends: "18:00".into(),
            ..House::default()
        };
        let hours = of_house(&house).unwrap();
        let thursday = jiff::civil::date(2026, 8, 27);
        assert_eq!(bookable(&house, thursday, &hours, 7 * 60), 180);
        assert_eq!(bookable(&house, thursday, &hours, 8 * 60 + 150), 90);
        assert_eq!(bookable(&house, thursday, &hours, 15 * 60), 0);
        assert_eq!(
            bookable(&house, jiff::civil::date(2026, 8, 28), &hours, 0),
            0
        );
    }

    #[test]
    fn a_day_that_ends_before_it_starts_names_its_field() {
        let house = House {
            day_starts: "9:00".into(),
            day_ends: "8:00".into(),
            ..House::default()
        };
        assert_eq!(of_house(&house).unwrap_err().field, "day_ends");
    }
}
