//! Files to print, and the page of a card that comes back.

use crate::html;
use crate::site::{Household, now};
use app::request::{PrintCard, RecordIncident};
use axum::http::StatusCode;

#[tokio::test]
async fn labels_and_cards_are_files_to_print_and_keep_the_policy_of_the_pages() {
    let household = Household::demo();
    for (address, name) in [
        (
            "/batch/1/labels.pdf?sheet=24-a4&from=7&offset_x=0.5&offset_y=-0.3&outline=yes",
            "batch-1-labels.pdf",
        ),
        ("/batch/1/labels.pdf", "batch-1-labels.pdf"),
        (
            "/batch/2/labels.pdf?sheet=cut-letter&count=1",
            "batch-2-labels.pdf",
        ),
        ("/batch/1/gift.pdf?sheet=30-letter", "batch-1-gift.pdf"),
        ("/batch/3/card.pdf?paper=a4", "batch-3-card.pdf"),
        ("/load/card.pdf?batch=8&paper=letter", "load-card.pdf"),
        ("/incident/disposal.pdf?paper=a4", "disposal-card.pdf"),
        (
            "/print/outline.pdf?sheet=30-letter",
            "outline-30-letter.pdf",
        ),
    ] {
        let answer = household.get(address).await;
        assert_eq!(
            answer.status,
            StatusCode::OK,
            "{address}: {}",
            answer.words()
        );
        assert_eq!(
            answer.header("content-type"),
            "application/pdf",
            "{address}"
        );
        assert!(answer.body.starts_with("%PDF-"), "{address}");
        assert!(
            answer.header("content-disposition").contains(name),
            "{address}"
        );
        assert!(
            answer
                .header("content-security-policy")
                .contains("default-src 'self'")
        );
    }
}

#[tokio::test]
async fn what_cannot_be_printed_is_a_page_with_the_reason() {
    let household = Household::demo();
    for (address, status, why) in [
        (
            "/batch/3/labels.pdf",
            StatusCode::UNPROCESSABLE_ENTITY,
            "Nothing has come out of batch 3",
        ),
        (
            "/batch/1/labels.pdf?from=31",
            StatusCode::UNPROCESSABLE_ENTITY,
            "cannot begin at 31",
        ),
        (
            "/batch/1/labels.pdf?offset_x=12",
            StatusCode::UNPROCESSABLE_ENTITY,
            "is no offset",
        ),
        (
            "/batch/1/card.pdf",
            StatusCode::UNPROCESSABLE_ENTITY,
            "needs no card",
        ),
        (
            "/batch/1/seed.pdf",
            StatusCode::UNPROCESSABLE_ENTITY,
            "not saved seed",
        ),
        (
            "/load/card.pdf?batch=1",
            StatusCode::UNPROCESSABLE_ENTITY,
            "no jars that wait",
        ),
        ("/batch/99/labels.pdf", StatusCode::NOT_FOUND, "no batch 99"),
        ("/jar/223-222", StatusCode::NOT_FOUND, "does not fit"),
        ("/jar/%3Cscript%3E", StatusCode::NOT_FOUND, "is in no code"),
    ] {
        let answer = household.get(address).await;
        assert_eq!(answer.status, status, "{address}");
        assert!(answer.body.contains(why), "{address}: {}", answer.body);
        assert_eq!(
            html::faults(&answer.body),
            Vec::<String>::new(),
            "{address}"
        );
    }
}

#[tokio::test]
async fn a_held_batch_prints_no_label_from_any_address() {
    let household = Household::demo();
    household
        .app
        .record_incident(
            &now(),
            &RecordIncident {
                batch: 1,
                kind: "acid-forgotten".into(),
                lifted: "2026-08-13 16:00".into(),
                ..RecordIncident::default()
            },
        )
        .expect("it can be stated");
    for file in ["labels", "gift", "card"] {
        let answer = household.get(&format!("/batch/1/{file}.pdf")).await;
        assert_eq!(answer.status, StatusCode::UNPROCESSABLE_ENTITY, "{file}");
        assert!(answer.body.contains("on hold"), "{file}");
    }
    let page = household.get("/batch/1/print").await.body;
    assert!(page.contains("on hold") && !page.contains("labels.pdf"));
    assert_eq!(html::faults(&page), Vec::<String>::new());
}

#[tokio::test]
async fn the_square_of_a_label_leads_to_its_batch() {
    let household = Household::demo();
    let code = household
        .app
        .print_offer(2)
        .expect("the batch is there")
        .code;
    assert_eq!(
        household.get(&format!("/jar/{code}")).await.location(),
        "/batch/2"
    );
}

#[tokio::test]
async fn a_card_is_typed_in_on_its_page_and_a_wrong_blank_comes_back_as_typed() {
    let household = Household::demo();
    let bags = household
        .app
        .batches(&now())
        .expect("the list")
        .batches
        .into_iter()
        .find(|batch| batch.state == "planned" && batch.makes.contains("pint bag"))
        .expect("the plan freezes something")
        .id;
    let card = household
        .app
        .print_card(
            &now(),
            &PrintCard {
                batch: bags,
                paper: "a4".into(),
            },
        )
        .expect("it is set up")
        .card
        .expect("a card");
    let address = format!("/batch/enter?code={}", card.code);
    let page = household.get(&address).await;
    assert_eq!(page.status, StatusCode::OK);
    assert_eq!(html::faults(&page.body), Vec::<String>::new());
    let token = page
        .body
        .split("name=\"token\" value=\"")
        .nth(1)
        .and_then(|rest| rest.split('"').next())
        .expect("the form carries a token")
        .to_owned();
    let wrong = household
        .post(
            "/batch/enter",
            &[
                ("token", &token),
                ("code", &card.code),
                ("blank.start.day", "2026-08-27"),
                ("blank.start.time", "6:15"),
                ("blank.outcome.day", "2026-08-27"),
                ("blank.out.pint-bag", "five"),
            ],
        )
        .await;
    assert_eq!(wrong.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(
        wrong.body.contains("id=\"f-blank.out.pint-bag-wrong\""),
        "{}",
        wrong.words()
    );
    assert!(wrong.body.contains("value=\"five\"") && wrong.body.contains("value=\"6:15\""));
    let fields = [
        ("token", token.as_str()),
        ("code", &card.code),
        ("blank.start.day", "2026-08-27"),
        ("blank.start.time", "6:15"),
        ("blank.outcome.day", "2026-08-27"),
        ("blank.out.pint-bag", "5"),
    ];
    let right = household.post("/batch/enter", &fields).await;
    assert_eq!(right.status, StatusCode::SEE_OTHER, "{}", right.words());
    assert!(right.location().starts_with(&format!("/batch/{bags}")));
    let again = household.post("/batch/enter", &fields).await;
    assert_eq!(
        again.status,
        StatusCode::SEE_OTHER,
        "sent twice, written once"
    );
    assert_eq!(
        household.app.batch(&now(), bags).expect("the batch").state,
        "finished"
    );
    let done = household.get(&address).await;
    assert!(done.body.contains("is in the record"));
    assert_eq!(html::faults(&done.body), Vec::<String>::new());
}

#[tokio::test]
async fn a_code_that_is_none_is_asked_for_again() {
    let household = Household::demo();
    let answer = household.get("/batch/enter?code=O23").await;
    assert_eq!(answer.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(answer.body.contains("is in no code") && answer.body.contains("value=\"O23\""));
    assert_eq!(html::faults(&answer.body), Vec::<String>::new());
}
