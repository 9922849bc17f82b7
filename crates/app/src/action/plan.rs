//! A harvest plan is made, and accepted.

use super::Done;
use super::prepare::{Composed, ENTER_A_CANNER, Judged, NO_CANNER, Prepared, new_row};
use crate::error::AppError;
use crate::factor::OwnFactor;
use crate::facts::{BatchState, Facts, PlannedInput};
use crate::gate::Answers;
use crate::harvest::{Candidate, Proposal, Window, problem};
use crate::house::House;
use crate::request::{MakePlan, Now};
use crate::view::plan::PlanView;
use crate::{App, balance, dates, size};
use plan::allocation::{self, Plan, Problem};
use reference::Jar;
use std::collections::BTreeMap;
use store::BatchEventKind;

/// Days looked ahead where none are given, and the most that may be asked for.
const DAYS: i64 = 7;
const MOST_DAYS: i64 = 21;

/// Milliseconds of search where neither iterations nor a limit are given: a plan comes at once,
/// and a better one at the next press.
const MILLISECONDS: u64 = 150;

impl App {
    /// Makes a plan over the fresh lots and keeps it as a proposal. No plan is shown that the
    /// independent checker has not passed.
    ///
    /// # Errors
    /// Nothing fresh, no house, days out of range, or a plan that the checker rejects (a fault of
    /// the program).
    pub fn make_plan(&self, now: &Now, request: &MakePlan) -> Result<PlanView, AppError> {
        let facts = self.facts()?;
        let proposal = self.propose(&facts, now, request)?;
        let view = self.proposal_view(&facts, &proposal);
        *self
            .proposal
            .lock()
            .unwrap_or_else(std::sync::PoisonError::into_inner) = Some(proposal);
        Ok(view)
    }

    /// The problem and its best plan found.
    pub(crate) fn propose(
        &self,
        facts: &Facts,
        now: &Now,
        request: &MakePlan,
    ) -> Result<Proposal, AppError> {
        if facts.house.is_none() {
            return Err(AppError::input(
                "house",
                "The house is not entered yet, so no limit is known.",
                "Enter it on the House page first.",
            ));
        }
        let days = if request.days == 0 {
            DAYS
        } else {
            request.days
        };
        if !(1..=MOST_DAYS).contains(&days) {
            return Err(AppError::input(
                "days",
                format!("A plan looks 1 to {MOST_DAYS} days ahead, not {days}."),
                "Most households look a week ahead.",
            ));
        }
        // Batches that are set up and not begun are planned anew, so their food is free again;
        // what is in a pot is not.
        let house = balance::house_now(facts);
        let lots = self.plan_lots(facts, now)?;
        if lots.is_empty() {
            return Err(AppError::input(
                "lots",
                "Nothing lies fresh, so there is nothing to plan.",
                "Weigh in a picking on the Counter first.",
            ));
        }
        let window = Window {
            first: now.date,
            days,
        };
        let (candidates, closed) = self.candidates(facts, &house, &lots, days, now)?;
        let limits = self.limits(facts, &house, window, now)?;
        let problem = problem::build(window, &lots, &candidates, &limits);
        let effort = solve::Effort {
            seed: request.seed,
            iterations: request.iterations.unwrap_or(u64::MAX),
            milliseconds: if request.iterations.is_some() {
                request.milliseconds
            } else {
                Some(request.milliseconds.unwrap_or(MILLISECONDS))
            },
        };
        let plan = solve::allocate::solve(&problem, &effort).map_err(|error| {
            AppError::refused(
                error.to_string(),
                "Change the house or the lots, and plan again.",
            )
        })?;
        let breaches = allocation::check(&problem, &plan);
        if let Some(breach) = breaches.first() {
            return Err(AppError::failed(
                format!(
                    "The plan failed its own check ({} {}) and is not shown.",
                    breach.code, breach.text
                ),
                "Please report this with the file; nothing was written.",
            ));
        }
        Ok(Proposal {
            problem,
            plan,
            candidates,
            closed,
            milliseconds: request.milliseconds,
        })
    }

