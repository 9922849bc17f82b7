//! The gate's no: code, reason, what to do instead, and what was read for it.

use serde::Serialize;

/// A refusal. Never a dead end: `instead` always says what can be done.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Refusal {
    /// One of [`crate::codes::CODES`].
    pub code: &'static str,
    /// Why, in words.
    pub reason: String,
    /// What to do instead.
    pub instead: String,
    /// What was read for it, fit to show.
    pub source: String,
    /// Other ways that have a printed process, or the answers to choose from.
    pub offers: Vec<Offer>,
}

/// Another way that has a printed process, or needs none.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Offer {
    /// `jar`, `method`, `pack`, `option`, `food`, `recipe`, `freezer`, or `answer`: a word to choose
    /// when an answer is missing.
    pub kind: &'static str,
    /// Its word in the tables.
    pub value: String,
    /// In words.
    pub text: String,
}

impl Refusal {
    /// A refusal with no offers yet.
    pub fn new(
        code: &'static str,
        reason: impl Into<String>,
        instead: impl Into<String>,
        source: impl Into<String>,
    ) -> Refusal {
        Refusal {
            code,
            reason: reason.into(),
            instead: instead.into(),
            source: source.into(),
            offers: Vec::new(),
        }
    }

    /// The same with offers; they are also named in `instead`.
    pub(crate) fn offering(mut self, offers: Vec<Offer>) -> Refusal {
        if !offers.is_empty() {
            let texts: Vec<&str> = offers.iter().map(|o| o.text.as_str()).collect();
            self.instead = format!("{} Possible: {}.", self.instead, texts.join("; "));
        }
        self.offers = offers;
        self
    }

    /// The same with the words to choose from; `instead` names them already.
    pub(crate) fn choosing(mut self, choices: Vec<String>) -> Refusal {
        self.offers.extend(choices.into_iter().map(|word| Offer {
            kind: "answer",
            text: word.clone(),
            value: word,
        }));
        self
    }
}

impl std::fmt::Display for Refusal {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}: {} {}", self.code, self.reason, self.instead)
    }
}
