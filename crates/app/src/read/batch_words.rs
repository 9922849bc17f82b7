//! Parts of the batch card in words: plates, ticks, containers, jars, acid.

use crate::action::finish::OutcomeRecord;
use crate::action::prepare::{ENTER_A_CANNER, NO_CANNER};
use crate::dates;
use crate::error::AppError;
use crate::facts::{BatchEvent, BatchFact, PlannedInput};
use crate::house::House;
use crate::read::counter::capital;
use crate::read::house::{container_words, jar_words, smallest_units};
use crate::read::verdict;
use crate::view::batch::{AcidView, IngredientLine, JarsView, TickLine, VerdictView};
use crate::view::{Both, Choice};
use kitchen::card::BatchCard;
use kitchen::recipe::{Amount, Recipe, Route};
use reference::{Jar, Method};
use safety::{PermitRecord, RouteVerdict};

/// Code of the plate where the gate could not be asked.
pub(crate) const NO_CANNER_CODE: &str = "no-canner";

/// "boiling water, 40 minutes; USDA ...".
pub(crate) fn permit_words(record: &PermitRecord) -> String {
    format!(
        "{}: {}; {}",
        capital(verdict::method_words(record.question.canner.method())),
        verdict::pair_words(&record.chosen),
        record.chosen.source
    )
}

/// The plate of a route without heat.
pub(crate) fn route_plate(recipe: &Recipe, answer: &RouteVerdict) -> VerdictView {
    let mut plate = verdict::plate(
        if answer.allowed { "route" } else { "refusal" },
        recipe.title.clone(),
    );
    plate.reason.clone_from(&answer.reason);
    plate.instead.clone_from(&answer.instead);
    plate.code.clone_from(&answer.code);
    plate.source.clone_from(&answer.source);
    plate.eat_within_days = answer.eat_within_days;
    plate.conditions = answer
        .conditions
        .iter()
        .map(|line| format!("{} ({})", line.text, line.source))
        .collect();
    plate.notes = answer
        .marks
        .iter()
        .map(|line| format!("{} ({})", line.text, line.source))
        .collect();
    plate.cannot_know.clone_from(&answer.cannot_know);
    plate
}

/// The plate where the house has no canner: amounts, and no permit.
pub(crate) fn no_canner(recipe: &Recipe) -> VerdictView {
    let mut plate = verdict::plate("refusal", recipe.title.clone());
    NO_CANNER.clone_into(&mut plate.reason);
    ENTER_A_CANNER.clone_into(&mut plate.instead);
    NO_CANNER_CODE.clone_into(&mut plate.code);
    plate
}

/// What must be done before a load's clock can start (ruling 12): by key and in words.
pub(crate) fn must_do(recipe: &Recipe, permit: &PermitRecord) -> Vec<TickLine> {
    let tick = |key: &str, text: &str| TickLine {
        key: key.to_owned(),
        text: text.to_owned(),
        done: String::new(),
    };
    // What the permit hangs on comes first: boiled jars, a marked row, a house setting.
    let mut all: Vec<TickLine> = permit
        .conditions
        .iter()
        .map(|condition| tick(&condition.key, &condition.text))
        .collect();
    if !recipe.acid_choices.is_empty() {
        all.push(tick("acid", "Acid is in every jar"));
    }
    all.push(tick("bubbles", "Air bubbles are out, headspace is right"));
    all.push(tick("rim", "Rims are wiped, lids are on finger-tight"));
    match permit.row_method {
        Method::DialGauge | Method::WeightedGauge => {
            all.push(tick("vented", "The canner has vented its full time"))
        }
        Method::BoilingWater if permit.question.canner.method() == Method::Steam => {
            all.push(tick("steam", "A full column of steam stands"));
        }
        _ => all.push(tick("covered", "Water stands over the lids and boils hard")),
    }
    all
}

/// The same for one batch: a load that lost its heat owes the word that it was begun again.
pub(crate) fn must_do_of(
    recipe: &Recipe,
    batch: &BatchFact,
    permit: &PermitRecord,
) -> Vec<TickLine> {
    let mut all = must_do(recipe, permit);
    if batch.restart_owed() {
        all.push(TickLine {
            key: "restarted".to_owned(),
            text: "After the heat was lost the full time was counted again from nought".to_owned(),
            done: String::new(),
        });
    }
    all
}

