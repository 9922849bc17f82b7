//! Papers that must keep step with the code: dependencies, words, invariants,
//! the map of the crates, decisions.

use std::collections::BTreeSet;

use crate::Problem;
use crate::edges::names_in;
use crate::files::Text;

/// The names in backticks that stand first in a table row of a paper.
pub fn rows(paper: &str) -> BTreeSet<String> {
    paper
        .lines()
        .filter_map(|line| line.trim().strip_prefix("| "))
        .filter_map(|row| row.split('|').next())
        .flat_map(quoted)
        .collect()
}

/// Everything in single backticks.
pub fn quoted(text: &str) -> Vec<String> {
    text.split('`')
        .skip(1)
        .step_by(2)
        .map(str::to_owned)
        .collect()
}

/// Every library that a manifest names has its line in the paper, and the
/// paper names none that has gone.
pub fn dependencies(manifests: &[Text], paper: &Text, ours: &[&str]) -> Vec<Problem> {
    let explained = rows(&paper.text);
    let mut used = BTreeSet::new();
    let mut problems = Vec::new();
    for file in manifests {
        for table in [
            "workspace.dependencies",
            "dependencies",
            "dev-dependencies",
            "build-dependencies",
        ] {
            for name in names_in(&file.text, table) {
                if ours.contains(&name.as_str()) {
                    continue;
                }
                if !explained.contains(&name) && !used.contains(&name) {
                    problems.push(Problem::of(
                        &paper.path,
                        format!("`{name}` of {} is not explained", file.path),
                    ));
                }
                used.insert(name);
            }
        }
    }
    for name in explained.difference(&used) {
        problems.push(Problem::of(
            &paper.path,
            format!("`{name}` is explained but no manifest names it"),
        ));
    }
    problems
}

/// Libraries that the root manifest lists and no crate uses.
pub fn unused(root: &Text, members: &[Text]) -> Vec<Problem> {
    let used: BTreeSet<String> = members
        .iter()
        .flat_map(|file| {
            ["dependencies", "dev-dependencies", "build-dependencies"]
                .map(|table| names_in(&file.text, table))
        })
        .flatten()
        .collect();
    names_in(&root.text, "workspace.dependencies")
        .into_iter()
        .filter(|name| !used.contains(name))
        .map(|name| {
            Problem::of(
                &root.path,
                format!("`{name}` is listed and no crate uses it"),
            )
        })
        .collect()
}

/// The first text of each pair in the list that begins at `start` and ends at
/// its closing bracket: the names of a table written in code.
pub fn first_of_pairs(code: &str, start: &str) -> Vec<String> {
    let Some((_, list)) = code
        .split_once(start)
        .and_then(|(_, rest)| rest.split_once("= ["))
    else {
        return Vec::new();
    };
    let list = list.split("];").next().unwrap_or("");
    list.split('"')
        .skip(1)
        .step_by(4)
        .map(str::to_owned)
        .collect()
}

/// The tests that the invariants name. Each is written `test_name` in a line
/// that begins with "Held by".
pub fn named_tests(paper: &str) -> Vec<String> {
    paper
        .lines()
        .filter(|line| line.trim_start().starts_with("Held by"))
        .flat_map(quoted)
        .filter(|name| {
            name.contains('_')
                && name
                    .chars()
                    .all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '_')
        })
        .collect()
}

/// Invariants that no test holds, and tests named there that do not exist.
pub fn invariants(paper: &Text, sources: &[Text]) -> Vec<Problem> {
    let mut problems = Vec::new();
    for section in paper.text.split("\n## ").skip(1) {
        let title = section.lines().next().unwrap_or("");
        let named = named_tests(section);
        if named.is_empty() {
            problems.push(Problem::of(
                &paper.path,
                format!("\"{title}\" names no test that holds it"),
            ));
        }
        for test in named {
            let definition = format!("fn {test}(");
            if !sources.iter().any(|file| file.text.contains(&definition)) {
                problems.push(Problem::of(
                    &paper.path,
                    format!("\"{title}\" is held by `{test}`, which does not exist"),
                ));
            }
        }
    }
    problems
}

/// A decision says what it stood before, what was chosen, what was not, and when.
pub fn decision(file: &Text) -> Vec<Problem> {
    ["Date:", "## Before", "## Choice", "## Not chosen"]
        .into_iter()
        .filter(|part| !file.text.contains(part))
        .map(|part| Problem::of(&file.path, format!("has no \"{part}\"")))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn text(path: &str, text: &str) -> Text {
        Text {
            path: path.to_owned(),
            text: text.to_owned(),
        }
    }

    #[test]
    fn a_library_without_its_line_and_a_line_without_its_library_are_found() {
        let manifest = text(
            "Cargo.toml",
            "[workspace.dependencies]\ncsv = \"1\"\nquantity = { path = \"q\" }\nserde = \"1\"\n",
        );
        let paper = text(
            "docs/dependencies.md",
            "| `csv` | tables |\n| `maud` | pages |\n",
        );
        let found = dependencies(&[manifest], &paper, &["quantity"]);
        assert_eq!(found.len(), 2);
        assert!(
            found[0].what.contains("`serde`") && found[1].what.contains("`maud`"),
            "{found:?}"
        );
    }

    #[test]
    fn a_listed_library_that_nobody_uses_is_found() {
        let root = text(
            "Cargo.toml",
            "[workspace.dependencies]\ncsv = \"1\"\nserde = \"1\"\n",
        );
        let member = text(
            "crates/a/Cargo.toml",
            "[dependencies]\nserde.workspace = true\n",
        );
        assert_eq!(unused(&root, &[member]).len(), 1);
    }

    #[test]
    fn the_names_of_a_list_in_code_are_found() {
        let code = "const SAYS: [(&str, &str); 2] = [(\"a-b\", \"says\"), (\n\"c-d\",\n\"more\")];\nconst X: [i64; 1] = [1];";
        assert_eq!(first_of_pairs(code, "const SAYS"), ["a-b", "c-d"]);
        assert!(first_of_pairs(code, "const GONE").is_empty());
    }

    #[test]
    fn an_invariant_without_a_living_test_is_found() {
        let paper = text(
            "docs/invariants.md",
            "# All\n\n## 1. One\nHeld by `real_test`.\n\n## 2. Two\nHeld by `gone_test`.\n\n## 3. Three\nHope.\n",
        );
        let source = text("crates/a/src/lib.rs", "#[test]\nfn real_test() {}\n");
        let found = invariants(&paper, &[source]);
        assert_eq!(found.len(), 2);
        assert!(
            found[0].what.contains("gone_test") && found[1].what.contains("Three"),
            "{found:?}"
        );
    }

    #[test]
    fn a_decision_without_its_other_side_is_found() {
        assert_eq!(
            decision(&text(
                "docs/decisions/0001-a.md",
                "Date: 2026\n## Before\n## Choice\n"
            ))
            .len(),
            1
        );
    }
}
