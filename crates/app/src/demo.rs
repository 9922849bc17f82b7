//! The invented household: played day by day through the same actions that pages and commands use.
//!
//! Everything in `examples/demo` is made up; its README says so, and so does the demonstration.

use crate::App;
use crate::error::AppError;
use crate::house::House;
use crate::request::{
    CheckSeals, FinishBatch, MakePlan, NewBatch, Now, RecordPicking, SortOut, StartBatch,
};
use jiff::civil::Date;
use serde::Deserialize;

const HOUSE: &str = include_str!("../../../examples/demo/house.json");
const DAYS: &str = include_str!("../../../examples/demo/days.json");

/// The moment the demonstration stands at.
const TODAY: (i16, i8, i8) = (2026, 8, 27);
const MINUTE: i64 = 7 * 60 + 30;

/// Iterations of the demonstration's plan: the same plan each time.
const ITERATIONS: u64 = 20_000;

/// One act of the invented household.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Act {
    on: Date,
    time: String,
    pick: Option<RecordPicking>,
    batch: Option<WholeBatch>,
    sort: Option<SortOut>,
}

/// A batch from set-up to seal check.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct WholeBatch {
    new: NewBatch,
    finish: FinishBatch,
    seals: Option<CheckSeals>,
}

impl App {
    /// Plays the invented household into an empty file, up to the morning it stands at, with its
    /// plan accepted and its kitchen day made. A file that was played already is left as it is.
    ///
    /// # Errors
    /// Those of the actions, or a file that holds a household of its own.
    pub fn play_demo(&self) -> Result<Now, AppError> {
        let unreadable = |error: serde_json::Error| {
            AppError::failed(format!("The demonstration cannot be read: {error}."), "")
        };
        let mut house: House = serde_json::from_str(HOUSE).map_err(unreadable)?;
        let acts: Vec<Act> = serde_json::from_str(DAYS).map_err(unreadable)?;
        let morning = at(Date::constant(TODAY.0, TODAY.1, TODAY.2), MINUTE);
        let facts = self.facts()?;
        if let Some((_, stated)) = &facts.house {
            if stated.name == house.name {
                return Ok(morning);
            }
            return Err(AppError::input(
                "data",
                "This folder holds a household of its own.",
                "Name an empty folder for the demonstration with `--data FOLDER`.",
            ));
        }
        if let Some(first) = acts.first() {
            crate::house_fields::tidy(&mut house);
            self.set_house(&at(first.on, 0), house, "")?;
        }
        for act in acts {
            self.play(act)?;
        }
        self.make_plan(
            &morning,
            &MakePlan {
                seed: 1,
                iterations: Some(ITERATIONS),
                ..MakePlan::default()
            },
        )?;
        self.accept_plan(&morning, "")?;
        self.make_day(&morning, None, 1, None)?;
        Ok(morning)
    }

    fn play(&self, act: Act) -> Result<(), AppError> {
        let minute = act
            .time
            .split_once(':')
            .and_then(|(hour, minute)| {
                Some(hour.parse::<i64>().ok()? * 60 + minute.parse::<i64>().ok()?)
            })
            .unwrap_or(0);
        let now = at(act.on, minute);
        if let Some(picking) = &act.pick {
            self.record_picking(&now, picking)?;
        }
        if let Some(whole) = act.batch {
            let id = self.new_batch(&now, &whole.new)?.id.unwrap_or(0);
            self.start_batch(
                &now,
                &StartBatch {
                    batch: id,
                    ..StartBatch::default()
                },
            )?;
            self.finish_batch(
                &now,
                &FinishBatch {
                    batch: id,
                    ..whole.finish
                },
            )?;
            if let Some(seals) = whole.seals {
                let next = at(crate::dates::plus_days(act.on, 1), minute);
                self.check_seals(&next, &CheckSeals { batch: id, ..seals })?;
            }
        }
        if let Some(sort) = &act.sort {
            self.sort_out(&now, sort)?;
        }
        Ok(())
    }
}

/// A moment of the invented household.
fn at(date: Date, minute: i64) -> Now {
    Now {
        date,
        minute,
        at: format!("{date}T{:02}:{:02}:00", minute / 60, minute % 60),
        who: "demo".to_owned(),
    }
}
