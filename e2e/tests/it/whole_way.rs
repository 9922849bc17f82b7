//! The whole way through the pages on a phone: an empty household, three
//! pickings, a plan, one batch cooked, the jars on the shelf; once with the
//! pages' scripts and once without any.

use std::path::Path;

use e2e::{Browser, Fault, Paper, Program, Window, in_browser, program};

/// A day of the invented household; a Thursday.
const DAY: &str = "2026-08-27";
const NEXT_DAY: &str = "2026-08-28";

#[test]
fn from_picking_to_shelf_on_a_phone() -> Result<(), Fault> {
    in_browser(async { whole_way(true, "way").await })
}

#[test]
fn from_picking_to_shelf_without_scripts() -> Result<(), Fault> {
    in_browser(async { whole_way(false, "way-no-script").await })
}

async fn whole_way(scripts: bool, shots: &str) -> Result<(), Fault> {
    let folder = tempfile::tempdir()?;
    let browser = Browser::open().await?;
    browser.look(Window::Phone, Paper::Light).await?;
    browser.scripts(scripts).await?;

    let served = Program::serve(folder.path(), DAY, "07:30")?;
    set_the_house_up(&browser, &served).await?;
    browser.shot(&format!("{shots}-1-house")).await?;
    weigh_three_pickings_in(&browser, &served).await?;
    browser.shot(&format!("{shots}-2-counter")).await?;
    let batch = plan_and_accept(&browser, &served).await?;
    browser.shot(&format!("{shots}-3-plan")).await?;
    lay_the_day_out(&browser, &served).await?;
    browser.shot(&format!("{shots}-4-day")).await?;
    cook(&browser, &served, &batch, &format!("{shots}-5-batch")).await?;
    browser.shot(&format!("{shots}-6-outcome")).await?;
    drop(served);

    // The day after, by a program that was started again on the same file.
    let served = Program::serve(folder.path(), NEXT_DAY, "07:00")?;
    check_the_seals(&browser, &served, &batch).await?;
    browser.go(&served.page("/stores")).await?;
    browser.wait_for_text("Tomato juice, 6 quarts").await?;
    browser.wait_for_text("Does it add up?").await?;
    browser.shot(&format!("{shots}-7-stores")).await?;
    browser.press("Take one Tomato juice, quarts").await?;
    browser.wait_for_text("Tomato juice, 5 quarts").await?;
    the_books_hold(folder.path())
}

async fn set_the_house_up(browser: &Browser, served: &Program) -> Result<(), Fault> {
    browser.go(&served.page("/house")).await?;
    browser
        .fill(
            "What the house is called",
            "A house on the slope (invented)",
        )
        .await?;
    browser.fill("Elevation", "2500 ft").await?;
    browser.fill_named("canners.0.name", "big kettle").await?;
    browser.choose_named("canners.0.kind", "Boiling").await?;
    for (name, text) in [
        ("canners.0.quarts", "7"),
        ("canners.0.pints", "9"),
        ("pots.0.name", "tall pot"),
        ("pots.0.litres", "16"),
        ("pots.1.name", "wide pot"),
        ("pots.1.litres", "9"),
        ("freezer.litres", "300"),
        ("freezer.free_litres", "40"),
        ("people.0.name", "Mara"),
        ("people.0.thu", "7 h"),
        ("people.0.fri", "5 h"),
        ("jars.0.count", "16"),
        ("lids_wide", "16"),
        ("bags_pint", "20"),
        ("ingredients.0.amount", "3 cups"),
        ("needs.0.wanted", "14"),
    ] {
        browser.fill_named(name, text).await?;
    }
    browser.choose_named("jars.0.jar", "Quart").await?;
    browser.choose_named("jars.0.mouth", "wide").await?;
    browser
        .choose_named("ingredients.0.key", "Bottled lemon juice")
        .await?;
    browser
        .choose_named("needs.0.product", "Tomato juice")
        .await?;
    browser.fill("Burners at once", "4").await?;
    browser.fill("Food mills", "1").await?;
    browser.fill("Sinks", "1").await?;
    browser.fill("Fresh produce eaten a day", "2").await?;
    browser.press("Write the house down").await?;
    browser.wait_for_text("The house is written down").await
}

