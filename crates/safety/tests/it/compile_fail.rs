//! A permit cannot be made outside the gate: each way is tried with the compiler, beside a twin that
//! compiles, so that a slip in the try itself cannot pass for a proof.

use std::path::{Path, PathBuf};
use std::process::Command;

/// Libraries named `name` beside this test program, newest first.
fn libraries(deps: &Path, name: &str) -> Vec<PathBuf> {
    let start = format!("lib{name}-");
    let mut found: Vec<(std::time::SystemTime, PathBuf)> = std::fs::read_dir(deps)
        .expect("the folder of this test program")
        .flatten()
        .filter(|entry| {
            let file = entry.file_name().to_string_lossy().into_owned();
            file.starts_with(&start) && file.ends_with(".rlib")
        })
        .filter_map(|entry| Some((entry.metadata().ok()?.modified().ok()?, entry.path())))
        .collect();
    found.sort();
    found.into_iter().rev().map(|(_, path)| path).collect()
}

/// The compiler's messages; `None` when it accepts the file.
fn compile(file: &Path, deps: &Path, libraries: &[(&str, &PathBuf)]) -> Option<String> {
    let rustc = std::env::var_os("RUSTC").unwrap_or_else(|| "rustc".into());
    // One folder for each try: tests run side by side.
    let name = file.file_stem().unwrap_or_default().to_string_lossy();
    let out = std::env::temp_dir().join(format!("safety-ui-{}-{name}", std::process::id()));
    std::fs::create_dir_all(&out).expect("a folder for the try");
    let mut command = Command::new(rustc);
    command
        .args([
            "--edition",
            "2024",
            "--emit=metadata",
            "--crate-type=bin",
            "-L",
        ])
        .arg(format!("dependency={}", deps.display()))
        .arg("--out-dir")
        .arg(&out)
        .arg(file);
    for (name, path) in libraries {
        command
            .arg("--extern")
            .arg(format!("{name}={}", path.display()));
    }
    let output = command.output().expect("the compiler runs");
    std::fs::remove_dir_all(&out).expect("the folder goes");
    (!output.status.success()).then(|| String::from_utf8_lossy(&output.stderr).into_owned())
}

/// Tries one file and its twin.
fn refused(name: &str) {
    let ui = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/ui");
    let test = std::env::current_exe().expect("this test program");
    let deps = test.parent().expect("its folder");
    let twin = ui.join(format!("{name}_twin.rs"));
    let message = std::fs::read_to_string(ui.join(format!("{name}.message"))).expect("the message");
    let mut last = String::new();
    // Old builds may lie in the same folder; the set of libraries with which the twin compiles is ours.
    for safety in libraries(deps, "safety") {
        for reference in libraries(deps, "reference") {
            for serde in libraries(deps, "serde") {
                let set = [
                    ("safety", &safety),
                    ("reference", &reference),
                    ("serde", &serde),
                ];
                match compile(&twin, deps, &set) {
                    Some(text) => last = text,
                    None => {
                        let file = ui.join(format!("{name}.rs"));
                        let text = compile(&file, deps, &set).expect("the compiler refuses it");
                        assert!(text.contains(message.trim_end_matches('\n')), "{text}");
                        return;
                    }
                }
            }
        }
    }
    panic!("the twin of {name} never compiled: {last}");
}

#[test]
fn a_permit_cannot_be_written_as_a_literal() {
    refused("literal");
}

#[test]
fn a_permit_has_no_default() {
    refused("default");
}

#[test]
fn a_permit_cannot_be_read_from_stored_text() {
    refused("deserialise");
}

#[test]
fn a_record_cannot_be_turned_into_a_permit() {
    refused("grant");
}
