//! The flow for a phone: a row for each batch under its day, with a bar on one common scale.

use super::across;
use super::flow::{Flow, NO_BATCH};
use maud::{Markup, html};

/// Draws the rows. Everything a row's bar shows is written below it.
pub fn draw(flow: &Flow, weigh: &dyn Fn(i64) -> String) -> Markup {
    let taken = |batch: usize| -> i64 {
        flow.into
            .iter()
            .filter(|band| band.1 == batch)
            .map(|band| band.2)
            .sum()
    };
    let given = |batch: usize| -> Vec<(usize, i64)> {
        flow.out
            .iter()
            .filter(|band| band.0 == batch)
            .map(|band| (band.1, band.2))
            .collect()
    };
    let most = (0..flow.batches.len())
        .map(|batch| taken(batch).max(given(batch).iter().map(|part| part.1).sum()))
        .max()
        .unwrap_or(1)
        .max(1);
    let share = |grams: i64| grams as f64 / most as f64;
    html! {
        @for (batch, node) in flow.batches.iter().enumerate() {
            @if batch == 0 || flow.batches[batch - 1].day != node.day {
                h3.flow-day { @if node.title == NO_BATCH { "What no batch takes" } @else { (node.day) } }
            }
            @let from: Vec<String> = flow.into.iter().filter(|band| band.1 == batch).map(|band| format!("{} {}", weigh(band.2), flow.lots[band.0].title)).collect();
            div.flow-row {
                p.name {
                    span { @if node.title == NO_BATCH { (from.join(", ")) } @else { (node.title) } }
                    b { (node.detail) }
                }
                @if node.title != NO_BATCH { p.note { "from " (from.join(", ")) } }
                (bar(&given(batch), flow, &share))
                p.loose.note {
                    @for (place, grams) in given(batch) {
                        @let place = flow.places[place].place;
                        (place.tag(&format!("{} {}", place.word(), weigh(grams))))
                    }
                }
            }
        }
    }
}

fn bar(parts: &[(usize, i64)], flow: &Flow, share: &dyn Fn(i64) -> f64) -> Markup {
    let mut at = 0.0;
    let mut drawn = Vec::new();
    for &(place, grams) in parts {
        let wide = share(grams).max(0.006);
        drawn.push((flow.places[place].place, at, wide));
        at += wide;
    }
    html! {
        svg aria-hidden="true" {
            @for (place, at, wide) in drawn {
                rect.out.(place.ink()) fill=(place.hatching()) x=(across(at)) y="1" width=(across(wide)) height="22" {}
            }
        }
    }
}
