//! Judges a timetable: one function for each rule, none of them taken from the solver.

use serde::Serialize;

use super::flaws::problem_flaws;
use super::problem::{HANDS, Problem};
use super::timetable::{Timetable, cost};

/// One rule that a timetable breaks.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Breach {
    /// Code of the rule, such as "K1007" (see [`RULES`]).
    pub code: &'static str,
    /// What is wrong, with names and clock times.
    pub text: String,
}

/// Every rule: its code and what it asks.
pub const RULES: &[(&str, &str)] = &[
    ("K1000", "the day itself is well-formed"),
    ("K1001", "every step has a start"),
    ("K1002", "steps never use more of a resource than there is"),
    ("K1003", "what is held across steps counts as used"),
    ("K1004", "nothing uses what is away on a break"),
    ("K1005", "no step starts before its earliest start"),
    ("K1006", "a fixed start is kept"),
    ("K1007", "least times between steps are kept"),
    ("K1008", "most times of safety between steps are kept"),
    ("K1009", "no step ends after the finish-by"),
    ("K1010", "no step starts before the day does"),
    ("K1011", "the end is that of the last step"),
    ("K1012", "the value is what the starts cost"),
    ("K1013", "the bound is not above the value"),
    ("K1014", "a proven timetable costs what the bound says"),
    ("K1015", "somebody is there while a step may not be left"),
    ("K1016", "a hold ends after it starts"),
];

/// Everything that is wrong with a timetable; empty when it is accepted.
pub fn check(problem: &Problem, timetable: &Timetable) -> Vec<Breach> {
    let mut breaches = check_k1000_well_formed(problem);
    breaches.extend(check_k1001_every_step_has_a_start(problem, timetable));
    if !breaches.is_empty() {
        // The other rules would look up steps and starts that are not there.
        return breaches;
    }
    for rule in [
        check_k1002_capacity_of_steps,
        check_k1003_capacity_with_holds,
        check_k1004_capacity_with_breaks,
        check_k1005_not_before,
        check_k1006_fixed_start,
        check_k1007_least_times,
        check_k1008_most_times,
        check_k1009_finish_by,
        check_k1010_day_start,
        check_k1011_end,
        check_k1012_value,
        check_k1013_bound,
        check_k1014_proof,
        check_k1015_somebody_there,
        check_k1016_holds_run_forward,
    ] {
        breaches.extend(rule(problem, timetable));
    }
    breaches
}

fn breach(code: &'static str, text: String) -> Breach {
    Breach { code, text }
}

fn check_k1000_well_formed(problem: &Problem) -> Vec<Breach> {
    problem_flaws(problem)
        .into_iter()
        .map(|flaw| breach("K1000", flaw))
        .collect()
}

fn check_k1001_every_step_has_a_start(problem: &Problem, timetable: &Timetable) -> Vec<Breach> {
    let (steps, starts) = (problem.steps.len(), timetable.starts.len());
    if steps == starts {
        return Vec::new();
    }
    vec![breach(
        "K1001",
        format!("the day has {steps} steps, but the timetable has {starts} starts"),
    )]
}

fn end_of(problem: &Problem, timetable: &Timetable, step: usize) -> i64 {
    timetable.starts[step].saturating_add(problem.steps[step].minutes)
}

/// How much of one resource is used between two moments, and by what.
struct Slice {
    from: i64,
    steps: i64,
    holds: i64,
    away: i64,
    users: Vec<String>,
}

/// Cuts the day at every start and end of a use of the resource. Counting anew in each slice is
/// slow and plain on purpose: there is nothing to get wrong.
fn slices(problem: &Problem, timetable: &Timetable, resource: usize) -> Vec<Slice> {
    let mut steps = Vec::new();
    for (index, step) in problem.steps.iter().enumerate() {
        for &(used, amount) in &step.demands {
            if used == resource {
                let (from, to) = (timetable.starts[index], end_of(problem, timetable, index));
                steps.push((from, to, amount, problem.step_title(index)));
            }
        }
    }
    let mut holds = Vec::new();
    for hold in &problem.holds {
        if hold.resource == resource {
            let from = timetable.starts[hold.from_step];
            let to = end_of(problem, timetable, hold.to_step);
            let title = format!(
                "kept from {} to {}",
                problem.step_title(hold.from_step),
                problem.step_title(hold.to_step)
            );
            holds.push((from, to, hold.amount, title));
        }
    }
    let mut breaks = Vec::new();
    for pause in &problem.breaks {
        if pause.resource == resource {
            breaks.push((pause.from, pause.to, pause.amount, "a break".to_string()));
        }
    }
    let mut moments: Vec<i64> = Vec::new();
    for (from, to, _, _) in steps.iter().chain(&holds).chain(&breaks) {
        moments.push(*from);
        moments.push(*to);
    }
    moments.sort_unstable();
    moments.dedup();
    let at = |uses: &[(i64, i64, i64, String)], moment: i64, users: &mut Vec<String>| {
        let mut sum = 0;
        for (from, to, amount, title) in uses {
            if *from <= moment && moment < *to && *amount > 0 {
                sum += amount;
                users.push(title.clone());
            }
        }
        sum
    };
    moments
        .into_iter()
        .map(|from| {
            let mut users = Vec::new();
            Slice {
                from,
                steps: at(&steps, from, &mut users),
                holds: at(&holds, from, &mut users),
                away: at(&breaks, from, &mut users),
                users,
            }
        })
        .collect()
}

