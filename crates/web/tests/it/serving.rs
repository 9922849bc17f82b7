//! The server itself: where it listens, and what it says when it cannot.

use crate::site::now;
use app::App;
use std::io::{Read as _, Write as _};
use std::net::{SocketAddr, TcpStream};
use std::sync::{Arc, mpsc};

/// Serves an empty household on a thread that ends with the test program.
fn served(folder: &std::path::Path) -> SocketAddr {
    let app = Arc::new(App::open_folder(folder).expect("an empty file"));
    let (told, tell) = mpsc::channel();
    std::thread::spawn(move || {
        web::serve(app, Arc::new(now), 0, move |address| {
            let _ = told.send(address);
        })
    });
    tell.recv().expect("the server tells where it listens")
}

#[test]
fn it_listens_on_loopback_and_answers() {
    let folder = tempfile::tempdir().expect("a folder");
    let address = served(folder.path());
    assert!(address.ip().is_loopback(), "{address}");
    let mut stream = TcpStream::connect(address).expect("a connection");
    write!(
        stream,
        "GET /health HTTP/1.1\r\nHost: {address}\r\nConnection: close\r\n\r\n"
    )
    .expect("a request");
    let mut answer = String::new();
    stream.read_to_string(&mut answer).expect("an answer");
    assert!(answer.starts_with("HTTP/1.1 200"), "{answer}");
}

#[test]
fn pages_are_sent_packed_when_the_browser_can_unpack() {
    let folder = tempfile::tempdir().expect("a folder");
    let address = served(folder.path());
    let mut stream = TcpStream::connect(address).expect("a connection");
    write!(stream, "GET /house HTTP/1.1\r\nHost: {address}\r\nAccept-Encoding: gzip\r\nConnection: close\r\n\r\n").expect("a request");
    let mut answer = Vec::new();
    stream.read_to_end(&mut answer).expect("an answer");
    let head = String::from_utf8_lossy(&answer[..answer.len().min(900)]).to_lowercase();
    assert!(head.contains("content-encoding: gzip"), "{head}");
}

#[test]
fn a_taken_port_is_an_error_that_names_it() {
    let folder = tempfile::tempdir().expect("a folder");
    let taken = served(folder.path()).port();
    let other = tempfile::tempdir().expect("a folder");
    let app = Arc::new(App::open_folder(other.path()).expect("an empty file"));
    let error = web::serve(app, Arc::new(now), taken, |_| ()).expect_err("the port is taken");
    assert_eq!(error.kind(), std::io::ErrorKind::AddrInUse);
    assert!(error.to_string().contains(&taken.to_string()), "{error}");
}
