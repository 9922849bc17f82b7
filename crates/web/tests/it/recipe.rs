//! The page of the household's own recipes: pasted, shown, answered, kept.

use crate::html;
use crate::site::{Answer, Household};
use axum::http::StatusCode;

const TEXT: &str = "Stoop relish\n\n2 lb onions\n3 T salt\n?? <b>of</b> it\n\nChop.";

fn fine(page: &Answer) {
    assert_eq!(page.status, StatusCode::OK, "{}", page.words());
    assert_eq!(html::faults(&page.body), Vec::<String>::new());
}

#[tokio::test]
async fn a_pasted_text_is_shown_asked_about_and_kept() {
    let household = Household::demo();
    fine(&household.get("/recipe").await);
    let shown = household
        .post("/recipe", &[("text", TEXT), ("act", "read")])
        .await;
    fine(&shown);
    for words in [
        "3 lines: 1 understood, 1 to be asked about, 1 not read, kept as written.",
        "What is a capital T in this recipe?",
        "?? &lt;b&gt;of&lt;/b&gt; it",
        "One question is open.",
        "eat within 3 days",
    ] {
        assert!(
            shown.body.contains(words),
            "«{words}» is missing: {}",
            shown.body
        );
    }
    assert!(
        !shown.body.contains("Keep it"),
        "nothing is kept while a question is open"
    );

    let early = household
        .post(
            "/recipe",
            &[("text", TEXT), ("act", "keep"), ("token", "a1-1")],
        )
        .await;
    assert_eq!(early.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(
        early.body.contains("Stoop relish"),
        "what was typed stands there again"
    );

    let answered = [("text", TEXT), ("answers.big-t", "tablespoon")];
    let ready = household
        .post("/recipe", &[&answered[..], &[("act", "read")]].concat())
        .await;
    fine(&ready);
    assert!(ready.body.contains("Keep it"), "{}", ready.body);
    let keep = [&answered[..], &[("act", "keep"), ("token", "a1-2")]].concat();
    let kept = household.post("/recipe", &keep).await;
    assert!(
        kept.location().starts_with("/recipe/stoop-relish"),
        "{}",
        kept.words()
    );
    let page = household.get("/recipe/stoop-relish").await;
    fine(&page);
    for words in [
        "Refrigerator or freezer only.",
        "not read; kept as written",
        "version 1 of 1",
    ] {
        assert!(
            page.body.contains(words),
            "«{words}» is missing: {}",
            page.body
        );
    }
    // The same form once more writes nothing.
    household.post("/recipe", &keep).await;
    assert!(
        household
            .get("/recipe/stoop-relish")
            .await
            .body
            .contains("version 1 of 1")
    );
    assert!(household.get("/recipe").await.body.contains("Stoop relish"));
}

#[tokio::test]
async fn an_unknown_recipe_and_a_broken_card_say_so() {
    let household = Household::demo();
    let page = household.get("/recipe/nothing").await;
    assert_eq!(page.status, StatusCode::NOT_FOUND);
    let page = household
        .post("/recipe", &[("text", "{"), ("act", "read")])
        .await;
    assert_eq!(page.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(page.body.contains("is no JSON"), "{}", page.body);
    assert_eq!(html::faults(&page.body), Vec::<String>::new());
}
