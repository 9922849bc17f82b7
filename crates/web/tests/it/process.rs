//! The Process page: three taps to the minutes, one tap to anything else, and bad input by its words.

use crate::html::{self, Element};
use crate::site::{Answer, Household, now};
use axum::http::StatusCode;

fn figure(minutes: u32) -> String {
    format!("<div class=\"fig\"><b>{minutes}</b><span>minutes</span></div>")
}

/// Where the first link with these words leads.
fn link(page: &Answer, words: &str) -> String {
    let elements = html::read(&page.body).expect("a well-formed page");
    let found: Option<&Element> = elements
        .iter()
        .find(|element| element.name == "a" && element.text.trim() == words);
    found
        .unwrap_or_else(|| panic!("no link «{words}»"))
        .get("href")
        .replace("&amp;", "&")
}

/// Opens a page that has to be sound.
async fn open(household: &Household, address: &str) -> Answer {
    let page = household.get(address).await;
    assert_eq!(page.status, StatusCode::OK, "{address}: {}", page.words());
    assert_eq!(html::faults(&page.body), Vec::<String>::new(), "{address}");
    page
}

fn says(page: &Answer, words: &[&str]) {
    for &words in words {
        let escaped = words.replace('"', "&quot;");
        let shown = page.body.contains(words) || page.body.contains(&escaped);
        assert!(shown, "«{words}» is not on the page");
    }
}

/// The invented house with another canner in place of its own.
async fn demo_with(fields: &[(&str, &str)]) -> Household {
    let household = Household::demo();
    let mut house = household.app.house(&now()).expect("the house").house;
    house.canners.clear();
    let fields: Vec<(String, String)> = fields
        .iter()
        .map(|(path, value)| ((*path).to_owned(), (*value).to_owned()))
        .collect();
    app::house_fields::apply(&mut house, &fields).expect("fields");
    household
        .app
        .set_house(&now(), house, "")
        .expect("the house");
    household
}

async fn with_dial(error: &str, tested_on: &str) -> Household {
    demo_with(&[
        ("canners.0.name", "dial canner"),
        ("canners.0.kind", "dial-gauge"),
        ("canners.0.quarts", "7"),
        ("canners.0.gauge_tested_on", tested_on),
        ("canners.0.gauge_error_psi", error),
    ])
    .await
}

#[tokio::test]
async fn from_the_first_page_to_the_minutes_in_three_taps_and_to_another_jar_in_one_more() {
    let household = Household::demo();
    let first = open(&household, "/counter").await;
    // Tap one: Process. Tap two opens a group (it folds on the page itself). Tap three: the food.
    let process = open(&household, &link(&first, "Process")).await;
    assert!(process.body.contains("<summary>Tomatoes"));
    let juice = open(&household, &link(&process, "Tomato juice")).await;
    // The house lies at 1,180 ft ± 40 and has more pints than quarts; AIB 539 (2015), p. 3-6.
    says(
        &juice,
        &[
            &figure(40),
            "1,001 to 3,000 ft",
            "p. 3-6",
            "Look-up, not a permit.",
        ],
    );
    let quarts = open(&household, &link(&juice, "quart")).await;
    says(&quarts, &[&figure(45)]);
    let pressure = open(
        &household,
        &link(&quarts, "pressure canner (pressure, weighted gauge)"),
    )
    .await;
    says(&pressure, &[&figure(20), "<b>10</b><span>psi</span>"]);
}

#[tokio::test]
async fn what_the_gate_wants_is_answered_by_links_up_to_the_permit() {
    let household = Household::demo();
    let juice = open(&household, "/process?food=tomato-juice").await;
    says(&juice, &["Asked by history-unknown."]);
    let sound = open(
        &household,
        &link(
            &juice,
            "Sound: living plants, no disease, not split, never frozen",
        ),
    )
    .await;
    says(
        &sound,
        &["Asked by acid-not-chosen.", "Look-up, not a permit."],
    );
    let permit = open(&household, &link(&sound, "citric acid")).await;
    assert!(!permit.body.contains("Look-up, not a permit."));
    says(
        &permit,
        &["The permit", &figure(40), "a batch asks the gate again"],
    );
}

#[tokio::test]
async fn without_a_house_only_the_elevation_is_typed() {
    let household = Household::empty();
    let page = open(&household, "/process?food=tomato-juice").await;
    says(
        &page,
        &[
            "Without the elevation of the kitchen there is no process time: water boils cooler higher up.",
            "no-elevation",
            "name=\"elevation\"",
        ],
    );
    assert!(
        !page.body.contains("class=\"fig\""),
        "no elevation, no figure"
    );
    let page = open(&household, "/process?food=tomato-juice&elevation=2500ft").await;
    says(
        &page,
        &[
            &figure(45),
            "Look-up, not a permit.",
            "What the produce has been through",
            "Nobody said hot pack, quart, boiling water",
            "Water boils at 207.4 F (97.4 C) here.",
            "Computed from the standard atmosphere and IF97; information, not a process.",
            "href=\"/change?recipe=",
            "href=\"/incident\"",
        ],
    );
    // Another food keeps the elevation that was typed.
    assert!(link(&page, "Apple butter").contains("elevation=2500ft"));
}

