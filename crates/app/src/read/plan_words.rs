//! A harvest plan's parts in kitchen words: reasons, limits, the goal, the answer.

use crate::facts::Facts;
use crate::harvest::problem::POINTS_PER_POUND;
use crate::read::counter::{capital, join};
use crate::read::house::container_words;
use crate::view::Both;
use crate::view::plan::{BindingView, GoalPart, GoalView};
use crate::{balance, dates};
use ledger::Place;
use plan::allocation::{Binding, LeftOut, Limit, Plan, Problem, ReasonCode, Run};
use quantity::{Mass, show};

/// Recipe and container of an outlet's key.
pub(super) fn outlet_parts(key: &str) -> (&str, &str) {
    key.split_once('@').unwrap_or((key, ""))
}

/// The place a route leads to.
pub(super) fn place_of(route: &str) -> Place {
    route
        .parse()
        .map_or(Place::Shelf, crate::action::finish::outcome_place)
}

/// Containers that a run fills.
pub(super) fn containers_made(problem: &Problem, run: &Run) -> i64 {
    let outlet = &problem.outlets[run.outlet];
    if outlet_parts(&outlet.key).1.is_empty() {
        return 0;
    }
    outlet
        .containers
        .first()
        .map_or(outlet.yields, |(_, count)| *count)
        * run.batches
}

pub(super) fn minutes_on(problem: &Problem, plan: &Plan, day: usize) -> i64 {
    plan.runs
        .iter()
        .filter(|run| run.day == day)
        .map(|run| {
            let outlet = &problem.outlets[run.outlet];
            outlet.setup_minutes + outlet.minutes_per_batch * run.batches
        })
        .sum()
}

/// Why this batch stands on this day: the most pressing lot it uses and the need it serves.
pub(super) fn reason(problem: &Problem, plan: &Plan, run: &Run) -> String {
    let mut words = Vec::new();
    let pressing = plan
        .uses
        .iter()
        .filter(|used| used.day == run.day && used.outlet == run.outlet)
        .map(|used| &problem.lots[used.lot])
        .min_by_key(|lot| lot.last_day);
    if let Some(lot) = pressing {
        let day = i64::try_from(run.day).unwrap_or(0);
        words.push(match lot.last_day - day {
            0 => format!("the plan holds lot {} only until this day", lot.id),
            1 => format!("lot {} is due the day after", lot.id),
            left if lot.last_day < problem.horizon() => {
                format!("lot {} is due in {left} days", lot.id)
            }
            _ => "hands and canner are free".to_owned(),
        });
    }
    if let Some(good) = problem.outlets[run.outlet].good {
        let wanted: i64 = problem.goods[good]
            .steps
            .iter()
            .map(|(units, _)| units)
            .sum();
        words.push(format!(
            "{wanted} {} still wanted",
            container_words(&problem.goods[good].unit, wanted)
        ));
    }
    capital(&words.join("; "))
}

pub(super) fn answer(problem: &Problem, plan: &Plan) -> String {
    if plan.runs.is_empty() {
        return "Nothing here is worth the work by the prices of this house. Say on the House page what the winter should have and how much is eaten fresh a day.".to_owned();
    }
    let (mut jars, mut bags, mut trays) = (0, 0, 0);
    for run in &plan.runs {
        let made = containers_made(problem, run);
        let (_, container) = outlet_parts(&problem.outlets[run.outlet].key);
        if balance::is_bag(container) {
            bags += made;
        } else {
            jars += made;
        }
        trays += problem.outlets[run.outlet].dryer_trays * run.batches;
    }
    let mut parts = Vec::new();
    for (count, one, many) in [
        (jars, "jar", "jars"),
        (bags, "bag", "bags"),
        (trays, "dryer tray", "dryer trays"),
    ] {
        if count > 0 {
            parts.push(format!("{count} {}", if count == 1 { one } else { many }));
        }
    }
    let lost = lost_grams(problem, plan);
    // Less than half a pound is the rest of rounding to whole portions.
    let end = if lost < 227 {
        "Nothing is wasted.".to_owned()
    } else {
        format!("{} would be lost.", show::mass(Mass::from_grams(lost)).us)
    };
    if parts.is_empty() {
        end
    } else {
        format!("{}. {end}", capital(&join(&parts)))
    }
}

