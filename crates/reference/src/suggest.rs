//! Finds rows whose key or title resembles what was typed.

/// Most suggestions given.
const MOST: usize = 5;

/// The rows that resemble `text`, best first.
pub fn best<'r, T>(
    text: &str,
    rows: &'r [T],
    names: impl Fn(&'r T) -> (&'r str, &'r str),
) -> Vec<&'r T> {
    let wanted = words(text);
    if wanted.is_empty() {
        return Vec::new();
    }
    let mut scored: Vec<(usize, usize, &T)> = rows
        .iter()
        .enumerate()
        .filter_map(|(order, row)| {
            let (key, title) = names(row);
            let have: Vec<String> = words(key).into_iter().chain(words(title)).collect();
            let apart: usize = wanted.iter().map(|w| closeness(w, &have)).sum();
            // Words typed apart that the table writes together, or the other way round.
            let together =
                closeness(&wanted.concat(), &[words(key).concat()]) * wanted.len().max(2);
            let score = apart + together;
            // At least one word must be met nearly in full.
            (score > 1).then_some((score * 100 / (have.len() + 3), order, row))
        })
        .collect();
    scored.sort_by(|a, b| b.0.cmp(&a.0).then(a.1.cmp(&b.1)));
    scored
        .into_iter()
        .take(MOST)
        .map(|(_, _, row)| row)
        .collect()
}

fn words(text: &str) -> Vec<String> {
    text.to_lowercase()
        .split(|c: char| !c.is_alphanumeric())
        .filter(|w| w.len() > 1)
        .map(str::to_owned)
        .collect()
}

/// 4 for the same word, 3 for a beginning, 2 for a slip or two, 0 for nothing alike.
fn closeness(wanted: &str, have: &[String]) -> usize {
    have.iter()
        .map(|word| {
            if word == wanted {
                4
            } else if word.len() > 2
                && wanted.len() > 2
                && (word.starts_with(wanted) || wanted.starts_with(word.as_str()))
            {
                3
            } else if wanted.len() > 3 && slips(wanted, word) <= 1 + usize::from(wanted.len() > 6) {
                2
            } else {
                0
            }
        })
        .max()
        .unwrap_or(0)
}

/// Letters to change, add or drop between two words.
fn slips(a: &str, b: &str) -> usize {
    let b: Vec<char> = b.chars().collect();
    let mut row: Vec<usize> = (0..=b.len()).collect();
    for (i, ca) in a.chars().enumerate() {
        let mut diagonal = row[0];
        row[0] = i + 1;
        for (j, cb) in b.iter().enumerate() {
            let change = diagonal + usize::from(ca != *cb);
            diagonal = row[j + 1];
            row[j + 1] = change.min(row[j] + 1).min(diagonal + 1);
        }
    }
    row[b.len()]
}
