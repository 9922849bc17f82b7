//! The flow picture: lots at the left, batches by day in the middle, places at the right; width is
//! weight. On narrow windows the rows of [`super::flow_rows`] stand in its place.

use super::flow_order::{self, Order};
use super::{flow_rows, n};
use crate::part::Place;
use maud::{Markup, html};

/// Input of the picture. Bands name nodes by index.
#[derive(Debug, Clone, Default)]
pub struct Flow {
    /// Left column.
    pub lots: Vec<Node>,
    /// Middle column, in order of day.
    pub batches: Vec<Node>,
    /// Right column.
    pub places: Vec<PlaceNode>,
    /// Lot, batch, grams.
    pub into: Vec<(usize, usize, i64)>,
    /// Batch, place, grams.
    pub out: Vec<(usize, usize, i64)>,
    /// Lot, place, grams: what no batch takes.
    pub past: Vec<(usize, usize, i64)>,
}

/// A lot or a batch.
#[derive(Debug, Clone)]
pub struct Node {
    /// Name.
    pub title: String,
    /// Weight or containers, in words.
    pub detail: String,
    /// Day of a batch; empty for a lot.
    pub day: String,
}

/// A place at the right.
#[derive(Debug, Clone)]
pub struct PlaceNode {
    /// Which one.
    pub place: Place,
    /// Its weight in words.
    pub detail: String,
}

/// What the middle column calls food that no batch takes.
pub const NO_BATCH: &str = "No batch";

const WIDTH: f64 = 1120.0;
const LOT_X: f64 = 196.0;
const IN_X: f64 = 480.0;
const OUT_X: f64 = 716.0;
const PLACE_X: f64 = 946.0;
const LINE: f64 = 18.0;
/// Letters that a middle label holds on one line.
const LETTERS: usize = 25;

struct Laid {
    top: f64,
    tall: f64,
}

