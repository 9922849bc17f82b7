//! Routes without a canner: what the freezing, drying and seed tables say for them.

use quantity::{Exact, MassUnit, checked_div, checked_mul, show};
use reference::{Printed, Reference};

use super::book::yields;
use super::{Fact, Recipe, Route};

/// Adds times, yield and facts from the garden table line `crop|form`.
pub(super) fn add(reference: &Reference, garden: &str, recipe: &mut Recipe) -> Result<(), String> {
    let (crop, form) = garden
        .split_once('|')
        .ok_or(format!("`{garden}` is not crop|form"))?;
    match recipe.route {
        Route::Freezer => freezing(reference, crop, form, recipe),
        Route::Dryer => drying(reference, crop, form, recipe),
        Route::Seed => seed(reference, crop, recipe),
        _ => Err(format!("route {} has no garden table", recipe.route)),
    }
}

fn fact(recipe: &mut Recipe, text: String, source: &str) {
    recipe.facts.push(Fact {
        text,
        source: source.to_owned(),
    });
}

fn freezing(
    reference: &Reference,
    crop: &str,
    form: &str,
    recipe: &mut Recipe,
) -> Result<(), String> {
    let row = reference
        .freezing_for(crop)
        .into_iter()
        .find(|row| row.form == form)
        .ok_or(format!("no freezing line {crop}|{form}"))?;
    recipe.source = row.source.clone();
    recipe.headspace_in = row.headspace_in_pint.as_ref().map(Printed::high);
    if !row.preparation.is_empty() {
        fact(recipe, row.preparation.clone(), &row.source);
    }
    if let Some(blanch) = &row.blanch_minutes_water {
        recipe.times.blanch = Some(blanch.high());
        let text = format!(
            "blanch {blanch} minutes in boiling water, counted from the return of the boil"
        );
        fact(recipe, text, &row.source);
    }
    if let Some(steam) = &row.blanch_minutes_steam {
        fact(recipe, format!("or {steam} minutes in steam"), &row.source);
    }
    if let Some(months) = &row.months_best_0f {
        recipe.times.best_months = Some(months.low());
        let text = format!("best within {months} months at 0 F");
        fact(recipe, text, &row.source);
    }
    if let (Some(per_pint), Some(batch)) = (&row.lb_per_pint_frozen, recipe.batch_mass()) {
        let pounds = batch.in_unit(MassUnit::Pound);
        let pints = |lb: Exact| checked_div(pounds, lb).map_err(|error| error.to_string());
        recipe.yields = Some(yields(
            pints(per_pint.high())?,
            pints(per_pint.low())?,
            "pint-bag",
        )?);
    }
    Ok(())
}

fn drying(
    reference: &Reference,
    crop: &str,
    form: &str,
    recipe: &mut Recipe,
) -> Result<(), String> {
    let row = reference
        .drying_for(crop)
        .into_iter()
        .find(|row| row.pretreatment == form)
        .ok_or(format!("no drying line {crop}|{form}"))?;
    recipe.source = row.source.clone();
    let minutes = |hours: Exact| {
        checked_mul(hours, Exact::from_integer(60)).map_err(|error| error.to_string())
    };
    if let (Some(low), Some(high)) = (&row.hours_low, &row.hours_high) {
        recipe.times.dry = Some((minutes(low.low())?, minutes(high.high())?));
        let warmth = match &row.temperature_f {
            Some(degrees) => format!(" at {degrees} F"),
            None => String::new(),
        };
        fact(
            recipe,
            format!("dry {low} to {high} hours{warmth}"),
            &row.source,
        );
    }
    if let Some(ratio) = &row.fresh_lb_to_dried_lb {
        let text = format!(
            "{} lb fresh make about 1 lb dried",
            show::number(ratio.middle())
        );
        fact(recipe, text, &row.source);
    }
    if let Some(months) = &row.storage_months {
        recipe.times.best_months = Some(months.low());
        fact(
            recipe,
            format!("keeps {months} months, cool and dark"),
            &row.source,
        );
    }
    Ok(())
}

fn seed(reference: &Reference, crop: &str, recipe: &mut Recipe) -> Result<(), String> {
    let row = reference.seed(crop).ok_or(format!("no seed line {crop}"))?;
    recipe.source = row.source.clone();
    let days = row.fermentation_days.clone();
    if let Some(printed) = days.filter(|days| days.high() > Exact::from_integer(0)) {
        let day = Exact::from_integer(24 * 60);
        let minutes = |days: Exact| checked_mul(days, day).map_err(|error| error.to_string());
        recipe.times.ferment = Some((minutes(printed.low())?, minutes(printed.high())?));
        fact(
            recipe,
            format!("let it ferment {printed} days"),
            &row.source,
        );
    }
    Ok(())
}
