//! The kitchen day: when each step of the chosen batches starts, on the hands, burners, pots,
//! mill and canner there are.
//!
//! [`Problem`] and [`Timetable`] are plain data. [`check`] judges a timetable; it was written
//! without the solver's code and recomputes every limit and every figure. [`problem_flaws`] says
//! what makes a problem unusable, [`Clash`] is the answer when there is no timetable, and
//! [`lanes`] spreads a timetable over the single pots and pairs of hands for drawing.
//!
//! Units: whole minutes counted from `Problem::day_start`, whole places of a resource, whole
//! points (fewer are better).

mod checker;
mod clash;
mod flaws;
mod lanes;
mod problem;
mod timetable;

pub use checker::{Breach, RULES, check};
pub use clash::{Clash, ClashKind, Relaxation, RelaxationKind};
pub use flaws::{LARGEST_AMOUNT, LONGEST_DAY, problem_flaws};
pub use lanes::{LaneUse, LaneUser, lanes};
pub use problem::{Break, HANDS, Hold, Lag, Problem, Resource, Step, Wait, clock};
pub use timetable::{Cost, Timetable, cost, gap};

#[cfg(test)]
mod tests;
