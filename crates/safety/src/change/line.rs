//! The recipe as printed and as edited, line by line, with exact amounts.

use super::edit::{Amount, ChangeError, Measure};
use quantity::{Exact, QuantityError, checked_sub, show, whole};
use reference::{IngredientKind, RecipeRow, Reference};

/// One ingredient line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Line {
    /// Its number in the recipe, from 1; 0 for one that was put in.
    pub number: usize,
    pub ingredient: String,
    /// What it is; `None` = nobody knows.
    pub kind: Option<IngredientKind>,
    /// Least printed.
    pub low: Exact,
    /// Most printed; the same as `low` where no range is printed.
    pub high: Exact,
    pub measure: Measure,
    /// The amount in words.
    pub text: String,
    pub optional: bool,
    /// Lines with the same word are alternatives; empty = none.
    pub choice: String,
    /// `batch`, or the jar it goes into.
    pub per: String,
    /// Poured away before the jars are filled.
    pub drained: bool,
}

impl Line {
    pub fn is_low_acid(&self) -> bool {
        // What nobody knows counts as low-acid.
        self.kind.is_none_or(IngredientKind::is_low_acid)
    }

    pub fn is_acid(&self) -> bool {
        self.kind.is_some_and(IngredientKind::is_acid) && !self.drained
    }

    pub fn is_food(&self) -> bool {
        self.kind.is_none_or(IngredientKind::is_food)
    }

    /// Takes part of the line away; never below nothing.
    ///
    /// # Errors
    /// Overflow.
    pub fn less(&mut self, by: Exact) -> Result<(), QuantityError> {
        self.low = checked_sub(self.low, by)?.max(whole(0));
        self.high = checked_sub(self.high, by)?.max(whole(0));
        Ok(())
    }

    /// Takes the whole line away.
    pub fn nothing(&mut self) {
        self.low = whole(0);
        self.high = whole(0);
    }
}

/// An amount of the tables. A figure of theirs always fits; one that would not is a bare count,
/// which no weight and no volume compares with.
fn amount(number: Exact, unit: &str) -> Amount {
    let bare = Amount::count(number, Measure::Each, show::number(number));
    Amount::from_table(number, unit).unwrap_or(bare)
}

/// The lines of a recipe; none for a food that is put up without a recipe.
pub(super) fn printed(reference: &Reference, rows: &[RecipeRow]) -> Vec<Line> {
    rows.iter()
        .enumerate()
        .map(|(index, row)| {
            let low = amount(row.amount.low(), &row.unit);
            let most = row
                .amount_high
                .as_ref()
                .map_or(row.amount.high(), |p| p.high());
            let high = amount(most, &row.unit);
            let text = if low.size == high.size {
                low.text
            } else {
                format!("{} to {}", show::number(row.amount.low()), high.text)
            };
            Line {
                number: index + 1,
                ingredient: row.ingredient.clone(),
                kind: kind(reference, row),
                low: low.size,
                high: high.size,
                measure: low.measure,
                text,
                optional: row.optional,
                choice: row.choice.clone(),
                per: row.per.clone(),
                drained: row.stage == "drained-off",
            }
        })
        .collect()
}

/// What a printed line is. A word that people say for a vegetable (`pepper`, `fennel`) is the
/// dried spice where the recipe prints it as one.
fn kind(reference: &Reference, row: &RecipeRow) -> Option<IngredientKind> {
    let kind = reference.ingredient(&row.ingredient)?.kind;
    let dried = row.role == "spice" && kind.is_low_acid() && kind != IngredientKind::FreshHerb;
    Some(if dried {
        IngredientKind::DriedSpice
    } else {
        kind
    })
}

/// A line that an edit puts in.
pub(super) fn put_in(reference: &Reference, name: &str, amount: &Amount, per: &str) -> Line {
    Line {
        number: 0,
        ingredient: name.to_owned(),
        kind: reference.ingredient(name).map(|row| row.kind),
        low: amount.size,
        high: amount.size,
        measure: amount.measure,
        text: amount.text.clone(),
        optional: false,
        choice: String::new(),
        per: per.to_owned(),
        drained: false,
    }
}

/// The lines that a name or number means: several where an acid is printed for several jars.
///
/// # Errors
/// A name or number of no line.
pub(super) fn find<'l>(
    lines: &'l [Line],
    name: &str,
    field: &str,
) -> Result<Vec<&'l Line>, ChangeError> {
    let wanted = name.trim();
    let number = wanted.parse::<usize>().ok();
    let found: Vec<&Line> = lines
        .iter()
        .filter(|line| line.ingredient == wanted || Some(line.number) == number)
        .collect();
    if found.is_empty() {
        let there: Vec<String> = lines
            .iter()
            .map(|line| format!("{} {}", line.number, line.ingredient))
            .collect();
        return Err(ChangeError::new(
            field,
            format!("«{wanted}» is no line of this recipe."),
            if there.is_empty() {
                "It has no ingredient lines: name what is added, or a manner such as `less-salt`."
                    .to_owned()
            } else {
                format!("Its lines are: {}.", there.join(", "))
            },
        ));
    }
    Ok(found)
}

/// The one line that a name or number means.
///
/// # Errors
/// No line, or several of the same name.
pub(super) fn find_one<'l>(
    lines: &'l [Line],
    name: &str,
    field: &str,
) -> Result<&'l Line, ChangeError> {
    let found = find(lines, name, field)?;
    let [one] = found.as_slice() else {
        let numbers: Vec<String> = found
            .iter()
            .map(|line| format!("{} ({} for each {})", line.number, line.text, line.per))
            .collect();
        return Err(ChangeError::new(
            field,
            format!("«{}» stands on more than one line.", name.trim()),
            format!("Name the line by its number: {}.", numbers.join(" or ")),
        ));
    };
    Ok(one)
}

/// Refuses an amount that is nothing, or measured in another way than the line.
///
/// # Errors
/// Either of them.
pub(super) fn fits(line: &Line, amount: &Amount, field: &str) -> Result<(), ChangeError> {
    above_zero(amount, field)?;
    if amount.measure != line.measure {
        return Err(ChangeError::new(
            field,
            format!(
                "«{}» is measured by {}, the line {} ({}) by {}: the two cannot be compared.",
                amount.text,
                amount.measure.words(),
                line.ingredient,
                line.text,
                line.measure.words()
            ),
            format!(
                "Write it by {}, such as {}.",
                line.measure.words(),
                line.measure.example()
            ),
        ));
    }
    Ok(())
}

/// Refuses an amount that is nothing or less.
///
/// # Errors
/// That.
pub(super) fn above_zero(amount: &Amount, field: &str) -> Result<(), ChangeError> {
    if amount.size <= whole(0) {
        return Err(ChangeError::new(
            field,
            format!("«{}» is nothing.", amount.text),
            format!(
                "Write an amount above zero, such as {}, or leave the line out.",
                amount.measure.example()
            ),
        ));
    }
    Ok(())
}
