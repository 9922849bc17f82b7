//! From a look-up to a permit: the gate is asked with what the house has and what was answered,
//! and what it still wants is put as a question with its answers.

use super::choose::Chosen;
use super::{Kitchen, Question, address};
use crate::error::AppError;
use crate::gate;
use crate::read::house::jar_words;
use crate::read::verdict;
use crate::view::Choice;
use crate::view::batch::VerdictView;
use crate::view::process::{FoodQuestion, OpenLine, SwitchChoice};
use quantity::Exact;
use reference::{Method, QuestionEffect, QuestionRow, Reference};
use safety::{
    AcidPortion, AcidUse, HeatQuestion, ProduceHistory, Refusal, Verdict, VinegarFacts, codes,
};

/// What came of asking.
pub(super) enum Asked {
    /// A permit.
    Permit(Box<VerdictView>),
    /// What stands between here and one.
    Open(OpenLine),
}

/// Asks the gate for this house and canner.
///
/// # Errors
/// A word among the answers that is not understood.
pub(super) fn ask(
    reference: &Reference,
    kitchen: &Kitchen,
    asked: &Question<'_>,
    chosen: &Chosen<'_>,
) -> Result<Asked, AppError> {
    let mut question = chosen.question(kitchen, asked);
    answered(reference, asked, &mut question)?;
    Ok(match safety::judge_heat(reference, &question) {
        Verdict::Permit(permit) => {
            let mut plate = verdict::permit(&permit.record(), &asked.typed_elevation);
            plate.cannot_know.extend(
                permit
                    .assumed()
                    .iter()
                    .map(|line| format!("Taken as given: {line}")),
            );
            Asked::Permit(Box::new(plate))
        }
        Verdict::Refusal(refusal) => Asked::Open(open(reference, asked, &refusal)),
    })
}

/// Puts what was answered into the question.
fn answered(
    reference: &Reference,
    asked: &Question<'_>,
    question: &mut HeatQuestion,
) -> Result<(), AppError> {
    let said = asked.said;
    question.history = match said.sound.trim() {
        "" => ProduceHistory::unknown(),
        "yes" => ProduceHistory::sound(),
        other => {
            return Err(AppError::input(
                "sound",
                format!("«{other}» does not say that the produce is sound."),
                "Say «yes» when it comes from living, healthy plants, is not split and was never frozen; else leave it out.",
            ));
        }
    };
    let vinegar = match said.vinegar.trim() {
        "" => None,
        text => Some(VinegarFacts {
            label_percent: Some(
                quantity::parse::percent(text)
                    .map_err(|error| {
                        AppError::input("vinegar", error.to_string(), "Write it as «5».")
                    })?
                    .number(),
            ),
            diluted_to_five: false,
        }),
    };
    let portions: Vec<AcidPortion> = match said.acid.trim() {
        "" => Vec::new(),
        acid => vec![AcidPortion {
            acid: acid.to_owned(),
            share: Exact::from_integer(1),
        }],
    };
    if vinegar.is_some() || !portions.is_empty() {
        question.acid = Some(AcidUse { portions, vinegar });
    }
    question.answers.clone_from(&said.answers);
    gate::answer_what_has_one_answer(reference, question);
    Ok(())
}

/// A canner that gives no permit as it stands.
pub(super) fn bar(refusal: &Refusal) -> OpenLine {
    OpenLine {
        code: refusal.code.to_owned(),
        text: refusal.reason.clone(),
        instead: refusal.instead.clone(),
        answers: Vec::new(),
    }
}

