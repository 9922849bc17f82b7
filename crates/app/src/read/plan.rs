//! The Plan's read model: a harvest plan said in kitchen words.

use crate::action::lot::place_title;
use crate::error::AppError;
use crate::facts::{BatchFact, BatchState, Facts};
use crate::harvest::Proposal;
use crate::harvest::problem::POINTS_PER_POUND;
use crate::read::counter::{capital, join};
use crate::read::house::container_words;
use crate::request::Now;
use crate::view::Both;
use crate::view::plan::{
    BindingView, ClosedView, Flow, FlowNode, GoalPart, GoalView, LeftOutView, PlanDay, PlanView,
    PlannedBatch,
};
use crate::{App, balance, dates};
use ledger::Place;
use plan::allocation::{Plan, Problem, ReasonCode, Run};
use quantity::{Mass, show};
use std::collections::BTreeMap;

/// What is shown beside a plan's numbers.
struct Beside<'a> {
    facts: &'a Facts,
    /// Batch numbers by (day, outlet key), once accepted.
    batches: BTreeMap<(i64, String), &'a BatchFact>,
    /// Verdict words by outlet key.
    verdicts: BTreeMap<String, String>,
}

impl App {
    /// The last plan made and not accepted, else the accepted one, else a page that says so.
    ///
    /// # Errors
    /// Those of reading the file.
    pub fn plan(&self, now: &Now) -> Result<PlanView, AppError> {
        let facts = self.facts()?;
        let kept = self
            .proposal
            .lock()
            .unwrap_or_else(std::sync::PoisonError::into_inner)
            .clone();
        if let Some(proposal) = kept {
            return Ok(self.proposal_view(&facts, &proposal, now));
        }
        let Some(record) = self.store.read(|reader| reader.latest_harvest_plan())? else {
            return Ok(self.no_plan(&facts, now));
        };
        let unreadable = |error: serde_json::Error| {
            AppError::failed(
                format!("The accepted plan cannot be read: {error}."),
                "Make a new plan; the batches that were set up stay.",
            )
        };
        let problem: Problem = serde_json::from_str(&record.problem).map_err(unreadable)?;
        let plan: Plan = serde_json::from_str(&record.harvest_plan).map_err(unreadable)?;
        let mut beside = Beside {
            facts: &facts,
            batches: BTreeMap::new(),
            verdicts: BTreeMap::new(),
        };
        for batch in facts
            .batches
            .values()
            .filter(|batch| batch.setup.planned && batch.state != BatchState::Cancelled)
        {
            let day = dates::days_between(problem.first_day, batch.for_day);
            let key = format!("{}@{}", batch.recipe, batch.container);
            if let Some(permit) = &batch.permit {
                beside
                    .verdicts
                    .insert(key.clone(), crate::read::batch::permit_words(permit));
            }
            beside.batches.insert((day, key), batch);
        }
        Ok(self.plan_view("accepted", &problem, &plan, &beside, &[], None, now))
    }

    /// A proposal as the page shows it.
    pub(crate) fn proposal_view(&self, facts: &Facts, proposal: &Proposal, now: &Now) -> PlanView {
        let verdicts = proposal
            .candidates
            .iter()
            .map(|candidate| {
                (
                    format!("{}@{}", candidate.key, candidate.container),
                    candidate.verdict.clone(),
                )
            })
            .collect();
        let beside = Beside {
            facts,
            batches: BTreeMap::new(),
            verdicts,
        };
        let closed: Vec<ClosedView> = proposal
            .closed
            .iter()
            .map(|closed| ClosedView {
                recipe: closed.title.clone(),
                reason: closed.reason.clone(),
                instead: closed.instead.clone(),
            })
            .collect();
        self.plan_view(
            "proposed",
            &proposal.problem,
            &proposal.plan,
            &beside,
            &closed,
            proposal.milliseconds,
            now,
        )
    }

