//! The steps of one batch on a kitchen day.

use quantity::{Exact, Mass, MassUnit, QuantityError, ceil, checked_add, checked_mul};
use serde::{Deserialize, Serialize};

use super::occurrence::Shares;
use super::{
    CannerKind, HoldTemplate, Loads, ResourceKind, Routine, Scope, StepTemplate, Stretch,
    WaitTemplate,
};
use crate::error::KitchenError;
use crate::recipe::Recipe;

/// How fast this household works beside the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct HouseRates {
    /// Share of the table's minutes by weight and by jar: 1 as listed, 3/2 for half as long again.
    pub pace: Exact,
}

impl Default for HouseRates {
    fn default() -> Self {
        Self {
            pace: Exact::from_integer(1),
        }
    }
}

/// The canner of a batch.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CannerUse {
    /// What kind it is.
    pub kind: CannerKind,
    /// Minutes of the permit.
    pub process_minutes: u32,
    /// Jars of the batch's size it holds.
    pub capacity: u32,
}

/// What is asked about a batch.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct DayQuestion {
    /// Whole batches cooked; counts only for recipes cooked batch by batch.
    pub batches: u32,
    /// Produce as picked, all batches together.
    pub produce: Mass,
    /// Jars to fill; 0 for routes without jars.
    pub jars: u32,
    /// The canner; none for routes without one.
    pub canner: Option<CannerUse>,
    /// Pace of the house.
    pub rates: HouseRates,
    /// The work up to the last stop point (soaking, straining) was done on an earlier day.
    pub after_rest: bool,
}

/// One step, ready for a timetable.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct StepSpec {
    /// Key of the step in its table.
    pub key: String,
    /// "put through the mill", with "load 2 of 3" where there are several.
    pub title: String,
    /// What to do.
    pub text: String,
    /// Minutes a timetable reckons with (the longer end where the table prints a range).
    pub minutes: i64,
    /// The shorter end.
    pub minutes_low: i64,
    /// Whether somebody has to be there.
    pub attended: bool,
    /// Pairs of hands.
    pub hands: u8,
    /// What it uses from start to end.
    pub uses: Vec<ResourceKind>,
    /// Canner load it belongs to, from 1; none for the others.
    pub load: Option<u32>,
    /// Whether the work may rest until another day afterwards.
    pub stop_point: bool,
    /// Where the minutes come from.
    pub source: String,
}

/// Least and most minutes from the start of one step to the start of another.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct LagSpec {
    /// Index of the earlier step.
    pub from: usize,
    /// Index of the later step.
    pub to: usize,
    /// Least minutes from start to start.
    pub min: i64,
    /// Most minutes from start to start.
    pub max: Option<i64>,
    /// Whether `max` may never be passed.
    pub max_is_safety: bool,
    /// Points for each minute beyond a `max` that may be passed.
    pub points_per_minute_over: i64,
    /// Where it comes from, and why.
    pub source: String,
}

/// A resource kept from the start of one step to the end of another.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct HoldSpec {
    /// What is kept.
    pub resource: ResourceKind,
    /// How many.
    pub amount: u8,
    /// Kept from the start of this step.
    pub from_step: usize,
    /// To the end of this one.
    pub to_step: usize,
}

/// Steps, lags and holds of one batch.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct DaySteps {
    /// Steps.
    pub steps: Vec<StepSpec>,
    /// Order and waits.
    pub lags: Vec<LagSpec>,
    /// What is kept between steps.
    pub holds: Vec<HoldSpec>,
}