/// What the gate wants to be told, with the answers that can be given on the spot.
fn open(reference: &Reference, asked: &Question<'_>, refusal: &Refusal) -> OpenLine {
    let one = |title: &str, field: &str, word: &str| SwitchChoice {
        asks: address::with(asked, &[(field, word)]),
        title: title.to_owned(),
        here: false,
    };
    let choices = |field: &str| {
        refusal
            .offers
            .iter()
            .filter(|offer| offer.kind == "answer")
            .map(|offer| one(&offer.text.replace('-', " "), field, &offer.value))
            .collect::<Vec<_>>()
    };
    let answers = match refusal.code {
        codes::HISTORY_UNKNOWN => vec![one(
            "Sound: living plants, no disease, not split, never frozen",
            "sound",
            "yes",
        )],
        codes::ACID_NOT_CHOSEN | codes::ACID_NOT_LISTED => choices("acid"),
        codes::QUESTION_UNANSWERED => {
            let key = reference
                .questions_for(&asked.food.food)
                .into_iter()
                .find(|row| refusal.reason.contains(&format!("`{}`", row.question)))
                .map(|row| format!("answers.{}", row.question));
            key.map(|key| choices(&key)).unwrap_or_default()
        }
        codes::VINEGAR_STRENGTH_UNKNOWN => reference
            .limit("group:pickle", "vinegar-5pct")
            .and_then(|limit| limit.value.as_ref())
            .map(|percent| {
                let percent = percent.text();
                one(
                    &format!("{percent} percent on the label"),
                    "vinegar",
                    percent,
                )
            })
            .into_iter()
            .collect(),
        _ => Vec::new(),
    };
    OpenLine {
        code: refusal.code.to_owned(),
        text: refusal.reason.clone(),
        instead: refusal.instead.clone(),
        answers,
    }
}

/// Whether a question of the food is raised by this pack, jar and method.
pub(super) fn raised(row: &QuestionRow, chosen: &Chosen<'_>) -> bool {
    row.is_raised(chosen.pack, Some(chosen.jar), chosen.row_method())
}

/// The questions of the food, each with its answers and what they mean.
pub(super) fn questions(
    reference: &Reference,
    asked: &Question<'_>,
    chosen: &Chosen<'_>,
) -> Vec<FoodQuestion> {
    let mut questions: Vec<FoodQuestion> = Vec::new();
    for row in reference
        .questions_for(&asked.food.food)
        .into_iter()
        .filter(|row| raised(row, chosen))
    {
        if row.effect == QuestionEffect::EitherPack {
            questions.push(FoodQuestion {
                key: String::new(),
                text: format!("{}: {}.", row.text, row.note),
                answers: Vec::new(),
                given: String::new(),
                source: row.source.clone(),
            });
            continue;
        }
        let choice = Choice::new(
            &row.answer,
            format!("{}: {}", row.answer.replace('-', " "), row.note),
        );
        match questions.iter_mut().find(|known| known.key == row.question) {
            Some(known) if known.answers.iter().all(|other| other.key != choice.key) => {
                known.answers.push(choice);
            }
            Some(_) => {}
            None => questions.push(FoodQuestion {
                key: row.question.clone(),
                text: row.text.clone(),
                answers: vec![choice],
                given: asked
                    .said
                    .answers
                    .get(&row.question)
                    .cloned()
                    .unwrap_or_default(),
                source: row.source.clone(),
            }),
        }
    }
    questions.extend(low_temperature(reference, asked, chosen));
    questions
}

/// The treatment in water below the boil, where the tables print it for this pack and jar: a
/// treatment of its own, which never takes the place of the row above it.
fn low_temperature(
    reference: &Reference,
    asked: &Question<'_>,
    chosen: &Chosen<'_>,
) -> Option<FoodQuestion> {
    let (row, _) = reference
        .low_temp_for(&asked.food.food)
        .into_iter()
        .find(|(row, _)| row.jar == chosen.jar && row.pack.serves(chosen.pack))
        .filter(|_| chosen.method() == Method::BoilingWater)?;
    Some(FoodQuestion {
        key: String::new(),
        text: format!(
            "Also printed for this {}: {} minutes in water held at {} to {} F all of the time, in place of boiling.",
            jar_words(row.jar, 1),
            row.minutes,
            row.water_low_f,
            row.water_high_f
        ),
        answers: Vec::new(),
        given: String::new(),
        source: row.source.clone(),
    })
}

/// The refusal of an answer that closes the table: it needs no house.
pub(super) fn closed_by_answer(
    reference: &Reference,
    asked: &Question<'_>,
    chosen: &Chosen<'_>,
) -> Option<Refusal> {
    reference
        .questions_for(&asked.food.food)
        .into_iter()
        .find(|row| {
            row.effect == QuestionEffect::Refuse
                && raised(row, chosen)
                && asked.said.answers.get(&row.question) == Some(&row.answer)
        })
        .map(|row| safety::closed_by(asked.food, row))
}
