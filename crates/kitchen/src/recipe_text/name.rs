//! What stands behind the amount of a line: ingredient, note and strength, held against the tables.

use super::line::{Context, ReadLine, Trouble};
use super::number::one;
use super::{Ask, role_of, unit};
use quantity::{Exact, parse, show};
use reference::{IngredientKind, IngredientRow, Reference};

/// Words that say that no amount is meant.
pub(super) const FREE: &[&str] = &[
    "to taste",
    "as needed",
    "optional",
    "if wished",
    "for serving",
];

/// Reads what follows the amount: name, note, strength; looks the ingredient up.
pub(super) fn name(context: &Context<'_>, line: &mut ReadLine, rest: &str, counted: bool) {
    let rest = rest.trim();
    let rest = rest
        .strip_prefix("of ")
        .unwrap_or(rest)
        .trim_start_matches([',', ';', '.'])
        .trim();
    let vague = vague_strength(rest);
    let (rest, percents) = without_percent(rest);
    match percents.as_slice() {
        [] => {}
        _ if vague => line.troubles.push(Trouble::new(
            "strength",
            "The strength is a range or a limit, not one figure.",
            "Read the label and write its percent, such as 5 %.",
        )),
        [percent] => line.strength = Some(*percent),
        _ => line.troubles.push(Trouble::new(
            "strength",
            "More than one strength is written.",
            "Write one, such as 5 %.",
        )),
    }
    let (plain, mut notes) = without_parentheses(&rest);
    let cut = plain.find([',', ';']).unwrap_or(plain.len());
    let (name, note) = plain.split_at(cut);
    let note = note.trim_start_matches([',', ';']).trim();
    if !note.is_empty() {
        notes.insert(0, note.to_owned());
    }
    if has_an_amount(note) {
        line.troubles.push(second_number());
    }
    let mut name = name.trim();
    for word in FREE {
        if let Some(before) = name.strip_suffix(word) {
            notes.push((*word).to_owned());
            name = before
                .trim()
                .trim_end_matches(" or")
                .trim_end_matches('-')
                .trim();
            break;
        }
    }
    name.clone_into(&mut line.name);
    line.note = notes.join("; ");
    // Some names have a number of their own: «cantaloupe in 1-inch cubes».
    let named = context.reference.ingredient(name).is_some();
    if !named && name.contains(char::is_numeric) {
        line.troubles.push(second_number());
    }
    look_up(context, line, counted);
}

/// Finds the ingredient in the tables, asks for a vinegar's strength, and names what is unknown.
fn look_up(context: &Context<'_>, line: &mut ReadLine, counted: bool) {
    let reference = context.reference;
    let bare = |name: &str| reference.ingredient(name);
    let plain = known(reference, &line.name, &line.note);
    if plain
        .as_ref()
        .is_some_and(|(_, row)| row.kind == IngredientKind::UnknownVinegar)
        && line.strength.is_none()
    {
        match context.answers.get(Ask::Vinegar) {
            None => line.asks.push(Ask::Vinegar),
            Some(_) => line.strength = context.answers.vinegar(),
        }
    }
    let known_as = plain.as_ref().map_or(
        format!("{} {}", line.name, line.note).trim().to_owned(),
        |(name, _)| name.clone(),
    );
    line.known_as = match line.strength {
        Some(strength) => format!("{known_as} {}%", show::decimal(strength, 2)),
        None => known_as,
    };
    // A strength that no table lists still leaves it the vinegar it is.
    let found = bare(&line.known_as).or(plain.map(|(_, row)| row));
    if let Some(row) = found {
        line.kind = Some(row.kind);
        line.role = role_of(row.kind);
        row.source.clone_into(&mut line.source);
    }
    if line.role.is_some() {
        return;
    }
    line.kind = None;
    if let Some((word, after)) = unit::word(&line.name)
        && counted
        && let Some(row) = bare(after.trim())
    {
        line.kind = Some(row.kind);
        line.role = role_of(row.kind);
        row.source.clone_into(&mut line.source);
        line.troubles.push(Trouble::new(
            "unit",
            format!("«{word}» is no unit and says nothing of how a thing is cut."),
            "Write a unit such as cups, lb, g or tsp, or leave the word out.",
        ));
        return;
    }
    // A smudge has no neighbours among the ingredients, and the number before it counts nothing.
    if line.name.contains(is_no_sign_of_a_name) || line.name.contains("..") {
        line.troubles.push(Trouble::new(
            "signs",
            format!("«{}» is no name that can be read.", line.name),
            "Look at the card again, or leave the line as it stands.",
        ));
        return;
    }
    let near: Vec<&str> = reference
        .suggest_ingredient(&line.name)
        .iter()
        .take(3)
        .map(|row| row.ingredient.as_str())
        .collect();
    line.troubles.push(Trouble::new(
        "no-role",
        if line.name.is_empty() {
            "No ingredient is named.".to_owned()
        } else {
            format!(
                "No table knows «{}»: it has no role, and counts as low in acid.",
                line.name
            )
        },
        match near.as_slice() {
            [] => "Write it as people say it, such as red onions.".to_owned(),
            near => format!("Is one of these meant: {}?", near.join(", ")),
        },
    ));
}

