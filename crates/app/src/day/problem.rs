//! The chosen batches as a kitchen-day problem: hands, burners, pots, mill, sink, dryer, canners.

use super::hours::{self, Hours};
use crate::house::House;
use jiff::civil::Date;
use kitchen::steps::{DaySteps, ResourceKind};
use plan::kitchen_day::{Break, HANDS, Hold, Lag, Problem, Resource, Step, Wait};
use serde::{Deserialize, Serialize};

/// Points for each minute until the last step ends; a wait beyond its wish costs what the waits
/// table says beside this (our own choice of scale).
const POINTS_PER_MINUTE: i64 = 10;

/// Points for each minute that a pot or canner is kept between its first and its last step: no
/// water is boiled at eight for jars that come at noon (our own choice of scale).
const POINTS_PER_KEPT_MINUTE: i64 = 1;

/// A batch that is to be cooked on the day.
#[derive(Debug, Clone)]
pub struct DayBatch {
    /// Number.
    pub id: i64,
    /// Title as shown.
    pub title: String,
    /// Its steps, order, waits and holds.
    pub steps: DaySteps,
    /// Index of its canner in the house.
    pub canner: Option<usize>,
}

/// What a step of the problem belongs to; kept beside the timetable for showing.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct StepLabel {
    /// Batch number.
    pub batch: i64,
    /// What to do, in a sentence.
    pub text: String,
}

/// The problem of a day and the label of each of its steps.
pub fn build(
    house: &House,
    hours: &Hours,
    date: Date,
    from_minute: i64,
    batches: &[DayBatch],
) -> (Problem, Vec<StepLabel>) {
    let people = hours::people(house, date);
    let horizon = hours.ends - hours.starts;
    let not_before = (from_minute - hours.starts).clamp(0, horizon);
    let mut problem = Problem {
        day_start: hours.starts,
        horizon,
        resources: resources(house, people.len()),
        points_per_minute: POINTS_PER_MINUTE,
        ..Problem::default()
    };
    problem.breaks = breaks(hours, horizon, &people);
    let mut labels = Vec::new();
    for batch in batches {
        let first = problem.steps.len();
        for spec in &batch.steps.steps {
            let mut demands: Vec<(usize, i64)> = Vec::new();
            if spec.hands > 0 {
                demands.push((0, i64::from(spec.hands)));
            }
            for kind in &spec.uses {
                demands.push((resource_of(&problem.resources, *kind, batch.canner), 1));
            }
            problem.steps.push(Step {
                name: spec.title.clone(),
                batch: batch.title.clone(),
                minutes: spec.minutes,
                demands,
                not_before,
                fixed_start: None,
                unattended: !spec.attended,
                stop_point: spec.stop_point,
            });
            labels.push(StepLabel {
                batch: batch.id,
                text: spec.text.clone(),
            });
        }
        for lag in &batch.steps.lags {
            problem.lags.push(Lag {
                from: first + lag.from,
                to: first + lag.to,
                min: lag.min,
                max: lag.max,
                max_is_safety: lag.max_is_safety,
                points_per_minute_over: lag.points_per_minute_over,
                source: lag.source.clone(),
            });
        }
        for hold in &batch.steps.holds {
            problem.waits.push(Wait {
                from: first + hold.from_step,
                to: first + hold.to_step,
                points_per_minute: POINTS_PER_KEPT_MINUTE,
            });
            problem.holds.push(Hold {
                resource: resource_of(&problem.resources, hold.resource, batch.canner),
                amount: i64::from(hold.amount),
                from_step: first + hold.from_step,
                to_step: first + hold.to_step,
            });
        }
    }
    (problem, labels)
}

/// Hands first, then what the kitchen has, then each canner by itself. A kind that the house does
/// not have stands there with no place, so that the clash can name it.
fn resources(house: &House, people: usize) -> Vec<Resource> {
    let resource = |name: &str, kind: &str, capacity: u32| Resource {
        name: name.to_owned(),
        kind: kind.to_owned(),
        capacity: i64::from(capacity),
    };
    let mut all = vec![
        resource("hands", HANDS, u32::try_from(people).unwrap_or(0)),
        resource("burner", "burner", house.burners),
        resource("pot", "pot", u32::try_from(house.pots.len()).unwrap_or(0)),
        resource("food mill", "mill", house.food_mills),
        resource("sink", "sink", house.sinks),
        resource("dryer", "dryer", u32::from(house.dryer_trays > 0)),
    ];
    all.extend(
        house
            .canners
            .iter()
            .map(|canner| resource(&canner.name, "canner", 1)),
    );
    all
}

fn resource_of(resources: &[Resource], kind: ResourceKind, canner: Option<usize>) -> usize {
    if kind == ResourceKind::Canner {
        let first = resources
            .iter()
            .position(|resource| resource.kind == "canner");
        return first.map_or(resources.len(), |first| first + canner.unwrap_or(0));
    }
    resources
        .iter()
        .position(|resource| resource.kind == kind.as_str())
        .unwrap_or(resources.len())
}

/// Everyone rests at lunch; who gives fewer hours goes home earlier.
fn breaks(hours: &Hours, horizon: i64, people: &[(String, i64)]) -> Vec<Break> {
    let mut breaks = Vec::new();
    let mut gone: Vec<i64> = people
        .iter()
        .map(|(_, minutes)| hours::about(*minutes, hours))
        .collect();
    gone.sort_unstable();
    if let Some((from, to)) = hours.lunch {
        let (from, to) = (from - hours.starts, to - hours.starts);
        let there = gone.iter().filter(|until| **until > from).count();
        if from >= 0 && to <= horizon && there > 0 {
            breaks.push(Break {
                resource: 0,
                amount: i64::try_from(there).unwrap_or(0),
                from,
                to,
            });
        }
    }
    for until in gone {
        if until < horizon {
            breaks.push(Break {
                resource: 0,
                amount: 1,
                from: until,
                to: horizon,
            });
        }
    }
    breaks
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::house::Person;
    use jiff::civil::date;

    #[test]
    fn who_gives_fewer_hours_goes_home_earlier_and_lunch_is_for_those_who_are_there() {
        let house = House {
            people: vec![
                Person {
                    name: "A".into(),
                    minutes: [0, 0, 0, 600, 0, 0, 0],
                },
                Person {
                    name: "B".into(),
                    minutes: [0, 0, 0, 60, 0, 0, 0],
                },
            ],
            day_starts: "8:00".into(),
            day_ends: "18:00".into(),
            lunch: "12:30-13:00".into(),
            ..House::default()
        };
        let hours = hours::of_house(&house).unwrap();
        let (problem, _) = build(&house, &hours, date(2026, 8, 27), 0, &[]);
        assert_eq!(problem.resources[0].capacity, 2);
        let at_lunch: i64 = problem
            .breaks
            .iter()
            .filter(|pause| pause.from <= 275 && pause.to > 275)
            .map(|pause| pause.amount)
            .sum();
        assert_eq!(
            at_lunch, 2,
            "one is at lunch, the other has gone home: {:?}",
            problem.breaks
        );
    }
}
