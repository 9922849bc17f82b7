//! What makes a kitchen day unusable before anyone tries to lay it out.

use super::problem::Problem;

/// No number of a problem may be larger than this, in either direction: room for sums, and far
/// beyond any kitchen. A step this long is a clash, not a flaw.
pub const LARGEST_AMOUNT: i64 = 10_000_000;

/// The longest day that can be laid out, in minutes: three days and nights.
pub const LONGEST_DAY: i64 = 3 * 24 * 60;

/// Most steps one day may have.
const MOST_STEPS: usize = 2_000;

/// Most places of a resource, there or asked for.
const MOST_PLACES: i64 = 10_000;

/// Everything that is wrong with a problem, in sentences; empty when it can be laid out or
/// refused with a clash.
pub fn problem_flaws(problem: &Problem) -> Vec<String> {
    let mut flaws = Vec::new();
    if problem.steps.len() > MOST_STEPS {
        flaws.push(format!(
            "the day has {} steps; at most {MOST_STEPS} can be laid out",
            problem.steps.len()
        ));
    }
    if problem.horizon > LONGEST_DAY {
        flaws.push(format!(
            "finish-by is {} minutes after the start; at most {LONGEST_DAY} can be laid out",
            problem.horizon
        ));
    }
    let mut within = |least: i64, value: i64, most: i64, what: &dyn Fn() -> String| {
        if value < least || value > most {
            flaws.push(format!(
                "{} is {value}; it must lie between {least} and {most}",
                what()
            ));
        }
    };
    places(problem, &mut |value, what| {
        within(0, value, MOST_PLACES, what)
    });
    let mut number = |least: i64, value: i64, what: &dyn Fn() -> String| {
        within(least, value, LARGEST_AMOUNT, what);
    };
    number(-LARGEST_AMOUNT, problem.horizon, &|| {
        "finish-by".to_string()
    });
    number(0, problem.day_start, &|| "the start of the day".to_string());
    number(0, problem.points_per_minute, &|| {
        "the price of a minute".to_string()
    });
    for (index, step) in problem.steps.iter().enumerate() {
        let title = || problem.step_title(index);
        number(0, step.minutes, &|| format!("the minutes of {}", title()));
        number(-LARGEST_AMOUNT, step.not_before, &|| {
            format!("the earliest start of {}", title())
        });
        if let Some(start) = step.fixed_start {
            number(0, start, &|| format!("the fixed start of {}", title()));
        }
    }
    for lag in &problem.lags {
        let title = || pair(problem, lag.from, lag.to);
        number(-LARGEST_AMOUNT, lag.min, &|| {
            format!("the least time {}", title())
        });
        if let Some(max) = lag.max {
            number(-LARGEST_AMOUNT, max, &|| {
                format!("the most time {}", title())
            });
        }
        number(0, lag.points_per_minute_over, &|| {
            format!("the price of being late {}", title())
        });
    }
    for pause in &problem.breaks {
        let title = || format!("a break of {}", problem.resource_title(pause.resource));
        number(-LARGEST_AMOUNT, pause.from, &|| {
            format!("the start of {}", title())
        });
        number(-LARGEST_AMOUNT, pause.to, &|| {
            format!("the end of {}", title())
        });
    }
    for wait in &problem.waits {
        number(0, wait.points_per_minute, &|| {
            format!("the price of a wait {}", pair(problem, wait.from, wait.to))
        });
    }
    references(problem, &mut flaws);
    flaws
}

/// Shows every number of places to `see`, with what it is.
fn places(problem: &Problem, see: &mut dyn FnMut(i64, &dyn Fn() -> String)) {
    for resource in &problem.resources {
        see(resource.capacity, &|| {
            format!("the capacity of {}", resource.name)
        });
    }
    for (index, step) in problem.steps.iter().enumerate() {
        for (_, amount) in &step.demands {
            see(*amount, &|| {
                format!("what {} uses", problem.step_title(index))
            });
        }
    }
    for hold in &problem.holds {
        see(hold.amount, &|| {
            format!(
                "what is kept {}",
                pair(problem, hold.from_step, hold.to_step)
            )
        });
    }
    for pause in &problem.breaks {
        see(pause.amount, &|| {
            format!(
                "the amount of a break of {}",
                problem.resource_title(pause.resource)
            )
        });
    }
}

fn pair(problem: &Problem, from: usize, to: usize) -> String {
    format!(
        "from {} to {}",
        problem.step_title(from),
        problem.step_title(to)
    )
}

/// Everything that points to a step or a resource must point to one that exists.
fn references(problem: &Problem, flaws: &mut Vec<String>) {
    let steps = problem.steps.len();
    let resources = problem.resources.len();
    for (index, step) in problem.steps.iter().enumerate() {
        for (resource, _) in &step.demands {
            if *resource >= resources {
                flaws.push(format!(
                    "{} uses resource {resource}, but there are {resources}",
                    problem.step_title(index)
                ));
            }
        }
    }
    let mut link = |what: &str, from: usize, to: usize, may_be_same: bool| {
        if from >= steps || to >= steps {
            flaws.push(format!(
                "a {what} joins steps {from} and {to}, but there are {steps}"
            ));
        } else if from == to && !may_be_same {
            flaws.push(format!(
                "a {what} joins {} with itself",
                problem.step_title(from)
            ));
        }
    };
    for lag in &problem.lags {
        link("lag", lag.from, lag.to, false);
    }
    for wait in &problem.waits {
        link("wait", wait.from, wait.to, false);
    }
    for hold in &problem.holds {
        link("hold", hold.from_step, hold.to_step, true);
    }
    for resource in problem.holds.iter().map(|hold| hold.resource) {
        if resource >= resources {
            flaws.push(format!(
                "a hold keeps resource {resource}, but there are {resources}"
            ));
        }
    }
    for pause in &problem.breaks {
        if pause.resource >= resources {
            flaws.push(format!(
                "a break takes away resource {}, but there are {resources}",
                pause.resource
            ));
        } else if pause.from > pause.to {
            flaws.push(format!(
                "a break of {} ends before it starts",
                problem.resource_title(pause.resource)
            ));
        }
    }
}
