//! Lots, candidates and the house's limits as the plain numbers a solver understands.

use super::{Candidate, FreshLot, HouseLimits, OpenNeed, Window};
use plan::allocation::{
    ContainerLimit, DayLimit, Good, IngredientLimit, Input, Lot, Outlet, Prices, Problem,
};
use std::collections::BTreeMap;

/// Points for one pound of surplus food saved. The other prices are told in pounds of surplus,
/// so this number only sets the scale (our own choice).
pub const POINTS_PER_POUND: i64 = 100;

/// Points per quart-sized container of a need, by priority in words; the last third of a need is
/// worth half. Our own choice, shown with the plan: a must-have quart is worth 15 lb of surplus,
/// a wanted one 8 lb, a nice one 4 lb.
const MUST_POINTS: i64 = 15 * POINTS_PER_POUND;
const WANT_POINTS: i64 = 8 * POINTS_PER_POUND;
const NICE_POINTS: i64 = 4 * POINTS_PER_POUND;

/// Points a batch loses for each day it waits: enough to prefer today, never enough to matter
/// more than food (our own choice).
const POINTS_PER_BATCH_DAY: i64 = 2;

/// The problem, and how its parts lead back to lots and candidates (same order, same index).
pub fn build(
    window: Window,
    lots: &[FreshLot],
    candidates: &[Candidate],
    limits: &HouseLimits,
) -> Problem {
    let goods = goods(&limits.needs);
    let containers: BTreeMap<&str, usize> = limits
        .containers
        .iter()
        .enumerate()
        .map(|(index, (key, _, _))| (key.as_str(), index))
        .collect();
    let ingredients: BTreeMap<&str, usize> = limits
        .ingredients
        .iter()
        .enumerate()
        .map(|(index, (key, _, _))| (key.as_str(), index))
        .collect();
    // Each lot is a class of its own: what fits a lot depends on crop, grade and history, and
    // the candidates have named the lots already.
    let class_of: BTreeMap<i64, usize> = lots
        .iter()
        .enumerate()
        .map(|(index, lot)| (lot.id, index))
        .collect();
    Problem {
        first_day: window.first,
        days: (0..usize::try_from(window.days).unwrap_or(0))
            .map(|day| DayLimit {
                hands_minutes: limits.hands.get(day).copied().unwrap_or(0),
                canner_loads: limits.loads.get(day).cloned().unwrap_or_default(),
                freeze_grams: limits.freeze_grams,
                dryer_trays: limits.trays,
            })
            .collect(),
        classes: lots.iter().map(|lot| lot.title.clone()).collect(),
        lots: lots
            .iter()
            .enumerate()
            .map(|(index, lot)| solver_lot(index, lot))
            .collect(),
        outlets: candidates
            .iter()
            .map(|candidate| {
                outlet(
                    candidate,
                    window.days,
                    limits,
                    &containers,
                    &ingredients,
                    &class_of,
                )
            })
            .collect(),
        containers: limits
            .containers
            .iter()
            .map(|(_, words, count)| ContainerLimit {
                name: words.clone(),
                available: *count,
            })
            .collect(),
        ingredients: limits
            .ingredients
            .iter()
            .map(|(key, words, amount)| IngredientLimit {
                name: words.clone(),
                available: *amount,
                unit: if key.is_empty() {
                    String::new()
                } else {
                    "smallest units".to_owned()
                },
            })
            .collect(),
        freezer_room_ml: limits.freezer_room_ml,
        canners: limits.canners.clone(),
        goods,
        prices: Prices {
            points_per_hour: limits.hour_pounds.saturating_mul(POINTS_PER_POUND),
            points_per_batch_day: POINTS_PER_BATCH_DAY,
            points_per_setup_minute: 0,
        },
    }
}

fn solver_lot(index: usize, lot: &FreshLot) -> Lot {
    // The plan holds to the early end of the keeping range (ruling 58). A lot between its early
    // and late end is for today; one past its late end cannot be used at all.
    let last_day = if lot.late_in < 0 {
        -1
    } else {
        lot.early_in.max(0)
    };
    Lot {
        id: lot.id,
        name: lot.title.clone(),
        kind: index,
        grams: lot.grams,
        first_day: lot.ready_in.max(0).min(last_day.max(0)),
        last_day,
        waste_points_per_kg: points_per_kilogram(POINTS_PER_POUND),
    }
}

/// Points per kilogram from points per pound, rounded to the nearest.
pub fn points_per_kilogram(points_per_pound: i64) -> i64 {
    // 1 lb = 0.45359237 kg exactly.
    (points_per_pound * 100_000_000 + 22_679_618) / 45_359_237
}

