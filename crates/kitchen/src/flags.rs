//! What some people must know of a jar that is given away: `data/kitchen/flags.csv`, matched on the
//! words of ingredient keys.

use std::sync::LazyLock;

use serde::Deserialize;

/// One line of the table.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
pub struct FlagRow {
    /// A word of an ingredient's key, such as `celery` of `celery-seed`.
    pub word: String,
    /// What it is shown for, such as `celery`; several words share one.
    pub flag: String,
    /// As it stands on the label.
    pub text: String,
    /// Where it was read, or "from memory".
    pub source: String,
    /// Read, memory or mixed.
    pub basis: String,
}

fn read(text: &str) -> Result<Vec<FlagRow>, csv::Error> {
    csv::Reader::from_reader(text.as_bytes())
        .deserialize()
        .collect()
}

static FLAGS: LazyLock<Vec<FlagRow>> = LazyLock::new(|| {
    read(include_str!("../../../data/kitchen/flags.csv"))
        // The text is compiled in, and a test reads every line of it.
        .expect("the table of flags is compiled in and read whole by a test")
});

/// The whole table, in its order.
pub fn flags() -> &'static [FlagRow] {
    &FLAGS
}

/// The lines that ingredients call for, in the table's order, each text once.
pub fn flags_of<'a>(ingredients: impl IntoIterator<Item = &'a str>) -> Vec<&'static FlagRow> {
    let words: Vec<&str> = ingredients
        .into_iter()
        .flat_map(|key| key.split(['-', ' ', '_', ',']))
        .collect();
    let mut found: Vec<&FlagRow> = Vec::new();
    for row in flags() {
        if words.contains(&row.word.as_str()) && found.iter().all(|had| had.text != row.text) {
            found.push(row);
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    fn texts(keys: &[&str]) -> Vec<&'static str> {
        flags_of(keys.iter().copied())
            .into_iter()
            .map(|row| row.text.as_str())
            .collect()
    }

    #[test]
    fn every_line_is_read_and_says_where_from() {
        let rows = read(include_str!("../../../data/kitchen/flags.csv")).unwrap();
        assert!(rows.len() > 30);
        for row in &rows {
            assert!(
                !row.word.contains([' ', '-']) && row.text.ends_with('.'),
                "{row:?}"
            );
            assert!(
                row.basis != "read" || !row.source.contains("memory"),
                "{row:?}"
            );
        }
    }

    #[test]
    fn whole_words_call_for_a_flag_and_parts_of_words_do_not() {
        assert_eq!(
            texts(&["honey"]),
            ["Contains honey: not for infants under 12 months."]
        );
        assert_eq!(
            texts(&["mustard-seed", "celery-seed", "celery"]),
            ["Contains celery.", "Contains mustard."]
        );
        assert!(texts(&["honeydew", "eggplant", "tomatoes", "salt"]).is_empty());
        assert!(texts(&["bottled-lemon-juice"])[0].contains("sulphites"));
    }

    #[test]
    fn every_tested_recipe_with_a_named_allergen_has_its_flag() {
        let book = crate::recipe::recipes(reference::Reference::embedded());
        let mut seen = 0;
        for recipe in book.all() {
            for line in &recipe.ingredients {
                for word in ["honey", "celery", "mustard"] {
                    if line.key.split('-').any(|part| part == word) {
                        seen += 1;
                        assert!(
                            flags_of([line.key.as_str()])
                                .iter()
                                .any(|row| row.flag == word),
                            "{}: {}",
                            recipe.key,
                            line.key
                        );
                    }
                }
            }
        }
        assert!(seen > 5, "{seen}");
    }
}
