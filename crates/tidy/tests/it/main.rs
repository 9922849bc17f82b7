//! The repository's rules, applied to the repository.

use std::collections::BTreeSet;

use tidy::files::{self, Text};
use tidy::{Problem, data, edges, figures, listed, papers, words};

fn texts(endings: &[&str]) -> Vec<Text> {
    files::texts(&files::root(), endings).expect("the repository can be read")
}

fn one(path: &str) -> Text {
    let text = std::fs::read_to_string(files::root().join(path))
        .unwrap_or_else(|cause| panic!("{path}: {cause}"));
    Text {
        path: path.to_owned(),
        text,
    }
}

/// The name of the crate a file belongs to.
fn crate_of(file: &Text) -> &str {
    file.path
        .strip_prefix("crates/")
        .and_then(|rest| rest.split('/').next())
        .unwrap_or("")
}

fn check(rule: fn(&Text) -> Vec<Problem>, endings: &[&str], within: &str) {
    let files: Vec<Text> = texts(endings)
        .into_iter()
        .filter(|file| file.path.starts_with(within))
        .collect();
    assert!(!files.is_empty(), "no file to look at below {within}");
    let problems: Vec<Problem> = files.iter().flat_map(rule).collect();
    assert!(problems.is_empty(), "{}", listed(&problems));
}

const CODE: [&str; 6] = ["rs", "css", "js", "html", "sql", "sh"];
const WORDS: [&str; 10] = [
    "rs", "css", "js", "html", "sql", "sh", "md", "csv", "toml", "json",
];

#[test]
fn every_rust_file_says_what_it_is_for() {
    check(files::header, &["rs"], "");
}

#[test]
fn no_source_file_is_too_long() {
    check(files::length, &CODE, "");
}

#[test]
fn no_module_is_named_after_nothing() {
    check(files::name, &["rs"], "");
}

#[test]
fn nothing_unfinished_or_of_one_machine_is_left() {
    check(files::leftovers, &WORDS, "");
}

#[test]
fn one_word_per_thing() {
    check(
        words::refused,
        &["rs", "css", "js", "html", "sql", "sh", "md", "csv", "json"],
        "",
    );
}

#[test]
fn every_row_of_data_has_a_source() {
    check(data::sourced, &["csv"], "data/");
}

#[test]
fn the_gate_reads_its_figures_from_tables() {
    check(figures::in_code, &["rs"], "crates/safety/src/");
}

#[test]
fn crates_stand_in_one_direction() {
    let manifests: Vec<Text> = texts(&["toml"])
        .into_iter()
        .filter(|file| file.path.starts_with("crates/") && file.path.ends_with("/Cargo.toml"))
        .collect();
    let named: BTreeSet<&str> = manifests.iter().map(crate_of).collect();
    let known: BTreeSet<&str> = edges::EDGES.iter().map(|(name, _)| *name).collect();
    assert_eq!(named, known, "the table of edges and the folders differ");
    let problems: Vec<Problem> = manifests
        .iter()
        .flat_map(|file| edges::manifest(crate_of(file), file))
        .collect();
    assert!(problems.is_empty(), "{}", listed(&problems));
}

#[test]
fn deciding_crates_know_no_files_no_clock_and_no_chance() {
    let problems: Vec<Problem> = texts(&["rs"])
        .iter()
        .filter(|file| file.path.starts_with("crates/") && file.path.contains("/src/"))
        .flat_map(|file| edges::purity(crate_of(file), file))
        .collect();
    assert!(problems.is_empty(), "{}", listed(&problems));
}

#[test]
fn only_the_main_file_of_the_command_line_opens_the_store() {
    let problems: Vec<Problem> = texts(&["rs"])
        .iter()
        .filter(|file| file.path.starts_with("crates/web/src/"))
        .filter(|file| file.text.contains("store::") || file.text.contains("rusqlite"))
        .map(|file| Problem::of(&file.path, "pages see the household through `app` only"))
        .collect();
    assert!(problems.is_empty(), "{}", listed(&problems));
}

