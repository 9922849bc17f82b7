//! A batch is put together: produce from the lots, the scaled card, the question to the gate.

use crate::error::AppError;
use crate::factor::own_card;
use crate::facts::{BatchSetup, Facts, LotFact, PlannedInput};
use crate::gate::{self, Answers};
use crate::house::House;
use crate::read::house::jars_per_load;
use crate::request::{NewBatch, Now};
use crate::{App, balance};
use jiff::civil::Date;
use kitchen::card::BatchCard;
use kitchen::history;
use kitchen::recipe::{Recipe, Route};
use quantity::{Exact, Mass};
use reference::Jar;
use safety::{PermitRecord, Refusal, RouteVerdict, Verdict};

/// A batch put together and judged, before anything is written.
#[derive(Debug, Clone)]
pub(crate) struct Prepared<'a> {
    pub recipe: &'a Recipe,
    /// How many times the recipe.
    pub multiplier: Exact,
    /// Jar, for heat.
    pub jar: Option<Jar>,
    /// Canner's index in the house.
    pub canner: Option<usize>,
    /// What comes from which lot.
    pub inputs: Vec<PlannedInput>,
    /// Produce that no lot covers: ingredient and weight.
    pub missing: Missing,
    /// The scaled card.
    pub card: BatchCard,
    /// The gate's answer.
    pub verdict: Judged,
    /// The day it is for.
    pub day: Date,
}

/// What a batch is made of, before the gate is asked.
#[derive(Debug, Clone)]
pub(crate) struct Composed {
    /// How many times the recipe.
    pub multiplier: Exact,
    /// What comes from which lot.
    pub inputs: Vec<PlannedInput>,
    /// Produce that no lot covers: ingredient and weight.
    pub missing: Missing,
    /// The day it is for.
    pub day: Date,
}

/// Produce that no lot covers: ingredient and weight.
type Missing = Vec<(String, Mass)>;

/// The gate's answer for any route.
#[derive(Debug, Clone)]
pub(crate) enum Judged {
    /// Leave to heat-process.
    Permit(Box<PermitRecord>),
    /// No.
    Refusal(Refusal),
    /// The verdict of a route without heat.
    Route(RouteVerdict),
    /// The house has no canner, so the gate was not asked: amounts, and no permit.
    NoCanner,
}

/// Why nothing is permitted in a house without a canner.
pub(crate) const NO_CANNER: &str = "The house has no canner, so nothing can be heat-processed.";
/// What to do about it.
pub(crate) const ENTER_A_CANNER: &str =
    "Enter the canner on the House page, or freeze the produce.";

impl Judged {
    /// The refusal as an error; nothing where the batch may be made.
    pub(crate) fn refused(&self) -> Option<AppError> {
        match self {
            Judged::Refusal(refusal) => Some(AppError::refused(
                refusal.reason.clone(),
                refusal.instead.clone(),
            )),
            Judged::NoCanner => Some(AppError::refused(NO_CANNER, ENTER_A_CANNER)),
            Judged::Permit(_) | Judged::Route(_) => None,
        }
    }
}

