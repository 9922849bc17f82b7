//! Kitchen day: when each step starts.

use serde::Serialize;

/// The Kitchen day page.
#[derive(Debug, Clone, Serialize)]
pub struct DayView {
    /// ISO date.
    pub date: String,
    /// "Thursday 27 August".
    pub title: String,
    /// The answer: "Start at 8:00, done by 13:25."
    pub answer: String,
    /// One line below.
    pub lead: String,
    /// "none" (no batch today), "proposed", "accepted" or "clash".
    pub state: String,
    /// What clashes and the cheapest way out, when it cannot be done.
    pub clash: Vec<String>,
    /// Start of the chart, minutes after midnight.
    pub from: i64,
    /// End of the chart, minutes after midnight.
    pub to: i64,
    /// Lanes of the chart.
    pub lanes: Vec<Lane>,
    /// Steps in order of start.
    pub steps: Vec<DayStep>,
    /// Days that have batches, for moving between them: (ISO date, title).
    pub days: Vec<super::Choice>,
    /// How good the timetable is: "ends within 4 % of the earliest possible".
    pub quality: String,
    /// Gap in percent.
    pub gap_percent: f64,
    /// Is it proven best?
    pub proven: bool,
    /// Milliseconds the search took.
    pub milliseconds: Option<u64>,
}

/// One lane.
#[derive(Debug, Clone, Serialize)]
pub struct Lane {
    /// "Canner, boiling water", "burner 1", "hands".
    pub name: String,
    /// Kind key: hands, burner, pot, mill, canner, sink, dryer.
    pub kind: String,
    /// Blocks in order of start.
    pub blocks: Vec<Block>,
}

/// One block in a lane.
#[derive(Debug, Clone, Serialize)]
pub struct Block {
    /// Minutes after midnight.
    pub from: i64,
    /// Minutes after midnight.
    pub to: i64,
    /// Step name.
    pub title: String,
    /// Batch it belongs to.
    pub batch: String,
    /// Needs nobody.
    pub unattended: bool,
    /// Held between steps rather than worked in.
    pub held: bool,
}

/// One step of the day.
#[derive(Debug, Clone, Serialize)]
pub struct DayStep {
    /// Minutes after midnight.
    pub from: i64,
    /// Minutes after midnight.
    pub to: i64,
    /// "8:00".
    pub starts: String,
    /// "8:25".
    pub ends: String,
    /// What to do.
    pub title: String,
    /// Batch title.
    pub batch: String,
    /// Batch number.
    pub batch_id: Option<i64>,
    /// What it uses: "2 hands, burner 1".
    pub uses: String,
    /// Needs nobody.
    pub unattended: bool,
    /// May the work stop after this step?
    pub stop_point: bool,
}
