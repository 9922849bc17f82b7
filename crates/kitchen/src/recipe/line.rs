//! From a printed recipe line to an ingredient.

use quantity::{Exact, VolumeUnit, checked_mul};
use reference::{Jar, RecipeRow, Reference};

use super::{Acidity, Amount, Ingredient, Role};

/// Reads one printed line; the message says what could not be read.
pub(super) fn ingredient(reference: &Reference, row: &RecipeRow) -> Result<Ingredient, String> {
    let amount = |number: Exact| {
        Amount::from_table(number, &row.unit)
            .map_err(|error| error.to_string())?
            .ok_or_else(|| format!("{}: unit `{}` is not known", row.recipe, row.unit))
    };
    let low = amount(row.amount.low())?;
    let high = match &row.amount_high {
        Some(high) => amount(high.high())?,
        None => low,
    };
    let acidity = match row.produce_acidity.as_str() {
        "" => None,
        text => Some(text.parse::<Acidity>().map_err(|e| e.to_string())?),
    };
    Ok(Ingredient {
        name: shown_name(&row.ingredient),
        key: row.ingredient.clone(),
        low,
        high,
        role: role(row)?,
        acidity,
        optional: row.optional,
        choice: (!row.choice.is_empty()).then(|| row.choice.clone()),
        drained_off: row.stage == "drained-off",
        per_jar: per_jar(&row.per)?,
        grams_per_cup: grams_per_cup(reference, row),
        note: row.note.clone(),
    })
}

/// The table's roles, with added fat told apart: it is never rounded up.
fn role(row: &RecipeRow) -> Result<Role, String> {
    let fat = ["butter-or-margarine", "oil", "suet"]
        .iter()
        .any(|word| row.ingredient.contains(word));
    match row.role.as_str() {
        "other" if fat => Ok(Role::Fat),
        text => text.parse::<Role>().map_err(|e| e.to_string()),
    }
}

fn per_jar(per: &str) -> Result<Option<Jar>, String> {
    match per.strip_prefix("jar-") {
        Some(jar) => jar.parse::<Jar>().map(Some).map_err(|e| e.to_string()),
        None if per == "batch" => Ok(None),
        None => Err(format!("`{per}` is neither batch nor a jar")),
    }
}

/// Weight of a level cup of sugar, salt or honey, for the scale.
fn grams_per_cup(reference: &Reference, row: &RecipeRow) -> Option<Exact> {
    let name = row.ingredient.as_str();
    let (substance, measure, per_cup) = match row.role.as_str() {
        "salt" => ("salt-canning-pickling", "tbsp", 16),
        "sweetener" if name.contains("honey") => ("honey", "cup", 1),
        "sweetener" if name.contains("brown-sugar") => ("sugar-brown-packed", "cup", 1),
        "sweetener" if name.ends_with("sugar") => ("sugar-granulated-white", "cup", 1),
        _ => return None,
    };
    let row = reference
        .measures()
        .iter()
        .find(|row| row.substance == substance && row.measure == measure && !row.doubtful)?;
    let grams = reference::Printed::parse(&row.grams)?.single()?;
    checked_mul(grams, Exact::from_integer(per_cup)).ok()
}

/// "cider-vinegar-5pct" as "cider vinegar (5 %)", "cucumbers-3-5-inch" as "cucumbers 3-5 inch".
pub(super) fn shown_name(key: &str) -> String {
    let (key, strength) = match key.strip_suffix("-5pct") {
        Some(rest) => (rest, " (5 %)"),
        None => (key, ""),
    };
    let letters: Vec<char> = key.chars().collect();
    let digit = |at: Option<&char>| at.is_some_and(|c| c.is_ascii_digit());
    let mut name = String::new();
    for (at, letter) in letters.iter().enumerate() {
        let between_digits = at > 0 && digit(letters.get(at - 1)) && digit(letters.get(at + 1));
        name.push(if *letter == '-' && !between_digits {
            ' '
        } else {
            *letter
        });
    }
    name + strength
}

/// What a container of a yield holds, in cups; `None` for a container the tables do not use.
pub(super) fn container(unit: &str) -> Option<(VolumeUnit, Exact)> {
    let one = Exact::from_integer(1);
    Some(match unit {
        "half-pint" => (VolumeUnit::Cup, one),
        "12-ounce" => (VolumeUnit::FluidOunce, Exact::from_integer(12)),
        "pint" | "pint-bag" => (VolumeUnit::Pint, one),
        "quart" | "quart-of-sauce" | "quart-of-jelly" => (VolumeUnit::Quart, one),
        "gallon-container" => (VolumeUnit::Gallon, one),
        _ => return None,
    })
}
