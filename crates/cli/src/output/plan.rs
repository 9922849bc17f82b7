//! The Plan as text.

use super::{heading, pad};
use app::view::plan::PlanView;

/// Batches by day, what is left out, what binds, how good.
pub fn plan(view: &PlanView) -> String {
    let mut out = String::new();
    heading(&mut out, &format!("Plan, {} ({})", view.span, view.state));
    out.push_str(&format!("{}\n{}\n", view.answer, view.lead));
    match view.state.as_str() {
        "none" => out.push_str("Make one with `stillroom plan --make`.\n"),
        "proposed" => out
            .push_str("Set its batches up with `stillroom plan --accept`, which makes it anew.\n"),
        _ => {}
    }
    for day in &view.days {
        out.push_str(&format!("\n{}   hands {}\n", day.title, day.hands));
        for batch in &day.batches {
            let number = batch.id.map_or_else(String::new, |id| format!("#{id} "));
            let state = if batch.times.is_empty() {
                String::new()
            } else {
                format!(", {}", batch.times)
            };
            out.push_str(&format!(
                "  {number}{}: {} ({}{state})\n",
                batch.title, batch.makes, batch.place
            ));
            for take in &batch.takes {
                out.push_str(&format!("      takes {take}\n"));
            }
            if !batch.verdict.is_empty() {
                out.push_str(&format!("      {}\n", batch.verdict));
            }
            out.push_str(&format!("      why: {}\n", batch.reason));
        }
    }
    if !view.left_out.is_empty() {
        out.push_str("\nLeft out\n");
        for left in &view.left_out {
            out.push_str(&format!(
                "  {} {}: {} [{}]\n",
                left.weight, left.lot, left.reason, left.code
            ));
        }
    }
    if !view.binding.is_empty() {
        out.push_str("\nWhat binds\n");
        for binding in &view.binding {
            let mark = if binding.binds { "=" } else { " " };
            out.push_str(&format!(
                "  {mark} {} {}\n",
                pad(&binding.limit, 30),
                binding.used
            ));
        }
    }
    if !view.needs.is_empty() {
        out.push_str("\nWinter's need           wanted stands plan short\n");
        for need in &view.needs {
            out.push_str(&format!(
                "  {} {:>5} {:>6} {:>4} {:>5} {}\n",
                pad(&need.product, 22),
                need.wanted,
                need.stands,
                need.plan,
                need.short,
                need.unit
            ));
        }
    }
    if !view.goal.parts.is_empty() {
        out.push_str(&format!("\nHow good: {}\n", view.goal.gap_words));
        out.push_str(&format!("  {}\n", view.goal.words));
        for part in &view.goal.parts {
            out.push_str(&format!(
                "  {} {} {:>8} points\n",
                pad(&part.part, 16),
                pad(&part.words, 44),
                part.points
            ));
        }
        out.push_str(&format!(
            "  {} {:>8} points; no plan can pass {}\n",
            pad("value", 61),
            view.goal.value,
            view.goal.bound
        ));
    }
    if !view.closed.is_empty() {
        out.push_str("\nNot offered\n");
        for closed in &view.closed {
            out.push_str(&format!(
                "  {}: {} {}\n",
                closed.recipe, closed.reason, closed.instead
            ));
        }
    }
    out
}
