//! Whatever is changed: more low-acid produce, less acid, a larger jar or an unlisted pack is never
//! allowed, and no change makes the gate panic.

use proptest::prelude::*;
use quantity::{Exact, whole};
use reference::{AcidClass, ChangeAnswer, IngredientKind, Jar, Pack, RecipeSheet, Reference};
use safety::{Amount, Edit, Measure, RecipeChange};

fn recipes() -> Vec<&'static RecipeSheet> {
    Reference::embedded().recipes().iter().collect()
}

fn kind(key: &str) -> Option<IngredientKind> {
    Reference::embedded().ingredient(key).map(|row| row.kind)
}

/// Lines of recipes for food that is made acid, by recipe and line.
fn lines_of_acidified(
    wanted: impl Fn(&reference::RecipeRow) -> bool,
) -> Vec<(&'static RecipeSheet, usize)> {
    let mut found = Vec::new();
    for sheet in recipes() {
        if class(sheet) == Some(AcidClass::Acidified) {
            let lines = sheet.rows.iter().enumerate().filter(|(_, row)| wanted(row));
            found.extend(lines.map(|(index, _)| (sheet, index)));
        }
    }
    assert!(found.len() > 40, "{} lines to try", found.len());
    found
}

fn class(sheet: &RecipeSheet) -> Option<AcidClass> {
    let food = sheet.food.as_deref()?;
    Some(Reference::embedded().food(food)?.acid_class)
}

/// An amount that is `times` the printed one, in the printed unit.
fn times(sheet: &RecipeSheet, index: usize, times: Exact) -> Option<Amount> {
    let row = &sheet.rows[index];
    let printed = Amount::from_table(row.amount.high(), &row.unit).ok()?;
    Some(Amount {
        size: printed.size * times,
        ..printed
    })
}

fn answer(sheet: &RecipeSheet, edits: Vec<Edit>) -> Option<ChangeAnswer> {
    let change = RecipeChange {
        recipe: sheet.key.clone(),
        edits,
    };
    safety::judge_change(Reference::embedded(), &change)
        .ok()
        .map(|verdict| verdict.answer)
}

/// Edits of every harmless and harmful sort, beside the one that must be refused.
fn noise() -> impl Strategy<Value = Vec<(usize, u8, i128)>> {
    prop::collection::vec((0usize..40, 0u8..6, 1i128..30), 0..4)
}

