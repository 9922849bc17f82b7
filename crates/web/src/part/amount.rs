//! Amounts as people read them: both unit systems side by side, fractions as one sign.

use maud::{Markup, html};

/// "24 lb 10.9 kg", never broken over a line. An empty second unit is left out.
pub fn amount(first: &str, second: &str) -> Markup {
    html! {
        span.amt { b { (first) } @if !second.is_empty() { i { (second) } } }
    }
}

/// Fractions of kitchen measures as one sign: "2 1/4 cups" becomes "2¼ cups". A fraction that has
/// no sign of its own stays as it is.
pub fn fractions(text: &str) -> String {
    let mut words: Vec<String> = Vec::new();
    for word in text.split(' ') {
        let end = word
            .find(|letter: char| !letter.is_ascii_digit() && letter != '/')
            .unwrap_or(word.len());
        let (core, rest) = word.split_at(end);
        let Some(sign) = sign(core) else {
            words.push(word.to_owned());
            continue;
        };
        match words.last_mut() {
            // "2 1/4" is one number; "p. 2 1/4" does not occur in measures.
            Some(before)
                if !before.is_empty() && before.chars().all(|letter| letter.is_ascii_digit()) =>
            {
                before.push(sign);
                before.push_str(rest);
            }
            _ => words.push(format!("{sign}{rest}")),
        }
    }
    words.join(" ")
}

fn sign(fraction: &str) -> Option<char> {
    Some(match fraction {
        "1/2" => '½',
        "1/3" => '⅓',
        "2/3" => '⅔',
        "1/4" => '¼',
        "3/4" => '¾',
        "1/8" => '⅛',
        "3/8" => '⅜',
        "5/8" => '⅝',
        "7/8" => '⅞',
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::{amount, fractions};

    #[test]
    fn both_units_stand_side_by_side_and_an_absent_one_leaves_no_trace() {
        assert_eq!(
            amount("24 lb", "10.9 kg").into_string(),
            "<span class=\"amt\"><b>24 lb</b><i>10.9 kg</i></span>"
        );
        assert_eq!(
            amount("16 cloves", "").into_string(),
            "<span class=\"amt\"><b>16 cloves</b></span>"
        );
    }

    #[test]
    fn fractions_become_signs_and_nothing_else_changes() {
        assert_eq!(fractions("2 1/4 cups"), "2¼ cups");
        assert_eq!(fractions("1/2 in (13 mm)"), "½ in (13 mm)");
        assert_eq!(
            fractions("2 tbsp + 3/4 tsp; 1 1/3 cups, p. 3-6"),
            "2 tbsp + ¾ tsp; 1⅓ cups, p. 3-6"
        );
        assert_eq!(fractions("5/16 in"), "5/16 in");
        assert_eq!(fractions("11/2 and 1/22"), "11/2 and 1/22");
        assert_eq!(fractions(""), "");
    }
}
