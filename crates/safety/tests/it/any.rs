//! Whatever is asked, the gate answers: it never panics, and what it permits is printed.

use crate::ask;
use proptest::prelude::*;
use quantity::{Elevation, Exact};
use reference::{Jar, Method, Pack, Reference};
use safety::{AcidPortion, AcidUse, CannerFacts, HeatQuestion, ProduceHistory, VinegarFacts};

/// Fractions of every size, the largest and finest among them.
fn fraction() -> impl Strategy<Value = Exact> {
    let whole = prop_oneof![
        -20i128..20_000,
        any::<i128>().prop_filter("negatable", |n| *n != i128::MIN)
    ];
    let part = prop_oneof![Just(1i128), 1i128..1000, 1i128..i128::MAX];
    (whole, part).prop_map(|(n, d)| Exact::new(n, d))
}

fn pick<T: Copy + std::fmt::Debug>(all: &'static [T]) -> impl Strategy<Value = T> {
    (0..all.len()).prop_map(|i| all[i])
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(600))]

    #[test]
    fn any_question_gets_an_answer(
        food in 0usize..154,
        pack in pick(Pack::ALL),
        jar in pick(Jar::ALL),
        method in pick(Method::ALL),
        low in fraction(),
        high in fraction(),
        error in fraction(),
        share in fraction(),
        percent in fraction(),
        sound in any::<bool>(),
        tidy in any::<bool>(),
    ) {
        let r = Reference::embedded();
        let food = &r.foods()[food].food;
        let place = Elevation { low_ft: low, high_ft: high };
        let mut q = ask::well_answered(r, food, pack, jar, method, place);
        if !tidy {
            q = HeatQuestion { history: ProduceHistory::unknown(), ..q };
            q.acid = Some(AcidUse {
                portions: vec![AcidPortion { acid: "citric-acid".to_owned(), share }],
                vinegar: Some(VinegarFacts { label_percent: Some(percent), diluted_to_five: sound }),
            });
        }
        if let CannerFacts::Dial { error_psi, .. } = &mut q.canner {
            *error_psi = Some(error);
        }
        match safety::judge_heat(r, &q) {
            safety::Verdict::Permit(permit) => {
                let printed = r.processes_for(food).into_iter().any(|row| {
                    row.key() == permit.chosen().row_key
                        && row.minutes == permit.minutes()
                        && row.psi == permit.psi()
                        && row.jar.volume() >= jar.volume()
                });
                prop_assert!(printed, "{permit:?}");
            }
            safety::Verdict::Refusal(refusal) => {
                prop_assert!(!refusal.instead.is_empty() && !refusal.source.is_empty());
                let known = safety::codes::CODES.iter().any(|info| info.code == refusal.code);
                prop_assert!(known, "{}", refusal.code);
            }
        }
    }

    #[test]
    fn any_text_is_looked_for_without_harm(text in ".{0,40}") {
        let r = Reference::embedded();
        prop_assert!(r.suggest_food(&text).len() <= 5);
        let place = Some(Elevation::feet(Exact::from_integer(500)));
        let found = safety::look_up(r, &text, Pack::Hot, Jar::Pint, Method::BoilingWater, place);
        prop_assert!(found.is_err() || r.food(&text).is_some());
    }
}
