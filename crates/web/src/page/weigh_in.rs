//! The form that weighs a picking in: for thumbs and gloves, typing only where nothing else will do.

use super::pairs;
use crate::form::Filled;
use crate::frame::Frame;
use crate::part::field::{Field, send};
use crate::part::spread;
use app::view::counter::{HistoryLine, PickingForm};
use maud::{Markup, html};

/// Draws it as a spread of the Counter page.
pub fn draw(frame: &Frame, form: &PickingForm) -> Markup {
    let filled = &frame.filled;
    let field =
        |name: &'static str, label: &'static str, hint: &'static str, fresh: &'static str| Field {
            name,
            label,
            hint,
            value: filled.value(name, fresh),
            wrong: filled.wrong(name),
            ..Field::default()
        };
    let warmth = if form.last_warmth.is_empty() {
        "such as 70F or 21 C".to_owned()
    } else {
        format!("such as 70F; last said: {}", form.last_warmth)
    };
    let verge = html! {
        p { "From the garden, with gloves on: crop, grade, how full, where it lies." }
        p { "No scale? Say how full a known crate is, and leave the weight empty." }
    };
    spread(
        "Weigh in",
        verge,
        html! {
            form.form #weigh-in autocomplete="off" method="post" action="/counter" {
                (frame.token())
                (Field { required: true, ..field("crop", "Crop", "", "") }.list(&pairs(&form.crops), Some("choose a crop")))
                (Field { required: true, ..field("grade", "Grade or ripeness", "", "") }.list(&pairs(&form.grades), Some("choose a grade")))
                (field("amount", "Weight", "such as 24 lb, 3 lb 4 oz or 10.5 kg", "").text("text"))
                @if !form.crates.is_empty() {
                    (field("crate_name", "or a crate", "", "").list(&pairs(&form.crates), Some("weighed instead")))
                    div.all { (field("share", "How full is it?", "", "").one_of(&shares(form))) }
                }
                div.all { (field("place", "Where does it lie?", "", form_place(form)).one_of(&form.places.iter().map(|place| (place.key.as_str(), place.title.as_str(), Some(html! { (crate::part::Place::of(&place.key).mark()) }))).collect::<Vec<_>>())) }
                (Field { hint: &warmth, ..field("temperature", "How warm is it there?", "", "") }.text("text"))
                (Field { value: filled.value("picked_on", &form.picked_on), ..field("picked_on", "Picked on", "", "") }.date())
                (field("variety", "Variety", "free words; may stay empty", "").text("text"))
                @if !form.history.is_empty() {
                    div.all {
                        p.note { "What has it been through? What stays unknown may keep the lot out of jars until it is answered." }
                        div.asks { @for line in &form.history { (ask(filled, line)) } }
                    }
                }
                div.all { (field("note", "Note", "", "").text("text")) }
                div.row { (send("Put it on the counter", true)) }
            }
        },
    )
}

/// The first place offered, so that one tap less is needed.
fn form_place(form: &PickingForm) -> &'static str {
    if form.places.iter().any(|place| place.key == "counter") {
        "counter"
    } else {
        ""
    }
}

/// One question on what the lot has been through.
pub fn ask(filled: &Filled, line: &HistoryLine) -> Markup {
    let name = format!("history.{}", line.key);
    Field {
        name: &name,
        label: &line.question,
        value: filled.value(&name, &line.answer),
        wrong: filled.wrong(&name),
        ..Field::default()
    }
    .ask(&[("yes", "yes"), ("no", "no"), ("unknown", "unknown")])
}

/// Shares of a crate, each with a crate filled so far.
fn shares(form: &PickingForm) -> Vec<(&str, &str, Option<Markup>)> {
    let count = form.shares.len().max(1);
    form.shares
        .iter()
        .enumerate()
        .map(|(index, share)| {
            let full = part_of(&share.key).unwrap_or((index + 1) as f64 / count as f64);
            (
                share.key.as_str(),
                share.title.as_str(),
                Some(crate_drawing(full)),
            )
        })
        .collect()
}

/// A share as a number, for the drawing only: "2/3", "0.5", "half", "two thirds".
fn part_of(key: &str) -> Option<f64> {
    if let Some((upper, lower)) = key.split_once('/') {
        let (upper, lower): (f64, f64) = (upper.trim().parse().ok()?, lower.trim().parse().ok()?);
        return (lower > 0.0).then_some((upper / lower).clamp(0.0, 1.0));
    }
    match key.replace([' ', '_'], "-").as_str() {
        "a-quarter" | "quarter" => Some(0.25),
        "a-third" | "third" => Some(1.0 / 3.0),
        "half" | "a-half" => Some(0.5),
        "two-thirds" => Some(2.0 / 3.0),
        "three-quarters" => Some(0.75),
        "full" => Some(1.0),
        other => other.parse().ok(),
    }
}

fn crate_drawing(full: f64) -> Markup {
    let level = 24.0 - 18.0 * full;
    // The crate narrows towards its floor: 4 to 36 at the rim, 8 to 32 at the floor.
    let inset = 4.0 + 4.0 * (level - 6.0) / 18.0;
    let fill = format!(
        "M{} {}H{}L32 24H8z",
        crate::picture::n(inset),
        crate::picture::n(level),
        crate::picture::n(40.0 - inset)
    );
    html! {
        svg viewBox="0 0 40 30" aria-hidden="true" {
            path fill="currentColor" opacity=".55" d=(fill) {}
            path fill="none" stroke="currentColor" stroke-width="2" stroke-linejoin="round" d="M4 6L8 24H32L36 6M2 6H10M30 6H38" {}
        }
    }
}

#[cfg(test)]
mod tests {
    use super::part_of;

    #[test]
    fn shares_are_read_for_the_drawing_in_all_their_spellings() {
        assert_eq!(part_of("1/2"), Some(0.5));
        assert_eq!(part_of("two thirds"), Some(2.0 / 3.0));
        assert_eq!(part_of("three-quarters"), Some(0.75));
        assert_eq!(part_of("1/0"), None);
        assert_eq!(part_of("heaped"), None);
    }
}
