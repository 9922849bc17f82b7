//! Forms: the texts that came in, and what to show again when they could not be taken.

mod incident;
mod paper;
mod read;
mod recipe;

pub use incident::{ask as ask_incident, settle as settle_incident, state as state_incident};
pub use paper::{enter as enter_card, labels as print_labels};
pub use read::{batch, house, lot, picking, process, stores};
pub use recipe::{keep as keep_recipe, read as read_recipe};

use app::error::AppError;
use std::collections::BTreeMap;

/// The fields of a form as they came, in their order.
#[derive(Debug, Clone, Default)]
pub struct Fields(pub Vec<(String, String)>);

impl Fields {
    /// The last value of a field, trimmed; empty when it did not come. The last one counts, so
    /// that a tick box may follow a hidden field of the same name.
    pub fn get(&self, name: &str) -> &str {
        self.0
            .iter()
            .rev()
            .find(|(key, _)| key == name)
            .map_or("", |(_, value)| value.trim())
    }

    /// All values of a field that are not empty.
    pub fn all(&self, name: &str) -> Vec<String> {
        self.0
            .iter()
            .filter(|(key, value)| key == name && !value.trim().is_empty())
            .map(|(_, value)| value.trim().to_owned())
            .collect()
    }

    /// Fields named `prefix.key`, by key, empty ones left out.
    pub fn under(&self, prefix: &str) -> BTreeMap<String, String> {
        self.0
            .iter()
            .filter_map(|(name, value)| {
                Some((
                    name.strip_prefix(prefix)?.strip_prefix('.')?.to_owned(),
                    value.trim().to_owned(),
                ))
            })
            .filter(|(_, value)| !value.is_empty())
            .collect()
    }

    /// A whole number, zero when it is none.
    pub fn number(&self, name: &str) -> i64 {
        self.get(name).parse().unwrap_or(0)
    }
}

/// A form that is shown again: what was typed, and what was wrong with it.
#[derive(Debug, Clone, Default)]
pub struct Filled {
    /// What was typed; none on a fresh page.
    pub typed: Option<Fields>,
    /// What was wrong.
    pub wrong: Option<AppError>,
}

impl Filled {
    /// The typed value of a field, or the one a fresh page proposes.
    pub fn value<'a>(&'a self, name: &str, fresh: &'a str) -> &'a str {
        match &self.typed {
            Some(fields) if fields.0.iter().any(|(key, _)| key == name) => fields.get(name),
            _ => fresh,
        }
    }

    /// What is wrong with a field, in words.
    pub fn wrong(&self, name: &str) -> Option<&str> {
        self.wrong
            .as_ref()
            .filter(|error| error.field == name)
            .map(|error| error.cause.as_str())
    }
}

#[cfg(test)]
mod tests {
    use super::{Fields, Filled};
    use app::error::AppError;

    fn fields(list: &[(&str, &str)]) -> Fields {
        Fields(
            list.iter()
                .map(|(a, b)| ((*a).to_owned(), (*b).to_owned()))
                .collect(),
        )
    }

    #[test]
    fn the_last_of_two_fields_counts_and_prefixes_gather() {
        let sent = fields(&[
            ("needs.0.product", "plum"),
            ("needs.0.product", ""),
            ("history.split", "no"),
            ("history.frost", " "),
            ("ticks", "acid"),
            ("ticks", "rim"),
        ]);
        assert_eq!(sent.get("needs.0.product"), "");
        assert_eq!(
            sent.under("history").into_iter().collect::<Vec<_>>(),
            vec![("split".to_owned(), "no".to_owned())]
        );
        assert_eq!(sent.all("ticks"), vec!["acid", "rim"]);
        assert_eq!(sent.number("absent"), 0);
    }

    #[test]
    fn what_was_typed_wins_over_the_proposal_even_when_emptied() {
        let shown = Filled {
            typed: Some(fields(&[("amount", ""), ("variety", "early")])),
            wrong: Some(AppError::input("amount", "no weight", "type one")),
        };
        assert_eq!(shown.value("amount", "24 lb"), "");
        assert_eq!(shown.value("place", "counter"), "counter");
        assert_eq!(shown.wrong("amount"), Some("no weight"));
        assert_eq!(shown.wrong("variety"), None);
    }
}
