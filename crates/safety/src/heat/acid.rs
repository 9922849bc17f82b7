//! Rules about acid: one listed acid, whole, in each jar; vinegar of known strength.

use super::{Case, Draft};
use crate::codes::{
    ACID_NOT_CHOSEN, ACID_NOT_LISTED, ACID_NOT_WHOLE, VINEGAR_STRENGTH_UNKNOWN, VINEGAR_TOO_STRONG,
    VINEGAR_TOO_WEAK,
};
use crate::numbers::{house_rule, limit, limit_source};
use crate::permit::AcidLine;
use crate::question::AcidPortion;
use crate::refusal::Refusal;
use quantity::{show, whole};
use reference::{AcidClass, RecipeRow};

/// Acid lines of the recipes in question (the named one, or all of the food).
fn recipe_acids<'a>(case: &Case<'a>) -> Vec<&'a RecipeRow> {
    let named = case.question.recipe.as_deref();
    case.reference
        .recipes_for_food(&case.food.food)
        .into_iter()
        .filter(|sheet| named.is_none_or(|key| sheet.key == key))
        .flat_map(|sheet| &sheet.rows)
        .filter(|row| row.role == "acid")
        .collect()
}

/// The acids the publication lists for this food, by their names in the tables.
fn listed(case: &Case<'_>) -> Vec<String> {
    let per_jar = case.reference.acid_for(&case.food.food);
    let mut names: Vec<String> = if per_jar.is_empty() {
        recipe_acids(case)
            .iter()
            .map(|row| row.ingredient.clone())
            .collect()
    } else {
        per_jar.iter().map(|row| row.acid.clone()).collect()
    };
    names.sort();
    names.dedup();
    // A line that offers two juices is met by either.
    if names
        .iter()
        .any(|name| name == "bottled-lemon-or-lime-juice")
    {
        names.push("bottled-lemon-juice".to_owned());
        names.push("bottled-lime-juice".to_owned());
    }
    names
}

/// The acid must be chosen where each jar needs one, be listed, and be whole.
pub(super) fn acid<'a>(case: &Case<'a>, draft: &mut Draft<'a>) -> Result<(), Refusal> {
    let per_jar = case.reference.acid_for(&case.food.food);
    let names = listed(case);
    let none: Vec<AcidPortion> = Vec::new();
    let portions = case
        .question
        .acid
        .as_ref()
        .map_or(&none, |acid| &acid.portions);
    let source = per_jar
        .first()
        .map_or_else(|| case.food.source.clone(), |row| row.source.clone());
    if !per_jar.is_empty() && portions.is_empty() {
        return Err(Refusal::new(
            ACID_NOT_CHOSEN,
            format!("{} needs acid in every jar, in boiling water and under pressure; nobody has said which.", case.food.title),
            format!("Choose one: {}.", names.join(", ")),
            source,
        )
        .choosing(names));
    }
    if let Some(strange) = portions.iter().find(|p| !names.contains(&p.acid)) {
        return Err(Refusal::new(
            ACID_NOT_LISTED,
            format!(
                "{}: `{}` is not an acid listed for it; fresh juice varies and never stands in for bottled.",
                case.food.title, strange.acid
            ),
            if names.is_empty() {
                "The recipe takes no acid; leave it as printed.".to_owned()
            } else {
                format!("Use one that is listed: {}.", names.join(", "))
            },
            limit_source(case.reference, "group:tomato", "bottled-lemon-not-fresh"),
        )
        .choosing(names));
    }
    let parts = !per_jar.is_empty() && portions.len() > 1;
    if parts || portions.iter().any(|p| p.share != whole(1)) {
        let said: Vec<String> = portions
            .iter()
            .map(|p| format!("{} of {}", show::number(p.share), p.acid))
            .collect();
        return Err(Refusal::new(
            ACID_NOT_WHOLE,
            format!(
                "One listed acid, whole, goes in; not {}. No row allows mixing or less.",
                said.join(" and ")
            ),
            format!("Use the whole printed amount of one: {}.", names.join(", ")),
            source,
        )
        .choosing(names));
    }
    lines(case, draft, portions);
    Ok(())
}

