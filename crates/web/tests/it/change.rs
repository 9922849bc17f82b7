//! The page of recipe changes: one change after another, each answered, none written.

use crate::html;
use crate::site::{Answer, Household};
use axum::http::StatusCode;

const SALSA: &str = "/change?recipe=tomato-salsa-paste-tomatoes";

async fn open(household: &Household, address: &str) -> Answer {
    let page = household.get(address).await;
    assert_eq!(page.status, StatusCode::OK, "{address}: {}", page.words());
    assert_eq!(html::faults(&page.body), Vec::<String>::new(), "{address}");
    page
}

/// The hidden fields of a form, as an address sends them on.
fn carried(page: &Answer) -> Vec<String> {
    html::read(&page.body)
        .expect("a well-formed page")
        .iter()
        .filter(|element| element.name == "input" && element.get("name") == "edit")
        .map(|element| element.get("value").replace("&quot;", "\""))
        .collect()
}

#[tokio::test]
async fn a_change_is_answered_with_its_rule_and_carried_on() {
    let household = Household::demo();
    let lines = open(&household, SALSA).await;
    assert!(lines.body.contains("onions chopped"), "{}", lines.body);
    assert!(carried(&lines).is_empty());
    let swap = format!("{SALSA}&new.form=line&new.line=4&new.kind=swap&new.with=onions");
    let page = open(&household, &swap).await;
    let words = &page.body;
    for said in [
        "refused",
        "hot-pepper-to-onion",
        "Read elsewhere",
        "eat within 3 days",
    ] {
        assert!(words.contains(said), "«{said}» is missing: {words}");
    }
    let edits = carried(&page);
    assert!(
        !edits.is_empty() && edits[0].contains("\"with\":\"onions\""),
        "{edits:?}"
    );
}

#[tokio::test]
async fn an_allowed_change_has_no_instead_and_can_be_taken_back() {
    let household = Household::demo();
    let page = open(
        &household,
        &format!("{SALSA}&new.form=line&new.line=7&new.kind=leave-out"),
    )
    .await;
    let words = &page.body;
    assert!(words.contains("Yes."), "{words}");
    assert!(!words.contains("Instead of the shelf"), "{words}");
    let back = html::read(&page.body)
        .expect("a well-formed page")
        .into_iter()
        .find(|element| element.name == "a" && element.text.trim() == "Take it back")
        .expect("a link")
        .get("href")
        .replace("&amp;", "&");
    assert_eq!(back, SALSA);
}

#[tokio::test]
async fn what_is_not_understood_stands_at_its_field_and_nothing_else_is_lost() {
    let household = Household::demo();
    let kept = "&edit=%7B%22kind%22%3A%22leave-out%22%2C%22line%22%3A%227%22%7D";
    let address = format!("{SALSA}{kept}&new.form=line&new.line=3&new.kind=amount&new.amount=lots");
    let page = household.get(&address).await;
    assert_eq!(page.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert_eq!(html::faults(&page.body), Vec::<String>::new());
    let words = page.words();
    assert!(words.contains("«lots» is no amount."), "{words}");
    assert_eq!(
        carried(&page).first().map(String::as_str),
        Some(r#"{"kind":"leave-out","line":"7"}"#)
    );
    assert!(
        page.body.contains("value=\"lots\""),
        "what was typed is still there"
    );
    let unknown = household.get("/change?recipe=tomato-salsa").await;
    assert_eq!(unknown.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(
        unknown.words().contains("tomato-salsa-paste-tomatoes"),
        "{}",
        unknown.words()
    );
    let nonsense = household.get(&format!("{SALSA}&edit=%7Bnonsense")).await;
    assert_eq!(nonsense.status, StatusCode::UNPROCESSABLE_ENTITY);
}

#[tokio::test]
async fn jars_packs_and_ways_are_asked_by_one_list() {
    let household = Household::demo();
    for (way, said) in [
        ("jar%3Dhalf-gallon", "refused"),
        ("manner%3Dthicken", "refused"),
        ("manner%3Dlonger-time", "allowed"),
    ] {
        let page = open(&household, &format!("{SALSA}&new.form=way&new.way={way}")).await;
        assert!(page.body.contains(said), "{way}: {}", page.body);
    }
    let vinegar = open(
        &household,
        "/change?recipe=piccalilli&new.form=vinegar&new.to=4",
    )
    .await;
    assert!(vinegar.body.contains("refused"), "{}", vinegar.body);
}