/// Grams that no batch takes and that do not keep beyond the plan.
pub(super) fn lost_grams(problem: &Problem, plan: &Plan) -> i64 {
    plan.left_out
        .iter()
        .filter(|left| {
            left.reason != ReasonCode::KeepsBeyondPlan
                && problem.lots[left.lot].last_day < problem.horizon()
        })
        .map(|left| left.grams)
        .sum()
}

pub(super) fn lead(problem: &Problem, plan: &Plan) -> String {
    let all: i64 = problem.lots.iter().map(|lot| lot.grams).sum();
    let used: i64 = plan.uses.iter().map(|used| used.grams).sum();
    let keeps: i64 = plan
        .left_out
        .iter()
        .filter(|left| problem.lots[left.lot].last_day >= problem.horizon())
        .map(|left| left.grams)
        .sum();
    let mut words = format!(
        "{} lie fresh, {} find a place",
        Both::mass(Mass::from_grams(all)),
        Both::mass(Mass::from_grams(used))
    );
    if keeps > 0 {
        words.push_str(&format!(
            ", {} keep beyond these days",
            Both::mass(Mass::from_grams(keeps))
        ));
    }
    words.push('.');
    words
}

/// The lots that stay out of jars only because a question on them is open: a plan that freezes
/// them must say that an answer would change it.
pub(super) fn unanswered(facts: &Facts) -> String {
    let lots: Vec<String> = facts
        .fresh_lots()
        .filter(|lot| {
            kitchen::history::route_limits(&lot.crop, &lot.history, None)
                .is_ok_and(|limits| limits.iter().any(|limit| limit.until_answered))
        })
        .map(|lot| lot.id.to_string())
        .collect();
    match lots.as_slice() {
        [] => String::new(),
        [one] => format!(
            " Lot {one} stays out of jars until its questions are answered on the Counter; then make the plan anew."
        ),
        _ => format!(
            " Lots {} stay out of jars until their questions are answered on the Counter; then make the plan anew.",
            join(&lots)
        ),
    }
}

pub(super) fn goal(problem: &Problem, plan: &Plan, milliseconds: Option<u64>) -> GoalView {
    let pounds = |grams: i64| show::mass(Mass::from_grams(grams)).us;
    let at_stake: i64 = problem
        .lots
        .iter()
        .filter(|lot| lot.last_day >= 0 && lot.last_day < problem.horizon())
        .map(|lot| lot.grams)
        .sum();
    let lost = lost_grams(problem, plan);
    let minutes: i64 = (0..problem.days.len())
        .map(|day| minutes_on(problem, plan, day))
        .sum();
    let gap_percent = (plan::allocation::gap(plan) * 1000.0).round() / 10.0;
    let hour = problem.prices.points_per_hour / POINTS_PER_POUND.max(1);
    GoalView {
        words: format!(
            "One pound of food saved counts {POINTS_PER_POUND} points; an hour of work costs as much as {hour} lb; a must-have quart is worth 15 lb, a wanted one 8, a nice one 4, the last third of a need half. Safety is not weighed: what the gate refuses is not here."
        ),
        parts: vec![
            GoalPart {
                part: "Food saved".to_owned(),
                words: format!(
                    "{} of {} that would not keep",
                    pounds((at_stake - lost).max(0)),
                    pounds(at_stake)
                ),
                points: -plan.parts.waste,
            },
            GoalPart {
                part: "Needs met".to_owned(),
                words: format!("{} kinds wanted for the winter", problem.goods.len()),
                points: plan.parts.goods,
            },
            GoalPart {
                part: "Table and animals".to_owned(),
                words: "eaten fresh counts for, fed to animals counts less".to_owned(),
                points: plan.parts.extra,
            },
            GoalPart {
                part: "Work".to_owned(),
                words: show::minutes(minutes),
                points: -plan.parts.work,
            },
            GoalPart {
                part: "Freshness".to_owned(),
                words: "days that batches wait".to_owned(),
                points: -plan.parts.delay,
            },
        ],
        value: plan.value,
        bound: plan.bound,
        gap_percent,
        proven: plan.proven,
        gap_words: if plan.proven {
            "no better plan exists for these facts and prices".to_owned()
        } else {
            // Rounded up: "within 0.0 %" would claim what was not proven.
            let shown = (gap_percent * 10.0).ceil().max(1.0) / 10.0;
            format!("within {shown:.1} % of the best that can exist")
        },
        milliseconds,
    }
}

