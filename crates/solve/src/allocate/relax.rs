//! The problem as a linear program: whole batches and yes-or-no runs, their limits, the flow of
//! lots, and the falling worth of goods. Its optimum is a bound on every plan.

use std::collections::BTreeMap;

use super::shape::{SCALE, Shape};
use super::state::worth;
use super::supply::Part;

/// What values a variable may take in the exact model.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    Whole,
    Share,
}

/// One variable: worth per unit in points, upper limit (the lower one is zero).
#[derive(Debug, Clone, Copy)]
pub(super) struct Variable {
    pub(super) worth: f64,
    pub(super) most: f64,
    pub(super) kind: Kind,
}

/// A row `sum of coefficient * variable <= limit` (or `=`).
#[derive(Debug, Clone)]
pub(super) struct Row {
    pub(super) terms: Vec<(usize, f64)>,
    pub(super) limit: f64,
    pub(super) equal: bool,
}

/// A row over whole variables with whole coefficients, from which cuts are made.
#[derive(Debug, Clone)]
pub(super) struct WholeRow {
    pub(super) terms: Vec<(usize, i64)>,
    pub(super) limit: i64,
}

/// The linear model.
#[derive(Debug, Clone)]
pub(super) struct Model {
    pub(super) variables: Vec<Variable>,
    pub(super) rows: Vec<Row>,
    pub(super) whole_rows: Vec<WholeRow>,
    /// Points that no variable moves: the loss of lots that are not used.
    pub(super) constant: f64,
    /// Variable of the batches per cell.
    pub(super) batches: Vec<Option<usize>>,
    /// Variable that says whether a cell runs, where set-up or a fewest number makes it matter.
    pub(super) running: Vec<Option<usize>>,
    /// Variable of whole canner loads per cell, where a batch is no whole number of loads.
    pub(super) loads: Vec<Option<usize>>,
}

/// Points per scaled point.
const POINT: f64 = 1.0 / SCALE as f64;

impl Model {
    /// Builds the model of a whole problem.
    pub(super) fn new(shape: &Shape) -> Model {
        let cells = shape.most.len();
        let mut model = Model {
            variables: Vec::new(),
            rows: Vec::new(),
            whole_rows: Vec::new(),
            constant: -(shape.all_wasted as f64) * POINT,
            batches: vec![None; cells],
            running: vec![None; cells],
            loads: vec![None; cells],
        };
        model.add_cells(shape);
        model.add_limits(shape);
        model.add_goods(shape);
        for part in 0..shape.supplies.parts.len() {
            model.add_flow(shape, part);
            model.add_supply_rows(shape, part);
        }
        model
    }

    fn variable(&mut self, worth: f64, most: f64, kind: Kind) -> usize {
        self.variables.push(Variable { worth, most, kind });
        self.variables.len() - 1
    }

    /// Adds a row scaled so that its largest coefficient is one.
    fn row(&mut self, terms: Vec<(usize, f64)>, limit: f64, equal: bool) {
        let largest = terms.iter().map(|(_, a)| a.abs()).fold(0.0, f64::max);
        if largest == 0.0 {
            return;
        }
        let terms = terms
            .into_iter()
            .map(|(variable, a)| (variable, a / largest))
            .collect();
        self.rows.push(Row {
            terms,
            limit: limit / largest,
            equal,
        });
    }

    /// Adds a row over whole variables, unless its limit can never be reached.
    fn whole_row(&mut self, terms: Vec<(usize, i64)>, limit: i64, into_rows: bool) {
        let reach: f64 = terms
            .iter()
            .map(|(variable, a)| (*a as f64 * self.variables[*variable].most).max(0.0))
            .sum();
        if terms.is_empty() || reach <= limit as f64 {
            return;
        }
        if into_rows {
            let floats = terms.iter().map(|(v, a)| (*v, *a as f64)).collect();
            self.row(floats, limit as f64, false);
        }
        self.whole_rows.push(WholeRow { terms, limit });
    }

