//! The gate's answer as a plate: a process, a refusal, or the verdict of a route without heat.

use crate::part::plate::{self, ProcessPlate, RefusalPlate, RoutePlate};
use crate::picture::canner::Vessel;
use app::view::batch::VerdictView;
use maud::Markup;

/// Draws the plate. A verdict of no known kind is drawn as a refusal: nothing is permitted by a
/// word this page does not know.
pub fn draw(verdict: &VerdictView) -> Markup {
    match (verdict.kind.as_str(), verdict.minutes) {
        ("permit" | "permit-if" | "look-up", Some(minutes)) => process(verdict, minutes),
        ("route", _) => route(verdict),
        _ => refusal(verdict),
    }
}

/// A plate's foot always shows all of these rows, so that a missing one is seen as missing.
fn foot(verdict: &VerdictView) -> Vec<(&'static str, Vec<&str>)> {
    let pairs: Vec<&str> = verdict.other_pairs.iter().map(String::as_str).collect();
    let keep_to: Vec<&str> = verdict.keep_to.iter().map(String::as_str).collect();
    let notes: Vec<&str> = verdict.notes.iter().map(String::as_str).collect();
    let unknown: Vec<&str> = if verdict.cannot_know.is_empty() {
        vec!["nothing further was named"]
    } else {
        verdict.cannot_know.iter().map(String::as_str).collect()
    };
    vec![
        ("Band used", vec![verdict.band.as_str()]),
        ("Read in", vec![verdict.source.as_str()]),
        ("Also printed", pairs),
        ("Keep to", keep_to),
        ("Note", notes),
        ("Cannot know", unknown),
    ]
}

fn process(verdict: &VerdictView, minutes: i64) -> Markup {
    let (food, canner) = split(&verdict.top);
    plate::process(&ProcessPlate {
        food,
        canner,
        minutes,
        psi: verdict.psi.as_deref(),
        count_from: &verdict.count_from,
        conditions: &verdict.conditions,
        foot: foot(verdict),
        vessel: vessel(&verdict.top),
        water: verdict.water_over.as_deref(),
        look_up: verdict.kind == "look-up",
    })
}

fn route(verdict: &VerdictView) -> Markup {
    let (food, way) = split(&verdict.top);
    let headline = match (verdict.eat_within_days, verdict.reason.is_empty()) {
        (Some(1), _) => "Eat within a day, cold.".to_owned(),
        (Some(days), _) => format!("Eat within {days} days, cold."),
        (None, false) => verdict.reason.clone(),
        (None, true) => "This way is open.".to_owned(),
    };
    plate::route(&RoutePlate {
        food,
        route: way,
        headline: &headline,
        conditions: &verdict.conditions,
        foot: foot(verdict),
    })
}

fn refusal(verdict: &VerdictView) -> Markup {
    let (asked, with) = split(&verdict.top);
    let unknown: Vec<&str> = verdict.cannot_know.iter().map(String::as_str).collect();
    plate::refusal(&RefusalPlate {
        asked,
        with,
        headline: "Refused. Not like this.",
        reason: &verdict.reason,
        instead: if verdict.instead.is_empty() {
            vec![]
        } else {
            vec![verdict.instead.as_str()]
        },
        foot: vec![
            ("Refused by", vec![verdict.code.as_str()]),
            ("Band used", vec![verdict.band.as_str()]),
            ("Read in", vec![verdict.source.as_str()]),
            ("Note", verdict.notes.iter().map(String::as_str).collect()),
            ("Not known", unknown),
        ],
    })
}

/// The top line at its last comma: what is made at the left, in which vessel at the right.
fn split(top: &str) -> (&str, &str) {
    top.rsplit_once(", ").unwrap_or((top, ""))
}

/// The vessel the top line names, for the drawing only.
fn vessel(top: &str) -> Option<Vessel> {
    let top = top.to_lowercase();
    [
        ("boiling", Vessel::BoilingWater),
        ("steam", Vessel::Steam),
        ("dial", Vessel::Dial),
        ("weight", Vessel::Weighted),
    ]
    .into_iter()
    .find(|(word, _)| top.contains(word))
    .map(|(_, vessel)| vessel)
}

#[cfg(test)]
mod tests {
    use super::draw;
    use app::view::batch::VerdictView;

    fn verdict(kind: &str, minutes: Option<i64>) -> VerdictView {
        VerdictView {
            kind: kind.into(),
            top: "Tomato juice, hot pack, quarts, boiling water".into(),
            minutes,
            psi: None,
            other_pairs: vec![],
            band: String::new(),
            band_low_ft: None,
            band_high_ft: None,
            source: String::new(),
            keep_to: vec![],
            conditions: vec![],
            notes: vec![],
            cannot_know: vec![],
            count_from: String::new(),
            reason: "no row".into(),
            instead: "freeze it".into(),
            code: "no-row".into(),
            eat_within_days: None,
            water_over: None,
        }
    }

    #[test]
    fn only_a_known_answer_with_minutes_shows_a_figure() {
        assert!(draw(&verdict("permit", Some(45))).0.contains("<b>45</b>"));
        assert!(
            draw(&verdict("look-up", Some(45)))
                .0
                .contains("Look-up, not a permit.")
        );
        for refused in [
            verdict("refusal", Some(45)),
            verdict("permit", None),
            verdict("surprise", Some(45)),
        ] {
            let plate = draw(&refused).0;
            assert!(plate.contains("class=\"plate no\"") && !plate.contains("<b>45</b>"));
            assert!(
                plate.contains("no row") && plate.contains("freeze it") && plate.contains("no-row")
            );
        }
    }

    #[test]
    fn a_fridge_verdict_says_its_days_and_no_minutes() {
        let mut fridge = verdict("route", None);
        fridge.eat_within_days = Some(3);
        let plate = draw(&fridge).0;
        assert!(plate.contains("Eat within 3 days, cold.") && !plate.contains("minutes"));
    }
}
