//! Incidents and the disposal card as text.

use super::{heading, pad};
use app::view::incident::{DisposalView, IncidentKindsView, IncidentView};

/// The kinds, by when they are noticed.
pub fn incident_kinds(view: &IncidentKindsView) -> String {
    let mut out = String::new();
    heading(&mut out, "What went wrong?");
    for group in &view.groups {
        out.push_str(&format!("\n{}\n", group.title));
        for line in &group.kinds {
            out.push_str(&format!("  {} {}\n", pad(&line.kind, 22), line.title));
        }
    }
    out
}

/// One incident: what now, until when, which jars, whom to ask.
pub fn incident(view: &IncidentView) -> String {
    let mut out = String::new();
    heading(&mut out, &view.title);
    if let (false, Some(entry)) = (view.product.is_empty(), view.entry) {
        out.push_str(&format!("{}, incident {entry}\n", view.product));
    }
    out.push_str(&format!("{}\n", view.now));
    if !view.until.is_empty() {
        out.push_str(&format!("  {}, {}\n", view.until, view.left));
    }
    out.push_str(&format!("{} ({})\n", view.answer, view.source));
    out.push_str(&format!("  Jars: {}\n", view.jars));
    if !view.hold.is_empty() {
        out.push_str(&format!("  {}\n", view.hold));
    }
    for way in &view.ways {
        out.push_str(&format!("  - {} ({})\n", way.text, way.source));
    }
    for line in &view.looser {
        out.push_str(&format!(
            "  (not to be chosen) {} ({})\n",
            line.text, line.source
        ));
    }
    for note in &view.notes {
        out.push_str(&format!("  ! {note}\n"));
    }
    out.push_str(&format!("  Ask: {}.\n", view.ask));
    if let Some(card) = &view.disposal {
        out.push('\n');
        out.push_str(&disposal(card));
    }
    out
}

/// The disposal card.
pub fn disposal(view: &DisposalView) -> String {
    let mut out = String::new();
    heading(&mut out, "Disposal card");
    for part in &view.parts {
        out.push_str(&format!("{}\n", part.title));
        for step in &part.steps {
            out.push_str(&format!("  - {} ({})\n", step.text, step.source));
        }
    }
    out
}