    fn add_cells(&mut self, shape: &Shape) {
        for cell in &shape.cells {
            let (index, day) = shape.place(*cell);
            let outlet = &shape.outlets[index];
            let most = shape.most[*cell];
            let worth = outlet.per_batch - shape.per_batch_day * day as i64;
            let x = self.variable(worth as f64 * POINT, most as f64, Kind::Whole);
            self.batches[*cell] = Some(x);
            let set_up = outlet.per_run != 0 || outlet.draws.iter().any(|draw| draw.per_run > 0);
            if set_up || outlet.least > 1 {
                let y = self.variable(outlet.per_run as f64 * POINT, 1.0, Kind::Whole);
                self.running[*cell] = Some(y);
                self.whole_row(vec![(x, 1), (y, -most)], 0, true);
                if outlet.least > 1 {
                    self.whole_row(vec![(y, outlet.least), (x, -1)], 0, true);
                }
            }
            for draw in outlet.draws.iter().filter(|draw| draw.loads) {
                if draw.per_batch % 100 != 0 {
                    let most_loads = draw.amount(most);
                    let k = self.variable(0.0, most_loads as f64, Kind::Whole);
                    self.loads[*cell] = Some(k);
                    self.whole_row(vec![(x, draw.per_batch), (k, -100)], 0, true);
                }
            }
        }
    }

    fn add_limits(&mut self, shape: &Shape) {
        let mut rows: Vec<Vec<(usize, i64)>> = vec![Vec::new(); shape.rows.len()];
        for cell in &shape.cells {
            let (index, day) = shape.place(*cell);
            let Some(x) = self.batches[*cell] else {
                continue;
            };
            for draw in &shape.outlets[index].draws {
                let terms = &mut rows[draw.row(day)];
                match (draw.loads, self.loads[*cell]) {
                    (true, Some(k)) => terms.push((k, 1)),
                    (true, None) => terms.push((x, draw.per_batch / 100)),
                    (false, _) => {
                        if draw.per_batch > 0 {
                            terms.push((x, draw.per_batch));
                        }
                        if let (Some(y), true) = (self.running[*cell], draw.per_run > 0) {
                            terms.push((y, draw.per_run));
                        }
                    }
                }
            }
        }
        for (terms, limit) in rows.into_iter().zip(&shape.rows) {
            self.whole_row(terms, *limit, true);
        }
    }

    /// Goods are worth what their steps say. Units come in multiples of the common divisor of
    /// all yields, so the worth is drawn through those multiples only: nearer to the truth.
    fn add_goods(&mut self, shape: &Shape) {
        for (good, described) in shape.problem.goods.iter().enumerate() {
            let mut terms = Vec::new();
            let mut unit = 0i64;
            let mut reach = 0i64;
            for cell in &shape.cells {
                let (index, _) = shape.place(*cell);
                let outlet = &shape.outlets[index];
                if outlet.good == Some(good) && outlet.yields > 0 {
                    if let Some(x) = self.batches[*cell] {
                        terms.push((x, -outlet.yields));
                    }
                    unit = common_divisor(unit, outlet.yields);
                    reach += outlet.yields * shape.most[*cell];
                }
            }
            if unit == 0 {
                continue;
            }
            let mut segments = Vec::new();
            for (count, each) in segments_of(&described.steps, unit, reach) {
                let s = self.variable(each as f64, count as f64, Kind::Share);
                segments.push(s);
            }
            let mut row: Vec<(usize, f64)> = terms
                .iter()
                .map(|(x, yields)| (*x, (yields / unit) as f64))
                .collect();
            row.extend(segments.iter().map(|s| (*s, 1.0)));
            self.row(row, 0.0, false);
        }
    }

