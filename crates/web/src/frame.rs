//! What every page gets besides its own matter: the house for the masthead, the message of what
//! was just done, the form to show again, and one-time tokens.

use crate::form::Filled;
use crate::part::{notice, refusal_notice};
use crate::state::Said;
use maud::{Markup, html};
use std::cell::Cell;
use std::hash::{BuildHasher, RandomState};
use std::sync::atomic::{AtomicU64, Ordering};

/// Makes one-time tokens. They only tell one sending of a form from another; they guard nothing.
#[derive(Debug)]
pub struct Tokens {
    keys: (RandomState, RandomState),
    next: AtomicU64,
}

impl Default for Tokens {
    fn default() -> Self {
        Self {
            keys: (RandomState::new(), RandomState::new()),
            next: AtomicU64::new(1),
        }
    }
}

impl Tokens {
    /// A token that no earlier page of this or an earlier run has had, as 32 hex digits.
    pub fn fresh(&self) -> String {
        let count = self.next.fetch_add(1, Ordering::Relaxed);
        format!(
            "{:016x}{:016x}",
            self.keys.0.hash_one(count),
            self.keys.1.hash_one(count)
        )
    }
}

/// The frame of one page.
#[derive(Debug, Default)]
pub struct Frame {
    /// House and elevation, once known.
    pub house: Option<String>,
    /// What was just done, and how it can be taken back.
    pub said: Option<Said>,
    /// The form that is shown again, where one is.
    pub filled: Filled,
    /// Stem of the tokens of this page's forms.
    pub stem: String,
    /// Forms given a token so far.
    pub given: Cell<u32>,
}

impl Frame {
    /// The hidden field that tells this form's sending from every other.
    pub fn token(&self) -> Markup {
        let number = self.given.get() + 1;
        self.given.set(number);
        html! { input type="hidden" name="token" value=(format!("{}-{number}", self.stem)); }
    }

    /// What was done or what went wrong, at the head of the page; `field` is the id of the message
    /// beside the field it is about.
    pub fn message(&self, field: Option<&str>) -> Markup {
        html! {
            @if let Some(error) = &self.filled.wrong {
                (refusal_notice(&error.cause, &error.action))
                @if let Some(field) = field { p.onward { a.btn href=(format!("#{field}")) { "To that field" } } }
            }
            @if let Some(said) = &self.said {
                (notice(&said.words))
                @if let Some((entry, back)) = &said.undo {
                    form.undo method="post" action="/undo" {
                        (self.token())
                        input type="hidden" name="entry" value=(entry);
                        input type="hidden" name="back" value=(back);
                        button.btn type="submit" { "Undo that" }
                    }
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{Frame, Tokens};

    #[test]
    fn no_two_forms_share_a_token() {
        let tokens = Tokens::default();
        let (a, b) = (tokens.fresh(), tokens.fresh());
        assert_ne!(a, b);
        assert_eq!(a.len(), 32);
        let frame = Frame {
            stem: a,
            ..Frame::default()
        };
        assert_ne!(frame.token().into_string(), frame.token().into_string());
        assert_ne!(
            Tokens::default().fresh(),
            b,
            "two runs of the program draw different tokens"
        );
    }
}
