//! What each fresh lot may become: every offered recipe whose produce is there, asked of the gate
//! with the house's own jars, canners and elevation.

use super::{Candidate, CandidateInput, ClosedRecipe, FreshLot};
use crate::error::AppError;
use crate::factor::OwnFactor;
use crate::facts::Facts;
use crate::gate::{self, Answers};
use crate::house::House;
use crate::read::house::jars_per_load;
use crate::request::Now;
use crate::{App, balance, day, size};
use kitchen::recipe::{Recipe, Route};
use quantity::Mass;
use reference::Jar;

/// Points for a kilogram that the household eats fresh instead of losing it, and for one that the
/// animals get (our own choice: food eaten is worth its price, fed a third of it). Lost food costs
/// its whole price elsewhere, so animals count as saved at two thirds off.
const FRESH_POINTS_PER_KG: i64 = 110;
const ANIMALS_POINTS_PER_KG: i64 = -150;

/// Grams of one portion eaten fresh, and of one given to animals.
const FRESH_GRAMS: i64 = 250;
const ANIMAL_GRAMS: i64 = 250;

/// Minutes that a portion eaten fresh, or fed, takes beyond the daily cooking: none; the
/// household cooks and feeds anyway.
const NO_MINUTES: i64 = 0;

/// Portions of one lot that animals take a day, a little beside their own feed (common practice,
/// no source).
const ANIMAL_PORTIONS_A_DAY: i64 = 8;

/// Portions of one lot that the table takes a day, so that supper is not all beans (our own
/// choice).
const FRESH_PORTIONS_A_DAY: i64 = 4;

/// Most units of one recipe a day that a plan proposes (our own choice: two full loads of jars).
const MOST_JARS_A_DAY: i64 = 21;
const MOST_BATCHES_A_DAY: i64 = 4;

impl App {
    /// Candidates for these lots, and the recipes that are closed with the reason.
    pub(crate) fn candidates(
        &self,
        facts: &Facts,
        house: &House,
        lots: &[FreshLot],
        days: i64,
        now: &Now,
    ) -> Result<(Vec<Candidate>, Vec<ClosedRecipe>), AppError> {
        let mut candidates = Vec::new();
        let mut closed = Vec::new();
        for recipe in self
            .recipes
            .all()
            .iter()
            .filter(|recipe| recipe.offered && !recipe.uses.is_empty())
        {
            let inputs = inputs_for(recipe, lots);
            if !main_is_there(recipe, &inputs) {
                continue;
            }
            match recipe.route {
                Route::Fresh
                | Route::Fridge
                | Route::Animals
                | Route::Compost
                | Route::ColdRoom => {}
                Route::Heat => match self.heat_candidate(facts, house, recipe, &inputs, now)? {
                    Ok(candidate) => candidates.push(candidate),
                    Err(reason) => closed.push(reason),
                },
                _ => {
                    if let Some(candidate) = self.cool_candidate(house, recipe, &inputs)? {
                        candidates.push(candidate);
                    }
                }
            }
        }
        candidates.extend(self.table_candidates(house, lots, days)?);
        Ok((candidates, closed))
    }

