//! Questions a food asks, jars that must be boiled empty, and what the publication asks on the way.

use super::{Case, Draft, offers};
use crate::codes::{ANSWER_CLOSES_TABLE, JARS_NOT_STERILE, QUESTION_UNANSWERED};
use crate::numbers::{exact, house_rule, practice};
use crate::question::Answer;
use crate::refusal::Refusal;
use quantity::{Exact, whole};
use reference::{AcidClass, FoodRow, IngredientKind, QuestionEffect, QuestionRow, Severity};

/// Every question of the food that this pack, jar and method raise must be answered.
pub(super) fn questions<'a>(case: &Case<'a>, draft: &mut Draft<'a>) -> Result<(), Refusal> {
    let raised: Vec<&QuestionRow> = case
        .reference
        .questions_for(&case.food.food)
        .into_iter()
        .filter(|q| q.effect != QuestionEffect::EitherPack)
        .filter(|q| q.is_raised(case.question.pack, draft.row_jar, case.row_method))
        .collect();
    for (at, first) in raised.iter().enumerate() {
        let key = &first.question;
        if raised[..at].iter().any(|before| before.question == *key) {
            continue;
        }
        let of_key: Vec<&&QuestionRow> = raised.iter().filter(|q| q.question == *key).collect();
        let choices = offers::one_of(of_key.iter().map(|q| q.answer.clone()));
        let given = case.question.answers.get(key);
        let Some(row) = of_key.iter().find(|q| Some(&q.answer) == given) else {
            return Err(Refusal::new(
                QUESTION_UNANSWERED,
                format!("{} (question `{key}` of {})", first.text, case.food.title),
                format!("Answer with one of: {}.", choices.join(", ")),
                first.source.clone(),
            )
            .choosing(choices));
        };
        match row.effect {
            QuestionEffect::Refuse => {
                return Err(closed_by(case.food, row));
            }
            QuestionEffect::Headspace => draft.headspace_in = Some(row.value.clone()),
            QuestionEffect::Ask | QuestionEffect::EitherPack => {}
        }
        draft.fired(
            "question",
            format!("{} {}: {}.", row.text, row.answer, row.note),
            row.source.clone(),
        );
    }
    Ok(())
}

/// The refusal of an answer that closes the table of a food; it needs no household.
pub fn closed_by(food: &FoodRow, row: &QuestionRow) -> Refusal {
    Refusal::new(
        ANSWER_CLOSES_TABLE,
        format!(
            "{} With `{}` the table does not serve {}.",
            row.text, row.answer, food.title
        ),
        format!("{}.", row.note),
        row.source.clone(),
    )
}

/// Minutes that empty jars are boiled at this elevation with their source, begun steps of a thousand feet in full.
///
/// # Errors
/// A number missing from the tables.
pub(crate) fn sterilise_minutes(
    reference: &reference::Reference,
    feet: Exact,
) -> Result<(u32, String), Refusal> {
    let base = practice(reference, "jar-sterilise-minutes")?;
    let extra = practice(reference, "jar-sterilise-extra-per-1000-ft")?.value;
    let step = house_rule(reference, "sterilise-step")?.value;
    let steps = if feet < step {
        whole(0)
    } else {
        // Whole feet first: begun steps are counted in full, and no place is too fine to divide.
        let feet = Exact::from_integer(quantity::ceil(feet));
        Exact::from_integer(quantity::ceil(feet / step))
    };
    let minutes = quantity::ceil(base.value + extra * steps);
    Ok((u32::try_from(minutes).unwrap_or(u32::MAX), base.source))
}