fn edits_of(sheet: &RecipeSheet, noise: &[(usize, u8, i128)], not: usize) -> Vec<Edit> {
    noise
        .iter()
        .filter_map(|(at, what, tenths)| {
            let index = at % sheet.rows.len();
            let line = (index + 1).to_string();
            if index == not {
                return None;
            }
            Some(match what {
                0 => Edit::LeaveOut { line },
                1 => Edit::Amount {
                    line,
                    amount: times(sheet, index, Exact::new(*tenths, 10))?,
                },
                2 => Edit::Swap {
                    line,
                    replaced: None,
                    with: sheet.rows[(index + 1) % sheet.rows.len()]
                        .ingredient
                        .clone(),
                    amount: None,
                },
                3 => Edit::Add {
                    ingredient: "dried oregano".to_owned(),
                    amount: Amount {
                        size: Exact::from_integer(*tenths),
                        measure: Measure::Volume,
                        text: "some".to_owned(),
                    },
                },
                4 => Edit::Manner {
                    manner: "longer-time".to_owned(),
                },
                _ => Edit::Jar { jar: Jar::HalfPint },
            })
        })
        .collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(500))]

    #[test]
    fn more_of_what_is_low_acid_is_never_allowed_in_acid_food(
        line in any::<prop::sample::Index>(), more in 11i128..40, noise in noise(),
    ) {
        let all = lines_of_acidified(|row| {
            // A vegetable printed as a spice (ground pepper) is one.
            row.role != "spice" && kind(&row.ingredient).is_some_and(IngredientKind::is_low_acid)
        });
        let (sheet, index) = all[line.index(all.len())];
        let row = &sheet.rows[index];
        let Some(amount) = times(sheet, index, Exact::new(more, 10)) else { return Ok(()) };
        let mut edits = edits_of(sheet, &noise, index);
        // Not an even scaling of the whole, which is no change of its shares.
        edits.push(Edit::Add {
            ingredient: "black pepper".to_owned(),
            amount: Amount { size: whole(1), measure: Measure::Volume, text: "a little".to_owned() },
        });
        edits.push(Edit::Amount { line: (index + 1).to_string(), amount });
        if let Some(answer) = answer(sheet, edits) {
            prop_assert_eq!(answer, ChangeAnswer::Refuse, "{} {}", sheet.key, row.ingredient);
        }
    }

    #[test]
    fn less_acid_is_never_allowed(
        line in any::<prop::sample::Index>(), less in 0i128..10, noise in noise(),
    ) {
        let all = lines_of_acidified(|row| {
            let acid = kind(&row.ingredient).is_some_and(IngredientKind::is_acid);
            acid && row.role == "acid" && row.choice.is_empty() && !row.optional
        });
        let (sheet, index) = all[line.index(all.len())];
        let row = &sheet.rows[index];
        let mut edits = edits_of(sheet, &noise, index);
        let line = (index + 1).to_string();
        if less == 0 {
            edits.push(Edit::LeaveOut { line });
        } else {
            let cut = Exact::new(less, 10) * row.amount.low() / row.amount.high();
            let Some(amount) = times(sheet, index, cut) else { return Ok(()) };
            edits.push(Edit::Amount { line, amount });
        }
        if let Some(answer) = answer(sheet, edits) {
            prop_assert_eq!(answer, ChangeAnswer::Refuse, "{} {}", sheet.key, row.ingredient);
        }
    }

    #[test]
    fn a_larger_jar_or_an_unlisted_pack_is_never_allowed(
        recipe in 0usize..118, jar in 0usize..9, pack in 0usize..2, noise in noise(),
    ) {
        let r = Reference::embedded();
        let all = recipes();
        let sheet = all[recipe % all.len()];
        let (jar, pack) = (Jar::ALL[jar], Pack::ALL[pack]);
        let food = sheet.food.as_deref().unwrap_or_default();
        let rows = r.processes_for(food);
        let edits = edits_of(sheet, &noise, usize::MAX);
        if rows.iter().all(|row| row.jar.volume() < jar.volume()) {
            let mut edits = edits.clone();
            edits.push(Edit::Jar { jar });
            if let Some(answer) = answer(sheet, edits) {
                prop_assert_eq!(answer, ChangeAnswer::Refuse, "{} {}", sheet.key, jar);
            }
        }
        let either = r
            .questions_for(food)
            .iter()
            .any(|q| q.effect == reference::QuestionEffect::EitherPack);
        if !either && !rows.iter().any(|row| row.pack.serves(pack)) {
            let mut edits = edits;
            edits.push(Edit::Pack { pack });
            if let Some(answer) = answer(sheet, edits) {
                prop_assert_eq!(answer, ChangeAnswer::Refuse, "{} {}", sheet.key, pack);
            }
        }
    }

    #[test]
    fn any_words_are_answered_or_named(
        recipe in ".{0,20}", line in ".{0,12}", with in ".{0,12}", size in any::<i128>(), part in 1i128..i128::MAX,
    ) {
        let r = Reference::embedded();
        let amount = Amount { size: Exact::new(size.max(-i128::MAX), part), measure: Measure::Volume, text: line.clone() };
        for recipe in [recipe.as_str(), "piccalilli"] {
            let edits = vec![
                Edit::Amount { line: "1".to_owned(), amount: amount.clone() },
                Edit::Swap { line: line.clone(), replaced: Some(amount.clone()), with: with.clone(), amount: None },
                Edit::Add { ingredient: with.clone(), amount: amount.clone() },
                Edit::Scale { times: amount.size },
                Edit::Manner { manner: line.clone() },
            ];
            for edit in edits {
                let change = RecipeChange { recipe: recipe.to_owned(), edits: vec![edit] };
                if let Err(error) = safety::judge_change(r, &change) {
                    prop_assert!(!error.field.is_empty() && !error.example.is_empty(), "{error}");
                }
            }
        }
    }
}
