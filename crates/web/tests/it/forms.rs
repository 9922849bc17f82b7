//! Forms through to the file and back: written once, shown again when they could not be.

use crate::html;
use crate::site::{Household, now};
use axum::http::StatusCode;

const APPLES: [(&str, &str); 8] = [
    ("token", "00aa-1"),
    ("crop", "apple"),
    ("grade", "sound"),
    ("amount", "24 lb"),
    ("variety", "from the south tree"),
    ("place", "cold-room"),
    ("temperature", "52F"),
    ("history.split-or-bruised", "no"),
];

fn with<'a>(
    fields: &[(&'a str, &'a str)],
    name: &'a str,
    value: &'a str,
) -> Vec<(&'a str, &'a str)> {
    fields
        .iter()
        .map(|&(key, old)| {
            if key == name {
                (key, value)
            } else {
                (key, old)
            }
        })
        .collect()
}

#[tokio::test]
async fn a_picking_is_weighed_in_once_however_often_it_is_sent() {
    let household = Household::empty();
    let first = household.post("/counter", &APPLES).await;
    assert_eq!(first.status, StatusCode::SEE_OTHER, "{}", first.words());
    assert_eq!(first.location(), "/counter?said=00aa-1");
    let page = household.get(first.location()).await.body;
    assert!(
        page.contains("role=\"status\"")
            && page.contains("24 lb")
            && page.contains("from the south tree")
    );

    let second = household.post("/counter", &APPLES).await;
    assert_eq!(
        (second.status, second.location()),
        (StatusCode::SEE_OTHER, "/counter?said=00aa-1")
    );
    assert_eq!(
        household
            .app
            .counter(&now())
            .expect("the counter")
            .lots
            .len(),
        1
    );
}

#[tokio::test]
async fn what_was_just_done_is_undone_with_one_press() {
    let household = Household::empty();
    let first = household.post("/counter", &APPLES).await;
    let page = household.get(first.location()).await.body;
    let fields = sent_by_a_browser(&page, "/undo");
    let fields: Vec<(&str, &str)> = fields
        .iter()
        .map(|(name, value)| (name.as_str(), value.as_str()))
        .collect();
    let undone = household.post("/undo", &fields).await;
    assert_eq!(undone.status, StatusCode::SEE_OTHER, "{}", undone.words());
    let page = household.get(undone.location()).await.body;
    assert!(page.contains("is undone") && !page.contains("action=\"/undo\""));
    assert!(
        household
            .app
            .counter(&now())
            .expect("the counter")
            .lots
            .is_empty()
    );
    // A second press of the same button finds it done and changes nothing.
    assert_eq!(
        household.post("/undo", &fields).await.status,
        StatusCode::SEE_OTHER
    );
    assert!(household.app.check(&now(), None).expect("the check").holds);
}

#[tokio::test]
async fn a_wrong_picking_comes_back_with_what_was_typed_and_writes_nothing() {
    let household = Household::empty();
    for (name, value) in [
        ("amount", "-3 lb"),
        ("amount", "many"),
        ("crop", "moonfruit"),
        ("temperature", "warm"),
    ] {
        let answer = household
            .post("/counter", &with(&APPLES, name, value))
            .await;
        assert_eq!(
            answer.status,
            StatusCode::UNPROCESSABLE_ENTITY,
            "{name} {value}"
        );
        assert!(answer.body.contains("role=\"alert\""), "{name}");
        assert!(
            answer.body.contains(&format!("id=\"f-{name}-wrong\"")),
            "the message stands beside {name}"
        );
        assert!(
            answer.body.contains("value=\"from the south tree\""),
            "what was typed is kept"
        );
        assert_eq!(html::faults(&answer.body), Vec::<String>::new());
    }
    assert_eq!(
        household
            .app
            .counter(&now())
            .expect("the counter")
            .lots
            .len(),
        0
    );
}

#[tokio::test]
async fn a_lot_is_answered_for_moved_and_sorted_out() {
    let household = Household::empty();
    household.post("/counter", &APPLES).await;
    let lot = household.app.counter(&now()).expect("the counter").lots[0].clone();
    let question = lot.history[0].key.clone();
    let field = format!("history.{question}");
    let answer = household
        .post(
            &format!("/counter/{}/state", lot.id),
            &[
                ("token", "00bb-1"),
                (&field, "yes"),
                ("grade", "sound"),
                ("place", "fridge"),
                ("temperature", "38F"),
            ],
        )
        .await;
    assert_eq!(answer.status, StatusCode::SEE_OTHER, "{}", answer.words());
    let after = household.app.counter(&now()).expect("the counter").lots[0].clone();
    assert_eq!(
        (after.history[0].answer.as_str(), after.place.as_str()),
        ("yes", "fridge")
    );

    let answer = household
        .post(
            &format!("/counter/{}/sort-out", lot.id),
            &[
                ("token", "00bb-2"),
                ("amount", "4 lb"),
                ("to", "compost"),
                ("part", "fruit"),
            ],
        )
        .await;
    assert_eq!(
        (answer.status, answer.location()),
        (StatusCode::SEE_OTHER, "/counter?said=00bb-2"),
        "{}",
        answer.words()
    );
    assert_eq!(
        household.app.counter(&now()).expect("the counter").lots[0]
            .weight
            .us,
        "20 lb"
    );
}

