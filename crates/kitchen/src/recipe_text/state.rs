//! What a written recipe is by the gate: tested, a household trial, or unknown.

use super::{LineState, ReadLine, Reading};
use crate::recipe::{Amount, CountWord, Role};
use quantity::whole;
use reference::Reference;
use safety::{
    ChangeError, HouseholdLine, HouseholdRecipe, HouseholdVerdict, Measure, RecipeState,
    judge_household_recipe,
};

/// Which end of a range is held against the tables.
#[derive(Clone, Copy)]
enum End {
    Least,
    Most,
    /// Least of what keeps the food, most of everything else.
    Strict,
}

/// Asks the gate what the recipe is. Every range is asked at both ends and at its strictest, and
/// the worst answer counts. A line that is not understood to the last word counts as something
/// that nobody knows, so that no tested recipe can be found in a reading with holes.
///
/// # Errors
/// No ingredient lines.
pub fn state_of_testing(
    reference: &Reference,
    reading: &Reading,
) -> Result<HouseholdVerdict, ChangeError> {
    let ask = |end| {
        let recipe = HouseholdRecipe {
            title: match reading.recipe.title.as_str() {
                "" => "This recipe".to_owned(),
                title => title.to_owned(),
            },
            lines: reading
                .lines
                .iter()
                .filter(|line| line.state != LineState::Heading)
                .filter_map(|line| asked(line, end))
                .chain(
                    reading
                        .in_steps
                        .iter()
                        .filter_map(|number| reading.recipe.steps.get(number - 1))
                        .map(|step| nobody_knows(step)),
                )
                .collect(),
            jar: None,
            pack: None,
            canner: None,
        };
        judge_household_recipe(reference, &recipe)
    };
    let strict = ask(End::Strict)?;
    let certain = |line: &ReadLine| line.low == line.high && !may_be_left_out(line);
    if strict.state != RecipeState::Tested || reading.lines.iter().all(certain) {
        return Ok(strict);
    }
    for end in [End::Least, End::Most] {
        let verdict = ask(end)?;
        if verdict.state != RecipeState::Tested {
            return Ok(verdict);
        }
    }
    Ok(strict)
}

/// The line as the gate is asked; none where its range begins at nothing and that end is asked.
fn asked(line: &ReadLine, end: End) -> Option<HouseholdLine> {
    let keeps = matches!(line.role, Some(Role::Acid | Role::Salt | Role::Sweetener));
    let amount = match end {
        End::Least => line.low,
        End::Most => line.high,
        End::Strict if keeps => line.low,
        End::Strict => line.high,
    };
    let amount = amount.filter(|_| line.state == LineState::Understood);
    // What may be left out is not there where less of it is the stricter reading.
    let left_out = match end {
        End::Least => true,
        End::Most => false,
        End::Strict => keeps,
    };
    if amount.is_some_and(Amount::is_zero) || (left_out && may_be_left_out(line)) {
        return None;
    }
    Some(match amount {
        Some(amount) => HouseholdLine {
            name: line.known_as.clone(),
            amount: measured(amount, &line.measured),
            per: "batch".to_owned(),
        },
        None => nobody_knows(&line.text),
    })
}

/// A line as something that no table knows.
fn nobody_knows(text: &str) -> HouseholdLine {
    HouseholdLine {
        // No table knows a name with these words in it.
        name: format!("not understood: {text}"),
        amount: safety::Amount::count(whole(1), Measure::Each, "an amount nobody knows"),
        per: "batch".to_owned(),
    }
}

/// Whether the line says that its ingredient need not go in.
fn may_be_left_out(line: &ReadLine) -> bool {
    let text = line.text.to_lowercase();
    ["optional", "if wished", "if you like", "as needed"]
        .iter()
        .any(|words| text.contains(words))
}

fn measured(amount: Amount, text: &str) -> safety::Amount {
    match amount {
        Amount::Mass(mass) => safety::Amount::mass(mass, text),
        Amount::Volume(volume) => safety::Amount::volume(volume, text),
        Amount::Count { number, of } => safety::Amount::count(
            number,
            match of {
                CountWord::Each => Measure::Each,
                CountWord::Clove => Measure::Clove,
                CountWord::Drop => Measure::Drop,
            },
            text,
        ),
    }
}
