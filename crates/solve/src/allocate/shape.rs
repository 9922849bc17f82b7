//! The problem as the search sees it: flat limits, what a batch draws from each, and cells.
//!
//! A cell is one outlet on one day; its number is `outlet * days + day`.

use plan::allocation::{Limit, Outlet, Problem};

use super::supply::{Supplies, distinct_groups};

/// Points are counted in 3000ths inside the search: waste comes in thousandths, work in
/// sixtieths, so every sum stays a whole number.
pub(super) const SCALE: i64 = 3000;

/// What a run of one outlet draws from one limit.
#[derive(Debug, Clone, Copy)]
pub(super) struct Draw {
    /// First row of the limit; the day is added when the limit is a daily one.
    base: usize,
    daily: bool,
    /// Amount per batch; hundredths of a load for a canner.
    pub(super) per_batch: i64,
    /// Amount once per run.
    pub(super) per_run: i64,
    /// Whether the amount is rounded up to whole loads.
    pub(super) loads: bool,
}

impl Draw {
    /// The row this draw takes from on a day.
    pub(super) fn row(&self, day: usize) -> usize {
        self.base + if self.daily { day } else { 0 }
    }

    /// How much a run of so many batches takes.
    pub(super) fn amount(&self, batches: i64) -> i64 {
        if batches == 0 {
            0
        } else if self.loads {
            (batches * self.per_batch + 99) / 100
        } else {
            self.per_run + batches * self.per_batch
        }
    }

    /// The most batches that fit into an amount.
    fn most_within(&self, available: i64) -> i64 {
        let left = if self.loads {
            i128::from(available) * 100
        } else {
            i128::from(available) - i128::from(self.per_run)
        };
        if left < 0 {
            0
        } else if self.per_batch == 0 {
            i64::MAX
        } else {
            (left / i128::from(self.per_batch)) as i64
        }
    }
}

/// One outlet as the search sees it.
#[derive(Debug, Clone)]
pub(super) struct OutletShape {
    pub(super) draws: Vec<Draw>,
    /// Grams per batch of each group of classes, every group once.
    pub(super) needs: Vec<(usize, i64)>,
    /// Parts of the supply that this outlet touches, each once.
    pub(super) parts: Vec<usize>,
    pub(super) good: Option<usize>,
    pub(super) yields: i64,
    pub(super) least: i64,
    /// Scaled points per run: set-up work.
    pub(super) per_run: i64,
    /// Scaled points per batch without its good: extra worth less work.
    pub(super) per_batch: i64,
}

/// The problem in flat arrays.
#[derive(Debug)]
pub(super) struct Shape<'a> {
    pub(super) problem: &'a Problem,
    pub(super) days: usize,
    /// Amount available per row.
    pub(super) rows: Vec<i64>,
    /// The limit each row stands for.
    pub(super) limits: Vec<Limit>,
    pub(super) outlets: Vec<OutletShape>,
    /// Group of classes per outlet and input; nothing for an input of no grams.
    groups_of_inputs: Vec<Vec<Option<usize>>>,
    /// Most batches per cell after every limit taken alone; zero when none fits.
    pub(super) most: Vec<i64>,
    /// Cells in which at least one batch can be made.
    pub(super) cells: Vec<usize>,
    pub(super) supplies: Supplies,
    /// Scaled points per batch and day of delay.
    pub(super) per_batch_day: i64,
    /// Scaled points of waste if no lot is used at all.
    pub(super) all_wasted: i64,
}