    /// The best heat candidate of a recipe: the first jar of its choices that the house has, in
    /// the first canner that the gate permits.
    fn heat_candidate(
        &self,
        facts: &Facts,
        house: &House,
        recipe: &Recipe,
        inputs: &[Vec<i64>],
        now: &Now,
    ) -> Result<Result<Candidate, ClosedRecipe>, AppError> {
        let own = OwnFactor::of(facts, recipe, None).and_then(|own| own.quarts_per_pound());
        let histories = gate::histories(facts, inputs.iter().flatten().copied());
        let wanted: Vec<&str> = house
            .needs
            .iter()
            .filter(|need| need.product == recipe.key)
            .map(|need| need.unit.as_str())
            .collect();
        let mut jars: Vec<Jar> = recipe.jar_choices.clone();
        jars.sort_by_key(|jar| !wanted.contains(&jar.as_str()));
        let mut refused = None;
        for jar in jars {
            if !house
                .jars
                .iter()
                .any(|have| have.jar == jar.as_str() && have.count > 0)
            {
                continue;
            }
            for (index, canner) in house.canners.iter().enumerate() {
                let per_load = jars_per_load(canner, jar);
                if per_load == 0 {
                    continue;
                }
                let question = gate::question(
                    self.reference,
                    house,
                    recipe,
                    jar,
                    canner,
                    &histories,
                    &Answers::default(),
                    now.date,
                )?;
                match safety::judge_heat(self.reference, &question) {
                    safety::Verdict::Refusal(refusal) => {
                        // The refusal of the canner that suits best tells most: the first is kept.
                        refused.get_or_insert(refusal);
                    }
                    safety::Verdict::Permit(permit) => {
                        let record = permit.record();
                        let unit = size::unit(recipe, Some(jar), own)?;
                        let acid = gate::chosen_acid(house, recipe, &Answers::default());
                        let produce = size::produce(recipe, &unit, 1)?;
                        let most = if unit.containers == 1 {
                            MOST_JARS_A_DAY
                        } else {
                            MOST_BATCHES_A_DAY
                        };
                        let (setup_minutes, unit_minutes) = self.minutes(
                            recipe,
                            &unit,
                            most,
                            Some((canner, record.chosen.minutes)),
                        )?;
                        return Ok(Ok(Candidate {
                            key: recipe.key.clone(),
                            title: recipe.title.clone(),
                            route: recipe.route.as_str().to_owned(),
                            container: unit.container.clone(),
                            containers_per_unit: unit.containers,
                            unit: unit.word.clone(),
                            inputs: candidate_inputs(inputs, &produce),
                            min_units: 1,
                            max_units: most,
                            setup_minutes,
                            unit_minutes,
                            canner: Some(index),
                            units_per_load: (per_load / unit.containers.max(1)).max(1),
                            ingredients: size::ingredients(recipe, &unit, acid.as_deref())?,
                            freezer_ml: 0,
                            trays: 0,
                            unit_points: 0,
                            verdict: crate::read::batch::permit_words(&record),
                            only_day: None,
                            first_day: self.first_day(recipe, &unit)?,
                        }));
                    }
                }
            }
        }
        Ok(Err(match refused {
            Some(refusal) => ClosedRecipe {
                title: recipe.title.clone(),
                reason: refusal.reason,
                instead: refusal.instead,
            },
            None => ClosedRecipe {
                title: recipe.title.clone(),
                reason: if house.canners.is_empty() {
                    "The house has no canner.".to_owned()
                } else {
                    "No empty jar of a size that this recipe takes.".to_owned()
                },
                instead: "Enter it on the House page, or freeze the produce.".to_owned(),
            },
        }))
    }

    /// Freezer, dryer, crock, fridge or seed.
    fn cool_candidate(
        &self,
        house: &House,
        recipe: &Recipe,
        inputs: &[Vec<i64>],
    ) -> Result<Option<Candidate>, AppError> {
        // Seed takes pounds of the best fruit; nobody makes it of a glut unasked.
        let asked = house.needs.iter().any(|need| need.product == recipe.key);
        if recipe.route == Route::Seed && !asked {
            return Ok(None);
        }
        let unit = size::unit(recipe, None, None)?;
        let bag = balance::is_bag(&unit.container);
        if recipe.route == Route::Freezer && house.freezer.is_none()
            || recipe.route == Route::Dryer && house.dryer_trays == 0
        {
            return Ok(None);
        }
        let verdict = self.route_words(recipe)?;
        let Ok(verdict) = verdict else {
            return Ok(None);
        };
        let produce = size::produce(recipe, &unit, 1)?;
        let most = if unit.containers == 1 {
            MOST_JARS_A_DAY
        } else {
            MOST_BATCHES_A_DAY
        };
        let (setup_minutes, unit_minutes) = self.minutes(recipe, &unit, most, None)?;
        Ok(Some(Candidate {
            key: recipe.key.clone(),
            title: recipe.title.clone(),
            route: recipe.route.as_str().to_owned(),
            container: if bag {
                unit.container.clone()
            } else {
                String::new()
            },
            containers_per_unit: if bag { unit.containers } else { 0 },
            unit: if recipe.route == Route::Dryer {
                "tray".to_owned()
            } else {
                unit.word.clone()
            },
            inputs: candidate_inputs(inputs, &produce),
            min_units: 1,
            max_units: if recipe.route == Route::Dryer {
                i64::from(house.dryer_trays)
            } else {
                most
            },
            setup_minutes,
            unit_minutes,
            canner: None,
            units_per_load: 1,
            ingredients: size::ingredients(recipe, &unit, None)?,
            freezer_ml: if bag {
                balance::bag_room_ml(&unit.container) * unit.containers
            } else {
                0
            },
            trays: i64::from(recipe.route == Route::Dryer),
            unit_points: 0,
            verdict,
            only_day: None,
            first_day: 0,
        }))
    }

