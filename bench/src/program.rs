//! Runs and serves the program, and reads pages over a plain connection.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::Path;
use std::process::{Child, Command, Stdio};

/// What can go wrong while measuring.
pub type Fault = Box<dyn std::error::Error>;

/// A serving program; stopped when dropped.
pub struct Program {
    child: Child,
    address: String,
}

impl Program {
    /// Serves the household on a free port and waits until it says where.
    pub fn serve(binary: &Path, household: &Path) -> Result<Program, Fault> {
        let mut child = Command::new(binary)
            .args([
                "serve",
                "--port",
                "0",
                "--date",
                "2026-08-27",
                "--time",
                "07:30",
                "--data",
            ])
            .arg(household)
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .spawn()?;
        let out = child.stdout.take().ok_or("no output")?;
        let mut program = Program {
            child,
            address: String::new(),
        };
        for line in BufReader::new(out).lines() {
            if let Some((_, rest)) = line?.split_once("listening on http://") {
                program.address = rest.trim().trim_end_matches('/').to_owned();
                return Ok(program);
            }
        }
        Err("the program ended without saying where it listens".into())
    }

    /// Host and port.
    pub fn address(&self) -> &str {
        &self.address
    }

    /// Resident memory now and at most, in megabytes.
    pub fn memory(&self) -> Result<(f64, f64), Fault> {
        let status = std::fs::read_to_string(format!("/proc/{}/status", self.child.id()))?;
        let megabytes = |name: &str| -> Result<f64, Fault> {
            let line = status
                .lines()
                .find(|line| line.starts_with(name))
                .ok_or("no memory figure")?;
            let kilobytes: f64 = line
                .split_whitespace()
                .nth(1)
                .ok_or("no memory figure")?
                .parse()?;
            Ok(kilobytes / 1024.0)
        };
        Ok((megabytes("VmRSS:")?, megabytes("VmHWM:")?))
    }
}

impl Drop for Program {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// Runs one command on the household and gives what it printed.
pub fn run(binary: &Path, household: &Path, arguments: &[&str]) -> Result<String, Fault> {
    let output = Command::new(binary)
        .args(arguments)
        .env("STILLROOM_DATA", household)
        .stdin(Stdio::null())
        .output()?;
    if output.status.success() {
        Ok(String::from_utf8_lossy(&output.stdout).into_owned())
    } else {
        Err(format!(
            "stillroom {}: {}",
            arguments.join(" "),
            String::from_utf8_lossy(&output.stderr)
        )
        .into())
    }
}

/// Reads an address without packing and gives its body; an answer other than
/// "found" is a fault unless `any` is set.
pub fn get(address: &str, path: &str, any: bool) -> Result<Vec<u8>, Fault> {
    let answer = ask(address, path, "")?;
    let end = answer
        .windows(4)
        .position(|four| four == b"\r\n\r\n")
        .ok_or("an answer without end of head")?;
    let found = answer.starts_with(b"HTTP/1.1 200");
    if !found && !any {
        let first = answer
            .split(|byte| *byte == b'\r')
            .next()
            .unwrap_or_default();
        return Err(format!("{path}: {}", String::from_utf8_lossy(first)).into());
    }
    Ok(answer.get(end + 4..).unwrap_or_default().to_vec())
}

/// How many bytes come over the line for an address when packing is allowed, head included.
pub fn size_as_sent(address: &str, path: &str) -> Result<usize, Fault> {
    Ok(ask(address, path, "Accept-Encoding: gzip\r\n")?.len())
}

fn ask(address: &str, path: &str, more: &str) -> Result<Vec<u8>, Fault> {
    let mut line = TcpStream::connect(address)?;
    line.write_all(
        format!("GET {path} HTTP/1.1\r\nHost: {address}\r\nConnection: close\r\n{more}\r\n")
            .as_bytes(),
    )?;
    let mut answer = Vec::new();
    line.read_to_end(&mut answer)?;
    Ok(answer)
}
