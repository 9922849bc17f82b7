//! What a lot has been through: asked once, changeable later, and the routes it closes.

use std::collections::BTreeMap;

use jiff::civil::DateTime;
use safety::{Answer, ProduceHistory};
use serde::{Deserialize, Serialize};

use crate::closest::normal;
use crate::crop::{CropRow, crop, either};
use crate::lot_error::LotError;
use crate::recipe::Route;

/// Hours that cut or cooked food may stand warm before it is thrown away.
const HOURS_WARM: i64 = 2;

/// A question about a lot.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Question {
    /// From a dead or frost-killed vine.
    DeadOrFrostedVine,
    /// Diseased.
    Diseased,
    /// Split or bruised.
    SplitOrBruised,
    /// Picked up from the ground.
    Fallen,
    /// Frozen before.
    FrozenBefore,
    /// Cut or cooked already.
    CutOrCooked,
}

impl Question {
    /// All questions, in the order they are asked.
    pub const ALL: [Question; 6] = [
        Question::DeadOrFrostedVine,
        Question::Diseased,
        Question::SplitOrBruised,
        Question::Fallen,
        Question::FrozenBefore,
        Question::CutOrCooked,
    ];

    /// The key sent with a form.
    pub fn key(self) -> &'static str {
        match self {
            Question::DeadOrFrostedVine => "dead-or-frosted-vine",
            Question::Diseased => "diseased",
            Question::SplitOrBruised => "split-or-bruised",
            Question::Fallen => "fallen",
            Question::FrozenBefore => "frozen-before",
            Question::CutOrCooked => "cut-or-cooked",
        }
    }

    /// The question as it is asked.
    pub fn text(self) -> &'static str {
        match self {
            Question::DeadOrFrostedVine => "Does it come from a dead or frost-killed plant?",
            Question::Diseased => "Does it show disease (blight, rot, mould)?",
            Question::SplitOrBruised => "Is it split, cracked or bruised?",
            Question::Fallen => "Did it lie on the ground?",
            Question::FrozenBefore => "Has it been frozen before?",
            Question::CutOrCooked => "Is it cut or cooked already?",
        }
    }

    /// The question with this key. Error: `UnknownQuestion`.
    pub fn from_key(key: &str) -> Result<Self, LotError> {
        Question::ALL
            .into_iter()
            .find(|question| question.key() == key.trim())
            .ok_or_else(|| LotError::UnknownQuestion {
                text: key.trim().to_owned(),
                known: either(Question::ALL.into_iter().map(Question::key)),
            })
    }
}

/// Reads "yes", "no" or "unknown". Error: `UnknownAnswer`.
pub fn answer(text: &str) -> Result<Answer, LotError> {
    match normal(text).as_str() {
        "yes" | "y" => Ok(Answer::Yes),
        "no" | "n" => Ok(Answer::No),
        "unknown" | "don't know" | "not sure" | "?" | "" => Ok(Answer::Unknown),
        _ => Err(LotError::UnknownAnswer {
            text: text.trim().to_owned(),
        }),
    }
}

/// The word stored and sent for an answer.
pub fn answer_word(answer: Answer) -> &'static str {
    match answer {
        Answer::Yes => "yes",
        Answer::No => "no",
        Answer::Unknown => "unknown",
    }
}

/// The answers given so far; what was not answered is unknown.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct History {
    /// Answers by question.
    pub answers: BTreeMap<Question, Answer>,
    /// When it was cut or cooked, if it was and that is known.
    pub cut_or_cooked_at: Option<DateTime>,
    /// Whether it has been in the fridge since it was cut or cooked.
    pub chilled_since: bool,
}

impl History {
    /// A lot of which every question is answered with no.
    pub fn clean() -> Self {
        Self {
            answers: Question::ALL
                .into_iter()
                .map(|question| (question, Answer::No))
                .collect(),
            ..Self::default()
        }
    }

    /// The same history with one answer changed.
    pub fn with(mut self, question: Question, answer: Answer) -> Self {
        self.answers.insert(question, answer);
        self
    }

    /// The answer to a question.
    pub fn answer(&self, question: Question) -> Answer {
        self.answers
            .get(&question)
            .copied()
            .unwrap_or(Answer::Unknown)
    }
}

