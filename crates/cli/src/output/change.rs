//! Changes to a recipe as text.

use super::heading;
use app::view::change::{AnswerView, ChangeView, FindingView};

/// The recipe, the answer to each edit and to the whole, and where it goes instead.
pub fn change(view: &ChangeView) -> String {
    let mut out = String::new();
    heading(&mut out, &view.title);
    if !view.source.is_empty() {
        out.push_str(&format!("{}\n", view.source));
    }
    if !view.state.is_empty() {
        out.push_str(&format!(
            "{}: {}\n",
            view.state.to_uppercase().replace('-', " "),
            view.state_words
        ));
    }
    if let Some(nearest) = &view.nearest {
        out.push_str(&format!(
            "Nearest: {} [{}], {} lines shared, {} apart ({})\n",
            nearest.title, nearest.recipe, nearest.shared, nearest.distance, nearest.source
        ));
    }
    for name in &view.not_known {
        out.push_str(&format!("! No table knows «{name}».\n"));
    }
    match &view.answer {
        Some(found) => answer(&mut out, found),
        None => {
            for line in &view.printed {
                out.push_str(&format!("  {:>2}  {}\n", line.number, line.words));
            }
        }
    }
    if let Some(cold) = &view.cold {
        out.push_str("\nInstead of the shelf\n");
        out.push_str(&format!(
            "  {}\n  {}\n  {}\n",
            cold.fridge, cold.freezer, cold.source
        ));
    }
    out
}

pub(super) fn answer(out: &mut String, found: &AnswerView) {
    out.push_str(&format!(
        "{}: {}\n",
        found.answer.to_uppercase(),
        found.words
    ));
    for edit in &found.edits {
        out.push_str(&format!("\n{}: {}\n", edit.answer, edit.words));
        for line in &edit.findings {
            finding(out, line);
        }
        if !edit.instead.is_empty() {
            out.push_str(&format!("  Instead: {}\n", edit.instead));
        }
    }
    if !found.whole.is_empty() {
        out.push_str("\nAll changes together\n");
        for line in &found.whole {
            finding(out, line);
        }
    }
}

fn finding(out: &mut String, line: &FindingView) {
    out.push_str(&format!(
        "  [{}] {}: {} ({})\n",
        line.rule, line.answer, line.text, line.source
    ));
    if !line.other_reading.is_empty() {
        out.push_str(&format!("    Read elsewhere: {}\n", line.other_reading));
    }
}
