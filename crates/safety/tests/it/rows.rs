//! Every printed row comes through the gate as printed, or is refused for a documented reason.

use crate::ask;
use quantity::{Elevation, Exact};
use reference::{ProcessRow, Reference};
use std::collections::BTreeMap;

/// Places inside a row's band: just inside its lower edge, in the middle, at its upper edge.
fn inside(row: &ProcessRow) -> Vec<Elevation> {
    let low = i128::from(row.low_ft);
    let mut places = vec![Exact::from_integer(low)];
    if low > 0 {
        // Bands of whole feet meet: a part of a foot above the band below is in this one.
        places.push(Exact::from_integer(low - 1) + Exact::new(1, 100));
    }
    match row.high_ft {
        // At exactly 1,000 ft the text's stricter reading acts; see the edge tests.
        Some(1000) => places.push(Exact::new(9999, 10)),
        Some(high) => places.push(Exact::from_integer(i128::from(high))),
        None => places.push(Exact::from_integer(low + 9000)),
    }
    places.into_iter().map(Elevation::feet).collect()
}

#[test]
fn every_row_gives_its_printed_minutes_and_pressure_or_a_documented_refusal() {
    let r = Reference::embedded();
    let mut refused: BTreeMap<&str, usize> = BTreeMap::new();
    let mut permitted = 0;
    for row in r.processes() {
        let mut codes = Vec::new();
        for pack in ask::packs(row) {
            for place in inside(row) {
                let question = ask::for_row(r, row, pack, place);
                match safety::judge_heat(r, &question) {
                    safety::Verdict::Permit(permit) => {
                        assert_eq!(permit.minutes(), row.minutes, "{}", row.key());
                        assert_eq!(permit.psi(), row.psi, "{}", row.key());
                        assert_eq!(permit.row_keys(), [row.key()]);
                        assert_eq!(permit.page(), row.page);
                        assert!(permit.source().contains("AIB 539"), "{}", permit.source());
                        assert_eq!(permit.band(), (row.low_ft, row.high_ft));
                        codes.push(None);
                    }
                    safety::Verdict::Refusal(refusal) => codes.push(Some(refusal.code)),
                }
            }
        }
        codes.dedup();
        assert_eq!(codes.len(), 1, "{}: one answer inside the band", row.key());
        match codes[0] {
            None => permitted += 1,
            Some(code) => *refused.entry(code).or_default() += 1,
        }
    }
    // The doubtful third pairs (8), and two recipes: one with an amount from memory, one of a single page.
    assert_eq!(
        refused,
        BTreeMap::from([("doubtful-show-only", 8), ("recipe-doubtful", 6)])
    );
    assert_eq!(permitted, 1526 - 14);
}

#[test]
fn just_outside_its_band_no_row_is_ever_used() {
    let r = Reference::embedded();
    let mut asked = 0;
    for row in r.processes() {
        let mut outside = Vec::new();
        if row.low_ft > 0 {
            outside.push(Exact::from_integer(i128::from(row.low_ft) - 1));
        }
        if let Some(high) = row.high_ft {
            outside.push(Exact::from_integer(i128::from(high)) + Exact::new(1, 12));
        }
        for place in outside {
            // At exactly 1,000 ft the next row acts on purpose.
            if place == Exact::from_integer(1000) {
                continue;
            }
            let pack = ask::packs(row)[0];
            let question = ask::for_row(r, row, pack, Elevation::feet(place));
            asked += 1;
            if let Some(permit) = safety::judge_heat(r, &question).permit() {
                assert!(
                    !permit.row_keys().contains(&row.key().as_str()),
                    "{}",
                    row.key()
                );
            }
        }
    }
    assert!(asked > 1500, "{asked}");
}
