//! The harvest plan: which lots become what, on which day, in whole batches.
//!
//! [`Problem`] and [`Plan`] are plain data. [`check`] judges a plan; it was written without the
//! solver's code and recomputes every limit and every figure of the plan. [`problem_flaws`] says
//! what makes a problem unusable.
//!
//! Units: grams, minutes, millilitres, whole containers, whole points. Days are counted from
//! `Problem::first_day`, which is day 0.

mod checker;
mod flaws;
mod problem;
mod proposal;

pub use checker::{Breach, check};
pub use flaws::{LARGEST_NUMBER, problem_flaws};
pub use problem::{
    ContainerLimit, DayLimit, Good, IngredientLimit, Input, Lot, Outlet, Prices, Problem,
};
pub use proposal::{Binding, LeftOut, Limit, Plan, ReasonCode, Run, Use, ValueParts, gap};

#[cfg(test)]
mod tests;
