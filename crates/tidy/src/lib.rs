//! The repository's own rules as plain functions over text; the tests beside
//! this crate apply them to every file, so that `cargo test` proves them.
//!
//! Part of no product binary. Each rule returns what breaks it as lines a
//! person can act on, `file:line: what`; an empty list is a pass.

pub mod data;
pub mod edges;
pub mod figures;
pub mod files;
pub mod papers;
pub mod words;

/// One broken rule: where, and what to do about it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    /// Path from the repository's root, with `:line` where there is one.
    pub place: String,
    /// What is wrong and what would be right.
    pub what: String,
}

impl Problem {
    /// A problem of a whole file.
    pub fn of(path: &str, what: impl Into<String>) -> Problem {
        Problem {
            place: path.to_owned(),
            what: what.into(),
        }
    }

    /// A problem of one line; `index` counts from nought.
    pub fn at(path: &str, index: usize, what: impl Into<String>) -> Problem {
        Problem {
            place: format!("{path}:{}", index + 1),
            what: what.into(),
        }
    }
}

impl std::fmt::Display for Problem {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(out, "{}: {}", self.place, self.what)
    }
}

/// All problems on one line each, for a test's message.
pub fn listed(problems: &[Problem]) -> String {
    let lines: Vec<String> = problems.iter().map(Problem::to_string).collect();
    format!("{} broken:\n{}", lines.len(), lines.join("\n"))
}
