//! One canner load for the jars of several batches.

use super::batch::VerdictView;
use serde::Serialize;

/// The load page: which batches may share a canner run.
#[derive(Debug, Clone, Serialize)]
pub struct LoadView {
    /// Batches for jars that are not finished, each to be chosen.
    pub batches: Vec<LoadLine>,
    /// The gate's answer, once batches were chosen.
    pub verdict: Option<VerdictView>,
}

/// One batch that may go into a load.
#[derive(Debug, Clone, Serialize)]
pub struct LoadLine {
    /// Number.
    pub id: i64,
    /// Title.
    pub title: String,
    /// Jar, canner and its own time in words.
    pub words: String,
    /// Was it chosen?
    pub chosen: bool,
}
