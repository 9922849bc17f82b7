//! Batches that rest longer than a working day: brined overnight, dried through the night.
//!
//! A rest of hours that needs nobody is no step of a timetable. What is cooked in jars is begun
//! the evening before and finished on its day; what dries or ferments is begun on its day and
//! looked at when it is due.

use kitchen::recipe::Route;
use kitchen::steps::{DaySteps, HoldSpec, LagSpec};

/// A step that needs nobody and takes at least this long is a rest (our own choice: it does not
/// fit beside other work on any day).
const REST_MINUTES: i64 = 6 * 60;

/// Which part of a batch is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// What is done on the batch's own day.
    OwnDay,
    /// What is done the day before.
    EveBefore,
}

/// The steps of one part of a batch; none where that part has no work.
pub fn part(steps: DaySteps, route: Route, part: Part) -> DaySteps {
    let rest = steps
        .steps
        .iter()
        .position(|step| !step.attended && step.minutes >= REST_MINUTES);
    match (rest, route, part) {
        (None, _, Part::OwnDay) => steps,
        (None, _, Part::EveBefore) => DaySteps::default(),
        (Some(rest), Route::Heat, Part::EveBefore) => slice(&steps, 0, rest),
        (Some(rest), Route::Heat, Part::OwnDay) => slice(&steps, rest + 1, steps.steps.len()),
        (Some(rest), _, Part::OwnDay) => slice(&steps, 0, rest),
        (Some(_), _, Part::EveBefore) => DaySteps::default(),
    }
}

/// Does a batch have to be begun the day before?
pub fn begins_the_day_before(steps: &DaySteps, route: Route) -> bool {
    route == Route::Heat
        && steps
            .steps
            .iter()
            .any(|step| !step.attended && step.minutes >= REST_MINUTES)
}

/// Some of the steps with the order, waits and holds among them. A hold that reaches in from
/// before is kept from the first step on; one that reaches out is kept to the last.
fn slice(steps: &DaySteps, from: usize, to: usize) -> DaySteps {
    let inside = |index: usize| (from..to).contains(&index);
    if from >= to {
        return DaySteps::default();
    }
    DaySteps {
        steps: steps.steps[from..to].to_vec(),
        lags: steps
            .lags
            .iter()
            .filter(|lag| inside(lag.from) && inside(lag.to))
            .map(|lag| LagSpec {
                from: lag.from - from,
                to: lag.to - from,
                ..lag.clone()
            })
            .collect(),
        holds: steps
            .holds
            .iter()
            .filter(|hold| hold.from_step < to && hold.to_step >= from)
            .map(|hold| HoldSpec {
                from_step: hold.from_step.clamp(from, to - 1) - from,
                to_step: hold.to_step.clamp(from, to - 1) - from,
                ..hold.clone()
            })
            .collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use kitchen::steps::{ResourceKind, StepSpec};

    fn step(title: &str, minutes: i64, attended: bool) -> StepSpec {
        StepSpec {
            key: title.into(),
            title: title.into(),
            text: String::new(),
            minutes,
            minutes_low: minutes,
            attended,
            hands: u8::from(attended),
            uses: Vec::new(),
            load: None,
            stop_point: false,
            source: "test".into(),
        }
    }

    fn brined() -> DaySteps {
        let lag = |from, to, min| LagSpec {
            from,
            to,
            min,
            max: None,
            max_is_safety: false,
            points_per_minute_over: 0,
            source: "test".into(),
        };
        DaySteps {
            steps: vec![
                step("wash", 20, true),
                step("soak", 720, false),
                step("pack", 30, true),
                step("process", 15, false),
            ],
            lags: vec![lag(0, 1, 20), lag(1, 2, 720), lag(2, 3, 30)],
            holds: vec![HoldSpec {
                resource: ResourceKind::Pot,
                amount: 1,
                from_step: 1,
                to_step: 2,
            }],
        }
    }

    #[test]
    fn jars_that_soak_overnight_are_begun_the_evening_before() {
        let titles = |steps: &DaySteps| -> Vec<String> {
            steps.steps.iter().map(|step| step.title.clone()).collect()
        };
        let eve = part(brined(), Route::Heat, Part::EveBefore);
        assert_eq!((titles(&eve), eve.lags.len()), (vec!["wash".to_owned()], 0));
        let day = part(brined(), Route::Heat, Part::OwnDay);
        assert_eq!(titles(&day), ["pack", "process"]);
        assert_eq!((day.lags[0].from, day.lags[0].to), (0, 1));
        assert_eq!((day.holds[0].from_step, day.holds[0].to_step), (0, 0));
        assert!(begins_the_day_before(&brined(), Route::Heat));
    }

    #[test]
    fn what_dries_through_the_night_is_begun_on_its_day() {
        let day = part(brined(), Route::Dryer, Part::OwnDay);
        assert_eq!(day.steps.len(), 1);
        assert!(
            part(brined(), Route::Dryer, Part::EveBefore)
                .steps
                .is_empty()
        );
        assert!(!begins_the_day_before(&brined(), Route::Dryer));
    }
}