impl<'a> Shape<'a> {
    /// Flattens a problem that has no flaws. `None` when its points could overflow the sums.
    pub(super) fn new(problem: &'a Problem) -> Option<Shape<'a>> {
        let days = problem.days.len();
        let groups = distinct_groups(problem);
        let supplies = Supplies::new(problem, &groups);
        let (rows, limits) = rows(problem);
        let mut outlets = Vec::with_capacity(problem.outlets.len());
        let mut groups_of_inputs = Vec::with_capacity(problem.outlets.len());
        for outlet in &problem.outlets {
            let of_inputs = groups_of(outlet, &groups);
            outlets.push(outlet_shape(problem, outlet, &of_inputs, &supplies));
            groups_of_inputs.push(of_inputs);
        }
        let mut shape = Shape {
            problem,
            days,
            rows,
            limits,
            outlets,
            groups_of_inputs,
            most: Vec::new(),
            cells: Vec::new(),
            supplies,
            per_batch_day: problem.prices.points_per_batch_day * SCALE,
            all_wasted: 0,
        };
        shape.most = (0..problem.outlets.len() * days)
            .map(|cell| shape.most_alone(cell / days, cell % days))
            .collect();
        shape.cells = (0..shape.most.len())
            .filter(|cell| shape.most[*cell] > 0)
            .collect();
        shape.all_wasted = i64::try_from(all_wasted(problem)).ok()?;
        shape.fits_the_sums().then_some(shape)
    }

    /// The group of classes an input accepts; nothing when it asks for no grams.
    pub(super) fn group_of_input(&self, outlet: usize, input: usize) -> Option<usize> {
        self.groups_of_inputs[outlet][input]
    }

    /// The outlet and the day of a cell.
    pub(super) fn place(&self, cell: usize) -> (usize, usize) {
        (cell / self.days, cell % self.days)
    }

    /// Most batches of an outlet on a day when everything else stands still.
    fn most_alone(&self, outlet: usize, day: usize) -> i64 {
        let given = &self.problem.outlets[outlet];
        let shape = &self.outlets[outlet];
        let allowed = given.days_allowed.as_ref().is_none_or(|days| days[day]);
        if !allowed {
            return 0;
        }
        let mut most = given.max_per_day;
        for draw in &shape.draws {
            most = most.min(draw.most_within(self.rows[draw.row(day)]));
        }
        for (group, grams) in &shape.needs {
            let there = self.supplies.available(*group, day);
            most = most.min((there / i128::from(*grams)).min(i128::from(i64::MAX)) as i64);
        }
        if most < shape.least { 0 } else { most }
    }

    /// Whether no sum of the search can leave the range of its integers.
    fn fits_the_sums(&self) -> bool {
        const ROOM: i128 = 1 << 61;
        let prices = &self.problem.prices;
        let hour = i128::from(SCALE / 60) * i128::from(prices.points_per_hour);
        let setup = i128::from(SCALE) * i128::from(prices.points_per_setup_minute);
        let mut points = i128::from(self.all_wasted);
        let mut drawn: Vec<i128> = self.rows.iter().map(|row| i128::from(*row)).collect();
        let mut units = 0i128;
        let mut grams = 0i128;
        for cell in &self.cells {
            let (index, day) = self.place(*cell);
            let outlet = &self.outlets[index];
            let most = i128::from(self.most[*cell]);
            let given = &self.problem.outlets[index];
            let each = i128::from(given.value_points.unsigned_abs()) * i128::from(SCALE)
                + hour * i128::from(given.minutes_per_batch)
                + i128::from(self.per_batch_day) * day as i128;
            let once = (hour + setup) * i128::from(given.setup_minutes);
            points += most * each + once;
            units += most * i128::from(outlet.yields);
            for draw in &outlet.draws {
                // A search may overdraw a row for a moment by one whole run.
                drawn[draw.row(day)] +=
                    i128::from(draw.per_run) + most * i128::from(draw.per_batch);
            }
            grams += outlet
                .needs
                .iter()
                .map(|(_, g)| most * i128::from(*g))
                .sum::<i128>();
        }
        let goods: i128 = self
            .problem
            .goods
            .iter()
            .flat_map(|good| &good.steps)
            .map(|(width, each)| i128::from(*width) * i128::from(each.unsigned_abs()))
            .sum();
        points += goods * i128::from(SCALE);
        points < ROOM && units < ROOM && grams < ROOM && drawn.iter().all(|row| *row < ROOM)
    }
}

/// Every limit as a row: daily ones first, one row per day.
fn rows(problem: &Problem) -> (Vec<i64>, Vec<Limit>) {
    let mut rows = Vec::new();
    let mut limits = Vec::new();
    let days = || problem.days.iter().enumerate();
    for (day, limit) in days() {
        rows.push(limit.hands_minutes);
        limits.push(Limit::Hands { day });
    }
    for (day, limit) in days() {
        rows.push(limit.freeze_grams);
        limits.push(Limit::FreezeGrams { day });
    }
    for (day, limit) in days() {
        rows.push(limit.dryer_trays);
        limits.push(Limit::DryerTrays { day });
    }
    for canner in 0..problem.canners.len() {
        for (day, limit) in days() {
            rows.push(limit.canner_loads[canner]);
            limits.push(Limit::CannerLoads { day, canner });
        }
    }
    rows.push(problem.freezer_room_ml);
    limits.push(Limit::FreezerRoom);
    for (container, limit) in problem.containers.iter().enumerate() {
        rows.push(limit.available);
        limits.push(Limit::Container { container });
    }
    for (ingredient, limit) in problem.ingredients.iter().enumerate() {
        rows.push(limit.available);
        limits.push(Limit::Ingredient { ingredient });
    }
    (rows, limits)
}

/// Adds up amounts of the same index, so that a list naming one container twice counts both.
fn summed(list: &[(usize, i64)]) -> Vec<(usize, i64)> {
    let mut sums: Vec<(usize, i64)> = Vec::new();
    for (index, amount) in list {
        match sums.iter_mut().find(|(known, _)| known == index) {
            Some((_, sum)) => *sum += amount,
            None => sums.push((*index, *amount)),
        }
    }
    sums
}

/// The group of classes of each input.
fn groups_of(outlet: &Outlet, groups: &[Vec<usize>]) -> Vec<Option<usize>> {
    outlet
        .inputs
        .iter()
        .map(|input| {
            let mut classes = input.classes.clone();
            classes.sort_unstable();
            classes.dedup();
            groups
                .iter()
                .position(|known| input.grams > 0 && *known == classes)
        })
        .collect()
}

fn outlet_shape(
    problem: &Problem,
    outlet: &Outlet,
    of_inputs: &[Option<usize>],
    supplies: &Supplies,
) -> OutletShape {
    let days = problem.days.len();
    let mut draws = Vec::new();
    let mut draw = |base: usize, daily: bool, per_batch: i64, per_run: i64, loads: bool| {
        if per_batch > 0 || per_run > 0 {
            draws.push(Draw {
                base,
                daily,
                per_batch,
                per_run,
                loads,
            });
        }
    };
    draw(
        0,
        true,
        outlet.minutes_per_batch,
        outlet.setup_minutes,
        false,
    );
    draw(days, true, outlet.freeze_grams, 0, false);
    draw(2 * days, true, outlet.dryer_trays, 0, false);
    if let Some(canner) = outlet.canner {
        draw((3 + canner) * days, true, outlet.loads_hundredths, 0, true);
    }
    let freezer_row = (3 + problem.canners.len()) * days;
    draw(freezer_row, false, outlet.freezer_ml, 0, false);
    for (index, count) in summed(&outlet.containers) {
        draw(freezer_row + 1 + index, false, count, 0, false);
    }
    let first = freezer_row + 1 + problem.containers.len();
    for (index, count) in summed(&outlet.ingredients) {
        draw(first + index, false, count, 0, false);
    }
    let needs: Vec<(usize, i64)> = outlet
        .inputs
        .iter()
        .zip(of_inputs)
        .filter_map(|(input, group)| group.map(|group| (group, input.grams)))
        .collect();
    let needs = summed(&needs);
    let mut parts: Vec<usize> = needs
        .iter()
        .map(|(group, _)| supplies.part_of_group[*group])
        .collect();
    parts.sort_unstable();
    parts.dedup();
    let hour = SCALE / 60 * problem.prices.points_per_hour;
    // Prices times minutes may be large; `fits_the_sums` refuses what would overflow later, and
    // saturating keeps the refusal reachable.
    let setup = problem.prices.points_per_setup_minute.saturating_mul(SCALE);
    OutletShape {
        draws,
        needs,
        parts,
        good: outlet.good,
        yields: outlet.yields,
        least: outlet.min_per_day.max(1),
        per_run: -(hour.saturating_add(setup)).saturating_mul(outlet.setup_minutes),
        per_batch: outlet
            .value_points
            .saturating_mul(SCALE)
            .saturating_sub(hour.saturating_mul(outlet.minutes_per_batch)),
    }
}

/// Scaled points lost when every lot that ends within the horizon is lost whole.
fn all_wasted(problem: &Problem) -> i128 {
    problem
        .lots
        .iter()
        .filter(|lot| lot.last_day < problem.horizon())
        .map(|lot| i128::from(lot.grams) * i128::from(lot.waste_points_per_kg))
        .sum::<i128>()
        * i128::from(SCALE / 1000)
}
