//! Says why a day has no timetable, in the household's words.

use plan::kitchen_day::{Breach, Clash, ClashKind, HANDS, Hold, Problem, cost, problem_flaws};

use crate::effort::Effort;

use super::compile::{NoModel, watched_steps};
use super::late::{late_starts, leavings};
use super::relax::{quick, ways_out};
use super::run::{Force, Outcome, lay_out};

/// Clashes that show without any search.
pub(super) fn at_first_sight(problem: &Problem, effort: &Effort) -> Option<Clash> {
    let flaws = problem_flaws(problem);
    if let Some(first) = flaws.first() {
        return Some(Clash {
            kind: ClashKind::FlawedProblem,
            text: format!("This day cannot be laid out: {first}."),
            members: flaws.clone(),
            relaxations: Vec::new(),
            proven: true,
        });
    }
    let mut clash = finish_by_passed(problem)
        .or_else(|| step_longer_than_day(problem))
        .or_else(|| no_such_resource(problem))
        .or_else(|| nobody_there(problem))?;
    clash.relaxations = ways_out(problem, effort, None);
    Some(clash)
}

/// The clash behind an outcome that is no timetable.
pub(super) fn clash(problem: &Problem, effort: &Effort, outcome: &Outcome) -> Clash {
    let mut late = None;
    let mut clash = match outcome {
        Outcome::Late {
            starts,
            least_end,
            forced_by,
            proven,
        } => {
            late = late_starts(problem, Some(starts), &quick(effort));
            let end = late.as_ref().map(|starts| cost(problem, starts).end);
            finish_by_too_early(problem, end, *least_end, *forced_by, *proven)
        }
        Outcome::NoModel(reason) => no_model(problem, reason),
        Outcome::NoRoom { step } => no_room(problem, *step),
        Outcome::FixedClash { step } => proven(
            ClashKind::FixedStepsClash,
            format!(
                "{} is fixed to a time at which other fixed steps already use what it needs.",
                problem.step_title(*step)
            ),
            vec![problem.step_title(*step)],
        ),
        Outcome::Unplaced { proven } => unplaced(problem, effort, *proven),
        // Not a clash; the caller asks only about failures.
        Outcome::Found(_) => proven(ClashKind::Together, String::new(), Vec::new()),
    };
    clash.relaxations = ways_out(problem, effort, late);
    clash
}

/// The answer when the checker refuses what the search found: a fault of the program, said openly.
pub(super) fn refused(breach: &Breach) -> Clash {
    Clash {
        kind: ClashKind::Together,
        text: format!(
            "The timetable found was refused by the checker ({}: {}). This is a fault of the \
             program; lay the day out with fewer batches until it is mended.",
            breach.code, breach.text
        ),
        members: Vec::new(),
        relaxations: Vec::new(),
        proven: false,
    }
}

fn proven(kind: ClashKind, text: String, members: Vec<String>) -> Clash {
    Clash {
        kind,
        text,
        members,
        relaxations: Vec::new(),
        proven: true,
    }
}

fn finish_by_passed(problem: &Problem) -> Option<Clash> {
    let any_work = problem.steps.iter().any(|s| s.minutes > 0);
    let passed = problem.horizon < 0 || (problem.horizon == 0 && any_work);
    (passed && !problem.steps.is_empty()).then(|| {
        proven(
            ClashKind::FinishByTooEarly,
            format!(
                "The finish-by of {} is not after the start of the day at {}.",
                problem.clock(problem.horizon),
                problem.clock(0)
            ),
            vec![finish_by(problem)],
        )
    })
}

fn finish_by(problem: &Problem) -> String {
    format!("finish by {}", problem.clock(problem.horizon))
}

fn step_longer_than_day(problem: &Problem) -> Option<Clash> {
    let step = (0..problem.steps.len()).find(|&s| problem.steps[s].minutes > problem.horizon)?;
    let title = problem.step_title(step);
    Some(proven(
        ClashKind::StepLongerThanDay,
        format!(
            "{title} takes {} minutes, but the day from {} to {} has only {}.",
            problem.steps[step].minutes,
            problem.clock(0),
            problem.clock(problem.horizon),
            problem.horizon
        ),
        vec![title, finish_by(problem)],
    ))
}

