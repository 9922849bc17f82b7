//! Who may talk to this server: only a browser on this machine that asked for it by a loopback name.

use axum::extract::Request;
use axum::http::uri::Authority;
use axum::http::{StatusCode, header};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};
use std::net::IpAddr;

/// Answers 421 to any name but localhost and loopback addresses, so that a foreign page cannot
/// reach the household's data through a name of its own that points here.
pub async fn loopback_names_only(request: Request, next: Next) -> Response {
    let mut hosts = request.headers().get_all(header::HOST).iter();
    let named = match (hosts.next(), hosts.next()) {
        (Some(host), None) => host.to_str().ok().is_some_and(is_loopback),
        // Two Host headers are a trick; none at all is no browser.
        _ => false,
    };
    // An absolute request target names a host as well; it must be one of ours too.
    let target = request
        .uri()
        .authority()
        .is_none_or(|authority| is_loopback(authority.as_str()));
    if named && target {
        next.run(request).await
    } else {
        (
            StatusCode::MISDIRECTED_REQUEST,
            "This program answers only under the name localhost or 127.0.0.1.\n",
        )
            .into_response()
    }
}

fn is_loopback(host: &str) -> bool {
    let Ok(authority) = host.parse::<Authority>() else {
        return false;
    };
    let name = authority
        .host()
        .trim_start_matches('[')
        .trim_end_matches(']');
    // "user@localhost" parses as an authority; a Host header never carries a user.
    !host.contains('@')
        && (name.eq_ignore_ascii_case("localhost")
            || name
                .parse::<IpAddr>()
                .is_ok_and(|address| address.is_loopback()))
}

#[cfg(test)]
mod tests {
    use super::is_loopback;

    #[test]
    fn only_loopback_names_are_answered() {
        for good in [
            "localhost",
            "localhost:8420",
            "127.0.0.1:8420",
            "[::1]:8420",
            "LOCALHOST:1",
        ] {
            assert!(is_loopback(good), "{good}");
        }
        for bad in [
            "garden.local",
            "192.168.1.4:8420",
            "localhost.example:80",
            "127.0.0.1.example",
            "x@localhost",
            "",
            "a b",
        ] {
            assert!(!is_loopback(bad), "{bad}");
        }
    }
}
