//! How near a misspelt word is to a known one.

/// Lower case, single spaces, hyphens as spaces: the form names are compared in.
pub(crate) fn normal(text: &str) -> String {
    text.replace(['-', '_'], " ")
        .split_whitespace()
        .map(str::to_lowercase)
        .collect::<Vec<_>>()
        .join(" ")
}

/// How many slips lie between a typed word and a name, or between it and one word of the name;
/// `None` when they are too far apart to be meant.
pub(crate) fn closeness(typed: &str, name: &str) -> Option<usize> {
    let typed_letters = typed.chars().count();
    if typed_letters < 3 {
        return None;
    }
    // One slip in three letters or four, two in up to eight, three beyond.
    let allowed = match typed_letters {
        0..=4 => 1,
        5..=8 => 2,
        _ => 3,
    };
    std::iter::once(name)
        .chain(name.split(' '))
        .map(|word| slips(typed, word))
        .min()
        .filter(|&slips| slips <= allowed)
}

/// Letters to add, drop, change or swap with their neighbour to turn one word into the other.
fn slips(a: &str, b: &str) -> usize {
    let a: Vec<char> = a.chars().collect();
    let b: Vec<char> = b.chars().collect();
    let mut two_back: Vec<usize> = Vec::new();
    let mut back: Vec<usize> = (0..=b.len()).collect();
    for (i, &from) in a.iter().enumerate() {
        let mut row = vec![i + 1];
        for (j, &to) in b.iter().enumerate() {
            let mut least = (back[j] + usize::from(from != to))
                .min(back[j + 1] + 1)
                .min(row[j] + 1);
            if i > 0 && j > 0 && from == b[j - 1] && a[i - 1] == to {
                least = least.min(two_back[j - 1] + 1);
            }
            row.push(least);
        }
        two_back = std::mem::replace(&mut back, row);
    }
    back[b.len()]
}

#[cfg(test)]
mod tests {
    use super::{closeness, normal, slips};

    #[test]
    fn a_swap_an_addition_and_a_change_are_one_slip_each() {
        assert_eq!(slips("tomato", "tomato"), 0);
        assert_eq!(slips("tomatoe", "tomato"), 1);
        assert_eq!(slips("tmoato", "tomato"), 1);
        assert_eq!(slips("tomatu", "tomato"), 1);
        assert_eq!(slips("", "pea"), 3);
    }

    #[test]
    fn far_words_and_single_letters_are_not_near_anything() {
        assert_eq!(closeness("wheelbarrow", "tomato"), None);
        assert_eq!(closeness("p", "pea"), None);
        assert_eq!(closeness("strawbery", "strawberry"), Some(1));
    }

    #[test]
    fn names_are_compared_without_case_and_hyphens() {
        assert_eq!(normal("  Tomato-Paste "), "tomato paste");
    }
}
