//! Changes to a recipe as text.

use super::heading;
use app::view::change::{AnswerView, ChangeView, ColdView, FindingView, NearestView};

/// The recipe, the answer to each edit and to the whole, and where it goes instead.
pub fn change(view: &ChangeView) -> String {
    let mut out = String::new();
    heading(&mut out, &view.title);
    if !view.source.is_empty() {
        out.push_str(&format!("{}\n", view.source));
    }
    if !view.state.is_empty() {
        state(
            &mut out,
            &view.state,
            &view.state_words,
            view.nearest.as_ref(),
        );
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
    cold(&mut out, view.cold.as_ref());
    out
}

/// What a household's own recipe is, and the tested one that is nearest.
pub(super) fn state(out: &mut String, key: &str, words: &str, nearest: Option<&NearestView>) {
    out.push_str(&format!(
        "{}: {words}\n",
        key.to_uppercase().replace('-', " ")
    ));
    if let Some(nearest) = nearest {
        out.push_str(&format!(
            "Nearest: {} [{}], {} lines shared, {} apart ({})\n",
            nearest.title, nearest.recipe, nearest.shared, nearest.distance, nearest.source
        ));
    }
}

/// Where it goes that has no shelf.
pub(super) fn cold(out: &mut String, cold: Option<&ColdView>) {
    if let Some(cold) = cold {
        out.push_str(&format!(
            "\nInstead of the shelf\n  {}\n  {}\n  {}\n",
            cold.fridge, cold.freezer, cold.source
        ));
    }
}

/// The answer to each edit, and to all together.
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
