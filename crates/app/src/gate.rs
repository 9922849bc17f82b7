//! Questions to the gate, put together from the house, the recipe and the lots.

use crate::App;
use crate::balance;
use crate::error::AppError;
use crate::facts::{BatchFact, Facts, LotFact};
use crate::harvest::ClosedRecipe;
use crate::house::{Canner, House};
use crate::read::house::canner_facts;
use crate::request::Now;
use jiff::civil::Date;
use kitchen::history::{History, Question};
use kitchen::recipe::{Recipe, Route};
use quantity::Exact;
use reference::{AcidClass, Jar, Reference};
use safety::{
    AcidPortion, AcidUse, Answer, FoodKind, FoodState, HeatQuestion, KeepRoute, PermitRecord,
    RouteQuestion, RouteVerdict, VinegarFacts,
};
use std::collections::BTreeMap;

/// What the household answers beside the lots and the house.
#[derive(Debug, Clone, Default)]
pub struct Answers {
    /// Acid chosen for the jars, such as "bottled-lemon-juice"; empty: the first that is in the
    /// house, else the first printed.
    pub acid: String,
    /// Answers to the food's own questions.
    pub food: BTreeMap<String, String>,
}

/// The question for one recipe in one jar and one canner.
///
/// # Errors
/// A recipe without a food or pack, or a house whose elevation is not understood.
#[expect(
    clippy::too_many_arguments,
    reason = "each argument is one thing the gate must be told"
)]
pub fn question<'a>(
    reference: &Reference,
    house: &House,
    recipe: &Recipe,
    jar: Jar,
    canner: &Canner,
    histories: impl IntoIterator<Item = &'a History>,
    answers: &Answers,
    on: Date,
) -> Result<HeatQuestion, AppError> {
    let (Some(food), Some(pack)) = (recipe.food.as_deref(), recipe.pack) else {
        return Err(AppError::refused(
            format!("{} has no tested process.", recipe.title),
            "Freeze it or refrigerate it.",
        ));
    };
    let mut question =
        HeatQuestion::new(food, pack, jar, canner_facts(canner, "")?, &on.to_string());
    question.recipe.clone_from(&recipe.table_recipe);
    question.canner_holds_quart_jars = (canner.quarts > 0).then_some(canner.quarts);
    question.elevation = balance::elevation(house)?;
    question.acid = acid_use(house, recipe, answers);
    question.history = kitchen::history::produce_history(histories);
    question.metric_jars_setting = house.metric_jars;
    question.answers.clone_from(&answers.food);
    answer_what_has_one_answer(reference, &mut question);
    Ok(question)
}

/// Where a question of the food has one answer only, there is nothing to ask.
pub(crate) fn answer_what_has_one_answer(reference: &Reference, question: &mut HeatQuestion) {
    let rows = reference.questions_for(&question.food);
    for row in &rows {
        let choices = rows.iter().filter(|other| other.question == row.question);
        if choices.count() == 1 {
            question
                .answers
                .entry(row.question.clone())
                .or_insert_with(|| row.answer.clone());
        }
    }
}

/// What the lots of a batch have been through. The questions on vine and frost belong to
/// tomatoes: beside them, what nobody said of onions or peppers does not stand against the jar,
/// while a yes of any lot always does.
pub fn histories(facts: &Facts, lots: impl IntoIterator<Item = i64>) -> Vec<History> {
    let lots: Vec<&LotFact> = lots
        .into_iter()
        .filter_map(|id| facts.lots.get(&id))
        .collect();
    let tomato = |lot: &LotFact| kitchen::crop(&lot.crop).is_ok_and(|crop| crop.is_tomato_like());
    let with_tomatoes = lots.iter().any(|lot| tomato(lot));
    lots.into_iter()
        .map(|lot| {
            let mut history = lot.history.clone();
            if with_tomatoes && !tomato(lot) {
                for question in Question::ALL {
                    history.answers.entry(question).or_insert(Answer::No);
                    if history.answer(question) == Answer::Unknown {
                        history = history.with(question, Answer::No);
                    }
                }
            }
            history
        })
        .collect()
}

/// The acid that goes in: one listed acid, whole, where jars need one, and the recipe's vinegar by
/// the strength that its name in the pantry states.
fn acid_use(house: &House, recipe: &Recipe, answers: &Answers) -> Option<AcidUse> {
    let portions: Vec<AcidPortion> = chosen_acid(house, recipe, answers)
        .map(|acid| AcidPortion {
            acid,
            share: Exact::from_integer(1),
        })
        .into_iter()
        .collect();
    let vinegar = recipe
        .ingredients
        .iter()
        .find(|line| line.key.contains("vinegar"))
        .map(|line| VinegarFacts {
            label_percent: strength(house, &line.key),
            diluted_to_five: false,
        });
    (!portions.is_empty() || vinegar.is_some()).then_some(AcidUse { portions, vinegar })
}

/// The acid for the jars: the one asked for, else the first in the house, else the first printed.
pub fn chosen_acid(house: &House, recipe: &Recipe, answers: &Answers) -> Option<String> {
    let listed = || recipe.acid_choices.iter().map(|choice| choice.acid.clone());
    if !answers.acid.is_empty() {
        return listed().find(|acid| *acid == answers.acid);
    }
    listed()
        .find(|acid| house.ingredients.iter().any(|have| have.key == *acid))
        .or_else(|| listed().next())
}