impl App {
    /// Puts a batch together and asks the gate; writes nothing.
    pub(crate) fn prepare<'a>(
        &'a self,
        facts: &Facts,
        house: &House,
        now: &Now,
        request: &NewBatch,
    ) -> Result<Prepared<'a>, AppError> {
        let recipe = self.recipes.get(request.recipe.trim())?;
        let day = match request.day.trim() {
            "" => now.date,
            text => text.parse().map_err(|_| {
                AppError::input(
                    "day",
                    format!("«{text}» is not a date."),
                    "Write it as 2026-08-27.",
                )
            })?,
        };
        let jars = jars_of(recipe, house, &request.jar)?;
        let multiplier = super::scaling::multiplier(recipe, request, jars.first().copied())?;
        let (inputs, missing) = self.inputs(facts, recipe, multiplier, &request.lots, now)?;
        let answers = Answers {
            acid: request.acid.trim().to_owned(),
            food: request.answers.clone(),
        };
        let composed = Composed {
            multiplier,
            inputs,
            missing,
            day,
        };
        self.compose(
            facts,
            house,
            recipe,
            composed,
            &jars,
            &request.canner,
            &answers,
        )
    }

    /// Asks the gate about what was composed, in the first of these jars that it permits, and
    /// scales the card for it. Where it permits none, the first refusal is the answer.
    ///
    /// # Errors
    /// A canner that the house does not have, or amounts too large to compute.
    #[expect(
        clippy::too_many_arguments,
        reason = "each argument is one thing the gate must be told"
    )]
    pub(crate) fn compose<'a>(
        &self,
        facts: &Facts,
        house: &House,
        recipe: &'a Recipe,
        composed: Composed,
        jars: &[Jar],
        canner: &str,
        answers: &Answers,
    ) -> Result<Prepared<'a>, AppError> {
        let histories = gate::histories(facts, composed.inputs.iter().map(|input| input.lot));
        let mut jar = jars.first().copied();
        let (verdict, canner) = if recipe.route == Route::Heat {
            let mut first = None;
            for choice in jars {
                let judged = self.judge(
                    house,
                    recipe,
                    *choice,
                    canner,
                    &histories,
                    answers,
                    composed.day,
                )?;
                if matches!(judged.0, Judged::Permit(_)) {
                    jar = Some(*choice);
                    first = Some(judged);
                    break;
                }
                first.get_or_insert(judged);
            }
            first.ok_or_else(|| {
                AppError::refused(
                    format!("{} has no tested jar.", recipe.title),
                    "Freeze it or refrigerate it.",
                )
            })?
        } else {
            (Judged::Route(self.judge_cool(recipe, &histories)), None)
        };
        let mut card = match (
            &verdict,
            own_card(facts, recipe, composed.multiplier, jar, None),
        ) {
            // A jar that the tables do not serve is refused by the gate; its card is shown all the
            // same, in the recipe's own jar, beside the refusal.
            (Judged::Refusal(_), Err(_)) => kitchen::scale::scale(
                recipe,
                composed.multiplier,
                recipe.jar_choices.first().copied(),
            )?,
            (_, card) => card?,
        };
        if let (Some(canner), Some(jar)) = (canner, jar) {
            let capacity = u32::try_from(jars_per_load(&house.canners[canner], jar)).unwrap_or(0);
            if capacity > 0 {
                card = card.with_canner(capacity)?;
            }
        }
        if let Judged::Permit(permit) = &verdict {
            card = card.with_headspace(permit.headspace_in.as_deref());
        }
        Ok(Prepared {
            recipe,
            multiplier: composed.multiplier,
            jar: jar.filter(|_| recipe.route == Route::Heat),
            canner,
            inputs: composed.inputs,
            missing: composed.missing,
            card,
            verdict,
            day: composed.day,
        })
    }

    /// The first canner that the gate permits, or the refusal that tells most.
    #[expect(
        clippy::too_many_arguments,
        reason = "each argument is one thing the gate must be told"
    )]
    fn judge(
        &self,
        house: &House,
        recipe: &Recipe,
        jar: Jar,
        named: &str,
        histories: &[history::History],
        answers: &Answers,
        day: Date,
    ) -> Result<(Judged, Option<usize>), AppError> {
        if !named.trim().is_empty()
            && !house
                .canners
                .iter()
                .any(|canner| canner.name == named.trim())
        {
            let names: Vec<&str> = house
                .canners
                .iter()
                .map(|canner| canner.name.as_str())
                .collect();
            return Err(AppError::input(
                "canner",
                format!("The house has no canner «{}».", named.trim()),
                format!("It has: {}.", names.join(", ")),
            ));
        }
        let mut refused = None;
        for (index, canner) in house.canners.iter().enumerate() {
            if !named.trim().is_empty() && canner.name != named.trim() {
                continue;
            }
            let question = gate::question(
                self.reference,
                house,
                recipe,
                jar,
                canner,
                histories,
                answers,
                day,
            )?;
            match safety::judge_heat(self.reference, &question) {
                Verdict::Permit(permit) => {
                    return Ok((Judged::Permit(Box::new(permit.record())), Some(index)));
                }
                Verdict::Refusal(refusal) => {
                    // A canner that suits the food at all tells more than one that never could.
                    let wrong_kind = refusal.code == "low-acid-needs-pressure"
                        || refusal.code == "method-not-listed";
                    if refused.is_none() || !wrong_kind {
                        refused = Some(refusal);
                    }
                }
            }
        }
        match refused {
            Some(refusal) => Ok((Judged::Refusal(refusal), None)),
            None => Ok((Judged::NoCanner, None)),
        }
    }

    /// What comes from which lot, and what no lot covers.
    fn inputs(
        &self,
        facts: &Facts,
        recipe: &Recipe,
        multiplier: Exact,
        named: &[i64],
        now: &Now,
    ) -> Result<(Vec<PlannedInput>, Missing), AppError> {
        for lot in named {
            facts.lot(*lot)?;
        }
        let mut free: Vec<(i64, i64)> = self
            .plan_lots(facts, now)?
            .into_iter()
            .filter(|lot| lot.ready_in <= 0 && lot.late_in >= 0)
            .filter(|lot| named.is_empty() || named.contains(&lot.id))
            .map(|lot| (lot.early_in, lot.id))
            .collect();
        free.sort_by_key(|(early, id)| (named.iter().position(|lot| lot == id), *early, *id));
        let mut left: Vec<(i64, i64)> = free
            .iter()
            .map(|(_, id)| (*id, facts.lots.get(id).map_or(0, |lot| lot.left)))
            .collect();
        let mut inputs: Vec<PlannedInput> = Vec::new();
        let mut missing = Vec::new();
        for used in &recipe.uses {
            let mut wanted = used.high.checked_mul(multiplier)?.milligrams()?;
            for (id, rest) in &mut left {
                let lot = facts.lot(*id)?;
                if wanted == 0 || *rest == 0 || !self.lot_fits(lot, used, recipe.route)? {
                    continue;
                }
                let taken = wanted.min(*rest);
                *rest -= taken;
                wanted -= taken;
                match inputs.iter_mut().find(|input| input.lot == *id) {
                    Some(input) => input.milligrams += taken,
                    None => inputs.push(PlannedInput {
                        lot: *id,
                        milligrams: taken,
                    }),
                }
            }
            // Less than a gram short is rounding between units.
            if wanted > 1000 {
                missing.push((used.ingredient.clone(), Mass::from_milligrams(wanted)));
            }
        }
        Ok((inputs, missing))
    }

    fn lot_fits(
        &self,
        lot: &LotFact,
        used: &kitchen::recipe::CropUse,
        route: Route,
    ) -> Result<bool, AppError> {
        Ok(used.takes_crop(&lot.crop)
            && (used.grades.is_empty() || used.grades.contains(&lot.grade))
            && !self
                .closed_routes(lot)?
                .iter()
                .any(|(closed, _)| closed == route.as_str()))
    }
}

