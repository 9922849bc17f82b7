//! Every page of the demo household, on a phone, a tablet and a laptop, by day
//! and in the dark: what fits, what can be pressed, what can be read.

use e2e::measure::{self, Demands};
use e2e::{Browser, Fault, Paper, Program, Window, accessibility, in_browser};
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

/// The seven pages, and what opens from them.
async fn pages(browser: &Browser, program: &Program) -> Result<Vec<Page>, Fault> {
    let lot = first_link(browser, program, "/counter").await?;
    let batch = first_link(browser, program, "/batch").await?;
    let holding = first_link(browser, program, "/stores").await?;
    browser.go(&program.page("/day")).await?;
    browser.press("Lay").await?;
    browser.wait_for_text("The steps").await?;
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
    let asked = "pack=hot&method=boiling-water&elevation=2500ft";
    Ok(vec![
        page("counter", "/counter"),
        page("lot", &lot),
        page("plan", "/plan"),
        kitchen("batches", "/batch"),
        kitchen("batch", &batch),
        kitchen("batch-try", "/batch/new?recipe=tomato-juice&batches=2"),
        Page {
            far_text: Some(40.0),
            ..kitchen("day", "/day")
        },
        page("stores", "/stores"),
        page("holding", &holding),
        page("load", "/load"),
        page("change", "/change"),
        page("recipe", "/recipe"),
        page(
            "change-salsa",
            "/change?recipe=tomato-salsa-paste-tomatoes&new.form=line&new.line=3&new.kind=swap&new.with=onions",
        ),
        page("process", "/process"),
        page(
            "process-look-up",
            &format!("/process?food=tomato-juice&jar=quart&{asked}"),
        ),
        page(
            "process-permit",
            "/process?food=tomato-juice&sound=yes&acid=citric-acid",
        ),
        page(
            "process-refusal",
            &format!("/process?food=tomato-juice&jar=half-gallon&{asked}"),
        ),
        kitchen("incident", "/incident"),
        kitchen("incident-answer", "/incident/wrong-time?lifted=06:30"),
        kitchen("incident-late", "/incident/acid-forgotten?lifted=03:00"),
        kitchen("disposal", "/incident/disposal"),
        page("print", "/batch/1/print"),
        page("print-card", "/batch/3/print"),
        kitchen("enter", "/batch/enter"),
        // The code of the card of batch 3.
        kitchen("enter-card", "/batch/enter?code=226-223"),
        page("house", "/house"),
    ])
}

/// The first address on a page that leads on from it.
async fn first_link(browser: &Browser, program: &Program, from: &str) -> Result<String, Fault> {
    browser.go(&program.page(from)).await?;
    let onward = format!("main a[href^='{from}/']:not([href*='new'])");
    let link = browser
        .client()
        .find(Locator::Css(&onward))
        .await
        .map_err(|cause| format!("{from} of the demo leads nowhere on: {cause}"))?;
    Ok(link.attr("href").await?.unwrap_or_default())
}

#[test]
fn every_page_fits_and_can_be_pressed_and_read() -> Result<(), Fault> {
    in_browser(async {
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
    })
}

#[test]
fn the_accessibility_checker_finds_nothing_serious() -> Result<(), Fault> {
    in_browser(async {
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
    })
}
