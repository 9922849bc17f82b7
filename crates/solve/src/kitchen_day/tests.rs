//! Small days against all their timetables, random days against the checker, days without a
//! timetable, and the promises of the two modes of effort.

use plan::kitchen_day::{
    Break, Clash, ClashKind, HANDS, Hold, Lag, Problem, RelaxationKind, Resource, Step, Timetable,
    Wait, check, cost,
};

use super::{solve, solve_watched};
use crate::chance::Chance;
use crate::effort::Effort;

mod clash;

fn resource(name: &str, kind: &str, capacity: i64) -> Resource {
    Resource {
        name: name.into(),
        kind: kind.into(),
        capacity,
    }
}

fn step(batch: &str, name: &str, minutes: i64, demands: &[(usize, i64)]) -> Step {
    Step {
        name: name.into(),
        batch: batch.into(),
        minutes,
        demands: demands.to_vec(),
        unattended: demands.iter().all(|d| d.0 != 0),
        ..Step::default()
    }
}

/// A kitchen with hands, burners, a pot and a canner (resources 0 to 3).
fn kitchen(hands: i64) -> Problem {
    Problem {
        day_start: 8 * 60,
        horizon: 600,
        resources: vec![
            resource("pairs of hands", HANDS, hands),
            resource("burners", "burner", 4),
            resource("big pot", "pot", 1),
            resource("canner", "canner", 1),
        ],
        points_per_minute: 10,
        ..Problem::default()
    }
}

/// Adds a batch of six steps with a hot fill, a pot and a canner kept across steps.
fn add_batch(problem: &mut Problem, batch: &str) {
    let first = problem.steps.len();
    problem.steps.extend([
        step(batch, "wash and cut", 25, &[(0, 1)]),
        step(batch, "simmer", 30, &[(1, 1)]),
        step(batch, "heat jars", 20, &[(1, 1)]),
        step(batch, "fill", 15, &[(0, 1)]),
        step(batch, "process", 45, &[(1, 1)]),
        step(batch, "lift", 5, &[(0, 1)]),
    ]);
    let at = |index: usize| first + index;
    problem.lags.extend([
        Lag::at_least(at(0), at(1), 25).never_more_than(120, "invented for this test"),
        Lag::at_least(at(1), at(3), 30).never_more_than(40, "invented for this test"),
        Lag::at_least(at(2), at(3), 20).never_more_than(35, "invented for this test"),
        Lag::at_least(at(3), at(4), 15).never_more_than(25, "invented for this test"),
        Lag::at_least(at(4), at(5), 45).better_within(50, 4, "common practice, no source"),
    ]);
    problem.holds.push(Hold {
        resource: 2,
        amount: 1,
        from_step: at(1),
        to_step: at(3),
    });
    problem.holds.push(Hold {
        resource: 3,
        amount: 1,
        from_step: at(4),
        to_step: at(5),
    });
    problem.waits.push(Wait {
        from: at(1),
        to: at(3),
        points_per_minute: 3,
    });
}

fn two_batches() -> Problem {
    let mut problem = kitchen(1);
    add_batch(&mut problem, "salsa");
    add_batch(&mut problem, "applesauce");
    problem
}

fn accepted(problem: &Problem, timetable: &Timetable) {
    assert_eq!(check(problem, timetable), [], "{problem:?}\n{timetable:?}");
}

fn clash(problem: &Problem) -> Clash {
    solve(problem, &Effort::steps(1, 2_000)).unwrap_err()
}

/// The cheapest value over all starts, by trying every one of them.
fn cheapest_of_all(problem: &Problem) -> Option<i64> {
    let mut starts = Vec::new();
    let mut best = None;
    try_all(problem, &mut starts, &mut best);
    best
}

fn try_all(problem: &Problem, starts: &mut Vec<i64>, best: &mut Option<i64>) {
    let index = starts.len();
    if index == problem.steps.len() {
        if keeps_resources(problem, starts) {
            let value = cost(problem, starts).value();
            *best = Some(best.map_or(value, |b: i64| b.min(value)));
        }
        return;
    }
    let step = &problem.steps[index];
    let (low, high) = match step.fixed_start {
        Some(fixed) => (fixed, fixed.min(problem.horizon - step.minutes)),
        None => (step.not_before.max(0), problem.horizon - step.minutes),
    };
    for start in low..=high {
        starts.push(start);
        if keeps_lags(problem, starts) {
            try_all(problem, starts, best);
        }
        starts.pop();
    }
}

