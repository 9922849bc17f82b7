//! Deleting any single rule of a load changes an answer of the case table.

use super::{RULES, Rule, judge_by};
use crate::case_file;
use reference::Reference;

#[test]
fn no_rule_of_a_load_can_be_left_out_unnoticed() {
    let reference = Reference::embedded();
    let loads = case_file::loads(include_str!("../../../../data/cases/loads.csv"));
    for left_out in RULES {
        let rules: Vec<Rule> = RULES
            .iter()
            .filter(|rule| rule.name != left_out.name)
            .copied()
            .collect();
        let noticed = loads.iter().any(|load| {
            judge_by(reference, &load.questions, RULES)
                != judge_by(reference, &load.questions, &rules)
        });
        assert!(noticed, "no load notices that `{}` is gone", left_out.name);
    }
}
