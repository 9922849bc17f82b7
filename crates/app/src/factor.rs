//! What the outcomes of a recipe teach: pounds of produce a quart, from the published figure on.

use crate::error::AppError;
use crate::facts::{BatchFact, Facts};
use crate::read::batch::outcome_of;
use crate::view::factor::{FactorBatch, FactorView};
use crate::{App, dates};
use forecast::{Estimate, Seen};
use kitchen::card::BatchCard;
use kitchen::jars::OwnRecord;
use kitchen::recipe::{Basis, FactorLine, Recipe};
use kitchen::scale::scale_with_own;
use quantity::{Exact, MassUnit, Volume, VolumeUnit, checked_mul, to_f64};
use reference::Jar;

/// Quarts of record that the published figure counts for: one printed load (our decision).
const PUBLISHED_QUARTS: f64 = 7.0;

/// A recipe's own factor, and the batches behind it.
pub(crate) struct OwnFactor {
    estimate: Estimate,
    batches: Vec<(i64, jiff::civil::Date, Seen, String)>,
}

impl OwnFactor {
    /// From the outcomes of a recipe that is reckoned by pounds; of batches set up before `before`
    /// only, so that what was expected of a batch stays what it was. None where the tables print
    /// no pounds a quart.
    pub(crate) fn of(facts: &Facts, recipe: &Recipe, before: Option<i64>) -> Option<OwnFactor> {
        if recipe.basis != Basis::Pounds || recipe.uses.len() != 1 {
            return None;
        }
        let published = recipe
            .factors
            .iter()
            .filter(|factor| matches!(factor.line, FactorLine::LoadOfQuarts | FactorLine::PerQuart))
            .map(|factor| factor.quarts_per_pound_high)
            .max()?;
        let batches: Vec<_> = facts
            .batches
            .values()
            .filter(|batch| {
                batch.recipe == recipe.key && before.is_none_or(|before| batch.id < before)
            })
            .filter_map(seen)
            .collect();
        let records: Vec<Seen> = batches.iter().map(|(_, _, seen, _)| seen.clone()).collect();
        let estimate =
            forecast::factor(1.0 / to_f64(published), PUBLISHED_QUARTS, &records).ok()?;
        Some(OwnFactor { estimate, batches })
    }

    /// Quarts a pound by the record, to a millionth, so that every reckoning takes the same figure;
    /// none before the first outcome.
    pub(crate) fn quarts_per_pound(&self) -> Option<Exact> {
        (!self.batches.is_empty()).then(|| exact(1.0 / self.estimate.value))
    }

    /// What the record says of so many batches of the recipe; none before the first outcome.
    ///
    /// # Errors
    /// Amounts too large to compute.
    pub(crate) fn record(
        &self,
        recipe: &Recipe,
        multiplier: Exact,
    ) -> Result<Option<OwnRecord>, AppError> {
        let (Some(rate), Some(batch)) = (self.quarts_per_pound(), recipe.batch_mass()) else {
            return Ok(None);
        };
        let pounds = checked_mul(batch.in_unit(MassUnit::Pound), multiplier)?;
        let Ok(foreseen) = self.estimate.foresee(to_f64(pounds)) else {
            return Ok(None);
        };
        let estimate = &self.estimate;
        let number = self.batches.len();
        Ok(Some(OwnRecord {
            likely: checked_mul(pounds, rate)?,
            low: exact(foreseen.low),
            high: exact(foreseen.high),
            words: format!(
                "{number} {} of your own: reckoned at {:.3} lb a quart, {:.2} to {:.2} in four \
                 cases of five",
                if number == 1 { "batch" } else { "batches" },
                estimate.value,
                estimate.low,
                estimate.high
            ),
        }))
    }
}

/// A figure of the record as an exact number, to a millionth.
fn exact(value: f64) -> Exact {
    // Casting saturates; a record of such size was refused where it was entered.
    Exact::new((value * 1e6).round() as i128, 1_000_000)
}

/// Pounds and quarts of one batch; none before its outcome, or where nothing came out in jars.
fn seen(batch: &BatchFact) -> Option<(i64, jiff::civil::Date, Seen, String)> {
    let record = outcome_of(batch)?;
    let on = batch.last("outcome")?.on;
    let mut filled = Volume::from_microlitres(record.partial_microlitres);
    for (key, count) in &record.containers {
        let jars = key
            .parse::<Jar>()
            .ok()?
            .volume()
            .checked_mul(quantity::whole(*count))
            .ok()?;
        filled = filled.checked_add(jars).ok()?;
    }
    let produce: i64 = batch.inputs.iter().map(|input| input.milligrams).sum();
    let pounds = quantity::Mass::from_milligrams(produce).in_unit(MassUnit::Pound);
    let seen = Seen {
        used: to_f64(pounds),
        made: to_f64(filled.in_unit(VolumeUnit::Quart)),
    };
    (seen.used > 0.0 && seen.made > 0.0).then_some((batch.id, on, seen, record.note))
}

impl App {
    /// What the outcomes of a recipe teach.
    ///
    /// # Errors
    /// An unknown recipe, or one that is not reckoned by pounds a quart.
    pub fn factor(&self, recipe: &str) -> Result<FactorView, AppError> {
        let recipe = self.recipes.get(recipe.trim())?;
        let Some(own) = OwnFactor::of(&self.facts()?, recipe, None) else {
            return Err(AppError::input(
                "recipe",
                format!("The tables print no pounds a quart for {}.", recipe.title),
                "Ask for one that is reckoned by the weight of its produce, such as tomato-juice.",
            ));
        };
        let estimate = &own.estimate;
        let number = own.batches.len();
        let words = match (estimate.plain, estimate.spread) {
            (Some(plain), Some((least, most))) => format!(
                "Reckoned at {:.3} lb a quart ({:.2} to {:.2} in four cases of five); plainly \
                 {plain:.3} over {number} {}, from {least:.2} to {most:.2}; the book says {:.2}.",
                estimate.value,
                estimate.low,
                estimate.high,
                if number == 1 { "batch" } else { "batches" },
                estimate.published
            ),
            _ => format!(
                "Reckoned at {:.2} lb a quart as the book says; no outcome yet.",
                estimate.published
            ),
        };
        Ok(FactorView {
            recipe: recipe.key.clone(),
            title: recipe.title.clone(),
            words,
            published: estimate.published,
            value: estimate.value,
            low: estimate.low,
            high: estimate.high,
            plain: estimate.plain,
            spread: estimate.spread,
            batches: own
                .batches
                .iter()
                .map(|(id, on, seen, note)| FactorBatch {
                    id: *id,
                    day: dates::day(*on),
                    pounds: seen.used,
                    quarts: seen.made,
                    ratio: seen.used / seen.made,
                    unusual: estimate.is_unusual(seen),
                    note: note.clone(),
                })
                .collect(),
        })
    }
}

/// A recipe scaled with what the record says of it.
///
/// # Errors
/// Those of scaling.
pub(crate) fn own_card(
    facts: &Facts,
    recipe: &Recipe,
    multiplier: Exact,
    jar: Option<Jar>,
    before: Option<i64>,
) -> Result<BatchCard, AppError> {
    let own = match OwnFactor::of(facts, recipe, before) {
        Some(own) => own.record(recipe, multiplier)?,
        None => None,
    };
    Ok(scale_with_own(recipe, multiplier, jar, own.as_ref())?)
}
