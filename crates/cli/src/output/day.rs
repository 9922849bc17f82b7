//! The kitchen day as text.

use super::{heading, pad};
use app::view::day::DayView;

/// Steps in order of start.
pub fn day(view: &DayView) -> String {
    let mut out = String::new();
    heading(
        &mut out,
        &format!("Kitchen day, {} ({})", view.title, view.state),
    );
    out.push_str(&format!("{}\n{}\n\n", view.answer, view.lead));
    for line in &view.clash {
        out.push_str(&format!("! {line}\n"));
    }
    for step in &view.steps {
        let free = if step.unattended { "hands free" } else { "" };
        let stop = if step.stop_point {
            "may stop after this"
        } else {
            ""
        };
        out.push_str(&format!(
            "{:>5}-{:<5} {} {} {} {free} {stop}\n",
            step.starts,
            step.ends,
            pad(&step.title, 40),
            pad(&step.batch, 26),
            pad(&step.uses, 34)
        ));
    }
    if !view.quality.is_empty() {
        out.push_str(&format!("\n{}\n", view.quality));
    }
    out
}
