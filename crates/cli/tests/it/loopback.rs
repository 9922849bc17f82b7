//! The pages are served on this machine only: no option and no variable opens them wider.

use crate::household::{Answer, Household, program};
use crate::served::Served;
use std::collections::BTreeSet;
use std::net::{IpAddr, Ipv4Addr, SocketAddr, TcpStream, UdpSocket};
use std::time::Duration;

fn help(arguments: &[&str]) -> String {
    let output = program()
        .args(arguments)
        .arg("--help")
        .output()
        .expect("the program starts");
    Answer::of(&output).fine().out
}

fn options(help: &str) -> BTreeSet<String> {
    help.split(|c: char| c.is_whitespace() || c == ',' || c == '`')
        .filter(|word| word.starts_with("--"))
        .map(str::to_owned)
        .collect()
}

#[test]
fn serving_has_no_option_and_no_variable_for_an_address() {
    let general = ["--data", "--json", "--date", "--time", "--who", "--help"];
    let of = |own: &[&str]| -> BTreeSet<String> {
        general
            .iter()
            .chain(own)
            .map(|&name| name.to_owned())
            .collect()
    };
    assert_eq!(options(&help(&["serve"])), of(&["--port"]));
    assert_eq!(options(&help(&["demo"])), of(&["--port", "--once"]));
    for text in [help(&[]), help(&["serve"]), help(&["demo"])] {
        for variable in text.split("[env: ").skip(1) {
            assert!(variable.starts_with("STILLROOM_DATA="), "{variable}");
        }
    }
    let household = Household::empty();
    for option in [
        "--host",
        "--bind",
        "--address",
        "--listen",
        "--interface",
        "--home",
    ] {
        let answer = household.run(&["serve", "--port", "0", option, "0.0.0.0"]);
        assert_eq!(answer.code, 2, "{option}");
        assert!(answer.err.contains("unexpected argument"), "{}", answer.err);
    }
    for port in ["0.0.0.0:7310", "[::]:0", "65536", "-1"] {
        assert_eq!(household.run(&["serve", "--port", port]).code, 2, "{port}");
    }
    assert!(
        !household.file().exists(),
        "none of them got as far as a file"
    );
}

/// An address of this machine that is not 127.0.0.1. No packet is sent to find it.
fn other_addresses() -> Vec<IpAddr> {
    let mut all = vec![IpAddr::V4(Ipv4Addr::new(127, 0, 0, 2))];
    let own = UdpSocket::bind("0.0.0.0:0")
        .and_then(|socket| {
            socket.connect("192.0.2.1:9")?;
            socket.local_addr()
        })
        .map(|address| address.ip());
    match own {
        Ok(own) if !own.is_loopback() && !own.is_unspecified() => all.push(own),
        _ => println!("this machine has no address but its loopback"),
    }
    all
}

#[test]
fn it_listens_on_127_0_0_1_and_nowhere_else_whatever_the_surroundings_say() {
    let household = Household::empty();
    let mut command = program();
    command.args(["serve", "--port", "0"]);
    for name in ["HOST", "BIND", "ADDRESS", "LISTEN", "ADDR", "IP"] {
        command.env(name, "0.0.0.0");
        command.env(format!("STILLROOM_{name}"), "0.0.0.0");
    }
    command.env("LISTEN_FDS", "1");
    command.env("STILLROOM_DATA", household.folder());
    let served = Served::by(command);
    assert_eq!(served.address.ip(), IpAddr::V4(Ipv4Addr::LOCALHOST));
    let port = served.address.port();
    let wait = Duration::from_secs(5);
    TcpStream::connect_timeout(&served.address, wait).expect("loopback answers");
    for other in other_addresses() {
        let tried = TcpStream::connect_timeout(&SocketAddr::new(other, port), wait);
        assert!(tried.is_err(), "{other} answers");
    }
    if cfg!(target_os = "linux") {
        // The kernel's own list: address and port in hexadecimal, 0A is listening.
        let mut heard = Vec::new();
        for table in ["/proc/net/tcp", "/proc/net/tcp6"] {
            for line in std::fs::read_to_string(table).unwrap_or_default().lines() {
                let mut cells = line.split_whitespace().skip(1);
                if let (Some(local), Some(_), Some("0A")) =
                    (cells.next(), cells.next(), cells.next())
                    && local.ends_with(&format!(":{port:04X}"))
                {
                    heard.push(local.to_owned());
                }
            }
        }
        assert_eq!(heard, [format!("0100007F:{port:04X}")]);
    }
}

#[test]
fn the_first_page_comes_and_a_foreign_name_is_turned_away() {
    let household = Household::after_first_day();
    let served = Served::on(&household);
    let page = served.ask("GET /counter", "");
    assert!(page.starts_with("HTTP/1.1 200"), "{page:.60}");
    assert!(page.contains("Kale"));
    let foreign = served.ask("GET http://garden.example/counter", "");
    assert!(foreign.starts_with("HTTP/1.1 421"), "{foreign:.60}");
}
