//! The two plates: the process and the refusal. They are the only framed pieces of the program,
//! equal in size, because they are the only ones that bind.

use super::mark::Mark;
use crate::picture::canner::{self, Vessel};
use maud::{Markup, html};

/// A process as read from the tables.
pub struct ProcessPlate<'a> {
    /// Food, pack, jar: left on the top line.
    pub food: &'a str,
    /// Canner: right on the top line.
    pub canner: &'a str,
    /// Minutes of the process.
    pub minutes: i64,
    /// Pressure, where there is one.
    pub psi: Option<&'a str>,
    /// When to start counting, and what a dip means.
    pub count_from: &'a str,
    /// What must hold besides, each a sentence.
    pub conditions: &'a [String],
    /// Rows of the foot: always "Band used", "Read in" and "Cannot know", and others between.
    pub foot: Vec<(&'a str, Vec<&'a str>)>,
    /// A drawing of the canner.
    pub vessel: Option<Vessel>,
    /// Water over the jars, such as "2 in".
    pub water: Option<&'a str>,
    /// A look-up shows the printed row and arms nothing; it says so above the plate's figures.
    pub look_up: bool,
}

/// Lays the process plate out.
pub fn process(plate: &ProcessPlate<'_>) -> Markup {
    html! {
        section.plate aria-label=(if plate.look_up { "Printed row, a look-up and not a permit" } else { "Tested process" }) {
            div.top {
                span { (plate.food) }
                span { (plate.canner) }
            }
            @if plate.look_up { p.top { strong { "Look-up, not a permit." } } }
            div.figs {
                div.fig { b { (plate.minutes) } span { @if plate.minutes == 1 { "minute" } @else { "minutes" } } }
                @if let Some(psi) = plate.psi { div.fig { b { (psi) } span { "psi" } } }
                @if let Some(vessel) = plate.vessel { (canner::draw(vessel, plate.water)) }
            }
            @if !plate.count_from.is_empty() { p.count { (plate.count_from) } }
            @if !plate.conditions.is_empty() {
                ul.dash.must aria-label="Only if" { @for condition in plate.conditions { li { (condition) } } }
            }
            (foot(&plate.foot))
        }
    }
}

/// A refusal: reason, what to do instead, and which rule refused.
pub struct RefusalPlate<'a> {
    /// What was asked: left on the top line.
    pub asked: &'a str,
    /// The rest of the question: right on the top line; may be empty.
    pub with: &'a str,
    /// The refusal in a few words, set large.
    pub headline: &'a str,
    /// The reason in one sentence.
    pub reason: &'a str,
    /// What to do instead, each a sentence.
    pub instead: Vec<&'a str>,
    /// Rows of the foot: "Refused by", "Read in", "Not known".
    pub foot: Vec<(&'a str, Vec<&'a str>)>,
}

/// Lays the refusal plate out, never smaller than a permit.
pub fn refusal(plate: &RefusalPlate<'_>) -> Markup {
    html! {
        section.plate.no aria-label="Refused" {
            div.top { span { (plate.asked) } span { (plate.with) } }
            div.figs { (Mark::Refused) b { (plate.headline) } }
            @if !plate.reason.is_empty() { p.count { (plate.reason) } }
            @if !plate.instead.is_empty() {
                ul.dash.must aria-label="Instead" { @for line in &plate.instead { li { (line) } } }
            }
            (foot(&plate.foot))
        }
    }
}

/// Verdict of a route without heat: words in place of figures.
pub struct RoutePlate<'a> {
    /// What is made: left on the top line.
    pub food: &'a str,
    /// Which way: right on the top line.
    pub route: &'a str,
    /// The verdict in a few words, set large.
    pub headline: &'a str,
    /// What must hold.
    pub conditions: &'a [String],
    /// Rows of the foot.
    pub foot: Vec<(&'a str, Vec<&'a str>)>,
}

/// Lays the plate of a route without heat out.
pub fn route(plate: &RoutePlate<'_>) -> Markup {
    html! {
        section.plate aria-label="Verdict" {
            div.top { span { (plate.food) } span { (plate.route) } }
            div.figs { p.say { (plate.headline) } }
            @if !plate.conditions.is_empty() {
                ul.dash.must aria-label="Only if" { @for condition in plate.conditions { li { (condition) } } }
            }
            (foot(&plate.foot))
        }
    }
}

fn foot(rows: &[(&str, Vec<&str>)]) -> Markup {
    html! {
        @let shown = rows.iter().filter(|(_, lines)| lines.iter().any(|line| !line.is_empty()));
        dl {
            @for (head, lines) in shown {
                dt { (head) }
                @for line in lines.iter().filter(|line| !line.is_empty()) { dd { (line) } }
            }
        }
    }
}