#[tokio::test]
async fn a_plan_is_made_accepted_cooked_and_put_away_through_the_pages() {
    let household = Household::demo();
    let made = household.post("/plan", &[("days", "3")]).await;
    assert_eq!(
        (made.status, made.location()),
        (StatusCode::SEE_OTHER, "/plan"),
        "{}",
        made.words()
    );
    let page = household.get("/plan").await.body;
    assert!(
        page.contains("action=\"/plan/accept\""),
        "a proposal can be accepted"
    );
    let accepted = household.post("/plan/accept", &[("token", "00cc-1")]).await;
    assert_eq!(
        accepted.status,
        StatusCode::SEE_OTHER,
        "{}",
        accepted.words()
    );
    assert!(
        !household
            .get("/plan")
            .await
            .body
            .contains("action=\"/plan/accept\"")
    );

    let batch = household
        .app
        .batches(&now())
        .expect("batches")
        .batches
        .into_iter()
        .find(|batch| batch.state == "planned" && batch.title == "Tomato juice")
        .expect("a planned batch of juice");
    let address = format!("/batch/{}", batch.id);
    let view = household.app.batch(&now(), batch.id).expect("the batch");
    let ticks: Vec<(&str, &str)> = view
        .ticks
        .iter()
        .map(|tick| ("ticks", tick.key.as_str()))
        .collect();
    let started = household
        .post(
            &format!("{address}/start"),
            &[&[("token", "00cc-2")], ticks.as_slice()].concat(),
        )
        .await;
    assert_eq!(started.status, StatusCode::SEE_OTHER, "{}", started.words());
    assert!(
        household
            .get(&address)
            .await
            .body
            .contains("action=\"/batch/"),
        "what came out can be written down"
    );

    let outcome = [
        ("token", "00cc-3"),
        ("containers.quart", "6"),
        ("partial", "1 1/2 cups"),
        ("trimmings", "3 lb"),
        ("trimmings_to", "compost"),
        ("minutes", "45"),
    ];
    let finished = household
        .post(
            &format!("{address}/finish"),
            &[&outcome, ticks.as_slice()].concat(),
        )
        .await;
    assert_eq!(
        finished.status,
        StatusCode::SEE_OTHER,
        "{}",
        finished.words()
    );

    let holding = format!("/stores/shelf/{}/quart", batch.id);
    let page = household.get(&holding).await;
    assert!(
        page.body.contains("6 quarts"),
        "six quarts stand on the shelf"
    );
    let take = |count: &'static str, token: &'static str| {
        let id = batch.id.to_string();
        let household = &household;
        async move {
            household
                .post(
                    "/stores/take",
                    &[
                        ("token", token),
                        ("batch", &id),
                        ("size", "quart"),
                        ("place", "shelf"),
                        ("count", count),
                        ("to", "eaten"),
                    ],
                )
                .await
        }
    };
    assert_eq!(take("2", "00cc-4").await.status, StatusCode::SEE_OTHER);
    let too_many = take("40", "00cc-5").await;
    assert_eq!(
        too_many.status,
        StatusCode::UNPROCESSABLE_ENTITY,
        "more than stand there cannot be taken"
    );
    assert!(too_many.body.contains("value=\"40\""));
    assert!(household.get(&holding).await.body.contains("4 quarts"));
}

