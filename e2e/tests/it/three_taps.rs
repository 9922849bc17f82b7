//! With the house known: from the first page to the minutes in three taps of a thumb, at 390 px,
//! with the page's scripts and without them.

use e2e::{Browser, Fault, Paper, Program, Window, in_browser};
use std::cell::Cell;

/// A browser that counts what is tapped.
struct Thumb<'b> {
    browser: &'b Browser,
    taps: Cell<u32>,
}

impl Thumb<'_> {
    async fn tap(&self, words: &str) -> Result<(), Fault> {
        self.taps.set(self.taps.get() + 1);
        self.browser.press(words).await
    }

    async fn tap_bar(&self, words: &str) -> Result<(), Fault> {
        self.taps.set(self.taps.get() + 1);
        self.browser.press_shown(words).await
    }
}

#[test]
fn three_taps_to_the_minutes() -> Result<(), Fault> {
    in_browser(async { to_the_minutes(true).await })
}

#[test]
fn three_taps_to_the_minutes_without_scripts() -> Result<(), Fault> {
    in_browser(async { to_the_minutes(false).await })
}

async fn to_the_minutes(scripts: bool) -> Result<(), Fault> {
    let program = Program::demo()?;
    let browser = Browser::open().await?;
    browser.look(Window::Phone, Paper::Light).await?;
    browser.scripts(scripts).await?;
    browser.go(&program.page("/counter")).await?;
    let thumb = Thumb {
        browser: &browser,
        taps: Cell::new(0),
    };
    thumb.tap_bar("Process").await?;
    browser.wait_for_text("Choose a food").await?;
    thumb.tap("Vegetables").await?;
    thumb.tap("Snap and Italian beans").await?;
    // AIB 539 (2015), p. 4-8: pints 20 minutes, weighted gauge at 15 psi above 1,000 ft. The
    // invented house lies at 1,180 ft, has more pints than quarts and owns the weight.
    browser.wait_for_text("20 minutes at 15 psi").await?;
    browser.wait_for_text("p. 4-8").await?;
    assert_eq!(thumb.taps.get(), 3);
    if scripts {
        let bottom = browser
            .ask(
                "return document.querySelector('.say').getBoundingClientRect().bottom",
                vec![],
            )
            .await?;
        let bottom = bottom.as_f64().ok_or("no answer on the page")?;
        assert!(
            bottom < 600.0,
            "the minutes are read without scrolling, not at {bottom} px"
        );
    }
    browser
        .shot(if scripts {
            "three-taps"
        } else {
            "three-taps-no-script"
        })
        .await?;

    // Another jar is one tap more.
    thumb.tap("quart").await?;
    browser.wait_for_text("25 minutes at 15 psi").await?;
    assert_eq!(thumb.taps.get(), 4);
    Ok(())
}
