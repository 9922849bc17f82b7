//! The checker against wrong timetables (a folder of files, each breaking one rule), and the
//! figures and lanes of a right one.

use std::collections::BTreeSet;
use std::path::PathBuf;

use serde::Deserialize;

use super::*;

#[derive(Deserialize)]
struct Case {
    breaks: Option<String>,
    problem: Problem,
    timetable: Timetable,
}

fn cases() -> Vec<(String, Case)> {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/bad/kitchen_day");
    let mut cases = Vec::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let text = std::fs::read_to_string(&path).unwrap();
        let name = path.file_stem().unwrap().to_string_lossy().into_owned();
        let case = serde_json::from_str(&text).unwrap_or_else(|e| panic!("{name}: {e}"));
        cases.push((name, case));
    }
    cases
}

fn right() -> Case {
    let mut cases = cases();
    let at = cases.iter().position(|(name, _)| name == "right").unwrap();
    cases.swap_remove(at).1
}

#[test]
fn each_wrong_timetable_breaks_exactly_the_rule_it_names() {
    for (name, case) in cases() {
        let codes: BTreeSet<&str> = check(&case.problem, &case.timetable)
            .iter()
            .map(|breach| breach.code)
            .collect();
        let expected: BTreeSet<&str> = case.breaks.as_deref().into_iter().collect();
        assert_eq!(codes, expected, "{name}");
    }
}

#[test]
fn every_rule_has_a_wrong_timetable() {
    let shown: BTreeSet<String> = cases().into_iter().filter_map(|c| c.1.breaks).collect();
    let rules: BTreeSet<String> = RULES.iter().map(|rule| rule.0.to_string()).collect();
    assert_eq!(shown, rules);
}

#[test]
fn a_breach_names_steps_and_clock_times() {
    let mut case = right();
    case.timetable.starts[3] = 76;
    let breaches = check(&case.problem, &case.timetable);
    let safety = breaches.iter().find(|b| b.code == "K1008").unwrap();
    assert_eq!(
        safety.text,
        "fill (applesauce) starts 31 minutes after mill (applesauce), but at most 30 are safe"
    );
    case = right();
    case.timetable.starts[3] = 55;
    let breaches = check(&case.problem, &case.timetable);
    let early = breaches.iter().find(|b| b.code == "K1005").unwrap();
    assert_eq!(
        early.text,
        "fill (applesauce) starts at 08:55, but not before 09:00 is asked"
    );
}

#[test]
fn an_unattended_step_runs_through_a_break_of_everyone() {
    let mut case = right();
    case.problem.breaks[0].amount = 2;
    case.problem.steps.push(Step {
        name: "process".into(),
        minutes: 30,
        demands: vec![(1, 1)],
        unattended: true,
        ..Step::default()
    });
    case.timetable.starts.push(90);
    case.timetable.end = 120;
    case.timetable.value = cost(&case.problem, &case.timetable.starts).value();
    assert_eq!(check(&case.problem, &case.timetable), []);
}

#[test]
fn waits_and_wishes_cost_what_they_say() {
    let case = right();
    let mut starts = case.timetable.starts.clone();
    starts[2] = 65; // 50 minutes after simmering begins; 45 were wished, 3 points a minute
    starts[3] = 89; // 4 minutes after milling ends, 2 points each
    let cost = cost(&case.problem, &starts);
    assert_eq!(cost.end, 99);
    assert_eq!(cost.length_points, 990);
    assert_eq!(cost.over_points, 15);
    assert_eq!(cost.wait_points, 8);
    assert_eq!(cost.value(), 1013);
}

#[test]
fn lanes_never_overlap_and_stay_within_capacity() {
    let case = right();
    let uses = lanes(&case.problem, &case.timetable);
    for (index, a) in uses.iter().enumerate() {
        assert!((a.lane as i64) < case.problem.resources[a.resource].capacity);
        for b in &uses[index + 1..] {
            let apart = a.to <= b.from || b.to <= a.from;
            assert!(apart || (a.resource, a.lane) != (b.resource, b.lane));
        }
    }
    let hold = uses.iter().find(|u| u.user == LaneUser::Hold(0)).unwrap();
    assert_eq!((hold.from, hold.to), (15, 75));
    let demands: usize = case.problem.steps.iter().map(|s| s.demands.len()).sum();
    assert_eq!(uses.len(), demands + 1 + 1);
}

/// On two burners the canner heats on the second while a pot leaves the first: it stays there.
#[test]
fn a_canner_is_not_carried_to_another_burner_between_two_steps() {
    let on_burner = |name: &str, batch: &str, minutes: i64| Step {
        name: name.into(),
        batch: batch.into(),
        minutes,
        demands: vec![(0, 1)],
        ..Step::default()
    };
    let problem = Problem {
        resources: vec![Resource {
            name: "burner".into(),
            kind: "burner".into(),
            capacity: 2,
        }],
        steps: vec![
            on_burner("simmer", "juice", 10),
            on_burner("heat the canner", "beans", 10),
            on_burner("vent", "beans", 15),
        ],
        lags: vec![Lag::at_least(1, 2, 10)],
        horizon: 60,
        ..Problem::default()
    };
    let timetable = Timetable {
        starts: vec![0, 5, 15],
        ..Timetable::default()
    };
    let uses = lanes(&problem, &timetable);
    let lane = |step: usize| {
        let used = uses.iter().find(|used| used.user == LaneUser::Step(step));
        used.map(|used| used.lane)
    };
    assert_eq!(lane(0), Some(0));
    assert_eq!((lane(1), lane(2)), (Some(1), Some(1)));
}

#[test]
fn extreme_numbers_are_flaws_and_never_a_panic() {
    for extreme in [i64::MIN, i64::MAX] {
        let mut case = right();
        case.problem.steps[0].minutes = extreme;
        case.problem.lags[0].min = extreme;
        case.problem.horizon = extreme;
        assert!(problem_flaws(&case.problem).len() >= 3);
        assert!(
            check(&case.problem, &case.timetable)
                .iter()
                .all(|b| b.code == "K1000")
        );
        let mut case = right();
        case.timetable.starts = vec![extreme; 6];
        assert!(!check(&case.problem, &case.timetable).is_empty());
        lanes(&case.problem, &case.timetable);
    }
}

#[test]
fn a_problem_reads_back_from_its_own_text() {
    let case = right();
    let text = serde_json::to_string(&case.problem).unwrap();
    assert_eq!(
        serde_json::from_str::<Problem>(&text).unwrap(),
        case.problem
    );
}

#[test]
fn clock_times_past_midnight_say_so() {
    assert_eq!(clock(14 * 60 + 5), "14:05");
    assert_eq!(clock(1440 + 20), "00:20 next day");
    assert_eq!(clock(-10), "23:50 the day before");
    assert!(clock(i64::MAX).contains("days later"));
}

#[test]
fn a_clash_reads_as_one_sentence_with_its_ways_out() {
    let clash = Clash {
        kind: ClashKind::FinishByTooEarly,
        text: "The steps do not fit before 16:00.".into(),
        members: vec!["finish-by".into()],
        relaxations: vec![
            Relaxation {
                kind: RelaxationKind::MoreMinutes(35),
                text: "finish 35 minutes later".into(),
            },
            Relaxation {
                kind: RelaxationKind::LeaveOut("salsa".into()),
                text: "leave the salsa for another day".into(),
            },
        ],
        proven: true,
    };
    assert_eq!(
        clash.to_string(),
        "The steps do not fit before 16:00. What would help: finish 35 minutes later; or leave \
         the salsa for another day."
    );
}
