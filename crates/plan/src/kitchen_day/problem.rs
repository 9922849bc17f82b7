//! What a kitchen day asks for: steps, what they use, and the waits between them.

use serde::{Deserialize, Serialize};

/// The kind of a resource that stands for people. A step that may not be left alone needs at
/// least one place of a resource of this kind to be there while it runs.
pub const HANDS: &str = "hands";

/// One kitchen day as numbers. All times are minutes after `day_start`.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Problem {
    /// Minute of the day (from midnight) that all other times are counted from.
    pub day_start: i64,
    /// Finish-by: no step may end later than this, in minutes after `day_start`.
    pub horizon: i64,
    /// Hands, burners, pots, canners, mill, sink.
    pub resources: Vec<Resource>,
    /// What has to be done, each step once and without a pause inside it.
    pub steps: Vec<Step>,
    /// Least and most minutes between the starts of two steps.
    #[serde(default)]
    pub lags: Vec<Lag>,
    /// Pots and canners kept from the start of one step to the end of another.
    #[serde(default)]
    pub holds: Vec<Hold>,
    /// Times when part of a resource is not there.
    #[serde(default)]
    pub breaks: Vec<Break>,
    /// Waits that cost points.
    #[serde(default)]
    pub waits: Vec<Wait>,
    /// Points for each minute until the last step ends.
    pub points_per_minute: i64,
}

/// Something that can be used by a limited number of steps at once.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Resource {
    /// Name shown to the household.
    pub name: String,
    /// What it is, such as [`HANDS`], "burner", "pot", "canner", "mill", "sink".
    pub kind: String,
    /// Places: pairs of hands, burners, pots.
    pub capacity: i64,
}

/// One piece of work with a fixed duration.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Step {
    /// What is done, such as "mill".
    pub name: String,
    /// The batch it belongs to, as shown to the household.
    #[serde(default)]
    pub batch: String,
    /// Duration in minutes; 0 is a mere point in time.
    pub minutes: i64,
    /// `(resource, places)` used from start to end.
    #[serde(default)]
    pub demands: Vec<(usize, i64)>,
    /// Earliest start.
    #[serde(default)]
    pub not_before: i64,
    /// The start of a step that has begun already or has a fixed hour. Overrules `not_before`.
    #[serde(default)]
    pub fixed_start: Option<i64>,
    /// Whether the step may be left alone (and so may run through a break of everyone).
    #[serde(default)]
    pub unattended: bool,
    /// Whether the batch may rest until another day after this step. Not used by the timetable.
    #[serde(default)]
    pub stop_point: bool,
}

/// Least and most minutes from the start of one step to the start of another.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Lag {
    /// The earlier step.
    pub from: usize,
    /// The later step.
    pub to: usize,
    /// `start(to) >= start(from) + min`. May be negative.
    pub min: i64,
    /// `start(to) <= start(from) + max`: a rule if `max_is_safety`, else a wish with a price.
    #[serde(default)]
    pub max: Option<i64>,
    /// Whether `max` may never be passed.
    #[serde(default)]
    pub max_is_safety: bool,
    /// Points for each minute past a `max` that is not safety.
    #[serde(default)]
    pub points_per_minute_over: i64,
    /// Where the figures come from, fit to show.
    #[serde(default)]
    pub source: String,
}

/// A resource kept from the start of `from_step` to the end of `to_step`, whatever happens
/// between them. `to_step` may not end before `from_step` starts.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Hold {
    /// Index of the resource.
    pub resource: usize,
    /// Places kept.
    pub amount: i64,
    /// Kept from the start of this step ...
    pub from_step: usize,
    /// ... to the end of this one.
    pub to_step: usize,
}

/// Part of a resource is away from `from` (included) to `to` (excluded).
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Break {
    /// Index of the resource.
    pub resource: usize,
    /// Places that are away; never more than there are.
    pub amount: i64,
    /// First minute away.
    pub from: i64,
    /// First minute back.
    pub to: i64,
}

/// A wait that costs points: from the end of one step to the start of another.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Wait {
    /// Counted from the end of this step ...
    pub from: usize,
    /// ... to the start of this one; a start before that end costs nothing.
    pub to: usize,
    /// Points for each minute.
    pub points_per_minute: i64,
}

impl Lag {
    /// A lag that only asks for a least time between two starts.
    pub fn at_least(from: usize, to: usize, min: i64) -> Lag {
        Lag {
            from,
            to,
            min,
            ..Lag::default()
        }
    }

    /// The same lag with a most time that may never be passed.
    #[must_use]
    pub fn never_more_than(mut self, max: i64, source: &str) -> Lag {
        self.max = Some(max);
        self.max_is_safety = true;
        self.source = source.to_string();
        self
    }

    /// The same lag with a most time that may be passed at a price.
    #[must_use]
    pub fn better_within(mut self, max: i64, points_per_minute_over: i64, source: &str) -> Lag {
        self.max = Some(max);
        self.max_is_safety = false;
        self.points_per_minute_over = points_per_minute_over;
        self.source = source.to_string();
        self
    }
}

impl Problem {
    /// "wash (salsa)": a step as it is named in sentences; a number if there is no such step.
    pub fn step_title(&self, step: usize) -> String {
        match self.steps.get(step) {
            Some(s) if s.batch.is_empty() => s.name.clone(),
            Some(s) => format!("{} ({})", s.name, s.batch),
            None => format!("step {step}"),
        }
    }

    /// The name of a resource; a number if there is no such resource.
    pub fn resource_title(&self, resource: usize) -> String {
        match self.resources.get(resource) {
            Some(r) => r.name.clone(),
            None => format!("resource {resource}"),
        }
    }

    /// The clock time of a minute of this day, such as "14:05" or "00:20 next day".
    pub fn clock(&self, minute: i64) -> String {
        clock(self.day_start.saturating_add(minute))
    }
}

/// A minute counted from midnight as a clock time, such as "14:05" or "00:20 next day".
pub fn clock(minute_of_day: i64) -> String {
    let minute = minute_of_day.rem_euclid(1440);
    let time = format!("{:02}:{:02}", minute / 60, minute % 60);
    match minute_of_day.div_euclid(1440) {
        0 => time,
        1 => format!("{time} next day"),
        -1 => format!("{time} the day before"),
        days if days > 0 => format!("{time} {days} days later"),
        days => format!("{time} {} days before", days.unsigned_abs()),
    }
}