pub(super) fn no_such_resource(problem: &Problem) -> Option<Clash> {
    for (index, step) in problem.steps.iter().enumerate() {
        let asked = step.demands.iter().filter(|_| step.minutes > 0);
        for &(resource, _) in asked {
            // The same resource may be listed twice; what counts is the sum.
            let of = step.demands.iter().filter(|d| d.0 == resource);
            let amount: i64 = of.map(|d| d.1).sum();
            if amount > problem.resources[resource].capacity {
                return Some(too_few(
                    problem,
                    &problem.step_title(index),
                    resource,
                    amount,
                ));
            }
        }
    }
    // Only a hold that asks for too much is followed through the steps between its ends.
    let hold = problem.holds.iter().find(|hold| {
        hold.amount > problem.resources[hold.resource].capacity
            && least_kept(problem, hold).is_some_and(|minutes| minutes > 0)
    })?;
    let title = format!(
        "From {} to {}",
        problem.step_title(hold.from_step),
        problem.step_title(hold.to_step)
    );
    Some(too_few(problem, &title, hold.resource, hold.amount))
}

/// The minutes that a hold lasts at least by the least times on all ways between its ends;
/// nothing if no way leads from one to the other.
fn least_kept(problem: &Problem, hold: &Hold) -> Option<i64> {
    let mut after: Vec<Option<i64>> = vec![None; problem.steps.len()];
    after[hold.from_step] = Some(0);
    // No way that is worth going visits a step twice.
    for _ in 0..problem.steps.len() {
        let mut changed = false;
        for lag in &problem.lags {
            let Some(start) = after[lag.from].map(|from| from.saturating_add(lag.min)) else {
                continue;
            };
            if after[lag.to].is_none_or(|known| known < start) {
                after[lag.to] = Some(start);
                changed = true;
            }
        }
        if !changed {
            break;
        }
    }
    after[hold.to_step].map(|start| start.saturating_add(problem.steps[hold.to_step].minutes))
}

fn too_few(problem: &Problem, who: &str, resource: usize, amount: i64) -> Clash {
    let there = &problem.resources[resource];
    let count = match there.capacity {
        0 => "there is none".to_string(),
        1 => "there is 1".to_string(),
        n => format!("there are {n}"),
    };
    proven(
        ClashKind::NoSuchResource,
        format!("{who} needs {amount} {}, but {count}.", there.name),
        vec![who.to_string(), there.name.clone()],
    )
}

pub(super) fn nobody_there(problem: &Problem) -> Option<Clash> {
    let step = watched_steps(problem).next()?;
    let mut people = problem.resources.iter().filter(|r| r.kind == HANDS);
    if people.any(|r| r.capacity > 0) {
        return None;
    }
    let title = problem.step_title(step);
    Some(proven(
        ClashKind::NobodyThere,
        format!("{title} may not be left alone, but nobody is there all day."),
        vec![title],
    ))
}

/// `end`: earliest end found, if the day can be made longer at all.
fn finish_by_too_early(
    problem: &Problem,
    end: Option<i64>,
    least_end: i64,
    forced_by: Force,
    is_proven: bool,
) -> Clash {
    let mut members = vec![finish_by(problem)];
    let mut text = format!(
        "The steps do not fit between {} and {}",
        problem.clock(0),
        problem.clock(problem.horizon)
    );
    match end.filter(|&end| end > problem.horizon) {
        Some(end) => {
            text.push_str(&format!(
                ": the earliest end found is {}",
                problem.clock(end)
            ));
            if least_end > problem.horizon {
                let (member, cause) = cause(problem, forced_by);
                members.push(member);
                let least = problem.clock(least_end);
                text.push_str(&format!("; {cause} before {least}"));
            }
        }
        None => {
            let away = leavings(problem);
            let gone: Vec<String> = away
                .iter()
                .map(|pause| {
                    let resource = &problem.resources[pause.resource];
                    format!(
                        "{} away from {} on ({} of {})",
                        resource.name,
                        problem.clock(pause.from),
                        pause.amount,
                        resource.capacity
                    )
                })
                .collect();
            if !gone.is_empty() {
                text.push_str(&format!(" with {}", gone.join(" and ")));
            }
            members.extend(gone);
        }
    }
    text.push('.');
    Clash {
        kind: ClashKind::FinishByTooEarly,
        text,
        members,
        relaxations: Vec::new(),
        proven: is_proven,
    }
}

