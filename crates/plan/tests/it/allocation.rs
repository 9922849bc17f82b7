//! Wrong harvest plans, one broken rule each: the checker must name that rule and no other.

use std::collections::BTreeSet;
use std::path::Path;

use plan::allocation::{Plan, Problem, check};
use serde::Deserialize;

#[derive(Deserialize)]
struct Case {
    /// The code of the rule that is broken; none for the accepted plan.
    breaks: Option<String>,
    why: String,
    problem: Problem,
    plan: Plan,
}

fn cases() -> Vec<(String, Case)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/bad/allocation");
    let mut cases = Vec::new();
    for entry in std::fs::read_dir(&folder).expect("the folder of wrong plans exists") {
        let path = entry.expect("a readable entry").path();
        let text = std::fs::read_to_string(&path).expect("a readable file");
        let case = serde_json::from_str(&text)
            .unwrap_or_else(|error| panic!("{}: {error}", path.display()));
        let name = path.file_stem().expect("a name").to_string_lossy();
        cases.push((name.into_owned(), case));
    }
    cases.sort_by(|a, b| a.0.cmp(&b.0));
    cases
}

#[test]
fn each_wrong_plan_is_rejected_for_its_own_rule_only() {
    for (name, case) in cases() {
        let breaches = check(&case.problem, &case.plan);
        let codes: BTreeSet<&str> = breaches.iter().map(|b| b.code.as_str()).collect();
        let expected: BTreeSet<&str> = case.breaks.as_deref().into_iter().collect();
        assert_eq!(codes, expected, "{name} ({}): {breaches:?}", case.why);
    }
}

#[test]
fn every_rule_has_a_wrong_plan() {
    let covered: BTreeSet<String> = cases()
        .into_iter()
        .filter_map(|(_, case)| case.breaks)
        .collect();
    let expected: BTreeSet<String> = (1000..=1023).map(|code| format!("P{code}")).collect();
    assert_eq!(covered, expected);
}
