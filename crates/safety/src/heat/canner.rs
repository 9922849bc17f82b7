//! Rules about the canner: its size, its weights, its gauge, and steam.

use super::{Case, Draft, offers};
use crate::codes::{
    BAD_DATE, CANNER_SIZE_UNKNOWN, GAUGE_REPLACE, GAUGE_TEST_OLD, GAUGE_UNTESTED, NOT_A_CANNER,
    OVER_MAX_PRESSURE, STEAM_TOO_LONG, WEIGHT_MISSING,
};
use crate::numbers::{exact, house_rule, practice};
use crate::question::CannerFacts;
use crate::refusal::{Offer, Refusal};
use jiff::ToSpan;
use jiff::civil::Date;
use quantity::{Exact, checked_add, checked_sub, show, whole};
use reference::Method;

/// A pressure canner must hold enough quart jars upright; smoked fish needs a large one.
pub(super) fn vessel<'a>(case: &Case<'a>, draft: &mut Draft<'a>) -> Result<(), Refusal> {
    if !case.method.is_pressure() {
        return Ok(());
    }
    let least = practice(case.reference, "smallest-canner-quarts")?;
    let Some(holds) = case.question.canner_holds_quart_jars else {
        return Err(Refusal::new(
            CANNER_SIZE_UNKNOWN,
            "Nobody has said how many quart jars stand upright in the pressure canner.",
            format!("Count them; {} or more make it a canner.", least.shown()),
            least.source,
        ));
    };
    if exact(holds) < least.value {
        return Err(Refusal::new(
            NOT_A_CANNER,
            format!(
                "A vessel that holds {holds} quart jars upright is a pressure saucepan or a cooker, not a canner; it must hold {}.",
                least.shown()
            ),
            "Use a pressure canner of that size, or freeze the food.",
            least.source,
        )
        .offering(freezer()));
    }
    // The table gives the size of the canner for smoked fish as a limit of that food.
    let sized = case
        .reference
        .limits_for(&case.food.food)
        .into_iter()
        .find(|limit| limit.rule == "canner-size");
    if let Some(limit) = sized
        && let Some(least) = limit.value.as_ref().map(|v| v.high())
    {
        let refuse = |code, reason: String| {
            Err(Refusal::new(
                code,
                reason,
                format!("{}.", limit.detail),
                limit.source.clone(),
            )
            .offering(freezer()))
        };
        match case.question.canner_volume_quarts {
            None => {
                return refuse(
                    CANNER_SIZE_UNKNOWN,
                    format!(
                        "{} asks for a large canner, and its volume is not known.",
                        case.food.title
                    ),
                );
            }
            Some(volume) if exact(volume) < least => {
                return refuse(
                    NOT_A_CANNER,
                    format!(
                        "{}: a canner of {volume} quarts is too small.",
                        case.food.title
                    ),
                );
            }
            Some(_) => {}
        }
    }
    draft.fired(
        "vessel",
        format!(
            "The canner holds {holds} quart jars upright; {} are asked.",
            least.shown()
        ),
        least.source,
    );
    Ok(())
}

/// Keeps the pairs whose weight the house owns; a higher weight never stands in.
pub(super) fn weights<'a>(case: &Case<'a>, draft: &mut Draft<'a>) -> Result<(), Refusal> {
    let owned = match &case.question.canner {
        CannerFacts::Weighted { weights_psi } => weights_psi,
        CannerFacts::DialWithWeight { weights_psi } => {
            draft.fired(
                "dial-with-weight",
                "With a weight fitted the weight's rows rule, and the dial only confirms.",
                "from memory, not read",
            );
            weights_psi
        }
        CannerFacts::BoilingWater | CannerFacts::Steam | CannerFacts::Dial { .. } => return Ok(()),
    };
    let asked = offers::one_of(
        draft
            .candidates
            .iter()
            .filter_map(|c| c.row.psi.map(|psi| psi.to_string())),
    );
    draft
        .candidates
        .retain(|c| c.row.psi.is_some_and(|psi| owned.contains(&psi)));
    if draft.candidates.is_empty() {
        return Err(Refusal::new(
            WEIGHT_MISSING,
            format!(
                "{}: the printed pressure here is {} psi, and the house does not own that weight. A higher one does not replace it.",
                case.food.title,
                asked.join(" or ")
            ),
            "Get the weight, or use another method.",
            case.food.source.clone(),
        )
        .offering(offers::methods(case, draft.place.as_ref().map(|p| p.feet))));
    }
    Ok(())
}

