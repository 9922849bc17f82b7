//! A bound within microseconds, for when the linear solver gives none in time.
//!
//! Every limit is taken alone, summed over all days, and filled with whatever brings the most
//! points per amount of it, in fractions of batches. The lowest of these fillings is a bound:
//! each ignores all other limits, set-up apart from its least share, and every delay.

use super::shape::{SCALE, Shape};

/// Something a limit can be filled with.
struct Filling {
    /// Units that could be made at most.
    units: f64,
    /// Points per unit.
    each: f64,
    /// Amount of the limit per unit.
    amount: f64,
}

/// No plan is worth more points than this.
pub(super) fn quick_bound(shape: &Shape) -> i64 {
    let unlimited = fill(shape, None);
    let reached = kinds(shape)
        .into_iter()
        .map(|kind| fill(shape, Some(kind)))
        .fold(unlimited, f64::min);
    let points = reached - shape.all_wasted as f64 / SCALE as f64;
    // The sums stay below 2^61, and a float keeps far more digits than this margin needs.
    (points + 1.0 + 1e-9 * (reached.abs() + points.abs())).floor() as i64
}

/// First row and number of rows of each limit.
fn kinds(shape: &Shape) -> Vec<(usize, usize)> {
    let daily = 3 + shape.problem.canners.len();
    let mut kinds: Vec<(usize, usize)> = (0..daily)
        .map(|kind| (kind * shape.days, shape.days))
        .collect();
    kinds.extend((daily * shape.days..shape.rows.len()).map(|row| (row, 1)));
    kinds
}

/// Points of the best filling of one limit; without a limit, of everything.
fn fill(shape: &Shape, kind: Option<(usize, usize)>) -> f64 {
    let mut room = kind.map_or(f64::INFINITY, |(first, count)| {
        shape.rows[first..first + count]
            .iter()
            .map(|row| *row as f64)
            .sum()
    });
    let mut fillings = fillings(shape, kind);
    fillings.retain(|filling| filling.each > 0.0 && filling.units > 0.0);
    // By points per amount; what takes nothing of the limit comes first, at infinity. One key per
    // filling: comparing products of two would be no total order once they are rounded.
    fillings.sort_by(|a, b| (b.each / b.amount).total_cmp(&(a.each / a.amount)));
    let mut points = 0.0;
    for filling in fillings {
        let units = if filling.amount * filling.units > room {
            room / filling.amount
        } else {
            filling.units
        };
        points += units * filling.each;
        room = (room - units * filling.amount).max(0.0);
    }
    points
}

fn fillings(shape: &Shape, kind: Option<(usize, usize)>) -> Vec<Filling> {
    let mut fillings = Vec::new();
    // Per good: units in reach, the best points beyond the good and the least amount per unit.
    let mut goods = vec![(0.0, f64::NEG_INFINITY, f64::INFINITY); shape.problem.goods.len()];
    for (index, outlet) in shape.outlets.iter().enumerate() {
        let cells = &shape.most[index * shape.days..(index + 1) * shape.days];
        let batches: f64 = cells.iter().map(|most| *most as f64).sum();
        let most = cells.iter().copied().max().unwrap_or(0) as f64;
        if most == 0.0 {
            continue;
        }
        let saved: f64 = outlet
            .needs
            .iter()
            .map(|(group, grams)| *grams as f64 * dearest_loss(shape, *group))
            .sum();
        let own = outlet.per_batch as f64 + outlet.per_run as f64 / most + saved;
        let own = own / SCALE as f64;
        let amount = kind.map_or(0.0, |(first, count)| {
            let of_kind = outlet.draws.iter().find(|draw| {
                let row = draw.row(0);
                (first..first + count).contains(&row)
            });
            of_kind.map_or(0.0, |draw| {
                let unit = if draw.loads { 100.0 } else { 1.0 };
                draw.per_batch as f64 / unit + draw.per_run as f64 / most
            })
        });
        match outlet.good {
            Some(good) if outlet.yields > 0 => {
                let yields = outlet.yields as f64;
                let (reach, best, least) = &mut goods[good];
                *reach += yields * batches;
                *best = best.max(own / yields);
                *least = least.min(amount / yields);
            }
            _ => fillings.push(Filling {
                units: batches,
                each: own,
                amount,
            }),
        }
    }
    for (good, (reach, best, least)) in shape.problem.goods.iter().zip(goods) {
        if reach == 0.0 {
            continue;
        }
        let steps = good.steps.iter().map(|(w, each)| (*w as f64, *each as f64));
        for (width, each) in steps.chain([(reach, 0.0)]) {
            fillings.push(Filling {
                units: width.min(reach),
                each: each + best,
                amount: least,
            });
        }
    }
    fillings
}

/// The dearest loss per gram, in scaled points, among the lots a group shares its part with.
fn dearest_loss(shape: &Shape, group: usize) -> f64 {
    let part = &shape.supplies.parts[shape.supplies.part_of_group[group]];
    let losses = part.supplies.iter().map(|supply| supply.loss);
    losses.max().unwrap_or(0) as f64
}
