//! The gate and the second reader answer the same questions alike.

use crate::ask;
use crate::oracle::Oracle;
use quantity::{Elevation, Exact};
use reference::{Jar, Method, Pack, Reference};

/// Tenths of a foot: the edges of every band, and places between them.
const PLACES: [i64; 24] = [
    -100, 0, 5, 4_000, 9_990, 9_999, 10_000, 10_005, 10_007, 10_010, 15_000, 20_000, 20_001,
    25_000, 30_000, 30_001, 40_000, 40_001, 60_000, 60_004, 70_000, 80_000, 80_001, 90_000,
];

#[test]
fn a_second_reader_agrees_on_every_food_pack_jar_and_canner() {
    let reference = Reference::embedded();
    let oracle = Oracle::read();
    let (mut permits, mut conditional, mut refusals) = (0, 0, 0);
    let mut seed: u64 = 7;
    for food in &oracle.foods {
        for pack in Pack::ALL {
            for jar in Jar::ALL {
                for method in Method::ALL {
                    // Two of the 24 places for each question, drawn with a fixed seed.
                    for _ in 0..2 {
                        seed = seed
                            .wrapping_mul(6_364_136_223_846_793_005)
                            .wrapping_add(1_442_695_040_888_963_407);
                        let tenths = PLACES[(seed >> 33) as usize % PLACES.len()];
                        let place = Elevation::feet(Exact::new(i128::from(tenths), 10));
                        let question =
                            ask::well_answered(reference, food, *pack, *jar, *method, place);
                        let verdict = safety::judge_heat(reference, &question);
                        let gate = verdict.permit().map(|permit| {
                            (
                                permit.minutes(),
                                permit.psi(),
                                permit.chosen().row_key.clone(),
                                !permit.conditions().is_empty(),
                            )
                        });
                        let other =
                            oracle.ask(food, pack.as_str(), jar.as_str(), method.as_str(), tenths);
                        assert_eq!(
                            gate, other,
                            "{food} {pack} {jar} {method} {tenths}: {verdict:?}"
                        );
                        match gate {
                            Some((.., false)) => permits += 1,
                            Some((.., true)) => conditional += 1,
                            None => refusals += 1,
                        }
                    }
                }
            }
        }
    }
    assert_eq!(permits + conditional + refusals, 22_176);
    assert_eq!((permits, conditional, refusals), (3_116, 1_421, 17_639));
}