fn is_no_sign_of_a_name(letter: char) -> bool {
    !(letter.is_alphanumeric()
        || letter.is_whitespace()
        || matches!(
            letter,
            '-' | '\'' | '\u{2019}' | '.' | '/' | '&' | '%' | '"'
        ))
}

/// The row of an ingredient, with the name it was found by: with its note, else without, unless
/// a word of the note is an ingredient of its own («beans, in oil»).
fn known<'r>(
    reference: &'r Reference,
    name: &str,
    note: &str,
) -> Option<(String, &'r IngredientRow)> {
    let whole = format!("{name} {note}").trim().to_owned();
    if let Some(row) = reference.ingredient(&whole) {
        return Some((whole, row));
    }
    let row = reference.ingredient(name)?;
    let other = note
        .split(|c: char| !c.is_alphabetic())
        .filter_map(|word| reference.ingredient(word))
        .any(|found| found.kind != row.kind && found.kind != IngredientKind::HowCut);
    (!other).then(|| (name.to_owned(), row))
}

fn second_number() -> Trouble {
    Trouble::new(
        "second-number",
        "A second number stands in the line.",
        "Write one amount at the start; put another way of saying it into parentheses.",
    )
}

/// Whether a number with a weight or a volume stands somewhere in the text: «plus 2 lb more».
fn has_an_amount(text: &str) -> bool {
    text.char_indices()
        .filter(|(at, letter)| {
            let before = text[..*at].chars().next_back();
            letter.is_ascii_digit() && !before.is_some_and(|c| c.is_alphanumeric() || c == '.')
        })
        .any(|(at, _)| {
            one(&text[at..]).is_some_and(|(_, after)| {
                unit::read(after).is_some_and(|(unit, ..)| {
                    !matches!(unit, unit::Unit::NoSize | unit::Unit::Count(_))
                })
            })
        })
}

/// Whether the first percent is one end of a range, or about, under or over a figure.
fn vague_strength(text: &str) -> bool {
    let Some((start, ..)) = percent(text) else {
        return false;
    };
    let before = text[..start].trim_end().to_lowercase();
    let last = before
        .rsplit(|c: char| c.is_whitespace() || matches!(c, ',' | '(' | ';'))
        .next()
        .unwrap_or_default();
    const WORDS: &[&str] = &[
        "to", "or", "and", "under", "over", "below", "above", "about", "around", "than", "least",
        "most", "up", "max", "min", "ca", "circa", "nearly", "almost", "between", "from",
    ];
    WORDS.contains(&last.trim_end_matches('.'))
        || last.ends_with([
            '-', '\u{2013}', '\u{2014}', '~', '<', '>', '\u{2264}', '\u{2265}', '\u{b1}', '/',
        ])
}

/// Takes every "5 %", "5% acidity" or "5 percent" out of a text.
fn without_percent(text: &str) -> (String, Vec<Exact>) {
    let mut rest = text.to_owned();
    let mut found = Vec::new();
    while let Some((start, end, percent)) = percent(&rest) {
        found.push(percent);
        let after = rest[end..].trim_start();
        let after = ["acidity", "acid", "strength"]
            .iter()
            .find_map(|word| {
                after
                    .strip_prefix(word)
                    .filter(|rest| !rest.starts_with(char::is_alphabetic))
            })
            .unwrap_or(after);
        rest = format!(
            "{} {}",
            rest[..start].trim_end().trim_end_matches([',', ';']),
            after.trim_start()
        );
    }
    (
        rest.replace("()", " ")
            .replace("( )", " ")
            .trim()
            .to_owned(),
        found,
    )
}

/// The first percent: where it begins and ends, and how much.
fn percent(text: &str) -> Option<(usize, usize, Exact)> {
    ["%", "percent", "per cent", "pct"]
        .iter()
        .filter_map(|sign| {
            let at = text.find(sign)?;
            let before = text[..at].trim_end();
            let start = before
                .rfind(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ',')))
                .map_or(0, |index| {
                    index + before[index..].chars().next().map_or(1, char::len_utf8)
                });
            let number = before[start..].replace(',', ".");
            let percent = parse::percent(&number).ok()?;
            Some((start, at + sign.len(), percent.number()))
        })
        .min_by_key(|(start, ..)| *start)
}

/// The text without what stands in parentheses, and that as notes.
fn without_parentheses(text: &str) -> (String, Vec<String>) {
    let mut plain = String::new();
    let mut notes = Vec::new();
    let mut rest = text;
    while let Some((before, after)) = rest.split_once('(') {
        plain.push_str(before.trim_end());
        plain.push(' ');
        let (inside, after) = after.split_once(')').unwrap_or((after, ""));
        if !inside.trim().is_empty() {
            notes.push(inside.trim().to_owned());
        }
        rest = after;
    }
    plain.push_str(rest.trim_start());
    (plain.trim().to_owned(), notes)
}
