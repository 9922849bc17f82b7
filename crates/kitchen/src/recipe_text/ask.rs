//! What a written recipe leaves open, and the answers to it: asked once for the whole recipe.

use quantity::{Exact, parse};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// What is asked of a recipe.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Ask {
    /// A capital T.
    BigT,
    /// A small t.
    SmallT,
    /// A cup.
    Cup,
    /// A pint, quart, gallon or fluid ounce.
    Pint,
    /// A spoon, in a recipe with metric or imperial measures.
    Spoon,
    /// An ounce of a liquid.
    Ounce,
    /// A vinegar whose strength is not written.
    Vinegar,
}

/// An answer that cannot be taken.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AnswerError {
    /// The question's key.
    pub key: String,
    /// What is wrong.
    pub cause: String,
    /// What to write.
    pub example: String,
}

impl Ask {
    /// Every question, in the order they are asked.
    pub const ALL: &'static [Ask] = &[
        Ask::BigT,
        Ask::SmallT,
        Ask::Cup,
        Ask::Pint,
        Ask::Spoon,
        Ask::Ounce,
        Ask::Vinegar,
    ];

    /// Its key, as an answer names it.
    pub const fn key(self) -> &'static str {
        match self {
            Ask::BigT => "big-t",
            Ask::SmallT => "small-t",
            Ask::Cup => "cup",
            Ask::Pint => "pint",
            Ask::Spoon => "spoon",
            Ask::Ounce => "ounce",
            Ask::Vinegar => "vinegar",
        }
    }

    /// The question in words.
    pub const fn words(self) -> &'static str {
        match self {
            Ask::BigT => "What is a capital T in this recipe?",
            Ask::SmallT => "What is a small t in this recipe?",
            Ask::Cup => "Which cup does this recipe mean?",
            Ask::Pint => "Which pint, quart, gallon or fluid ounce does this recipe mean?",
            Ask::Spoon => "Which spoons does this recipe mean?",
            Ask::Ounce => "Are the ounces of liquid weighed or measured?",
            Ask::Vinegar => "How strong is the vinegar, in percent, by its label?",
        }
    }

    /// What can be answered, with words for each. A vinegar's percent may be any number.
    pub const fn choices(self) -> &'static [(&'static str, &'static str)] {
        match self {
            Ask::BigT | Ask::SmallT => {
                &[("tablespoon", "a tablespoon"), ("teaspoon", "a teaspoon")]
            }
            Ask::Cup => &[
                ("us", "the US cup, 236.6 ml"),
                ("metric", "the metric cup, 250 ml"),
                ("imperial", "the imperial cup, 284.1 ml"),
            ],
            Ask::Pint => &[
                ("us", "US: a pint of 473.2 ml"),
                ("imperial", "imperial: a pint of 568.3 ml"),
            ],
            Ask::Spoon => &[
                ("us", "US: a tablespoon of 14.8 ml"),
                ("metric", "metric: a tablespoon of 15 ml"),
                ("20-ml", "a tablespoon of 20 ml, a teaspoon of 5 ml"),
            ],
            Ask::Ounce => &[
                ("weight", "weighed"),
                ("us", "US fluid ounces"),
                ("imperial", "imperial fluid ounces"),
            ],
            Ask::Vinegar => &[("5", "5 percent"), ("unknown", "nobody knows")],
        }
    }
}

/// Answers to what a recipe leaves open.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Answers(BTreeMap<Ask, String>);

impl Answers {
    /// Answers by the keys of the questions; an empty answer answers nothing.
    ///
    /// # Errors
    /// A question there is not, or an answer that is none of its choices.
    pub fn from_pairs<'a>(
        pairs: impl IntoIterator<Item = (&'a str, &'a str)>,
    ) -> Result<Answers, AnswerError> {
        let mut answers = Answers::default();
        for (key, answer) in pairs {
            let answer = answer.trim().to_lowercase();
            if answer.is_empty() {
                continue;
            }
            let Some(ask) = Ask::ALL.iter().find(|ask| ask.key() == key.trim()) else {
                let keys: Vec<&str> = Ask::ALL.iter().map(|ask| ask.key()).collect();
                return Err(AnswerError {
                    key: key.trim().to_owned(),
                    cause: format!("«{}» is no question that a recipe is asked.", key.trim()),
                    example: format!("The questions are {}.", keys.join(", ")),
                });
            };
            let known = ask.choices().iter().any(|(choice, _)| *choice == answer);
            let percent = *ask == Ask::Vinegar && parse::percent(&answer).is_ok();
            if !known && !percent {
                let choices: Vec<&str> = ask.choices().iter().map(|(choice, _)| *choice).collect();
                return Err(AnswerError {
                    key: ask.key().to_owned(),
                    cause: format!("«{answer}» is no answer to «{}».", ask.words()),
                    example: format!("Answer {}={}.", ask.key(), choices.join(" or ")),
                });
            }
            answers.0.insert(*ask, answer);
        }
        Ok(answers)
    }

    /// The answer to a question.
    pub fn get(&self, ask: Ask) -> Option<&str> {
        self.0.get(&ask).map(String::as_str)
    }

    /// Every answer, in the order of the questions.
    pub fn iter(&self) -> impl Iterator<Item = (Ask, &str)> {
        self.0.iter().map(|(ask, answer)| (*ask, answer.as_str()))
    }

    /// Does an answer say that the recipe does not measure by the US system?
    pub(super) fn foreign(&self) -> bool {
        [Ask::Cup, Ask::Pint]
            .iter()
            .filter_map(|ask| self.get(*ask))
            .any(|answer| answer != "us")
    }

    /// The strength of the vinegars without one, in percent; none when nobody knows it.
    pub(super) fn vinegar(&self) -> Option<Exact> {
        let percent = parse::percent(self.get(Ask::Vinegar)?).ok()?;
        Some(percent.number())
    }
}
