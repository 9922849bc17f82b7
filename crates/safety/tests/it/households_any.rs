//! Every tested recipe as a household would write it, and every way to write it wrong: what no rule
//! allows in a tested recipe makes no household recipe tested.

use crate::change_file;
use quantity::{Exact, whole};
use reference::{ChangeAnswer, RecipeSheet, Reference};
use safety::{
    Amount, Edit, HouseholdLine, HouseholdRecipe, RecipeChange, RecipeState, judge_household_recipe,
};

/// The lines of a tested recipe as printed, without those that may be left out; `times` as much.
fn written(sheet: &RecipeSheet, times: Exact) -> Vec<HouseholdLine> {
    sheet
        .rows
        .iter()
        .filter(|row| !row.optional)
        .map(|row| {
            let printed = Amount::from_table(row.amount.low(), &row.unit).expect("an amount");
            let of_batch = row.per == "batch";
            HouseholdLine {
                name: row.ingredient.replace('-', " "),
                amount: Amount {
                    size: if of_batch {
                        printed.size * times
                    } else {
                        printed.size
                    },
                    ..printed
                },
                per: row.per.clone(),
            }
        })
        .collect()
}

fn state(lines: Vec<HouseholdLine>) -> RecipeState {
    let asked = HouseholdRecipe {
        title: "Own recipe".to_owned(),
        lines,
        jar: None,
        pack: None,
        canner: None,
    };
    let found = judge_household_recipe(Reference::embedded(), &asked);
    found.expect("an answer").state
}

/// The answer to an edit of this tested recipe.
fn allowed(sheet: &RecipeSheet, edit: Edit) -> bool {
    let change = RecipeChange {
        recipe: sheet.key.clone(),
        edits: vec![edit],
    };
    let judged = safety::judge_change(Reference::embedded(), &change).expect("a verdict");
    judged.food.is_some() && judged.answer != ChangeAnswer::Refuse
}

#[test]
fn every_tested_recipe_is_known_by_its_own_lines() {
    for (at, sheet) in Reference::embedded().recipes().iter().enumerate() {
        let times = [Exact::new(1, 2), whole(3)];
        for times in [whole(1), times[at % 2]] {
            let food = sheet.food.as_deref().unwrap_or_default();
            let kept = Reference::embedded().processes_for(food).is_empty();
            let may = !kept && allowed(sheet, Edit::Scale { times });
            let tested = state(written(sheet, times)) == RecipeState::Tested;
            assert_eq!(tested, may, "{} {times} times", sheet.key);
        }
    }
}

#[test]
fn no_ingredient_is_taken_for_another_of_its_kind() {
    // One of each sort that a kind of the table holds together.
    let others = [
        "sweet corn",
        "potatoes",
        "peaches",
        "bananas",
        "tomato paste",
        "garlic",
        "mushrooms",
        "shallots",
        "bell peppers",
        "vinegar 5%",
        "citric acid",
        "dried thyme",
    ];
    let (mut tried, mut tested, mut turn) = (0, 0, 0usize);
    for sheet in Reference::embedded().recipes() {
        // Every ninth line with three of the others, turning: all of them would take minutes.
        for index in (turn % 9..sheet.rows.len()).step_by(9) {
            turn += 1;
            let row = &sheet.rows[index];
            if row.optional || !row.choice.is_empty() || row.per != "batch" {
                continue;
            }
            let own = written(sheet, whole(1));
            let name = row.ingredient.replace('-', " ");
            let amount = Amount::from_table(row.amount.low(), &row.unit).expect("an amount");
            for other in others.iter().cycle().skip(turn * 5).take(3) {
                let mut lines = own.clone();
                let at = lines
                    .iter()
                    .position(|line| line.name == name && line.amount == amount);
                lines[at.expect("the line")].name = (*other).to_owned();
                tried += 1;
                if state(lines) != RecipeState::Tested {
                    continue;
                }
                tested += 1;
                let swap = Edit::Swap {
                    line: (index + 1).to_string(),
                    replaced: None,
                    with: (*other).to_owned(),
                    amount: Some(amount.clone()),
                };
                let out = Edit::LeaveOut {
                    line: (index + 1).to_string(),
                };
                let same = Reference::embedded().same_ingredient(other, &row.ingredient);
                // Left out and something else put in: two edits, each of them allowed.
                let apart = allowed(sheet, out)
                    && allowed(
                        sheet,
                        Edit::Add {
                            ingredient: (*other).to_owned(),
                            amount: amount.clone(),
                        },
                    );
                assert!(
                    same || apart || allowed(sheet, swap),
                    "{}: {other} for {}",
                    sheet.key,
                    row.ingredient
                );
            }
        }
    }
    assert!(tried > 200 && tested > 0, "{tried} tried, {tested} tested");
}

#[test]
fn half_the_acid_never_makes_a_tested_recipe() {
    for sheet in Reference::embedded().recipes() {
        let mut lines = written(sheet, whole(1));
        let mut met = false;
        for line in &mut lines {
            let kind = Reference::embedded()
                .ingredient(&line.name)
                .map(|row| row.kind);
            if kind.is_some_and(reference::IngredientKind::is_acid) {
                line.amount.size /= whole(2);
                met = true;
            }
        }
        // A single line that is halved is the whole, scaled.
        if met && sheet.rows.len() > 1 {
            assert_ne!(state(lines), RecipeState::Tested, "{}", sheet.key);
        }
    }
}

#[test]
fn a_line_more_than_the_tested_recipe_is_a_trial() {
    for sheet in Reference::embedded().recipes() {
        for more in ["sweet corn", "moon turnips", "ground beef"] {
            let mut lines = written(sheet, whole(1));
            lines.push(HouseholdLine {
                name: more.to_owned(),
                amount: change_file::amount("3 cup"),
                per: "batch".to_owned(),
            });
            assert_ne!(state(lines), RecipeState::Tested, "{} {more}", sheet.key);
        }
    }
}
