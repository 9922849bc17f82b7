//! Every page, of a full household and of an empty one.

use crate::html;
use crate::site::Household;
use axum::http::StatusCode;

/// Most bytes of a page, without pictures of the household's own.
const MOST: usize = 80 * 1024;

/// Every address a person can come to, those with a number of their own included.
fn addresses() -> Vec<String> {
    let mut all: Vec<String> = web::routes::PAGES
        .iter()
        .map(|page| (*page).to_owned())
        .collect();
    all.extend(
        [
            "/counter/6",
            "/batch/1",
            "/batch/3",
            "/batch/1/print",
            "/batch/3/print",
            "/batch/new?recipe=tomato-juice&batches=1",
            "/stores/shelf/1/quart",
            "/process?food=tomato-juice&pack=hot&jar=quart&method=boiling-water&elevation=2500ft",
            "/process?food=tomato-juice&pack=hot&jar=half-gallon&method=boiling-water&elevation=2500ft",
            "/process?food=tomato-juice&pack=hot&jar=quart&method=boiling-water",
        ]
        .map(str::to_owned),
    );
    all
}

#[tokio::test]
async fn every_page_of_a_full_household_keeps_the_rules_of_a_page() {
    let household = Household::demo();
    let mut faults = Vec::new();
    for address in addresses() {
        let answer = household.get(&address).await;
        if address == "/batch/new" {
            assert_eq!(
                answer.location(),
                "/batch",
                "without a recipe there is nothing to try"
            );
            continue;
        }
        assert_eq!(
            answer.status,
            StatusCode::OK,
            "{address}: {}",
            answer.words()
        );
        faults.extend(
            html::faults(&answer.body)
                .into_iter()
                .map(|fault| format!("{address}: {fault}")),
        );
        if answer.body.len() > MOST {
            faults.push(format!("{address}: {} bytes", answer.body.len()));
        }
    }
    assert_eq!(faults, Vec::<String>::new());
}

#[tokio::test]
async fn every_page_of_an_empty_household_says_where_to_begin() {
    let household = Household::empty();
    for address in web::routes::PAGES
        .into_iter()
        .filter(|page| *page != "/batch/new")
    {
        let answer = household.get(address).await;
        assert_eq!(
            answer.status,
            StatusCode::OK,
            "{address}: {}",
            answer.words()
        );
        assert_eq!(
            html::faults(&answer.body),
            Vec::<String>::new(),
            "{address}"
        );
        // Something to press besides the navigation.
        let main = answer
            .body
            .split("<main")
            .nth(1)
            .unwrap_or_default()
            .split("</main>")
            .next()
            .unwrap_or_default()
            .to_owned();
        assert!(
            main.contains("class=\"btn") || main.contains("<button"),
            "{address} leads nowhere"
        );
    }
}

#[tokio::test]
async fn a_look_up_shows_its_row_and_a_jar_without_one_is_refused() {
    let household = Household::empty();
    let ask = |jar: &str, elevation: &str| {
        format!(
            "/process?food=tomato-juice&pack=hot&jar={jar}&method=boiling-water&elevation={elevation}"
        )
    };
    let figure =
        |minutes: u32| format!("<div class=\"fig\"><b>{minutes}</b><span>minutes</span></div>");

    let at_2500 = household.get(&ask("quart", "2500ft")).await.body;
    assert!(
        at_2500.contains(&figure(45))
            && at_2500.contains("1,001 to 3,000 ft")
            && at_2500.contains("p. 3-6")
    );
    assert!(at_2500.contains("Look-up, not a permit."));
    assert!(
        household
            .get(&ask("quart", "800ft"))
            .await
            .body
            .contains(&figure(40))
    );

    let half_gallon = household.get(&ask("half-gallon", "2500ft")).await.body;
    assert!(half_gallon.contains("class=\"plate no\"") && !half_gallon.contains("class=\"fig\""));
    let nowhere = household.get(&ask("quart", "")).await.body;
    assert!(
        nowhere.contains("class=\"plate no\"") && !nowhere.contains("class=\"fig\""),
        "no elevation, no time"
    );
}

#[tokio::test]
async fn a_page_that_is_not_there_says_so_as_a_page() {
    let household = Household::empty();
    for address in [
        "/nothing",
        "/batch/99",
        "/batch/seven",
        "/counter/99",
        "/stores/shelf/1/quart",
    ] {
        let answer = household.get(address).await;
        assert_eq!(answer.status, StatusCode::NOT_FOUND, "{address}");
        assert_eq!(
            html::faults(&answer.body),
            Vec::<String>::new(),
            "{address}"
        );
    }
}
