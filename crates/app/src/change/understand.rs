//! Typed edits and lines as the gate asks for them: amounts with their units, words of the tables.

use super::{AskChange, AskEdit, KINDS};
use crate::error::AppError;
use quantity::{Exact, parse};
use safety::{Amount, Edit, HouseholdLine, HouseholdRecipe, Measure, RecipeChange};

/// A change to a tested recipe; a jar, pack or canner beside the edits counts as one more edit.
pub(super) fn change(request: &AskChange) -> Result<RecipeChange, AppError> {
    let mut edits = Vec::new();
    for (index, edit) in request.edits.iter().enumerate() {
        edits.push(understand(edit, index + 1)?);
    }
    if let Some(jar) = word(&request.jar, "jar", JARS)? {
        edits.push(Edit::Jar { jar });
    }
    if let Some(pack) = word(&request.pack, "pack", PACKS)? {
        edits.push(Edit::Pack { pack });
    }
    if let Some(canner) = word(&request.canner, "canner", CANNERS)? {
        edits.push(Edit::Canner { canner });
    }
    Ok(RecipeChange {
        recipe: request.recipe.trim().to_owned(),
        edits,
    })
}

/// A household's own recipe.
pub(super) fn household(request: &AskChange) -> Result<HouseholdRecipe, AppError> {
    if !request.recipe.trim().is_empty() || !request.edits.is_empty() {
        return Err(AppError::input(
            "lines",
            "Both a tested recipe and lines of an own one are given.",
            "Give «recipe» and «edits», or «title» and «lines».",
        ));
    }
    let mut lines = Vec::new();
    for (index, line) in request.lines.iter().enumerate() {
        let field = |name: &str| format!("lines.{}.{name}", index + 1);
        if line.name.trim().is_empty() {
            return Err(AppError::input(
                &field("name"),
                "The line names no ingredient.",
                "Name it as people say it, such as «red onions».",
            ));
        }
        lines.push(HouseholdLine {
            name: line.name.trim().to_owned(),
            amount: amount(&line.amount, &field("amount"))?,
            per: match line.per.trim() {
                "" => "batch".to_owned(),
                per => per.to_owned(),
            },
        });
    }
    Ok(HouseholdRecipe {
        title: match request.title.trim() {
            "" => "This recipe".to_owned(),
            title => title.to_owned(),
        },
        lines,
        jar: word(&request.jar, "jar", JARS)?,
        pack: word(&request.pack, "pack", PACKS)?,
        canner: word(&request.canner, "canner", CANNERS)?,
    })
}

const JARS: &str = "half-pint, pint, quart, 250-ml, 500-ml, ...";
const PACKS: &str = "raw or hot";
const CANNERS: &str = "boiling-water, steam, dial-gauge or weighted-gauge";

/// A word of the tables; nothing for an empty one.
fn word<T: std::str::FromStr>(text: &str, field: &str, choices: &str) -> Result<Option<T>, AppError>
where
    T::Err: std::fmt::Display,
{
    match text.trim() {
        "" => Ok(None),
        text => text.parse().map(Some).map_err(|error: T::Err| {
            AppError::input(field, error.to_string(), format!("Choose {choices}."))
        }),
    }
}

