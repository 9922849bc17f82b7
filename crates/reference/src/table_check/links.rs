//! Rows that name other rows: foods, doubtful cells, the numbers the gate compares with.

use crate::problem::TableProblem;
use crate::tables::Reference;
use crate::words::{Mark, Method};
use std::collections::BTreeSet;

/// Numbers of practice.csv that the gate compares with.
pub const GATE_PRACTICE: &[&str] = &[
    "steam-canner-max-process",
    "dial-gauge-replace-over",
    "dial-gauge-replace-stricter",
    "max-psi",
    "smallest-canner-quarts",
    "smallest-canner-smoked-fish",
    "jar-sterilise-minutes",
    "jar-sterilise-extra-per-1000-ft",
    "jar-sterilise-needed-under",
    "kraut-salt-per-5-lb",
    "reprocess-within-hours",
    "wrong-process-hours",
    "water-over-jars-long-process",
    "dial-gauge-check-interval",
];

/// Numbers of house_rules.csv that the gate compares with.
pub const GATE_HOUSE_RULES: &[&str] = &[
    "gauge-test-max-age",
    "gauge-reminder-after",
    "fridge-untested-days",
    "fridge-unsealed-days",
    "fridge-oil-days",
    "vinegar-dilution-max",
    "elevation-floor",
    "kraut-room-low",
    "kraut-room-high",
    "sterilise-step",
];

/// Numbers of limits.csv that the gate compares with, as scope and rule.
pub const GATE_LIMITS: &[(&str, &str)] = &[
    ("all", "adjust-for-elevation"),
    ("all", "dial-gauge-ceiling"),
    ("group:pickle", "vinegar-5pct"),
];

/// Reports names that lead nowhere.
pub fn check(reference: &Reference, found: &mut Vec<TableProblem>) {
    foods(reference, found);
    doubts(reference, found);
    numbers(reference, found);
}

fn foods(reference: &Reference, found: &mut Vec<TableProblem>) {
    let known: BTreeSet<&str> = reference.foods.iter().map(|f| f.food.as_str()).collect();
    let mut name = |file: &str, line: u64, food: &str| {
        if !known.contains(food) {
            found.push(TableProblem::new(
                file,
                line,
                "unknown-food",
                format!("`{food}` is not in process/foods.csv"),
            ));
        }
    };
    for row in &reference.processes {
        name("process/processes.csv", row.line, &row.food);
    }
    for row in &reference.not_recommended {
        name("process/not_recommended.csv", row.line, &row.food);
    }
    for row in &reference.low_temp {
        name("process/low_temp_pasteurize.csv", row.line, &row.food);
    }
    for row in &reference.acid {
        name("process/acid_additions.csv", row.line, &row.food);
    }
    for row in &reference.frozen_before {
        name("process/frozen_before.csv", row.line, &row.food);
    }
    for row in &reference.questions {
        name("process/questions.csv", row.line, &row.food);
    }
    for row in reference.recipe_rows.iter().filter(|r| r.food != "none") {
        name("process/recipes.csv", row.line, &row.food);
    }
    for row in &reference.processes {
        let low_acid = reference
            .food(&row.food)
            .is_some_and(|f| f.acid_class == crate::words::AcidClass::LowAcid);
        if low_acid && !row.method.is_pressure() {
            found.push(TableProblem::new(
                "process/processes.csv",
                row.line,
                "low-acid-boiling-water",
                format!(
                    "`{}` is low-acid and must have no {} row",
                    row.food, row.method
                ),
            ));
        }
        if row.method.is_pressure() != row.psi.is_some() || row.method == Method::Steam {
            found.push(TableProblem::new(
                "process/processes.csv",
                row.line,
                "pressure-missing",
                format!("method {} with pressure {:?}", row.method, row.psi),
            ));
        }
    }
}

fn doubts(reference: &Reference, found: &mut Vec<TableProblem>) {
    let keys: BTreeSet<String> = reference.processes.iter().map(|r| r.key()).collect();
    for row in reference
        .processes
        .iter()
        .filter(|r| r.mark != Mark::Text2015)
    {
        if reference.doubts("processes", &row.key()).is_empty() {
            found.push(TableProblem::new(
                "process/processes.csv",
                row.line,
                "older-copy-not-listed",
                format!(
                    "`{}` is marked {} without a line in process/doubtful.csv",
                    row.key(),
                    row.mark
                ),
            ));
        }
    }
    for row in reference.doubtful.iter().filter(|r| r.table == "processes") {
        if !keys.contains(&row.key) {
            found.push(TableProblem::new(
                "process/doubtful.csv",
                row.line,
                "doubt-without-row",
                format!("no process row `{}`", row.key),
            ));
        }
    }
}

fn numbers(reference: &Reference, found: &mut Vec<TableProblem>) {
    let mut missing = |file: &str, key: &str| {
        found.push(TableProblem::new(
            file,
            0,
            "missing-number",
            format!("the gate needs the number `{key}`"),
        ));
    };
    for key in GATE_PRACTICE {
        if reference.practice(key).and_then(|r| r.number()).is_none() {
            missing("process/practice.csv", key);
        }
    }
    for key in GATE_HOUSE_RULES {
        if reference.house_rule(key).is_none() {
            missing("process/house_rules.csv", key);
        }
    }
    for (scope, rule) in GATE_LIMITS {
        if reference
            .limit(scope, rule)
            .and_then(|r| r.value.as_ref())
            .is_none()
        {
            missing("process/limits.csv", &format!("{scope} {rule}"));
        }
    }
}