/// What the gate is told of a batch drawn from these lots: any yes makes a yes, else any unknown
/// an unknown. No lot at all is unknown throughout.
pub fn produce_history<'a>(lots: impl IntoIterator<Item = &'a History>) -> ProduceHistory {
    let lots: Vec<&History> = lots.into_iter().collect();
    let worst = |questions: &[Question]| {
        if lots.is_empty() {
            return Answer::Unknown;
        }
        let mut worst = Answer::No;
        for lot in &lots {
            for &question in questions {
                match lot.answer(question) {
                    Answer::Yes => return Answer::Yes,
                    Answer::Unknown => worst = Answer::Unknown,
                    Answer::No => {}
                }
            }
        }
        worst
    };
    ProduceHistory {
        dead_or_frosted_vine: worst(&[Question::DeadOrFrostedVine]),
        diseased: worst(&[Question::Diseased]),
        split_or_fallen: worst(&[Question::SplitOrBruised, Question::Fallen]),
        frozen_before: worst(&[Question::FrozenBefore]),
    }
}

/// A route that a lot's history closes, or opens only under a condition.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct RouteLimit {
    /// The route.
    pub route: Route,
    /// Closed altogether; otherwise open under the condition in `reason`.
    pub closed: bool,
    /// The question behind it.
    pub question: Question,
    /// Closed only because the question has no answer yet.
    pub until_answered: bool,
    /// Why, as a sentence.
    pub reason: String,
    /// Where that was read.
    pub source: &'static str,
}

const TOMATO_CHAPTER: &str = "USDA AIB 539 (2015) p. 3-5";
const DECISION: &str = "our decision, no figure read";
const BLIGHT: &str = "USDA AIB 539 (2015) p. 3-5 (disease-free fruit); Michigan State University Extension, canr.msu.edu/news/to_can_or_not_to_can_the_tomatoes_are_looking_a_bit_spotty_are_they_safe_to";
const THAWED: &str =
    "ruralradio.com/kneb-am/news/canning-tomatoes-that-froze-on-the-plant-tips-for-preservation";
const TWO_HOURS: &str =
    "common practice, no source (the two-hour limit for perishable food above 40 F)";

/// The routes a lot's history closes or limits. `now` is needed once something was cut or cooked.
/// Error: `UnknownCrop`.
pub fn route_limits(
    crop_key: &str,
    history: &History,
    now: Option<DateTime>,
) -> Result<Vec<RouteLimit>, LotError> {
    let crop = crop(crop_key)?;
    let mut limits = Vec::new();
    for question in Question::ALL {
        match history.answer(question) {
            Answer::Yes => said_yes(crop, question, history, now, &mut limits),
            Answer::Unknown => not_answered(crop, question, &mut limits),
            Answer::No => {}
        }
    }
    Ok(limits)
}

/// Whether the history closes this route. Error: `UnknownCrop`.
pub fn closes(
    crop_key: &str,
    history: &History,
    now: Option<DateTime>,
    route: Route,
) -> Result<bool, LotError> {
    Ok(route_limits(crop_key, history, now)?
        .iter()
        .any(|limit| limit.closed && limit.route == route))
}

fn not_answered(crop: &CropRow, question: Question, limits: &mut Vec<RouteLimit>) {
    // Cut or cooked is seen, not remembered: silence means whole.
    if crop.is_tomato_like() && question != Question::CutOrCooked {
        limits.push(RouteLimit {
            route: Route::Heat,
            closed: true,
            question,
            until_answered: true,
            reason: format!("Not for jars until this is answered: {}", question.text()),
            source: TOMATO_CHAPTER,
        });
    }
}

