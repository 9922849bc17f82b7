//! What was not said is filled in: the first canner, pack and jar of the house with a printed row.
//! Whatever was said is kept, even when it leads to a refusal.

use super::{Kitchen, Question, address, pack_words};
use crate::error::AppError;
use crate::house::Canner;
use crate::read::house::{canner_facts, jar_words};
use crate::read::verdict;
use crate::view::process::{Switch, SwitchChoice};
use reference::{AcidClass, Jar, Method, Pack, ProcessRow, QuestionEffect, Reference};
use safety::{CannerFacts, HeatQuestion, LookUp, Refusal, codes};

/// Methods in the order in which they are tried where no house says what there is.
const METHODS: [Method; 3] = [
    Method::BoilingWater,
    Method::WeightedGauge,
    Method::DialGauge,
];

/// Jars in the order in which they are tried after those of the house.
const JARS: [Jar; 3] = [Jar::Quart, Jar::Pint, Jar::HalfPint];

/// A pack, a jar and a way of heating.
pub(super) struct Chosen<'h> {
    pub pack: Pack,
    pub jar: Jar,
    /// The house's canner; none where only a method is meant.
    pub canner: Option<&'h Canner>,
    facts: CannerFacts,
}

impl Chosen<'_> {
    pub fn method(&self) -> Method {
        self.facts.method()
    }

    /// The method whose rows are read.
    pub fn row_method(&self) -> Method {
        match self.method() {
            Method::Steam => Method::BoilingWater,
            method => method,
        }
    }

    /// The question to the gate, with nothing known of jars, acid and history.
    pub fn question(&self, kitchen: &Kitchen, asked: &Question<'_>) -> HeatQuestion {
        let mut question = HeatQuestion::new(
            &asked.food.food,
            self.pack,
            self.jar,
            self.facts.clone(),
            &kitchen.on,
        );
        question.elevation = asked.elevation;
        question.canner_holds_quart_jars = self
            .canner
            .and_then(|canner| (canner.quarts > 0).then_some(canner.quarts));
        question.metric_jars_setting = kitchen
            .house
            .as_ref()
            .is_some_and(|house| house.metric_jars);
        question
    }
}

/// What the tables say to a choice.
pub(super) enum Found {
    /// A printed row.
    Row(LookUp),
    /// A printed row that this canner gives no permit for as things stand.
    Barred(LookUp, Refusal),
    /// No.
    No(Refusal),
}

/// Whether a printed row serves food packed like this; some labels take either pack.
pub(super) fn serves(reference: &Reference, row: &ProcessRow, pack: Pack) -> bool {
    row.pack.serves(pack) || either_pack(reference, &row.food)
}

fn either_pack(reference: &Reference, food: &str) -> bool {
    reference
        .questions_for(food)
        .iter()
        .any(|question| question.effect == QuestionEffect::EitherPack)
}

