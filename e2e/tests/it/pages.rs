//! Every page of the demo household, on a phone, a tablet and a laptop, by day
//! and in the dark: what fits, what can be pressed, what can be read.

use e2e::measure::{self, Demands};
use e2e::{Browser, Fault, Paper, Program, Window, accessibility};
use fantoccini::Locator;

/// One page to look at.
struct Page {
    /// Name of the screenshots.
    name: &'static str,
    path: String,
    /// Read from a step away while cooking: nothing under 16 px.
    kitchen: bool,
    /// Least size of the one figure that is read across the kitchen.
    far_text: Option<f64>,
}

/// The seven pages and one batch.
async fn pages(browser: &Browser, program: &Program) -> Result<Vec<Page>, Fault> {
    browser.go(&program.page("/batch")).await?;
    let link = browser
        .client()
        .find(Locator::Css("main a[href^='/batch/']"))
        .await
        .map_err(|cause| format!("the demo has no batch to open: {cause}"))?;
    let batch = link.attr("href").await?.unwrap_or_default();
    let page = |name, path: &str| Page {
        name,
        path: path.to_owned(),
        kitchen: false,
        far_text: None,
    };
    let kitchen = |name, path: &str| Page {
        kitchen: true,
        ..page(name, path)
    };
    Ok(vec![
        page("counter", "/counter"),
        page("plan", "/plan"),
        kitchen("batches", "/batch"),
        kitchen("batch", &batch),
        Page {
            far_text: Some(40.0),
            ..kitchen("day", "/day")
        },
        page("stores", "/stores"),
        page("process", "/process"),
        page("house", "/house"),
    ])
}

#[tokio::test]
async fn every_page_fits_and_can_be_pressed_and_read() -> Result<(), Fault> {
    let program = Program::demo()?;
    let browser = Browser::open().await?;
    let mut complaints = Vec::new();
    for page in pages(&browser, &program).await? {
        for window in Window::ALL {
            for paper in Paper::ALL {
                browser.look(window, paper).await?;
                browser.go(&program.page(&page.path)).await?;
                let name = format!("{}-{}-{}", page.name, window.width(), paper.word());
                browser.shot(&name).await?;
                let least_text = page.kitchen.then_some(16.0);
                let measured = measure::page(&browser, Demands { window, least_text }).await?;
                // An empty or broken page would have nothing wrong with it.
                assert!(
                    measured.controls >= 6 && measured.texts >= 10,
                    "{name} is nearly empty: {measured:?}"
                );
                complaints.extend(
                    measured
                        .faults
                        .iter()
                        .map(|found| format!("{name}: {found}")),
                );
                if let Some(least) = page.far_text
                    && measured.largest_text < least
                {
                    complaints.push(format!(
                        "{name}: largest text {} px, wanted {least}",
                        measured.largest_text
                    ));
                }
            }
        }
    }
    assert!(
        complaints.is_empty(),
        "{} faults:\n{}",
        complaints.len(),
        complaints.join("\n")
    );
    Ok(())
}

#[tokio::test]
async fn the_accessibility_checker_finds_nothing_serious() -> Result<(), Fault> {
    let program = Program::demo()?;
    let browser = Browser::open().await?;
    let mut complaints = Vec::new();
    for page in pages(&browser, &program).await? {
        for window in [Window::Phone, Window::Laptop] {
            for paper in Paper::ALL {
                browser.look(window, paper).await?;
                browser.go(&program.page(&page.path)).await?;
                let (kept, violations) = accessibility::check(&browser).await?;
                let name = format!("{}-{}-{}", page.name, window.width(), paper.word());
                assert!(
                    kept >= 10,
                    "{name}: the checker looked at {kept} rules only"
                );
                for found in violations {
                    complaints.push(format!(
                        "{name}: {} ({}): {:#?}",
                        found.rule, found.impact, found.elements
                    ));
                }
            }
        }
    }
    assert!(
        complaints.is_empty(),
        "{} violations:\n{}",
        complaints.len(),
        complaints.join("\n")
    );
    Ok(())
}