#[test]
fn every_dependency_is_explained() {
    let manifests: Vec<Text> = texts(&["toml"])
        .into_iter()
        .filter(|file| file.path.ends_with("Cargo.toml"))
        .collect();
    let ours: Vec<&str> = edges::EDGES.iter().map(|(name, _)| *name).collect();
    let problems = papers::dependencies(&manifests, &one("docs/dependencies.md"), &ours);
    assert!(problems.is_empty(), "{}", listed(&problems));
}

#[test]
fn no_dependency_is_listed_in_vain() {
    let members: Vec<Text> = texts(&["toml"])
        .into_iter()
        .filter(|file| file.path.starts_with("crates/") && file.path.ends_with("/Cargo.toml"))
        .collect();
    let problems = papers::unused(&one("Cargo.toml"), &members);
    assert!(problems.is_empty(), "{}", listed(&problems));
}

#[test]
fn the_list_of_words_holds_every_word() {
    let listed_words = papers::rows(&one("docs/words.md").text);
    // The words that the design settled; a place more in the code needs its line too.
    let settled = [
        "bed",
        "crop",
        "variety",
        "picking",
        "lot",
        "grade",
        "place",
        "movement",
        "holding",
        "recipe",
        "batch",
        "container",
        "pack style",
        "headspace",
        "process row",
        "permit",
        "refusal",
        "load",
        "outcome",
        "kitchen day",
        "step",
        "harvest plan",
        "reason",
        "need",
        "pace",
        "season",
        "shelf count",
        "elevation",
        "verdict",
        "checker",
        "balance",
        "household",
        "timetable",
        "cold room",
    ];
    let missing: Vec<&str> = settled
        .into_iter()
        .filter(|word| !listed_words.contains(*word))
        .collect();
    assert!(missing.is_empty(), "docs/words.md lacks {missing:?}");
}

#[test]
fn the_map_names_every_crate() {
    let map = one("docs/architecture.md");
    let named = papers::rows(&map.text);
    let missing: Vec<&str> = edges::EDGES
        .iter()
        .map(|(name, _)| *name)
        .filter(|name| !named.contains(*name))
        .collect();
    assert!(missing.is_empty(), "docs/architecture.md lacks {missing:?}");
}

#[test]
fn every_name_that_check_prints_is_explained() {
    let explained = papers::quoted(&one("docs/invariants.md").text);
    let names = papers::first_of_pairs(&one("crates/app/src/read/check.rs").text, "const SAYS");
    assert!(
        names.len() >= 10,
        "the list of what each invariant says was not found: {names:?}"
    );
    let missing: Vec<&String> = names
        .iter()
        .filter(|name| !explained.contains(name))
        .collect();
    assert!(missing.is_empty(), "docs/invariants.md lacks {missing:?}");
}

#[test]
fn every_invariant_is_held_by_a_test_that_exists() {
    let paper = one("docs/invariants.md");
    assert!(
        paper.text.matches("\n## ").count() >= 9,
        "an invariant is gone"
    );
    let problems = papers::invariants(&paper, &texts(&["rs"]));
    assert!(problems.is_empty(), "{}", listed(&problems));
}

#[test]
fn every_decision_says_what_was_not_chosen_and_when() {
    check(papers::decision, &["md"], "docs/decisions/");
}

#[test]
fn the_browser_tests_lock_names_no_registry() {
    let lock = one("e2e/a11y/package-lock.json");
    assert!(
        !lock.text.contains("://"),
        "run npm with omit-lockfile-registry-resolved=true"
    );
    assert!(
        lock.text.contains("integrity"),
        "the lock must fix what is installed"
    );
}

#[test]
fn both_licences_are_there() {
    assert!(
        one("LICENSE-MIT")
            .text
            .contains("Permission is hereby granted")
    );
    assert!(one("LICENSE-APACHE").text.contains("Apache License"));
    assert!(one("Cargo.toml").text.contains("MIT OR Apache-2.0"));
}

#[test]
fn the_readme_names_both_commands() {
    let readme = one("README.md").text;
    assert!(readme.contains("cargo run --release -- demo"));
    assert!(readme.contains("./scripts/test"));
}