/// The choice made and what the tables say to it.
///
/// # Errors
/// A canner that the house does not have.
pub(super) fn choose<'h>(
    reference: &Reference,
    kitchen: &'h Kitchen,
    question: &Question<'_>,
) -> Result<(Chosen<'h>, Found), AppError> {
    let mut best: Option<(u8, Chosen<'h>, Found)> = None;
    for (canner, facts) in vessels(kitchen, question)? {
        for pack in packs(reference, question) {
            for jar in jars(reference, kitchen, question) {
                let chosen = Chosen {
                    pack,
                    jar,
                    canner,
                    facts: facts.clone(),
                };
                let found = look(reference, kitchen, question, &chosen);
                let worth = worth(&found);
                if worth == MOST {
                    return Ok((chosen, found));
                }
                if best.as_ref().is_none_or(|(known, ..)| worth > *known) {
                    best = Some((worth, chosen, found));
                }
            }
        }
    }
    // There is always a vessel, a pack and a jar to try; the words are for a house without any.
    best.map(|(_, chosen, found)| (chosen, found))
        .ok_or_else(|| {
            AppError::input(
                "canner",
                "There is no canner to look this up for.",
                "Name a method: boiling-water, dial-gauge, weighted-gauge or steam.",
            )
        })
}

/// A row that nothing stands against.
const MOST: u8 = 10;

/// How near a choice comes to an answer: a refusal that comes later says more about the question.
fn worth(found: &Found) -> u8 {
    match found {
        Found::Row(_) => MOST,
        Found::Barred(..) => 9,
        Found::No(refusal) => match refusal.code {
            codes::LOW_ACID_NEEDS_PRESSURE => 1,
            codes::METHOD_NOT_LISTED => 2,
            codes::PACK_NOT_LISTED => 3,
            codes::JAR_TOO_LARGE => 4,
            codes::STEAM_TOO_LONG => 5,
            _ => 6,
        },
    }
}

fn look(
    reference: &Reference,
    kitchen: &Kitchen,
    asked: &Question<'_>,
    chosen: &Chosen<'_>,
) -> Found {
    let plain = || {
        safety::look_up(
            reference,
            &asked.food.food,
            chosen.pack,
            chosen.jar,
            chosen.method(),
            asked.elevation,
        )
    };
    let tried = match chosen.canner {
        None => plain(),
        Some(_) => safety::look_up_in_house(reference, &chosen.question(kitchen, asked)),
    };
    match tried {
        Ok(row) => Found::Row(row),
        // What is only not known of a canner leaves the printed row to be looked up (ruling 7).
        Err(refusal)
            if matches!(
                refusal.code,
                codes::GAUGE_UNTESTED | codes::GAUGE_TEST_OLD | codes::CANNER_SIZE_UNKNOWN
            ) =>
        {
            match plain() {
                Ok(row) => Found::Barred(row, refusal),
                Err(refusal) => Found::No(refusal),
            }
        }
        Err(refusal) => Found::No(refusal),
    }
}

/// The canners or methods to try, in order.
fn vessels<'h>(
    kitchen: &'h Kitchen,
    question: &Question<'_>,
) -> Result<Vec<(Option<&'h Canner>, CannerFacts)>, AppError> {
    let of_house = || {
        kitchen
            .house
            .iter()
            .flat_map(|house| &house.canners)
            .filter_map(|canner| Some((Some(canner), canner_facts(canner, "").ok()?)))
    };
    let named = question.said.canner.trim();
    if !named.is_empty() {
        let found: Vec<_> = of_house()
            .filter(|(canner, _)| canner.is_some_and(|canner| canner.name == named))
            .take(1)
            .collect();
        if found.is_empty() {
            let names: Vec<String> = of_house()
                .filter_map(|(canner, _)| Some(format!("«{}»", canner?.name)))
                .collect();
            return Err(AppError::input(
                "canner",
                format!("The house has no canner «{named}»."),
                if names.is_empty() {
                    "Enter its canners on the House page, or name a method.".to_owned()
                } else {
                    format!("Choose {}, or name a method.", names.join(" or "))
                },
            ));
        }
        return Ok(found);
    }
    if let Some(method) = question.method {
        let ours = of_house().find(|(_, facts)| facts.method() == method);
        return Ok(vec![ours.unwrap_or((None, CannerFacts::unknown(method)))]);
    }
    let ours: Vec<_> = of_house().collect();
    if !ours.is_empty() {
        return Ok(ours);
    }
    Ok(METHODS
        .into_iter()
        .map(|method| (None, CannerFacts::unknown(method)))
        .collect())
}

/// Packs to try: the one said, else those with a row, hot first (our decision: the other is one
/// tap away).
fn packs(reference: &Reference, question: &Question<'_>) -> Vec<Pack> {
    if let Some(pack) = question.pack {
        return vec![pack];
    }
    let listed = listed_packs(reference, question);
    if listed.is_empty() {
        vec![Pack::Hot]
    } else {
        listed
    }
}

fn listed_packs(reference: &Reference, question: &Question<'_>) -> Vec<Pack> {
    let rows = reference.processes_for(&question.food.food);
    [Pack::Hot, Pack::Raw]
        .into_iter()
        .filter(|pack| rows.iter().any(|row| serves(reference, row, *pack)))
        .collect()
}

