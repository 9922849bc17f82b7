//! Rules on the limits of a day and of the whole time.

use std::collections::BTreeMap;

use super::figures::{freeze_grams, freezer_ml, listed, loads, minutes, trays};
use super::{Breach, Facts, breach};

/// A breach for each day on which more is used than there is.
fn over_by_day(
    facts: &Facts,
    code: &str,
    what: &str,
    used: BTreeMap<usize, i128>,
    available: impl Fn(usize) -> i64,
) -> Vec<Breach> {
    used.into_iter()
        .filter(|(day, used)| *used > i128::from(available(*day)))
        .map(|(day, used)| {
            let label = facts.problem.day_label(day as i64);
            let text = format!("{used} {what} on {label}; there are {}", available(day));
            breach(code, text)
        })
        .collect()
}

/// A breach when more is used over all days than there is.
fn over_in_all(code: &str, what: &str, used: i128, available: i64) -> Option<Breach> {
    (used > i128::from(available))
        .then(|| breach(code, format!("{used} {what}; there are {available}")))
}

/// Nobody has more minutes than the day gives.
pub(super) fn p1005_hands_suffice(facts: &Facts) -> Vec<Breach> {
    let used = facts.by_day(|run| minutes(facts, run));
    over_by_day(facts, "P1005", "minutes of work", used, |day| {
        facts.problem.days[day].hands_minutes
    })
}

/// Each canner runs whole loads, and no two outlets share one.
pub(super) fn p1006_canner_loads_suffice(facts: &Facts) -> Vec<Breach> {
    let mut found = Vec::new();
    for (canner, name) in facts.problem.canners.iter().enumerate() {
        let used = facts.by_day(|run| loads(facts, run, canner));
        let what = format!("loads of '{name}'");
        found.extend(over_by_day(facts, "P1006", &what, used, |day| {
            facts.problem.days[day].canner_loads[canner]
        }));
    }
    found
}

/// Too much warm food at once thaws what is there.
pub(super) fn p1007_freezing_limit_is_kept(facts: &Facts) -> Vec<Breach> {
    let used = facts.by_day(|run| freeze_grams(facts, run));
    over_by_day(facts, "P1007", "grams to freeze", used, |day| {
        facts.problem.days[day].freeze_grams
    })
}

/// Only so many trays dry at once.
pub(super) fn p1008_dryer_trays_suffice(facts: &Facts) -> Vec<Breach> {
    let used = facts.by_day(|run| trays(facts, run));
    over_by_day(facts, "P1008", "dryer trays", used, |day| {
        facts.problem.days[day].dryer_trays
    })
}

/// The freezer's free room holds over all days.
pub(super) fn p1009_freezer_has_room(facts: &Facts) -> Vec<Breach> {
    let used = facts.over_all_days(|run| freezer_ml(facts, run));
    over_in_all(
        "P1009",
        "millilitres of freezer room",
        used,
        facts.problem.freezer_room_ml,
    )
    .into_iter()
    .collect()
}

/// No more jars, lids or bags of a size than are on hand.
pub(super) fn p1010_containers_suffice(facts: &Facts) -> Vec<Breach> {
    let problem = facts.problem;
    let limits = problem.containers.iter().enumerate();
    limits
        .filter_map(|(index, limit)| {
            let used = facts
                .over_all_days(|run| listed(&problem.outlets[run.outlet].containers, index, run));
            over_in_all("P1010", &limit.name, used, limit.available)
        })
        .collect()
}

/// No more of an ingredient than is on hand.
pub(super) fn p1011_ingredients_suffice(facts: &Facts) -> Vec<Breach> {
    let problem = facts.problem;
    let limits = problem.ingredients.iter().enumerate();
    limits
        .filter_map(|(index, limit)| {
            let used = facts
                .over_all_days(|run| listed(&problem.outlets[run.outlet].ingredients, index, run));
            let what = format!("{} of {}", limit.unit, limit.name);
            over_in_all("P1011", &what, used, limit.available)
        })
        .collect()
}
