//! Starts the built `stillroom` binary on a folder of its own and stops it again.

use std::io::{BufRead, BufReader, Read};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Output, Stdio};
use std::sync::mpsc;
use std::time::{Duration, Instant};

use crate::{Fault, here};

/// How long the program may take until it says where it listens. Generous,
/// because a development build on a busy machine sets up the demo first; the
/// speed of a start is measured by `scripts/bench`, not here.
const START_LIMIT: Duration = Duration::from_secs(120);

/// A running program; stopped when dropped.
pub struct Program {
    child: Child,
    /// The address it printed, with the closing slash.
    address: String,
    _folder: Folder,
}

enum Folder {
    /// Removed with the program.
    Own(tempfile::TempDir),
    /// Belongs to the test.
    Given(PathBuf),
}

impl Program {
    /// The invented demo household, served from a fresh folder on its own date.
    pub fn demo() -> Result<Program, Fault> {
        let folder = tempfile::tempdir()?;
        Program::start("demo", Folder::Own(folder), &[])
    }

    /// Serves the household in `folder` as of a date and a time of day.
    pub fn serve(folder: &Path, date: &str, time: &str) -> Result<Program, Fault> {
        let when = ["--date", date, "--time", time];
        Program::start("serve", Folder::Given(folder.to_path_buf()), &when)
    }

    fn start(verb: &str, folder: Folder, when: &[&str]) -> Result<Program, Fault> {
        let data = match &folder {
            Folder::Own(own) => own.path().to_path_buf(),
            Folder::Given(given) => given.clone(),
        };
        let mut child = Command::new(binary()?)
            .arg(verb)
            .arg("--data")
            .arg(&data)
            .args(["--port", "0"])
            .args(when)
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()?;
        let address = match wait_for_address(&mut child) {
            Ok(address) => address,
            Err(fault) => {
                // The child must not outlive a failed start.
                let _ = child.kill();
                let _ = child.wait();
                return Err(fault);
            }
        };
        Ok(Program {
            child,
            address,
            _folder: folder,
        })
    }

    /// The address of a page, for example `page("/counter")`.
    pub fn page(&self, path: &str) -> String {
        format!("{}{path}", self.address.trim_end_matches('/'))
    }
}

impl Drop for Program {
    fn drop(&mut self) {
        // Nothing is owed to a test server; its folder goes with it.
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// Runs one command of the program on the household in `folder`.
pub fn run(folder: &Path, arguments: &[&str]) -> Result<Output, Fault> {
    Ok(Command::new(binary()?)
        .args(arguments)
        .arg("--data")
        .arg(folder)
        .stdin(Stdio::null())
        .output()?)
}

/// The built binary: `STILLROOM_BIN`, or the development build beside this folder.
fn binary() -> Result<PathBuf, Fault> {
    let path = match std::env::var_os("STILLROOM_BIN") {
        Some(given) => PathBuf::from(given),
        None => here().join("../target/debug/stillroom"),
    };
    if path.is_file() {
        Ok(path)
    } else {
        Err(format!(
            "no program at {}: build it first with `cargo build`, or name it in STILLROOM_BIN",
            path.display()
        )
        .into())
    }
}

/// Reads what the program prints until it says where it listens, then keeps
/// reading in the background so that a full pipe never stops it.
fn wait_for_address(child: &mut Child) -> Result<String, Fault> {
    let out = child.stdout.take().ok_or("the program has no output")?;
    let mut complaints = child
        .stderr
        .take()
        .ok_or("the program has no error output")?;
    let (found, address) = mpsc::channel();
    std::thread::spawn(move || {
        for line in BufReader::new(out).lines().map_while(Result::ok) {
            if let Some((_, rest)) = line.split_once("listening on ") {
                let _ = found.send(rest.trim().to_owned());
            }
        }
    });
    let (said, complaint) = mpsc::channel();
    std::thread::spawn(move || {
        let mut text = String::new();
        let _ = complaints.read_to_string(&mut text);
        let _ = said.send(text);
    });
    let started = Instant::now();
    while started.elapsed() < START_LIMIT {
        match address.recv_timeout(Duration::from_millis(100)) {
            Ok(address) => return Ok(address),
            Err(_) => {
                if let Some(status) = child.try_wait()? {
                    let text = complaint
                        .recv_timeout(Duration::from_secs(2))
                        .unwrap_or_default();
                    return Err(format!("the program ended at once ({status}): {text}").into());
                }
            }
        }
    }
    Err("the program did not say where it listens".into())
}
