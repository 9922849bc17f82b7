//! Verdicts for every route without heat: freezer, dryer, crock, fridge, cold room, fresh, shelf.

mod question;

pub use question::{FoodKind, FoodState, KeepRoute, RouteQuestion};

use crate::codes;
use crate::numbers::{house_rule, practice, source};
use crate::permit::Statement;
use crate::question::Answer;
use crate::refusal::Refusal;
use quantity::show;
use reference::Reference;
use serde::{Deserialize, Serialize};

/// The gate's answer for a route without heat.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct RouteVerdict {
    /// Whether the food may go this way.
    pub allowed: bool,
    /// `allowed`, or a refusal code of [`crate::codes::CODES`].
    pub code: String,
    /// Why, in words.
    pub reason: String,
    /// What to do instead; empty when allowed.
    pub instead: String,
    /// Days until it is eaten, frozen or thrown away. Always there for the fridge when allowed.
    pub eat_within_days: Option<i64>,
    /// Conditions.
    pub conditions: Vec<Statement>,
    /// Marks, such as `not covered by our tables`.
    pub marks: Vec<Statement>,
    /// Where it was read, or `our decision`.
    pub source: String,
    /// What the program cannot know.
    pub cannot_know: Vec<String>,
}

/// Asks the gate about a route without heat.
pub fn judge_route(reference: &Reference, question: &RouteQuestion) -> RouteVerdict {
    let answer = match question.route {
        _ if question.state == FoodState::JarDoubtful => Err(doubtful_jar(reference)),
        KeepRoute::Freezer => freezer(reference, question),
        KeepRoute::Fridge => fridge(reference, question),
        KeepRoute::Crock => crock(reference, question),
        KeepRoute::Dryer => dryer(reference, question),
        KeepRoute::ColdRoom => cold_room(reference, question),
        KeepRoute::Fresh => fresh(reference, question),
        KeepRoute::Shelf => Err(Refusal::new(
            codes::NEEDS_PERMIT,
            format!(
                "{}: nothing keeps in a jar on a shelf without a permitted heat process.",
                question.food
            ),
            "Ask for the heat process, or freeze it.",
            source(reference, "our-decision"),
        )),
    };
    answer.unwrap_or_else(|refusal| RouteVerdict {
        allowed: false,
        code: refusal.code.to_owned(),
        reason: refusal.reason,
        instead: refusal.instead,
        eat_within_days: None,
        conditions: Vec::new(),
        marks: Vec::new(),
        source: refusal.source,
        cannot_know: vec![SEAL.to_owned()],
    })
}

const SEAL: &str =
    "Whether the food is sound inside: nobody sees, smells or tastes the poison of botulism.";

fn allowed(reason: String, source: String) -> RouteVerdict {
    RouteVerdict {
        allowed: true,
        code: "allowed".to_owned(),
        reason,
        instead: String::new(),
        eat_within_days: None,
        conditions: Vec::new(),
        marks: Vec::new(),
        source,
        cannot_know: vec![SEAL.to_owned()],
    }
}

fn say(key: &str, text: impl Into<String>, source: String) -> Statement {
    Statement {
        key: key.to_owned(),
        text: text.into(),
        source,
    }
}

/// A wrongly processed jar is rescued nowhere; the disposal card is all it shows.
fn doubtful_jar(reference: &Reference) -> Refusal {
    Refusal::new(
        codes::DISCARD,
        "The jar was processed wrongly, or nobody knows how; a seal proves nothing.",
        "Leave it closed, keep it from people and animals, and follow the disposal card.",
        source(reference, "cdc-2019"),
    )
}

/// Whether the food counts as low-acid: what is not known to be acid does.
fn low_acid(question: &RouteQuestion) -> bool {
    question.kind != FoodKind::Acid
}