/// Reports the first slice of each resource in which `broken` says how much too much is used.
fn capacity_rule(
    problem: &Problem,
    timetable: &Timetable,
    code: &'static str,
    broken: impl Fn(&Slice, i64) -> bool,
) -> Vec<Breach> {
    let mut breaches = Vec::new();
    for (resource, data) in problem.resources.iter().enumerate() {
        let found = slices(problem, timetable, resource)
            .into_iter()
            .find(|slice| broken(slice, data.capacity));
        if let Some(slice) = found {
            let text = format!(
                "at {} {} of {} are in use, but there are {}: {}",
                problem.clock(slice.from),
                slice.steps + slice.holds,
                data.name,
                (data.capacity - slice.away).max(0),
                slice.users.join(", ")
            );
            breaches.push(breach(code, text));
        }
    }
    breaches
}

fn check_k1002_capacity_of_steps(problem: &Problem, timetable: &Timetable) -> Vec<Breach> {
    capacity_rule(problem, timetable, "K1002", |slice, capacity| {
        slice.steps > capacity
    })
}

fn check_k1003_capacity_with_holds(problem: &Problem, timetable: &Timetable) -> Vec<Breach> {
    capacity_rule(problem, timetable, "K1003", |slice, capacity| {
        slice.steps <= capacity && slice.steps + slice.holds > capacity
    })
}

fn check_k1004_capacity_with_breaks(problem: &Problem, timetable: &Timetable) -> Vec<Breach> {
    capacity_rule(problem, timetable, "K1004", |slice, capacity| {
        let used = slice.steps + slice.holds;
        used > 0 && used <= capacity && used > capacity - slice.away
    })
}

fn check_k1005_not_before(problem: &Problem, timetable: &Timetable) -> Vec<Breach> {
    let mut breaches = Vec::new();
    for (index, step) in problem.steps.iter().enumerate() {
        let start = timetable.starts[index];
        if step.fixed_start.is_none() && start < step.not_before {
            let text = format!(
                "{} starts at {}, but not before {} is asked",
                problem.step_title(index),
                problem.clock(start),
                problem.clock(step.not_before)
            );
            breaches.push(breach("K1005", text));
        }
    }
    breaches
}

fn check_k1006_fixed_start(problem: &Problem, timetable: &Timetable) -> Vec<Breach> {
    let mut breaches = Vec::new();
    for (index, step) in problem.steps.iter().enumerate() {
        let start = timetable.starts[index];
        if let Some(fixed) = step.fixed_start
            && start != fixed
        {
            let text = format!(
                "{} starts at {}, but is fixed at {}",
                problem.step_title(index),
                problem.clock(start),
                problem.clock(fixed)
            );
            breaches.push(breach("K1006", text));
        }
    }
    breaches
}

fn check_k1007_least_times(problem: &Problem, timetable: &Timetable) -> Vec<Breach> {
    let mut breaches = Vec::new();
    for lag in &problem.lags {
        let (from, to) = (timetable.starts[lag.from], timetable.starts[lag.to]);
        if to < from.saturating_add(lag.min) {
            let text = format!(
                "{} starts {} minutes after {}, but at least {} are needed",
                problem.step_title(lag.to),
                to.saturating_sub(from),
                problem.step_title(lag.from),
                lag.min
            );
            breaches.push(breach("K1007", text));
        }
    }
    breaches
}

fn check_k1008_most_times(problem: &Problem, timetable: &Timetable) -> Vec<Breach> {
    let mut breaches = Vec::new();
    for lag in &problem.lags {
        let (from, to) = (timetable.starts[lag.from], timetable.starts[lag.to]);
        if let (Some(max), true) = (lag.max, lag.max_is_safety)
            && to > from.saturating_add(max)
        {
            let text = format!(
                "{} starts {} minutes after {}, but at most {max} are safe",
                problem.step_title(lag.to),
                to.saturating_sub(from),
                problem.step_title(lag.from),
            );
            breaches.push(breach("K1008", text));
        }
    }
    breaches
}

