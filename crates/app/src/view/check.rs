//! Check: the named invariants, the rows examined, and what is broken.

use serde::Serialize;

/// The result of running the invariants.
#[derive(Debug, Clone, Serialize)]
pub struct CheckView {
    /// One line each.
    pub invariants: Vec<InvariantLine>,
    /// The season's balance, crop by crop.
    pub balance: Vec<super::stores::BalanceLine>,
    /// Does everything hold?
    pub holds: bool,
}

/// One invariant.
#[derive(Debug, Clone, Serialize)]
pub struct InvariantLine {
    /// Name, as `--only` takes it.
    pub name: String,
    /// What it says.
    pub says: String,
    /// Rows examined.
    pub examined: usize,
    /// What is broken, row by row.
    pub broken: Vec<String>,
}
