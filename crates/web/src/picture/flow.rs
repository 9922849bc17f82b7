//! The flow picture: lots at the left, batches by day in the middle, places at the right; width is
//! weight. On narrow windows the rows of [`super::flow_rows`] stand in its place.

use super::flow_layout::{LINE, Layout, tall};
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
const LOT_X: f64 = 222.0;
const IN_X: f64 = 480.0;
const OUT_X: f64 = 716.0;
const PLACE_X: f64 = 946.0;
/// Letters that a middle label holds on one line.
const LETTERS: usize = 23;
/// Letters that a lot's label holds on one line.
const LOT_LETTERS: usize = 23;

/// The same flow with one pass-through in the middle for each place that food reaches without a batch.
fn with_passes(flow: &Flow) -> Flow {
    let mut all = flow.clone();
    for place in 0..flow.places.len() {
        let here: Vec<_> = flow
            .past
            .iter()
            .filter(|band| band.1 == place && band.2 > 0)
            .collect();
        if here.is_empty() {
            continue;
        }
        let batch = all.batches.len();
        all.batches.push(Node {
            title: NO_BATCH.into(),
            detail: String::new(),
            day: "\u{2014}".into(),
        });
        all.into
            .extend(here.iter().map(|band| (band.0, batch, band.2)));
        all.out
            .push((batch, place, here.iter().map(|band| band.2).sum()));
    }
    all.into
        .retain(|band| band.0 < all.lots.len() && band.1 < all.batches.len() && band.2 > 0);
    all.out
        .retain(|band| band.0 < all.batches.len() && band.1 < all.places.len() && band.2 > 0);
    all
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
    let Layout {
        lots,
        batches,
        places,
        headings,
        into,
        out,
        height,
    } = Layout::of(flow, &|batch| label(batch).len(), &|lot| {
        wrap(&lot.title, LOT_LETTERS).len() + 1
    });
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
                (beside_label(&wrap(&lot.title, LOT_LETTERS), &lot.detail, LOT_X - 12.0, laid.centre(), "end"))
            }
            @for (index, batch) in flow.batches.iter().enumerate() {
                @let laid = &batches[index];
                @let (taken, given) = (tall(&into, |band| band.to == index), tall(&out, |band| band.from == index));
                rect.on-ink x=(n(IN_X)) y=(n(laid.centre() - taken / 2.0)) width="4" height=(n(taken)) {}
                rect.on-ink x=(n(OUT_X - 4.0)) y=(n(laid.centre() - given / 2.0)) width="4" height=(n(given)) {}
                @if batch.title == NO_BATCH {
                    path.left d=(format!("M{} {y}H{}", n(IN_X + 8.0), n(OUT_X - 8.0), y = n(laid.centre() + 7.0))) {}
                    text x=(n(IN_X + 12.0)) y=(n(laid.centre() + 1.0)) { (NO_BATCH) }
                } @else {
                    (middle_label(&label(batch), laid.centre()))
                }
            }
            @for (index, node) in flow.places.iter().enumerate() {
                @let laid = &places[index];
                g.(node.place.ink()) {
                    rect.post x=(n(PLACE_X)) y=(n(laid.top)) width="5" height=(n(laid.tall)) {}
                    svg.mk.place x=(n(PLACE_X + 14.0)) y=(n(laid.centre() - 13.0)) width="24" height="24" viewBox="0 0 24 24" {
                        use href=(format!("#m-{}", node.place.key())) {}
                    }
                    text.t.tc x=(n(PLACE_X + 46.0)) y=(n(laid.centre() - 2.0)) { (node.place.word()) }
                    text x=(n(PLACE_X + 46.0)) y=(n(laid.centre() + 15.0)) { (node.detail) }
                }
            }
        }
    }
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
