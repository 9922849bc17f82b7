//! The kitchen day: made from the day's batches, stored once accepted, shown as lanes and steps.

use crate::day::hours;
use crate::day::problem::{self, DayBatch, StepLabel};
use crate::day::rest::{self, Part};
use crate::error::AppError;
use crate::facts::{BatchFact, BatchState, Facts};
use crate::request::Now;
use crate::view::Choice;
use crate::view::day::{Block, DayStep, DayView, Lane};
use crate::{App, balance, dates};
use jiff::civil::Date;
use plan::kitchen_day::{self, LaneUser, Problem, Timetable};

/// Iterations of the search where no time limit is given: the same facts give the same day.
const ITERATIONS: u64 = 4000;

impl App {
    /// The kitchen day of a date, as last made.
    ///
    /// # Errors
    /// A date that is not understood, or those of reading the file.
    pub fn day(&self, now: &Now, date: Option<&str>) -> Result<DayView, AppError> {
        let date = day_of(now, date)?;
        let facts = self.facts()?;
        let Some(record) = self.store.read(|reader| reader.timetable_for(date))? else {
            return Ok(empty(&facts, date));
        };
        let unreadable = |error: serde_json::Error| {
            AppError::failed(
                format!("The timetable cannot be read: {error}."),
                "Make it anew.",
            )
        };
        let problem: Problem = serde_json::from_str(&record.problem).map_err(unreadable)?;
        let timetable: Timetable = serde_json::from_str(&record.timetable).map_err(unreadable)?;
        let labels: Vec<StepLabel> = serde_json::from_str(&record.labels).map_err(unreadable)?;
        Ok(view(&facts, date, &problem, &timetable, &labels, None))
    }

    /// Makes the timetable of a date from its batches and keeps it, once the independent checker
    /// has passed it.
    ///
    /// # Errors
    /// A date that is past or not understood, or a timetable the checker rejects (a fault of the
    /// program, never shown). A day that cannot be done is no error: the view says what clashes.
    pub fn make_day(
        &self,
        now: &Now,
        date: Option<&str>,
        seed: u64,
        milliseconds: Option<u64>,
    ) -> Result<DayView, AppError> {
        let date = day_of(now, date)?;
        if dates::days_between(now.date, date) < 0 {
            return Err(AppError::input(
                "date",
                format!("{} is past.", dates::plain(date)),
                "Make the timetable of today or a day to come.",
            ));
        }
        let facts = self.facts()?;
        let house = balance::house_now(&facts);
        let hours = hours::of_house(&house)?;
        let mut batches = Vec::new();
        for batch in facts.batches.values() {
            let Some(asked) = part_on(batch, date) else {
                continue;
            };
            let route = self.recipes.get(&batch.recipe)?.route;
            let (steps, canner) = self.batch_steps(&facts, batch)?;
            let steps = rest::part(steps, route, asked);
            if steps.steps.is_empty() {
                continue;
            }
            let title = self.recipe_title(&batch.recipe);
            batches.push(DayBatch {
                id: batch.id,
                title: if asked == Part::EveBefore {
                    format!("{title}, for tomorrow")
                } else {
                    title
                },
                steps,
                canner,
            });
        }
        if batches.is_empty() {
            return Ok(empty(&facts, date));
        }
        let from = if date == now.date { now.minute } else { 0 };
        let (problem, labels) = problem::build(&house, &hours, date, from, &batches);
        let effort = solve::Effort {
            seed,
            iterations: if milliseconds.is_some() {
                u64::MAX
            } else {
                ITERATIONS
            },
            milliseconds,
        };
        let timetable = match solve::kitchen_day::solve(&problem, &effort) {
            Ok(timetable) => timetable,
            Err(clash) => {
                let mut view = empty(&facts, date);
                view.state = "clash".to_owned();
                view.answer = "This day cannot be done as it stands.".to_owned();
                view.lead = "Move a batch to another day, or give the day more hours.".to_owned();
                view.clash = clash_lines(&clash);
                return Ok(view);
            }
        };
        let breaches = kitchen_day::check(&problem, &timetable);
        if let Some(breach) = breaches.first() {
            return Err(AppError::failed(
                format!(
                    "The timetable failed its own check ({} {}) and is not shown.",
                    breach.code, breach.text
                ),
                "Please report this with the file; nothing was written.",
            ));
        }
        let json = |value: Result<String, serde_json::Error>| {
            value.map_err(|error| {
                AppError::failed(
                    format!("The timetable cannot be written down: {error}."),
                    "",
                )
            })
        };
        let problem_json = json(serde_json::to_string(&problem))?;
        let timetable_json = json(serde_json::to_string(&timetable))?;
        let labels_json = json(serde_json::to_string(&labels))?;
        self.write(now, "timetable", "", "", |writer| {
            writer.add_timetable(date, &problem_json, &timetable_json, &labels_json)?;
            Ok(())
        })?;
        Ok(view(
            &facts,
            date,
            &problem,
            &timetable,
            &labels,
            milliseconds,
        ))
    }
}