/// Jars to try: the one said, else those the house has most of, else the usual ones, else any
/// with a row.
fn jars(reference: &Reference, kitchen: &Kitchen, question: &Question<'_>) -> Vec<Jar> {
    if let Some(jar) = question.jar {
        return vec![jar];
    }
    let mut of_house: Vec<(u32, Jar)> = kitchen
        .house
        .iter()
        .flat_map(|house| &house.jars)
        .filter_map(|jar| Some((jar.count, jar.jar.parse().ok()?)))
        .filter(|(count, _)| *count > 0)
        .collect();
    of_house.sort_by_key(|(count, _)| std::cmp::Reverse(*count));
    let listed = reference
        .processes_for(&question.food.food)
        .into_iter()
        .map(|row| row.jar);
    let mut jars: Vec<Jar> = Vec::new();
    for jar in of_house
        .into_iter()
        .map(|(_, jar)| jar)
        .chain(JARS)
        .chain(listed)
    {
        if !jars.contains(&jar) {
            jars.push(jar);
        }
    }
    jars
}

/// What could be chosen differently, each as a whole question.
pub(super) fn switches(
    reference: &Reference,
    kitchen: &Kitchen,
    question: &Question<'_>,
    chosen: &Chosen<'_>,
) -> Vec<Switch> {
    let rows = reference.processes_for(&question.food.food);
    let mut switches = Vec::new();
    let packs = listed_packs(reference, question);
    if packs.len() > 1 && !either_pack(reference, &question.food.food) {
        switches.push(Switch {
            name: "pack".to_owned(),
            title: "Pack".to_owned(),
            choices: packs
                .into_iter()
                .map(|pack| SwitchChoice {
                    asks: address::with(question, &[("pack", pack.as_str())]),
                    title: pack_words(reference, question.food, pack),
                    here: pack == chosen.pack,
                })
                .collect(),
        });
    }
    let in_house = |jar: Jar| {
        kitchen
            .house
            .iter()
            .flat_map(|house| &house.jars)
            .any(|have| have.jar == jar.as_str() && have.count > 0)
    };
    let jars: Vec<Jar> = Jar::ALL
        .iter()
        .copied()
        .filter(|jar| {
            *jar == chosen.jar
                || in_house(*jar)
                || rows
                    .iter()
                    .any(|row| row.jar == *jar && row.method == chosen.row_method())
        })
        .collect();
    switches.push(Switch {
        name: "jar".to_owned(),
        title: "Jar".to_owned(),
        choices: jars
            .into_iter()
            .map(|jar| SwitchChoice {
                asks: address::with(question, &[("jar", jar.as_str())]),
                title: jar_words(jar, 1),
                here: jar == chosen.jar,
            })
            .collect(),
    });
    switches.push(Switch {
        name: "canner".to_owned(),
        title: "Canner".to_owned(),
        choices: canners(kitchen, question, chosen, &rows),
    });
    switches
}

/// The canners of the house, then the methods with a row that it has no canner for.
fn canners(
    kitchen: &Kitchen,
    question: &Question<'_>,
    chosen: &Chosen<'_>,
    rows: &[&ProcessRow],
) -> Vec<SwitchChoice> {
    let mut choices = Vec::new();
    let mut methods = Vec::new();
    for canner in kitchen.house.iter().flat_map(|house| &house.canners) {
        let Ok(facts) = canner_facts(canner, "") else {
            continue;
        };
        methods.push(facts.method());
        choices.push(SwitchChoice {
            asks: address::with(question, &[("canner", &canner.name), ("method", "")]),
            title: format!(
                "{} ({})",
                canner.name,
                verdict::method_words(facts.method())
            ),
            here: chosen.canner.is_some_and(|here| here.name == canner.name),
        });
    }
    let low_acid = question.food.acid_class == AcidClass::LowAcid;
    for method in METHODS.into_iter().chain([Method::Steam]) {
        let row_method = match method {
            Method::Steam => Method::BoilingWater,
            other => other,
        };
        let printed = rows.iter().any(|row| row.method == row_method);
        let here = chosen.canner.is_none() && chosen.method() == method;
        let open = printed && (!low_acid || method.is_pressure());
        if methods.contains(&method) || !(here || open) {
            continue;
        }
        choices.push(SwitchChoice {
            asks: address::with(question, &[("method", method.as_str()), ("canner", "")]),
            title: verdict::method_words(method).to_owned(),
            here,
        });
    }
    choices
}
