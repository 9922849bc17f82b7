//! Order of the flow picture's three columns, so that its bands cross as little as they can.
//!
//! Batches keep the order of their days and move only within a day; lots and places are free.
//! Columns are first ordered by the middle of their neighbours, then neighbours in a column change
//! places as long as that lowers the weight that crosses. The same input gives the same order.

/// A band between two columns: index on the left, index on the right, grams.
pub type Band = (usize, usize, i64);

/// Positions to indices, column by column, top first.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Order {
    /// Left column.
    pub lots: Vec<usize>,
    /// Middle column.
    pub batches: Vec<usize>,
    /// Right column.
    pub places: Vec<usize>,
}

/// Finds an order. `groups[b]` is the day of batch `b`, never falling along the given order.
/// Bands whose index names no node are left aside.
pub fn order(lots: usize, groups: &[usize], places: usize, into: &[Band], out: &[Band]) -> Order {
    let into: Vec<Band> = into
        .iter()
        .copied()
        .filter(|&(l, b, _)| l < lots && b < groups.len())
        .collect();
    let out: Vec<Band> = out
        .iter()
        .copied()
        .filter(|&(b, p, _)| b < groups.len() && p < places)
        .collect();
    let mut found = Order {
        lots: (0..lots).collect(),
        batches: (0..groups.len()).collect(),
        places: (0..places).collect(),
    };
    found.batches.sort_by_key(|&b| groups[b]);
    let mut best = found.clone();
    let mut least = crossing(&best, &into, &out);
    for _ in 0..8 {
        by_middle(&mut found.lots, |l| {
            middle(
                &found.batches,
                into.iter()
                    .filter(|band| band.0 == l)
                    .map(|band| (band.1, band.2)),
            )
        });
        by_middle(&mut found.places, |p| {
            middle(
                &found.batches,
                out.iter()
                    .filter(|band| band.1 == p)
                    .map(|band| (band.0, band.2)),
            )
        });
        let (left, right) = (found.lots.clone(), found.places.clone());
        by_middle(&mut found.batches, |b| {
            let from = middle(
                &left,
                into.iter()
                    .filter(|band| band.1 == b)
                    .map(|band| (band.0, band.2)),
            ) / left.len().max(1) as f64;
            let to = middle(
                &right,
                out.iter()
                    .filter(|band| band.0 == b)
                    .map(|band| (band.1, band.2)),
            ) / right.len().max(1) as f64;
            // The day decides first; within it the mean of both sides.
            groups[b] as f64 * 10.0 + (from + to) / 2.0
        });
        exchange(&mut found, groups, &into, &out);
        let crossed = crossing(&found, &into, &out);
        if crossed >= least {
            break;
        }
        least = crossed;
        best = found.clone();
    }
    // An order that the first sweep made no better still deserves its neighbours exchanged.
    exchange(&mut best, groups, &into, &out);
    best
}

/// Weight that crosses: for each two bands that cross, the smaller one's grams.
pub fn crossing(order: &Order, into: &[Band], out: &[Band]) -> i64 {
    side(&places_of(&order.lots), &places_of(&order.batches), into)
        + side(&places_of(&order.batches), &places_of(&order.places), out)
}

fn side(left: &[usize], right: &[usize], bands: &[Band]) -> i64 {
    let mut sum = 0;
    for (index, a) in bands.iter().enumerate() {
        for b in &bands[index + 1..] {
            let (la, lb, ra, rb) = (left[a.0], left[b.0], right[a.1], right[b.1]);
            if (la < lb && ra > rb) || (la > lb && ra < rb) {
                sum += a.2.min(b.2);
            }
        }
    }
    sum
}

/// Index to position.
fn places_of(order: &[usize]) -> Vec<usize> {
    let mut at = vec![0; order.len()];
    for (position, &index) in order.iter().enumerate() {
        at[index] = position;
    }
    at
}

fn middle(column: &[usize], neighbours: impl Iterator<Item = (usize, i64)>) -> f64 {
    let at = places_of(column);
    let (sum, weight) = neighbours.fold((0.0, 0.0), |(sum, weight), (index, grams)| {
        (sum + at[index] as f64 * grams as f64, weight + grams as f64)
    });
    if weight > 0.0 { sum / weight } else { 0.0 }
}

