//! One fault per patch of `tests/bad_tables`: the check names file, line and rule.

use reference::{Files, table_check};
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

struct Patch {
    name: String,
    fields: BTreeMap<String, String>,
}

impl Patch {
    fn get(&self, key: &str) -> &str {
        self.fields
            .get(key)
            .unwrap_or_else(|| panic!("{}: no `{key}`", self.name))
    }
}

fn patches() -> Vec<Patch> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/bad_tables");
    let mut all: Vec<Patch> = std::fs::read_dir(folder)
        .expect("the folder of bad tables")
        .map(|entry| {
            let path = entry.expect("an entry").path();
            let text = std::fs::read_to_string(&path).expect("text");
            Patch {
                name: path
                    .file_stem()
                    .unwrap_or_default()
                    .to_string_lossy()
                    .into_owned(),
                fields: text
                    .lines()
                    .filter_map(|line| line.split_once(": "))
                    .map(|(key, value)| (key.to_owned(), value.to_owned()))
                    .collect(),
            }
        })
        .collect();
    all.sort_by(|a, b| a.name.cmp(&b.name));
    all
}

#[test]
fn each_fault_is_named_by_file_line_and_rule() {
    let sound = reference::embedded::files();
    let patches = patches();
    assert!(patches.len() >= 10);
    for patch in &patches {
        let file = patch.get("file");
        let text = String::from_utf8(sound[file].clone()).expect("text");
        assert_eq!(text.matches(patch.get("find")).count(), 1, "{}", patch.name);
        let mut files: Files = sound.clone();
        files.insert(
            file.to_owned(),
            text.replace(patch.get("find"), patch.get("replace"))
                .into_bytes(),
        );
        let found = table_check::problems(&files);
        let line: u64 = patch.get("line").parse().expect("a line");
        let named = found.iter().any(|problem| {
            problem.file == file
                && problem.line == line
                && problem.rule == patch.get("rule")
                && problem.message.contains(patch.get("says"))
        });
        let all: Vec<String> = found.iter().take(12).map(ToString::to_string).collect();
        assert!(named, "{}:\n{}", patch.name, all.join("\n"));
    }
}

#[test]
fn a_table_that_is_gone_is_named() {
    let mut files = reference::embedded::files();
    files.remove("process/acid_additions.csv");
    let found = table_check::problems(&files);
    assert!(
        found
            .iter()
            .any(|p| p.rule == "missing-table" && p.file == "process/acid_additions.csv")
    );
}

#[test]
fn every_rule_has_a_bad_table() {
    let tried: BTreeSet<String> = patches().iter().map(|p| p.get("rule").to_owned()).collect();
    for (rule, _) in table_check::RULES {
        assert!(
            *rule == "missing-table" || tried.contains(*rule),
            "no bad table for `{rule}`"
        );
    }
}