    fn no_plan(&self, facts: &Facts, now: &Now) -> PlanView {
        let fresh = facts.fresh_lots().count();
        PlanView {
            span: dates::day(now.date),
            answer: if fresh == 0 {
                "Nothing lies fresh, so there is nothing to plan."
            } else {
                "No plan is made yet."
            }
            .to_owned(),
            lead: if fresh == 0 {
                "Weigh in a picking on the Counter first.".to_owned()
            } else {
                format!("{fresh} lots wait on the Counter.")
            },
            state: "none".to_owned(),
            days: Vec::new(),
            flow: Flow::default(),
            left_out: Vec::new(),
            binding: Vec::new(),
            needs: self.needs(facts, &[]),
            goal: GoalView {
                words: String::new(),
                parts: Vec::new(),
                value: 0,
                bound: 0,
                gap_percent: 0.0,
                proven: false,
                gap_words: String::new(),
                milliseconds: None,
            },
            closed: Vec::new(),
        }
    }

    #[expect(
        clippy::too_many_arguments,
        reason = "one page from one plan: each argument is a part of the page"
    )]
    fn plan_view(
        &self,
        state: &str,
        problem: &Problem,
        plan: &Plan,
        beside: &Beside<'_>,
        closed: &[ClosedView],
        milliseconds: Option<u64>,
        now: &Now,
    ) -> PlanView {
        let days = self.plan_days(problem, plan, beside);
        let last = dates::plus_days(problem.first_day, problem.horizon() - 1);
        let added: Vec<(String, String, i64)> = plan
            .runs
            .iter()
            .map(|run| {
                let (recipe, container) = outlet_parts(&problem.outlets[run.outlet].key);
                (
                    recipe.to_owned(),
                    container.to_owned(),
                    containers_made(problem, run),
                )
            })
            .collect();
        // Once accepted, finished batches stand already: only what is still to come is added.
        let to_come: Vec<(String, String, i64)> = if state == "accepted" {
            days.iter()
                .flat_map(|day| &day.batches)
                .zip(&added)
                .filter(|(batch, _)| {
                    batch
                        .id
                        .and_then(|id| beside.facts.batches.get(&id))
                        .is_some_and(|fact| {
                            matches!(fact.state, BatchState::Planned | BatchState::Started)
                        })
                })
                .map(|(_, added)| added.clone())
                .collect()
        } else {
            added
        };
        let _ = now;
        PlanView {
            span: format!("{} to {}", dates::day(problem.first_day), dates::day(last)),
            answer: answer(problem, plan),
            lead: lead(problem, plan),
            state: state.to_owned(),
            flow: flow(problem, plan, &days),
            days,
            left_out: plan
                .left_out
                .iter()
                .map(|left| LeftOutView {
                    lot: problem.lots[left.lot].name.clone(),
                    id: problem.lots[left.lot].id,
                    weight: Both::mass(Mass::from_grams(left.grams)),
                    code: serde_json::to_value(left.reason)
                        .ok()
                        .and_then(|value| value.as_str().map(str::to_owned))
                        .unwrap_or_default(),
                    reason: left.text.clone(),
                })
                .collect(),
            binding: plan
                .binding
                .iter()
                .map(|binding| BindingView {
                    limit: binding
                        .text
                        .split(':')
                        .next()
                        .unwrap_or(&binding.text)
                        .to_owned(),
                    used: binding.text.split_once(':').map_or_else(
                        || format!("{} of {}", binding.used, binding.available),
                        |(_, rest)| rest.trim().to_owned(),
                    ),
                    binds: binding.used >= binding.available,
                    text: binding.text.clone(),
                })
                .collect(),
            needs: self.needs(beside.facts, &to_come),
            goal: goal(problem, plan, milliseconds),
            closed: closed.to_vec(),
        }
    }

    fn plan_days(&self, problem: &Problem, plan: &Plan, beside: &Beside<'_>) -> Vec<PlanDay> {
        let mut days: Vec<PlanDay> = Vec::new();
        for run in &plan.runs {
            let day = i64::try_from(run.day).unwrap_or(0);
            let date = dates::plus_days(problem.first_day, day);
            if days.last().is_none_or(|last| last.date != date.to_string()) {
                days.push(PlanDay {
                    date: date.to_string(),
                    title: dates::day(date),
                    hands: format!(
                        "{} of {}",
                        show::minutes(minutes_on(problem, plan, run.day)),
                        show::minutes(problem.days[run.day].hands_minutes)
                    ),
                    batches: Vec::new(),
                });
            }
            let outlet = &problem.outlets[run.outlet];
            let (_, container) = outlet_parts(&outlet.key);
            let batch = beside.batches.get(&(day, outlet.key.clone()));
            let made = containers_made(problem, run);
            let takes = plan
                .uses
                .iter()
                .filter(|used| used.day == run.day && used.outlet == run.outlet)
                .map(|used| {
                    let lot = &problem.lots[used.lot];
                    format!(
                        "{} {} (lot {})",
                        Both::mass(Mass::from_grams(used.grams)),
                        lot.name,
                        lot.id
                    )
                })
                .collect();
            if let Some(last) = days.last_mut() {
                last.batches.push(PlannedBatch {
                    id: batch.map(|batch| batch.id),
                    recipe: outlet_parts(&outlet.key).0.to_owned(),
                    title: outlet.name.clone(),
                    times: match batch {
                        Some(batch) => batch.state.word().to_owned(),
                        None => {
                            if container.is_empty() {
                                String::new()
                            } else {
                                times(run.batches)
                            }
                        }
                    },
                    makes: if container.is_empty() || made == 0 {
                        Both::mass(Mass::from_grams(grams_in(plan, run))).to_string()
                    } else {
                        format!("{made} {}", container_words(container, made))
                    },
                    takes,
                    place: place_of(&outlet.route).as_str().to_owned(),
                    reason: reason(problem, plan, run),
                    verdict: beside
                        .verdicts
                        .get(&outlet.key)
                        .cloned()
                        .unwrap_or_default(),
                });
            }
        }
        days
    }
}