/// A row under ten minutes asks for jars that were boiled empty; jam has a longer alternative.
pub(super) fn sterile_jars<'a>(case: &Case<'a>, draft: &mut Draft<'a>) -> Result<(), Refusal> {
    if case.row_method.is_pressure() {
        return Ok(());
    }
    let under = practice(case.reference, "jar-sterilise-needed-under")?;
    if draft
        .candidates
        .iter()
        .all(|c| exact(c.minutes) >= under.value)
    {
        return Ok(());
    }
    let feet = draft.place.as_ref().map_or(whole(0), |place| place.feet);
    let (boil, boil_source) = sterilise_minutes(case.reference, feet)?;
    let spread = case.food.acid_class == AcidClass::SugarPreserve;
    let row = case.reference.practice("jam-process-unsterile-jars");
    let longer = row.zip(row.and_then(|row| row.number()));
    match (case.question.jars_sterilised, longer) {
        (Answer::No, Some((row, printed))) if spread => {
            let minutes = u32::try_from(printed.to_integer()).unwrap_or(u32::MAX);
            for candidate in &mut draft.candidates {
                candidate.minutes = minutes;
                candidate.other_row = Some((
                    format!("practice/{}", row.key),
                    row.source.clone(),
                    row.source
                        .rsplit("p. ")
                        .next()
                        .unwrap_or_default()
                        .to_owned(),
                ));
            }
            draft.mark(
                "unsterilised-jars",
                format!("Jars not boiled: {minutes} minutes instead; {}.", row.note),
                row.source.clone(),
            );
        }
        (Answer::No, _) => {
            return Err(Refusal::new(
                JARS_NOT_STERILE,
                format!(
                    "{}: a time under {} minutes asks for jars that were boiled empty, not only washed.",
                    case.food.title,
                    under.shown()
                ),
                format!("Boil the empty jars {boil} minutes and keep them hot."),
                under.source,
            ));
        }
        (Answer::Yes | Answer::Unknown, _) => draft.condition(
            "sterile-jars",
            format!("Empty jars boiled {boil} minutes before filling, and kept hot."),
            boil_source,
        ),
    }
    Ok(())
}

/// What the publication binds for this food, its recipe, group and class, as far as it touches
/// the recipe. The vinegar that may stand in for lemon juice is named beside the other acids.
pub(super) fn limits<'a>(case: &Case<'a>, draft: &mut Draft<'a>) -> Result<(), Refusal> {
    let named = case.question.recipe.as_deref();
    let key = named.unwrap_or(&case.food.food);
    let sheets = case.reference.recipes_for_food(&case.food.food);
    let kinds: Vec<IngredientKind> = sheets
        .iter()
        .filter(|sheet| named.is_none_or(|key| sheet.key == key))
        .flat_map(|sheet| &sheet.rows)
        .filter_map(|row| case.reference.ingredient(&row.ingredient))
        .map(|row| row.kind)
        .collect();
    for limit in case.reference.limits_for(key) {
        // What the ingredients are is known only where there is a recipe.
        let touches = sheets.is_empty() || case.reference.touches(limit, &kinds);
        let binds = limit.severity == Severity::Must || limit.rule == "vinegar-alternative";
        if binds && touches && limit.scope != "all" {
            draft.keep_to.push(super::statement(
                &limit.rule,
                format!("{}.", limit.detail),
                limit.source.clone(),
            ));
        }
    }
    Ok(())
}

/// Water, venting and restarts, from the publication's general practice.
pub(super) fn practice_lines<'a>(case: &Case<'a>, draft: &mut Draft<'a>) -> Result<(), Refusal> {
    let keys: &[&str] = if draft.water.is_some() {
        &[
            "low-temp-start-water-low",
            "low-temp-start-water-high",
            "low-temp-water-over-jars",
            "low-temp-thermometer",
            "wait-after-boiling-process",
        ]
    } else if case.row_method.is_pressure() {
        &[
            "vent-minutes",
            "start-timing-at-pressure",
            "restart-if-pressure-drops",
            "cool-down-natural-only",
            "wait-after-weight-off",
        ]
    } else {
        &[
            "restart-if-boil-stops",
            "wait-after-boiling-process",
            "water-over-jars-min",
            "water-over-jars-min-over-30-min",
        ]
    };
    for key in keys {
        if let Some(row) = case.reference.practice(key) {
            let text = match row.unit.as_str() {
                "flag" => row.note.clone(),
                unit => format!("{} {unit}: {}", row.value, row.note),
            };
            draft
                .keep_to
                .push(super::statement(key, text, row.source.clone()));
        }
    }
    draft.cannot_know.push(
        "Whether the process was carried out as printed: a sealed lid does not prove it."
            .to_owned(),
    );
    draft
        .cannot_know
        .push("Whether produce, recipe, jars and acid are as told.".to_owned());
    if case.row_method.is_pressure() {
        draft
            .cannot_know
            .push("Whether the canner was vented and the pressure never dropped.".to_owned());
    }
    Ok(())
}
