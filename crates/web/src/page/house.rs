//! House: what the house has, knows and wants. One form; what is not stated is not assumed.

use super::{house_lists, whole};
use crate::frame::Frame;
use crate::part::field::{Field, hidden, send};
use crate::part::{Opening, Section, opening, spread};
use app::view::house::HouseView;
use maud::{Markup, html};

/// Draws the page.
pub fn draw(frame: &Frame, view: &HouseView) -> Markup {
    whole(
        frame,
        "House",
        Section::House,
        html! {
            (opening(Opening {
                day: if view.known { "The house" } else { "A new house" },
                verge: html! {},
                question: "What is the house like?",
                answer: &view.answer,
                lead: html! { (view.band) },
                actions: html! {},
            }))
            @if !view.missing.is_empty() || !view.facts.is_empty() {
                (spread("What follows", html! { p { "Nothing unsafe has a default." } }, html! {
                    @if !view.missing.is_empty() { ul.dash { @for missing in &view.missing { li { (missing) } } } }
                    @if !view.facts.is_empty() { ul.plain { @for fact in &view.facts { li { (fact) } } } }
                }))
            }
            @if !view.gauges.is_empty() { (gauges(view)) }
            form autocomplete="off" method="post" action="/house" {
                (frame.token())
                (spread("Where", html! { p { "Elevation decides every process. Give it with its uncertainty if you are near an edge of a band." } }, place(frame, view)))
                (house_lists::draw(frame, view))
                (spread("How we work", html! {}, work(frame, view)))
                (spread("Write it down", html! { p { "The house is written as a whole; earlier ones stay in the record." } }, html! { div.row { (send("Write the house down", true)) } }))
            }
        },
    )
}

/// A line of text of the house.
pub fn text(frame: &Frame, name: &str, label: &str, hint: &str, now: &str) -> Markup {
    Field {
        name,
        label,
        hint,
        value: frame.filled.value(name, now),
        wrong: frame.filled.wrong(name),
        ..Field::default()
    }
    .text("text")
}

/// A whole number of the house.
pub fn count(frame: &Frame, name: &str, label: &str, now: u32) -> Markup {
    let now = now.to_string();
    Field {
        name,
        label,
        value: frame.filled.value(name, &now),
        wrong: frame.filled.wrong(name),
        ..Field::default()
    }
    .text("numeric")
}

/// The dial gauges with the record of their tests.
fn gauges(view: &HouseView) -> Markup {
    html! {
        div id="gauges" {
            (spread("Gauges", html! { p { "A dial gauge is tested every year. A new test is entered with its canner below." } }, html! {
                @if !view.reminders.is_empty() { ul.dash { @for reminder in &view.reminders { li { strong { (reminder) } } } } }
                @for gauge in &view.gauges {
                    h3 { (gauge.canner) }
                    @if gauge.tests.is_empty() { p { "No test is known." } } @else { ul.plain { @for test in &gauge.tests { li { (test) } } } }
                }
            }))
        }
    }
}

fn place(frame: &Frame, view: &HouseView) -> Markup {
    let house = &view.house;
    html! {
        div.form {
            (text(frame, "name", "What the house is called", "", &house.name))
            (text(frame, "address", "Address of these pages for other devices", "such as http://stillroom.home.arpa:7310; printed on labels as a square to read; empty for none", &house.address))
            (text(frame, "elevation", "Elevation", "such as 2500ft, 305 m or 950 ft ± 60", &house.elevation))
            div.all {
                p.note { "Metric jars: 250 ml, 500 ml and 1 litre are 5.7 % larger than half-pint, pint and quart, and a jar never takes the time of a smaller one. One canner maker's metric table prints the pint and quart times for 500 ml and 1 litre of tomato products. Ticking this follows that table for acid foods; each such permit says so. Low-acid food never uses it." }
                (hidden("metric_jars", "no"))
                ul.ticks { li { (Field { name: "metric_jars", label: "Our jars are metric; follow the maker's metric table", ..Field::default() }.tick(frame.filled.value("metric_jars", if house.metric_jars { "yes" } else { "no" }) == "yes", "")) } }
            }
        }
    }
}

fn work(frame: &Frame, view: &HouseView) -> Markup {
    let house = &view.house;
    html! {
        div.form {
            (count(frame, "burners", "Burners at once", house.burners))
            (count(frame, "food_mills", "Food mills", house.food_mills))
            (count(frame, "sinks", "Sinks", house.sinks))
            (count(frame, "dryer_trays", "Dryer trays", house.dryer_trays))
            (text(frame, "day_starts", "A kitchen day starts", "such as 8:00", &house.day_starts))
            (text(frame, "day_ends", "and ends at the latest", "such as 18:00", &house.day_ends))
            (text(frame, "lunch", "Midday break", "such as 12:30-13:00; empty for none", &house.lunch))
            (text(frame, "fresh_pounds_a_day", "Fresh produce eaten a day, pounds", "over all crops", &house.fresh_pounds_a_day))
            (text(frame, "hour_worth_pounds", "An hour of work is worth, in pounds of surplus", "12 when empty", &house.hour_worth_pounds))
            (text(frame, "animals", "Animals that eat sort-outs", "with commas, such as hens, pig", &house.animals.join(", ")))
        }
    }
}