    /// Eaten fresh, day by day because the table takes only so much a day, and given to animals.
    fn table_candidates(
        &self,
        house: &House,
        lots: &[FreshLot],
        days: i64,
    ) -> Result<Vec<Candidate>, AppError> {
        let mut all = Vec::new();
        for lot in lots {
            let name = lot
                .title
                .split(':')
                .next()
                .unwrap_or(&lot.title)
                .to_lowercase();
            let portion = |key: String,
                           title: String,
                           route: &str,
                           grams: i64,
                           most: i64,
                           points: i64,
                           verdict: String| Candidate {
                key,
                title,
                route: route.to_owned(),
                container: String::new(),
                containers_per_unit: 0,
                unit: "portion".to_owned(),
                inputs: vec![CandidateInput {
                    lots: vec![lot.id],
                    grams,
                }],
                min_units: 1,
                max_units: most,
                setup_minutes: NO_MINUTES,
                unit_minutes: NO_MINUTES,
                canner: None,
                units_per_load: 1,
                ingredients: Vec::new(),
                freezer_ml: 0,
                trays: 0,
                unit_points: points,
                verdict,
                only_day: None,
                first_day: 0,
            };
            if !lot.closed_routes.iter().any(|route| route == "fresh") {
                let last = lot.early_in.max(0).min(days - 1);
                for day in lot.ready_in.clamp(0, last)..=last {
                    let mut eaten = portion(
                        format!("eat:{}:{day}", lot.id),
                        format!("Eaten fresh: {name}"),
                        "fresh",
                        FRESH_GRAMS,
                        FRESH_PORTIONS_A_DAY,
                        FRESH_POINTS_PER_KG * FRESH_GRAMS / 1000,
                        "wash, trim, eat".to_owned(),
                    );
                    eaten.only_day = Some(day);
                    all.push(eaten);
                }
            }
            let Some(animal) = house.animals.first() else {
                continue;
            };
            if lot.closed_routes.iter().any(|route| route == "animals") {
                continue;
            }
            let part = kitchen::grade(&lot.crop, &lot.grade)?.feeding_part.clone();
            let answer = kitchen::feeding::feeding(&lot.crop, &part, animal).map_err(|error| {
                AppError::input("animals", error.to_string(), "See the House page.")
            })?;
            if answer.may_feed() {
                all.push(portion(
                    format!("animals:{}", lot.id),
                    format!("To the {animal}: {name}"),
                    "animals",
                    ANIMAL_GRAMS,
                    ANIMAL_PORTIONS_A_DAY,
                    ANIMALS_POINTS_PER_KG * ANIMAL_GRAMS / 1000,
                    format!("{} ({})", answer.reason, answer.source),
                ));
            }
        }
        Ok(all)
    }

    /// The first day of a plan on which a recipe can be finished.
    fn first_day(&self, recipe: &Recipe, unit: &size::Unit) -> Result<i64, AppError> {
        let steps = size::steps(recipe, unit, 1, Mass::ZERO, None)?;
        Ok(i64::from(day::rest::begins_the_day_before(
            &steps,
            recipe.route,
        )))
    }

    /// Attended minutes once a day and per unit, from the steps of one unit and of many.
    fn minutes(
        &self,
        recipe: &Recipe,
        unit: &size::Unit,
        many: i64,
        canner: Option<(&crate::house::Canner, u32)>,
    ) -> Result<(i64, i64), AppError> {
        let attended = |units: i64| -> Result<i64, AppError> {
            let produce = size::produce(recipe, unit, units)?;
            let mass = Mass::sum(produce.into_iter().map(|(_, mass)| mass))?;
            Ok(size::attended_minutes(&size::steps(
                recipe, unit, units, mass, canner,
            )?))
        };
        let one = attended(1)?;
        let all = attended(many)?;
        // Rounded up, so that a full day is never promised more than it can hold.
        let per_unit = rounded_up((all - one).max(0), (many - 1).max(1));
        Ok(((one - per_unit).max(0), per_unit))
    }
}

/// For each produce ingredient the lots that may feed it.
fn inputs_for(recipe: &Recipe, lots: &[FreshLot]) -> Vec<Vec<i64>> {
    let route = recipe.route.as_str();
    recipe
        .uses
        .iter()
        .map(|used| {
            lots.iter()
                .filter(|lot| {
                    used.takes_crop(&lot.crop)
                        && (used.grades.is_empty() || used.grades.contains(&lot.grade))
                        && !lot.closed_routes.iter().any(|closed| closed == route)
                })
                .map(|lot| lot.id)
                .collect()
        })
        .collect()
}

/// Is there a lot for the main produce? What else the recipe takes may be bought.
pub(crate) fn main_is_there(recipe: &Recipe, inputs: &[Vec<i64>]) -> bool {
    let main = recipe.main_produce().map(|line| line.key.as_str());
    recipe
        .uses
        .iter()
        .zip(inputs)
        .filter(|(used, _)| main.is_none_or(|main| main == used.ingredient))
        .any(|(_, lots)| !lots.is_empty())
}

fn candidate_inputs(inputs: &[Vec<i64>], produce: &[(usize, Mass)]) -> Vec<CandidateInput> {
    produce
        .iter()
        .filter(|(index, _)| !inputs[*index].is_empty())
        .map(|(index, mass)| CandidateInput {
            lots: inputs[*index].clone(),
            grams: mass.grams_rounded().max(1),
        })
        .collect()
}

/// A share rounded up; both numbers are above or at zero, the second above.
fn rounded_up(number: i64, parts: i64) -> i64 {
    number / parts + i64::from(number % parts != 0)
}