fn keeps_lags(problem: &Problem, starts: &[i64]) -> bool {
    problem.lags.iter().all(|lag| {
        let (Some(from), Some(to)) = (starts.get(lag.from), starts.get(lag.to)) else {
            return true;
        };
        let most = lag.max.filter(|_| lag.max_is_safety);
        to - from >= lag.min && most.is_none_or(|most| to - from <= most)
    })
}

fn keeps_resources(problem: &Problem, starts: &[i64]) -> bool {
    let minutes = problem.horizon as usize + 1;
    let mut free: Vec<Vec<i64>> = Vec::new();
    for resource in &problem.resources {
        free.push(vec![resource.capacity; minutes]);
    }
    for pause in &problem.breaks {
        for minute in pause.from.max(0)..pause.to.min(minutes as i64) {
            let free = &mut free[pause.resource][minute as usize];
            *free = (*free - pause.amount).max(0);
        }
    }
    let mut somebody = vec![false; minutes];
    for (free, resource) in free.iter().zip(&problem.resources) {
        for (minute, there) in somebody.iter_mut().enumerate() {
            *there |= resource.kind == HANDS && free[minute] > 0;
        }
    }
    let mut take = |resource: usize, from: i64, to: i64, amount: i64| {
        (from..to).all(|minute| {
            let free = &mut free[resource][minute as usize];
            *free -= amount;
            *free >= 0
        })
    };
    for (step, &start) in problem.steps.iter().zip(starts) {
        for &(resource, amount) in &step.demands {
            if !take(resource, start, start + step.minutes, amount) {
                return false;
            }
        }
        let asks = step.demands.iter().any(|d| d.1 > 0 && d.0 == 0);
        let mut while_it_runs = start..start + step.minutes;
        if !step.unattended && !asks && while_it_runs.any(|m| !somebody[m as usize]) {
            return false;
        }
    }
    problem.holds.iter().all(|hold| {
        let from = starts[hold.from_step];
        let to = starts[hold.to_step] + problem.steps[hold.to_step].minutes;
        from <= to && take(hold.resource, from, to, hold.amount)
    })
}

/// A day of up to four steps within some fifteen minutes, with a bit of everything.
fn tiny_day(chance: &mut Chance) -> Problem {
    let mut pick = |low: i64, high: i64| low + chance.below((high - low + 1) as usize) as i64;
    let mut problem = Problem {
        horizon: pick(6, 13),
        resources: vec![
            resource("hands", HANDS, pick(1, 3)),
            resource("pots", "pot", pick(1, 3)),
        ],
        points_per_minute: pick(0, 3),
        ..Problem::default()
    };
    let steps = pick(2, 4) as usize;
    for index in 0..steps {
        let mut demands = Vec::new();
        for resource in 0..2 {
            if pick(0, 2) > 0 {
                demands.push((resource, pick(1, 2)));
            }
        }
        let mut step = step("", &format!("step {index}"), pick(0, 4), &demands);
        step.unattended = pick(0, 3) > 0;
        step.not_before = if pick(0, 4) == 0 { pick(0, 4) } else { 0 };
        step.fixed_start = (pick(0, 9) == 0).then(|| pick(0, 6));
        problem.steps.push(step);
    }
    let last = steps as i64 - 1;
    for _ in 0..pick(0, 3) {
        let (from, to) = (pick(0, last) as usize, pick(0, last) as usize);
        if from != to {
            let mut lag = Lag::at_least(from, to, pick(-4, 5));
            if pick(0, 1) == 0 {
                lag.max = Some(lag.min + pick(0, 4));
                lag.max_is_safety = pick(0, 1) == 0;
                lag.points_per_minute_over = pick(0, 5);
            }
            problem.lags.push(lag);
            if pick(0, 1) == 0 {
                problem.waits.push(Wait {
                    from,
                    to,
                    points_per_minute: pick(0, 4),
                });
            }
        }
    }
    for _ in 0..pick(0, 2) {
        problem.holds.push(Hold {
            resource: 1,
            amount: pick(1, 2),
            from_step: pick(0, last) as usize,
            to_step: pick(0, last) as usize,
        });
    }
    if pick(0, 1) == 0 {
        let from = pick(0, 6);
        problem.breaks.push(Break {
            resource: pick(0, 1) as usize,
            amount: pick(1, 2),
            from,
            to: from + pick(1, 4),
        });
    }
    problem
}