    /// Grams from each supply to each group and day.
    fn add_flow(&mut self, shape: &Shape, part_index: usize) {
        let part = &shape.supplies.parts[part_index];
        let demands = demands_of(shape, part, &self.batches);
        let largest = demands
            .iter()
            .flatten()
            .flat_map(|terms| terms.iter().map(|(_, grams)| *grams))
            .max()
            .unwrap_or(1) as f64;
        let mut given: Vec<Vec<(usize, f64)>> = vec![Vec::new(); part.supplies.len()];
        for (group, by_day) in demands.iter().enumerate() {
            for (day, terms) in by_day.iter().enumerate() {
                if terms.is_empty() {
                    continue;
                }
                let mut row: Vec<(usize, f64)> = terms
                    .iter()
                    .map(|(x, grams)| (*x, *grams as f64 / largest))
                    .collect();
                for (index, supply) in part.supplies.iter().enumerate() {
                    if supply.feeds(group, day) {
                        let worth = supply.loss as f64 * POINT * largest;
                        let most = supply.grams as f64 / largest;
                        let u = self.variable(worth, most, Kind::Share);
                        row.push((u, -1.0));
                        given[index].push((u, 1.0));
                    }
                }
                self.row(row, 0.0, true);
            }
        }
        for (terms, supply) in given.into_iter().zip(&part.supplies) {
            if terms.len() > 1 {
                self.row(terms, supply.grams as f64 / largest, false);
            }
        }
    }

    /// What any days in a row may take of a part, or of one of its groups, from the lots that
    /// reach them. These follow from the flow; cuts are made from them.
    fn add_supply_rows(&mut self, shape: &Shape, part_index: usize) {
        let part = &shape.supplies.parts[part_index];
        let demands = demands_of(shape, part, &self.batches);
        let mut sets: Vec<Vec<usize>> = vec![(0..part.groups.len()).collect()];
        if part.groups.len() > 1 {
            sets.extend((0..part.groups.len()).map(|group| vec![group]));
        }
        for set in sets {
            for first in 0..shape.days {
                for last in first..shape.days {
                    let mut sums: BTreeMap<usize, i64> = BTreeMap::new();
                    for group in &set {
                        for (x, grams) in demands[*group][first..=last].iter().flatten() {
                            *sums.entry(*x).or_insert(0) += grams;
                        }
                    }
                    let limit = part
                        .supplies
                        .iter()
                        .filter(|supply| {
                            (first..=last)
                                .any(|day| set.iter().any(|group| supply.feeds(*group, day)))
                        })
                        .map(|supply| supply.grams)
                        .sum();
                    self.whole_row(sums.into_iter().collect(), limit, false);
                }
            }
        }
    }
}

/// Batch variables and grams per batch, by group of a part and day.
fn demands_of(
    shape: &Shape,
    part: &Part,
    batches: &[Option<usize>],
) -> Vec<Vec<Vec<(usize, i64)>>> {
    let mut demands = vec![vec![Vec::new(); shape.days]; part.groups.len()];
    for cell in &shape.cells {
        let (index, day) = shape.place(*cell);
        for (group, grams) in &shape.outlets[index].needs {
            let inner = part.groups.iter().position(|known| known == group);
            if let (Some(inner), Some(x)) = (inner, batches[*cell]) {
                demands[inner][day].push((x, *grams));
            }
        }
    }
    demands
}

/// The worth of a good over multiples of `unit`: how many multiples in a row, points for each.
fn segments_of(steps: &[(i64, i64)], unit: i64, reach: i64) -> Vec<(i64, i64)> {
    let mut segments = Vec::new();
    let mut made = 0;
    let mut end = 0;
    for (width, each) in steps {
        end += width;
        while made < end && made < reach {
            let whole = (end - made) / unit;
            if whole > 0 {
                segments.push((whole, unit * each));
                made += whole * unit;
            } else {
                let gain = worth(steps, made + unit) - worth(steps, made);
                segments.push((1, gain));
                made += unit;
            }
        }
    }
    segments
}

fn common_divisor(a: i64, b: i64) -> i64 {
    if b == 0 { a } else { common_divisor(b, a % b) }
}
