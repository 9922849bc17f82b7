//! Arguments about incidents.

use clap::Args;

/// An incident.
#[derive(Debug, Args)]
pub struct IncidentArguments {
    /// Kind, such as acid-forgotten; `list` prints them all.
    pub kind: String,
    /// Batch it happened to; without one the answer is only printed.
    #[arg(long)]
    pub batch: Option<i64>,
    /// When it was noticed, such as 18:20; now otherwise.
    #[arg(long, default_value = "")]
    pub noticed: String,
    /// When the jars were lifted, such as 16:40, "2026-08-27 16:40" or a date; unknown otherwise.
    #[arg(long, default_value = "")]
    pub lifted: String,
    /// The load is still in the canner and its heat can be brought back.
    #[arg(long)]
    pub in_canner: bool,
    /// Was the process otherwise right (yes or no); with a batch its record answers.
    #[arg(long, default_value = "")]
    pub process: String,
    /// Are the jars still sealed (yes or no).
    #[arg(long, default_value = "")]
    pub sealed: String,
    /// Size of the jars, such as quart; the batch's own otherwise.
    #[arg(long, default_value = "")]
    pub size: String,
    /// Place they stand in; the shelf otherwise.
    #[arg(long, default_value = "")]
    pub place: String,
    /// How many jars.
    #[arg(long, default_value = "", allow_hyphen_values = true)]
    pub count: String,
    /// Note.
    #[arg(long, default_value = "")]
    pub note: String,
    /// Show an incident stated before, by its entry, with the clock as it stands now.
    #[arg(long, value_name = "ENTRY")]
    pub entry: Option<i64>,
}

/// What was done with the jars of an incident.
#[derive(Debug, Args)]
pub struct SettleArguments {
    /// Batch number.
    pub batch: i64,
    /// reprocess, freeze, fridge, keep, bin or discard.
    pub way: String,
    /// Entry that stated the incident; the last one otherwise.
    #[arg(long)]
    pub incident: Option<i64>,
    /// How many jars; all that are concerned otherwise.
    #[arg(long, default_value = "", allow_hyphen_values = true)]
    pub count: String,
    /// Reprocessed: minutes as the clock kept them.
    #[arg(long, default_value = "")]
    pub minutes: String,
    /// Reprocessed: when the jars were lifted again; now otherwise.
    #[arg(long, default_value = "")]
    pub lifted: String,
    /// Reprocessed: ticks made, by key; new-lids among them.
    #[arg(long)]
    pub tick: Vec<String>,
}