/// Strength of the vinegar in percent as the pantry states it: under the recipe's own name, else
/// the weakest vinegar that is there; not known when no vinegar is there.
fn strength(house: &House, key: &str) -> Option<Exact> {
    let percent = |key: &str| {
        key.split('-')
            .find_map(|word| word.strip_suffix("pct"))
            .and_then(|number| number.parse::<i128>().ok())
            .map(Exact::from_integer)
    };
    let vinegars = || {
        house
            .ingredients
            .iter()
            .filter(|have| have.key.contains("vinegar"))
    };
    if let Some(own) = vinegars().find(|have| have.key == key) {
        return percent(&own.key);
    }
    // One bottle without a strength makes the strength unknown.
    vinegars()
        .map(|have| percent(&have.key))
        .collect::<Option<Vec<_>>>()?
        .into_iter()
        .min()
}

impl App {
    /// The verdict of a route without heat: freezer, dryer, crock, fridge, cold room, fresh, seed.
    pub(crate) fn judge_cool(&self, recipe: &Recipe, histories: &[History]) -> RouteVerdict {
        let route = match recipe.route {
            Route::Freezer => KeepRoute::Freezer,
            Route::Dryer => KeepRoute::Dryer,
            Route::Crock => KeepRoute::Crock,
            Route::Fridge => KeepRoute::Fridge,
            Route::ColdRoom => KeepRoute::ColdRoom,
            Route::Fresh | Route::Animals | Route::Compost | Route::Seed => KeepRoute::Fresh,
            Route::Heat => KeepRoute::Shelf,
        };
        let mut question =
            RouteQuestion::new(route, recipe.food.as_deref().unwrap_or(&recipe.title));
        question.recipe.clone_from(&recipe.table_recipe);
        question.kind = match recipe.acid_class {
            Some(AcidClass::Acid | AcidClass::Acidified | AcidClass::SugarPreserve) => {
                FoodKind::Acid
            }
            Some(AcidClass::LowAcid) => FoodKind::LowAcid,
            None => FoodKind::Unknown,
        };
        question.state = match recipe.route {
            Route::ColdRoom | Route::Fresh | Route::Seed | Route::Animals | Route::Compost => {
                FoodState::Whole
            }
            _ => FoodState::Prepared,
        };
        // The card of a dried food ends with the test for dryness; a batch is judged as what its
        // recipe makes when it is followed.
        if recipe.route == Route::Dryer {
            question.fully_dry = Answer::Yes;
        }
        question.under_oil = Answer::No;
        question.vacuum_packed = Answer::No;
        let mut verdict = safety::judge_route(self.reference, &question);
        if recipe.route == Route::Seed {
            format!("{}: kept for sowing, not for eating.", recipe.title)
                .clone_into(&mut verdict.reason);
            verdict.source.clone_from(&recipe.source);
        }
        let history = kitchen::history::produce_history(histories);
        if history.diseased == Answer::Yes
            && matches!(recipe.route, Route::Crock | Route::ColdRoom | Route::Seed)
        {
            verdict.allowed = false;
            "diseased".clone_into(&mut verdict.code);
            "Diseased produce does not keep and is not saved for seed."
                .clone_into(&mut verdict.reason);
            "Trim it, cook and eat what is sound today, and compost the rest."
                .clone_into(&mut verdict.instead);
        }
        verdict
    }

    /// The question of a batch that was permitted, with today's house and today's history of its
    /// lots; nothing when the house no longer has its canner.
    pub(crate) fn question_today(
        &self,
        facts: &Facts,
        house: &House,
        batch: &BatchFact,
        record: &PermitRecord,
        now: &Now,
    ) -> Result<Option<HeatQuestion>, AppError> {
        let canners = &house.canners;
        let Some(canner) = canners.iter().find(|one| one.name == batch.setup.canner) else {
            return Ok(None);
        };
        let acid = record.question.acid.as_ref();
        let answers = Answers {
            acid: acid
                .and_then(|acid| acid.portions.first())
                .map(|portion| portion.acid.clone())
                .unwrap_or_default(),
            food: record.question.answers.clone(),
        };
        let histories = histories(facts, batch.inputs.iter().map(|input| input.lot));
        question(
            self.reference,
            house,
            self.recipes.get(&batch.recipe)?,
            record.question.jar,
            canner,
            &histories,
            &answers,
            now.date,
        )
        .map(Some)
    }

    /// The verdict of a route without heat in words, or the recipe as closed.
    pub(crate) fn route_words(
        &self,
        recipe: &Recipe,
    ) -> Result<Result<String, ClosedRecipe>, AppError> {
        let verdict = self.judge_cool(recipe, &[]);
        Ok(if verdict.allowed {
            Ok(format!("{} ({})", verdict.reason, verdict.source))
        } else {
            Err(ClosedRecipe {
                title: recipe.title.clone(),
                reason: verdict.reason,
                instead: verdict.instead,
            })
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::house::Ingredient;

    #[test]
    fn vinegar_that_is_not_in_the_pantry_has_no_strength() {
        let mut house = House::default();
        assert_eq!(strength(&house, "vinegar-5pct"), None);
        house.ingredients.push(Ingredient {
            key: "vinegar-5pct".into(),
            amount: "4 cups".into(),
        });
        assert_eq!(
            strength(&house, "vinegar-5pct"),
            Some(Exact::from_integer(5))
        );
    }
}