/// Is this the ingredient that the batch is made of?
pub(super) fn is_main(recipe: &Recipe, ingredient: &str) -> bool {
    recipe
        .main_produce()
        .is_none_or(|main| main.key == ingredient)
}

/// The row to store.
pub(crate) fn new_row(
    prepared: &Prepared<'_>,
    house: &House,
    reason: &str,
    planned: bool,
) -> Result<store::NewBatch, AppError> {
    let json = |value: Result<String, serde_json::Error>| {
        value.map_err(|error| {
            AppError::failed(format!("The batch cannot be written down: {error}."), "")
        })
    };
    let setup = BatchSetup {
        units: quantity::exact_text::to_text(&prepared.multiplier),
        produce_milligrams: prepared.inputs.iter().map(|input| input.milligrams).sum(),
        canner: prepared
            .canner
            .map(|index| house.canners[index].name.clone())
            .unwrap_or_default(),
        reason: reason.to_owned(),
        planned,
    };
    if let Some(refused) = prepared.verdict.refused() {
        return Err(refused);
    }
    let (permit_record, route_verdict) = match &prepared.verdict {
        Judged::Permit(record) => (Some(json(serde_json::to_string(record))?), None),
        Judged::Route(verdict) => (None, Some(json(serde_json::to_string(verdict))?)),
        Judged::Refusal(_) | Judged::NoCanner => (None, None),
    };
    let container = match prepared.jar {
        Some(jar) => Some(jar.as_str().to_owned()),
        None => crate::size::unit(prepared.recipe, None, None)
            .ok()
            .map(|unit| unit.container)
            .filter(|container| balance::is_bag(container)),
    };
    Ok(store::NewBatch {
        recipe: prepared.recipe.key.clone(),
        batches: setup.units.clone(),
        for_day: prepared.day,
        jar: container,
        question: json(serde_json::to_string(&setup))?,
        permit_record,
        route_verdict,
        card: json(serde_json::to_string(&prepared.card))?,
        planned_inputs: json(serde_json::to_string(&prepared.inputs))?,
    })
}

/// The jar asked for, or the recipe's jars in the order they are tried: those that stand empty in
/// the house first. A recipe of another route that ends in jars needs one for its card.
fn jars_of(recipe: &Recipe, house: &House, asked: &str) -> Result<Vec<Jar>, AppError> {
    if !asked.trim().is_empty() && recipe.route == Route::Heat {
        let jar = asked.trim().parse::<Jar>().map_err(|error| {
            AppError::input("jar", error.to_string(), "Choose a jar from the list.")
        })?;
        return Ok(vec![jar]);
    }
    let mut jars = recipe.jar_choices.clone();
    jars.sort_by_key(|jar| {
        !house
            .jars
            .iter()
            .any(|have| have.jar == jar.as_str() && have.count > 0)
    });
    Ok(jars)
}
