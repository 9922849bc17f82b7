//! Writes a set of batches down as a plan: runs, which lot feeds which input, the parts of the
//! value.

use plan::allocation::{Run, Use, ValueParts};

use super::shape::{SCALE, Shape};
use super::state::{State, worth};

/// Runs in the order of days, then outlets.
pub(super) fn runs(state: &State) -> Vec<Run> {
    let shape = state.shape;
    let mut runs = Vec::new();
    for day in 0..shape.days {
        for outlet in 0..shape.outlets.len() {
            let batches = state.batches[outlet * shape.days + day];
            if batches > 0 {
                runs.push(Run {
                    day,
                    outlet,
                    batches,
                });
            }
        }
    }
    runs
}

/// An input that still waits for grams.
struct Waiting {
    outlet: usize,
    input: usize,
    grams: i64,
}

/// Lines from lots to inputs, by day, then outlet, input and lot.
pub(super) fn uses(state: &mut State) -> Vec<Use> {
    let shape = state.shape;
    let mut uses = Vec::new();
    for (index, part) in shape.supplies.parts.iter().enumerate() {
        let mut lines = state.flow(index).lines;
        lines.sort_by_key(|(supply, group, day, _)| (*day, *group, *supply));
        let mut left: Vec<Vec<(usize, i64)>> = part
            .supplies
            .iter()
            .map(|supply| {
                let lots = supply.lots.iter().rev();
                lots.map(|lot| (*lot, shape.problem.lots[*lot].grams))
                    .collect()
            })
            .collect();
        let mut waiting: Vec<Waiting> = Vec::new();
        let mut place = None;
        for (supply, group, day, mut grams) in lines {
            if place != Some((group, day)) {
                place = Some((group, day));
                waiting = inputs_of(state, part.groups[group], day);
            }
            while grams > 0 {
                let Some(input) = waiting.iter_mut().find(|input| input.grams > 0) else {
                    break;
                };
                let Some((lot, there)) = left[supply].last_mut() else {
                    break;
                };
                let taken = grams.min(input.grams).min(*there);
                uses.push(Use {
                    day,
                    outlet: input.outlet,
                    input: input.input,
                    lot: *lot,
                    grams: taken,
                });
                grams -= taken;
                input.grams -= taken;
                *there -= taken;
                if *there == 0 {
                    left[supply].pop();
                }
            }
        }
    }
    uses.sort_by_key(|line| (line.day, line.outlet, line.input, line.lot));
    uses
}

/// Inputs of the runs of a day that accept exactly one group of classes, with their grams.
fn inputs_of(state: &State, group: usize, day: usize) -> Vec<Waiting> {
    let shape = state.shape;
    let mut waiting = Vec::new();
    for (outlet, described) in shape.problem.outlets.iter().enumerate() {
        let batches = state.batches[outlet * shape.days + day];
        if batches == 0 {
            continue;
        }
        for (input, asked) in described.inputs.iter().enumerate() {
            if shape.group_of_input(outlet, input) == Some(group) {
                waiting.push(Waiting {
                    outlet,
                    input,
                    grams: asked.grams * batches,
                });
            }
        }
    }
    waiting
}

/// Grams of each lot that no line uses.
pub(super) fn left_of_lots(shape: &Shape, uses: &[Use]) -> Vec<i64> {
    let mut left: Vec<i64> = shape.problem.lots.iter().map(|lot| lot.grams).collect();
    for line in uses {
        left[line.lot] -= line.grams;
    }
    left
}

/// The parts of the value of a settled state. Waste and work together are rounded up once; a
/// point above the whole ones goes to the larger fraction.
pub(super) fn parts(state: &State, left: &[i64]) -> ValueParts {
    let shape = state.shape;
    let prices = &shape.problem.prices;
    let mut parts = ValueParts::default();
    let mut units = vec![0i64; shape.problem.goods.len()];
    let mut minutes = 0i128;
    let mut setup_points = 0i64;
    for run in runs(state) {
        let outlet = &shape.problem.outlets[run.outlet];
        if let Some(good) = outlet.good {
            units[good] += outlet.yields * run.batches;
        }
        minutes += i128::from(outlet.setup_minutes)
            + i128::from(outlet.minutes_per_batch) * i128::from(run.batches);
        setup_points += outlet.setup_minutes * prices.points_per_setup_minute;
        parts.extra += outlet.value_points * run.batches;
        parts.delay += prices.points_per_batch_day * run.day as i64 * run.batches;
    }
    for (good, made) in shape.problem.goods.iter().zip(units) {
        parts.goods += worth(&good.steps, made);
    }
    let scale = i128::from(SCALE);
    let waste: i128 = shape
        .problem
        .lots
        .iter()
        .zip(left)
        .filter(|(lot, _)| lot.last_day < shape.problem.horizon())
        .map(|(lot, grams)| i128::from(*grams) * i128::from(lot.waste_points_per_kg))
        .sum::<i128>()
        * (scale / 1000);
    let work = minutes * i128::from(prices.points_per_hour) * (scale / 60);
    let sum = (waste + work + scale - 1).div_euclid(scale);
    let (mut lost, mut worked) = (waste / scale, work / scale);
    match sum - lost - worked {
        0 => {}
        1 if waste % scale > work % scale => lost += 1,
        1 => worked += 1,
        _ => {
            lost += 1;
            worked += 1;
        }
    }
    // Both lie within the sums that were checked before the search began.
    parts.waste = lost as i64;
    parts.work = worked as i64;
    parts.work += setup_points;
    parts
}