/// The part of a batch that belongs to a date, if any does.
fn part_on(batch: &BatchFact, date: Date) -> Option<Part> {
    if !matches!(batch.state, BatchState::Planned | BatchState::Started) {
        return None;
    }
    match dates::days_between(date, batch.for_day) {
        0 => Some(Part::OwnDay),
        1 => Some(Part::EveBefore),
        _ => None,
    }
}

fn day_of(now: &Now, date: Option<&str>) -> Result<Date, AppError> {
    match date.map(str::trim) {
        None | Some("") => Ok(now.date),
        Some(text) => text.parse().map_err(|_| {
            AppError::input(
                "date",
                format!("«{text}» is not a date."),
                "Write it as 2026-08-27.",
            )
        }),
    }
}

/// Days that have batches which are not called off.
fn days_with_batches(facts: &Facts) -> Vec<Choice> {
    let mut days: Vec<Date> = facts
        .batches
        .values()
        .filter(|batch| matches!(batch.state, BatchState::Planned | BatchState::Started))
        .map(|batch| batch.for_day)
        .collect();
    days.sort();
    days.dedup();
    days.into_iter()
        .map(|day| Choice::new(day.to_string(), dates::day(day)))
        .collect()
}

fn empty(facts: &Facts, date: Date) -> DayView {
    let waiting = facts
        .batches
        .values()
        .filter(|batch| {
            batch.for_day == date
                && matches!(batch.state, BatchState::Planned | BatchState::Started)
        })
        .count();
    DayView {
        date: date.to_string(),
        title: dates::day(date),
        answer: match waiting {
            0 => "Nothing is to be cooked on this day.".to_owned(),
            1 => "One batch waits for its timetable.".to_owned(),
            count => format!("{count} batches wait for their timetable."),
        },
        lead: if waiting == 0 {
            "Accept a plan, or set a batch up by hand.".to_owned()
        } else {
            "Make it, and each step gets its time.".to_owned()
        },
        state: if waiting == 0 { "none" } else { "waiting" }.to_owned(),
        clash: Vec::new(),
        from: 0,
        to: 0,
        lanes: Vec::new(),
        steps: Vec::new(),
        days: days_with_batches(facts),
        quality: String::new(),
        gap_percent: 0.0,
        proven: false,
        milliseconds: None,
    }
}

