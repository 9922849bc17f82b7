//! What every answer carries, and what is turned away before a page is asked.

use crate::site::Household;
use axum::body::Body;
use axum::http::{Request, StatusCode, header};

#[tokio::test]
async fn every_answer_carries_the_strict_policy() {
    let household = Household::empty();
    for address in ["/counter", "/nothing", "/health"] {
        let answer = household.get(address).await;
        let policy = answer.header("content-security-policy");
        assert!(
            policy.starts_with("default-src 'self';") && !policy.contains("unsafe"),
            "{address}: {policy}"
        );
        assert_eq!(answer.header("referrer-policy"), "same-origin", "{address}");
        assert_eq!(
            answer.header("x-content-type-options"),
            "nosniff",
            "{address}"
        );
        assert_eq!(answer.header("cache-control"), "no-store", "{address}");
    }
}

#[tokio::test]
async fn static_files_are_kept_for_a_year_under_their_hash_and_nowhere_else() {
    let household = Household::empty();
    let answer = household.get(&web::assets::address("style.css")).await;
    assert_eq!(answer.status, StatusCode::OK);
    assert!(answer.header("cache-control").contains("immutable"));
    assert_eq!(answer.header("content-type"), "text/css; charset=utf-8");
    assert_eq!(
        household.get("/static/style.css").await.status,
        StatusCode::NOT_FOUND
    );
    assert_eq!(
        household.get("/static/..%2f..%2fCargo.toml").await.status,
        StatusCode::NOT_FOUND
    );
}

#[tokio::test]
async fn a_foreign_name_is_turned_away() {
    let household = Household::empty();
    for host in ["garden.local", "192.168.1.9:8420", "localhost.example"] {
        let request = Request::get("/counter")
            .header(header::HOST, host)
            .body(Body::empty())
            .expect("a request");
        assert_eq!(
            household.send(request).await.status,
            StatusCode::MISDIRECTED_REQUEST,
            "{host}"
        );
    }
    let two = Request::get("/counter")
        .header(header::HOST, "localhost")
        .header(header::HOST, "localhost")
        .body(Body::empty())
        .expect("a request");
    assert_eq!(
        household.send(two).await.status,
        StatusCode::MISDIRECTED_REQUEST
    );
    let none = Request::get("/counter")
        .body(Body::empty())
        .expect("a request");
    assert_eq!(
        household.send(none).await.status,
        StatusCode::MISDIRECTED_REQUEST
    );
}

#[tokio::test]
async fn a_form_from_another_site_writes_nothing() {
    let household = Household::demo();
    let before = household.app.facts().expect("facts").lots.len();
    let request = Request::post("/counter")
        .header(header::HOST, "localhost:8420")
        .header(header::ORIGIN, "http://elsewhere.example")
        .header("sec-fetch-site", "cross-site")
        .header(header::CONTENT_TYPE, "application/x-www-form-urlencoded")
        .body(Body::from(
            "crop=apple&grade=sound&amount=3+lb&place=counter&temperature=70F&token=aa-1",
        ))
        .expect("a request");
    let answer = household.send(request).await;
    assert_eq!(answer.status, StatusCode::FORBIDDEN);
    assert!(answer.body.contains("another site"));
    assert_eq!(household.app.facts().expect("facts").lots.len(), before);
}

#[tokio::test]
async fn what_is_too_long_or_no_form_is_answered_with_a_page() {
    let household = Household::empty();
    let long = "x".repeat(400 * 1024);
    let answer = household.post("/counter", &[("note", &long)]).await;
    assert_eq!(answer.status, StatusCode::PAYLOAD_TOO_LARGE);
    assert!(answer.body.contains("<h1>"));

    let request = Request::post("/counter")
        .header(header::HOST, "localhost")
        .header(header::CONTENT_TYPE, "text/plain")
        .body(Body::from("crop"))
        .expect("a request");
    let answer = household.send(request).await;
    assert_eq!(answer.status, StatusCode::UNSUPPORTED_MEDIA_TYPE);
    assert!(answer.body.contains("<h1>"));
}
