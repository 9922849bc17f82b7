//! The tests of a dial gauge: a record that grows, and the reminder of the next one.
//!
//! The gate alone decides whether a gauge may be used; what is said here is said early enough to
//! do something about it. Both spans are rows of the tables.

use crate::dates;
use crate::house::{Canner, GaugeTest, House};
use jiff::ToSpan;
use jiff::civil::Date;
use reference::Reference;

/// How a dial gauge stands on a day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum GaugeState {
    /// No test is known.
    NeverTested,
    /// Tested not long ago.
    Tested,
    /// Still serves, up to this day, and the next test is due by then.
    TestBefore(Date),
    /// The last test is too old: its day.
    TooOld(Date),
}

impl GaugeState {
    /// The key that views carry.
    pub const fn key(self) -> &'static str {
        match self {
            Self::NeverTested => "never-tested",
            Self::Tested => "tested",
            Self::TestBefore(_) => "test-soon",
            Self::TooOld(_) => "test-too-old",
        }
    }

    /// Does it close every pressure of the dial?
    pub const fn closes(self) -> bool {
        matches!(self, Self::NeverTested | Self::TooOld(_))
    }
}

/// Whether a canner is read on its dial; where a weight is fitted, the weight rules.
pub fn rules_by_dial(canner: &Canner) -> bool {
    canner.kind == "dial-gauge"
}

/// Whether a canner has a dial at all.
pub fn has_dial(canner: &Canner) -> bool {
    matches!(canner.kind.as_str(), "dial-gauge" | "dial-with-weight")
}

/// The last test, one that is entered and not yet in the record among them.
pub fn latest(canner: &Canner) -> Option<GaugeTest> {
    let entered = GaugeTest {
        on: canner.gauge_tested_on.trim().to_owned(),
        error_psi: canner.gauge_error_psi.trim().to_owned(),
        by: canner.gauge_tested_by.trim().to_owned(),
    };
    canner
        .gauge_tests
        .iter()
        .cloned()
        .chain([entered])
        .filter(|test| !test.on.is_empty() && !test.error_psi.is_empty())
        // Days are written year first, so that the order of texts is the order of days.
        .max_by(|a, b| a.on.cmp(&b.on))
}

/// Moves the test that was entered into the record of its canner. A second one of the same day
/// corrects the first; the earlier statement of the house stays in the file.
pub fn settle(house: &mut House) {
    for canner in &mut house.canners {
        let Ok(day) = canner.gauge_tested_on.trim().parse::<Date>() else {
            continue;
        };
        if canner.gauge_error_psi.trim().is_empty() {
            continue;
        }
        let test = GaugeTest {
            on: day.to_string(),
            error_psi: canner.gauge_error_psi.trim().to_owned(),
            by: canner.gauge_tested_by.trim().to_owned(),
        };
        canner.gauge_tests.retain(|known| known.on != test.on);
        canner.gauge_tests.push(test);
        canner.gauge_tests.sort_by(|a, b| b.on.cmp(&a.on));
        canner.gauge_tested_on.clear();
        canner.gauge_error_psi.clear();
        canner.gauge_tested_by.clear();
    }
}

/// How the dial of a canner stands on a day.
pub fn state(reference: &Reference, canner: &Canner, today: Date) -> GaugeState {
    let Some(tested) = latest(canner).and_then(|test| test.on.parse::<Date>().ok()) else {
        return GaugeState::NeverTested;
    };
    let span = |key: &str| {
        reference
            .house_rule(key)
            .and_then(|rule| i32::try_from(rule.number().to_integer()).ok())
    };
    // A span that is not in the tables serves no day: the check at the start names the hole.
    let (Some(years), Some(months)) = (span("gauge-test-max-age"), span("gauge-reminder-after"))
    else {
        return GaugeState::TooOld(tested);
    };
    let (Ok(last_day), Ok(remind)) = (
        tested.checked_add(years.years()),
        tested.checked_add(months.months()),
    ) else {
        return GaugeState::TooOld(tested);
    };
    if today > last_day {
        GaugeState::TooOld(tested)
    } else if today >= remind {
        GaugeState::TestBefore(last_day)
    } else {
        GaugeState::Tested
    }
}

/// What a person should know of the dials of a house on a day: nothing while all are tested.
pub fn reminders(reference: &Reference, house: &House, today: Date) -> Vec<String> {
    house
        .canners
        .iter()
        .filter(|canner| rules_by_dial(canner))
        .filter_map(|canner| {
            let name = &canner.name;
            match state(reference, canner, today) {
                GaugeState::Tested => None,
                GaugeState::TestBefore(day) => Some(format!(
                    "«{name}»: test the gauge before {}.",
                    dates::plain(day)
                )),
                GaugeState::TooOld(day) => Some(format!(
                    "«{name}»: no permit at any dial pressure until tested; the last test was on {}.",
                    dates::plain(day)
                )),
                GaugeState::NeverTested => Some(format!(
                    "«{name}»: no permit at any dial pressure until tested; no test is known."
                )),
            }
        })
        .collect()
}