#[tokio::test]
async fn a_recipe_without_a_tested_process_cannot_be_set_up() {
    let household = Household::demo();
    let tried = household
        .get("/batch/new?recipe=tomato-juice&jar=half-gallon&batches=1")
        .await
        .body;
    assert!(tried.contains("class=\"plate no\""));
    assert!(
        !tried.contains("id=\"set-up\""),
        "what is refused offers no button"
    );
    let batches = household
        .app
        .batches(&now())
        .expect("batches")
        .batches
        .len();
    let forced = household
        .post(
            "/batch/new",
            &[
                ("token", "00dd-1"),
                ("recipe", "tomato-juice"),
                ("jar", "half-gallon"),
                ("batches", "1"),
            ],
        )
        .await;
    assert_eq!(forced.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert_eq!(
        household
            .app
            .batches(&now())
            .expect("batches")
            .batches
            .len(),
        batches
    );
}

#[tokio::test]
async fn the_house_form_sent_as_it_is_shown_changes_nothing() {
    let household = Household::demo();
    let before = household.app.house(&now()).expect("the house").house;
    let page = household.get("/house").await.body;
    let fields = sent_by_a_browser(&page, "/house");
    let borrowed: Vec<(&str, &str)> = fields
        .iter()
        .map(|(name, value)| (name.as_str(), value.as_str()))
        .collect();
    let answer = household.post("/house", &borrowed).await;
    assert_eq!(answer.status, StatusCode::SEE_OTHER, "{}", answer.words());
    assert_eq!(
        household.app.house(&now()).expect("the house").house,
        before
    );
}

#[tokio::test]
async fn the_house_form_keeps_the_record_of_gauge_tests_and_adds_to_it() {
    let household = Household::demo();
    let mut house = household.app.house(&now()).expect("the house").house;
    let dial = [
        ("canners.2.name", "dial canner"),
        ("canners.2.kind", "dial-gauge"),
        ("canners.2.quarts", "7"),
        ("canners.2.gauge_tests.0.on", "2026-05-04"),
        ("canners.2.gauge_tests.0.error_psi", "1/2"),
        ("canners.2.gauge_tests.0.by", "extension office"),
    ]
    .map(|(path, value)| (path.to_owned(), value.to_owned()));
    app::house_fields::apply(&mut house, &dial).expect("fields");
    household
        .app
        .set_house(&now(), house.clone(), "")
        .expect("the house");
    let page = household.get("/house").await.body;
    let mut fields = sent_by_a_browser(&page, "/house");
    let post = async |fields: &[(String, String)]| {
        let borrowed: Vec<(&str, &str)> = fields
            .iter()
            .map(|(name, value)| (name.as_str(), value.as_str()))
            .collect();
        let answer = household.post("/house", &borrowed).await;
        assert_eq!(answer.status, StatusCode::SEE_OTHER, "{}", answer.words());
        household.app.house(&now()).expect("the house").house
    };
    assert_eq!(post(&fields).await, house, "sent as it was shown");
    for (name, value) in &mut fields {
        match name.as_str() {
            "canners.2.gauge_tested_on" => "2026-08-20".clone_into(value),
            "canners.2.gauge_error_psi" => "-1/2".clone_into(value),
            "token" => "00ab-9".clone_into(value),
            _ => {}
        }
    }
    let tests = post(&fields).await.canners[2].gauge_tests.clone();
    let days: Vec<&str> = tests.iter().map(|test| test.on.as_str()).collect();
    assert_eq!(days, ["2026-08-20", "2026-05-04"]);
}

#[tokio::test]
async fn a_wrong_field_of_the_house_is_named_and_the_house_is_kept() {
    let household = Household::demo();
    let before = household.app.house(&now()).expect("the house").house;
    let answer = household
        .post(
            "/house",
            &[
                ("token", "00ee-1"),
                ("name", "x"),
                ("elevation", "quite high"),
            ],
        )
        .await;
    assert_eq!(answer.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(
        answer.body.contains("id=\"f-elevation-wrong\"")
            && answer.body.contains("value=\"quite high\"")
    );
    assert_eq!(
        household.app.house(&now()).expect("the house").house,
        before
    );
}

/// The fields a browser would send with a form that nobody touched.
fn sent_by_a_browser(page: &str, action: &str) -> Vec<(String, String)> {
    let elements = html::read(page).expect("a well-formed page");
    let mut fields = Vec::new();
    let mut ours = false;
    let mut list: Option<(String, Option<String>)> = None;
    let unescape = |text: &str| {
        text.replace("&quot;", "\"")
            .replace("&lt;", "<")
            .replace("&gt;", ">")
            .replace("&amp;", "&")
    };
    for element in &elements {
        if element.name == "form" {
            ours = element.get("action") == action && element.get("method") == "post";
        }
        if !ours || !element.inside.iter().any(|outer| outer == "form") {
            continue;
        }
        if element.name != "option"
            && let Some((name, value)) = list.take()
        {
            fields.push((name, value.unwrap_or_default()));
        }
        let ticked = element.attributes.contains_key("checked");
        match (element.name.as_str(), element.get("type")) {
            ("input", "checkbox" | "radio") if !ticked => {}
            ("input", _) => fields.push((
                element.get("name").to_owned(),
                unescape(element.get("value")),
            )),
            ("select", _) => list = Some((element.get("name").to_owned(), None)),
            ("option", _) => {
                if let Some((_, value)) = &mut list
                    && (value.is_none() || element.attributes.contains_key("selected"))
                {
                    *value = Some(unescape(element.get("value")));
                }
            }
            _ => {}
        }
    }
    fields.extend(list.map(|(name, value)| (name, value.unwrap_or_default())));
    fields
}