/// A dial must be tested, not too long ago, and off by little; what it must show is printed + error.
pub(super) fn gauge<'a>(case: &Case<'a>, draft: &mut Draft<'a>) -> Result<(), Refusal> {
    let CannerFacts::Dial {
        error_psi,
        tested_on,
    } = &case.question.canner
    else {
        return Ok(());
    };
    let offered = offers::methods(case, draft.place.as_ref().map(|p| p.feet));
    let age = house_rule(case.reference, "gauge-test-max-age")?;
    let (Some(error), Some(tested_on)) = (error_psi, tested_on) else {
        return Err(Refusal::new(
            GAUGE_UNTESTED,
            "The dial gauge was never tested, or its error is not known: the printed row is a look-up, not a permit.",
            format!("Have the gauge tested. {}.", age_text(case)),
            age_source(case, &age.source),
        )
        .offering(offered));
    };
    test_age(case, tested_on, &age, &offered)?;
    let replace = practice(case.reference, "dial-gauge-replace-over")?;
    // A figure too large to turn round is in any case beyond what may be corrected.
    let size = if *error < whole(0) {
        checked_sub(whole(0), *error).unwrap_or(replace.value + whole(1))
    } else {
        *error
    };
    if size > replace.value {
        return Err(Refusal::new(
            GAUGE_REPLACE,
            format!("The dial gauge is off by {} psi.", show::number(size)),
            format!(
                "Replace a gauge that is off by more than {} psi.",
                replace.shown()
            ),
            replace.source,
        )
        .offering(offered));
    }
    let stricter = practice(case.reference, "dial-gauge-replace-stricter")?;
    if size > stricter.value {
        draft.mark(
            "gauge-off",
            format!(
                "The gauge is off by {} psi: some state services replace it beyond {} psi.",
                show::number(size),
                stricter.shown()
            ),
            stricter.source,
        );
    }
    if *error < whole(0) {
        draft.mark(
            "gauge-reads-low",
            "The gauge reads low: the printed pressure is held on the dial, never less.",
            replace.source.clone(),
        );
    }
    let most = practice(case.reference, "max-psi")?;
    let mut least_over: Option<Exact> = None;
    for candidate in &mut draft.candidates {
        let printed = exact(candidate.row.psi.unwrap_or_default());
        // A sum too fine to form counts as over the limit: no permit rests on it.
        let shows = checked_add(printed, (*error).max(whole(0)));
        candidate.dial_shows_psi = Some(shows.unwrap_or(most.value + whole(1)));
    }
    draft.candidates.retain(|candidate| {
        let shows = candidate.dial_shows_psi.unwrap_or_default();
        let fits = shows <= most.value;
        if !fits {
            least_over = Some(least_over.map_or(shows, |least| least.min(shows)));
        }
        fits
    });
    if let (true, Some(shows)) = (draft.candidates.is_empty(), least_over) {
        return Err(Refusal::new(
            OVER_MAX_PRESSURE,
            format!(
                "The dial would have to show {} psi, printed pressure and gauge error together; more than {} psi is not used.",
                show::number(shows),
                most.shown()
            ),
            "Replace the gauge, or use another method.",
            most.source,
        )
        .offering(offered));
    }
    if *error > whole(0) {
        draft.fired(
            "gauge-reads-high",
            format!(
                "The gauge reads {} psi high: that is added to the printed pressure.",
                show::number(*error)
            ),
            replace.source,
        );
    }
    Ok(())
}