async fn weigh_three_pickings_in(browser: &Browser, served: &Program) -> Result<(), Fault> {
    browser.go(&served.page("/counter")).await?;
    browser.choose("Crop", "Paste tomato").await?;
    browser.choose("Grade or ripeness", "Red").await?;
    browser.fill("Weight", "minus three").await?;
    browser.fill("How warm", "70F").await?;
    let questions = browser.answer_all("no").await?;
    assert!(
        questions >= 4,
        "the lot's history is asked, {questions} questions found"
    );
    browser.press("Put it on the counter").await?;
    // The form comes back with what was typed and what is wrong with it.
    browser.wait_for_text("minus three").await?;
    let kept = browser.labelled("Weight").await?.prop("value").await?;
    assert_eq!(kept.as_deref(), Some("minus three"));
    browser.fill("Weight", "24 lb").await?;
    browser.press("Put it on the counter").await?;
    browser.wait_for_text("Answer, move or sort out").await?;

    for (crop, amount) in [("Snap beans", "9 lb"), ("Kale", "2.5 kg")] {
        browser.go(&served.page("/counter")).await?;
        browser.choose("Crop", crop).await?;
        browser.choose("Grade or ripeness", "Sound").await?;
        browser.fill("Weight", amount).await?;
        browser.fill("How warm", "21 C").await?;
        browser.press("Put it on the counter").await?;
        browser.wait_for_text(crop.trim_end_matches('s')).await?;
    }
    browser.go(&served.page("/counter")).await?;
    browser.wait_for_text("24 lb").await?;
    browser.wait_for_text("keeps until about").await
}

/// Gives the address of the batch of tomato juice.
async fn plan_and_accept(browser: &Browser, served: &Program) -> Result<String, Fault> {
    browser.go(&served.page("/plan")).await?;
    browser.press("Make the plan").await?;
    browser.wait_for_text("Proposed").await?;
    browser.press("Accept this plan").await?;
    browser.wait_for_text("Accepted").await?;
    browser.go(&served.page("/batch")).await?;
    browser.press("Tomato juice").await?;
    browser
        .wait_for_text("How exactly is this batch made?")
        .await?;
    browser.path().await
}

async fn lay_the_day_out(browser: &Browser, served: &Program) -> Result<(), Fault> {
    browser.go(&served.page("/day")).await?;
    browser.press("Lay").await?;
    browser.wait_for_text("The steps").await?;
    browser.wait_for_text("Tomato juice").await
}

async fn cook(browser: &Browser, served: &Program, batch: &str, shot: &str) -> Result<(), Fault> {
    browser.go(&served.page(batch)).await?;
    let text = browser.text().await?;
    // 45 minutes for quarts of juice between 1,001 and 3,000 ft: the printed row.
    for wanted in ["45", "1,001", "3-6"] {
        assert!(
            text.contains(wanted),
            "the batch page does not show {wanted}:\n{text}"
        );
    }
    browser.shot(shot).await?;
    browser.tick_all("/start").await?;
    browser.press("Start").await?;
    browser.wait_for_text("What came out").await?;
    browser.tick_all("/finish").await?;
    browser.fill("Quart", "7").await?;
    browser.fill("A partial jar", "1 1/2 cups").await?;
    browser.fill("Trimmings", "5 lb").await?;
    browser.fill("Boiled or dried away", "2 lb 8 oz").await?;
    browser.fill("Minutes the load", "45").await?;
    // A lid that does not seal has 24 hours from here.
    browser.fill("Jars lifted at", "0730AM").await?;
    browser.press("Write the outcome down").await?;
    browser.wait_for_text("What came of it").await
}

async fn check_the_seals(browser: &Browser, served: &Program, batch: &str) -> Result<(), Fault> {
    browser.go(&served.page(batch)).await?;
    browser.wait_for_text("Check the seals").await?;
    browser.fill_named("failed.quart", "1").await?;
    browser.choose("Those go", "to the fridge").await?;
    browser.press("Write the check down").await?;
    browser.wait_for_text("The record").await
}

/// The invariants hold, and the command line sees what the pages wrote.
fn the_books_hold(folder: &Path) -> Result<(), Fault> {
    let check = program::run(folder, &["check", "--date", NEXT_DAY])?;
    assert!(
        check.status.success(),
        "{}",
        String::from_utf8_lossy(&check.stdout)
    );
    let stores = program::run(folder, &["stores", "--json", "--date", NEXT_DAY])?;
    let stores: serde_json::Value = serde_json::from_slice(&stores.stdout)?;
    let quarts: Vec<i64> = stores["places"]
        .as_array()
        .into_iter()
        .flatten()
        .filter(|place| place["key"] == "shelf")
        .flat_map(|place| place["holdings"].as_array().into_iter().flatten())
        .filter_map(|line| line["count"].as_i64())
        .collect();
    assert_eq!(
        quarts,
        [5],
        "seven made, one unsealed, one eaten: {stores:#}"
    );
    Ok(())
}
