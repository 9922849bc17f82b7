//! Counter: what is on the counter and how long will it keep?

use super::{both, weigh_in, whole};
use crate::frame::Frame;
use crate::part::{Mark, Opening, Place, Section, opening, spread};
use crate::picture::strip::{self, Axis, Bar, Look};
use app::view::counter::{CounterView, LotView};
use maud::{Markup, html};

/// Draws the page; `minute` is the minute of today, for the now-line.
pub fn draw(frame: &Frame, view: &CounterView, minute: i64) -> Markup {
    whole(
        frame,
        "Counter",
        Section::Counter,
        html! {
            (opening(Opening {
                day: &view.today,
                verge: html! {},
                question: "What is on the counter and how long will it keep?",
                answer: &view.answer,
                lead: html! { (view.lead) },
                actions: html! {
                    @if view.lots.is_empty() {
                        a.btn.first href="#weigh-in" { "Weigh a picking in" }
                    } @else {
                        a.btn.first href="/plan" { "What becomes what" }
                        a.btn href="#weigh-in" { "Weigh in" }
                    }
                },
            }))
            @if !view.reminders.is_empty() {
                (spread("Before the next load", html! { p { "A dial gauge is tested every year." } }, html! {
                    ul.dash { @for reminder in &view.reminders { li { (reminder) } } }
                    p { a.go href="/house#gauges" { "Enter a test" } }
                }))
            }
            @if !view.lots.is_empty() {
                (spread("By deadline", verge(), list(view, minute)))
            }
            (weigh_in::draw(frame, &view.form))
        },
    )
}

fn verge() -> Markup {
    html! {
        p { "A bar runs from now to the post: the first day the lot may turn. The dashed part is how late it could be." }
        p { "Full ink is due today or tomorrow. Plans use the post, never the dashed part." }
    }
}

fn list(view: &CounterView, minute: i64) -> Markup {
    let axis = Axis {
        days: view.strip_labels.clone(),
        now: (minute as f64 / 1440.0).clamp(0.0, 1.0),
    };
    let mut places: Vec<Place> = view
        .lots
        .iter()
        .filter(|lot| look(lot) != Look::Due)
        .map(|lot| Place::of(&lot.place))
        .collect();
    places.sort_unstable();
    places.dedup();
    html! {
        (strip::axis(&axis))
        ol.ruled.lots {
            @for (index, lot) in view.lots.iter().enumerate() { (line(index + 1, lot, &axis)) }
        }
        (strip::key(&places, false))
    }
}

/// A lot due today or tomorrow, or past its time, stands in full ink.
fn look(lot: &LotView) -> Look {
    match lot.state_key.as_str() {
        "ripening" => Look::Ripening,
        "due" | "past" => Look::Due,
        _ if lot.early_in <= 1 => Look::Due,
        _ => Look::Keeps,
    }
}

/// The lot's bar as the strip takes it.
pub fn bar(lot: &LotView) -> Bar {
    Bar {
        look: look(lot),
        place: Place::of(&lot.place),
        ready: lot.ready_in,
        early: lot.early_in,
        late: lot.late_in,
        look_again: None,
        says: format!(
            "{}, {}: {}, {}. {}.",
            lot.title, lot.weight, lot.state, lot.keeps, lot.look_again
        ),
    }
}

/// State with its mark, and how long it keeps in words.
pub fn state(lot: &LotView) -> Markup {
    let urgent = look(lot) == Look::Due;
    html! {
        p.loose {
            span.mark.state.due[urgent] { (if urgent { Mark::Due } else { Mark::Wait }) (lot.state) }
            span.note { (lot.keeps) @if !lot.look_again.is_empty() { "; " (lot.look_again) } }
        }
    }
}

/// Why a lot keeps as long as it does, what is closed to it and why, and where that was read.
pub fn why(lot: &LotView) -> Markup {
    html! {
        @if !lot.closed.is_empty() { ul.dash { @for closed in &lot.closed { li { (closed) } } } }
        p.src { "Weight: " (lot.how_weighed) "." @if !lot.basis.is_empty() { " Days: " (lot.basis) "." } @if !lot.source.is_empty() { " " (lot.source) } }
    }
}

/// "not for jars, the dryer" of the ways that are closed, without their reasons.
fn closed_ways(closed: &[String]) -> String {
    let mut ways: Vec<&str> = Vec::new();
    let mut others: Vec<&str> = Vec::new();
    for line in closed {
        match line
            .strip_prefix("not for ")
            .and_then(|rest| rest.split_once(':'))
        {
            Some((way, _)) => ways.push(way),
            None => others.push(line),
        }
    }
    if !ways.is_empty() && !others.is_empty() {
        return format!("not for {}; {}", ways.join(", "), others.join("; "));
    }
    if ways.is_empty() {
        others.join("; ")
    } else {
        format!("not for {}", ways.join(", "))
    }
}

fn line(rank: usize, lot: &LotView, axis: &Axis) -> Markup {
    let urgent = look(lot) == Look::Due;
    html! {
        li.calm[!urgent] id=(format!("lot-{}", lot.id)) {
            span.rank { (rank) }
            div.lot {
                h3 { (lot.title) }
                p { (both(&lot.weight)) }
                p.note { @if !lot.variety.is_empty() { (lot.variety) ", " } (lot.picked) }
                p.note { (Place::of(&lot.place).tag(&lot.where_it_lies)) }
            }
            div.run {
                (strip::bar(axis, &bar(lot)))
                (state(lot))
                @if !lot.reason.is_empty() { p { (lot.reason) } }
                @if !lot.closed.is_empty() { p.mark.state.held { (Mark::Held) span { (closed_ways(&lot.closed)) } } }
                div.loose {
                    a.go href=(format!("/counter/{}", lot.id)) { "Answer, move or sort out" span.unseen { ": " (lot.title) } }
                    details {
                        summary { "Why, and where it was read" span.unseen { ": " (lot.title) } }
                        (why(lot))
                    }
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::closed_ways;

    #[test]
    fn closed_ways_are_named_once_and_other_reasons_are_kept() {
        let list = |lines: &[&str]| {
            lines
                .iter()
                .map(|line| (*line).to_owned())
                .collect::<Vec<_>>()
        };
        assert_eq!(
            closed_ways(&list(&[
                "not for jars: overripe",
                "not for the dryer: overripe"
            ])),
            "not for jars, the dryer"
        );
        assert_eq!(
            closed_ways(&list(&["not for jars: overripe", "frost: answer first"])),
            "not for jars; frost: answer first"
        );
        assert_eq!(
            closed_ways(&list(&["frost: answer first"])),
            "frost: answer first"
        );
    }
}
