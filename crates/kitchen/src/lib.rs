//! Crops, lots and how long they keep; recipes, scaling, jars and batches.

mod closest;
pub mod crop;
pub mod feeding;
pub mod grade;
pub mod keeping;
mod lot_error;
pub mod weigh;

pub use crop::{CropRow, crop, crops, find_crop, suggest_crop};
pub use grade::{GradeRow, GradeUses, MayUse, grade, grade_lines, grades_for};
pub use keeping::{KeepPlace, Keeping, KeepingState, check_picked, keeping, keeping_with_own};
pub use lot_error::LotError;
pub use weigh::{Crate, CrateWeight, crate_weight};
