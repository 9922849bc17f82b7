//! Days without a timetable: what clashes is named, with what would help, and nothing panics.

use super::*;

#[test]
fn a_step_longer_than_the_day_is_named() {
    let mut problem = two_batches();
    problem.steps[4].minutes = 700;
    let clash = clash(&problem);
    assert_eq!(clash.kind, ClashKind::StepLongerThanDay);
    assert!(clash.proven);
    assert_eq!(
        clash.text,
        "process (salsa) takes 700 minutes, but the day from 08:00 to 18:00 has only 600."
    );
    let leave = RelaxationKind::LeaveOut("salsa".into());
    assert!(clash.relaxations.iter().any(|way| way.kind == leave));
}

#[test]
fn a_house_without_a_canner_is_told_so() {
    let mut problem = two_batches();
    problem.resources[3].capacity = 0;
    let clash = clash(&problem);
    assert_eq!(clash.kind, ClashKind::NoSuchResource);
    assert_eq!(
        clash.text,
        "From process (salsa) to lift (salsa) needs 1 canner, but there is none."
    );
    let ways: Vec<&RelaxationKind> = clash.relaxations.iter().map(|way| &way.kind).collect();
    assert_eq!(
        ways,
        [&RelaxationKind::MoreOf {
            resource: 3,
            amount: 1
        }]
    );
}

#[test]
fn a_house_without_hands_is_told_so() {
    let mut problem = two_batches();
    problem.resources[0].capacity = 0;
    assert_eq!(clash(&problem).kind, ClashKind::NoSuchResource);
    // A step that only has to be watched needs somebody as well.
    let mut problem = kitchen(0);
    problem.steps.push(step("stock", "watch", 30, &[(1, 1)]));
    problem.steps[0].unattended = false;
    assert_eq!(clash(&problem).kind, ClashKind::NobodyThere);
    // Two people with no hours: both away all day.
    let mut problem = two_batches();
    problem.breaks.push(Break {
        resource: 0,
        amount: 1,
        from: 0,
        to: 10_000,
    });
    let clash = clash(&problem);
    assert_ne!(clash.kind, ClashKind::Together);
    assert!(clash.proven);
}

#[test]
fn a_finish_by_in_the_past_is_told_so() {
    let mut problem = two_batches();
    problem.horizon = -60;
    let clash = clash(&problem);
    assert_eq!(clash.kind, ClashKind::FinishByTooEarly);
    assert_eq!(
        clash.text.split(". ").next(),
        Some("The finish-by of 07:00 is not after the start of the day at 08:00.")
    );
    assert!(matches!(
        clash.relaxations[0].kind,
        RelaxationKind::MoreMinutes(minutes) if minutes > 60
    ));
}

#[test]
fn too_early_a_finish_by_says_how_many_minutes_more_are_needed() {
    let problem = two_batches();
    let free = solve(&problem, &Effort::steps(3, 2_000)).unwrap();
    assert!(free.proven);
    let mut tight = problem.clone();
    tight.points_per_minute = 10;
    tight.waits.clear();
    tight
        .lags
        .iter_mut()
        .for_each(|lag| lag.points_per_minute_over = 0);
    let shortest = solve(&tight, &Effort::steps(3, 2_000)).unwrap();
    assert!(shortest.proven);
    tight.horizon = shortest.end - 35;
    let clash = clash(&tight);
    assert_eq!(clash.kind, ClashKind::FinishByTooEarly);
    assert!(clash.proven);
    assert_eq!(clash.relaxations[0].kind, RelaxationKind::MoreMinutes(35));
    assert!(
        clash.relaxations[0]
            .text
            .starts_with("finish 35 minutes later, at ")
    );
    // One batch less is a way out as well, and it is a true one.
    let leave = RelaxationKind::LeaveOut("salsa".into());
    assert!(clash.relaxations.iter().any(|way| way.kind == leave));
    let mut alone = kitchen(1);
    add_batch(&mut alone, "applesauce");
    alone.horizon = tight.horizon;
    accepted(&alone, &solve(&alone, &Effort::steps(1, 100)).unwrap());
}

