//! Who may use whom: the crates stand in one direction, and heavy libraries
//! stay where they belong.

use crate::Problem;
use crate::files::Text;

/// Each crate and which of our crates it may name, in dependency order.
pub const EDGES: [(&str, &[&str]); 14] = [
    ("quantity", &[]),
    ("reference", &["quantity"]),
    ("safety", &["quantity", "reference"]),
    ("kitchen", &["quantity", "reference", "safety"]),
    ("ledger", &["quantity"]),
    ("forecast", &[]),
    ("plan", &[]),
    ("solve", &["plan"]),
    ("print", &[]),
    (
        "store",
        &[
            "quantity",
            "reference",
            "safety",
            "kitchen",
            "ledger",
            "plan",
        ],
    ),
    (
        "app",
        &[
            "quantity",
            "reference",
            "safety",
            "kitchen",
            "ledger",
            "forecast",
            "plan",
            "print",
            "solve",
            "store",
        ],
    ),
    ("web", &["quantity", "app"]),
    ("cli", &["quantity", "app", "web", "store"]),
    ("tidy", &[]),
];

/// Libraries that only these crates may name.
const KEPT_IN: [(&str, &[&str]); 15] = [
    ("rusqlite", &["store"]),
    ("microlp", &["solve"]),
    ("statrs", &["forecast"]),
    // Boiling points are information; the gate must never see them.
    ("seuif97", &["kitchen"]),
    ("krilla", &["print"]),
    ("qrcode", &["print"]),
    ("skrifa", &["print"]),
    ("axum", &["web"]),
    ("maud", &["web"]),
    ("tower", &["web"]),
    ("tower-http", &["web"]),
    ("rust-embed", &["web"]),
    ("tokio", &["web", "cli"]),
    ("clap", &["cli"]),
    ("csv", &["reference", "kitchen", "tidy"]),
];

/// Crates that decide and nothing else.
const PURE: [&str; 9] = [
    "quantity",
    "reference",
    "safety",
    "kitchen",
    "ledger",
    "forecast",
    "plan",
    "solve",
    "print",
];

/// What a pure crate must not reach for, and what it is. The solver may look at
/// a stopwatch, because its time budget is one; see its own documentation.
const IMPURE: [(&str, &str, &[&str]); 9] = [
    ("std::fs", "files", &[]),
    ("std::net", "the network", &[]),
    ("std::env::", "the surroundings", &[]),
    ("std::process", "other programs", &[]),
    ("SystemTime", "the clock", &[]),
    ("::now()", "the clock", &["solve"]),
    ("Instant", "a stopwatch", &["solve"]),
    ("thread_rng", "chance", &[]),
    ("RandomState", "chance", &[]),
];

/// The names under `[dependencies]` (or another table) of a manifest.
pub fn names_in(manifest: &str, table: &str) -> Vec<String> {
    let heading = format!("[{table}]");
    let mut inside = false;
    let mut names = Vec::new();
    for line in manifest.lines() {
        let line = line.trim();
        if line.starts_with('[') {
            inside = line == heading;
            // `[dependencies.name]` is a table of its own.
            if let Some(name) = line.strip_prefix(&format!("[{table}.")) {
                names.push(name.trim_end_matches(']').to_owned());
            }
        } else if inside && !line.starts_with('#') && line.contains('=') {
            let name: String = line
                .chars()
                .take_while(|c| c.is_alphanumeric() || *c == '-' || *c == '_')
                .collect();
            if !name.is_empty() {
                names.push(name);
            }
        }
    }
    names
}

/// The edges of one crate's manifest that are not allowed.
pub fn manifest(name: &str, file: &Text) -> Vec<Problem> {
    let Some((_, allowed)) = EDGES.iter().find(|(known, _)| *known == name) else {
        return vec![Problem::of(
            &file.path,
            "unknown crate: add it to the table of edges and to docs/architecture.md",
        )];
    };
    let mut problems = Vec::new();
    for used in names_in(&file.text, "dependencies") {
        let ours = EDGES.iter().any(|(known, _)| *known == used);
        if ours && !allowed.contains(&used.as_str()) {
            problems.push(Problem::of(
                &file.path,
                format!("{name} may not use {used}"),
            ));
        }
        if let Some((_, homes)) = KEPT_IN.iter().find(|(library, _)| *library == used)
            && !homes.contains(&name)
        {
            problems.push(Problem::of(
                &file.path,
                format!("{used} belongs in {}, not in {name}", homes.join(" and ")),
            ));
        }
    }
    problems
}

/// Files, clocks and chance in a crate that is to decide only.
pub fn purity(name: &str, file: &Text) -> Vec<Problem> {
    if !PURE.contains(&name) || file.is_test() {
        return Vec::new();
    }
    let mut problems = Vec::new();
    for (index, line) in crate::figures::without_tests(&file.text)
        .lines()
        .enumerate()
    {
        let code = line.split("//").next().unwrap_or("");
        for (text, what, except) in IMPURE {
            if code.contains(text) && !except.contains(&name) {
                problems.push(Problem::at(
                    &file.path,
                    index,
                    format!("{name} knows nothing of {what} ({text})"),
                ));
            }
        }
    }
    problems
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
    fn an_edge_against_the_order_is_found() {
        let file = text(
            "crates/safety/Cargo.toml",
            "[dependencies]\nquantity.workspace = true\nstore.workspace = true\n",
        );
        assert_eq!(
            manifest("safety", &file),
            [Problem::of(
                "crates/safety/Cargo.toml",
                "safety may not use store"
            )]
        );
    }

    #[test]
    fn a_heavy_library_away_from_home_is_found() {
        let file = text(
            "crates/app/Cargo.toml",
            "[dependencies]\nrusqlite = { workspace = true }\n",
        );
        assert_eq!(manifest("app", &file).len(), 1);
    }

    #[test]
    fn dependencies_of_tests_are_not_edges_of_the_product() {
        let file = text(
            "crates/web/Cargo.toml",
            "[dependencies]\napp.workspace = true\n[dev-dependencies]\nstore.workspace = true\n",
        );
        assert!(manifest("web", &file).is_empty());
        assert_eq!(names_in(&file.text, "dev-dependencies"), ["store"]);
    }

    #[test]
    fn a_crate_nobody_placed_is_found() {
        assert_eq!(
            manifest("cellar", &text("crates/cellar/Cargo.toml", "")).len(),
            1
        );
    }

    #[test]
    fn a_clock_in_a_deciding_crate_is_found_but_not_in_its_tests() {
        let file = text(
            "crates/safety/src/gate.rs",
            "let a = 1;\nlet t = SystemTime::now();\n",
        );
        assert!(!purity("safety", &file).is_empty());
        let tests = text(
            "crates/safety/src/gate.rs",
            "#[cfg(test)]\nmod tests {\n use std::fs;\n}\n",
        );
        assert!(purity("safety", &tests).is_empty());
        assert!(purity("store", &file).is_empty());
        let stopwatch = text("crates/solve/src/a.rs", "let t = Instant::now();");
        assert!(purity("solve", &stopwatch).is_empty());
    }
}