fn by_middle(column: &mut [usize], middle: impl Fn(usize) -> f64) {
    let key: Vec<(usize, f64)> = column.iter().map(|&index| (index, middle(index))).collect();
    let of = |index: usize| {
        key.iter()
            .find(|entry| entry.0 == index)
            .map_or(0.0, |entry| entry.1)
    };
    column.sort_by(|&a, &b| of(a).total_cmp(&of(b)));
}

/// Exchanges neighbours in every column while the crossing weight falls.
fn exchange(order: &mut Order, groups: &[usize], into: &[Band], out: &[Band]) {
    let flip = |bands: &[Band]| -> Vec<Band> {
        bands.iter().map(|&(a, b, grams)| (b, a, grams)).collect()
    };
    let (into_back, out_back) = (flip(into), flip(out));
    for _ in 0..40 {
        let mut moved = false;
        let batches = places_of(&order.batches);
        moved |= pass(&mut order.lots, |_, _| true, &[(into, &batches)]);
        moved |= pass(&mut order.places, |_, _| true, &[(&out_back, &batches)]);
        let (lots, places) = (places_of(&order.lots), places_of(&order.places));
        moved |= pass(
            &mut order.batches,
            |a, b| groups[a] == groups[b],
            &[(&into_back, &lots), (out, &places)],
        );
        if !moved {
            return;
        }
    }
}

/// One pass over a column; each side is its bands (this column first) and the other column's positions.
fn pass(
    column: &mut [usize],
    may: impl Fn(usize, usize) -> bool,
    sides: &[(&[Band], &[usize])],
) -> bool {
    let crossed = |upper: usize, lower: usize| -> i64 {
        let mut sum = 0;
        for (bands, other) in sides {
            for a in bands.iter().filter(|band| band.0 == upper) {
                for b in bands.iter().filter(|band| band.0 == lower) {
                    if other[a.1] > other[b.1] {
                        sum += a.2.min(b.2);
                    }
                }
            }
        }
        sum
    };
    let mut moved = false;
    for position in 1..column.len() {
        let (upper, lower) = (column[position - 1], column[position]);
        if may(upper, lower) && crossed(upper, lower) > crossed(lower, upper) {
            column.swap(position - 1, position);
            moved = true;
        }
    }
    moved
}

#[cfg(test)]
mod tests {
    use super::{Band, Order, crossing, order};
    use proptest::prelude::*;

    #[test]
    fn crossed_lots_are_uncrossed_and_days_keep_their_order() {
        // Two lots drawn the wrong way round, two days that must not change places.
        let into = [(0, 1, 500), (1, 0, 500)];
        let out = [(0, 1, 500), (1, 0, 500)];
        let found = order(2, &[0, 1], 2, &into, &out);
        assert_eq!(
            found,
            Order {
                lots: vec![1, 0],
                batches: vec![0, 1],
                places: vec![1, 0]
            }
        );
        assert_eq!(crossing(&found, &into, &out), 0);
    }

    #[test]
    fn a_band_to_nowhere_is_left_aside() {
        let found = order(
            1,
            &[0],
            1,
            &[(0, 0, 10), (7, 0, 10)],
            &[(0, 0, 10), (0, 9, 10)],
        );
        assert_eq!(found.lots, vec![0]);
    }

    proptest! {
        #[test]
        fn the_order_is_a_permutation_no_worse_than_the_given_one(
            lots in 1usize..7, days in prop::collection::vec(0usize..3, 1..8), places in 1usize..6,
            bands in prop::collection::vec((0usize..7, 0usize..8, 0usize..6, 1i64..9000), 1..20),
        ) {
            let mut groups = days;
            groups.sort_unstable();
            let into: Vec<Band> = bands.iter().map(|&(l, b, _, g)| (l % lots, b % groups.len(), g)).collect();
            let out: Vec<Band> = bands.iter().map(|&(_, b, p, g)| (b % groups.len(), p % places, g)).collect();
            let found = order(lots, &groups, places, &into, &out);
            let given = Order { lots: (0..lots).collect(), batches: (0..groups.len()).collect(), places: (0..places).collect() };
            prop_assert!(crossing(&found, &into, &out) <= crossing(&given, &into, &out));
            let mut sorted = found.lots.clone();
            sorted.sort_unstable();
            prop_assert_eq!(sorted, (0..lots).collect::<Vec<_>>());
            prop_assert!(found.batches.windows(2).all(|pair| groups[pair[0]] <= groups[pair[1]]));
        }
    }
}
