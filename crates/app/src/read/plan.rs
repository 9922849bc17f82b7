//! The Plan's read model: a harvest plan said in kitchen words.

use super::plan_flow::{CRUMB_GRAMS, Group, flow, groups};
use super::plan_words::{
    answer, binding_view, containers_made, goal, lead, left_words, minutes_on, outlet_parts,
    reason, unanswered,
};
use crate::error::AppError;
use crate::facts::{BatchFact, BatchState, Facts};
use crate::harvest::Proposal;
use crate::read::house::container_words;
use crate::request::Now;
use crate::view::Both;
use crate::view::plan::{ClosedView, Flow, GoalView, LeftOutView, PlanDay, PlanView, PlannedBatch};
use crate::{App, dates};
use ledger::Place;
use plan::allocation::{Plan, Problem};
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
            return Ok(self.proposal_view(&facts, &proposal));
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
            let verdict = match &batch.permit {
                Some(permit) => crate::read::batch::permit_words(permit),
                None => self.cool_words(&batch.recipe)?,
            };
            beside.verdicts.insert(key.clone(), verdict);
            beside.batches.insert((day, key), batch);
        }
        Ok(self.plan_view("accepted", &problem, &plan, &beside, &[], None))
    }

    /// The verdict of a route without heat in words; empty for a recipe the book no longer has.
    fn cool_words(&self, recipe: &str) -> Result<String, AppError> {
        match self.recipes.get(recipe) {
            Ok(recipe) => Ok(self.route_words(recipe)?.unwrap_or_default()),
            Err(_) => Ok(String::new()),
        }
    }

    /// A proposal as the page shows it.
    pub(crate) fn proposal_view(&self, facts: &Facts, proposal: &Proposal) -> PlanView {
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
                match fresh {
                    1 => "One lot waits on the Counter.".to_owned(),
                    _ => format!("{fresh} lots wait on the Counter."),
                }
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

    fn plan_view(
        &self,
        state: &str,
        problem: &Problem,
        plan: &Plan,
        beside: &Beside<'_>,
        closed: &[ClosedView],
        milliseconds: Option<u64>,
    ) -> PlanView {
        let groups = groups(problem, plan);
        let days = self.plan_days(problem, plan, &groups, beside);
        let last = dates::plus_days(problem.first_day, problem.horizon() - 1);
        // Once accepted, finished batches stand already: only what is still to come is added.
        let to_come: Vec<(String, String, i64)> = plan
            .runs
            .iter()
            .filter(|run| {
                let key = (
                    i64::try_from(run.day).unwrap_or(0),
                    problem.outlets[run.outlet].key.clone(),
                );
                state != "accepted"
                    || beside.batches.get(&key).is_some_and(|batch| {
                        matches!(batch.state, BatchState::Planned | BatchState::Started)
                    })
            })
            .map(|run| {
                let (recipe, container) = outlet_parts(&problem.outlets[run.outlet].key);
                (
                    recipe.to_owned(),
                    container.to_owned(),
                    containers_made(problem, run),
                )
            })
            .collect();
        PlanView {
            span: format!("{} to {}", dates::day(problem.first_day), dates::day(last)),
            answer: answer(problem, plan),
            lead: format!("{}{}", lead(problem, plan), unanswered(beside.facts)),
            state: state.to_owned(),
            flow: flow(problem, plan, &groups, &days),
            days,
            // A few grams are the rest of whole units; the stored plan names them all the same.
            left_out: plan
                .left_out
                .iter()
                .filter(|left| left.grams >= CRUMB_GRAMS)
                .map(|left| LeftOutView {
                    lot: problem.lots[left.lot].name.clone(),
                    id: problem.lots[left.lot].id,
                    weight: Both::mass(Mass::from_grams(left.grams)),
                    code: serde_json::to_value(left.reason)
                        .ok()
                        .and_then(|value| value.as_str().map(str::to_owned))
                        .unwrap_or_default(),
                    reason: left_words(problem, left),
                })
                .collect(),
            binding: plan
                .binding
                .iter()
                .filter_map(|binding| binding_view(problem, binding))
                .collect(),
            needs: self.needs(beside.facts, &to_come),
            goal: goal(problem, plan, milliseconds),
            closed: closed.to_vec(),
        }
    }

    fn plan_days(
        &self,
        problem: &Problem,
        plan: &Plan,
        groups: &[Group],
        beside: &Beside<'_>,
    ) -> Vec<PlanDay> {
        let mut days: Vec<PlanDay> = Vec::new();
        for group in groups {
            let date = dates::plus_days(problem.first_day, i64::try_from(group.day).unwrap_or(0));
            if days.last().is_none_or(|last| last.date != date.to_string()) {
                days.push(PlanDay {
                    date: date.to_string(),
                    title: dates::day(date),
                    hands: format!(
                        "{} of {}",
                        show::minutes(minutes_on(problem, plan, group.day)),
                        show::minutes(problem.days[group.day].hands_minutes)
                    ),
                    batches: Vec::new(),
                });
            }
            let takes = group
                .lots(plan)
                .into_iter()
                .map(|(lot, grams)| {
                    let lot = &problem.lots[lot];
                    format!(
                        "{} {} (lot {})",
                        Both::mass(Mass::from_grams(grams)),
                        lot.name,
                        lot.id
                    )
                })
                .collect();
            if let Some(last) = days.last_mut() {
                last.batches
                    .push(planned_batch(problem, plan, group, beside, takes));
            }
        }
        days
    }
}

/// One line of a day: a batch, or the portions that the table or the animals take.
fn planned_batch(
    problem: &Problem,
    plan: &Plan,
    group: &Group,
    beside: &Beside<'_>,
    takes: Vec<String>,
) -> PlannedBatch {
    let run = &plan.runs[group.runs[0]];
    let outlet = &problem.outlets[run.outlet];
    let weight = Both::mass(Mass::from_grams(group.grams(plan))).to_string();
    if group.is_portions() {
        let table = group.place == Place::Eaten;
        return PlannedBatch {
            id: None,
            recipe: String::new(),
            title: if table {
                "For the table"
            } else {
                "For the animals"
            }
            .to_owned(),
            times: String::new(),
            makes: weight,
            takes,
            place: group.place.as_str().to_owned(),
            reason: if table {
                "What the household eats fresh on this day, the softest first.".to_owned()
            } else {
                "What nothing better takes, in small portions.".to_owned()
            },
            verdict: beside
                .verdicts
                .get(&outlet.key)
                .cloned()
                .unwrap_or_default(),
        };
    }
    let (recipe, container) = outlet_parts(&outlet.key);
    let batch = beside
        .batches
        .get(&(i64::try_from(run.day).unwrap_or(0), outlet.key.clone()));
    let made = containers_made(problem, run);
    PlannedBatch {
        id: batch.map(|batch| batch.id),
        recipe: recipe.to_owned(),
        title: outlet.name.clone(),
        times: batch
            .map(|batch| batch.state.word().to_owned())
            .unwrap_or_default(),
        makes: if container.is_empty() || made == 0 {
            weight
        } else {
            format!("{made} {}", container_words(container, made))
        },
        takes,
        place: group.place.as_str().to_owned(),
        reason: reason(problem, plan, run),
        verdict: beside
            .verdicts
            .get(&outlet.key)
            .cloned()
            .unwrap_or_default(),
    }
}
