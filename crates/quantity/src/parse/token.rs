//! Reads numbers, words and signs off a typed text, one after the other.

use num_traits::Zero;

use crate::{Exact, QuantityError, checked_add, checked_mul, exact};

/// Most digits read in one number: beyond this the text is a slip, not an amount.
const MOST_DIGITS: usize = 15;

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Sign {
    Plus,
    Minus,
}

/// The part of a typed text that is not read yet.
pub(super) struct Reader<'a> {
    whole: &'a str,
    rest: &'a str,
    example: &'static str,
}

impl<'a> Reader<'a> {
    pub(super) fn new(text: &'a str, example: &'static str) -> Result<Self, QuantityError> {
        let text = text.trim();
        if text.is_empty() {
            return Err(QuantityError::Empty { example });
        }
        if text.contains(',') {
            return Err(QuantityError::Comma {
                text: text.to_owned(),
            });
        }
        Ok(Self {
            whole: text,
            rest: text,
            example,
        })
    }

    /// "2", "2.25", "1/3", "2 1/4", "½", "2½"; a minus is its own error.
    pub(super) fn unsigned(&mut self) -> Result<Exact, QuantityError> {
        self.skip_space();
        if self.rest.starts_with(['-', '\u{2212}']) {
            return Err(QuantityError::Negative {
                text: self.whole.to_owned(),
                example: self.example,
            });
        }
        if let Some(part) = self.vulgar() {
            return Ok(part);
        }
        let first = self.decimal()?;
        if self.take('/') {
            let below = self.decimal()?;
            return self.over(first, below);
        }
        if !first.is_integer() {
            return Ok(first);
        }
        // "2 1/4" and "2½": a fraction may follow a whole number.
        let before = self.rest;
        self.skip_space();
        if let Some(part) = self.vulgar() {
            return checked_add(first, part);
        }
        if self.rest.starts_with(|c: char| c.is_ascii_digit())
            && let Ok(above) = self.decimal()
            && self.take('/')
        {
            let below = self.decimal()?;
            let part = self.over(above, below)?;
            return checked_add(first, part);
        }
        self.rest = before;
        Ok(first)
    }

    fn over(&self, above: Exact, below: Exact) -> Result<Exact, QuantityError> {
        if below.is_zero() {
            return Err(QuantityError::DivideByZero {
                text: self.whole.to_owned(),
            });
        }
        crate::checked_div(above, below)
    }

    /// Digits with at most one point.
    fn decimal(&mut self) -> Result<Exact, QuantityError> {
        self.skip_space();
        let end = self
            .rest
            .find(|c: char| !(c.is_ascii_digit() || c == '.'))
            .unwrap_or(self.rest.len());
        let digits = &self.rest[..end];
        let (whole, part) = digits.split_once('.').unwrap_or((digits, ""));
        if (whole.is_empty() && part.is_empty()) || part.contains('.') {
            return Err(self.not_a_number());
        }
        if whole.len() + part.len() > MOST_DIGITS {
            return Err(QuantityError::Overflow);
        }
        self.rest = &self.rest[end..];
        let read = |digits: &str| digits.parse::<i128>().unwrap_or(0);
        let scale = 10_i128.pow(part.len() as u32);
        let above = checked_mul(Exact::from_integer(read(whole)), Exact::from_integer(scale))?;
        let above = checked_add(above, Exact::from_integer(read(part)))?;
        checked_mul(above, exact(1, scale)?)
    }

    /// One printed fraction character.
    fn vulgar(&mut self) -> Option<Exact> {
        let first = self.rest.chars().next()?;
        let (above, below) = match first {
            '\u{bd}' => (1, 2),
            '\u{2153}' => (1, 3),
            '\u{2154}' => (2, 3),
            '\u{bc}' => (1, 4),
            '\u{be}' => (3, 4),
            '\u{215b}' => (1, 8),
            '\u{215c}' => (3, 8),
            '\u{215d}' => (5, 8),
            '\u{215e}' => (7, 8),
            '\u{2159}' => (1, 6),
            '\u{215a}' => (5, 6),
            _ => return None,
        };
        self.rest = &self.rest[first.len_utf8()..];
        Some(Exact::new(above, below))
    }

    /// The unit that follows, lower-cased; two-word units are kept together ("fl oz").
    pub(super) fn word(&mut self) -> Option<String> {
        let first = self.one_word()?;
        if matches!(first.as_str(), "fl" | "fluid" | "metric" | "deg") {
            let before = self.rest;
            if let Some(second) = self.one_word() {
                return Some(format!("{first} {second}"));
            }
            self.rest = before;
        }
        Some(first)
    }

    fn one_word(&mut self) -> Option<String> {
        self.skip_space();
        let end = self
            .rest
            .find(|c: char| !(c.is_alphabetic() || c == '\'' || c == '\u{b5}'))
            .unwrap_or(self.rest.len());
        if end == 0 {
            return None;
        }
        let word = self.rest[..end]
            .to_lowercase()
            .replace(['\u{b5}', '\u{3bc}'], "u");
        self.rest = &self.rest[end..];
        // "fl. oz", "tsp."
        self.rest = self.rest.strip_prefix('.').unwrap_or(self.rest);
        Some(word)
    }

    /// A leading sign of a number that may be below zero.
    pub(super) fn sign(&mut self) -> Sign {
        self.skip_space();
        if self.take('-') || self.take('\u{2212}') {
            Sign::Minus
        } else {
            // A leading plus says nothing new.
            self.take('+');
            Sign::Plus
        }
    }

    /// "+-", "+/-" or the printed sign.
    pub(super) fn plus_minus(&mut self) -> bool {
        self.skip_space();
        for sign in ["+/-", "+-", "\u{b1}"] {
            if let Some(rest) = self.rest.strip_prefix(sign) {
                self.rest = rest;
                return true;
            }
        }
        false
    }

    /// What may stand between two parts of one amount.
    pub(super) fn joint(&mut self) {
        self.skip_space();
        if self.take('+') {
            return;
        }
        if let Some(rest) = self.rest.strip_prefix("and ") {
            self.rest = rest;
        }
    }

    pub(super) fn degree_sign(&mut self) {
        self.skip_space();
        self.take('\u{b0}');
    }

    pub(super) fn percent_sign(&mut self) -> bool {
        self.skip_space();
        self.take('%')
    }

    pub(super) fn at_end(&mut self) -> bool {
        self.skip_space();
        self.rest.is_empty()
    }

    /// Nothing may be left over.
    pub(super) fn end(&mut self) -> Result<(), QuantityError> {
        if self.at_end() {
            Ok(())
        } else {
            Err(self.not_a_number())
        }
    }

    pub(super) fn not_a_number(&self) -> QuantityError {
        QuantityError::NotANumber {
            text: self.whole.to_owned(),
            example: self.example,
        }
    }

    fn take(&mut self, sign: char) -> bool {
        match self.rest.strip_prefix(sign) {
            Some(rest) => {
                self.rest = rest;
                true
            }
            None => false,
        }
    }

    fn skip_space(&mut self) {
        self.rest = self.rest.trim_start();
    }
}