/// "4 May 2026: shows 1 psi too much, tested by Ida": one test in words.
pub fn words(test: &GaugeTest) -> String {
    let day = test
        .on
        .parse::<Date>()
        .map_or_else(|_| test.on.clone(), dates::plain);
    let shows = match test.error_psi.strip_prefix(['-', '−']) {
        Some(low) => format!("shows {} psi too little", low.trim()),
        None if quantity::parse::number(&test.error_psi)
            .is_ok_and(|psi| psi == quantity::whole(0)) =>
        {
            "shows the true pressure".to_owned()
        }
        None => format!(
            "shows {} psi too much",
            test.error_psi.trim_start_matches('+').trim()
        ),
    };
    if test.by.is_empty() {
        format!("{day}: {shows}")
    } else {
        format!("{day}: {shows}, tested by {}", test.by)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::date;

    fn dial(tests: &[(&str, &str)]) -> House {
        House {
            canners: vec![Canner {
                name: "tall canner".into(),
                kind: "dial-gauge".into(),
                gauge_tests: tests
                    .iter()
                    .map(|(on, error)| GaugeTest {
                        on: (*on).into(),
                        error_psi: (*error).into(),
                        by: String::new(),
                    })
                    .collect(),
                ..Canner::default()
            }],
            ..House::default()
        }
    }

    fn said(house: &House, today: Date) -> Vec<String> {
        reminders(Reference::embedded(), house, today)
    }

    #[test]
    fn from_eleven_months_on_the_next_test_is_asked_for_and_after_a_year_nothing_is_permitted() {
        let house = dial(&[("2024-05-01", "0"), ("2025-08-27", "1/2")]);
        assert_eq!(said(&house, date(2026, 7, 26)), Vec::<String>::new());
        let soon = "«tall canner»: test the gauge before 27 August 2026.";
        assert_eq!(said(&house, date(2026, 7, 27)), [soon]);
        assert_eq!(said(&house, date(2026, 8, 27)), [soon]);
        assert_eq!(
            said(&house, date(2026, 8, 28)),
            [
                "«tall canner»: no permit at any dial pressure until tested; the last test was on 27 August 2025."
            ]
        );
        assert_eq!(
            said(&dial(&[]), date(2026, 8, 28)),
            ["«tall canner»: no permit at any dial pressure until tested; no test is known."]
        );
    }

    #[test]
    fn the_reminder_and_the_gate_agree_on_the_last_day() {
        let house = dial(&[("2025-08-27", "0")]);
        for (today, closed) in [(date(2026, 8, 27), false), (date(2026, 8, 28), true)] {
            let state = state(Reference::embedded(), &house.canners[0], today);
            assert_eq!(state.closes(), closed);
            let mut question = safety::HeatQuestion::new(
                "snap-and-italian-beans",
                reference::Pack::Hot,
                reference::Jar::Quart,
                crate::read::house::canner_facts(&house.canners[0], "").unwrap(),
                &today.to_string(),
            );
            question.elevation = Some(quantity::Elevation::feet(quantity::whole(800)));
            question.canner_holds_quart_jars = Some(7);
            let verdict = safety::judge_heat(Reference::embedded(), &question);
            let code = verdict.refusal().map(|refusal| refusal.code);
            assert_eq!(code == Some("gauge-test-old"), closed, "{code:?}");
        }
    }

    #[test]
    fn an_entered_test_joins_the_record_and_one_of_the_same_day_corrects_it() {
        let mut house = dial(&[("2025-08-27", "1")]);
        for (on, error) in [("2026-05-04", "2"), ("2026-05-04", "-1/2")] {
            house.canners[0].gauge_tested_on = on.into();
            house.canners[0].gauge_error_psi = error.into();
            house.canners[0].gauge_tested_by = "extension office".into();
            settle(&mut house);
        }
        let canner = &house.canners[0];
        let tests: Vec<String> = canner.gauge_tests.iter().map(words).collect();
        assert_eq!(
            tests,
            [
                "4 May 2026: shows 1/2 psi too little, tested by extension office",
                "27 August 2025: shows 1 psi too much"
            ]
        );
        assert!(canner.gauge_tested_on.is_empty() && canner.gauge_error_psi.is_empty());
        assert_eq!(latest(canner).unwrap().on, "2026-05-04");
    }
}
