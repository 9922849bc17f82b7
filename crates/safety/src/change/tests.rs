//! Deleting any single rule changes an answer of the gallery.

use super::{CHECKS, ChangeError, ChangeTrigger, ChangeVerdict, Check, RecipeChange, judge_by};
use crate::change_file;
use reference::Reference;

const GALLERY: &str = include_str!("../../../../data/cases/changes.csv");

fn judge(
    change: &RecipeChange,
    left_out: Option<&ChangeTrigger>,
    checks: &[Check],
) -> Result<ChangeVerdict, ChangeError> {
    let reference = Reference::embedded();
    let triggers = reference
        .change_triggers()
        .iter()
        .filter(|trigger| Some(*trigger) != left_out)
        .collect();
    judge_by(reference, change, triggers, checks)
}

#[test]
fn no_published_rule_can_be_left_out_unnoticed() {
    let cases = change_file::read(GALLERY);
    let whole: Vec<_> = cases
        .iter()
        .map(|case| judge(&case.change, None, CHECKS))
        .collect();
    let unnoticed: Vec<&ChangeTrigger> = Reference::embedded()
        .change_triggers()
        .iter()
        .filter(|trigger| {
            let mut both = cases.iter().zip(&whole);
            both.all(|(case, all)| judge(&case.change, Some(trigger), CHECKS) == *all)
        })
        .collect();
    assert!(
        unnoticed.is_empty(),
        "no case notices that these are gone: {unnoticed:?}"
    );
}

#[test]
fn no_check_of_the_whole_can_be_left_out_unnoticed() {
    let cases = change_file::read(GALLERY);
    for left_out in CHECKS {
        let checks: Vec<Check> = CHECKS
            .iter()
            .filter(|check| check.name != left_out.name)
            .copied()
            .collect();
        let noticed = cases
            .iter()
            .any(|case| judge(&case.change, None, CHECKS) != judge(&case.change, None, &checks));
        assert!(
            noticed,
            "no verdict changes when `{}` is gone",
            left_out.name
        );
    }
}
