//! One word per thing: the words that were refused as synonyms do not come
//! back, in code, tables, pages or papers.
//!
//! Names are taken apart first, so that `move_stock`, `StockView` and
//! `stock-list` are all read as holding the word.

use crate::Problem;
use crate::files::Text;

/// A refused word and the word that is used instead.
const REFUSED: [(&str, &str); 9] = [
    ("item", "lot, container or line"),
    ("items", "lots, containers or lines"),
    ("inventory", "holding or balance"),
    ("job", "step"),
    ("jobs", "steps"),
    ("task", "step"),
    ("tasks", "steps"),
    ("stock", "holding or balance"),
    ("altitude", "elevation"),
];

/// Names that belong to someone else: the language, a library, a style sheet,
/// a food. Each is taken out of a line before the words are looked for.
const NOT_OURS: [&str; 26] = [
    // Rust's iterators and the server's runtime
    "type Item",
    "Item =",
    "::Item",
    "tokio::task",
    "task::spawn",
    // style sheets
    "align-items",
    "justify-items",
    "place-items",
    "list-item",
    // the column head of a printed table, and of the schema for recipe cards
    "\"item\"",
    "itemListElement",
    // chicken stock and its kind are food
    "chicken-or-turkey-stock",
    "chicken or turkey stock",
    "chicken_or_turkey_stock",
    "jam, stock",
    "chicken stock",
    "chicken-stock",
    "turkey stock",
    "meat stock",
    "meat-stock",
    "vegetable stock",
    "beef stock",
    "step(\"stock\"",
    "stock pot",
    "stock-pot",
    "stockpot",
];

/// Places where the refused words stand on purpose.
const EXEMPT: [&str; 2] = ["crates/tidy/src/words.rs", "docs/words.md"];

/// Tables whose words are the printed publication's, not ours.
const AS_PRINTED: [&str; 2] = ["data/process/", "data/garden/"];

/// The refused words in a file.
pub fn refused(file: &Text) -> Vec<Problem> {
    if EXEMPT.contains(&file.path.as_str())
        || AS_PRINTED
            .iter()
            .any(|folder| file.path.starts_with(folder))
    {
        return Vec::new();
    }
    let mut problems = Vec::new();
    for (index, line) in file.text.lines().enumerate() {
        let mut line = line.to_owned();
        for theirs in NOT_OURS {
            line = without(&line, theirs);
        }
        for word in parts(&line) {
            if let Some((_, instead)) = REFUSED.iter().find(|(refused, _)| *refused == word) {
                problems.push(Problem::at(
                    &file.path,
                    index,
                    format!("\"{word}\" is refused; say {instead}"),
                ));
            }
        }
    }
    problems
}

/// The line with every occurrence of `theirs` blanked, whatever its case at the
/// start of a sentence.
fn without(line: &str, theirs: &str) -> String {
    let mut capital = theirs.to_owned();
    if let Some(first) = capital.get_mut(0..1) {
        first.make_ascii_uppercase();
    }
    line.replace(theirs, " ").replace(&capital, " ")
}

/// The words of a line in lower case; names are taken apart at every sign and
/// at every capital letter inside.
fn parts(line: &str) -> Vec<String> {
    let mut words = Vec::new();
    let mut word = String::new();
    let mut after_small = false;
    for letter in line.chars() {
        if !letter.is_alphabetic() || (letter.is_uppercase() && after_small) {
            words.push(std::mem::take(&mut word));
        }
        if letter.is_alphabetic() {
            word.extend(letter.to_lowercase());
        }
        after_small = letter.is_lowercase();
    }
    words.push(word);
    words.retain(|word| !word.is_empty());
    words
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found(line: &str) -> usize {
        refused(&Text {
            path: "crates/a/src/lib.rs".to_owned(),
            text: line.to_owned(),
        })
        .len()
    }

    #[test]
    fn refused_words_are_found_in_every_kind_of_name() {
        assert_eq!(found("fn move_stock(taskList: ItemRow)"), 3);
        assert_eq!(found("CREATE TABLE inventory (job_id INTEGER)"), 2);
        assert_eq!(found("The altitude of the house."), 1);
    }

    #[test]
    fn what_belongs_to_others_is_let_through() {
        assert_eq!(found("impl Iterator<Item = Lot> { type Item = Lot; }"), 0);
        assert_eq!(
            found("food: \"chicken-or-turkey-stock\" // Chicken or turkey stock"),
            0
        );
        assert_eq!(found(".row { align-items: center }"), 0);
        assert_eq!(found("blocked, jobless, restock, multitasking"), 0);
    }

    #[test]
    fn printed_tables_keep_their_words() {
        let file = Text {
            path: "data/process/measures.csv".to_owned(),
            text: "item,grams".to_owned(),
        };
        assert!(refused(&file).is_empty());
    }
}