/// The steps of a batch as plain data. A canner's steps are added when a canner with its permit
/// is given. Error: amounts too large to compute.
pub fn steps_for(recipe: &Recipe, question: &DayQuestion) -> Result<DaySteps, KitchenError> {
    let canner = question.canner.filter(|_| question.jars > 0);
    let batches = if recipe.may_multiply {
        1
    } else {
        question.batches
    };
    let jars = canner.map_or(0, |_| question.jars);
    let mut work = Work {
        recipe,
        question,
        // Without a canner there are no loads, and jars are still filled batch by batch.
        shares: Shares::new(
            batches,
            question.jars,
            canner.map_or(u32::MAX, |c| c.capacity),
        ),
        placed: Vec::new(),
        day: DaySteps::default(),
    };
    if jars == 0 {
        work.shares.loads.clear();
    }
    let start = if question.after_rest {
        first_after_rest(&recipe.routine)
    } else {
        0
    };
    for step in recipe.routine.steps.iter().skip(start) {
        work.place(step)?;
    }
    let canner_routine = canner.map(|canner| recipe.canners.of(canner.kind));
    for step in canner_routine.iter().flat_map(|routine| &routine.steps) {
        work.place(step)?;
    }
    let routines = [Some(&*recipe.routine), canner_routine];
    for routine in routines.into_iter().flatten() {
        for step in &routine.steps {
            work.order(step);
        }
        for hold in &routine.holds {
            work.hold(hold);
        }
        for wait in &routine.waits {
            work.wait(wait);
        }
    }
    Ok(work.day)
}

/// The step after the last stop point that other work follows.
fn first_after_rest(routine: &Routine) -> usize {
    let last = routine.steps.len().saturating_sub(1);
    routine
        .steps
        .iter()
        .take(last)
        .rposition(|step| step.stop_point)
        .map_or(0, |at| at + 1)
}

struct Work<'a> {
    recipe: &'a Recipe,
    question: &'a DayQuestion,
    shares: Shares,
    /// Key, scope and index of the first occurrence of each step placed.
    placed: Vec<(&'a StepTemplate, usize)>,
    day: DaySteps,
}

impl<'a> Work<'a> {
    /// Adds every occurrence of a step.
    fn place(&mut self, step: &'a StepTemplate) -> Result<(), KitchenError> {
        let many = self.shares.count(step.scope);
        if many == 0 {
            return Ok(());
        }
        self.placed.push((step, self.day.steps.len()));
        for at in 0..many {
            let high = self.minutes(step, step.fixed, at)?;
            let low = self.minutes(step, step.fixed_low, at)?;
            let word = match step.scope {
                Scope::Each => "batch",
                _ => "load",
            };
            let title = if many > 1 {
                format!("{}, {word} {} of {many}", step.title, at + 1)
            } else {
                step.title.clone()
            };
            let is_load = matches!(step.scope, Scope::Load | Scope::FirstLoad)
                && !self.shares.loads.is_empty();
            self.day.steps.push(StepSpec {
                key: step.key.clone(),
                title,
                text: step.text.clone(),
                minutes: high,
                minutes_low: low.min(high),
                attended: step.attended,
                hands: step.hands,
                uses: step.uses.clone(),
                load: is_load.then(|| u32::try_from(at + 1).unwrap_or(u32::MAX)),
                stop_point: step.stop_point,
                source: step.source.clone(),
            });
        }
        Ok(())
    }

    /// Whole minutes of one occurrence, rounded up.
    fn minutes(&self, step: &StepTemplate, fixed: Stretch, at: usize) -> Result<i64, KitchenError> {
        let batches = self.shares.batches.len();
        let mut kilograms = self.question.produce.in_unit(MassUnit::Kilogram);
        if step.scope == Scope::Each {
            let batches = Exact::from_integer(i128::try_from(batches).unwrap_or(1));
            kilograms = quantity::checked_div(kilograms, batches)?;
        }
        let jars = Exact::from_integer(i128::from(self.shares.jars(step.scope, at)));
        let by_weight = checked_mul(step.per_kg, kilograms)?;
        let by_jar = checked_mul(step.per_jar, jars)?;
        let handwork = checked_mul(checked_add(by_weight, by_jar)?, self.question.rates.pace)?;
        let mut total = checked_add(self.stretch(fixed), handwork)?;
        if let Some(per_lot) = step.per_lot
            && step.lot_kg > Exact::from_integer(0)
        {
            let lots = ceil(quantity::checked_div(kilograms, step.lot_kg)?);
            // One minute for the boil to come back before the count starts.
            let one = checked_add(self.stretch(per_lot), Exact::from_integer(1))?;
            total = checked_add(total, checked_mul(one, Exact::from_integer(lots))?)?;
        }
        i64::try_from(ceil(total)).map_err(|_| QuantityError::Overflow.into())
    }

