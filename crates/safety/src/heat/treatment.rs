//! The 180 to 185 F treatment: only for recipes that print it, in a canner of water.

use super::{Candidate, Case, Draft};
use crate::codes::NO_LOW_TEMPERATURE;
use crate::numbers::limit_source;
use crate::permit::WaterBand;
use crate::refusal::Refusal;
use reference::Method;

/// Puts the rows of the treatment in place of those of the process, where it is asked for.
pub(super) fn treatment<'a>(case: &Case<'a>, draft: &mut Draft<'a>) -> Result<(), Refusal> {
    if !case.question.low_temperature {
        return Ok(());
    }
    let rows = case.reference.low_temp_for(&case.food.food);
    let source = limit_source(case.reference, "group:pickle", "low-temp-only-where-listed");
    let (Some((first, _)), Method::BoilingWater) = (rows.first(), case.method) else {
        return Err(Refusal::new(
            NO_LOW_TEMPERATURE,
            format!(
                "{} in {}: no treatment below the boil is printed for it.",
                case.food.title, case.method
            ),
            "Ask without the treatment, for the process that the tables print for it.",
            source,
        ));
    };
    draft.water = Some(WaterBand {
        low_f: first.water_low_f,
        high_f: first.water_high_f,
    });
    draft.condition(
        "low-temperature",
        format!(
            "Water kept at {} to {} F for all of the {} minutes, watched on a thermometer: minutes in cooler water do not count.",
            first.water_low_f, first.water_high_f, first.minutes
        ),
        first.source.clone(),
    );
    draft.fired(
        "low-temperature",
        "The recipe prints this treatment beside its boiling-water process.",
        source,
    );
    draft.candidates = rows
        .into_iter()
        .map(|(row, process)| Candidate {
            row: process,
            minutes: row.minutes,
            dial_shows_psi: None,
            other_row: Some((row.key(), row.source.clone(), row.page.clone())),
        })
        .collect();
    Ok(())
}