fn outlet(
    candidate: &Candidate,
    days: i64,
    limits: &HouseLimits,
    containers: &BTreeMap<&str, usize>,
    ingredients: &BTreeMap<&str, usize>,
    class_of: &BTreeMap<i64, usize>,
) -> Outlet {
    let mut needs_containers = Vec::new();
    if !candidate.container.is_empty() {
        if let Some(&index) = containers.get(candidate.container.as_str()) {
            needs_containers.push((index, candidate.containers_per_unit));
        }
        let lid = limits
            .lid_of
            .iter()
            .find(|(jar, _)| *jar == candidate.container);
        if let Some(&index) = lid.and_then(|(_, lid)| containers.get(lid.as_str())) {
            needs_containers.push((index, candidate.containers_per_unit));
        }
    }
    // The table takes grams, a day at a time.
    if candidate.route == "fresh"
        && let Some(&index) = candidate
            .only_day
            .and_then(|day| containers.get(format!("table:{day}").as_str()))
    {
        needs_containers.push((
            index,
            candidate.inputs.iter().map(|input| input.grams).sum(),
        ));
    }
    let good = limits
        .needs
        .iter()
        .position(|need| need.product == candidate.key && need.container == candidate.container);
    let grams: i64 = candidate.inputs.iter().map(|input| input.grams).sum();
    Outlet {
        key: format!("{}@{}", candidate.key, candidate.container),
        name: candidate.title.clone(),
        route: candidate.route.clone(),
        good,
        yields: if good.is_some() {
            candidate.containers_per_unit
        } else {
            0
        },
        inputs: candidate
            .inputs
            .iter()
            .map(|input| Input {
                classes: input
                    .lots
                    .iter()
                    .filter_map(|lot| class_of.get(lot).copied())
                    .collect(),
                grams: input.grams,
            })
            .collect(),
        min_per_day: candidate.min_units,
        max_per_day: candidate.max_units,
        setup_minutes: candidate.setup_minutes,
        minutes_per_batch: candidate.unit_minutes,
        canner: candidate.canner,
        loads_hundredths: if candidate.canner.is_some() {
            100 / candidate.units_per_load.max(1)
        } else {
            0
        },
        containers: needs_containers,
        ingredients: candidate
            .ingredients
            .iter()
            .filter_map(|(key, amount)| {
                ingredients.get(key.as_str()).map(|&index| (index, *amount))
            })
            .collect(),
        freezer_ml: candidate.freezer_ml,
        freeze_grams: if candidate.route == "freezer" {
            grams
        } else {
            0
        },
        dryer_trays: candidate.trays,
        days_allowed: (candidate.only_day.is_some() || candidate.first_day > 0).then(|| {
            (0..days)
                .map(|day| {
                    day >= candidate.first_day && candidate.only_day.is_none_or(|only| only == day)
                })
                .collect()
        }),
        value_points: candidate.unit_points,
    }
}

fn goods(needs: &[OpenNeed]) -> Vec<Good> {
    needs
        .iter()
        .map(|need| {
            let open = (need.wanted - need.stands).max(0);
            let full = open - open / 3;
            let points = container_points(&need.priority, &need.container);
            let mut steps = vec![(full, points)];
            if open > full {
                steps.push((open - full, points / 2));
            }
            Good {
                name: need.title.clone(),
                unit: need.container.clone(),
                steps,
            }
        })
        .collect()
}

/// Worth of one container of a need: the priority's price for a quart, by size of container.
fn container_points(priority: &str, container: &str) -> i64 {
    let quart = match priority {
        "must" => MUST_POINTS,
        "nice" => NICE_POINTS,
        _ => WANT_POINTS,
    };
    quart * quarter_quarts(container) / 4
}

/// Size of a container in quarter quarts, for the price only.
fn quarter_quarts(container: &str) -> i64 {
    match container {
        "half-pint" | "250-ml" => 1,
        "12-ounce" | "pint" | "500-ml" | "pint-bag" => 2,
        "pint-and-half" => 3,
        "half-gallon" => 8,
        _ => 4,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::date;

    fn lot(id: i64, early_in: i64, late_in: i64) -> FreshLot {
        FreshLot {
            id,
            title: format!("lot {id}"),
            crop: "kale".into(),
            grade: "sound".into(),
            grams: 5000,
            ready_in: 0,
            early_in,
            late_in,
            closed_routes: Vec::new(),
        }
    }

    #[test]
    fn plans_hold_to_the_early_end_of_the_keeping_range() {
        let window = Window {
            first: date(2026, 8, 27),
            days: 7,
        };
        let lots = [lot(1, 3, 6), lot(2, -1, 2), lot(3, -4, -2)];
        let problem = build(window, &lots, &[], &HouseLimits::default());
        let days: Vec<(i64, i64)> = problem
            .lots
            .iter()
            .map(|lot| (lot.first_day, lot.last_day))
            .collect();
        assert_eq!(days, [(0, 3), (0, 0), (0, -1)]);
    }

    #[test]
    fn the_last_third_of_a_need_is_worth_half() {
        let need = OpenNeed {
            product: "tomato-juice".into(),
            container: "quart".into(),
            title: "Tomato juice".into(),
            wanted: 16,
            stands: 7,
            priority: "must".into(),
        };
        assert_eq!(goods(&[need])[0].steps, [(6, 1500), (3, 750)]);
    }

    #[test]
    fn a_pound_of_waste_keeps_its_price_in_kilograms() {
        assert_eq!(points_per_kilogram(100), 220);
    }
}
