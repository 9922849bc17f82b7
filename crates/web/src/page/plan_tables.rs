//! The lower half of the Plan: what binds, what is left out, the winter's needs, the goal, and
//! what was closed.

use super::both;
use crate::part::spread;
use crate::part::table::{Row, figures, table, words};
use app::view::plan::{NeedView, PlanView};
use maud::{Markup, html};

/// Draws what there is of it.
pub fn draw(view: &PlanView) -> Markup {
    html! {
        @if !view.left_out.is_empty() { (spread("Left out", html! { p { "Nothing is left out without a reason." } }, left_out(view))) }
        @if !view.binding.is_empty() { (spread("What binds", html! { p { "Limits of the house that this plan runs into, or nearly." } }, binding(view))) }
        @if !view.needs.is_empty() { (spread("The winter's needs", html! { p { "What is wanted, what stands, and what this plan adds." } }, needs(&view.needs, true))) }
        @if !view.goal.parts.is_empty() { (spread("The goal", html! { p { "Safety is not weighed: it is never traded." } }, goal(view))) }
        @if !view.closed.is_empty() { (spread("Not offered", html! { p { "Recipes that the gate or the house closed." } }, closed(view))) }
    }
}

fn left_out(view: &PlanView) -> Markup {
    html! {
        ul.ruled.split {
            @for left in &view.left_out {
                li { div { h3 { (left.lot) } p { (both(&left.weight)) } } p { (left.reason) } }
            }
        }
    }
}

fn binding(view: &PlanView) -> Markup {
    html! {
        ul.ruled.split {
            @for limit in &view.binding {
                li { p { strong { (limit.limit) } @if limit.binds { ", used up" } } p.note { @if !limit.limit.contains(&limit.used) { (limit.used) } } }
            }
        }
    }
}

/// Needs against what stands; `planned` shows what a plan adds as well.
pub fn needs(needs: &[NeedView], planned: bool) -> Markup {
    let mut columns = vec![words("Need"), figures("wanted"), figures("stands")];
    if planned {
        columns.push(figures("plan"));
    }
    columns.push(figures("short"));
    let rows = needs
        .iter()
        .map(|need| {
            let mut cells = vec![
                html! { (need.product) " " span.note { (need.unit) } },
                html! { (need.wanted) },
                html! { (need.stands) },
            ];
            if planned {
                cells.push(html! { (need.plan) });
            }
            cells.push(html! { @if need.short > 0 { strong { (need.short) } } @else { "none" } });
            Row { cells, this: false }
        })
        .collect();
    table("Wanted for the winter, in containers", &columns, rows)
}

fn goal(view: &PlanView) -> Markup {
    let goal = &view.goal;
    let mut rows: Vec<Row> = goal
        .parts
        .iter()
        .map(|part| Row {
            cells: vec![
                html! { (part.part) },
                html! { (part.words) },
                html! { (points(part.points)) },
            ],
            this: false,
        })
        .collect();
    rows.push(Row {
        cells: vec![
            html! { "This plan" },
            html! { (goal.gap_words) },
            html! { (points(goal.value)) },
        ],
        this: true,
    });
    rows.push(Row { cells: vec![html! { "No plan can pass" }, html! { @if goal.proven { "reached: proven best" } @else { "the bound; the best that can exist lies between" } }, html! { (points(goal.bound)) }], this: false });
    html! {
        p { (goal.words) }
        (table("The goal, part by part, in points", &[words("Part"), words("in kitchen words"), figures("points")], rows))
        @if let Some(milliseconds) = goal.milliseconds { p.src { "Searched for " (milliseconds) " ms; checked by a second reading of all limits." } }
    }
}

/// Points in groups of three, with a real minus.
fn points(value: i64) -> String {
    let digits = value.unsigned_abs().to_string();
    let mut text = String::new();
    for (index, digit) in digits.chars().enumerate() {
        if index > 0 && (digits.len() - index).is_multiple_of(3) {
            text.push(',');
        }
        text.push(digit);
    }
    if value < 0 {
        format!("\u{2212}{text}")
    } else {
        text
    }
}

fn closed(view: &PlanView) -> Markup {
    html! {
        details {
            summary { (view.closed.len()) " recipes were looked at and closed" }
            ul.ruled.split {
                @for closed in &view.closed {
                    li { div { h3 { (closed.recipe) } p { (closed.reason) } } p.note { (closed.instead) } }
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::points;

    #[test]
    fn points_are_grouped_and_losses_carry_a_minus() {
        assert_eq!(points(0), "0");
        assert_eq!(points(1_234_567), "1,234,567");
        assert_eq!(points(-45_000), "\u{2212}45,000");
        assert_eq!(points(i64::MIN), "\u{2212}9,223,372,036,854,775,808");
    }
}
