//! One ingredient line: amount, unit, name, note, strength and role, and what is wrong with it.

use super::name::{FREE, name};
use super::number::{lead, one};
use super::unit::{self, Open, Unit};
use super::{Answers, Ask};
use crate::recipe::{Amount, CountWord, Role};
use quantity::Exact;
use reference::{IngredientKind, Reference};
use serde::Serialize;

/// How far a line was understood.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum LineState {
    /// A head over lines that follow, such as «For the brine:».
    Heading,
    /// All of it, for certain.
    Understood,
    /// Once a question is answered.
    Asked,
    /// In part: what is wrong is named.
    Partly,
    /// Neither an amount nor an ingredient was found; the line is kept as written.
    Unreadable,
}

/// Something wrong with a line.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Trouble {
    /// Its short name.
    pub code: &'static str,
    /// What is wrong, as a sentence.
    pub cause: String,
    /// What to write instead.
    pub action: String,
}

impl Trouble {
    pub(super) fn new(
        code: &'static str,
        cause: impl Into<String>,
        action: impl Into<String>,
    ) -> Trouble {
        Trouble {
            code,
            cause: cause.into(),
            action: action.into(),
        }
    }
}

/// A line as read, beside its text as written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ReadLine {
    /// Its number, from 1.
    pub number: usize,
    /// As written.
    pub text: String,
    /// How far it was understood.
    pub state: LineState,
    /// Least amount; the same as `high` where no range is written.
    pub low: Option<Amount>,
    /// Most.
    pub high: Option<Amount>,
    /// The amount as written: "2 1/4 cups".
    pub measured: String,
    /// The ingredient as written.
    pub name: String,
    /// What stands behind it: how it is cut, what for.
    pub note: String,
    /// Strength in percent, written or answered.
    pub strength: Option<Exact>,
    /// What it is by the tables.
    pub kind: Option<IngredientKind>,
    /// The name that the tables are asked by.
    pub known_as: String,
    /// What it does in the jar.
    pub role: Option<Role>,
    /// Where the role was read; empty without one.
    pub source: String,
    /// Questions that stand before the amount or the strength.
    pub asks: Vec<Ask>,
    /// What is wrong.
    pub troubles: Vec<Trouble>,
}

/// What a line is read with.
pub(super) struct Context<'a> {
    pub reference: &'a Reference,
    pub answers: &'a Answers,
    /// The recipe measures otherwise than the US do somewhere.
    pub foreign: bool,
}

/// Does a line name a metric or imperial measure?
pub(super) fn names_foreign_measure(text: &str) -> bool {
    let lead = lead(bullet(text));
    lead.range.is_some()
        && unit::read(after_dash(lead.rest)).is_some_and(|(unit, ..)| unit::is_foreign(unit))
}

/// Packages that may follow their size.
const PACKAGES: &[&str] = &[
    "can", "cans", "tin", "tins", "jar", "jars", "package", "packages", "packet", "packets", "bag",
    "bags", "bottle", "bottles", "box", "boxes",
];

/// Reads one line.
pub(super) fn read(context: &Context<'_>, number: usize, text: &str) -> ReadLine {
    let mut line = ReadLine {
        number,
        text: text.to_owned(),
        state: LineState::Understood,
        low: None,
        high: None,
        measured: String::new(),
        name: String::new(),
        note: String::new(),
        strength: None,
        kind: None,
        known_as: String::new(),
        role: None,
        source: String::new(),
        asks: Vec::new(),
        troubles: Vec::new(),
    };
    let body = bullet(text);
    let lead = lead(body);
    let numbered = lead.range.is_some() || lead.trouble.is_some();
    if !numbered && body.len() > 1 && body.ends_with(':') {
        line.state = LineState::Heading;
        body.trim_end_matches(':').clone_into(&mut line.name);
        return line;
    }
    line.troubles.extend(lead.trouble);
    let mut parts: Vec<(Exact, Exact, Unit)> = Vec::new();
    let mut rest = lead.rest;
    if numbered {
        rest = measures(lead.range, rest, &mut parts, &mut line.troubles);
        body[..body.len() - rest.len()]
            .trim()
            .clone_into(&mut line.measured);
    }
    let counted = parts
        .iter()
        .all(|(.., unit)| *unit == Unit::Count(CountWord::Each));
    name(context, &mut line, rest, numbered && counted);
    let free = FREE
        .iter()
        .any(|word| line.note.to_lowercase().contains(word));
    if !numbered && !free {
        line.troubles.push(Trouble::new(
            "no-amount",
            "No amount is written.",
            "Begin the line with how much, such as 2 cups, or end it with «to taste».",
        ));
    }
    if numbered {
        take_amount(context, &mut line, &parts);
    }
    line.state = state(&line);
    line
}

fn state(line: &ReadLine) -> LineState {
    let amount = line.low.is_some() || !line.asks.is_empty();
    if line.kind.is_none() && !amount && !line.troubles.is_empty() {
        LineState::Unreadable
    } else if !line.troubles.is_empty() {
        LineState::Partly
    } else if !line.asks.is_empty() {
        LineState::Asked
    } else {
        LineState::Understood
    }
}

