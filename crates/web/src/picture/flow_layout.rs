//! Where the flow picture's nodes and bands stand: columns, heights, and the stacking of bands.

use super::flow::{Flow, NO_BATCH, Node};
use super::flow_order::{self, Band, Order};
use super::n;

/// Height of one line of words.
pub const LINE: f64 = 18.0;

/// Where the columns begin.
const TOP: f64 = 26.0;

/// Room between two nodes of a column.
const GAP: f64 = 8.0;

/// A node's place in its column.
#[derive(Debug, Clone, Copy, Default)]
pub struct Laid {
    /// Upper edge.
    pub top: f64,
    /// Height.
    pub tall: f64,
}

impl Laid {
    /// Its middle.
    pub fn centre(&self) -> f64 {
        self.top + self.tall / 2.0
    }
}

/// Everything with its place.
pub struct Layout {
    /// By index of the lot.
    pub lots: Vec<Laid>,
    /// By index of the batch.
    pub batches: Vec<Laid>,
    /// By index of the place.
    pub places: Vec<Laid>,
    /// Height and words of each day's heading.
    pub headings: Vec<(f64, String)>,
    /// Bands from lots to batches.
    pub into: Vec<Drawn>,
    /// Bands from batches to places, the thinnest last.
    pub out: Vec<Drawn>,
    /// Height of the whole.
    pub height: f64,
}

/// A band between two columns, ready to draw.
pub struct Drawn {
    /// Index of the left node.
    pub from: usize,
    /// Index of the right node.
    pub to: usize,
    /// Upper edge at the left.
    pub start: f64,
    /// Upper edge at the right.
    pub end: f64,
    /// Thickness.
    pub thick: f64,
}

impl Drawn {
    /// The closed path between two columns.
    pub fn path(&self, left: f64, right: f64) -> String {
        let half = (left + right) / 2.0;
        let (a, b, t) = (self.start, self.end, self.thick);
        format!(
            "M{l} {a0}C{m} {a0} {m} {b0} {r} {b0}V{b1}C{m} {b1} {m} {a1} {l} {a1}z",
            l = n(left),
            r = n(right),
            m = n(half),
            a0 = n(a),
            a1 = n(a + t),
            b0 = n(b),
            b1 = n(b + t),
        )
    }
}

/// Stacks bands at both ends in the order of what they lead to.
fn bands(
    list: &[(usize, usize, i64)],
    order: &Order,
    first: bool,
    thick: &dyn Fn(i64) -> f64,
    left: &[Laid],
    right: &[Laid],
) -> Vec<Drawn> {
    let at = |column: &[usize], index: usize| {
        column.iter().position(|&other| other == index).unwrap_or(0)
    };
    let (from, to) = if first {
        (&order.lots, &order.batches)
    } else {
        (&order.batches, &order.places)
    };
    let mut drawn: Vec<Drawn> = list
        .iter()
        .map(|&(a, b, grams)| Drawn {
            from: a,
            to: b,
            start: 0.0,
            end: 0.0,
            thick: thick(grams),
        })
        .collect();
    for (side, laid) in [(true, left), (false, right)] {
        for (index, node) in laid.iter().enumerate() {
            let mut here: Vec<usize> = (0..drawn.len())
                .filter(|&band| {
                    if side {
                        drawn[band].from == index
                    } else {
                        drawn[band].to == index
                    }
                })
                .collect();
            here.sort_by_key(|&band| {
                if side {
                    at(to, drawn[band].to)
                } else {
                    at(from, drawn[band].from)
                }
            });
            let sum: f64 = here.iter().map(|&band| drawn[band].thick).sum();
            let mut y = node.top + (node.tall - sum) / 2.0;
            for band in here {
                if side {
                    drawn[band].start = y
                } else {
                    drawn[band].end = y
                }
                y += drawn[band].thick;
            }
        }
    }
    drawn
}

/// The height that some bands take together.
pub fn tall(bands: &[Drawn], which: impl Fn(&Drawn) -> bool) -> f64 {
    bands
        .iter()
        .filter(|band| which(band))
        .map(|band| band.thick)
        .sum()
}

/// The days of the middle column in order, and each batch's day by index into them.
fn days(batches: &[Node]) -> (Vec<&str>, Vec<usize>) {
    let mut names: Vec<&str> = Vec::new();
    let groups = batches
        .iter()
        .map(|batch| {
            names
                .iter()
                .position(|name| *name == batch.day)
                .unwrap_or_else(|| {
                    names.push(&batch.day);
                    names.len() - 1
                })
        })
        .collect();
    (names, groups)
}

