//! What the table check says about a faulty table.

use serde::Serialize;

/// One fault: where it is, which rule it breaks and what is wrong.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct TableProblem {
    /// The table's name under `data/`.
    pub file: String,
    /// Line in the file, the header row being line 1; 0 when the whole table is meant.
    pub line: u64,
    /// The rule, such as `band-hole`.
    pub rule: &'static str,
    /// What is wrong, in words.
    pub message: String,
}

impl TableProblem {
    /// A fault in `file` at `line`.
    pub fn new(file: &str, line: u64, rule: &'static str, message: String) -> TableProblem {
        TableProblem {
            file: file.to_owned(),
            line,
            rule,
            message,
        }
    }
}

impl std::fmt::Display for TableProblem {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(
            f,
            "{}:{}: {}: {}",
            self.file, self.line, self.rule, self.message
        )
    }
}
