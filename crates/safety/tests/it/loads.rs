//! Canner loads with jars of more than one kind.

use crate::{ask, case_file};
use proptest::prelude::*;
use reference::{Jar, Method, Pack, Reference};

#[test]
fn every_load_of_the_case_table_gets_its_answer() {
    let r = Reference::embedded();
    let loads = case_file::loads(include_str!("../../../../data/cases/loads.csv"));
    for load in &loads {
        let verdict = safety::judge_load(r, &load.questions);
        let text = format!("{verdict:?}").to_lowercase();
        for said in load.must_say.split("; ").filter(|s| !s.is_empty()) {
            let said = said.to_lowercase();
            assert!(
                text.contains(&said),
                "{}: does not say `{said}`: {text}",
                load.nr
            );
        }
        match load.expect.as_str() {
            "refusal" => {
                let refusal = verdict
                    .refusal()
                    .unwrap_or_else(|| panic!("{}: permitted", load.nr));
                assert_eq!(refusal.code, load.code, "{} ({})", load.nr, load.title);
                assert!(verdict.permit().is_none());
                assert!(!refusal.instead.is_empty() && !refusal.source.is_empty());
            }
            expect => {
                let permit = verdict
                    .permit()
                    .unwrap_or_else(|| panic!("{}: {text}", load.nr));
                assert!(verdict.refusal().is_none());
                let record = permit.record();
                let keys: Vec<&str> = record.conditions.iter().map(|c| c.key.as_str()).collect();
                assert_eq!(permit.minutes().to_string(), load.minutes, "{}", load.nr);
                let psi = record.psi.map(|psi| psi.to_string()).unwrap_or_default();
                assert_eq!(psi, load.psi, "{}", load.nr);
                assert_eq!(record.permits.len(), load.questions.len());
                assert_eq!(record.pairs.len(), load.questions.len());
                match expect {
                    "permit" => assert!(keys.is_empty(), "{}: {keys:?}", load.nr),
                    _ => assert!(keys.contains(&load.code.as_str()), "{}: {keys:?}", load.nr),
                }
            }
        }
    }
    let codes = [
        "load-empty",
        "load-two-canners",
        "load-own-run",
        "load-start-differs",
        "load-pressure-differs",
    ];
    for code in codes {
        assert!(
            loads.iter().any(|load| load.code == code),
            "{code}: no case"
        );
    }
    assert_eq!(safety::load_rule_names().len(), 6);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    /// Whatever is put together: no jar of a permitted load gets less than its own printed time,
    /// and all get it at their own printed pressure.
    #[test]
    fn no_jar_gets_less_than_its_own_time(
        foods in prop::collection::vec((0usize..154, 0usize..2, 0usize..9), 1..4),
        method in 0usize..4,
        feet in 0i128..9_000,
    ) {
        let r = Reference::embedded();
        let questions: Vec<_> = foods
            .iter()
            .map(|(food, pack, jar)| {
                ask::well_answered(
                    r,
                    &r.foods()[*food].food,
                    Pack::ALL[*pack],
                    Jar::ALL[*jar],
                    Method::ALL[method],
                    ask::feet(feet, 1),
                )
            })
            .collect();
        if let Some(permit) = safety::judge_load(r, &questions).permit() {
            let record = permit.record();
            for (pair, one) in record.pairs.iter().zip(&record.permits) {
                prop_assert!(one.pairs.contains(pair));
                prop_assert!(permit.minutes() >= pair.minutes);
                prop_assert_eq!(record.psi, pair.psi);
            }
            let steam = Method::ALL[method] == Method::Steam;
            prop_assert!(!steam || permit.minutes() <= 45);
        }
    }
}