/// Recipe and container of an outlet's key.
pub(crate) fn outlet_parts(key: &str) -> (&str, &str) {
    key.split_once('@').unwrap_or((key, ""))
}

/// The place a route leads to.
fn place_of(route: &str) -> Place {
    route
        .parse()
        .map_or(Place::Shelf, crate::action::finish::outcome_place)
}

fn times(units: i64) -> String {
    if units == 1 {
        "once".to_owned()
    } else {
        format!("{units} times")
    }
}

/// Containers that a run fills.
fn containers_made(problem: &Problem, run: &Run) -> i64 {
    let outlet = &problem.outlets[run.outlet];
    if outlet_parts(&outlet.key).1.is_empty() {
        return 0;
    }
    outlet
        .containers
        .first()
        .map_or(outlet.yields, |(_, count)| *count)
        * run.batches
}

fn grams_in(plan: &Plan, run: &Run) -> i64 {
    plan.uses
        .iter()
        .filter(|used| used.day == run.day && used.outlet == run.outlet)
        .map(|used| used.grams)
        .sum()
}

fn minutes_on(problem: &Problem, plan: &Plan, day: usize) -> i64 {
    plan.runs
        .iter()
        .filter(|run| run.day == day)
        .map(|run| {
            let outlet = &problem.outlets[run.outlet];
            outlet.setup_minutes + outlet.minutes_per_batch * run.batches
        })
        .sum()
}

/// Why this batch stands on this day: the most pressing lot it uses and the need it serves.
fn reason(problem: &Problem, plan: &Plan, run: &Run) -> String {
    let mut words = Vec::new();
    let pressing = plan
        .uses
        .iter()
        .filter(|used| used.day == run.day && used.outlet == run.outlet)
        .map(|used| &problem.lots[used.lot])
        .min_by_key(|lot| lot.last_day);
    if let Some(lot) = pressing {
        let day = i64::try_from(run.day).unwrap_or(0);
        words.push(match lot.last_day - day {
            0 => format!("the plan holds lot {} only until this day", lot.id),
            1 => format!("lot {} is due the day after", lot.id),
            left if lot.last_day < problem.horizon() => {
                format!("lot {} is due in {left} days", lot.id)
            }
            _ => "hands and canner are free".to_owned(),
        });
    }
    if let Some(good) = problem.outlets[run.outlet].good {
        let wanted: i64 = problem.goods[good]
            .steps
            .iter()
            .map(|(units, _)| units)
            .sum();
        words.push(format!(
            "{wanted} {} still wanted",
            container_words(&problem.goods[good].unit, wanted)
        ));
    }
    capital(&words.join("; "))
}

