//! The checker that judges a harvest plan. It shares no code with the solver: every limit, every
//! balance and every figure is counted again here, in wide integers, from the plan's own lines.
//!
//! One function per rule; its name carries the rule's code. `P1000` means the problem itself is
//! flawed and nothing else was judged.

mod figures;
mod limits;
mod reasons;
mod runs;
mod uses;
mod worth;

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::flaws::{LARGEST_NUMBER, problem_flaws};
use super::problem::Problem;
use super::proposal::{Plan, Run, Use};

/// One broken rule.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Breach {
    /// The rule's code, `P1000` and up.
    pub code: String,
    /// What is wrong, in a sentence with the figures.
    pub text: String,
}

/// Judges a plan. An empty answer means it is accepted.
pub fn check(problem: &Problem, plan: &Plan) -> Vec<Breach> {
    let flaws = problem_flaws(problem);
    if !flaws.is_empty() {
        return flaws
            .into_iter()
            .map(|text| breach("P1000", text))
            .collect();
    }
    let facts = Facts::new(problem, plan);
    let rules: [fn(&Facts) -> Vec<Breach>; 23] = [
        runs::p1001_run_names_an_outlet_and_a_day,
        runs::p1002_one_run_per_outlet_and_day,
        runs::p1003_batches_between_fewest_and_most,
        runs::p1004_outlet_is_allowed_on_the_day,
        limits::p1005_hands_suffice,
        limits::p1006_canner_loads_suffice,
        limits::p1007_freezing_limit_is_kept,
        limits::p1008_dryer_trays_suffice,
        limits::p1009_freezer_has_room,
        limits::p1010_containers_suffice,
        limits::p1011_ingredients_suffice,
        uses::p1012_use_names_a_lot_and_an_input,
        uses::p1013_input_accepts_the_lots_class,
        uses::p1014_lot_is_used_within_its_days,
        uses::p1015_every_input_is_filled_exactly,
        uses::p1016_lot_is_not_overdrawn,
        worth::p1017_parts_are_as_counted,
        worth::p1018_value_is_the_sum_of_its_parts,
        worth::p1019_bound_is_not_below_the_value,
        worth::p1020_proven_means_the_bound_is_reached,
        reasons::p1021_left_out_names_what_is_left,
        reasons::p1022_reason_agrees_with_the_lot,
        reasons::p1023_binding_figures_are_as_counted,
    ];
    rules.iter().flat_map(|rule| rule(&facts)).collect()
}

/// The plan's lines that can be counted at all, and sums over them.
struct Facts<'a> {
    problem: &'a Problem,
    plan: &'a Plan,
    /// Runs whose outlet and day exist and whose batches are a number that can be counted with.
    runs: Vec<Run>,
    /// Uses whose lot, outlet, input and day exist and whose grams are above zero.
    uses: Vec<Use>,
    /// Grams used per lot.
    used_of_lot: Vec<i128>,
}

impl<'a> Facts<'a> {
    fn new(problem: &'a Problem, plan: &'a Plan) -> Facts<'a> {
        let runs: Vec<Run> = plan
            .runs
            .iter()
            .filter(|run| runs::exists(problem, run))
            .filter(|run| (1..=LARGEST_NUMBER).contains(&run.batches))
            .copied()
            .collect();
        let uses: Vec<Use> = plan
            .uses
            .iter()
            .filter(|line| uses::exists(problem, line) && line.grams > 0)
            .copied()
            .collect();
        let mut used_of_lot = vec![0i128; problem.lots.len()];
        for line in &uses {
            used_of_lot[line.lot] += i128::from(line.grams);
        }
        Facts {
            problem,
            plan,
            runs,
            uses,
            used_of_lot,
        }
    }

    /// Grams of a lot that no run uses; zero when it is overdrawn.
    fn left_of_lot(&self, lot: usize) -> i128 {
        (i128::from(self.problem.lots[lot].grams) - self.used_of_lot[lot]).max(0)
    }

    /// Sums a figure of the runs by day.
    fn by_day(&self, figure: impl Fn(&Run) -> i128) -> BTreeMap<usize, i128> {
        let mut sums = BTreeMap::new();
        for run in &self.runs {
            *sums.entry(run.day).or_insert(0) += figure(run);
        }
        sums
    }

    /// Sums a figure of the runs over all days.
    fn over_all_days(&self, figure: impl Fn(&Run) -> i128) -> i128 {
        self.runs.iter().map(figure).sum()
    }
}

/// A breach of one rule.
fn breach(code: &str, text: String) -> Breach {
    Breach {
        code: code.to_string(),
        text,
    }
}
