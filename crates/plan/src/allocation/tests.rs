//! The figures that stand beside the checker: gap, dates, flaws.

use super::*;

fn plan(value: i64, bound: i64) -> Plan {
    Plan {
        runs: Vec::new(),
        uses: Vec::new(),
        value,
        parts: ValueParts::default(),
        bound,
        proven: value == bound,
        left_out: Vec::new(),
        binding: Vec::new(),
    }
}

fn empty_problem() -> Problem {
    Problem {
        first_day: jiff::civil::date(2031, 9, 1),
        days: vec![DayLimit {
            hands_minutes: 60,
            canner_loads: Vec::new(),
            freeze_grams: 0,
            dryer_trays: 0,
        }],
        classes: vec!["kale".to_string()],
        lots: vec![Lot {
            id: 1,
            name: "kale".to_string(),
            kind: 0,
            grams: 500,
            first_day: 0,
            last_day: 0,
            waste_points_per_kg: 10,
        }],
        outlets: Vec::new(),
        containers: Vec::new(),
        ingredients: Vec::new(),
        freezer_room_ml: 0,
        canners: Vec::new(),
        goods: Vec::new(),
        prices: Prices::default(),
    }
}

#[test]
fn gap_is_the_distance_over_the_bound() {
    assert!((gap(&plan(90, 100)) - 0.1).abs() < 1e-12);
    assert_eq!(gap(&plan(100, 100)), 0.0);
    assert_eq!(gap(&plan(0, 0)), 0.0);
    assert!(gap(&plan(-50, -20)) > 0.0);
    assert!(gap(&plan(i64::MIN, i64::MAX)).is_finite());
}

#[test]
fn a_day_is_named_by_its_date_and_never_panics() {
    let problem = empty_problem();
    assert_eq!(problem.day_label(1), "Tue 2 Sep");
    assert_eq!(problem.day_label(i64::MAX), format!("day {}", i64::MAX));
}

#[test]
fn flaws_name_what_is_wrong() {
    assert_eq!(problem_flaws(&empty_problem()), Vec::<String>::new());
    let mut problem = empty_problem();
    problem.lots[0].grams = -1;
    problem.lots[0].kind = 7;
    problem.days[0].hands_minutes = LARGEST_NUMBER + 1;
    let flaws = problem_flaws(&problem);
    assert_eq!(flaws.len(), 3, "{flaws:?}");
    problem.days.clear();
    assert!(problem_flaws(&problem)[0].contains("no day"));
}

#[test]
fn a_plan_with_absurd_batches_is_rejected_without_overflow() {
    let mut problem = empty_problem();
    problem.outlets.push(Outlet {
        key: "soup".to_string(),
        name: "soup".to_string(),
        route: "fresh".to_string(),
        good: None,
        yields: LARGEST_NUMBER,
        inputs: vec![Input {
            classes: vec![0],
            grams: LARGEST_NUMBER,
        }],
        min_per_day: 0,
        max_per_day: LARGEST_NUMBER,
        setup_minutes: 0,
        minutes_per_batch: LARGEST_NUMBER,
        canner: None,
        loads_hundredths: 0,
        containers: Vec::new(),
        ingredients: Vec::new(),
        freezer_ml: 0,
        freeze_grams: 0,
        dryer_trays: 0,
        days_allowed: None,
        value_points: LARGEST_NUMBER,
    });
    problem.prices.points_per_hour = LARGEST_NUMBER;
    let mut wrong = plan(0, 0);
    for batches in [i64::MAX, LARGEST_NUMBER] {
        wrong.runs = vec![Run {
            day: 0,
            outlet: 0,
            batches,
        }];
        assert!(!check(&problem, &wrong).is_empty());
    }
}