fn answer(problem: &Problem, plan: &Plan) -> String {
    if plan.runs.is_empty() {
        return "Nothing here is worth the work by the prices of this house.".to_owned();
    }
    let (mut jars, mut bags, mut trays) = (0, 0, 0);
    for run in &plan.runs {
        let made = containers_made(problem, run);
        let (_, container) = outlet_parts(&problem.outlets[run.outlet].key);
        if balance::is_bag(container) {
            bags += made;
        } else {
            jars += made;
        }
        trays += problem.outlets[run.outlet].dryer_trays * run.batches;
    }
    let mut parts = Vec::new();
    for (count, one, many) in [
        (jars, "jar", "jars"),
        (bags, "bag", "bags"),
        (trays, "dryer tray", "dryer trays"),
    ] {
        if count > 0 {
            parts.push(format!("{count} {}", if count == 1 { one } else { many }));
        }
    }
    let lost = lost_grams(problem, plan);
    let end = if lost == 0 {
        "Nothing is wasted.".to_owned()
    } else {
        format!("{} would be lost.", show::mass(Mass::from_grams(lost)).us)
    };
    if parts.is_empty() {
        end
    } else {
        format!("{}. {end}", capital(&join(&parts)))
    }
}

/// Grams that no batch takes and that do not keep beyond the plan.
fn lost_grams(problem: &Problem, plan: &Plan) -> i64 {
    plan.left_out
        .iter()
        .filter(|left| {
            left.reason != ReasonCode::KeepsBeyondPlan
                && problem.lots[left.lot].last_day < problem.horizon()
        })
        .map(|left| left.grams)
        .sum()
}

fn lead(problem: &Problem, plan: &Plan) -> String {
    let all: i64 = problem.lots.iter().map(|lot| lot.grams).sum();
    let used: i64 = plan.uses.iter().map(|used| used.grams).sum();
    let keeps: i64 = plan
        .left_out
        .iter()
        .filter(|left| problem.lots[left.lot].last_day >= problem.horizon())
        .map(|left| left.grams)
        .sum();
    let mut words = format!(
        "{} lie fresh, {} find a place",
        Both::mass(Mass::from_grams(all)),
        Both::mass(Mass::from_grams(used))
    );
    if keeps > 0 {
        words.push_str(&format!(
            ", {} keep beyond these days",
            Both::mass(Mass::from_grams(keeps))
        ));
    }
    words.push('.');
    words
}

