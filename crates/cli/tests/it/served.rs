//! A running `stillroom serve` and a plain HTTP question to it.

use crate::household::{Household, program};
use std::io::{BufRead as _, BufReader, Read as _, Write as _};
use std::net::{SocketAddr, TcpStream};
use std::process::{Child, Command, Stdio};
use std::time::Duration;

/// A server that is stopped when the value goes.
pub struct Served {
    child: Child,
    /// The address it printed.
    pub address: SocketAddr,
}

impl Served {
    /// Serves a household's pages on a free port.
    pub fn on(household: &Household) -> Self {
        let mut command = program();
        command
            .env("STILLROOM_DATA", household.folder())
            .args(["--date", "2026-08-27", "--time", "07:30"])
            .args(["serve", "--port", "0"]);
        Self::by(command)
    }

    /// Starts a command that serves, and waits for its address.
    pub fn by(mut command: Command) -> Self {
        let mut child = command
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("the program starts");
        let mut printed = BufReader::new(child.stdout.take().unwrap());
        let mut line = String::new();
        // The demonstration prints its day first.
        while !line.starts_with("listening on ") {
            line.clear();
            if printed.read_line(&mut line).unwrap() == 0 {
                break;
            }
        }
        let address = line
            .trim()
            .strip_prefix("listening on http://")
            .and_then(|rest| rest.strip_suffix('/'))
            .and_then(|address| address.parse().ok());
        let Some(address) = address else {
            let _ = child.kill();
            let _ = child.wait();
            panic!("it ended without an address");
        };
        Self { child, address }
    }

    /// Sends a request and gives the whole answer as text.
    pub fn ask(&self, request: &str, body: &str) -> String {
        let mut stream = TcpStream::connect(self.address).unwrap();
        stream
            .set_read_timeout(Some(Duration::from_secs(20)))
            .unwrap();
        write!(
            stream,
            "{request} HTTP/1.1\r\nHost: {}\r\nConnection: close\r\n\
             Content-Type: application/x-www-form-urlencoded\r\nContent-Length: {}\r\n\r\n{body}",
            self.address,
            body.len()
        )
        .unwrap();
        let mut answer = Vec::new();
        stream.read_to_end(&mut answer).unwrap();
        String::from_utf8_lossy(&answer).into_owned()
    }
}

impl Drop for Served {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}
