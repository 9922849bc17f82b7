//! Reads the case tables of `data/cases`: one question and its right answer per row.

use quantity::{Exact, parse};
use reference::Reference;
use safety::{
    AcidPortion, AcidUse, Answer, CannerFacts, ChangeVerdict, FoodKind, FoodState, HeatQuestion,
    IncidentAnswer, IncidentError, IncidentQuestion, KeepRoute, LoadVerdict, LookUp,
    ProduceHistory, RecipeChange, Refusal, RouteQuestion, RouteVerdict, Verdict, VinegarFacts,
};
use std::collections::BTreeMap;

/// One row of a case table.
pub struct Case {
    pub nr: String,
    pub title: String,
    pub ask: Ask,
    pub expect: String,
    pub code: String,
    pub minutes: String,
    pub psi: String,
    pub must_say: String,
}

/// One canner load: rows with the same number, the answer on the first.
pub struct LoadCase {
    pub nr: String,
    pub title: String,
    pub questions: Vec<HeatQuestion>,
    pub expect: String,
    pub code: String,
    pub minutes: String,
    pub psi: String,
    pub must_say: String,
}

/// The loads of a case table.
pub fn loads(bytes: &str) -> Vec<LoadCase> {
    let mut loads: Vec<LoadCase> = Vec::new();
    for case in read(bytes) {
        if loads.last().is_none_or(|load| load.nr != case.nr) {
            loads.push(LoadCase {
                nr: case.nr,
                title: case.title,
                questions: Vec::new(),
                expect: case.expect,
                code: case.code,
                minutes: case.minutes,
                psi: case.psi,
                must_say: case.must_say,
            });
        }
        if let (Some(load), Ask::Heat(question)) = (loads.last_mut(), case.ask) {
            load.questions.push(question);
        }
    }
    loads
}

/// What is asked.
pub enum Ask {
    Heat(HeatQuestion),
    LookUp(HeatQuestion),
    Route(RouteQuestion),
    Incident(IncidentQuestion),
    /// A load of `data/cases/loads.csv`.
    Load(Vec<HeatQuestion>),
    /// A change to a tested recipe.
    Change(RecipeChange),
    /// Left to a later part of the program.
    Later,
}

/// What was answered.
#[derive(Debug, PartialEq)]
pub enum Answered {
    Heat(Verdict),
    LookUp(Result<LookUp, Refusal>),
    Route(RouteVerdict),
    Incident(Result<IncidentAnswer, IncidentError>),
    Load(LoadVerdict),
    Change(Box<ChangeVerdict>),
    Later,
}

pub fn read(bytes: &str) -> Vec<Case> {
    let mut reader = csv::Reader::from_reader(bytes.as_bytes());
    let headers = reader.headers().expect("header row").clone();
    reader
        .records()
        .map(|record| {
            let record = record.expect("well-formed row");
            let row: BTreeMap<&str, &str> = headers.iter().zip(record.iter()).collect();
            let flags: BTreeMap<&str, &str> = pairs(row["flags"]);
            let ask = match row["kind"] {
                "heat" if row["food"].is_empty() => Ask::Later,
                "heat" => Ask::Heat(heat(&row, &flags)),
                "look-up" => Ask::LookUp(heat(&row, &flags)),
                "route" => Ask::Route(route(&row, &flags)),
                "incident" => Ask::Incident(incident(&flags)),
                "change" => Ask::Change(RecipeChange {
                    recipe: row["recipe"].to_owned(),
                    edits: vec![crate::change_file::edit(flags["edit"])],
                }),
                "load" => Ask::Load(load(flags["load"])),
                "later" => Ask::Later,
                other => panic!("kind `{other}`"),
            };
            Case {
                nr: row["nr"].to_owned(),
                title: row["case"].to_owned(),
                ask,
                expect: row["expect"].to_owned(),
                code: row["code"].to_owned(),
                minutes: row["minutes"].to_owned(),
                psi: row["psi"].to_owned(),
                must_say: row["must_say"].to_owned(),
            }
        })
        .collect()
}

pub fn answer(reference: &Reference, ask: &Ask) -> Answered {
    match ask {
        Ask::Heat(question) => Answered::Heat(safety::judge_heat(reference, question)),
        Ask::LookUp(q) => Answered::LookUp(safety::look_up(
            reference,
            &q.food,
            q.pack,
            q.jar,
            q.canner.method(),
            q.elevation,
        )),
        Ask::Route(question) => Answered::Route(safety::judge_route(reference, question)),
        Ask::Incident(question) => Answered::Incident(safety::judge_incident(reference, question)),
        Ask::Change(change) => Answered::Change(Box::new(
            safety::judge_change(reference, change).expect("a change that is understood"),
        )),
        Ask::Load(questions) => Answered::Load(safety::judge_load(reference, questions)),
        Ask::Later => Answered::Later,
    }
}

fn load(name: &str) -> Vec<HeatQuestion> {
    loads(include_str!("../../../../data/cases/loads.csv"))
        .into_iter()
        .find(|load| load.nr == name)
        .expect("a load of loads.csv")
        .questions
}

fn pairs(text: &str) -> BTreeMap<&str, &str> {
    text.split(';')
        .filter(|part| !part.is_empty())
        .map(|part| part.split_once('=').unwrap_or((part, "yes")))
        .collect()
}

fn number(text: &str) -> Exact {
    match text.strip_prefix('-') {
        Some(rest) => -parse::number(rest).expect("a number"),
        None => parse::number(text).expect("a number"),
    }
}

