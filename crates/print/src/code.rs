//! The short code on a card or label: read aloud over a kitchen, typed in with wet hands.
//!
//! Thirteen signs, none of which looks or sounds like another: no 0 and O, 1, I and L, 5 and S,
//! 8 and B, 2 and Z, U and V, M and N, and of the letters that rhyme with «three» none. Thirteen is
//! a prime: a check sign over weighted places finds every single wrong sign and every pair of
//! neighbours that changed places.

use crate::error::PrintError;

/// The signs, in order of value.
pub const SIGNS: [char; 13] = [
    '2', '3', '4', '6', '7', '9', 'F', 'H', 'K', 'R', 'W', 'X', 'Y',
];

const BASE: i64 = SIGNS.len() as i64;

/// Signs of the batch, at least.
const BATCH_SIGNS: usize = 3;

/// Signs of the container, at least.
const CONTAINER_SIGNS: usize = 2;

/// Signs of the batch, at most: every place keeps a weight of its own below thirteen.
const MOST_BATCH_SIGNS: usize = 8;

/// Signs of the container, at most.
const MOST_CONTAINER_SIGNS: usize = 3;

/// What a code stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Code {
    /// Number of the batch, from one.
    pub batch: i64,
    /// Number of the container within the batch, from one; nought is the card of the batch.
    pub container: i64,
}

impl Code {
    /// The code of a batch's card.
    pub const fn of_card(batch: i64) -> Self {
        Self {
            batch,
            container: 0,
        }
    }

    /// The code as printed: `2K7-33F`.
    ///
    /// # Errors
    /// A batch below one, a container below nought, or numbers no household reaches.
    pub fn to_text(self) -> Result<String, PrintError> {
        let none = || PrintError::NoCode {
            batch: self.batch,
            container: self.container,
        };
        if self.batch < 1 || self.container < 0 {
            return Err(none());
        }
        let batch = digits(self.batch, BATCH_SIGNS);
        let container = digits(self.container, CONTAINER_SIGNS);
        if batch.len() > MOST_BATCH_SIGNS || container.len() > MOST_CONTAINER_SIGNS {
            return Err(none());
        }
        let mut all = batch.clone();
        all.extend(&container);
        let mut text = signs(&batch);
        text.push('-');
        text.push_str(&signs(&container));
        text.push_str(&signs(&[check(&all)]));
        Ok(text)
    }

    /// Reads a code as it was typed or spoken: capitals or not, with spaces, its hyphen left out
    /// where the code is of the usual length.
    ///
    /// # Errors
    /// A sign that no code has, too few or too many signs, or a check sign that does not fit.
    pub fn from_text(text: &str) -> Result<Self, PrintError> {
        let wrong = |why: String| PrintError::WrongCode {
            code: text.trim().to_owned(),
            why,
        };
        let mut groups: Vec<Vec<i64>> = vec![Vec::new()];
        for sign in text.trim().chars().filter(|sign| !sign.is_whitespace()) {
            if matches!(sign, '-' | '\u{2010}'..='\u{2015}') {
                groups.push(Vec::new());
                continue;
            }
            let value = SIGNS
                .iter()
                .position(|known| *known == sign.to_ascii_uppercase())
                .ok_or_else(|| wrong(format!("«{sign}» is in no code")))?;
            if let Some(group) = groups.last_mut() {
                group.push(value as i64);
            }
        }
        let usual = BATCH_SIGNS + CONTAINER_SIGNS + 1;
        if let [all] = groups.as_slice()
            && all.len() == usual
        {
            let (batch, rest) = all.split_at(BATCH_SIGNS);
            groups = vec![batch.to_vec(), rest.to_vec()];
        }
        let [batch, rest] = groups.as_slice() else {
            return Err(wrong(format!(
                "a code has two groups with one hyphen between them, or {usual} signs"
            )));
        };
        let Some((given, container)) = rest.split_last() else {
            return Err(wrong("nothing stands after the hyphen".to_owned()));
        };
        let sound = (BATCH_SIGNS..=MOST_BATCH_SIGNS).contains(&batch.len())
            && (CONTAINER_SIGNS..=MOST_CONTAINER_SIGNS).contains(&container.len());
        if !sound {
            return Err(wrong("it has too few or too many signs".to_owned()));
        }
        let all: Vec<i64> = batch.iter().chain(container).copied().collect();
        if check(&all) != *given {
            return Err(wrong(
                "its last sign does not fit the others, so one of them is misread".to_owned(),
            ));
        }
        let code = Self {
            batch: number(batch),
            container: number(container),
        };
        // A code has one spelling: `222222-..` for batch nought, or leading signs that say nothing,
        // were never printed.
        let plain = |text: &str| -> String {
            text.chars()
                .filter(|sign| SIGNS.contains(sign))
                .collect::<String>()
        };
        let spelt = code
            .to_text()
            .map_err(|_| wrong("no batch has this number".to_owned()))?;
        if plain(&spelt) != plain(&text.to_ascii_uppercase()) {
            return Err(wrong("it has signs too many".to_owned()));
        }
        Ok(code)
    }
}

/// The values of a number's signs, the highest first, at least `least` of them.
fn digits(number: i64, least: usize) -> Vec<i64> {
    let mut rest = number;
    let mut values = Vec::new();
    while rest > 0 || values.len() < least {
        values.push(rest % BASE);
        rest /= BASE;
    }
    values.reverse();
    values
}

fn number(values: &[i64]) -> i64 {
    values.iter().fold(0, |sum, value| sum * BASE + value)
}

fn signs(values: &[i64]) -> String {
    values
        .iter()
        .filter_map(|value| usize::try_from(*value).ok())
        .filter_map(|value| SIGNS.get(value))
        .collect()
}

/// The check sign: it brings the sum of all places, each times its weight, to a multiple of
/// thirteen. Its own weight is one; the places before it have two, three and so on, from the right.
fn check(values: &[i64]) -> i64 {
    let sum: i64 = values
        .iter()
        .rev()
        .zip(2..)
        .map(|(value, weight)| value * weight)
        .sum();
    (BASE - sum % BASE) % BASE
}