fn freezer(reference: &Reference, question: &RouteQuestion) -> Result<RouteVerdict, Refusal> {
    let target = reference.freezer_value("target_temperature");
    let mut verdict = allowed(
        format!("{}: the freezer takes any sound food.", question.food),
        target.map_or_else(
            || source(reference, "common-practice"),
            |row| row.source.clone(),
        ),
    );
    if let Some(row) = target {
        verdict.conditions.push(say(
            "freezer-cold",
            format!(
                "Freezer at {} {} or colder, headspace left for swelling.",
                row.value, row.unit
            ),
            row.source.clone(),
        ));
    }
    if question.under_oil == Answer::Yes || question.vacuum_packed == Answer::Yes {
        verdict.conditions.push(say(
            "thaw-in-fridge",
            "Thaw it in the refrigerator, vacuum bag opened, and eat it the same day.",
            source(reference, "our-decision"),
        ));
    }
    Ok(verdict)
}

fn fridge(reference: &Reference, question: &RouteQuestion) -> Result<RouteVerdict, Refusal> {
    let shut = question.under_oil == Answer::Yes || question.vacuum_packed == Answer::Yes;
    if shut && low_acid(question) {
        let rule = house_rule(reference, "fridge-oil-days")?;
        return Err(Refusal::new(
            codes::NOT_FOR_FRIDGE,
            format!(
                "{}: low-acid food under oil or vacuum-packed can turn deadly in the refrigerator.",
                question.food
            ),
            "Freezer only.",
            rule.source,
        ));
    }
    if let Some(verdict) = refrigerator_recipe(reference, question) {
        return Ok(verdict);
    }
    let key = match question.state {
        FoodState::JarOpened => "fridge-unsealed-days",
        _ => "fridge-untested-days",
    };
    let rule = house_rule(reference, key)?;
    let days = quantity::floor(rule.value);
    let mut verdict = allowed(
        format!(
            "{}: refrigerate at once and eat within {} days; freeze what will not be eaten by then, and throw away what is older.",
            question.food,
            rule.shown()
        ),
        rule.source.clone(),
    );
    verdict.eat_within_days = i64::try_from(days).ok();
    if low_acid(question)
        && (question.under_oil != Answer::No || question.vacuum_packed != Answer::No)
    {
        verdict.conditions.push(say(
            "not-shut-off",
            "Neither under oil nor vacuum-packed: such food goes to the freezer only.",
            rule.source,
        ));
    }
    Ok(verdict)
}

/// A tested refrigerator recipe with a printed time.
fn refrigerator_recipe(reference: &Reference, question: &RouteQuestion) -> Option<RouteVerdict> {
    let recipe = question.recipe.as_deref()?;
    reference.recipe(recipe)?;
    let limit = reference.limits_for(recipe).into_iter().find(|limit| {
        limit.rule == "refrigerate-only" || limit.rule == "process-or-refrigerate-1-month"
    })?;
    let days = limit.days()?;
    let mut verdict = allowed(format!("{}.", limit.detail), limit.source.clone());
    verdict.eat_within_days = Some(days);
    Some(verdict)
}

