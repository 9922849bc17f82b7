//! From the household's facts to a harvest-planning problem, and from its answer back to words.
//!
//! The key of an outlet is `recipe@container` (`tomato-juice@quart`), so that a stored plan can be
//! read back without anything beside it.
//!
//! [`candidates`] asks the gate and the recipe book what each fresh lot may become; [`problem`]
//! turns that and the house's limits into plain numbers; accepting and showing it
//! are `action::plan` and `read::plan`.

pub mod candidates;
pub mod limits;
pub mod problem;

use jiff::civil::Date;

/// A fresh lot as the plan sees it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FreshLot {
    /// Lot number.
    pub id: i64,
    /// "Tomatoes, paste: red".
    pub title: String,
    /// Crop key.
    pub crop: String,
    /// Grade key.
    pub grade: String,
    /// Grams left.
    pub grams: i64,
    /// Days from today until it can be used (0: now).
    pub ready_in: i64,
    /// Days from today to the early edge of its keeping time: the plan uses this end.
    pub early_in: i64,
    /// Days from today to the late edge.
    pub late_in: i64,
    /// Routes that grade or history close.
    pub closed_routes: Vec<String>,
}

/// Something that could be made or done with fresh lots, counted in units.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Candidate {
    /// Recipe key, or `eat:crop`, `animals:crop`.
    pub key: String,
    /// Name.
    pub title: String,
    /// Route key: heat, freezer, dryer, crock, fridge, fresh, seed, animals, compost, cold-room.
    pub route: String,
    /// Jar or bag key that comes out, empty for none.
    pub container: String,
    /// Containers per unit.
    pub containers_per_unit: i64,
    /// One unit in words: "quart", "batch", "bag".
    pub unit: String,
    /// Produce per unit: which lots fit, and grams.
    pub inputs: Vec<CandidateInput>,
    /// Fewest units a day when made at all.
    pub min_units: i64,
    /// Most units a day.
    pub max_units: i64,
    /// Attended minutes once a day.
    pub setup_minutes: i64,
    /// Attended minutes per unit.
    pub unit_minutes: i64,
    /// Index of the canner in the house.
    pub canner: Option<usize>,
    /// Units that one load of that canner takes.
    pub units_per_load: i64,
    /// Bought ingredients per unit: key, amount in the smallest unit (microlitres or milligrams).
    pub ingredients: Vec<(String, i64)>,
    /// Freezer room per unit, millilitres.
    pub freezer_ml: i64,
    /// Dryer trays per unit.
    pub trays: i64,
    /// Points per unit beyond any need.
    pub unit_points: i64,
    /// The verdict in words, shown with the batch.
    pub verdict: String,
    /// The one day on which it may be done, where there is only one.
    pub only_day: Option<i64>,
    /// First day on which it may be done: the second where it is begun the evening before.
    pub first_day: i64,
}

/// Produce that one unit takes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CandidateInput {
    /// Numbers of the lots that fit.
    pub lots: Vec<i64>,
    /// Grams per unit.
    pub grams: i64,
}

/// What the house allows over the days of a plan.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct HouseLimits {
    /// Attended minutes for each day.
    pub hands: Vec<i64>,
    /// Loads for each day and canner.
    pub loads: Vec<Vec<i64>>,
    /// Names of the canners.
    pub canners: Vec<String>,
    /// Grams that may be frozen a day.
    pub freeze_grams: i64,
    /// Free freezer room in millilitres.
    pub freezer_room_ml: i64,
    /// Dryer trays a day.
    pub trays: i64,
    /// Containers on hand: key, words, count. Lids stand beside jars under their own keys.
    pub containers: Vec<(String, String, i64)>,
    /// Lid key for each jar key.
    pub lid_of: Vec<(String, String)>,
    /// Bought ingredients on hand: key, words, smallest units.
    pub ingredients: Vec<(String, String, i64)>,
    /// Needs that are still open: recipe key, container key, title, still wanted, priority.
    pub needs: Vec<OpenNeed>,
    /// Worth of an hour of work in pounds of surplus.
    pub hour_pounds: i64,
    /// Grams the household eats fresh a day.
    pub fresh_grams_a_day: i64,
}

/// A need that is not yet met.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OpenNeed {
    /// Recipe key.
    pub product: String,
    /// Container key.
    pub container: String,
    /// Title of the product.
    pub title: String,
    /// Wanted for the winter.
    pub wanted: i64,
    /// Standing now.
    pub stands: i64,
    /// must, want or nice.
    pub priority: String,
}

/// A plan that was made and not yet accepted.
#[derive(Debug, Clone)]
pub struct Proposal {
    /// The problem it answers.
    pub problem: plan::allocation::Problem,
    /// The plan, which passed the independent checker.
    pub plan: plan::allocation::Plan,
    /// What each outlet of the problem stands for, in the same order.
    pub candidates: Vec<Candidate>,
    /// Recipes that were looked at and could not be offered: title, why, what instead.
    pub closed: Vec<ClosedRecipe>,
    /// Milliseconds the search took, as the outermost layer measured it.
    pub milliseconds: Option<u64>,
}

/// A recipe that could not be offered.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ClosedRecipe {
    /// Recipe title.
    pub title: String,
    /// Why not.
    pub reason: String,
    /// What to do instead.
    pub instead: String,
}

/// A plan's window.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Window {
    /// Day 0.
    pub first: Date,
    /// Number of days.
    pub days: i64,
}
