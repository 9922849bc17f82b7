//! Runs the parts side by side on one problem: priority rules, annealing, exact search of small
//! neighbourhoods, and exact search of the whole day where there is hope of a proof.

use plan::kitchen_day::{Problem, Timetable};

use crate::effort::{Effort, Watch};

use super::bound::{LeastEnd, least_end, least_points};
use super::compile::NoModel;
use super::exact::{Exact, Progress};
use super::model::Model;
use super::place::Placer;
use super::search::Search;
use super::windows::narrow;

/// Annealing steps in a round; each round also searches one neighbourhood.
const STEPS_IN_ROUND: u64 = 20;

/// Nodes given to one neighbourhood.
const NODES_IN_NEIGHBOURHOOD: u64 = 100;

/// Days of at most this many blocks are also searched exactly as a whole.
const BLOCKS_TO_PROVE: usize = 60;

/// Nodes of the whole day visited before annealing begins, and in each round.
const NODES_AT_FIRST: u64 = 300;
const NODES_IN_ROUND: u64 = 30;

/// Most steps spent on finding how late it gets once it is known to get late.
const STEPS_WITHOUT_HOPE: u64 = 1_000;

/// Rounds without anything better until the annealing goes back to the best schedule.
const PATIENCE: u64 = 150;

/// Temperatures at the beginning and the end, as shares of the points of the best schedule: on
/// days with priced waits, and on days where only the end counts.
const TEMPERATURES: (f64, f64) = (0.025, 0.002);
const TEMPERATURES_OF_PLAIN_DAYS: (f64, f64) = (0.005, 0.001);

/// What came of laying out a day.
#[derive(Debug)]
pub(super) enum Outcome {
    /// A timetable.
    Found(Timetable),
    /// Everything fits, but not by the finish-by.
    Late {
        /// Starts of the steps with the earliest end found. They count on everyone after the
        /// finish-by, also on who has gone home (see `late`).
        starts: Vec<i64>,
        /// No schedule ends before this minute.
        least_end: i64,
        /// What forces the least end: a resource of the problem, or the way through a step.
        forced_by: Force,
        /// Whether there is no timetable by the finish-by at all.
        proven: bool,
    },
    /// No schedule was found, however late. `proven`: by the finish-by there is none.
    Unplaced { proven: bool },
    /// The day contradicts itself.
    NoModel(NoModel),
    /// This step finds no minute to start at, whatever the others do.
    NoRoom { step: usize },
    /// This step is fixed to a minute at which other fixed steps leave no room for it.
    FixedClash { step: usize },
}

/// What forces a day to be as long as it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Force {
    /// A resource (index into the problem's).
    Resource(usize),
    /// The steps before and after this one.
    WayThrough(usize),
}

/// Lays out a day without flaws. `old`: starts of an earlier timetable to begin from. `on_better`
/// sees each timetable that is better than all before it and says whether to go on.
pub(super) fn lay_out(
    problem: &Problem,
    effort: &Effort,
    old: Option<&[i64]>,
    on_better: &mut dyn FnMut(&Timetable) -> bool,
) -> Outcome {
    let watch = Watch::start(effort);
    let mut model = match Model::build(problem) {
        Ok(model) => model,
        Err(reason) => return Outcome::NoModel(reason),
    };
    let step_of = |model: &Model, block: usize| {
        let mut steps = model.block_of.iter();
        steps.position(|&of| of == block).unwrap_or(0)
    };
    if let Err(block) = narrow(&mut model) {
        return Outcome::NoRoom {
            step: step_of(&model, block),
        };
    }
    if let Some(block) = Placer::new(&model).fixed_clash(&model) {
        return Outcome::FixedClash {
            step: step_of(&model, block),
        };
    }
    let least_end = least_end(&model);
    let mut run = Run::new(&model, effort, watch, least_end, on_better);
    let finished = run.go(old);
    let hopeless = run.hopeless;
    match run.search.best() {
        Some(_) if run.search.is_in_time() => Outcome::Found(run.timetable(finished)),
        Some(best) => Outcome::Late {
            starts: model.step_starts(&best.starts),
            least_end: i64::from(least_end.minute),
            forced_by: match least_end.forced_by {
                super::bound::ForcedBy::Resource(resource)
                    if resource < problem.resources.len() =>
                {
                    Force::Resource(resource)
                }
                super::bound::ForcedBy::Resource(_) => Force::WayThrough(0),
                super::bound::ForcedBy::WayThrough(block) => {
                    Force::WayThrough(step_of(&model, block))
                }
            },
            proven: hopeless,
        },
        None => Outcome::Unplaced { proven: hopeless },
    }
}

struct Run<'m, 'w> {
    model: &'m Model,
    search: Search<'m>,
    neighbourhood: Exact<'m>,
    proof: Exact<'m>,
    effort: Effort,
    watch: Watch,
    used: u64,
    bound: i64,
    /// No schedule can keep to the finish-by: what is left is to find the earliest end.
    hopeless: bool,
    on_better: &'w mut dyn FnMut(&Timetable) -> bool,
    told: i64,
    stopped: bool,
}

