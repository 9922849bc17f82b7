//! Arguments about paper: labels and cards to print, a card that comes back.

use clap::{Args, Subcommand};
use std::path::PathBuf;

/// What can be printed.
#[derive(Debug, Subcommand)]
pub enum PrintCommand {
    /// Labels for the jars or bags that stand of a batch.
    Labels(SheetArguments),
    /// Gift labels: what is in the jar, and what some people must know of it.
    Gift(SheetArguments),
    /// Packets for saved seed.
    Seed(SheetArguments),
    /// The card of a batch: amounts, permit, ticks, blanks, clock.
    Card {
        /// Batch number.
        #[arg(long)]
        batch: i64,
        /// Paper and file.
        #[command(flatten)]
        on: PaperArguments,
    },
    /// The card of one canner run for several batches.
    LoadCard {
        /// Batch numbers.
        #[arg(required = true)]
        batches: Vec<i64>,
        /// Paper and file.
        #[command(flatten)]
        on: PaperArguments,
    },
    /// The disposal card.
    Disposal(PaperArguments),
    /// The outline page of a sheet: label edges and two rulers, to be held against the sheet.
    Outline(PlaceArguments),
}

/// A batch's labels on a sheet.
#[derive(Debug, Args)]
pub struct SheetArguments {
    /// Batch number.
    #[arg(long)]
    pub batch: i64,
    /// How many; one for each container otherwise.
    #[arg(long, default_value = "")]
    pub count: String,
    /// Print the edges of the labels too.
    #[arg(long)]
    pub outline: bool,
    /// Where on which sheet.
    #[command(flatten)]
    pub place: PlaceArguments,
}

/// Where labels lie.
#[derive(Debug, Args)]
pub struct PlaceArguments {
    /// Sheet: 30-letter, 24-a4, cut-letter or cut-a4.
    #[arg(long, default_value = "30-letter")]
    pub sheet: String,
    /// First label of a part-used sheet, counted from 1 along the rows.
    #[arg(long, default_value = "", allow_hyphen_values = true)]
    pub from: String,
    /// Move everything this many millimetres to the right.
    #[arg(long, default_value = "", allow_hyphen_values = true)]
    pub offset_x: String,
    /// Move everything this many millimetres down.
    #[arg(long, default_value = "", allow_hyphen_values = true)]
    pub offset_y: String,
    /// File to write («-» is standard output); a name of its own otherwise.
    #[arg(short, long, value_name = "FILE")]
    pub output: Option<PathBuf>,
}

/// A card on paper.
#[derive(Debug, Args)]
pub struct PaperArguments {
    /// a4 or letter.
    #[arg(long, default_value = "letter")]
    pub paper: String,
    /// File to write («-» is standard output); a name of its own otherwise.
    #[arg(short, long, value_name = "FILE")]
    pub output: Option<PathBuf>,
}

/// A printed card that comes back.
#[derive(Debug, Args)]
pub struct EnterArguments {
    /// Code of the card.
    pub code: String,
    /// What stands in a blank, such as `start.day=2026-08-26`; without any the blanks are listed.
    #[arg(long, value_name = "NAME=TEXT", allow_hyphen_values = true)]
    pub blank: Vec<String>,
    /// A box that is ticked, by key.
    #[arg(long)]
    pub tick: Vec<String>,
    /// Ask each blank in its order and read a line for it; an empty line leaves it empty.
    #[arg(long, conflicts_with_all = ["blank", "tick"])]
    pub ask: bool,
}