/// The printed amounts for the permit, and the mark of the one older copy among them.
fn lines(case: &Case<'_>, draft: &mut Draft<'_>, portions: &[AcidPortion]) {
    for row in case.reference.acid_for(&case.food.food) {
        let chosen = portions.iter().any(|p| p.acid == row.acid);
        let doubts = case
            .reference
            .doubts("acid_additions", &format!("*/{}/{}", row.jar, row.acid));
        if chosen && let Some(doubt) = doubts.first() {
            draft.mark(
                "doubtful-acid",
                format!("{} per {}: {}.", doubt.reading_kept, row.jar, doubt.why),
                doubt.source.clone(),
            );
        }
        draft.acid.push(AcidLine {
            acid: row.acid.clone(),
            jar: row.jar,
            amount: row.amount.text().to_owned(),
            unit: row.unit.clone(),
            source: row.source.clone(),
            chosen,
        });
    }
    if let Some(line) = draft.acid.iter().find(|line| line.chosen) {
        let (acid, source) = (line.acid.clone(), line.source.clone());
        draft.fired(
            "acid",
            format!("One listed acid, whole, in every jar: {acid}."),
            source,
        );
    }
}

/// Vinegar must be of known strength, at least as strong as the recipe asks, and not diluted by guess.
pub(super) fn vinegar<'a>(case: &Case<'a>, draft: &mut Draft<'a>) -> Result<(), Refusal> {
    if !uses_vinegar(case) {
        return Ok(());
    }
    let least = limit(case.reference, "group:pickle", "vinegar-5pct")?;
    let facts = case
        .question
        .acid
        .as_ref()
        .and_then(|acid| acid.vinegar.as_ref());
    let Some((facts, percent)) = facts.and_then(|facts| Some((facts, facts.label_percent?))) else {
        return Err(Refusal::new(
            VINEGAR_STRENGTH_UNKNOWN,
            format!(
                "{} uses vinegar, and its strength is not known.",
                case.food.title
            ),
            format!(
                "Read the label: {} percent or stronger. Home-made vinegar is not for jars.",
                least.shown()
            ),
            least.source,
        ));
    };
    let most = house_rule(case.reference, "vinegar-dilution-max")?;
    if percent < least.value {
        return Err(Refusal::new(
            VINEGAR_TOO_WEAK,
            format!(
                "Vinegar of {} percent is weaker than the recipe asks.",
                show::number(percent)
            ),
            format!(
                "Use {} percent or stronger; more of a weak one never makes up for it.",
                least.shown()
            ),
            least.source,
        ));
    }
    if percent > most.value {
        return Err(Refusal::new(
            VINEGAR_TOO_STRONG,
            format!(
                "Vinegar of {} percent: beyond {} percent nothing is used or diluted here.",
                show::number(percent),
                most.shown()
            ),
            format!("Buy vinegar of {} percent.", least.shown()),
            most.source,
        ));
    }
    if facts.diluted_to_five {
        draft.condition(
            "vinegar-diluted",
            format!(
                "Vinegar of {} percent, diluted to {} percent by this program's arithmetic; no published rule read.",
                show::number(percent),
                least.shown()
            ),
            most.source,
        );
    } else {
        draft.fired(
            "vinegar",
            format!(
                "Vinegar of {} percent in the recipe's own volume; {} percent or stronger is asked.",
                show::number(percent),
                least.shown()
            ),
            least.source,
        );
    }
    Ok(())
}

/// Whether vinegar is part of what keeps this food, not mere flavour.
fn uses_vinegar(case: &Case<'_>) -> bool {
    if case.food.acid_class == AcidClass::LowAcid {
        return false;
    }
    if !case.reference.acid_for(&case.food.food).is_empty() {
        return case
            .question
            .acid
            .iter()
            .flat_map(|acid| &acid.portions)
            .any(|portion| portion.acid.contains("vinegar"));
    }
    recipe_acids(case)
        .iter()
        .any(|row| row.ingredient.contains("vinegar") && !row.optional)
}
