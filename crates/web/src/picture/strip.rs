//! Deadline strip: a bar for each lot, running from now to the post where it may turn.

use super::across;
use crate::part::Place;
use maud::{Markup, html};

/// The days along the top. All strips of one list share one axis.
#[derive(Debug, Clone)]
pub struct Axis {
    /// Day names in order, the first is today: "Thu 27".
    pub days: Vec<String>,
    /// How much of today is over, 0 to 1.
    pub now: f64,
}

/// What a bar says by its look.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Look {
    /// Due today or tomorrow, or past: tall, full ink.
    Due,
    /// Keeps for now: slim, in the hatching of where it lies.
    Keeps,
    /// Not ready yet: empty until it is, then as `Keeps`.
    Ripening,
}

/// One lot's bar. Days are counted from the start of today; an edge on day 2 is meant as the end
/// of that day.
#[derive(Debug, Clone)]
pub struct Bar {
    /// Look of the bar.
    pub look: Look,
    /// Where it lies, for the hatching.
    pub place: Place,
    /// Day on which it is usable at all; 0 when it is ready.
    pub ready: i64,
    /// Day of the early edge; negative when past.
    pub early: i64,
    /// Day of the late edge.
    pub late: i64,
    /// Day to look again, if one is set.
    pub look_again: Option<i64>,
    /// The whole in words, with the numbers.
    pub says: String,
}

impl Axis {
    fn share(&self, days: f64) -> f64 {
        (days / self.days.len().max(1) as f64).clamp(0.0, 1.0)
    }
}

/// The axis with its day names, drawn once above the list.
pub fn axis(axis: &Axis) -> Markup {
    html! {
        div.axis {
            svg aria-hidden="true" {
                @for (index, day) in axis.days.iter().enumerate() {
                    @let at = across(axis.share(index as f64));
                    @let (name, rest) = day.split_once(' ').unwrap_or((day, ""));
                    line.hair2 x1=(at) x2=(at) y1="20" y2="32" {}
                    text x=(at) dx="4" y="16" { tspan { (name) } @if !rest.is_empty() { tspan.roomy { " " (rest) } } }
                }
            }
        }
    }
}

/// One lot's strip.
pub fn bar(axis: &Axis, bar: &Bar) -> Markup {
    let now = axis.share(axis.now);
    // An edge is the end of its day; a lot past its time still shows a sliver, so that it is seen.
    let early = axis.share(bar.early as f64 + 1.0).max(now + 0.012);
    let late = axis.share(bar.late as f64 + 1.0).max(early);
    let beyond = bar.early + 1 > axis.days.len() as i64;
    let (top, height) = if bar.look == Look::Due {
        (6, 25)
    } else {
        (13, 11)
    };
    let ready = if bar.look == Look::Ripening {
        axis.share(bar.ready as f64).clamp(now, early)
    } else {
        now
    };
    html! {
        svg.strip role="img" aria-label=(bar.says) {
            @for day in 1..axis.days.len() {
                @let at = across(axis.share(day as f64));
                line.hair x1=(at) x2=(at) y1="0" y2="100%" {}
            }
            @if late > early {
                rect.bar.maybe x=(across(early)) width=(across(late - early)) y=(top) height=(height) {}
            }
            @if ready > now {
                rect.bar.unripe x=(across(now)) width=(across(ready - now)) y="16" height="5" {}
            }
            @if early > ready {
                @if bar.look == Look::Due {
                    rect.bar.full x=(across(ready)) width=(across(early - ready)) y=(top) height=(height) {}
                } @else {
                    rect.bar fill=(bar.place.hatching()) x=(across(ready)) width=(across(early - ready)) y=(top) height=(height) {}
                }
            }
            @if beyond {
                svg x="100%" { path.bar.on-slip d="M-3 9L5 18.5L-3 28" {} }
            } @else {
                rect.madf x=(across(early)) width="6" y="0" height="37" {}
            }
            @if let Some(again) = bar.look_again.filter(|again| *again >= 0 && (*again as usize) < axis.days.len()) {
                // A small open eye of a mark: a circle on the bar's line at noon of the day.
                svg x=(across(axis.share(again as f64 + 0.5))) { circle.pen.on-slip cx="0" cy="18.5" r="4" {} }
            }
            line.nowl x1=(across(now)) x2=(across(now)) y1="0" y2="100%" {}
        }
    }
}

/// What the strip's marks mean; `look_again` when bars carry that mark.
pub fn key(places: &[Place], look_again: bool) -> Markup {
    html! {
        ul.key aria-label="Marks on the strip" {
            li { svg { rect.bar.full x="1" y="2" width="33" height="14" {} } "due today or tomorrow" }
            @for place in places {
                li { svg { rect.bar fill=(place.hatching()) x="1" y="4" width="33" height="10" {} } "keeping, " (place.word()) }
            }
            li { svg { rect.bar.maybe x="1" y="4" width="33" height="10" {} } "perhaps still good" }
            li { svg { rect.bar.unripe x="1" y="7" width="33" height="5" {} } "ripening" }
            @if look_again { li { svg { circle.pen.on-slip cx="17" cy="9" r="4" {} } "look again" } }
            li { svg { rect.madf x="14" y="0" width="6" height="18" {} } "first day it may turn" }
        }
    }
}
