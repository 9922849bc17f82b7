//! Deleting any single rule changes an answer of the case tables.

use super::{RULES, Rule, judge_by};
use crate::case_file::{self, Ask};
use reference::Reference;

const TABLES: [&str; 2] = [
    include_str!("../../../../data/cases/nasty.csv"),
    include_str!("../../../../data/cases/gallery.csv"),
];

#[test]
fn no_rule_can_be_left_out_unnoticed() {
    let reference = Reference::embedded();
    let cases: Vec<_> = TABLES
        .iter()
        .flat_map(|text| case_file::read(text))
        .collect();
    for left_out in RULES {
        let rules: Vec<Rule> = RULES
            .iter()
            .filter(|rule| rule.name != left_out.name)
            .copied()
            .collect();
        let noticed = cases.iter().any(|case| match &case.ask {
            Ask::Heat(question) => {
                judge_by(reference, question, RULES) != judge_by(reference, question, &rules)
            }
            _ => false,
        });
        assert!(noticed, "no case notices that `{}` is gone", left_out.name);
    }
}

#[test]
fn empty_jars_are_boiled_longer_higher_up() {
    let reference = Reference::embedded();
    let at = |feet: i64| {
        let place = quantity::whole(feet);
        let found = super::conditions::sterilise_minutes(reference, place);
        found.expect("numbers").0
    };
    assert_eq!(at(0), 10);
    assert_eq!(at(999), 10);
    assert_eq!(at(1000), 11);
    assert_eq!(at(1500), 12);
    assert_eq!(at(2000), 12);
    assert_eq!(at(6001), 17);
}