fn crock(reference: &Reference, question: &RouteQuestion) -> Result<RouteVerdict, Refusal> {
    let has_process = reference
        .food(&question.food)
        .is_some_and(|food| food.group == "ferment");
    if !has_process {
        let mut verdict = allowed(
            format!(
                "{}: a ferment no table covers; it never goes on a shelf.",
                question.food
            ),
            source(reference, "our-decision"),
        );
        verdict.conditions.push(say(
            "ferment-then-cold",
            "Refrigerate or freeze it when it is done; no heat process exists for it.",
            source(reference, "our-decision"),
        ));
        verdict.marks.push(say(
            "not-covered",
            "Not covered by our tables.",
            source(reference, "our-decision"),
        ));
        return Ok(verdict);
    }
    if question.food == "sauerkraut" {
        let least = practice(reference, "kraut-salt-per-5-lb")?;
        if question
            .salt_tbsp_per_5_lb
            .is_none_or(|salt| salt < least.value)
        {
            let said = match question.salt_tbsp_per_5_lb {
                Some(salt) => format!(
                    "{} tbsp of salt per 5 lb is too little.",
                    show::number(salt)
                ),
                None => "Nobody has said how much salt it has.".to_owned(),
            };
            return Err(Refusal::new(
                codes::FERMENT_SALT,
                format!("{said} Salt steers the ferment and keeps it safe."),
                format!(
                    "Use {} tbsp of canning salt per 5 lb, weighed out evenly.",
                    least.shown()
                ),
                least.source,
            ));
        }
    }
    let low = house_rule(reference, "kraut-room-low")?;
    let high = house_rule(reference, "kraut-room-high")?;
    let fits = match (question.room_low_f, question.room_high_f) {
        (Some(coolest), Some(warmest)) => coolest >= low.value && warmest <= high.value,
        _ => false,
    };
    if !fits {
        return Err(Refusal::new(
            codes::FERMENT_ROOM,
            format!(
                "The crock's room is not known to stay between {} and {} F.",
                low.shown(),
                high.shown()
            ),
            "Find a place of that warmth; cooler rooms take longer by the same page and are not judged here.",
            low.source,
        ));
    }
    let limits = reference.limits_for(&question.food);
    let mut verdict = allowed(
        format!(
            "{}: ferment at {} to {} F.",
            question.food,
            low.shown(),
            high.shown()
        ),
        low.source,
    );
    for limit in limits {
        if limit.scope != "all" && limit.severity == reference::Severity::Must {
            verdict.conditions.push(say(
                &limit.rule,
                format!("{}.", limit.detail),
                limit.source.clone(),
            ));
        }
    }
    Ok(verdict)
}

fn dryer(reference: &Reference, question: &RouteQuestion) -> Result<RouteVerdict, Refusal> {
    if question.under_oil == Answer::Yes {
        return Err(Refusal::new(
            codes::NOT_FOR_FRIDGE,
            format!(
                "{}: dried or half-dried food in oil is for the freezer only.",
                question.food
            ),
            "Freezer only; pour oil over it at the table.",
            house_rule(reference, "fridge-oil-days")?.source,
        ));
    }
    match question.fully_dry {
        Answer::No => Err(Refusal::new(
            codes::NOT_DRY,
            format!(
                "{}: half-dried food does not keep at room temperature.",
                question.food
            ),
            "Dry it on, or freeze it.",
            source(reference, "common-practice"),
        )),
        Answer::Yes | Answer::Unknown => {
            let mut verdict = allowed(
                format!("{}: dry it fully.", question.food),
                source(reference, "common-practice"),
            );
            verdict.conditions.push(say(
                "fully-dry",
                "Leathery or brittle all through; a week in a loosely filled jar, shaken daily, shows whether any moisture is left.",
                source(reference, "common-practice"),
            ));
            Ok(verdict)
        }
    }
}

fn cold_room(reference: &Reference, question: &RouteQuestion) -> Result<RouteVerdict, Refusal> {
    if question.state != FoodState::Whole {
        return Err(Refusal::new(
            codes::NOT_WHOLE,
            format!(
                "{}: only whole raw produce keeps in the cold room.",
                question.food
            ),
            "Refrigerate it and eat it within the days given there, or freeze it.",
            source(reference, "common-practice"),
        ));
    }
    let mut verdict = allowed(
        format!(
            "{}: whole and sound, it may lie in the cold room.",
            question.food
        ),
        source(reference, "common-practice"),
    );
    verdict.conditions.push(say(
        "look-through",
        "Look it through every week and take out what is soft.",
        source(reference, "common-practice"),
    ));
    Ok(verdict)
}

fn fresh(reference: &Reference, question: &RouteQuestion) -> Result<RouteVerdict, Refusal> {
    let mut verdict = allowed(
        format!("{}: eaten fresh.", question.food),
        source(reference, "common-practice"),
    );
    if question.state != FoodState::Whole {
        verdict.conditions.push(say(
            "soon",
            "Cut or cooked food is eaten or chilled soon; it does not stand in a warm kitchen.",
            source(reference, "common-practice"),
        ));
    }
    Ok(verdict)
}
