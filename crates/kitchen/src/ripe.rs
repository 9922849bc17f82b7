//! How long a pickle ripens before it tastes as it should: `data/kitchen/ripening.csv` names the
//! recipe and the keys of the printed weeks. For flavour only; it has no bearing on safety.

use std::sync::LazyLock;

use reference::Reference;
use serde::Deserialize;

/// One line of the table.
#[derive(Debug, Clone, Deserialize)]
struct RipeRow {
    recipe: String,
    least: String,
    most: String,
    source: String,
}

/// Weeks of ripening as printed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Ripening {
    /// Weeks, at least.
    pub least_weeks: i64,
    /// Weeks, at most.
    pub most_weeks: i64,
    /// Where they were read.
    pub source: String,
}

fn read(text: &str) -> Result<Vec<RipeRow>, csv::Error> {
    csv::Reader::from_reader(text.as_bytes())
        .deserialize()
        .collect()
}

static ROWS: LazyLock<Vec<RipeRow>> = LazyLock::new(|| {
    read(include_str!("../../../data/kitchen/ripening.csv"))
        // The text is compiled in, and a test reads every line of it.
        .expect("the table of ripening is compiled in and read whole by a test")
});

/// How long a recipe ripens in its jar; nothing where nothing is printed.
pub fn ripening(reference: &Reference, recipe: &str) -> Option<Ripening> {
    let row = ROWS.iter().find(|row| row.recipe == recipe)?;
    let weeks = |key: &str| reference.practice(key)?.value.trim().parse().ok();
    Some(Ripening {
        least_weeks: weeks(&row.least)?,
        most_weeks: weeks(&row.most)?,
        source: row.source.clone(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_line_names_a_recipe_and_printed_weeks() {
        let reference = Reference::embedded();
        let book = crate::recipe::recipes(reference);
        for row in read(include_str!("../../../data/kitchen/ripening.csv")).unwrap() {
            assert!(book.get(&row.recipe).is_ok(), "{}", row.recipe);
            let weeks = ripening(reference, &row.recipe).unwrap();
            assert_eq!((weeks.least_weeks, weeks.most_weeks), (4, 5));
        }
        assert_eq!(ripening(reference, "tomato-juice"), None);
    }
}
