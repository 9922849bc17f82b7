//! Finds faults in the tables: a library function over bytes, run on `data/` by a test, by
//! `check --tables` on a folder and at each start on the embedded copy.

mod bands;
mod changes;
mod incidents;
mod keys;
mod links;
mod order;

use crate::problem::TableProblem;
use crate::table::Files;
use crate::tables::Reference;

/// Every rule name the check may report, with what it asks for.
pub const RULES: &[(&str, &str)] = &[
    ("missing-table", "every table is there"),
    ("missing-column", "every table has its columns"),
    ("unreadable-row", "every row is well-formed CSV"),
    (
        "unreadable-value",
        "every cell is a word or number its column knows",
    ),
    ("empty-number", "no number that must stand is empty"),
    ("no-source", "every row names a page or a known source"),
    ("duplicate-key", "no key stands twice"),
    ("unknown-food", "every food named is in foods.csv"),
    (
        "band-hole",
        "elevation bands of a series follow one another",
    ),
    ("band-overlap", "elevation bands of a series do not overlap"),
    ("band-start", "the first band of a series starts at 0 ft"),
    (
        "low-acid-boiling-water",
        "no low-acid food has a boiling-water row",
    ),
    (
        "pressure-missing",
        "a pressure row has a pressure, a boiling-water row has none",
    ),
    ("falling-minutes", "minutes never fall as elevation rises"),
    ("falling-psi", "pressure never falls as elevation rises"),
    (
        "smaller-jar-longer",
        "a smaller jar never needs longer than a larger one",
    ),
    (
        "older-copy-not-listed",
        "every older-copy process row has a line in doubtful.csv",
    ),
    (
        "doubt-without-row",
        "every line of doubtful.csv for a process names a row",
    ),
    (
        "incident-without-way",
        "every clock of an incident has a way to choose in each of its phases",
    ),
    (
        "number-without-row",
        "a number named in a text about incidents stands in practice.csv or house_rules.csv",
    ),
    (
        "missing-number",
        "every number the gate compares with is there",
    ),
    (
        "ingredient-without-kind",
        "every ingredient of a recipe has a line in ingredient_kinds.csv",
    ),
    (
        "kind-less-acid",
        "what a recipe prints as low-acid is of a low-acid kind, and its acids are acids",
    ),
    (
        "trigger-without-rule",
        "every line of change_triggers.csv names a rule that stands in its table",
    ),
    (
        "touch-without-limit",
        "every line of limit_touches.csv names a limit and kinds of ingredients",
    ),
    (
        "rule-never-called",
        "every row of changes.csv is called by an edit",
    ),
];

/// Checks the tables; an empty answer means that nothing is wrong.
pub fn problems(files: &Files) -> Vec<TableProblem> {
    let (reference, mut found) = Reference::read(files);
    keys::check(&reference, &mut found);
    links::check(&reference, &mut found);
    bands::check(&reference, &mut found);
    incidents::check(&reference, &mut found);
    order::check(&reference, &mut found);
    changes::check(&reference, &mut found);
    found.sort_by(|a, b| (&a.file, a.line, a.rule).cmp(&(&b.file, b.line, b.rule)));
    found
}
