//! `stillroom check --tables`: a folder of printed tables holds, or names file, line and rule.

use crate::household::{Answer, program, root};
use std::fs;
use std::path::Path;
use tempfile::TempDir;

fn copy_tables() -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    copy(&root().join("data"), folder.path());
    folder
}

fn copy(from: &Path, to: &Path) {
    for entry in fs::read_dir(from).unwrap() {
        let entry = entry.unwrap();
        let target = to.join(entry.file_name());
        if entry.path().is_dir() {
            fs::create_dir(&target).unwrap();
            copy(&entry.path(), &target);
        } else {
            fs::copy(entry.path(), target).unwrap();
        }
    }
}

fn check(folder: &Path, form: &[&str]) -> Answer {
    let output = program()
        .args(["check", "--tables"])
        .arg(folder)
        .args(form)
        .output()
        .expect("the program starts");
    Answer::of(&output)
}

#[test]
fn the_tables_of_the_repository_hold() {
    let folder = copy_tables();
    let answer = check(folder.path(), &[]).fine();
    assert_eq!(answer.out, "The tables hold.\n");
    assert_eq!(
        check(folder.path(), &["--json"]).json(),
        serde_json::json!([])
    );
}

/// Patches one cell of a row, by the row's beginning; gives the row's line.
fn patch(folder: &Path, file: &str, row: &str, was: &str, is: &str) -> usize {
    let path = folder.join(file);
    let text = fs::read_to_string(&path).unwrap();
    let (index, old) = text
        .lines()
        .enumerate()
        .find(|(_, line)| line.starts_with(row))
        .expect("the row");
    assert_eq!(old.matches(was).count(), 1, "{old}");
    fs::write(&path, text.replacen(old, &old.replace(was, is), 1)).unwrap();
    index + 1
}

#[test]
fn one_wrong_cell_is_named_by_file_line_and_rule() {
    for (file, row, was, is, rule) in [
        (
            "process/processes.csv",
            "tomato-juice,Tomato juice,hot,quart,boiling-water,1001",
            ",1001,",
            ",1501,",
            "band-hole",
        ),
        (
            "process/processes.csv",
            "tomato-juice,Tomato juice,hot,quart,boiling-water,1001",
            ",45,",
            ",39,",
            "falling-minutes",
        ),
        (
            "process/processes.csv",
            "tomato-juice,Tomato juice,hot,quart,boiling-water,1001",
            "tomato-juice,",
            "tomato-juce,",
            "unknown-food",
        ),
        (
            "process/acid_additions.csv",
            "figs,quart,bottled-lemon-juice",
            ",2,tbsp",
            ",,tbsp",
            "empty-number: column `amount`",
        ),
        (
            "process/acid_additions.csv",
            "figs,quart,bottled-lemon-juice",
            ",2,tbsp",
            ",two,tbsp",
            "unreadable-value: column `amount`",
        ),
    ] {
        let folder = copy_tables();
        let line = patch(folder.path(), file, row, was, is);
        let named = format!("{file}:{line}: {rule}");
        let answer = check(folder.path(), &[]);
        assert_eq!(answer.code, 1, "{rule}");
        assert!(
            answer
                .out
                .lines()
                .any(|problem| problem.starts_with(&named)),
            "{named} is not in\n{}",
            answer.out
        );
        let told = check(folder.path(), &["--json"]);
        assert_eq!(told.code, 1);
        assert_eq!(
            told.json().as_array().unwrap().len(),
            answer.out.lines().count(),
            "{rule}: the same problems in both forms"
        );
    }
}

#[test]
fn a_file_that_is_gone_is_named() {
    let folder = copy_tables();
    fs::remove_file(folder.path().join("process/acid_additions.csv")).unwrap();
    let answer = check(folder.path(), &[]);
    assert_eq!(answer.code, 1);
    assert!(
        answer.out.contains("process/acid_additions.csv"),
        "{}",
        answer.out
    );
}

#[test]
fn a_folder_that_is_not_there_is_an_error_and_an_empty_one_does_not_hold() {
    let folder = tempfile::tempdir().unwrap();
    let gone = check(&folder.path().join("gone"), &[]);
    assert_eq!(gone.code, 2);
    assert!(gone.err.contains("cannot be read"), "{}", gone.err);
    assert_eq!(check(folder.path(), &[]).code, 1);
}
