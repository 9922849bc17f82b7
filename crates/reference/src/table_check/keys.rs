//! No key stands twice.

use crate::problem::TableProblem;
use crate::table::Row;
use crate::tables::Reference;
use std::collections::BTreeMap;

/// Reports keys that stand twice in one table.
pub fn check(reference: &Reference, found: &mut Vec<TableProblem>) {
    unique(found, &reference.processes, |r| (r.key(), r.line));
    unique(found, &reference.foods, |r| (r.food.clone(), r.line));
    unique(found, &reference.practice, |r| (r.key.clone(), r.line));
    unique(found, &reference.house_rules, |r| (r.key.clone(), r.line));
    unique(found, &reference.constants, |r| (r.key.clone(), r.line));
    unique(found, &reference.freezer, |r| (r.key.clone(), r.line));
    unique(found, &reference.jar_sizes, |r| (r.jar.to_string(), r.line));
    unique(found, &reference.acid, |r| {
        (format!("{}/{}/{}", r.food, r.jar, r.acid), r.line)
    });
    unique(found, &reference.limits, |r| {
        (format!("{}/{}", r.scope, r.rule), r.line)
    });
    unique(found, &reference.changes, |r| (r.change.clone(), r.line));
    unique(found, &reference.limit_touches, |r| {
        (format!("{}/{}", r.scope, r.rule), r.line)
    });
    unique(found, &reference.ingredient_kinds, |r| {
        (r.ingredient.clone(), r.line)
    });
    unique(found, &reference.low_temp, |r| {
        (format!("{}/{}/{}", r.food, r.pack, r.jar), r.line)
    });
    unique(found, &reference.pressure_bands, |r| {
        (format!("{}/{}/{}", r.gauge, r.food_class, r.low_ft), r.line)
    });
    unique(found, &reference.not_recommended, |r| {
        (
            format!(
                "{}/{}/{}/{:?}/{:?}",
                r.food, r.pack, r.jar, r.method, r.option
            ),
            r.line,
        )
    });
    unique(found, &reference.doubtful, |r| {
        (format!("{}/{}/{:?}", r.table, r.key, r.only_if()), r.line)
    });
    unique(found, &reference.incidents, |r| (r.kind.clone(), r.line));
    unique(found, &reference.disposal, |r| (r.step.clone(), r.line));
    unique(found, &reference.incident_ways, |r| {
        (format!("{}/{}/{}", r.clock, r.phase, r.way), r.line)
    });
    unique(found, &reference.questions, |r| {
        (
            format!(
                "{}/{}/{}/{:?}/{:?}/{:?}",
                r.food, r.question, r.answer, r.when_pack, r.when_jar, r.when_method
            ),
            r.line,
        )
    });
}

fn unique<T: Row>(found: &mut Vec<TableProblem>, rows: &[T], key: impl Fn(&T) -> (String, u64)) {
    let mut seen: BTreeMap<String, u64> = BTreeMap::new();
    for row in rows {
        let (key, line) = key(row);
        match seen.get(&key) {
            Some(first) => found.push(TableProblem::new(
                T::FILE,
                line,
                "duplicate-key",
                format!("`{key}` stands on line {first} already"),
            )),
            None => {
                seen.insert(key, line);
            }
        }
    }
}
