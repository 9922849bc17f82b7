//! The gallery of recipe changes: every rule with a change it lets through and one it refuses.

use crate::change_file::{self, Case};
use reference::Reference;
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
        let let_through = of_rule.iter().any(|case| case.expect != "refuse");
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