#[tokio::test]
async fn elevations_below_the_sea_in_metres_and_above_the_table_are_told_word_for_word() {
    let household = Household::empty();
    let ask = |method: &str, elevation: &str| {
        format!("/process?food=tomato-juice&jar=quart&method={method}&elevation={elevation}")
    };
    let page = open(&household, &ask("boiling-water", "-10%20ft")).await;
    says(
        &page,
        &[
            &figure(40),
            "A place below sea level counts as sea level; water boils hotter there, and no publication was read for it.",
        ],
    );
    let page = open(&household, &ask("boiling-water", "305%20m")).await;
    says(
        &page,
        &[&figure(45), "1,001 to 3,000 ft; you entered 305 m"],
    );
    let page = open(&household, &ask("boiling-water", "9000ft")).await;
    says(
        &page,
        &[
            &figure(55),
            "Above 8000 ft: the table names no ceiling; ask your extension service.",
        ],
    );
    let page = open(&household, &ask("dial-gauge", "9000ft")).await;
    says(
        &page,
        &["The dial-gauge tables end below 9000 ft; no pressure is published above."],
    );
    assert!(!page.body.contains("class=\"fig\""));
    let boiling = open(&household, &link(&page, "boiling water")).await;
    says(&boiling, &[&figure(55)]);
    for (elevation, wrong) in [
        (
            "2500",
            "\"2500\" has no unit; write for example 2500 ft, 305 m or 950 +- 60 ft",
        ),
        (
            "-2000ft",
            "\"-2000ft\" is outside what is believed here (-1,500 to 30,000 ft, where kitchens are)",
        ),
        ("high", "\"high\" is not a number"),
    ] {
        let page = household.get(&ask("boiling-water", elevation)).await;
        assert_eq!(page.status, StatusCode::UNPROCESSABLE_ENTITY);
        assert_eq!(html::faults(&page.body), Vec::<String>::new());
        says(&page, &[wrong, "id=\"f-elevation-wrong\""]);
        assert!(!page.body.contains("class=\"fig\""));
    }
}

#[tokio::test]
async fn a_food_in_another_pack_and_a_misspelt_one_are_offered_as_links() {
    let household = Household::empty();
    let page = open(
        &household,
        "/process?food=tomato-juice&pack=raw&elevation=800ft",
    )
    .await;
    says(
        &page,
        &["Tomato juice in boiling-water: no printed process for raw pack."],
    );
    let hot = open(&household, &link(&page, "hot pack")).await;
    says(&hot, &[&figure(40)]);
    let page = household
        .get("/process?food=tomatoe%20juice&elevation=800ft")
        .await;
    assert_eq!(page.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert_eq!(html::faults(&page.body), Vec::<String>::new());
    says(
        &page,
        &[
            "«tomatoe juice» is not in the tested tables.",
            "Is one of these meant?",
        ],
    );
    let juice = open(&household, &link(&page, "Tomato juice")).await;
    says(&juice, &[&figure(40)]);
    let typed = open(&household, "/process?food=Tomato%20Juice&elevation=800ft").await;
    says(&typed, &[&figure(40)]);
}

#[tokio::test]
async fn a_gauge_too_far_off_is_refused_and_one_out_of_test_only_looked_up() {
    let beans = "/process?food=snap-and-italian-beans&jar=quart";
    let page = open(&with_dial("3", "2026-08-01").await, beans).await;
    says(
        &page,
        &[
            "The dial gauge is off by 3 psi.",
            "Replace a gauge that is off by more than 2 psi.",
        ],
    );
    assert!(!page.body.contains("class=\"fig\""));
    let page = open(&with_dial("0", "2025-08-01").await, beans).await;
    // AIB 539 (2015), p. 4-8: 25 minutes at 11 psi up to 2,000 ft.
    says(
        &page,
        &[
            &figure(25),
            "Look-up, not a permit.",
            "Asked by gauge-test-old.",
        ],
    );
    let page = open(&with_dial("1", "2026-08-01").await, beans).await;
    says(
        &page,
        &[&figure(25), "<b>12</b><span>psi</span>", "The permit"],
    );
}

#[tokio::test]
async fn the_house_keeps_the_gauge_tests_and_asks_a_kettle_for_none() {
    let household = with_dial("1", "2025-09-10").await;
    for page in ["/house", "/counter"] {
        says(
            &open(&household, page).await,
            &["«dial canner»: test the gauge before 10 September 2026."],
        );
    }
    let page = open(&household, "/house").await;
    says(
        &page,
        &[
            "10 September 2025: shows 1 psi too much",
            "name=\"canners.0.gauge_tested_on\"",
        ],
    );
    let kettle = demo_with(&[
        ("canners.0.name", "kettle"),
        ("canners.0.kind", "boiling-water"),
        ("canners.0.quarts", "7"),
    ])
    .await;
    let page = open(&kettle, "/house").await;
    assert!(!page.body.contains("name=\"canners.0.gauge_tested_on\""));
    assert!(!page.body.contains("name=\"canners.0.weights_psi\""));
    says(&page, &["name=\"canners.1.gauge_tested_on\""]);
}

#[tokio::test]
async fn half_a_row_of_the_house_comes_back_at_its_field() {
    let household = Household::demo();
    for (field, value, wrong) in [
        (
            "ingredients.9.amount",
            "3 cups",
            "f-ingredients.9.key-wrong",
        ),
        ("animals", "wolves", "f-animals-wrong"),
    ] {
        let page = household
            .post(
                "/house",
                &[("token", "00ff-1"), ("name", "x"), (field, value)],
            )
            .await;
        assert_eq!(page.status, StatusCode::UNPROCESSABLE_ENTITY);
        let shown = page.body.contains(&format!("id=\"{wrong}\""));
        assert!(
            shown || page.words().contains("was not said"),
            "{field}: {}",
            page.words()
        );
    }
}