fn age_text(case: &Case<'_>) -> String {
    case.reference
        .house_rule("gauge-test-max-age")
        .map(|rule| rule.note.clone())
        .unwrap_or_default()
}

fn age_source(case: &Case<'_>, ours: &str) -> String {
    let printed = case.reference.practice("dial-gauge-check-interval");
    let printed = printed.map_or("", |row| row.source.as_str());
    format!("{printed}; {ours}")
}

/// The day the test must not be older than, and not lie after.
fn test_age(
    case: &Case<'_>,
    tested_on: &str,
    age: &crate::numbers::Sourced,
    offered: &[Offer],
) -> Result<(), Refusal> {
    let today: Date = case.question.on.parse().map_err(|_| {
        Refusal::new(
            BAD_DATE,
            format!("`{}` is no day.", case.question.on),
            "Give the day as year-month-day, such as 2026-08-14.",
            "calendar",
        )
    })?;
    let old = |reason: String| {
        Refusal::new(
            GAUGE_TEST_OLD,
            reason,
            format!("Have the gauge tested. {}.", age_text(case)),
            age_source(case, &age.source),
        )
        .offering(offered.to_vec())
    };
    let years = i16::try_from(age.value.to_integer()).unwrap_or_default();
    let tested: Result<Date, _> = tested_on.parse();
    let served = tested.and_then(|day| Ok((day, day.checked_add(years.years())?)));
    let (tested, last_day) = served.map_err(|_| {
        old(format!(
            "The day of the last gauge test, `{tested_on}`, cannot be read."
        ))
    })?;
    if tested > today {
        return Err(old(format!(
            "The gauge test of {tested} lies after the day asked about, {today}."
        )));
    }
    if today > last_day {
        return Err(old(format!(
            "The dial gauge was last tested on {tested}; that serves to {last_day}."
        )));
    }
    Ok(())
}

/// A steam canner reads the boiling-water row, up to its own limit, elevation included.
pub(super) fn steam<'a>(case: &Case<'a>, draft: &mut Draft<'a>) -> Result<(), Refusal> {
    if case.method != Method::Steam {
        return Ok(());
    }
    let most = practice(case.reference, "steam-canner-max-process")?;
    let longest = draft
        .candidates
        .iter()
        .map(|c| c.minutes)
        .max()
        .unwrap_or_default();
    draft.candidates.retain(|c| exact(c.minutes) <= most.value);
    if draft.candidates.is_empty() {
        return Err(Refusal::new(
            STEAM_TOO_LONG,
            format!(
                "{}: {longest} minutes here, and a steam canner runs {} at most, elevation included.",
                case.food.title,
                most.shown()
            ),
            "Use boiling water.",
            most.source,
        )
        .offering(vec![Offer {
            kind: "method",
            value: Method::BoilingWater.to_string(),
            text: "boiling water".to_owned(),
        }]));
    }
    let text = |key: &str| {
        case.reference
            .practice(key)
            .map(|row| (row.value.clone(), row.note.clone(), row.source.clone()))
    };
    if let Some((value, _, source)) = text("steam-canner-2015-text") {
        draft.mark(
            "steam-disagreement",
            format!(
                "Steam canner: {value} in the 2015 text; later advice allows it for acid food."
            ),
            source,
        );
    }
    if let Some((value, note, source)) = text("steam-canner-later-advice") {
        draft.condition(
            "steam",
            format!(
                "Steam canner {value} {note}; full steam before timing, lid never opened; steam lost = the full time again."
            ),
            source,
        );
    }
    Ok(())
}

fn freezer() -> Vec<Offer> {
    vec![Offer {
        kind: "freezer",
        value: "freezer".to_owned(),
        text: "the freezer".to_owned(),
    }]
}