#[test]
fn safety_limits_that_cannot_be_kept_are_named_and_never_offered() {
    // Filling needs the only hands for 15 minutes within 5 minutes of two boils that end together.
    let mut problem = kitchen(1);
    problem.steps = vec![
        step("one", "boil", 20, &[(1, 1)]),
        step("one", "fill", 15, &[(0, 1)]),
        step("two", "boil", 20, &[(1, 1)]),
        step("two", "fill", 15, &[(0, 1)]),
    ];
    problem.lags = vec![
        Lag::at_least(0, 1, 20).never_more_than(25, "invented for this test"),
        Lag::at_least(2, 3, 20).never_more_than(25, "invented for this test"),
        Lag::at_least(0, 2, 0).never_more_than(0, "invented for this test"),
    ];
    let clash = clash(&problem);
    assert!(clash.proven);
    assert_eq!(clash.kind, ClashKind::SafetyWaits, "{clash}");
    assert!(clash.members.iter().any(|m| m.contains("are safe")));
    let ways: Vec<&RelaxationKind> = clash.relaxations.iter().map(|way| &way.kind).collect();
    assert!(ways.contains(&&RelaxationKind::MoreOf {
        resource: 0,
        amount: 1
    }));
    assert!(
        ways.iter()
            .all(|way| !matches!(way, RelaxationKind::MoreMinutes(_)))
    );
}

#[test]
fn lags_that_contradict_each_other_are_named() {
    let mut problem = two_batches();
    problem.lags.push(Lag::at_least(3, 0, -20));
    let clash = clash(&problem);
    assert_eq!(clash.kind, ClashKind::LagsContradict);
    assert!(clash.members.len() >= 2, "{clash}");
    assert!(clash.members.iter().all(|m| m.contains("salsa")));
}

#[test]
fn fixed_steps_that_cannot_be_are_named() {
    let mut problem = two_batches();
    problem.steps[1].fixed_start = Some(10); // before washing can be over
    assert_eq!(clash(&problem).kind, ClashKind::FixedStepsClash);
    let mut problem = two_batches();
    problem.steps[0].fixed_start = Some(0);
    problem.steps[6].fixed_start = Some(10); // the same hands
    assert_eq!(clash(&problem).kind, ClashKind::FixedStepsClash);
}

#[test]
fn a_step_that_fits_between_no_breaks_is_named() {
    let mut problem = two_batches();
    problem.horizon = 300;
    for from in (0..40_000).step_by(20) {
        problem.breaks.push(Break {
            resource: 0,
            amount: 1,
            from,
            to: from + 5,
        });
    }
    let clash = clash(&problem);
    assert_eq!(clash.kind, ClashKind::NeverFree);
    assert!(clash.text.starts_with("wash and cut"));
}

#[test]
fn flawed_problems_and_extreme_numbers_are_clashes_never_panics() {
    let mut problem = two_batches();
    problem.lags[0].to = 99;
    assert_eq!(clash(&problem).kind, ClashKind::FlawedProblem);
    for extreme in [i64::MIN, -10_000_000, 10_000_000, i64::MAX] {
        let change: [fn(&mut Problem, i64); 9] = [
            |p, x| p.horizon = x,
            |p, x| p.day_start = x,
            |p, x| p.steps[0].minutes = x,
            |p, x| p.steps[0].not_before = x,
            |p, x| p.steps[0].fixed_start = Some(x),
            |p, x| p.lags[0].min = x,
            |p, x| p.lags[0].max = Some(x),
            |p, x| p.waits[0].points_per_minute = x,
            |p, x| {
                p.breaks.push(Break {
                    resource: 0,
                    amount: 1,
                    from: x.min(0),
                    to: x,
                });
            },
        ];
        for change in change {
            let mut problem = two_batches();
            change(&mut problem, extreme);
            if let Ok(timetable) = solve(&problem, &Effort::steps(1, 50)) {
                accepted(&problem, &timetable);
            }
        }
    }
}

#[test]
fn a_pot_that_is_held_and_used_at_once_counts_twice() {
    let mut problem = kitchen(1);
    problem.steps = vec![
        step("stock", "simmer", 30, &[(2, 1)]),
        step("stock", "strain", 10, &[(0, 1)]),
    ];
    problem.lags = vec![Lag::at_least(0, 1, 30)];
    problem.holds = vec![Hold {
        resource: 2,
        amount: 1,
        from_step: 0,
        to_step: 1,
    }];
    let clash = clash(&problem);
    assert!(clash.proven, "{clash}");
    problem.resources[2].capacity = 2;
    let timetable = solve(&problem, &Effort::steps(1, 50)).unwrap();
    accepted(&problem, &timetable);
    assert_eq!(timetable.end, 40);
}