/// What forces the least end: as a member of the clash, and as the beginning of a sentence.
fn cause(problem: &Problem, forced_by: Force) -> (String, String) {
    match forced_by {
        Force::Resource(resource) => {
            let there = &problem.resources[resource];
            let member = format!("{} {}", there.capacity, there.name);
            let sentence = format!("with {member} they cannot end");
            (member, sentence)
        }
        Force::WayThrough(step) => {
            let step = &problem.steps[step];
            let name = match step.batch.as_str() {
                "" => &step.name,
                batch => batch,
            };
            let sentence = format!("the steps of {name} one after another cannot end");
            (name.to_string(), sentence)
        }
    }
}

fn no_model(problem: &Problem, reason: &NoModel) -> Clash {
    match reason {
        NoModel::Contradiction(steps) => {
            let members: Vec<String> = steps.iter().map(|&s| problem.step_title(s)).collect();
            proven(
                ClashKind::LagsContradict,
                format!(
                    "The least and most times between these steps contradict each other: {}.",
                    members.join(", ")
                ),
                members,
            )
        }
        NoModel::FixedTooEarly { step, earliest } => {
            let title = problem.step_title(*step);
            let fixed = problem.steps[*step].fixed_start;
            let text = match fixed {
                Some(fixed) => format!(
                    "{title} is fixed at {}, but what comes before it lets it start at {} at the \
                     earliest.",
                    problem.clock(fixed),
                    problem.clock(*earliest)
                ),
                None => format!(
                    "{title} can start at {} at the earliest, too late for a fixed step that \
                     hangs on it.",
                    problem.clock(*earliest)
                ),
            };
            proven(ClashKind::FixedStepsClash, text, vec![title])
        }
        NoModel::TooLong { minutes } => proven(
            ClashKind::FinishByTooEarly,
            format!("Least times and earliest starts alone make the day {minutes} minutes long."),
            vec![finish_by(problem)],
        ),
    }
}

fn no_room(problem: &Problem, step: usize) -> Clash {
    let title = problem.step_title(step);
    if problem.steps.iter().any(|s| s.fixed_start.is_some()) {
        return proven(
            ClashKind::FixedStepsClash,
            format!("{title} finds no time to start beside breaks and fixed steps."),
            vec![title],
        );
    }
    proven(
        ClashKind::NeverFree,
        format!("{title} finds no time at which all it needs is free for long enough."),
        vec![title],
    )
}

/// Nothing could be placed, however late: look whether the safety limits are what stops it.
fn unplaced(problem: &Problem, effort: &Effort, is_proven: bool) -> Clash {
    let mut clash = Clash {
        kind: ClashKind::Together,
        text: "No order of these steps was found that keeps all limits at once.".to_string(),
        members: Vec::new(),
        relaxations: Vec::new(),
        proven: is_proven,
    };
    let mut without = problem.clone();
    for lag in &mut without.lags {
        if lag.max_is_safety {
            // A wish at a price instead, so that as little as possible is broken.
            lag.max_is_safety = false;
            lag.points_per_minute_over = 1_000;
        }
    }
    let Outcome::Found(timetable) = lay_out(&without, &quick(effort), None, &mut |_| true) else {
        return clash;
    };
    let mut broken = Vec::new();
    for lag in problem.lags.iter().filter(|lag| lag.max_is_safety) {
        let apart = timetable.starts[lag.to] - timetable.starts[lag.from];
        if let Some(max) = lag.max.filter(|&max| apart > max) {
            broken.push(format!(
                "{} would start {apart} minutes after {}, at most {max} are safe",
                problem.step_title(lag.to),
                problem.step_title(lag.from)
            ));
        }
    }
    if let Some(first) = broken.first() {
        clash.kind = ClashKind::SafetyWaits;
        clash.text = format!("No timetable was found that keeps the limits of safety: {first}.");
        clash.members = broken.clone();
    }
    clash
}