    fn stretch(&self, stretch: Stretch) -> Exact {
        let none = Exact::from_integer(0);
        let times = &self.recipe.times;
        match stretch {
            Stretch::Minutes(minutes) => minutes,
            Stretch::Process => self.question.canner.map_or(none, |canner| {
                Exact::from_integer(i128::from(canner.process_minutes))
            }),
            Stretch::Blanch => times.blanch.unwrap_or(none),
            Stretch::DryLow => times.dry.map_or(none, |(low, _)| low),
            Stretch::DryHigh => times.dry.map_or(none, |(_, high)| high),
            Stretch::FermentLow => times.ferment.map_or(none, |(low, _)| low),
            Stretch::FermentHigh => times.ferment.map_or(none, |(_, high)| high),
        }
    }

    fn find(&self, key: &str) -> Option<(Scope, usize)> {
        self.placed
            .iter()
            .find(|(step, _)| step.key == key)
            .map(|(step, first)| (step.scope, *first))
    }

    fn minutes_of(&self, step: usize) -> i64 {
        self.day.steps.get(step).map_or(0, |step| step.minutes)
    }

    /// Every step that must have ended before this one.
    fn order(&mut self, step: &StepTemplate) {
        let Some((scope, first)) = self.find(&step.key) else {
            return;
        };
        for key in &step.after {
            let Some((from_scope, from_first)) = self.find(key) else {
                continue;
            };
            for (a, b) in self.shares.pairs(from_scope, scope) {
                let from = from_first + a;
                let min = self.minutes_of(from);
                self.day.lags.push(LagSpec {
                    from,
                    to: first + b,
                    min,
                    max: step.tight.then_some(min),
                    max_is_safety: step.tight,
                    points_per_minute_over: 0,
                    source: step.source.clone(),
                });
            }
        }
    }

    fn wait(&mut self, wait: &WaitTemplate) {
        let (Some((from_scope, from_first)), Some((to_scope, to_first))) =
            (self.find(&wait.from_step), self.find(&wait.to_step))
        else {
            return;
        };
        for (a, b) in self.shares.pairs(from_scope, to_scope) {
            // One pot feeds several loads: only the first of them follows it at once.
            if from_scope == Scope::Batch && b > 0 {
                continue;
            }
            let from = from_first + a;
            let min = self.minutes_of(from);
            self.day.lags.push(LagSpec {
                from,
                to: to_first + b,
                min,
                max: Some(min.saturating_add(wait.most)),
                max_is_safety: wait.safety,
                points_per_minute_over: wait.points_per_minute,
                source: format!("{} {}", wait.why, wait.source),
            });
        }
    }

    fn hold(&mut self, hold: &HoldTemplate) {
        let Some((to_scope, to_first)) = self.find(&hold.to_step) else {
            return;
        };
        let (from_scope, from_first) = match self.find(&hold.from_step) {
            Some(found) => found,
            // The pot was filled on an earlier day: it is kept from the first step of this one.
            None if self.question.after_rest && hold.loads == Loads::All => (Scope::Batch, 0),
            None => return,
        };
        let last = self.shares.count(to_scope).saturating_sub(1);
        let spans: Vec<(usize, usize)> = match hold.loads {
            Loads::All => vec![(0, last)],
            Loads::First => vec![(0, 0)],
            Loads::Later => (1..self.shares.count(from_scope))
                .map(|at| (at, at))
                .collect(),
        };
        for (from, to) in spans {
            self.day.holds.push(HoldSpec {
                resource: hold.resource,
                amount: hold.amount,
                from_step: from_first + from,
                to_step: to_first + to,
            });
        }
    }
}