/// A limit in kitchen words; nothing for the table of a day, which the household need not widen.
pub(super) fn binding_view(problem: &Problem, binding: &Binding) -> Option<BindingView> {
    let day = |day: usize| {
        dates::weekday(dates::plus_days(
            problem.first_day,
            i64::try_from(day).unwrap_or(0),
        ))
    };
    let count = |unit: &str| format!("{} of {} {unit}", binding.used, binding.available);
    let weight = || {
        format!(
            "{} of {}",
            show::mass(Mass::from_grams(binding.used)),
            show::mass(Mass::from_grams(binding.available))
        )
    };
    let (limit, used) = match binding.limit {
        Limit::Hands { day: on } => (
            format!("Hands on {}", day(on)),
            format!(
                "{} of {}",
                show::minutes(binding.used),
                show::minutes(binding.available)
            ),
        ),
        Limit::CannerLoads { day: on, canner } => (
            format!("{} on {}", capital(&problem.canners[canner]), day(on)),
            count("loads"),
        ),
        Limit::FreezeGrams { day: on } => (format!("Freezing on {}", day(on)), weight()),
        Limit::DryerTrays { day: on } => (format!("Dryer on {}", day(on)), count("trays")),
        Limit::FreezerRoom => (
            "Freezer room".to_owned(),
            format!(
                "{} of {} litres",
                binding.used / 1000,
                binding.available / 1000
            ),
        ),
        Limit::Container { container } => {
            let name = &problem.containers[container].name;
            if name.starts_with("The table") {
                return None;
            }
            (
                capital(name),
                format!("{} of {}", binding.used, binding.available),
            )
        }
        Limit::Ingredient { ingredient } => (
            capital(&problem.ingredients[ingredient].name),
            share_words(binding.used, binding.available),
        ),
        Limit::OutletMaximum { day: on, outlet } => (
            format!("{} on {}", problem.outlets[outlet].name, day(on)),
            count("times"),
        ),
    };
    let binds = binding.used >= binding.available;
    let text = format!("{limit}: {used}{}", if binds { ", all of it" } else { "" });
    Some(BindingView {
        limit,
        used,
        binds,
        text,
    })
}

/// "all of it", "9 tenths": ingredients are kept in units too small to read.
pub(super) fn share_words(used: i64, available: i64) -> String {
    if available <= 0 {
        return "none in the house".to_owned();
    }
    format!(
        "{} % of what is in the house",
        used.saturating_mul(100) / available
    )
}

/// Why a lot is left, as a sentence.
pub(super) fn left_words(problem: &Problem, left: &LeftOut) -> String {
    if left.reason == ReasonCode::KeepsBeyondPlan {
        let lot = &problem.lots[left.lot];
        return format!(
            "Keeps until about {}, beyond these days: nothing is lost by waiting.",
            dates::day(dates::plus_days(problem.first_day, lot.last_day))
        );
    }
    let mut words = capital(&left.text);
    if !words.ends_with('.') {
        words.push('.');
    }
    words
}
