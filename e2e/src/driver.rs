//! The driver process that stands between the tests and the browser.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::process::{Child, Command, Stdio};
use std::time::Duration;

use crate::Fault;

/// The driver process; asked to shut down, with its browsers, when dropped.
pub struct Driver {
    child: Child,
    port: u16,
}

impl Driver {
    /// Starts a driver on a free port. Two that start in the same moment may
    /// choose the same one, and the later one ends; then another is started.
    pub fn start() -> Result<Driver, Fault> {
        let mut last = Driver::try_start();
        for _ in 0..4 {
            if last.is_ok() {
                break;
            }
            std::thread::sleep(Duration::from_millis(300));
            last = Driver::try_start();
        }
        last
    }

    /// The port it listens on.
    pub fn port(&self) -> u16 {
        self.port
    }

    fn try_start() -> Result<Driver, Fault> {
        let mut child = Command::new("chromedriver")
            .arg("--port=0")
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .map_err(|cause| format!("chromedriver does not start ({cause}); Debian: apt-get install chromium chromium-driver"))?;
        let out = child.stdout.take().ok_or("the driver has no output")?;
        let mut lines = BufReader::new(out).lines();
        let mut port = None;
        while port.is_none() {
            let Some(line) = lines.next().transpose()? else {
                return Err("the driver ended without naming its port".into());
            };
            port = line
                .split_once("on port ")
                .map(|(_, rest)| {
                    rest.chars()
                        .take_while(char::is_ascii_digit)
                        .collect::<String>()
                })
                .and_then(|digits| digits.parse::<u16>().ok())
                .filter(|port| *port != 0);
        }
        // Read on, so that the driver never waits for a full pipe.
        std::thread::spawn(move || for _ in lines.map_while(Result::ok) {});
        Ok(Driver {
            child,
            port: port.unwrap_or_default(),
        })
    }
}

impl Drop for Driver {
    fn drop(&mut self) {
        // Killing the driver would leave its browser running, so it is asked
        // first and killed only when it does not answer.
        if let Ok(mut line) = TcpStream::connect(("127.0.0.1", self.port)) {
            let _ = line.set_read_timeout(Some(Duration::from_secs(5)));
            let _ = line.write_all(
                b"GET /shutdown HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\n\r\n",
            );
            let _ = line.read_to_end(&mut Vec::new());
        }
        for _ in 0..50 {
            if let Ok(Some(_)) = self.child.try_wait() {
                return;
            }
            std::thread::sleep(Duration::from_millis(100));
        }
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// The driver sends pictures as base64 text.
pub fn from_base64(text: &str) -> Result<Vec<u8>, Fault> {
    let mut bytes = Vec::with_capacity(text.len() / 4 * 3);
    let mut held: u32 = 0;
    let mut bits = 0;
    for character in text.bytes() {
        let value = match character {
            b'A'..=b'Z' => character - b'A',
            b'a'..=b'z' => character - b'a' + 26,
            b'0'..=b'9' => character - b'0' + 52,
            b'+' => 62,
            b'/' => 63,
            b'=' => break,
            _ => return Err("not base64".into()),
        };
        held = (held << 6) | u32::from(value);
        bits += 6;
        if bits >= 8 {
            bits -= 8;
            bytes.push((held >> bits) as u8);
            held &= (1 << bits) - 1;
        }
    }
    Ok(bytes)
}
