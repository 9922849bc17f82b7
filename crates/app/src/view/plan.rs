//! Plan: what becomes what, on which day.

use super::Both;
use serde::Serialize;

/// The Plan page.
#[derive(Debug, Clone, Serialize)]
pub struct PlanView {
    /// "Thursday 27 August to Wednesday 2 September".
    pub span: String,
    /// The answer as one sentence.
    pub answer: String,
    /// One line below it.
    pub lead: String,
    /// "none" (nothing planned yet), "proposed" or "accepted".
    pub state: String,
    /// Batches by day.
    pub days: Vec<PlanDay>,
    /// The flow picture's bands.
    pub flow: Flow,
    /// Food left out, each with its reason.
    pub left_out: Vec<LeftOutView>,
    /// Limits that bind, and those that nearly do.
    pub binding: Vec<BindingView>,
    /// What the winter should have against what stands and what this plan adds.
    pub needs: Vec<NeedView>,
    /// How good: each part of the goal in words and points.
    pub goal: GoalView,
    /// Recipes that were looked at and closed by the gate or the house, with the reason.
    pub closed: Vec<ClosedView>,
}

/// One day of the plan.
#[derive(Debug, Clone, Serialize)]
pub struct PlanDay {
    /// ISO date.
    pub date: String,
    /// "Thursday 27".
    pub title: String,
    /// "3 h 20 min of 6 h".
    pub hands: String,
    /// Batches in order.
    pub batches: Vec<PlannedBatch>,
}

/// One planned batch.
#[derive(Debug, Clone, Serialize)]
pub struct PlannedBatch {
    /// The batch's number once accepted.
    pub id: Option<i64>,
    /// Recipe key.
    pub recipe: String,
    /// "Tomato juice".
    pub title: String,
    /// "2 batches", "3 bags", ...
    pub times: String,
    /// What comes out: "14 quarts".
    pub makes: String,
    /// What goes in: "46 lb tomatoes, paste (lot 3)".
    pub takes: Vec<String>,
    /// Where it goes: shelf, freezer, ...
    pub place: String,
    /// Why here and now.
    pub reason: String,
    /// For heat: "boiling water, 40 minutes, USDA ..."; for others the verdict in words.
    pub verdict: String,
}

/// The flow picture: lots on the left, batches by day in the middle, places on the right.
#[derive(Debug, Clone, Default, Serialize)]
pub struct Flow {
    /// Left side.
    pub lots: Vec<FlowNode>,
    /// Middle, in order of day.
    pub batches: Vec<FlowNode>,
    /// Right side; `key` is the place key.
    pub places: Vec<FlowNode>,
    /// Lot index, batch index, grams.
    pub into: Vec<(usize, usize, i64)>,
    /// Batch index, place index, grams.
    pub out: Vec<(usize, usize, i64)>,
    /// Lot index, place index, grams: what no batch takes (kept, or lost to compost).
    pub past: Vec<(usize, usize, i64)>,
}

/// One node of the flow.
#[derive(Debug, Clone, Serialize)]
pub struct FlowNode {
    /// Stable key.
    pub key: String,
    /// Name.
    pub title: String,
    /// Weight or containers.
    pub detail: String,
    /// Day title for a batch, empty otherwise.
    pub day: String,
    /// Weight in grams.
    pub grams: i64,
}

/// Food that no batch takes.
#[derive(Debug, Clone, Serialize)]
pub struct LeftOutView {
    /// Lot title.
    pub lot: String,
    /// Lot number.
    pub id: i64,
    /// How much.
    pub weight: Both,
    /// Reason code.
    pub code: String,
    /// The reason as a sentence.
    pub reason: String,
}

/// A limit of the house.
#[derive(Debug, Clone, Serialize)]
pub struct BindingView {
    /// "Hands on Thursday".
    pub limit: String,
    /// "6 h of 6 h used".
    pub used: String,
    /// Does it bind fully?
    pub binds: bool,
    /// What it means.
    pub text: String,
}

/// One need of the winter.
#[derive(Debug, Clone, Serialize)]
pub struct NeedView {
    /// Product.
    pub product: String,
    /// "quarts".
    pub unit: String,
    /// Wanted for the winter.
    pub wanted: i64,
    /// Standing now.
    pub stands: i64,
    /// Added by the plan.
    pub plan: i64,
    /// Still short.
    pub short: i64,
}

/// The goal in words and numbers.
#[derive(Debug, Clone, Serialize)]
pub struct GoalView {
    /// One sentence that states what was weighed against what.
    pub words: String,
    /// (part, in kitchen words, points).
    pub parts: Vec<GoalPart>,
    /// Value of the plan in points.
    pub value: i64,
    /// No plan can be better than this.
    pub bound: i64,
    /// Gap in percent, one decimal.
    pub gap_percent: f64,
    /// Proven best?
    pub proven: bool,
    /// "within 3.1 % of the best that can exist".
    pub gap_words: String,
    /// Milliseconds the search took; none for a plan read back.
    pub milliseconds: Option<u64>,
}

/// One part of the goal.
#[derive(Debug, Clone, Serialize)]
pub struct GoalPart {
    /// "Food saved".
    pub part: String,
    /// "61 of 64 lb".
    pub words: String,
    /// Points, negative for costs.
    pub points: i64,
}

/// A recipe that could not be offered.
#[derive(Debug, Clone, Serialize)]
pub struct ClosedView {
    /// Recipe title.
    pub recipe: String,
    /// Why not.
    pub reason: String,
    /// What to do instead.
    pub instead: String,
}