fn understand(edit: &AskEdit, number: usize) -> Result<Edit, AppError> {
    let field = |name: &str| format!("edits.{number}.{name}");
    let needed = |name: &'static str, choices: &str| {
        AppError::input(
            &field(name),
            "The edit does not say what is wished.",
            format!("Choose {choices}."),
        )
    };
    let some = |text: &str, name: &str| match text.trim() {
        "" => Ok(None),
        text => amount(text, &field(name)).map(Some),
    };
    let line = edit.line.trim().to_owned();
    let to = edit.to.trim();
    Ok(match edit.kind.trim() {
        "amount" => Edit::Amount {
            line,
            amount: amount(&edit.amount, &field("amount"))?,
        },
        "swap" => Edit::Swap {
            line,
            replaced: some(&edit.replaced, "replaced")?,
            with: edit.with.trim().to_owned(),
            amount: some(&edit.amount, "amount")?,
        },
        "leave-out" => Edit::LeaveOut { line },
        "add" => Edit::Add {
            ingredient: edit.with.trim().to_owned(),
            amount: amount(&edit.amount, &field("amount"))?,
        },
        "scale" => Edit::Scale {
            times: number_of(to, &field("to"), "how many times, such as 2 or 1/2")?,
        },
        "jar" => Edit::Jar {
            jar: word(to, &field("to"), JARS)?.ok_or_else(|| needed("to", JARS))?,
        },
        "pack" => Edit::Pack {
            pack: word(to, &field("to"), PACKS)?.ok_or_else(|| needed("to", PACKS))?,
        },
        "canner" => Edit::Canner {
            canner: word(to, &field("to"), CANNERS)?.ok_or_else(|| needed("to", CANNERS))?,
        },
        "vinegar" => Edit::Vinegar {
            percent: match to {
                "" | "unknown" => None,
                text => Some(number_of(
                    text.trim_end_matches('%').trim(),
                    &field("to"),
                    "the percent on the label, such as 5",
                )?),
            },
            diluted: edit.diluted,
        },
        "manner" => Edit::Manner {
            manner: to.to_owned(),
        },
        other => {
            let kinds: Vec<&str> = KINDS.iter().map(|(kind, _)| *kind).collect();
            return Err(AppError::input(
                &field("kind"),
                format!("«{other}» is no kind of edit."),
                format!("Choose one of: {}.", kinds.join(", ")),
            ));
        }
    })
}

fn number_of(text: &str, field: &str, example: &str) -> Result<Exact, AppError> {
    parse::number(text)
        .map_err(|error| AppError::input(field, error.to_string(), format!("Write {example}.")))
}

/// A weight, a volume, or a count: "2 lb", "1 1/2 cups", "4 each", "3 cloves".
fn amount(text: &str, field: &str) -> Result<Amount, AppError> {
    let text = text.trim();
    if let Ok(volume) = parse::volume(text) {
        return Ok(Amount::volume(volume, text));
    }
    if let Ok(mass) = parse::mass(text) {
        return Ok(Amount::mass(mass, text));
    }
    let cut = text
        .find(|letter: char| letter.is_alphabetic())
        .unwrap_or(text.len());
    let (number, unit) = text.split_at(cut);
    let measure = match unit.trim().trim_end_matches('s') {
        "" | "each" | "piece" => Some(Measure::Each),
        "clove" => Some(Measure::Clove),
        "drop" => Some(Measure::Drop),
        _ => None,
    };
    match (parse::number(number.trim()), measure) {
        (Ok(number), Some(measure)) => Ok(Amount::count(number, measure, text)),
        _ => Err(AppError::input(
            field,
            if text.is_empty() {
                "No amount is given.".to_owned()
            } else {
                format!("«{text}» is no amount.")
            },
            "Write a number with its unit, such as 2 lb, 1 1/2 cups, 4 each or 3 cloves.",
        )),
    }
}

/// An edit as it was typed, in words: for the list of a form.
pub fn edit_words(edit: &AskEdit) -> String {
    let plain = |text: &str| text.trim().replace('-', " ");
    let kind = KINDS
        .iter()
        .find(|(kind, _)| *kind == edit.kind.trim())
        .map_or(edit.kind.as_str(), |(_, words)| words);
    let parts: Vec<String> = [
        plain(&edit.line),
        plain(&edit.replaced),
        plain(&edit.with),
        edit.amount.trim().to_owned(),
        plain(&edit.to),
    ]
    .into_iter()
    .filter(|part| !part.is_empty())
    .collect();
    format!("{kind}: {}", parts.join(", "))
}
