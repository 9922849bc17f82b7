//! The elevation rule: an interval of exact feet against bands of whole feet.

use super::{Case, Draft, offers};
use crate::codes::{
    ABOVE_DIAL_CEILING, ABOVE_TABLE, NO_ELEVATION, NO_SUCH_OPTION, PAIR_NOT_RECOMMENDED,
};
use crate::numbers::{Sourced, exact, house_rule, limit, limit_source};
use crate::refusal::{Offer, Refusal};
use quantity::{Elevation, Exact, whole};
use reference::{Method, ProcessRow, Reference};

/// Where the kitchen stands, as the gate counts it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Place {
    /// The feet the rows are asked with.
    pub feet: Exact,
    /// The upper edge as told.
    pub told: Exact,
    /// Exactly at the edge where table and text disagree.
    pub at_edge: bool,
    /// Below the floor and counted as the floor.
    pub below_floor: bool,
    /// The elevation from which the text asks for the next row.
    pub edge: Sourced,
    /// The elevation below which no place is counted.
    pub floor: Sourced,
}

impl Place {
    /// Counts the upper edge of the interval; at exactly the edge of the text the next row acts.
    pub fn of(reference: &Reference, elevation: &Elevation) -> Result<Place, Refusal> {
        let floor = house_rule(reference, "elevation-floor")?;
        let edge = limit(reference, "all", "adjust-for-elevation")?;
        let told = elevation.high_ft.max(elevation.low_ft);
        let below_floor = told < floor.value;
        let counted = told.max(floor.value);
        let at_edge = counted == edge.value;
        Ok(Place {
            feet: if at_edge {
                edge.value + whole(1)
            } else {
                counted
            },
            told,
            at_edge,
            below_floor,
            edge,
            floor,
        })
    }
}

/// Whether a row's band holds these feet: bands of whole feet meet without a gap, upward.
pub(crate) fn row_applies(row: &ProcessRow, feet: Exact) -> bool {
    exact(row.low_ft) - whole(1) < feet && row.high_ft.is_none_or(|high| feet <= exact(high))
}

/// Keeps the pair that was chosen.
pub(super) fn option<'a>(case: &Case<'a>, draft: &mut Draft<'a>) -> Result<(), Refusal> {
    let Some(option) = case.question.option else {
        return Ok(());
    };
    let listed = offers::one_of(draft.candidates.iter().map(|c| c.row.option.to_string()));
    draft.candidates.retain(|c| c.row.option == option);
    if draft.candidates.is_empty() {
        return Err(Refusal::new(
            NO_SUCH_OPTION,
            format!(
                "{}: the table has no pair number {option}.",
                case.food.title
            ),
            format!("Pairs printed: {}.", listed.join(", ")),
            case.food.source.clone(),
        ));
    }
    Ok(())
}

/// Keeps the rows whose band holds the elevation.
pub(super) fn band<'a>(case: &Case<'a>, draft: &mut Draft<'a>) -> Result<(), Refusal> {
    let Some(elevation) = &case.question.elevation else {
        return Err(Refusal::new(
            NO_ELEVATION,
            "Without the elevation of the kitchen there is no process time: water boils cooler higher up.",
            "Enter the elevation of the house, such as 2500ft or 305 m; a map or the county shows it.",
            limit_source(case.reference, "all", "adjust-for-elevation"),
        ));
    };
    let place = Place::of(case.reference, elevation)?;
    let before = draft.candidates.clone();
    draft.candidates.retain(|c| row_applies(c.row, place.feet));
    if draft.candidates.is_empty() {
        return Err(ended(case, &before, &place));
    }
    note_place(case, draft, elevation, &place)?;
    // Pairs whose series ended below this place are named, so that nobody wonders.
    for gone in offers::one_of(before.iter().map(|c| c.row.option.to_string())) {
        if draft
            .candidates
            .iter()
            .all(|c| c.row.option.to_string() != gone)
        {
            let source = not_recommended(case, &before, &place)
                .map_or_else(|| case.food.source.clone(), |(_, source)| source);
            draft.fired(
                "pair-ended",
                format!("Pair {gone} ends below this elevation and is not offered."),
                source,
            );
        }
    }
    draft.place = Some(place);
    Ok(())
}

