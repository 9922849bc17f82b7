//! The tested process as text.

use super::heading;
use app::view::process::ProcessView;

/// The answer, then the rows as printed.
pub fn process(view: &ProcessView) -> String {
    let mut out = String::new();
    heading(&mut out, &format!("Process: {}", view.asked.food));
    if let Some(answer) = &view.answer {
        out.push_str(&super::batch::verdict(answer));
    }
    if !view.headspace.is_empty() {
        out.push_str(&format!("  Headspace: {}\n", view.headspace));
    }
    for acid in &view.acid {
        out.push_str(&format!("  Acid: {acid}\n"));
    }
    if !view.rows.is_empty() {
        out.push_str("\nRows as printed\n");
        for row in &view.rows {
            let mark = if row.answers { ">" } else { " " };
            out.push_str(&format!(
                "{mark} {:<5} {:<14} {:<15} {:<20} {:>3} min {:>4} {} {}\n",
                row.pack, row.jar, row.method, row.band, row.minutes, row.psi, row.page, row.mark
            ));
        }
    }
    for caution in &view.cautions {
        out.push_str(&format!("! {caution}\n"));
    }
    out
}