/// The line without the sign of a list before it.
fn bullet(text: &str) -> &str {
    let text = text.trim();
    ["- ", "* ", "• ", "· ", "– ", "— "]
        .iter()
        .find_map(|sign| text.strip_prefix(sign))
        .unwrap_or(text)
        .trim_start()
}

/// "14-oz" is 14 oz.
fn after_dash(rest: &str) -> &str {
    rest.strip_prefix('-')
        .filter(|after| after.starts_with(char::is_alphabetic))
        .unwrap_or(rest)
}

/// Takes the units off: "1 (14 oz) can", "3 lb 4 oz", "1 cup plus 2 tbsp". Gives what follows.
fn measures<'a>(
    range: Option<(Exact, Exact)>,
    rest: &'a str,
    parts: &mut Vec<(Exact, Exact, Unit)>,
    troubles: &mut Vec<Trouble>,
) -> &'a str {
    let mut rest = after_dash(rest);
    if let Some((size, unit, after)) = package(rest) {
        if let Some((low, high)) = range {
            let times = |number| quantity::checked_mul(number, size);
            match (times(low), times(high)) {
                (Ok(low), Ok(high)) => parts.push((low, high, unit)),
                _ => troubles.push(too_large()),
            }
        }
        return after;
    }
    let Some((unit, word, after)) = unit::read(rest) else {
        if let Some((low, high)) = range {
            parts.push((low, high, Unit::Count(CountWord::Each)));
        }
        return rest;
    };
    if unit == Unit::NoSize {
        troubles.push(Trouble::new(
            "unit",
            format!("«{word}» has no certain size."),
            "Write a weight or a volume; for a can or a jar its size, such as 1 (14 oz) can.",
        ));
        return after;
    }
    if let Some((low, high)) = range {
        parts.push((low, high, unit));
    }
    rest = after;
    // More of the same amount: "3 lb 4 oz".
    loop {
        let joined = rest.trim_start();
        let joined = ["+", "plus ", "and "]
            .iter()
            .find_map(|word| joined.strip_prefix(word))
            .unwrap_or(joined)
            .trim_start();
        let Some((Ok(number), after)) = one(joined) else {
            return rest;
        };
        match unit::read(after_dash(after)) {
            Some((unit, _, after)) if unit != Unit::NoSize && number > quantity::whole(0) => {
                parts.push((number, number, unit));
                rest = after;
            }
            _ => return rest,
        }
    }
}

fn too_large() -> Trouble {
    Trouble::new(
        "number",
        "The amount is too large, or too finely divided.",
        "Write a number such as 2 1/4.",
    )
}

/// "(14 oz) can": the size of one package, and what follows.
fn package(rest: &str) -> Option<(Exact, Unit, &str)> {
    let (inside, after) = rest.trim_start().strip_prefix('(')?.split_once(')')?;
    let (number, behind) = one(inside.trim())?;
    let (unit, _, behind) = unit::read(after_dash(behind))?;
    let (word, after) = unit::word(after)?;
    let fits = behind.trim().is_empty()
        && unit != Unit::NoSize
        && PACKAGES.contains(&word.to_lowercase().as_str());
    fits.then_some((number.ok()?, unit, after))
}

/// Sums the measured parts into the amount.
fn take_amount(context: &Context<'_>, line: &mut ReadLine, parts: &[(Exact, Exact, Unit)]) {
    // With two numbers, or a word that is no unit, the first number is not the amount.
    if line
        .troubles
        .iter()
        .any(|trouble| matches!(trouble.code, "unit" | "second-number" | "signs"))
    {
        return;
    }
    let liquid = matches!(line.role, Some(Role::Acid | Role::Liquid | Role::Fat))
        && line.kind != Some(IngredientKind::CitricAcid);
    let mut sums: Option<(Amount, Amount)> = None;
    for (low, high, unit) in parts {
        let measure =
            |number| unit::amount(number, *unit, context.answers, context.foreign, liquid);
        let (low, high) = match (measure(*low), measure(*high)) {
            (Ok(low), Ok(high)) => (low, high),
            (Err(Open::Asked(ask)), _) | (_, Err(Open::Asked(ask))) => {
                if !line.asks.contains(&ask) {
                    line.asks.push(ask);
                }
                continue;
            }
            _ => {
                line.troubles.push(too_large());
                return;
            }
        };
        sums = match sums {
            None => Some((low, high)),
            Some((a, b)) => match (sum(a, low), sum(b, high)) {
                (Some(low), Some(high)) => Some((low, high)),
                _ => {
                    line.troubles.push(Trouble::new(
                        "two-measures",
                        "A weight, a volume and a count cannot be added.",
                        "Write the amount in one measure.",
                    ));
                    return;
                }
            },
        };
    }
    // With a question open the amount is not known, not even in part.
    let sized = !line.asks.iter().any(|ask| *ask != Ask::Vinegar);
    if let (Some((low, high)), true) = (sums, sized) {
        line.low = Some(low);
        line.high = Some(high);
    }
}

fn sum(a: Amount, b: Amount) -> Option<Amount> {
    match (a, b) {
        (Amount::Mass(a), Amount::Mass(b)) => a.checked_add(b).ok().map(Amount::Mass),
        (Amount::Volume(a), Amount::Volume(b)) => a.checked_add(b).ok().map(Amount::Volume),
        _ => None,
    }
}
