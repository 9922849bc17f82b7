//! Builds questions for which everything the gate may ask is answered well.

use quantity::{Elevation, Exact};
use reference::{Jar, Method, Pack, ProcessRow, QuestionEffect, Reference, TablePack};
use safety::{
    AcidPortion, AcidUse, Answer, CannerFacts, HeatQuestion, ProduceHistory, VinegarFacts,
};

pub const TODAY: &str = "2026-08-15";

pub fn feet(numerator: i128, denominator: i128) -> Elevation {
    Elevation::feet(Exact::new(numerator, denominator))
}

/// The packs a row serves.
pub fn packs(row: &ProcessRow) -> Vec<Pack> {
    match row.pack {
        TablePack::Raw => vec![Pack::Raw],
        TablePack::Hot => vec![Pack::Hot],
        TablePack::Any => vec![Pack::Raw, Pack::Hot],
    }
}

/// A canner in good order for a method.
pub fn canner(method: Method) -> CannerFacts {
    match method {
        Method::DialGauge => CannerFacts::Dial {
            error_psi: Some(Exact::from_integer(0)),
            tested_on: Some("2026-05-01".to_owned()),
        },
        Method::WeightedGauge => CannerFacts::Weighted {
            weights_psi: vec![5, 10, 15],
        },
        Method::BoilingWater | Method::Steam => CannerFacts::unknown(method),
    }
}

/// The question that a row answers, at an elevation.
pub fn for_row(r: &Reference, row: &ProcessRow, pack: Pack, place: Elevation) -> HeatQuestion {
    let mut q = well_answered(r, &row.food, pack, row.jar, row.method, place);
    q.option = Some(row.option);
    q
}

/// A question for which everything the gate may ask is answered well.
pub fn well_answered(
    r: &Reference,
    food: &str,
    pack: Pack,
    jar: Jar,
    method: Method,
    place: Elevation,
) -> HeatQuestion {
    let mut q = HeatQuestion::new(food, pack, jar, canner(method), TODAY);
    q.canner_holds_quart_jars = Some(7);
    q.canner_volume_quarts = Some(22);
    q.elevation = Some(place);
    q.history = ProduceHistory::sound();
    q.jars_sterilised = Answer::Yes;
    q.acid = Some(AcidUse {
        portions: r
            .acid_for(food)
            .first()
            .map(|acid| AcidPortion {
                acid: acid.acid.clone(),
                share: Exact::from_integer(1),
            })
            .into_iter()
            .collect(),
        vinegar: Some(VinegarFacts {
            label_percent: Some(Exact::from_integer(5)),
            diluted_to_five: false,
        }),
    });
    for question in r.questions_for(food) {
        let opens = question.effect != QuestionEffect::Refuse && !question.answer.is_empty();
        let fits = question.when_pack.is_none_or(|p| p == pack);
        if opens && fits {
            q.answers
                .entry(question.question.clone())
                .or_insert_with(|| question.answer.clone());
        }
    }
    q
}