fn yes_no(text: Option<&&str>) -> Answer {
    match text {
        Some(&"yes") => Answer::Yes,
        Some(&"no") => Answer::No,
        None => Answer::Unknown,
        Some(other) => panic!("answer `{other}`"),
    }
}

fn heat(row: &BTreeMap<&str, &str>, flags: &BTreeMap<&str, &str>) -> HeatQuestion {
    let on = flags.get("on").unwrap_or(&"2026-08-15");
    let canner = canner(row["canner"]);
    let pressure = canner.method().is_pressure();
    let mut q = HeatQuestion::new(
        row["food"],
        row["pack"].parse().expect("pack"),
        row["jar"].parse().expect("jar"),
        canner,
        on,
    );
    q.recipe = (!row["recipe"].is_empty()).then(|| row["recipe"].to_owned());
    q.elevation = (!row["elevation"].is_empty())
        .then(|| parse::elevation(row["elevation"]).expect("elevation"));
    q.acid = acid(row["acid"], row["vinegar"]);
    q.history = history(row["history"]);
    q.answers = pairs(row["answers"])
        .into_iter()
        .map(|(k, v)| (k.to_owned(), v.to_owned()))
        .collect();
    q.metric_jars_setting = flags.contains_key("metric");
    q.option = flags.get("option").map(|o| o.parse().expect("option"));
    q.low_temperature = flags.contains_key("low-temperature");
    q.jars_sterilised = yes_no(flags.get("sterile"));
    q.canner_holds_quart_jars = match flags.get("holds") {
        Some(&"none") => None,
        Some(count) => Some(count.parse().expect("count")),
        None => pressure.then_some(7),
    };
    q.canner_volume_quarts = flags.get("volume").map(|v| v.parse().expect("volume"));
    q
}

fn canner(text: &str) -> CannerFacts {
    let words: Vec<&str> = text.split(' ').collect();
    let weights = |words: &[&str]| words.iter().map(|w| w.parse().expect("weight")).collect();
    match words.as_slice() {
        ["boiling-water"] => CannerFacts::BoilingWater,
        ["steam"] => CannerFacts::Steam,
        ["dial", "untested"] => CannerFacts::Dial {
            error_psi: None,
            tested_on: None,
        },
        ["dial", error, day] => CannerFacts::Dial {
            error_psi: Some(number(error)),
            tested_on: Some((*day).to_owned()),
        },
        ["weights", rest @ ..] => CannerFacts::Weighted {
            weights_psi: weights(rest),
        },
        ["dial-with-weights", rest @ ..] => CannerFacts::DialWithWeight {
            weights_psi: weights(rest),
        },
        _ => panic!("canner `{text}`"),
    }
}

fn acid(acid: &str, vinegar: &str) -> Option<AcidUse> {
    if acid.is_empty() && vinegar.is_empty() {
        return None;
    }
    let portions = acid
        .split(" + ")
        .filter(|part| !part.is_empty())
        .map(|part| {
            let (share, name) = part.split_once(' ').expect("share and acid");
            AcidPortion {
                acid: name.to_owned(),
                share: match share {
                    "whole" => Exact::from_integer(1),
                    "half" => Exact::new(1, 2),
                    other => panic!("share `{other}`"),
                },
            }
        })
        .collect();
    let facts = (!vinegar.is_empty()).then(|| VinegarFacts {
        label_percent: vinegar
            .split(' ')
            .next()
            .filter(|word| *word != "unknown")
            .map(number),
        diluted_to_five: vinegar.ends_with("diluted"),
    });
    Some(AcidUse {
        portions,
        vinegar: facts,
    })
}

fn history(text: &str) -> ProduceHistory {
    match text {
        "sound" => ProduceHistory::sound(),
        "unknown" | "" => ProduceHistory::unknown(),
        facts => {
            let facts = pairs(facts);
            ProduceHistory {
                dead_or_frosted_vine: yes_no(facts.get("vine")),
                diseased: yes_no(facts.get("disease")),
                split_or_fallen: yes_no(facts.get("split")),
                frozen_before: yes_no(facts.get("frozen")),
            }
        }
    }
}

fn route(row: &BTreeMap<&str, &str>, flags: &BTreeMap<&str, &str>) -> RouteQuestion {
    let word = |name: &str| serde_json::Value::String(flags[name].to_owned());
    let route: KeepRoute = serde_json::from_value(word("route")).expect("route");
    let mut q = RouteQuestion::new(route, row["food"]);
    q.recipe = (!row["recipe"].is_empty()).then(|| row["recipe"].to_owned());
    q.kind = serde_json::from_value::<FoodKind>(word("kind")).expect("kind");
    if flags.contains_key("state") {
        q.state = serde_json::from_value::<FoodState>(word("state")).expect("state");
    }
    q.under_oil = yes_no(flags.get("oil"));
    q.vacuum_packed = yes_no(flags.get("vacuum"));
    q.fully_dry = yes_no(flags.get("dry"));
    q.salt_tbsp_per_5_lb = flags.get("salt").map(|text| number(text));
    if let Some((low, high)) = flags.get("room").and_then(|text| text.split_once('-')) {
        q.room_low_f = Some(number(low));
        q.room_high_f = Some(number(high));
    }
    q
}

fn incident(flags: &BTreeMap<&str, &str>) -> IncidentQuestion {
    let mut q = IncidentQuestion::new(flags["incident"]);
    q.minutes_since_lifted = flags
        .get("lifted")
        .map(|text| text.parse().expect("minutes"));
    q.sealed = yes_no(flags.get("sealed"));
    q
}
