//! The number a line begins with: fractions of every spelling, decimals with point or comma,
//! ranges, and the words for small numbers.

use super::Trouble;
use quantity::{Exact, checked_add, parse, whole};

/// What a line begins with.
#[derive(Debug, Clone)]
pub(super) struct Lead<'a> {
    /// Least and most; none where there is no number or it cannot be taken.
    pub range: Option<(Exact, Exact)>,
    /// Why it cannot be taken.
    pub trouble: Option<Trouble>,
    /// What follows.
    pub rest: &'a str,
}

/// Numbers that people write as words.
const WORDS: &[(&str, (i128, i128))] = &[
    ("half a dozen", (6, 1)),
    ("a dozen", (12, 1)),
    ("one dozen", (12, 1)),
    ("half a", (1, 2)),
    ("half an", (1, 2)),
    ("one", (1, 1)),
    ("two", (2, 1)),
    ("three", (3, 1)),
    ("four", (4, 1)),
    ("five", (5, 1)),
    ("six", (6, 1)),
    ("seven", (7, 1)),
    ("eight", (8, 1)),
    ("nine", (9, 1)),
    ("ten", (10, 1)),
    ("twelve", (12, 1)),
    ("an", (1, 1)),
    ("a", (1, 1)),
];

/// Reads the number, or the range, at the start.
pub(super) fn lead(text: &str) -> Lead<'_> {
    let text = text.trim_start();
    let below = text
        .strip_prefix(['-', '\u{2212}', '\u{2013}'])
        .filter(|rest| rest.starts_with(|c: char| c.is_ascii_digit()) || vulgar(rest).is_some());
    if let Some(rest) = below {
        let rest = one(rest).map_or(rest, |(_, rest)| rest);
        return Lead {
            range: None,
            trouble: Some(Trouble::new(
                "below-zero",
                "The amount is below zero.",
                "Write an amount above zero.",
            )),
            rest,
        };
    }
    let Some((low, rest)) = one(text) else {
        return Lead {
            range: None,
            trouble: None,
            rest: text,
        };
    };
    let (high, rest) = match after_range_sign(rest).and_then(one) {
        Some((high, rest)) => (high, rest),
        None => (low.clone(), rest),
    };
    let (range, trouble) = match (low, high) {
        (Ok(_), Ok(high)) if high <= whole(0) => (
            None,
            Some(Trouble::new(
                "zero",
                "The amount is nothing.",
                "Write an amount above zero, or say «optional» behind the ingredient.",
            )),
        ),
        (Ok(low), Ok(high)) if low > high => (
            None,
            Some(Trouble::new(
                "range",
                "The range runs backwards.",
                "Write the smaller amount first, such as 1-2 cups.",
            )),
        ),
        (Ok(low), Ok(high)) => (Some((low, high)), None),
        (Err(trouble), _) | (_, Err(trouble)) => (None, Some(trouble)),
    };
    Lead {
        range,
        trouble,
        rest,
    }
}

/// What follows a dash, «to» or «or» between two numbers.
fn after_range_sign(rest: &str) -> Option<&str> {
    let rest = rest.trim_start();
    if let Some(after) = rest.strip_prefix(['-', '\u{2013}', '\u{2014}', '\u{2212}']) {
        return Some(after.trim_start());
    }
    ["to ", "or "]
        .iter()
        .find_map(|word| rest.strip_prefix(word))
        .map(str::trim_start)
}

type One<'a> = (Result<Exact, Trouble>, &'a str);

/// One number and what follows it; none where no number stands.
pub(super) fn one(text: &str) -> Option<One<'_>> {
    if let Some((part, rest)) = vulgar(text) {
        return Some((Ok(part), rest));
    }
    let (digits, rest) = digits(text);
    if digits.is_empty() {
        return word(text);
    }
    if let Some(after) = rest.strip_prefix(['.', ','])
        && let (part, after) = self::digits(after)
        && !part.is_empty()
    {
        // "1,000" is a thousand to some and one to others, and so is "1.500".
        let whole_part = digits.bytes().any(|digit| digit != b'0');
        let thousands = part.len() == 3 && whole_part;
        let comma = thousands || (rest.starts_with(',') && part.len() == 3);
        let more = after
            .strip_prefix(['.', ','])
            .is_some_and(|next| next.starts_with(|c: char| c.is_ascii_digit()));
        if comma || more {
            let end = after
                .find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ',')))
                .unwrap_or(after.len());
            return Some((
                Err(Trouble::new(
                    "comma",
                    format!(
                        "«{}» can be read in two ways.",
                        &text[..text.len() - after.len() + end]
                    ),
                    "Write 1000, or 1.5 with one point.",
                )),
                &after[end..],
            ));
        }
        return Some((number(&format!("{digits}.{part}")), after));
    }
    if let Some((below, rest)) = below_the_line(rest) {
        return Some((number(&format!("{digits}/{below}")), rest));
    }
    // "2 1/4", "2½", "1-1/2", "2 and 1/4": a fraction below one may follow a whole number.
    let joined = rest.strip_prefix('-').unwrap_or_else(|| {
        let spaced = rest.trim_start();
        spaced.strip_prefix("and ").unwrap_or(spaced)
    });
    if let Some((part, after)) = fraction(joined)
        && digits.bytes().any(|digit| digit != b'0')
    {
        let sum = match (number(digits), part) {
            (Ok(first), Ok(part)) if part < whole(1) => {
                checked_add(first, part).map_err(|error| unread(&error))
            }
            (Err(trouble), _) | (_, Err(trouble)) => Err(trouble),
            _ => return Some((number(digits), rest)),
        };
        return Some((sum, after));
    }
    Some((number(digits), rest))
}

fn digits(text: &str) -> (&str, &str) {
    let end = text
        .find(|c: char| !c.is_ascii_digit())
        .unwrap_or(text.len());
    text.split_at(end)
}

/// The lower number of a fraction, behind its stroke.
fn below_the_line(rest: &str) -> Option<(&str, &str)> {
    let after = rest.strip_prefix(['/', '\u{2044}'])?;
    let (below, rest) = digits(after);
    (!below.is_empty()).then_some((below, rest))
}

fn fraction(text: &str) -> Option<One<'_>> {
    if let Some((part, rest)) = vulgar(text) {
        return Some((Ok(part), rest));
    }
    let (above, rest) = digits(text);
    let (below, rest) = below_the_line(rest)?;
    (!above.is_empty()).then(|| (number(&format!("{above}/{below}")), rest))
}

/// One printed fraction sign.
fn vulgar(text: &str) -> Option<(Exact, &str)> {
    let first = text.chars().next()?;
    if first.is_ascii() || first.is_alphabetic() {
        return None;
    }
    let rest = &text[first.len_utf8()..];
    parse::number(&first.to_string())
        .ok()
        .map(|part| (part, rest))
}

fn word(text: &str) -> Option<One<'_>> {
    WORDS.iter().find_map(|(word, (above, below))| {
        let start = text.get(..word.len())?;
        let rest = &text[word.len()..];
        (start.eq_ignore_ascii_case(word) && rest.starts_with(' '))
            .then(|| (Ok(Exact::new(*above, *below)), rest))
    })
}

fn number(text: &str) -> Result<Exact, Trouble> {
    parse::number(text).map_err(|error| unread(&error))
}

fn unread(error: &quantity::QuantityError) -> Trouble {
    Trouble::new("number", error.to_string(), "Write a number such as 2 1/4.")
}
