//! Serves one fixed page, so that the measuring itself can be tested.

use std::io::{Read, Write};
use std::net::TcpListener;

/// Serves `page` on a free port for as long as the test process lives and
/// gives the address.
pub fn serve(page: &'static str) -> std::io::Result<String> {
    let listener = TcpListener::bind("127.0.0.1:0")?;
    let address = format!("http://{}/", listener.local_addr()?);
    std::thread::spawn(move || {
        for mut line in listener.incoming().flatten() {
            let mut request = [0_u8; 4096];
            let _ = line.read(&mut request);
            let _ = write!(
                line,
                "HTTP/1.1 200 OK\r\nContent-Type: text/html; charset=utf-8\r\nContent-Length: {}\r\nConnection: close\r\n\r\n{page}",
                page.len()
            );
        }
    });
    Ok(address)
}