impl<'m, 'w> Run<'m, 'w> {
    fn new(
        model: &'m Model,
        effort: &Effort,
        watch: Watch,
        least_end: LeastEnd,
        on_better: &'w mut dyn FnMut(&Timetable) -> bool,
    ) -> Run<'m, 'w> {
        Run {
            model,
            search: Search::new(model, effort.seed),
            neighbourhood: Exact::new(model, false, least_end.minute),
            proof: Exact::new(model, true, least_end.minute),
            effort: *effort,
            watch,
            used: 0,
            bound: least_points(model, least_end.minute),
            hopeless: least_end.minute > model.horizon,
            on_better,
            told: i64::MAX,
            stopped: false,
        }
    }

    /// Searches until the effort is used up. Returns whether it is proven that nothing within the
    /// finish-by is cheaper than the best schedule.
    fn go(&mut self, old: Option<&[i64]>) -> bool {
        if let Some(old) = old {
            self.search.try_starts(old);
            self.tell();
        }
        for rule in 0..self.search.rules() {
            // The first schedule is worth any effort; the other rules are counted.
            if self.search.best().is_some() && self.is_over() {
                return self.is_best();
            }
            self.search.try_rule(rule);
            self.used += 1;
            self.tell();
        }
        let small = self.model.blocks <= BLOCKS_TO_PROVE;
        if self.prove(if small { NODES_AT_FIRST } else { 1 }) {
            return true;
        }
        let mut last = i64::MAX;
        let mut rounds_since = 0;
        while !self.is_over() {
            for _ in 0..STEPS_IN_ROUND {
                if self.is_over() {
                    break;
                }
                self.search.step(self.temperature());
                self.used += 1;
                self.tell();
            }
            if self.is_over() {
                break;
            }
            // Where only the end counts, annealing alone gets further.
            if !self.model.prices.is_empty() {
                self.search
                    .reorder_some(&mut self.neighbourhood, NODES_IN_NEIGHBOURHOOD);
                self.tell();
            }
            if small && self.prove(NODES_IN_ROUND) {
                return true;
            }
            let now = self.search.best().map_or(i64::MAX, |best| best.points);
            rounds_since = if now < last { 0 } else { rounds_since + 1 };
            last = now;
            if rounds_since > PATIENCE {
                self.search.restart();
                rounds_since = 0;
            }
        }
        self.is_best()
    }

    /// Goes on with the exact search of the whole day; `true` when it has proven the best schedule.
    fn prove(&mut self, nodes: u64) -> bool {
        if self.hopeless {
            return false;
        }
        let before = self.search.best().map_or(i64::MAX, |best| best.points);
        let mut best = self.search.best().cloned();
        let progress = self.proof.run(nodes, &mut best);
        if let Some(best) = best.filter(|best| best.points < before) {
            self.search.adopt(&best.starts);
            self.tell();
        }
        let finished = progress == Progress::Finished;
        self.hopeless = finished && !self.search.is_in_time();
        finished && !self.hopeless
    }

    /// Whether the best schedule costs no more than the bound.
    fn is_best(&self) -> bool {
        self.search.is_in_time() && self.search.best().is_some_and(|b| b.points <= self.bound)
    }

    fn is_over(&self) -> bool {
        // Without hope a part of the effort says well enough how late it gets.
        let tired = self.hopeless
            && (self.used >= (self.effort.iterations / 4).min(STEPS_WITHOUT_HOPE)
                || self.watch.share().is_some_and(|share| share > 0.25));
        self.stopped
            || tired
            || self.used >= self.effort.iterations
            || self.watch.is_over()
            || self.is_best()
    }

    fn temperature(&self) -> f64 {
        let steps = self.effort.iterations.max(1) as f64;
        let share = self.watch.share().unwrap_or(self.used as f64 / steps);
        let points = match self.search.best() {
            Some(best) if self.search.is_in_time() => best.points as f64,
            // A hundred late minutes as the yardstick: then a few may come and go.
            _ => 100.0 * self.model.late_points as f64,
        };
        let (hot, cold) = if self.model.prices.is_empty() {
            TEMPERATURES_OF_PLAIN_DAYS
        } else {
            TEMPERATURES
        };
        points * hot * (cold / hot).powf(share.min(1.0))
    }

    /// Hands the best schedule on if it is a timetable and better than the last one handed on.
    fn tell(&mut self) {
        let points = self.search.best().map_or(i64::MAX, |best| best.points);
        if points < self.told && self.search.is_in_time() {
            self.told = points;
            let timetable = self.timetable(false);
            self.stopped |= !(self.on_better)(&timetable);
        }
    }

    fn timetable(&self, finished: bool) -> Timetable {
        let Some(best) = self.search.best() else {
            return Timetable::default();
        };
        let proven = finished || best.points <= self.bound;
        Timetable {
            starts: self.model.step_starts(&best.starts),
            end: i64::from(self.model.end(&best.starts)),
            value: best.points,
            bound: if proven { best.points } else { self.bound },
            proven,
        }
    }
}
