//! What the pages answer when something is wrong or sent twice.

use e2e::{Browser, Fault, Paper, Program, Window, in_browser};

#[test]
fn a_form_sent_twice_is_written_once() -> Result<(), Fault> {
    in_browser(async {
        let folder = tempfile::tempdir()?;
        let served = Program::serve(folder.path(), "2026-08-27", "07:30")?;
        let browser = Browser::open().await?;
        browser.look(Window::Phone, Paper::Light).await?;
        // Without scripts nothing in the page keeps a form from being sent again.
        browser.scripts(false).await?;
        browser.go(&served.page("/counter")).await?;
        browser.choose("Crop", "Kale").await?;
        browser.choose("Grade or ripeness", "Sound").await?;
        browser.fill("Weight", "3 lb").await?;
        browser.fill("How warm", "70F").await?;
        browser.press("Put it on the counter").await?;
        browser.wait_for_text("Answer, move or sort out").await?;
        browser.client().back().await?;
        let kept = browser.labelled("Weight").await?.prop("value").await?;
        assert_eq!(
            kept.as_deref(),
            Some("3 lb"),
            "the sent form is shown again"
        );
        browser.press("Put it on the counter").await?;
        browser.wait_for_text("Lot 1").await?;
        browser.go(&served.page("/counter")).await?;
        let text = browser.text().await?;
        assert_eq!(
            text.matches("Answer, move or sort out").count(),
            1,
            "{text}"
        );
        Ok(())
    })
}

#[test]
fn a_plan_of_an_empty_counter_says_what_to_do() -> Result<(), Fault> {
    in_browser(async {
        let folder = tempfile::tempdir()?;
        let served = Program::serve(folder.path(), "2026-08-27", "07:30")?;
        let browser = Browser::open().await?;
        browser.go(&served.page("/plan")).await?;
        browser.press("Make the plan").await?;
        browser.wait_for_text("Nothing").await
    })
}

#[test]
fn no_elevation_gets_no_process_time() -> Result<(), Fault> {
    in_browser(async {
        let folder = tempfile::tempdir()?;
        let served = Program::serve(folder.path(), "2026-08-27", "07:30")?;
        let browser = Browser::open().await?;
        browser.go(&served.page("/process")).await?;
        browser.fill("Food", "tomato juice").await?;
        browser.press("Look it up").await?;
        browser.wait_for_text("at which elevation?").await?;
        let text = browser.text().await?;
        assert!(
            text.contains("Without the elevation of the kitchen there is no process time"),
            "{text}"
        );
        browser.fill("Elevation", "2500ft").await?;
        browser.press("Show its row").await?;
        browser.wait_for_text("1,001").await?;
        assert!(browser.text().await?.contains("45"));
        Ok(())
    })
}

#[test]
fn the_bar_leads_to_every_page_without_scripts() -> Result<(), Fault> {
    in_browser(async {
        let folder = tempfile::tempdir()?;
        let served = Program::serve(folder.path(), "2026-08-27", "07:30")?;
        let browser = Browser::open().await?;
        browser.look(Window::Phone, Paper::Light).await?;
        browser.scripts(false).await?;
        browser.go(&served.page("/")).await?;
        for (words, question) in [
            ("Plan", "What becomes what, on which day?"),
            ("Batch", "Which batch comes next?"),
            ("Day", "When does each step start?"),
            ("Stores", "What have we got, will it last, what first?"),
            ("Process", "How long, and at what pressure?"),
            ("House", "What is the house like?"),
            (
                "Counter",
                "What is on the counter and how long will it keep?",
            ),
        ] {
            browser.press_shown(words).await?;
            browser.wait_for_text(question).await?;
        }
        Ok(())
    })
}