    /// Accepts the kept proposal: the gate is asked again for each heat batch, the batches are set
    /// up, and batches of an earlier plan that were not begun are called off.
    ///
    /// # Errors
    /// No proposal, a proposal that no longer fits the facts, or a gate that now refuses.
    pub fn accept_plan(&self, now: &Now, token: &str) -> Result<Done, AppError> {
        let kept = self
            .proposal
            .lock()
            .unwrap_or_else(std::sync::PoisonError::into_inner)
            .clone();
        let Some(proposal) = kept else {
            return Err(AppError::input(
                "plan",
                "There is no proposed plan to accept.",
                "Make a plan first.",
            ));
        };
        let facts = self.facts()?;
        let house = balance::house_now(&facts);
        let (problem, plan) = (&proposal.problem, &proposal.plan);
        if let Some(breach) = allocation::check(problem, plan).first() {
            return Err(AppError::failed(
                format!(
                    "The plan failed its own check ({} {}).",
                    breach.code, breach.text
                ),
                "Make it anew.",
            ));
        }
        let stale = || {
            AppError::refused(
                "The counter has changed since this plan was made.",
                "Make the plan anew.",
            )
        };
        for lot in &problem.lots {
            let known = facts.lots.get(&lot.id).ok_or_else(stale)?;
            if known.left / 1000 < lot.grams {
                return Err(stale());
            }
        }
        let mut rows = Vec::new();
        for run in &plan.runs {
            let candidate = &proposal.candidates[run.outlet];
            if candidate.key.contains(':') {
                continue;
            }
            let prepared = self.prepared_run(&facts, &house, problem, plan, run, candidate, now)?;
            rows.push(new_row(&prepared, &house, "planned", true)?);
        }
        let called_off: Vec<i64> = facts
            .batches
            .values()
            .filter(|batch| batch.setup.planned && batch.state == BatchState::Planned)
            .map(|batch| batch.id)
            .collect();
        let json = |value: Result<String, serde_json::Error>| {
            value.map_err(|error| {
                AppError::failed(format!("The plan cannot be written down: {error}."), "")
            })
        };
        let problem_json = json(serde_json::to_string(problem))?;
        let plan_json = json(serde_json::to_string(plan))?;
        let count = rows.len();
        let (entry, ()) = self.write(now, "harvest-plan", "", token, |writer| {
            for batch in &called_off {
                let content = serde_json::json!({ "why": "a new plan was accepted" });
                writer.add_batch_event(*batch, BatchEventKind::Cancelled, &content.to_string())?;
            }
            for row in &rows {
                writer.add_batch(row)?;
            }
            writer.add_harvest_plan(&problem_json, &plan_json)?;
            Ok(())
        })?;
        *self
            .proposal
            .lock()
            .unwrap_or_else(std::sync::PoisonError::into_inner) = None;
        Ok(Done {
            entry,
            id: None,
            words: match count {
                0 => "The plan is accepted; it asks for no batch.".to_owned(),
                1 => "The plan is accepted: one batch is set up.".to_owned(),
                count => format!("The plan is accepted: {count} batches are set up."),
            },
        })
    }

    /// One run of a plan as a batch, with the lots the plan gives it and the gate asked again.
    #[expect(
        clippy::too_many_arguments,
        reason = "a run is read from the whole plan"
    )]
    fn prepared_run<'a>(
        &'a self,
        facts: &Facts,
        house: &House,
        problem: &Problem,
        plan: &Plan,
        run: &allocation::Run,
        candidate: &Candidate,
        _now: &Now,
    ) -> Result<Prepared<'a>, AppError> {
        let recipe = self.recipes.get(&candidate.key)?;
        let jar: Option<Jar> = candidate.container.parse().ok();
        let own = OwnFactor::of(facts, recipe, None).and_then(|own| own.quarts_per_pound());
        let unit = size::unit(recipe, jar, own)?;
        let multiplier = quantity::checked_mul(unit.share, quantity::whole(run.batches))?;
        let day = dates::plus_days(problem.first_day, i64::try_from(run.day).unwrap_or(0));
        let mut inputs: BTreeMap<i64, i64> = BTreeMap::new();
        for used in plan
            .uses
            .iter()
            .filter(|used| used.day == run.day && used.outlet == run.outlet)
        {
            *inputs.entry(problem.lots[used.lot].id).or_default() += used.grams * 1000;
        }
        let inputs: Vec<PlannedInput> = inputs
            .into_iter()
            .map(|(lot, milligrams)| PlannedInput { lot, milligrams })
            .collect();
        let composed = Composed {
            multiplier,
            inputs,
            missing: Vec::new(),
            day,
        };
        let canner = candidate
            .canner
            .map(|index| house.canners[index].name.as_str())
            .unwrap_or_default();
        let jars: Vec<Jar> = jar
            .into_iter()
            .chain(recipe.jar_choices.first().copied())
            .take(1)
            .collect();
        let prepared = self.compose(
            facts,
            house,
            recipe,
            composed,
            &jars,
            canner,
            &Answers::default(),
        )?;
        match &prepared.verdict {
            Judged::Refusal(refusal) => Err(AppError::refused(
                format!("{}: {}", recipe.title, refusal.reason),
                format!("{} Make the plan anew.", refusal.instead),
            )),
            Judged::NoCanner => Err(AppError::refused(NO_CANNER, ENTER_A_CANNER)),
            _ => Ok(prepared),
        }
    }
}
