//! The gallery of recipe changes: every rule with a change it lets through and one it refuses.

use crate::change_file::{self, Case};
use crate::patched::patched;
use reference::{ChangeAnswer, Reference};
use safety::RecipeState;
use std::collections::BTreeSet;

const GALLERY: &str = include_str!("../../../../data/cases/changes.csv");

#[test]
fn every_change_gets_its_right_answer() {
    let reference = Reference::embedded();
    let wrong: Vec<String> = change_file::read(GALLERY)
        .iter()
        .filter_map(|case| {
            fault(reference, case).map(|what| format!("{} ({}): {what}", case.nr, case.title))
        })
        .collect();
    assert!(
        wrong.is_empty(),
        "{} wrong:\n{}",
        wrong.len(),
        wrong.join("\n")
    );
}

fn fault(reference: &Reference, case: &Case) -> Option<String> {
    let (answer, text, rules) = change_file::answer(reference, &case.change);
    if answer != case.expect {
        return Some(format!("{answer}, expected {}; {rules:?}", case.expect));
    }
    (!text.to_lowercase().contains(&case.must_say.to_lowercase()))
        .then(|| format!("does not say `{}`", case.must_say))
}

#[test]
fn every_rule_has_a_change_it_lets_through_and_one_it_refuses() {
    let reference = Reference::embedded();
    let cases = change_file::read(GALLERY);
    let mut rules: BTreeSet<&str> = safety::OWN_RULES.iter().copied().collect();
    rules.extend(
        reference
            .change_triggers()
            .iter()
            .map(|trigger| trigger.rule.as_str()),
    );
    let mut missing = Vec::new();
    for rule in rules {
        let of_rule: Vec<&Case> = cases.iter().filter(|case| case.nr == rule).collect();
        let refused = of_rule.iter().any(|case| case.expect == "refuse");
        // One rule speaks only of a recipe that is doubtful as a whole: there it lets its edit through.
        let let_through = of_rule
            .iter()
            .any(|case| case.expect != "refuse" || lets_its_edit_through(reference, case, rule));
        let acts = of_rule.iter().any(|case| {
            change_file::answer(reference, &case.change)
                .2
                .iter()
                .any(|r| r == rule)
        });
        if !(refused && let_through && acts) {
            missing.push(format!(
                "{rule}: refused {refused}, let through {let_through}, acts {acts}"
            ));
        }
    }
    assert!(missing.is_empty(), "{}", missing.join("\n"));
}

fn lets_its_edit_through(reference: &Reference, case: &Case, rule: &str) -> bool {
    safety::judge_change(reference, &case.change).is_ok_and(|verdict| {
        verdict.edits.iter().any(|edit| {
            edit.answer != ChangeAnswer::Refuse && edit.findings.iter().any(|f| f.rule == rule)
        })
    })
}

/// Whoever follows a recipe that the gate gives no permit is not told that it is tested.
#[test]
fn a_household_recipe_like_a_doubtful_one_is_no_tested_recipe() {
    let reference = Reference::embedded();
    for key in ["fall-garden-relish", "golden-pepper-jelly"] {
        let lines = reference
            .recipe_rows(key)
            .iter()
            .map(|row| safety::HouseholdLine {
                name: row.ingredient.clone(),
                amount: safety::Amount::from_table(row.amount.low(), &row.unit).expect("fits"),
                per: row.per.clone(),
            })
            .collect();
        let asked = safety::HouseholdRecipe {
            title: "Invented".to_owned(),
            lines,
            jar: None,
            pack: None,
            canner: None,
        };
        let verdict = safety::judge_household_recipe(reference, &asked).expect("an answer");
        assert_eq!(verdict.state, RecipeState::HouseholdTrial, "{key}");
        assert_eq!(
            verdict.nearest.map(|nearest| nearest.recipe).as_deref(),
            Some(key)
        );
        assert!(verdict.cold_only.is_some(), "{key}");
    }
}

#[test]
fn an_amount_from_memory_closes_the_shelf_without_the_doubtful_list() {
    let reference = patched(
        "process/doubtful.csv",
        "recipes,golden-pepper-jelly/",
        "recipes,another-jelly/",
    );
    let change = safety::RecipeChange {
        recipe: "golden-pepper-jelly".to_owned(),
        edits: Vec::new(),
    };
    let verdict = safety::judge_change(&reference, &change).expect("an answer");
    assert_eq!(verdict.answer, ChangeAnswer::Refuse);
    assert!(
        verdict.whole[0].text.contains("from memory"),
        "{:?}",
        verdict.whole
    );
}

#[test]
fn every_row_of_the_change_table_acts_somewhere() {
    let reference = Reference::embedded();
    let acted: BTreeSet<String> = change_file::read(GALLERY)
        .iter()
        .flat_map(|case| change_file::answer(reference, &case.change).2)
        .collect();
    let silent: Vec<&str> = reference
        .changes()
        .iter()
        .map(|row| row.change.as_str())
        .filter(|change| !acted.contains(*change))
        .collect();
    assert!(silent.is_empty(), "{silent:?}");
}
