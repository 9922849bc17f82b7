//! Crops, lots and how long they keep; recipes, scaling, jars and batches.

pub mod bags;
pub mod boiling;
pub mod brine;
pub mod card;
mod closest;
pub mod crop;
mod direction;
mod error;
pub mod feeding;
pub mod flags;
pub mod grade;
pub mod history;
pub mod jars;
pub mod keeping;
mod lot_error;
pub mod recipe;
pub mod recipe_text;
pub mod ripe;
pub mod scale;
pub mod steps;
pub mod weigh;

pub use card::{AcidLine, BatchCard, CardLine};
pub use crop::{CropRow, crop, crops, find_crop, suggest_crop};
pub use error::KitchenError;
pub use grade::{GradeRow, GradeUses, MayUse, grade, grade_lines, grades_for};
pub use jars::{JarsExpected, LoadPlan, jars_expected, jars_from_batches, loads};
pub use keeping::{KeepPlace, Keeping, KeepingState, check_picked, keeping, keeping_with_own};
pub use lot_error::LotError;
pub use recipe::{
    Amount, Basis, CropUse, Ingredient, Recipe, RecipeBook, Role, Route, Yield, recipes,
};
pub use scale::{batches_possible, scale, scale_to_produce};
pub use steps::{DayQuestion, DaySteps, steps_for};
pub use weigh::{Crate, CrateWeight, crate_weight};