#[test]
fn tiny_days_come_out_as_the_best_of_all_timetables() {
    let mut chance = Chance::new(11);
    let (mut possible, mut impossible) = (0, 0);
    for case in 0..600 {
        let problem = tiny_day(&mut chance);
        let best = cheapest_of_all(&problem);
        match solve(&problem, &Effort::steps(case, 300)) {
            Ok(timetable) => {
                accepted(&problem, &timetable);
                assert_eq!(Some(timetable.value), best, "case {case}: {problem:?}");
                assert!(timetable.proven, "case {case}: {problem:?}");
                possible += 1;
            }
            Err(clash) => {
                assert_eq!(best, None, "case {case}: {clash} {problem:?}");
                assert!(clash.proven, "case {case}: {clash} {problem:?}");
                impossible += 1;
            }
        }
    }
    assert!(possible > 200 && impossible > 50, "{possible} {impossible}");
}

/// A day of several batches with random steps, waits, holds and breaks.
fn random_day(chance: &mut Chance) -> Problem {
    let mut pick = |low: i64, high: i64| low + chance.below((high - low + 1) as usize) as i64;
    let mut problem = kitchen(pick(1, 3));
    problem.resources[2].capacity = pick(1, 2);
    problem.resources[3].capacity = pick(1, 2);
    problem.horizon = pick(60, 600);
    for batch in 0..pick(1, 5) {
        let name = format!("batch {batch}");
        let first = problem.steps.len();
        let count = pick(2, 8) as usize;
        for index in 0..count {
            let demands = match pick(0, 3) {
                0 => vec![(1, 1)],
                1 => vec![(0, 1), (1, 1)],
                2 => Vec::new(),
                _ => vec![(0, 1)],
            };
            let mut step = step(&name, &format!("step {index}"), pick(0, 40), &demands);
            step.unattended = pick(0, 1) == 0;
            problem.steps.push(step);
        }
        for index in first + 1..first + count {
            let from = if pick(0, 3) == 0 {
                pick(first as i64, index as i64 - 1) as usize
            } else {
                index - 1
            };
            let minutes = problem.steps[from].minutes;
            let mut lag = Lag::at_least(from, index, minutes);
            lag.max = (pick(0, 2) > 0).then(|| minutes + pick(0, 60));
            lag.max_is_safety = pick(0, 1) == 0;
            lag.points_per_minute_over = pick(0, 5);
            problem.lags.push(lag);
            problem.waits.push(Wait {
                from,
                to: index,
                points_per_minute: pick(0, 3),
            });
        }
        for resource in [2, 3] {
            if pick(0, 1) == 0 {
                let from = pick(first as i64, (first + count) as i64 - 1);
                let to = pick(from, (first + count) as i64 - 1);
                problem.holds.push(Hold {
                    resource,
                    amount: 1,
                    from_step: from as usize,
                    to_step: to as usize,
                });
            }
        }
    }
    let noon = pick(100, 300);
    problem.breaks.push(Break {
        resource: 0,
        amount: pick(1, 3),
        from: noon,
        to: noon + 30,
    });
    problem
}

#[test]
fn random_days_pass_the_checker_or_say_what_clashes() {
    let mut chance = Chance::new(5);
    let (mut found, mut late) = (0, 0);
    for case in 0..200 {
        let problem = random_day(&mut chance);
        match solve(&problem, &Effort::steps(case, 120)) {
            Ok(timetable) => {
                accepted(&problem, &timetable);
                assert!(timetable.bound <= timetable.value);
                found += 1;
            }
            Err(clash) => {
                assert!(!clash.text.is_empty());
                for way in &clash.relaxations {
                    if let RelaxationKind::MoreMinutes(minutes) = way.kind {
                        let mut longer = problem.clone();
                        longer.horizon += minutes;
                        let answer = solve(&longer, &Effort::steps(case, 120));
                        accepted(&longer, &answer.unwrap());
                        late += 1;
                    }
                }
            }
        }
    }
    assert!(found > 120 && late > 5, "{found} found, {late} late");
}