fn said_yes(
    crop: &CropRow,
    question: Question,
    history: &History,
    now: Option<DateTime>,
    limits: &mut Vec<RouteLimit>,
) {
    let mut add = |closed: bool, routes: &[Route], reason: &str, source: &'static str| {
        limits.extend(routes.iter().map(|&route| RouteLimit {
            route,
            closed,
            question,
            until_answered: false,
            reason: reason.to_owned(),
            source,
        }));
    };
    let tomato = crop.is_tomato_like();
    match question {
        Question::DeadOrFrostedVine if tomato => add(
            true,
            &[Route::Heat],
            "Never can tomatoes from dead or frost-killed vines: they lose acid. Eat them fresh or freeze them.",
            TOMATO_CHAPTER,
        ),
        Question::DeadOrFrostedVine => add(
            false,
            &[Route::Heat, Route::Crock, Route::ColdRoom],
            "From a dead or frosted plant: only what is still firm and sound.",
            DECISION,
        ),
        Question::Diseased => {
            let source = if tomato { BLIGHT } else { DECISION };
            add(
                true,
                &[Route::Heat, Route::Crock, Route::ColdRoom],
                "Diseased produce is not for jars or crock and does not keep.",
                source,
            );
            add(
                true,
                &[Route::Animals, Route::Seed],
                "Diseased produce goes neither to animals nor to seed.",
                DECISION,
            );
            add(
                false,
                &[Route::Freezer, Route::Dryer, Route::Fresh],
                "Only what stays sound after generous trimming, today.",
                DECISION,
            );
        }
        Question::SplitOrBruised => {
            if tomato {
                add(
                    true,
                    &[Route::Heat],
                    "Split or bruised tomatoes are not firm, sound fruit: damage lowers the acid around it.",
                    TOMATO_CHAPTER,
                );
            } else {
                add(
                    false,
                    &[Route::Heat],
                    "Cut bruises and splits away generously; leave out what is soft.",
                    DECISION,
                );
            }
            add(
                true,
                &[Route::Crock, Route::ColdRoom],
                "Bruised or split produce rots in crock and store.",
                DECISION,
            );
        }
        Question::Fallen => {
            if tomato {
                add(
                    true,
                    &[Route::Heat],
                    "Tomatoes from the ground are bruised and soiled: not for jars.",
                    DECISION,
                );
            }
            add(
                false,
                &[Route::Fresh, Route::Dryer],
                "It lay on the ground: wash well and cook it; not eaten raw.",
                DECISION,
            );
        }
        Question::FrozenBefore => {
            let heat = if tomato {
                "Frozen tomatoes go to jars only as juice, sauce or well-cooked crushed tomatoes packed hot, never whole; and only if they froze in the freezer, not on a dead vine."
            } else {
                "Once frozen, only a recipe whose own text takes frozen produce; the gate answers for each recipe."
            };
            add(false, &[Route::Heat], heat, THAWED);
            add(
                true,
                &[Route::Crock, Route::ColdRoom, Route::Seed],
                "Frozen produce is soft once thawed: not for crock, store or seed.",
                DECISION,
            );
        }
        Question::CutOrCooked => {
            let people = [
                Route::Heat,
                Route::Freezer,
                Route::Dryer,
                Route::Crock,
                Route::Fridge,
                Route::Fresh,
                Route::Animals,
            ];
            match hours_warm(history, now) {
                _ if history.chilled_since => add(
                    false,
                    &[Route::Heat, Route::Freezer],
                    "Cut or cooked and kept cold: bring it back to a full boil before it goes on.",
                    TWO_HOURS,
                ),
                Some(hours) if hours <= HOURS_WARM => add(
                    false,
                    &[Route::Heat, Route::Freezer, Route::Fridge],
                    "Cut or cooked: use or chill it within two hours.",
                    TWO_HOURS,
                ),
                Some(_) => add(
                    true,
                    &people,
                    "Cut or cooked and warm for more than two hours: compost it.",
                    TWO_HOURS,
                ),
                None => limits.extend(people.map(|route| {
                    RouteLimit {
                        route,
                        closed: true,
                        question,
                        until_answered: true,
                        reason: "Cut or cooked: say when, or that it has been in the fridge since."
                            .to_owned(),
                        source: TWO_HOURS,
                    }
                })),
            }
            limits.push(RouteLimit {
                route: Route::ColdRoom,
                closed: true,
                question,
                until_answered: false,
                reason: "Cut or cooked produce does not keep in the cold room.".to_owned(),
                source: DECISION,
            });
        }
    }
}

/// Whole hours since it was cut or cooked, part hours counted up; `None` when that is not known.
fn hours_warm(history: &History, now: Option<DateTime>) -> Option<i64> {
    let since = history.cut_or_cooked_at?;
    let minutes = now?.duration_since(since).as_mins();
    // A time still to come is a slip, and so is no known time.
    (minutes >= 0).then(|| (minutes + 59) / 60)
}
