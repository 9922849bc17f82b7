//! Which files the rules look at, and the rules on a file as such: its header,
//! its length, its name, what must not be left in it.

use std::io;
use std::path::{Path, PathBuf};

use crate::Problem;

/// The longest source file, in lines. Tests and data are not limited.
pub const MOST_LINES: usize = 500;

/// Folders that hold nothing of ours.
const SKIPPED: [&str; 4] = ["target", ".git", "node_modules", "demo-household"];

/// Module names that say nothing, so that everything ends up in them.
const EMPTY_NAMES: [&str; 12] = [
    "util", "utils", "helper", "helpers", "common", "misc", "base", "core", "manager", "service",
    "shared", "stuff",
];

/// A text file of the repository.
#[derive(Debug, Clone)]
pub struct Text {
    /// Path from the root, with `/`.
    pub path: String,
    /// What it says.
    pub text: String,
}

impl Text {
    /// The ending of its name, without the dot; empty if it has none.
    pub fn ending(&self) -> &str {
        Path::new(&self.path)
            .extension()
            .and_then(|ending| ending.to_str())
            .unwrap_or("")
    }

    /// Whether it is test code as a whole.
    pub fn is_test(&self) -> bool {
        self.path
            .split('/')
            .any(|part| part == "tests" || part == "tests.rs" || part == "fixtures")
            || self.path.ends_with("_tests.rs")
    }
}

/// The root of the repository.
pub fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// Every text file below `root` whose ending is one of `endings`, in order of
/// path. Files that are no UTF-8 are left out.
///
/// # Errors
/// When a folder or file cannot be read.
pub fn texts(root: &Path, endings: &[&str]) -> io::Result<Vec<Text>> {
    let mut found = Vec::new();
    walk(root, root, endings, &mut found)?;
    found.sort_by(|one, other| one.path.cmp(&other.path));
    Ok(found)
}

fn walk(root: &Path, folder: &Path, endings: &[&str], found: &mut Vec<Text>) -> io::Result<()> {
    for entry in std::fs::read_dir(folder)? {
        let path = entry?.path();
        let name = path
            .file_name()
            .and_then(|name| name.to_str())
            .unwrap_or("");
        if path.is_dir() {
            if !SKIPPED.contains(&name) {
                walk(root, &path, endings, found)?;
            }
            continue;
        }
        let ending = path
            .extension()
            .and_then(|ending| ending.to_str())
            .unwrap_or("");
        if !endings.contains(&ending) {
            continue;
        }
        let Ok(text) = std::fs::read_to_string(&path) else {
            continue;
        };
        let inside = path.strip_prefix(root).unwrap_or(&path);
        let parts: Vec<&str> = inside.iter().filter_map(|part| part.to_str()).collect();
        found.push(Text {
            path: parts.join("/"),
            text,
        });
    }
    Ok(())
}

/// The first line of a Rust file says what the file is for.
pub fn header(file: &Text) -> Vec<Problem> {
    let first = file.text.lines().next().unwrap_or("");
    if first.starts_with("//! ") && first.len() > "//! ".len() + 8 {
        Vec::new()
    } else {
        vec![Problem::of(
            &file.path,
            "the first line must be a module header, `//! what this file is for`",
        )]
    }
}

/// No source file is longer than a person can hold in the head.
pub fn length(file: &Text) -> Vec<Problem> {
    let lines = file.text.lines().count();
    if file.is_test() || lines <= MOST_LINES {
        return Vec::new();
    }
    vec![Problem::of(
        &file.path,
        format!("{lines} lines; split it, {MOST_LINES} is the limit"),
    )]
}

/// A module is named after the thing it defines.
pub fn name(file: &Text) -> Vec<Problem> {
    file.path
        .split('/')
        .map(|part| part.strip_suffix(".rs").unwrap_or(part))
        .filter(|part| EMPTY_NAMES.contains(part))
        .map(|part| {
            Problem::of(
                &file.path,
                format!("\"{part}\" names nothing; name the module after its thing"),
            )
        })
        .collect()
}

/// Nothing unfinished, switched off or belonging to one machine is left.
pub fn leftovers(file: &Text) -> Vec<Problem> {
    // Written in two parts so that this file does not find itself.
    let refused = [
        (concat!("FIX", "ME"), "unfinished work"),
        (concat!("TO", "DO"), "unfinished work"),
        (concat!("to", "do!("), "unfinished work"),
        (concat!("unimple", "mented!("), "unfinished work"),
        (concat!("db", "g!("), "debugging output"),
        (concat!("#[ig", "nore"), "a test that does not run"),
        (concat!("/wo", "rk/"), "a path of one machine"),
        (concat!("/ro", "ot/"), "a path of one machine"),
        (concat!("/ho", "me/"), "a path of one machine"),
        (concat!("farm", "-bench"), "a name from outside the project"),
        (
            concat!("farm", "-studio"),
            "a name from outside the project",
        ),
    ];
    let mut problems = Vec::new();
    for (index, line) in file.text.lines().enumerate() {
        for (text, why) in refused {
            if line.contains(text) {
                problems.push(Problem::at(&file.path, index, format!("\"{text}\": {why}")));
            }
        }
    }
    problems
}

#[cfg(test)]
mod tests {
    use super::*;

    fn file(path: &str, text: &str) -> Text {
        Text {
            path: path.to_owned(),
            text: text.to_owned(),
        }
    }

    #[test]
    fn a_file_without_header_is_found() {
        assert_eq!(header(&file("a.rs", "use std::io;\n")).len(), 1);
        assert_eq!(header(&file("a.rs", "//!\n")).len(), 1);
        assert!(header(&file("a.rs", "//! What this file is for.\n")).is_empty());
    }

    #[test]
    fn a_long_file_is_found_unless_it_is_a_test() {
        let long = "x\n".repeat(MOST_LINES + 1);
        assert_eq!(length(&file("crates/a/src/lib.rs", &long)).len(), 1);
        assert!(length(&file("crates/a/tests/it/main.rs", &long)).is_empty());
        assert!(length(&file("crates/a/src/lib.rs", &"x\n".repeat(MOST_LINES))).is_empty());
    }

    #[test]
    fn a_name_that_says_nothing_is_found() {
        assert_eq!(name(&file("crates/a/src/helpers.rs", "")).len(), 1);
        assert_eq!(name(&file("crates/a/src/misc/b.rs", "")).len(), 1);
        assert!(name(&file("crates/a/src/lot.rs", "")).is_empty());
    }

    #[test]
    fn what_was_left_is_found_with_its_line() {
        let text = format!("fn a() {{}}\n    {}x);\n", concat!("db", "g!("));
        let problems = leftovers(&file("a.rs", &text));
        assert_eq!(problems.len(), 1);
        assert_eq!(problems[0].place, "a.rs:2");
    }
}