fn goal(problem: &Problem, plan: &Plan, milliseconds: Option<u64>) -> GoalView {
    let pounds = |grams: i64| show::mass(Mass::from_grams(grams)).us;
    let at_stake: i64 = problem
        .lots
        .iter()
        .filter(|lot| lot.last_day >= 0 && lot.last_day < problem.horizon())
        .map(|lot| lot.grams)
        .sum();
    let lost = lost_grams(problem, plan);
    let minutes: i64 = (0..problem.days.len())
        .map(|day| minutes_on(problem, plan, day))
        .sum();
    let gap_percent = (plan::allocation::gap(plan) * 1000.0).round() / 10.0;
    let hour = problem.prices.points_per_hour / POINTS_PER_POUND.max(1);
    GoalView {
        words: format!(
            "One pound of food saved counts {POINTS_PER_POUND} points; an hour of work costs as much as {hour} lb; a must-have quart is worth 15 lb, a wanted one 8, a nice one 4, the last third of a need half. Safety is not weighed: what the gate refuses is not here."
        ),
        parts: vec![
            GoalPart {
                part: "Food saved".to_owned(),
                words: format!(
                    "{} of {} that would not keep",
                    pounds((at_stake - lost).max(0)),
                    pounds(at_stake)
                ),
                points: -plan.parts.waste,
            },
            GoalPart {
                part: "Needs met".to_owned(),
                words: format!("{} kinds wanted for the winter", problem.goods.len()),
                points: plan.parts.goods,
            },
            GoalPart {
                part: "Table and animals".to_owned(),
                words: "eaten fresh counts for, fed to animals counts less".to_owned(),
                points: plan.parts.extra,
            },
            GoalPart {
                part: "Work".to_owned(),
                words: show::minutes(minutes),
                points: -plan.parts.work,
            },
            GoalPart {
                part: "Freshness".to_owned(),
                words: "days that batches wait".to_owned(),
                points: -plan.parts.delay,
            },
        ],
        value: plan.value,
        bound: plan.bound,
        gap_percent,
        proven: plan.proven,
        gap_words: if plan.proven {
            "no better plan exists for these facts and prices".to_owned()
        } else {
            format!("within {gap_percent:.1} % of the best that can exist")
        },
        milliseconds,
    }
}

/// The bands of the flow picture.
fn flow(problem: &Problem, plan: &Plan, days: &[PlanDay]) -> Flow {
    let mut flow = Flow::default();
    for lot in &problem.lots {
        flow.lots.push(FlowNode {
            key: format!("lot-{}", lot.id),
            title: lot.name.clone(),
            detail: Both::mass(Mass::from_grams(lot.grams)).to_string(),
            day: String::new(),
            grams: lot.grams,
        });
    }
    let mut places: Vec<Place> = Vec::new();
    let mut titles = days
        .iter()
        .flat_map(|day| day.batches.iter().map(move |batch| (day, batch)));
    for (index, run) in plan.runs.iter().enumerate() {
        let (title, detail, day) = titles
            .next()
            .map(|(day, batch)| (batch.title.clone(), batch.makes.clone(), day.title.clone()))
            .unwrap_or_default();
        let grams = grams_in(plan, run);
        flow.batches.push(FlowNode {
            key: format!("run-{index}"),
            title,
            detail,
            day,
            grams,
        });
        let place = place_of(&problem.outlets[run.outlet].route);
        if !places.contains(&place) {
            places.push(place);
        }
        for used in plan
            .uses
            .iter()
            .filter(|used| used.day == run.day && used.outlet == run.outlet)
        {
            flow.into.push((used.lot, index, used.grams));
        }
    }
    for left in &plan.left_out {
        let place = left_place(problem, left.lot);
        if !places.contains(&place) {
            places.push(place);
        }
    }
    places.sort();
    let at = |place: Place| places.iter().position(|known| *known == place).unwrap_or(0);
    for (index, run) in plan.runs.iter().enumerate() {
        flow.out.push((
            index,
            at(place_of(&problem.outlets[run.outlet].route)),
            grams_in(plan, run),
        ));
    }
    for left in &plan.left_out {
        flow.past
            .push((left.lot, at(left_place(problem, left.lot)), left.grams));
    }
    for (index, place) in places.iter().enumerate() {
        let out: i64 = flow
            .out
            .iter()
            .filter(|(_, to, _)| *to == index)
            .map(|(_, _, grams)| grams)
            .sum();
        let past: i64 = flow
            .past
            .iter()
            .filter(|(_, to, _)| *to == index)
            .map(|(_, _, grams)| grams)
            .sum();
        flow.places.push(FlowNode {
            key: place.as_str().to_owned(),
            title: place_title(*place).to_lowercase(),
            detail: Both::mass(Mass::from_grams(out + past)).to_string(),
            day: String::new(),
            grams: out + past,
        });
    }
    flow
}

/// Where a lot that no batch takes is drawn: still on the counter, or lost to the compost.
fn left_place(problem: &Problem, lot: usize) -> Place {
    if problem.lots[lot].last_day >= problem.horizon() {
        Place::Counter
    } else {
        Place::Compost
    }
}