impl Layout {
    /// Lays a flow out; `lines` tells how many lines of words a batch needs, `beside_lines` a lot.
    pub fn of(
        flow: &Flow,
        lines: &dyn Fn(&Node) -> usize,
        beside_lines: &dyn Fn(&Node) -> usize,
    ) -> Layout {
        let (names, groups) = days(&flow.batches);
        let order = flow_order::order(
            flow.lots.len(),
            &groups,
            flow.places.len(),
            &flow.into,
            &flow.out,
        );
        let weight: i64 = flow.into.iter().map(|band| band.2).sum();
        // Nine pixels to a kilogram, less when the whole would grow taller than a tall screen.
        let scale = (9.0 / 1000.0_f64).min(620.0 / weight.max(1) as f64);
        let thick = |grams: i64| (grams as f64 * scale).max(1.6);
        let sum = |bands: &[Band], left: bool, index: usize| -> f64 {
            bands
                .iter()
                .filter(|band| {
                    if left {
                        band.0 == index
                    } else {
                        band.1 == index
                    }
                })
                .map(|band| thick(band.2))
                .sum()
        };

        // Middle column: days one after the other, each block as tall as its bands or its words.
        let mut batches = vec![Laid::default(); flow.batches.len()];
        let mut headings = Vec::new();
        let mut y = TOP;
        let mut day = usize::MAX;
        for &index in &order.batches {
            let passes = flow.batches[index].title == NO_BATCH;
            if groups[index] != day {
                day = groups[index];
                if y > TOP {
                    y += 12.0;
                }
                if !passes {
                    headings.push((y + 6.0, names[day].to_owned()));
                    y += LINE;
                }
            }
            let bands = sum(&flow.into, false, index).max(sum(&flow.out, true, index));
            let words = if passes {
                LINE
            } else {
                lines(&flow.batches[index]) as f64 * LINE + 8.0
            };
            batches[index] = Laid {
                top: y,
                tall: bands.max(words),
            };
            y += batches[index].tall + GAP;
        }
        let bottom = y;

        let beside = |bands: &[Band],
                      left: bool,
                      column: &[usize],
                      words: &dyn Fn(usize) -> usize|
         -> Vec<Laid> {
            let mut wants = vec![Laid::default(); column.len()];
            for &index in column {
                let mine = bands.iter().filter(|band| {
                    if left {
                        band.0 == index
                    } else {
                        band.1 == index
                    }
                });
                let (moment, weight) = mine.fold((0.0, 0.0), |(moment, weight), band| {
                    let other = if left { band.1 } else { band.0 };
                    (
                        moment + batches[other].centre() * band.2 as f64,
                        weight + band.2 as f64,
                    )
                });
                let tall = sum(bands, left, index);
                let centre = if weight > 0.0 { moment / weight } else { TOP };
                wants[index] = Laid {
                    top: centre - tall / 2.0,
                    tall,
                };
            }
            settle(column, wants, words, bottom)
        };
        let lots = beside(&flow.into, true, &order.lots, &|lot| {
            beside_lines(&flow.lots[lot])
        });
        let places = beside(&flow.out, false, &order.places, &|_| 2);
        let height = lots
            .iter()
            .chain(&places)
            .map(|laid| laid.top + laid.tall + 24.0)
            .fold(bottom, f64::max);
        let into = bands(&flow.into, &order, true, &thick, &lots, &batches);
        let mut out = bands(&flow.out, &order, false, &thick, &batches, &places);
        // The thinnest is drawn last, so that no broad band hides it.
        out.sort_by(|a, b| b.thick.total_cmp(&a.thick));
        Layout {
            lots,
            batches,
            places,
            headings,
            into,
            out,
            height,
        }
    }
}

/// Moves nodes as little as need be so that none stands in another and each has room for its lines
/// of words. A column taller than `bottom` runs longer.
fn settle(
    column: &[usize],
    mut laid: Vec<Laid>,
    words: &dyn Fn(usize) -> usize,
    bottom: f64,
) -> Vec<Laid> {
    let spare = |index: usize, laid: &[Laid]| {
        ((LINE * words(index) as f64 + 4.0 - laid[index].tall) / 2.0).max(0.0)
    };
    let downward = |laid: &mut [Laid]| {
        let mut at = TOP;
        for &index in column {
            let spare = spare(index, laid);
            laid[index].top = laid[index].top.max(at + spare);
            at = laid[index].top + laid[index].tall + spare + GAP;
        }
    };
    downward(&mut laid);
    let mut limit = bottom;
    for &index in column.iter().rev() {
        let spare = spare(index, &laid);
        laid[index].top = laid[index].top.min(limit - spare - laid[index].tall);
        limit = laid[index].top - spare - GAP;
    }
    downward(&mut laid);
    laid
}

#[cfg(test)]
mod tests {
    use super::{GAP, Layout};
    use crate::part::Place;
    use crate::picture::flow::{Flow, Node, PlaceNode};
    use proptest::prelude::*;

    fn node(name: usize, day: usize) -> Node {
        Node {
            title: format!("n{name}"),
            detail: String::new(),
            day: format!("day {day}"),
        }
    }

    proptest! {
        #[test]
        fn no_node_stands_in_another_and_every_band_keeps_within_its_nodes(
            lots in 1usize..9, batches in 1usize..9, places in 1usize..7,
            bands in prop::collection::vec((0usize..9, 0usize..9, 0usize..7, 1i64..40_000), 1..25),
        ) {
            let flow = Flow {
                lots: (0..lots).map(|lot| node(lot, 0)).collect(),
                batches: (0..batches).map(|batch| node(batch, batch / 3)).collect(),
                places: (0..places).map(|_| PlaceNode { place: Place::Shelf, detail: String::new() }).collect(),
                into: bands.iter().map(|&(l, b, _, g)| (l % lots, b % batches, g)).collect(),
                out: bands.iter().map(|&(_, b, p, g)| (b % batches, p % places, g)).collect(),
                past: vec![],
            };
            let layout = Layout::of(&flow, &|_| 2, &|_| 3);
            for column in [&layout.lots, &layout.batches, &layout.places] {
                let mut sorted = column.clone();
                sorted.sort_by(|a, b| a.top.total_cmp(&b.top));
                for pair in sorted.windows(2) {
                    prop_assert!(pair[0].top + pair[0].tall + GAP <= pair[1].top + 0.001, "{pair:?}");
                }
                for laid in column {
                    prop_assert!(laid.top >= 0.0 && laid.top + laid.tall <= layout.height);
                }
            }
            for band in &layout.out {
                let (from, to) = (layout.batches[band.from], layout.places[band.to]);
                prop_assert!(band.start >= from.top - 0.001 && band.start + band.thick <= from.top + from.tall + 0.001);
                prop_assert!(band.end >= to.top - 0.001 && band.end + band.thick <= to.top + to.tall + 0.001);
            }
        }
    }
}
