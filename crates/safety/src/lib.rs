//! The gate: may this food be put up this way, here, in this jar? A permit or a refusal.
//!
//! A process time comes only from a printed row. No row, no answer needed for it, or a doubt about
//! it means a refusal with a reason and something to do instead. Nothing is extrapolated.

mod change;
pub mod codes;
#[cfg(test)]
extern crate self as safety;
// The reader of the case tables, for the tests that delete rules.
#[cfg(test)]
#[allow(dead_code, reason = "the tests of the public face use the rest")]
#[path = "../tests/it/case_file.rs"]
mod case_file;
#[cfg(test)]
#[allow(dead_code, reason = "the tests of the public face use the rest")]
#[path = "../tests/it/change_file.rs"]
mod change_file;

mod doubtful_recipe;
mod heat;
mod incident;
mod load;
mod look_up;
mod numbers;
mod permit;
mod question;
mod refusal;
mod route;

pub use change::{
    AS_PRINTED, Amount, ChangeError, ChangeVerdict, ColdOnly, Edit, EditVerdict, Finding,
    HouseholdLine, HouseholdRecipe, HouseholdVerdict, Measure, Nearest, OWN_RULES, RecipeChange,
    RecipeState, UNTESTED, judge_change, judge_household_recipe, manners,
};
pub use heat::{Again, Verdict, ask_again, closed_by, judge_heat, rule_names};
pub use incident::{
    DisposalCard, IncidentAnswer, IncidentError, IncidentQuestion, Way, disposal_card,
    judge_incident,
};
pub use load::{LoadPermit, LoadRecord, LoadVerdict, judge_load, load_rule_names};
pub use look_up::{LookUp, ShownPair, look_up, look_up_in_house};
pub use permit::{AcidLine, GATE_VERSION, Pair, Permit, PermitRecord, Statement, WaterBand};
pub use question::{
    AcidPortion, AcidUse, Answer, CannerFacts, HeatQuestion, ProduceHistory, VinegarFacts,
};
pub use refusal::{Offer, Refusal};
pub use route::{FoodKind, FoodState, KeepRoute, RouteQuestion, RouteVerdict, judge_route};