fn note_place(
    case: &Case<'_>,
    draft: &mut Draft<'_>,
    elevation: &Elevation,
    place: &Place,
) -> Result<(), Refusal> {
    if !elevation.is_certain() {
        draft.assumed.push(format!(
            "The elevation is uncertain; its upper edge of {} ft counts.",
            quantity::show::number(place.told)
        ));
    }
    if place.below_floor {
        draft.mark(
            "below-sea-level",
            "A place below sea level counts as sea level; water boils hotter there, and no publication was read for it.",
            place.floor.source.clone(),
        );
    }
    let differs = draft
        .candidates
        .iter()
        .any(|c| !row_applies(c.row, place.told.max(Exact::from_integer(0))));
    if place.at_edge && differs {
        draft.mark(
            "exactly-at-edge",
            format!(
                "At exactly {} ft the table's lower row still reads, while the text says to use the longer time or higher pressure from there on: the stricter is used.",
                place.edge.shown()
            ),
            place.edge.source.clone(),
        );
    }
    let ceiling = limit(case.reference, "all", "dial-gauge-ceiling")?;
    if place.feet > ceiling.value && draft.candidates.iter().any(|c| c.row.high_ft.is_none()) {
        draft.condition(
            "no-ceiling-printed",
            format!(
                "Above {} ft: the table names no ceiling; ask your extension service.",
                ceiling.shown()
            ),
            ceiling.source,
        );
    }
    let bands = offers::one_of(draft.candidates.iter().map(|c| c.row.band_words()));
    draft.fired(
        "band",
        format!(
            "{} ft counts in the band {}.",
            quantity::show::number(place.told),
            bands.join(" and ")
        ),
        place.edge.source.clone(),
    );
    Ok(())
}

/// The printed refusal of a pair at this place, with its page.
fn not_recommended(
    case: &Case<'_>,
    before: &[super::Candidate<'_>],
    place: &Place,
) -> Option<(String, String)> {
    case.reference
        .not_recommended_for(&case.food.food, Some(case.row_method))
        .into_iter()
        .find(|row| {
            before
                .iter()
                .any(|c| row.jar == c.row.jar && row.option == Some(c.row.option))
                && row
                    .low_ft
                    .is_some_and(|low| exact(low) - whole(1) < place.feet)
                && row.high_ft.is_none_or(|high| place.feet <= exact(high))
        })
        .map(|row| {
            let pair = match (row.minutes, row.psi) {
                (Some(minutes), Some(psi)) => format!("{minutes} min at {psi} psi"),
                _ => "this pair".to_owned(),
            };
            (pair, row.source.clone())
        })
}

fn ended(case: &Case<'_>, before: &[super::Candidate<'_>], place: &Place) -> Refusal {
    let feet = quantity::show::number(place.told);
    if let Some((pair, source)) = not_recommended(case, before, place) {
        return Refusal::new(
            PAIR_NOT_RECOMMENDED,
            format!(
                "{}: the table prints {pair} as not recommended at {feet} ft.",
                case.food.title
            ),
            "Use another printed pair of this table.",
            source,
        )
        .offering(other_pairs(case, place));
    }
    if case.row_method == Method::DialGauge {
        return Refusal::new(
            ABOVE_DIAL_CEILING,
            format!("The dial-gauge tables end below {feet} ft; no pressure is published above."),
            "Use a weighted gauge or boiling water where the food has such a row, or freeze it.",
            limit_source(case.reference, "all", "dial-gauge-ceiling"),
        )
        .offering(offers::methods(case, Some(place.feet)));
    }
    Refusal::new(
        ABOVE_TABLE,
        format!("{}: the printed rows end below {feet} ft.", case.food.title),
        "Use another pair or method, or freeze it.",
        case.food.source.clone(),
    )
    .offering(offers::methods(case, Some(place.feet)))
}

/// Other whole pairs of the same table at this place.
fn other_pairs(case: &Case<'_>, place: &Place) -> Vec<Offer> {
    let rows = case.reference.processes_for(&case.food.food);
    offers::one_of(
        rows.into_iter()
            .filter(|row| row.method == case.row_method && row_applies(row, place.feet))
            .map(|row| row.option.to_string()),
    )
    .into_iter()
    .map(|word| Offer {
        kind: "option",
        text: format!("pair {word}"),
        value: word,
    })
    .collect()
}
