//! Days until a tomato is red, from the ripening grid and never beyond its edges.

use quantity::to_f64;
use reference::{Reference, RipeningGridRow};

/// Days to red, not yet widened. Every figure of the grid counts as remembered: most are, and
/// one page read gives twice the days.
pub(super) struct Ripening {
    pub(super) low: f64,
    pub(super) high: f64,
    pub(super) source: String,
    pub(super) notes: Vec<String>,
}

/// The class whose days bound those of light red, for which no figure was read.
const BEFORE_LIGHT_RED: &str = "pink";

/// Days until fruit of this class is red at `degrees` F; `None` for fruit that is red already.
/// Outside the grid the nearest edge is used as it stands, and a note says so.
pub(super) fn days_to_red(reference: &Reference, class: &str, degrees: f64) -> Option<Ripening> {
    let (row_class, from_now) = match class {
        "light red" => (BEFORE_LIGHT_RED, true),
        other => (other, false),
    };
    let mut points: Vec<(f64, f64, &RipeningGridRow)> = reference
        .ripening_grid()
        .iter()
        .filter(|row| row.class == row_class)
        .filter_map(|row| {
            let days = to_f64(row.days_to_red.as_ref()?.low());
            Some((to_f64(row.temp_f.low()), days, row))
        })
        .collect();
    points.sort_by(|a, b| a.0.total_cmp(&b.0));
    let (&coldest, &warmest) = (points.first()?, points.last()?);
    let mut notes = Vec::new();
    if degrees < coldest.0 {
        notes.push(format!(
            "The ripening table begins at {} F; its figure there is used and nothing is worked out beyond it. Colder fruit ripens more slowly.",
            coldest.0
        ));
    } else if degrees > warmest.0 {
        notes.push(format!(
            "The ripening table ends at {} F; its figure there is used and nothing is worked out beyond it.",
            warmest.0
        ));
    }
    notes.extend(limit_note(reference, "NO_RIPENING_BELOW", |limit| {
        (degrees < limit).then(|| {
            format!("Green fruit does not ripen below {limit} F: the dates hold once it is brought to {} F or warmer.", coldest.0)
        })
    }));
    notes.extend(limit_note(reference, "NO_RED_PIGMENT_ABOVE", |limit| {
        (degrees > limit).then(|| format!("Above {limit} F fruit does not colour red."))
    }));
    let (days, rows) = at(&points, degrees);
    let low = if from_now {
        notes.push(
            "No figure was read for light red: it lies between red already and the days of pink fruit."
                .to_owned(),
        );
        0.0
    } else {
        days
    };
    if points.iter().any(|(.., row)| row.class == "green") {
        notes.push("One page read gives about twice these days for green fruit.".to_owned());
    }
    let mut source = String::new();
    for row in rows {
        if !source.contains(&row.source) {
            if !source.is_empty() {
                source.push_str("; ");
            }
            source.push_str(&row.source);
        }
    }
    Some(Ripening {
        low,
        high: days,
        source,
        notes,
    })
}

/// Days at a temperature, straight between neighbours, and the lines they rest on.
fn at<'a>(
    points: &[(f64, f64, &'a RipeningGridRow)],
    degrees: f64,
) -> (f64, Vec<&'a RipeningGridRow>) {
    for pair in points.windows(2) {
        let [(cold, slow, cold_row), (warm, fast, warm_row)] = pair else {
            continue;
        };
        if (*cold..=*warm).contains(&degrees) {
            let part = (degrees - cold) / (warm - cold);
            return (slow + (fast - slow) * part, vec![*cold_row, *warm_row]);
        }
    }
    // Outside: the nearer edge.
    points
        .iter()
        .min_by(|a, b| (a.0 - degrees).abs().total_cmp(&(b.0 - degrees).abs()))
        .map_or((0.0, Vec::new()), |&(_, days, row)| (days, vec![row]))
}

fn limit_note(
    reference: &Reference,
    class: &str,
    note: impl FnOnce(f64) -> Option<String>,
) -> Option<String> {
    let row = reference
        .ripening_grid()
        .iter()
        .find(|row| row.class == class)?;
    note(to_f64(row.temp_f.low()))
}
