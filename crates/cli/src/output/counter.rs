//! The Counter as text.

use super::{heading, pad};
use app::view::counter::CounterView;

/// Lots by deadline with the reason under each.
pub fn counter(view: &CounterView) -> String {
    let mut out = String::new();
    heading(&mut out, &format!("Counter, {}", view.today));
    out.push_str(&format!("{}\n{}\n", view.answer, view.lead));
    for reminder in &view.reminders {
        out.push_str(&format!("! {reminder}\n"));
    }
    out.push('\n');
    for lot in &view.lots {
        out.push_str(&format!(
            "{} {} {} {}\n",
            pad(&format!("lot {}", lot.id), 7),
            pad(&lot.title, 34),
            pad(&lot.weight.to_string(), 20),
            lot.state
        ));
        out.push_str(&format!(
            "        {}; {}; {}\n",
            lot.where_it_lies, lot.picked, lot.keeps
        ));
        out.push_str(&format!("        {} [{}]\n", lot.reason, lot.basis));
        for closed in &lot.closed {
            out.push_str(&format!("        ! {closed}\n"));
        }
    }
    out
}