/// The same flow with a pass-through in the middle for everything that no batch takes.
fn with_passes(flow: &Flow) -> Flow {
    let mut all = flow.clone();
    for &(lot, place, grams) in &flow.past {
        let batch = all.batches.len();
        all.batches.push(Node {
            title: NO_BATCH.into(),
            detail: String::new(),
            day: "\u{2014}".into(),
        });
        all.into.push((lot, batch, grams));
        all.out.push((batch, place, grams));
    }
    all.into
        .retain(|band| band.0 < all.lots.len() && band.1 < all.batches.len() && band.2 > 0);
    all.out
        .retain(|band| band.0 < all.batches.len() && band.1 < all.places.len() && band.2 > 0);
    all
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

/// Draws the picture, wide and narrow. `weigh` says grams in both units.
pub fn draw(flow: &Flow, weigh: &dyn Fn(i64) -> String) -> Markup {
    if flow.lots.is_empty() {
        return html! {};
    }
    let all = with_passes(flow);
    html! {
        div.flow-wide { (wide(&all, &says(flow, weigh))) }
        div.narrow { (flow_rows::draw(&all, weigh)) }
    }
}

/// The picture in words: each lot's parts with their day, then each place's total.
pub fn says(flow: &Flow, weigh: &dyn Fn(i64) -> String) -> String {
    let mut text = String::new();
    for (index, lot) in flow.lots.iter().enumerate() {
        let mut parts: Vec<String> = flow
            .into
            .iter()
            .filter(|band| band.0 == index)
            .filter_map(|band| {
                flow.batches
                    .get(band.1)
                    .map(|batch| format!("{} to {} on {}", weigh(band.2), batch.title, batch.day))
            })
            .collect();
        parts.extend(
            flow.past
                .iter()
                .filter(|band| band.0 == index)
                .filter_map(|band| {
                    flow.places.get(band.1).map(|node| {
                        format!("{} without a batch to {}", weigh(band.2), node.place.word())
                    })
                }),
        );
        text.push_str(&format!(
            "{}: {}. ",
            lot.title,
            if parts.is_empty() {
                "nothing planned".into()
            } else {
                parts.join(", ")
            }
        ));
    }
    let places: Vec<String> = flow
        .places
        .iter()
        .map(|node| format!("{} {}", node.place.word(), node.detail))
        .collect();
    text.push_str(&format!("Places: {}.", places.join(", ")));
    text
}

fn wide(flow: &Flow, says: &str) -> Markup {
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

    let total = |bands: &[(usize, usize, i64)],
                 of: &dyn Fn(&(usize, usize, i64)) -> usize,
                 index: usize|
     -> f64 {
        bands
            .iter()
            .filter(|band| of(band) == index)
            .map(|band| thick(band.2))
            .sum()
    };
    let left = |band: &(usize, usize, i64)| band.0;
    let right = |band: &(usize, usize, i64)| band.1;

    // Middle column: days one after the other, each block as tall as its bands or its words.
    let mut batches: Vec<Laid> = (0..flow.batches.len())
        .map(|_| Laid {
            top: 0.0,
            tall: 0.0,
        })
        .collect();
    let mut headings = Vec::new();
    let mut y = 26.0;
    let mut day = usize::MAX;
    for &index in &order.batches {
        if groups[index] != day {
            day = groups[index];
            if y > 26.0 {
                y += 12.0;
            }
            if names[day] != "\u{2014}" {
                headings.push((y + 6.0, names[day]));
                y += 18.0;
            }
        }
        let words = label(&flow.batches[index]).len() as f64 * LINE + 8.0;
        let bands = total(&flow.into, &right, index).max(total(&flow.out, &left, index));
        let tall = if flow.batches[index].title == NO_BATCH {
            bands.max(LINE)
        } else {
            bands.max(words)
        };
        batches[index] = Laid { top: y, tall };
        y += tall + 9.0;
    }
    let bottom = y;

    let centre = |laid: &Laid| laid.top + laid.tall / 2.0;
    let beside = |column: &[usize],
                  tall: &dyn Fn(usize) -> f64,
                  wants: &dyn Fn(usize) -> f64,
                  pitch: f64|
     -> Vec<Laid> {
        let mut laid: Vec<Laid> = column
            .iter()
            .map(|_| Laid {
                top: 0.0,
                tall: 0.0,
            })
            .collect();
        let mut at = 26.0;
        for &index in column {
            let height = tall(index);
            // Words need room above and below a thin bar.
            let spare = ((pitch - height) / 2.0).max(0.0);
            let top = (wants(index) - height / 2.0).max(at + spare);
            laid[index] = Laid { top, tall: height };
            at = top + height + spare + 8.0;
        }
        let mut limit = bottom.max(at.min(bottom + 1.0));
        for &index in column.iter().rev() {
            let spare = ((pitch - laid[index].tall) / 2.0).max(0.0);
            let lowest = limit - spare - laid[index].tall;
            if laid[index].top > lowest {
                laid[index].top = lowest;
            }
            limit = laid[index].top - spare - 8.0;
        }
        // Where the column is taller than the middle, it starts at the top and runs longer.
        let mut at = 26.0;
        for &index in column {
            let spare = ((pitch - laid[index].tall) / 2.0).max(0.0);
            laid[index].top = laid[index].top.max(at + spare);
            at = laid[index].top + laid[index].tall + spare + 8.0;
        }
        laid
    };
    let mean = |pairs: Vec<(f64, i64)>| -> f64 {
        let weight: f64 = pairs.iter().map(|pair| pair.1 as f64).sum();
        pairs.iter().map(|pair| pair.0 * pair.1 as f64).sum::<f64>() / weight.max(1.0)
    };
    let lots = beside(
        &order.lots,
        &|index| total(&flow.into, &left, index),
        &|index| {
            mean(
                flow.into
                    .iter()
                    .filter(|band| band.0 == index)
                    .map(|band| (centre(&batches[band.1]), band.2))
                    .collect(),
            )
        },
        LINE * 2.0 + 4.0,
    );
    let places = beside(
        &order.places,
        &|index| total(&flow.out, &right, index),
        &|index| {
            mean(
                flow.out
                    .iter()
                    .filter(|band| band.1 == index)
                    .map(|band| (centre(&batches[band.0]), band.2))
                    .collect(),
            )
        },
        LINE * 2.0 + 4.0,
    );
    let height = [&lots, &places]
        .into_iter()
        .flatten()
        .map(|laid| laid.top + laid.tall + 24.0)
        .fold(bottom, f64::max);

    let into = bands(&flow.into, &order, true, &thick, &lots, &batches);
    let mut out = bands(&flow.out, &order, false, &thick, &batches, &places);
    // The thinnest is drawn last, so that no broad band hides it.
    out.sort_by(|a, b| b.thick.total_cmp(&a.thick));

    html! {
        svg viewBox=(format!("0 0 {} {}", n(WIDTH), n(height))) width="100%" role="img" aria-label=(says) {
            @for band in &into { path.band d=(band.path(LOT_X, IN_X)) {} }
            @for band in &out {
                @let place = flow.places[band.to].place;
                @if flow.batches[band.from].title == NO_BATCH {
                    path.left d=(band.path(OUT_X, PLACE_X)) {}
                } @else {
                    path.out.(place.ink()) fill=(place.hatching()) d=(band.path(OUT_X, PLACE_X)) {}
                }
            }
            text.end x=(n(LOT_X - 10.0)) y="12" { "lots" }
            text x=(n(PLACE_X + 14.0)) y="12" { "places" }
            @for (y, name) in &headings {
                text.tb.day x=(n(IN_X + 12.0)) y=(n(*y)) { (name) }
            }
            @for (index, lot) in flow.lots.iter().enumerate() {
                @let laid = &lots[index];
                rect.on-ink x=(n(LOT_X - 4.0)) y=(n(laid.top)) width="4" height=(n(laid.tall)) {}
                (beside_label(&wrap(&lot.title, 21), &lot.detail, LOT_X - 12.0, centre(laid), "end"))
            }
            @for (index, batch) in flow.batches.iter().enumerate() {
                @let laid = &batches[index];
                @let (taken, given) = (total(&flow.into, &right, index), total(&flow.out, &left, index));
                rect.on-ink x=(n(IN_X)) y=(n(centre(laid) - taken / 2.0)) width="4" height=(n(taken)) {}
                rect.on-ink x=(n(OUT_X - 4.0)) y=(n(centre(laid) - given / 2.0)) width="4" height=(n(given)) {}
                @if batch.title == NO_BATCH {
                    path.left d=(format!("M{} {y}H{}", n(IN_X + 8.0), n(OUT_X - 8.0), y = n(centre(laid) + 7.0))) {}
                    text x=(n(IN_X + 12.0)) y=(n(centre(laid) + 1.0)) { (NO_BATCH) }
                } @else {
                    (middle_label(&label(batch), centre(laid)))
                }
            }
            @for (index, node) in flow.places.iter().enumerate() {
                @let laid = &places[index];
                g.(node.place.ink()) {
                    rect.post x=(n(PLACE_X)) y=(n(laid.top)) width="5" height=(n(laid.tall)) {}
                    svg.mk.place x=(n(PLACE_X + 14.0)) y=(n(centre(laid) - 13.0)) width="24" height="24" viewBox="0 0 24 24" {
                        use href=(format!("#m-{}", node.place.key())) {}
                    }
                    text.t.tc x=(n(PLACE_X + 46.0)) y=(n(centre(laid) - 2.0)) { (node.place.word()) }
                    text x=(n(PLACE_X + 46.0)) y=(n(centre(laid) + 15.0)) { (node.detail) }
                }
            }
        }
    }
}

/// A band between two columns, ready to draw.
struct Drawn {
    from: usize,
    to: usize,
    start: f64,
    end: f64,
    thick: f64,
}

impl Drawn {
    fn path(&self, left: f64, right: f64) -> String {
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

/// A middle label's lines: the title, wrapped, then the detail.
fn label(batch: &Node) -> Vec<(String, bool)> {
    let mut lines: Vec<(String, bool)> = wrap(&batch.title, LETTERS)
        .into_iter()
        .map(|line| (line, true))
        .collect();
    if !batch.detail.is_empty() {
        lines.extend(
            wrap(&batch.detail, LETTERS + 5)
                .into_iter()
                .take(2)
                .map(|line| (line, false)),
        );
    }
    lines
}

fn middle_label(lines: &[(String, bool)], centre: f64) -> Markup {
    let first = centre - (lines.len() as f64 - 1.0) * LINE / 2.0 + 5.0;
    html! {
        @for (index, (line, title)) in lines.iter().enumerate() {
            text.t[*title] x=(n(IN_X + 12.0)) y=(n(first + index as f64 * LINE)) { (line) }
        }
    }
}

fn beside_label(title: &[String], detail: &str, x: f64, centre: f64, anchor: &str) -> Markup {
    let lines = title.len() as f64 + 1.0;
    let first = centre - (lines - 1.0) * LINE / 2.0 + 5.0;
    html! {
        @for (index, line) in title.iter().enumerate() {
            text class=(format!("t {anchor}")) x=(n(x)) y=(n(first + index as f64 * LINE)) { (line) }
        }
        text class=(anchor) x=(n(x)) y=(n(first + title.len() as f64 * LINE)) { (detail) }
    }
}

/// Breaks words into lines of at most `letters`; a single longer word stays whole.
fn wrap(words: &str, letters: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in words.split_whitespace() {
        match lines.last_mut() {
            Some(line) if line.chars().count() + 1 + word.chars().count() <= letters => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}