/// The ticks of a batch with when and by whom they were made.
pub(super) fn ticks(recipe: &Recipe, permit: &PermitRecord, batch: &BatchFact) -> Vec<TickLine> {
    let mut all = must_do_of(recipe, batch, permit);
    for late in batch.late_ticks() {
        if let (Some(tick), Some(when)) =
            (all.iter_mut().find(|tick| tick.key == late.tick), late.when)
            && late.done
        {
            tick.done = format!("answered later: {}, {}", late.who, dates::day(when.date));
        }
    }
    for event in batch
        .events
        .iter()
        .filter(|event| matches!(event.kind.as_str(), "started" | "outcome"))
    {
        let made = event
            .content
            .get("ticks")
            .and_then(serde_json::Value::as_array);
        for key in made
            .into_iter()
            .flatten()
            .filter_map(serde_json::Value::as_str)
        {
            if let Some(tick) = all
                .iter_mut()
                .find(|tick| tick.key == key && tick.done.is_empty())
            {
                tick.done = format!("ticked {}", dates::day(event.on));
            }
        }
    }
    all
}

/// Containers that can come out of a batch.
pub(crate) fn outcome_containers(recipe: &Recipe, batch: &BatchFact) -> Vec<Choice> {
    let mut keys: Vec<String> = Vec::new();
    match recipe.route {
        Route::Heat => {
            let own: Option<Jar> = batch.container.parse().ok();
            // The jar of the permit and smaller ones: a larger jar was never permitted.
            for jar in recipe
                .jar_choices
                .iter()
                .filter(|jar| own.is_none_or(|own| **jar <= own))
            {
                keys.push(jar.as_str().to_owned());
            }
            if let Some(own) = own {
                keys.sort_by_key(|key| *key != own.as_str());
            }
        }
        Route::Freezer => keys.extend(["pint-bag".to_owned(), "quart-bag".to_owned()]),
        Route::Dryer => keys.extend(["half-pint", "pint", "quart"].map(str::to_owned)),
        _ => {}
    }
    keys.sort_by_key(|key| *key != batch.container);
    keys.into_iter()
        .map(|key| Choice::new(&key, capital(&container_words(&key, 2))))
        .collect()
}

/// The outcome as it was entered.
pub(crate) fn outcome_of(batch: &BatchFact) -> Option<OutcomeRecord> {
    let event = batch.last("outcome")?;
    serde_json::from_value(event.content.clone()).ok()
}

/// Why a batch is on hold.
pub(crate) fn hold_reason(batch: &BatchFact) -> String {
    batch
        .last("held")
        .and_then(|event| event.content.get("why"))
        .and_then(serde_json::Value::as_str)
        .unwrap_or("the reason was not written down")
        .to_owned()
}

pub(super) fn event_words(event: &BatchEvent) -> String {
    let what = match event.kind.as_str() {
        "started" => "begun",
        "outcome" => "outcome entered",
        "seal-check" => "seals looked at",
        "held" => "put on hold",
        "released" => "released",
        "cancelled" => "called off",
        "note" if event.content.get("incident").is_some() => "something went wrong",
        "note" if event.content.get("settled").is_some() => "jars of an incident",
        "note" if event.content.get("late").is_some() => "answered later",
        other => other,
    };
    let why = event
        .content
        .get("why")
        .and_then(serde_json::Value::as_str)
        .unwrap_or_default();
    format!(
        "{}: {what}{}{why}",
        dates::day(event.on),
        if why.is_empty() { "" } else { ", " }
    )
}