fn check_k1009_finish_by(problem: &Problem, timetable: &Timetable) -> Vec<Breach> {
    let mut breaches = Vec::new();
    for index in 0..problem.steps.len() {
        let end = end_of(problem, timetable, index);
        if end > problem.horizon {
            let text = format!(
                "{} ends at {}, after the finish-by of {}",
                problem.step_title(index),
                problem.clock(end),
                problem.clock(problem.horizon)
            );
            breaches.push(breach("K1009", text));
        }
    }
    breaches
}

fn check_k1010_day_start(problem: &Problem, timetable: &Timetable) -> Vec<Breach> {
    let mut breaches = Vec::new();
    for (index, start) in timetable.starts.iter().enumerate() {
        if *start < 0 {
            let text = format!(
                "{} starts {} minutes before the day does",
                problem.step_title(index),
                start.unsigned_abs()
            );
            breaches.push(breach("K1010", text));
        }
    }
    breaches
}

fn check_k1011_end(problem: &Problem, timetable: &Timetable) -> Vec<Breach> {
    let end = (0..problem.steps.len())
        .map(|step| end_of(problem, timetable, step))
        .max()
        .unwrap_or(0)
        .max(0);
    if end == timetable.end {
        return Vec::new();
    }
    let text = format!(
        "the last step ends at {}, but the timetable says {}",
        problem.clock(end),
        problem.clock(timetable.end)
    );
    vec![breach("K1011", text)]
}

fn check_k1012_value(problem: &Problem, timetable: &Timetable) -> Vec<Breach> {
    let value = cost(problem, &timetable.starts).value();
    if value == timetable.value {
        return Vec::new();
    }
    let text = format!(
        "the starts cost {value} points, but the timetable says {}",
        timetable.value
    );
    vec![breach("K1012", text)]
}

fn check_k1013_bound(_: &Problem, timetable: &Timetable) -> Vec<Breach> {
    if timetable.bound <= timetable.value {
        return Vec::new();
    }
    let text = format!(
        "the bound of {} points is above the value of {}",
        timetable.bound, timetable.value
    );
    vec![breach("K1013", text)]
}

fn check_k1014_proof(_: &Problem, timetable: &Timetable) -> Vec<Breach> {
    if !timetable.proven || timetable.bound >= timetable.value {
        return Vec::new();
    }
    let text = format!(
        "it is called proven at {} points, but the bound is {}",
        timetable.value, timetable.bound
    );
    vec![breach("K1014", text)]
}

/// A step that may not be left alone and asks for no hands of its own still needs somebody in the
/// house. Steps that do ask for hands are judged by the capacity rules.
fn check_k1015_somebody_there(problem: &Problem, timetable: &Timetable) -> Vec<Breach> {
    let is_hands = |resource: usize| problem.resources[resource].kind == HANDS;
    let mut breaches = Vec::new();
    for (index, step) in problem.steps.iter().enumerate() {
        let asks = step.demands.iter().any(|&(r, n)| n > 0 && is_hands(r));
        if step.unattended || asks {
            continue;
        }
        let (start, end) = (timetable.starts[index], end_of(problem, timetable, index));
        // Presence changes only where a break begins or ends.
        let mut moments = vec![start];
        for pause in &problem.breaks {
            if is_hands(pause.resource) {
                moments.extend([pause.from, pause.to]);
            }
        }
        moments.retain(|moment| *moment >= start && *moment < end);
        let alone = moments
            .into_iter()
            .find(|moment| people_at(problem, *moment) == 0);
        if let Some(moment) = alone {
            let text = format!(
                "nobody is there at {} while {} runs, which may not be left alone",
                problem.clock(moment),
                problem.step_title(index)
            );
            breaches.push(breach("K1015", text));
        }
    }
    breaches
}

fn people_at(problem: &Problem, moment: i64) -> i64 {
    let mut people = 0;
    for (resource, data) in problem.resources.iter().enumerate() {
        if data.kind == HANDS {
            let away: i64 = problem
                .breaks
                .iter()
                .filter(|b| b.resource == resource && b.from <= moment && moment < b.to)
                .map(|b| b.amount)
                .sum();
            people += (data.capacity - away).max(0);
        }
    }
    people
}

fn check_k1016_holds_run_forward(problem: &Problem, timetable: &Timetable) -> Vec<Breach> {
    let mut breaches = Vec::new();
    for hold in &problem.holds {
        let from = timetable.starts[hold.from_step];
        let to = end_of(problem, timetable, hold.to_step);
        if to < from {
            let text = format!(
                "{} is to be kept from {} to {}, but that ends {} minutes before it starts",
                problem.resource_title(hold.resource),
                problem.step_title(hold.from_step),
                problem.step_title(hold.to_step),
                from.saturating_sub(to)
            );
            breaches.push(breach("K1016", text));
        }
    }
    breaches
}
