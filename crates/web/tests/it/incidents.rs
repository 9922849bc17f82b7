//! Incidents through the pages: chosen by a button, answered large, settled, printed as a card.

use crate::html;
use crate::site::{Household, now};
use app::request::{FinishBatch, NewBatch, RecordPicking, StartBatch};
use axum::http::StatusCode;
use std::collections::BTreeMap;

/// An app with seven quarts, of which the last hour is remembered; the batch's number.
async fn seven(lifted: &str) -> (Household, i64) {
    let household = Household::demo();
    let app = &household.app;
    let picking = RecordPicking {
        crop: "tomato-paste".into(),
        grade: "red".into(),
        amount: "24 lb".into(),
        temperature: "70F".into(),
        place: "counter".into(),
        history: app::history_questions()
            .into_iter()
            .map(|key| (key, "no".to_owned()))
            .collect(),
        ..RecordPicking::default()
    };
    let mut early = now();
    early.minute = 240;
    early.at = "2026-08-27T04:00:00".into();
    app.record_picking(&early, &picking).expect("a picking");
    let batch = NewBatch {
        recipe: "tomato-juice".into(),
        jar: "quart".into(),
        produce: "23 lb".into(),
        ..NewBatch::default()
    };
    let id = app
        .new_batch(&early, &batch)
        .expect("a batch")
        .id
        .expect("its number");
    let start = StartBatch {
        batch: id,
        ..StartBatch::default()
    };
    app.start_batch(&early, &start).expect("it begins");
    let finish = FinishBatch {
        batch: id,
        containers: BTreeMap::from([("quart".to_owned(), "7".to_owned())]),
        minutes: "45".into(),
        lifted: lifted.into(),
        ticks: ["acid", "bubbles", "rim", "covered"]
            .map(str::to_owned)
            .to_vec(),
        ..FinishBatch::default()
    };
    app.finish_batch(&now(), &finish).expect("it ends");
    (household, id)
}

#[tokio::test]
async fn every_kind_has_its_page_and_its_answer() {
    let household = Household::empty();
    let page = household.get("/incident").await.body;
    let mut seen = 0;
    for line in app::incident_kinds()
        .groups
        .iter()
        .flat_map(|group| &group.kinds)
    {
        let address = format!("/incident/{}", line.kind);
        assert!(page.contains(&format!("href=\"{address}\"")), "{address}");
        let answer = household.get(&address).await;
        assert_eq!(answer.status, StatusCode::OK, "{address}");
        assert_eq!(
            html::faults(&answer.body),
            Vec::<String>::new(),
            "{address}"
        );
        assert!(answer.body.contains("What now?"), "{address}");
        seen += 1;
    }
    assert_eq!(seen, 21);
    assert_eq!(
        household.get("/incident/moonfruit").await.status,
        StatusCode::NOT_FOUND
    );
    assert_eq!(
        household.get("/incident?batch=99").await.status,
        StatusCode::NOT_FOUND
    );
    let ahead = household.get("/incident/wrong-time?lifted=23:00").await;
    assert_eq!(ahead.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(ahead.body.contains("f-lifted-wrong"));
}

#[tokio::test]
async fn from_the_batch_page_to_the_answer_and_what_was_done() {
    let (household, id) = seven("6:30").await;
    let batch = household.get(&format!("/batch/{id}")).await.body;
    assert!(batch.contains(&format!("href=\"/incident?batch={id}\"")));
    let number = id.to_string();
    let stated = household
        .post(
            "/incident/acid-forgotten",
            &[("token", "0a-1"), ("batch", &number)],
        )
        .await;
    assert_eq!(stated.status, StatusCode::SEE_OTHER, "{}", stated.words());
    let page = household.get(stated.location()).await;
    assert_eq!(html::faults(&page.body), Vec::<String>::new());
    // 6:30 to 7:30: one of the two hours is left; both readings are shown, one struck out.
    for said in [
        "Before 8:30 today",
        "1 h left",
        "Sources disagree",
        "<s>",
        "Not to be chosen",
    ] {
        assert!(page.body.contains(said), "{said}");
    }
    assert!(
        !page.body.contains("value=\"fridge\""),
        "the fridge is not offered"
    );
    let address = stated
        .location()
        .split('?')
        .next()
        .unwrap_or_default()
        .to_owned();
    let done = household
        .post(
            &format!("{address}/settle"),
            &[("token", "0a-2"), ("way", "freeze"), ("count", "7")],
        )
        .await;
    assert_eq!(done.status, StatusCode::SEE_OTHER, "{}", done.words());
    // The same form a second time changes nothing.
    let again = household
        .post(
            &format!("{address}/settle"),
            &[("token", "0a-2"), ("way", "freeze"), ("count", "7")],
        )
        .await;
    assert_eq!(again.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(household.app.check(&now(), None).expect("the check").holds);
}

#[tokio::test]
async fn a_jar_past_its_clock_shows_the_disposal_card_and_no_cure() {
    let (household, id) = seven("4:30").await;
    let number = id.to_string();
    let stated = household
        .post(
            "/incident/acid-forgotten",
            &[("token", "0b-1"), ("batch", &number)],
        )
        .await;
    let answer = household.get(stated.location()).await.body;
    assert!(answer.contains("Still sealed") && !answer.contains("What may be done"));
    let batch = household.get(&format!("/batch/{id}")).await.body;
    let stores = household.get("/stores").await.body;
    let holding = household
        .get(&format!("/stores/shelf/{id}/quart"))
        .await
        .body;
    let card = household.get("/incident/disposal").await.body;
    for page in [&answer, &batch, &stores, &holding] {
        assert!(page.contains("href=\"/incident/disposal\""));
        assert_eq!(html::faults(page), Vec::<String>::new());
    }
    for page in [answer, batch, stores, holding, card] {
        let text = page.to_lowercase();
        let spoken = text.matches("boil").count();
        let disposal = text
            .matches(
                "and boil for 30 minutes. that makes it fit to be thrown away, never to be eaten",
            )
            .count();
        assert_eq!(
            spoken, disposal,
            "boiling is a way to throw away and nothing else"
        );
    }
}

#[tokio::test]
async fn what_cannot_be_stated_comes_back_beside_its_field() {
    let (household, id) = seven("6:30").await;
    let number = id.to_string();
    for (name, value) in [("count", "8"), ("lifted", "3:59"), ("lifted", "23:00")] {
        let answer = household
            .post(
                "/incident/failed-seal",
                &[("token", "0c-1"), ("batch", &number), (name, value)],
            )
            .await;
        assert_eq!(
            answer.status,
            StatusCode::UNPROCESSABLE_ENTITY,
            "{name} {value}"
        );
        assert!(
            answer.body.contains(&format!("id=\"f-{name}-wrong\"")),
            "{name}"
        );
        assert_eq!(html::faults(&answer.body), Vec::<String>::new());
    }
}