fn view(
    facts: &Facts,
    date: Date,
    problem: &Problem,
    timetable: &Timetable,
    labels: &[StepLabel],
    milliseconds: Option<u64>,
) -> DayView {
    let start = problem.day_start;
    let mut lanes: Vec<((usize, usize), Lane)> = Vec::new();
    let uses = kitchen_day::lanes(problem, timetable);
    for used in &uses {
        let resource = &problem.resources[used.resource];
        let several = resource.capacity > 1;
        let block = match used.user {
            LaneUser::Break(_) => Block {
                from: start + used.from,
                to: start + used.to,
                title: "away".to_owned(),
                batch: String::new(),
                unattended: true,
                held: true,
            },
            LaneUser::Step(step) => Block {
                from: start + used.from,
                to: start + used.to,
                title: problem.steps[step].name.clone(),
                batch: problem.steps[step].batch.clone(),
                unattended: problem.steps[step].unattended,
                held: false,
            },
            LaneUser::Hold(hold) => Block {
                from: start + used.from,
                to: start + used.to,
                title: "kept".to_owned(),
                batch: problem.steps[problem.holds[hold].from_step].batch.clone(),
                unattended: true,
                held: true,
            },
        };
        let key = (used.resource, used.lane);
        match lanes.iter_mut().find(|(known, _)| *known == key) {
            Some((_, lane)) => lane.blocks.push(block),
            None => lanes.push((
                key,
                Lane {
                    name: if several {
                        format!("{} {}", resource.name, used.lane + 1)
                    } else {
                        resource.name.clone()
                    },
                    kind: resource.kind.clone(),
                    blocks: vec![block],
                },
            )),
        }
    }
    lanes.sort_by_key(|(key, _)| *key);
    let mut steps: Vec<DayStep> = problem
        .steps
        .iter()
        .enumerate()
        .map(|(index, step)| {
            let from = start + timetable.starts[index];
            DayStep {
                from,
                to: from + step.minutes,
                starts: dates::clock(from),
                ends: dates::clock(from + step.minutes),
                title: step.name.clone(),
                batch: step.batch.clone(),
                batch_id: labels.get(index).map(|label| label.batch),
                uses: uses_words(problem, &uses, index),
                unattended: step.unattended,
                stop_point: step.stop_point,
            }
        })
        .collect();
    steps.sort_by_key(|step| (step.from, step.to, step.batch_id));
    let begin = steps.iter().map(|step| step.from).min().unwrap_or(start);
    let end = start + timetable.end;
    let gap_percent = (kitchen_day::gap(timetable) * 1000.0).round() / 10.0;
    let stop = steps.iter().rfind(|step| step.stop_point && step.to < end);
    DayView {
        date: date.to_string(),
        title: dates::day(date),
        answer: format!(
            "Start at {}, done by {}.",
            dates::clock(begin),
            dates::clock(end)
        ),
        lead: match stop {
            Some(step) => format!(
                "{} steps; the work may stop at {} after «{}».",
                steps.len(),
                step.ends,
                step.title
            ),
            None => format!("{} steps.", steps.len()),
        },
        state: "accepted".to_owned(),
        clash: Vec::new(),
        from: begin.div_euclid(60) * 60,
        to: (end + 59).div_euclid(60) * 60,
        lanes: lanes.into_iter().map(|(_, lane)| lane).collect(),
        steps,
        days: days_with_batches(facts),
        quality: if timetable.proven {
            "No better day is possible with these hands, burners and canners.".to_owned()
        } else {
            format!("Within {gap_percent:.1} % of the best day that can exist.")
        },
        gap_percent,
        proven: timetable.proven,
        milliseconds,
    }
}

/// "Both hands, burner 2, big kettle".
fn uses_words(problem: &Problem, uses: &[kitchen_day::LaneUse], step: usize) -> String {
    let mut words: Vec<String> = Vec::new();
    for used in uses.iter().filter(|used| used.user == LaneUser::Step(step)) {
        let resource = &problem.resources[used.resource];
        words.push(if resource.capacity > 1 {
            format!("{} {}", resource.name, used.lane + 1)
        } else {
            resource.name.clone()
        });
    }
    words.join(", ")
}

/// What clashes, its members, and what would help, a line each.
fn clash_lines(clash: &kitchen_day::Clash) -> Vec<String> {
    let mut lines = vec![clash.text.clone()];
    lines.extend(
        clash
            .members
            .iter()
            .map(|member| format!("Part of it: {member}")),
    );
    lines.extend(
        clash
            .relaxations
            .iter()
            .map(|relaxation| format!("What would help: {}", relaxation.text)),
    );
    lines
}