#[test]
fn two_batches_share_one_pot_and_one_canner() {
    let problem = two_batches();
    let timetable = solve(&problem, &Effort::steps(3, 2_000)).unwrap();
    accepted(&problem, &timetable);
    assert!(timetable.proven);
    // The canner is kept from the start of processing to the end of lifting.
    let kept = |process: usize| timetable.starts[process]..timetable.starts[process + 1] + 5;
    let (one, two) = (kept(4), kept(10));
    assert!(one.end <= two.start || two.end <= one.start);
}

#[test]
fn steps_and_seed_alone_decide_the_answer() {
    let mut problem = two_batches();
    add_batch(&mut problem, "beans");
    add_batch(&mut problem, "rings");
    let answer = |seed: u64| format!("{:?}", solve(&problem, &Effort::steps(seed, 400)));
    let first = answer(9);
    for _ in 1..20 {
        assert_eq!(answer(9), first);
    }
}

#[test]
fn no_effort_at_all_still_gives_a_timetable() {
    let problem = two_batches();
    let timetable = solve(&problem, &Effort::steps(1, 0)).unwrap();
    accepted(&problem, &timetable);
    let timetable = solve(&problem, &Effort::milliseconds(1, 0)).unwrap();
    accepted(&problem, &timetable);
}

#[test]
fn each_timetable_shown_is_right_and_cheaper_than_the_last() {
    let mut problem = two_batches();
    add_batch(&mut problem, "beans");
    let mut last = i64::MAX;
    let mut shown = 0;
    let mut look = |timetable: &Timetable| {
        accepted(&problem, timetable);
        assert!(timetable.value < last);
        last = timetable.value;
        shown += 1;
        true
    };
    let end = solve_watched(&problem, &Effort::steps(2, 1_000), None, &mut look).unwrap();
    assert!(shown > 0);
    assert_eq!(end.value, last);
    let mut seen = 0;
    let mut stop = |_: &Timetable| {
        seen += 1;
        false
    };
    let effort = Effort::steps(2, u64::MAX);
    solve_watched(&problem, &effort, None, &mut stop).unwrap();
    assert_eq!(seen, 1);
}

#[test]
fn replanning_keeps_what_has_begun() {
    let problem = two_batches();
    let before = solve(&problem, &Effort::steps(3, 1_000)).unwrap();
    let now = 70;
    // The rest of the day has one pair of hands more: a better timetable may come of it.
    let mut rest = problem.clone();
    rest.resources[0].capacity = 2;
    for (step, &start) in rest.steps.iter_mut().zip(&before.starts) {
        if start < now {
            step.fixed_start = Some(start);
        } else {
            step.not_before = now;
        }
    }
    let effort = Effort::steps(3, 200);
    let after = solve_watched(&rest, &effort, Some(&before.starts), &mut |_| true).unwrap();
    accepted(&rest, &after);
    assert!(before.starts.iter().any(|s| *s < now));
    for (old, new) in before.starts.iter().zip(&after.starts) {
        assert!(if *old < now { new == old } else { *new >= now });
    }
}

#[test]
fn an_old_timetable_that_is_still_right_is_never_lost() {
    let problem = two_batches();
    let best = solve(&problem, &Effort::steps(3, 2_000)).unwrap();
    let effort = Effort::steps(8, 0);
    let again = solve_watched(&problem, &effort, Some(&best.starts), &mut |_| true).unwrap();
    assert_eq!(again.value, best.value);
    // Starts of other steps are passed over.
    solve_watched(&problem, &effort, Some(&[1, 2, 3]), &mut |_| true).unwrap();
}

#[test]
fn a_day_without_steps_is_done() {
    let timetable = solve(&kitchen(1), &Effort::steps(1, 10)).unwrap();
    accepted(&kitchen(1), &timetable);
    assert_eq!((timetable.end, timetable.proven), (0, true));
}
