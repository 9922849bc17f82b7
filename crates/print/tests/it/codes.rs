//! The short code: there and back, and no slip goes unnoticed.

use print::{Code, SIGNS};
use proptest::prelude::*;

#[test]
fn no_sign_can_be_taken_for_another() {
    let confused = [
        "0OQD",
        "1IL7J",
        "2Z",
        "5S",
        "8B",
        "UV",
        "MN",
        "G6",
        "AHKJ",
        "BCDEGPTVZ3",
        "4A",
        "9Q",
        "PR",
    ];
    for group in confused {
        let used: String = group.chars().filter(|sign| SIGNS.contains(sign)).collect();
        // Of a group that looks or sounds alike at most one is used. H and K differ in both:
        // «aitch» and «kay».
        let most = if group == "AHKJ" { 2 } else { 1 };
        assert!(used.len() <= most, "{used}");
    }
}

#[test]
fn a_code_is_read_however_it_was_typed() {
    let code = Code {
        batch: 47,
        container: 3,
    };
    let text = code.to_text().unwrap();
    assert_eq!(text.len(), 7);
    let loose = text.to_lowercase().replace('-', " ");
    for typed in [
        text.clone(),
        format!("  {text} "),
        loose,
        text.replace('-', "–"),
    ] {
        assert_eq!(Code::from_text(&typed).unwrap(), code, "{typed}");
    }
}

#[test]
fn what_is_no_code_says_why() {
    for (typed, why) in [
        ("2O2-222", "«O»"),
        ("22-22", "too few"),
        ("222", "two groups"),
        ("", "two groups"),
        ("234-", "after the hyphen"),
        ("222-222", "no batch"),
    ] {
        let error = Code::from_text(typed).unwrap_err().to_string();
        assert!(error.contains(why), "{typed}: {error}");
    }
    for (batch, container) in [(0, 1), (-3, 0), (1, -1), (1, 2197), (i64::MAX, 1)] {
        assert!(Code { batch, container }.to_text().is_err());
    }
}

fn code() -> impl Strategy<Value = Code> {
    (1..800_000_000i64, 0..2197i64).prop_map(|(batch, container)| Code { batch, container })
}

proptest! {
    #[test]
    fn every_code_comes_back(code in code()) {
        prop_assert_eq!(Code::from_text(&code.to_text().unwrap()).unwrap(), code);
    }

    #[test]
    fn one_wrong_sign_is_always_noticed(code in code(), at in 0usize..12, other in 0usize..13) {
        let text = code.to_text().unwrap();
        let mut signs: Vec<char> = text.chars().collect();
        let at = at % signs.len();
        if signs[at] != '-' && signs[at] != SIGNS[other] {
            signs[at] = SIGNS[other];
            let wrong: String = signs.into_iter().collect();
            prop_assert!(Code::from_text(&wrong).is_err(), "{} for {}", wrong, text);
        }
    }

    #[test]
    fn two_neighbours_that_changed_places_are_always_noticed(code in code(), at in 0usize..11) {
        let text = code.to_text().unwrap();
        let mut signs: Vec<char> = text.chars().collect();
        let places: Vec<usize> = (0..signs.len()).filter(|place| signs[*place] != '-').collect();
        let pair = &places[at % (places.len() - 1)..][..2];
        if signs[pair[0]] != signs[pair[1]] {
            signs.swap(pair[0], pair[1]);
            let wrong: String = signs.into_iter().collect();
            prop_assert!(Code::from_text(&wrong).is_err(), "{} for {}", wrong, text);
        }
    }

    #[test]
    fn no_text_makes_it_stumble(text in "\\PC{0,20}") {
        if let Ok(code) = Code::from_text(&text) {
            prop_assert!(code.to_text().is_ok());
        }
    }
}
