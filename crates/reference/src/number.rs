//! Numbers as the tables print them: `0.5`, `8-12`. The printed text is kept beside the exact value.

use serde::{Deserialize, Deserializer, Serialize, Serializer};

pub use quantity::Exact;

/// Longest run of digits read from a table; keeps every sum far from overflow.
const MOST_DIGITS: usize = 15;

/// A figure as printed: one number (`low == high`) or a range such as `8-12`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Printed {
    text: String,
    low: Exact,
    high: Exact,
}

impl Printed {
    /// Reads `3`, `0.25` or `8-12`; `None` when the text is no such figure.
    ///
    /// Four decimals that stand for thirds or sixths (`0.3333`, `1.6667`) are read as the thirds or
    /// sixths they stand for.
    pub fn parse(text: &str) -> Option<Printed> {
        let trimmed = text.trim();
        let (low, high) = match trimmed.get(1..).and_then(|rest| rest.find('-')) {
            Some(at) => (decimal(&trimmed[..=at])?, decimal(&trimmed[at + 2..])?),
            None => {
                let one = decimal(trimmed)?;
                (one, one)
            }
        };
        if high < low {
            return None;
        }
        Some(Printed {
            text: trimmed.to_owned(),
            low,
            high,
        })
    }

    /// The text as it stands in the table.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// The lower edge (the number itself when it is no range).
    pub fn low(&self) -> Exact {
        self.low
    }

    /// The upper edge (the number itself when it is no range).
    pub fn high(&self) -> Exact {
        self.high
    }

    /// The number, when the figure is one number and not a range.
    pub fn single(&self) -> Option<Exact> {
        (self.low == self.high).then_some(self.low)
    }

    /// Halfway between the edges.
    pub fn middle(&self) -> Exact {
        (self.low + self.high) / Exact::from_integer(2)
    }
}

impl std::fmt::Display for Printed {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.text)
    }
}

impl Serialize for Printed {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.text)
    }
}

impl<'de> Deserialize<'de> for Printed {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        Printed::parse(&text)
            .ok_or_else(|| serde::de::Error::custom(format!("`{text}` is not a number or range")))
    }
}

/// Reads one decimal number exactly.
fn decimal(text: &str) -> Option<Exact> {
    let (negative, digits) = match text.strip_prefix('-') {
        Some(rest) => (true, rest),
        None => (false, text),
    };
    let (whole, part) = digits.split_once('.').unwrap_or((digits, ""));
    let all_digits = |s: &str| s.bytes().all(|b| b.is_ascii_digit());
    if whole.is_empty() || !all_digits(whole) || !all_digits(part) {
        return None;
    }
    if whole.len() + part.len() > MOST_DIGITS || (digits.contains('.') && part.is_empty()) {
        return None;
    }
    let mut numerator: i128 = whole.parse().ok()?;
    let mut denominator: i128 = 1;
    for digit in part.bytes() {
        numerator = numerator * 10 + i128::from(digit - b'0');
        denominator *= 10;
    }
    let mut value = Exact::new(numerator, denominator);
    if part.len() == 4 {
        value = as_sixths(value).unwrap_or(value);
    }
    Some(if negative { -value } else { value })
}

/// The third or sixth that a four-digit decimal stands for, if it does.
fn as_sixths(value: Exact) -> Option<Exact> {
    let six = Exact::from_integer(6);
    let nearest = (value * six).round();
    let sixth = nearest / six;
    let slip = if sixth > value {
        sixth - value
    } else {
        value - sixth
    };
    // Only figures cut off by the four digits differ, and by less than one unit of the last digit.
    (sixth != value && slip < Exact::new(1, 10_000)).then_some(sixth)
}