pub(super) fn answer(recipe: &Recipe, card: &BatchCard, plate: &VerdictView) -> String {
    if plate.kind == "refusal" && plate.code != NO_CANNER_CODE {
        return format!("{} cannot be made this way here.", recipe.title);
    }
    let makes = match (&card.jars, &card.makes) {
        (Some(jars), _) => {
            let count = i64::from(jars.full);
            format!("{count} {}", jar_words(jars.jar, count))
        }
        (None, Some(makes)) => makes.clone(),
        (None, None) => recipe.title.clone(),
    };
    match (plate.minutes, &plate.psi) {
        (Some(minutes), Some(psi)) => {
            format!("{}, {minutes} minutes at {psi} pounds.", capital(&makes))
        }
        (Some(minutes), None) => {
            format!("{}, {minutes} minutes in boiling water.", capital(&makes)).replace(
                "in boiling water",
                if plate.top.contains("steam") {
                    "in steam"
                } else {
                    "in boiling water"
                },
            )
        }
        _ if plate.code == NO_CANNER_CODE => {
            format!(
                "{}, and no permit: the house has no canner.",
                capital(&makes)
            )
        }
        _ => format!("{}.", capital(&makes)),
    }
}

pub(super) fn lead(card: &BatchCard, inputs: &[PlannedInput]) -> String {
    let produce: i64 = inputs.iter().map(|input| input.milligrams).sum();
    let mut words = Vec::new();
    if produce > 0 {
        words.push(format!("From {}", Both::milligrams(produce)));
    }
    if let Some(pots) = card.separate_batches.filter(|pots| *pots > 1) {
        words.push(format!(
            "{pots} pots, one after the other: a gel is never doubled"
        ));
    }
    if words.is_empty() {
        String::new()
    } else {
        format!("{}.", words.join("; "))
    }
}

pub(super) fn ingredient(
    line: &kitchen::card::CardLine,
    house: &House,
) -> Result<IngredientLine, AppError> {
    let short = match house.ingredients.iter().find(|have| have.key == line.key) {
        None => String::new(),
        Some(have) => {
            let there = smallest_units(&have.amount)?;
            let wanted = match line.measured {
                Amount::Mass(mass) => mass.milligrams()?,
                Amount::Volume(volume) => volume.microlitres()?,
                Amount::Count { .. } => 0,
            };
            if wanted > there {
                "more than the pantry holds".to_owned()
            } else {
                String::new()
            }
        }
    };
    Ok(IngredientLine {
        name: line.name.clone(),
        kitchen: line.kitchen.clone(),
        metric: line.metric.clone(),
        exact: line.exact.clone(),
        per_jar: line.per_jar.clone().unwrap_or_default(),
        role: line.role.clone(),
        short,
    })
}

pub(super) fn jars_view(
    jars: &kitchen::jars::JarsExpected,
    card: &BatchCard,
    house: &House,
) -> JarsView {
    let heat = i64::from(jars.heat);
    let mouth = house
        .jars
        .iter()
        .find(|have| have.jar == jars.jar.as_str())
        .map(|have| have.mouth.as_str());
    let lids = i64::from(if mouth == Some("wide") {
        house.lids_wide
    } else {
        house.lids_regular
    });
    let full = i64::from(jars.full_high);
    JarsView {
        words: jars.words.clone(),
        low: i64::from(jars.full_low),
        high: full,
        heat,
        lids: if lids >= full {
            format!("{} lids left after this", lids - i64::from(jars.full))
        } else {
            format!("only {lids} lids of that size are in the house")
        },
        partial: card
            .part_jar
            .as_ref()
            .map(|part| part.words.clone())
            .unwrap_or_default(),
        basis: jars
            .basis
            .iter()
            .map(|line| format!("{} ({})", line.words, line.source))
            .collect(),
    }
}

pub(super) fn acid_view(card: &BatchCard) -> Option<AcidView> {
    let first = card.acid.first()?;
    Some(AcidView {
        choices: card
            .acid
            .iter()
            .map(|line| {
                let mark = if line.mark.is_empty() {
                    String::new()
                } else {
                    format!(" ({})", line.mark)
                };
                format!(
                    "{} {} a jar; {} in all{mark}",
                    line.per_jar, line.name, line.total
                )
            })
            .collect(),
        source: first.source.clone(),
    })
}

/// The jar of a batch's card: its own, else the first that a recipe of another route ends in.
pub(crate) fn card_jar(recipe: &Recipe, container: &str) -> Option<Jar> {
    container
        .parse()
        .ok()
        .or_else(|| recipe.jar_choices.first().copied())
}
