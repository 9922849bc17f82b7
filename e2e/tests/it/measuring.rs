//! The measuring finds what it is there to find, and nothing on a sound page.

use std::collections::BTreeSet;

use e2e::measure::{self, Demands};
use e2e::{Browser, Fault, Paper, Window, accessibility, in_browser};

use crate::still_page;

const HEAD: &str = "<meta name=viewport content='width=device-width, initial-scale=1'>";

const DEMANDS: Demands = Demands {
    window: Window::Phone,
    least_text: Some(16.0),
};

async fn found_on(page: &'static str) -> Result<(measure::Measured, Browser), Fault> {
    let browser = Browser::open().await?;
    browser.look(Window::Phone, Paper::Light).await?;
    browser.go(&still_page::serve(page)?).await?;
    Ok((measure::page(&browser, DEMANDS).await?, browser))
}

#[test]
fn finds_each_fault_of_a_bad_page() -> Result<(), Fault> {
    in_browser(async {
        let page = Box::leak(
            format!(
                "<!doctype html><html><head>{HEAD}</head><body>
                 <p style='width:700px'>Too wide for a phone</p>
                 <button style='width:20px;height:20px'>a</button>
                 <input name=bare style='height:60px;width:100px'>
                 <div style='position:relative;height:80px'>
                   <button style='position:absolute;left:0;top:0;width:60px;height:60px'>one</button>
                   <button style='position:absolute;left:30px;top:0;width:60px;height:60px'>two</button></div>
                 <p style='font-size:12px'>Too small to read at the stove</p>
                 <details><summary style='height:60px'>more</summary><button style='width:10px;height:10px'>deep</button></details>
                 <div style='display:flex;flex-direction:column-reverse'>
                   <button style='width:60px;height:60px'>low</button><button style='width:60px;height:60px'>high</button></div>
                 </body></html>"
            )
            .into_boxed_str(),
        );
        let (measured, browser) = found_on(page).await?;
        let rules: BTreeSet<&str> = measured
            .faults
            .iter()
            .map(|found| found.rule.as_str())
            .collect();
        let wanted = BTreeSet::from([
            "covered", "order", "overlap", "small", "text", "unnamed", "wide",
        ]);
        assert_eq!(rules, wanted, "{:#?}", measured.faults);
        assert!(
            measured
                .faults
                .iter()
                .any(|found| found.place.contains("deep")),
            "folded parts are measured unfolded"
        );
        let (_, violations) = accessibility::check(&browser).await?;
        assert!(
            violations.iter().any(|found| found.rule == "label"),
            "{violations:?}"
        );
        Ok(())
    })
}

#[test]
fn finds_nothing_on_a_sound_page() -> Result<(), Fault> {
    in_browser(async {
        let page = Box::leak(
            format!(
                "<!doctype html><html lang=en><head><title>Sound</title>{HEAD}</head><body><main><h1>Sound</h1>
                 <p>A sentence with <a href='/'>a link</a> in it.</p>
                 <label style='display:block;padding:15px'><input type=checkbox> Ticked by its words</label>
                 <label for=weight>Weight</label> <input id=weight style='font-size:16px;display:block;height:48px;width:200px'>
                 <button style='font-size:16px;height:48px;width:80px'>Save</button>
                 <div style='overflow-x:auto'><div style='width:900px'>A wide table scrolls in its own part</div></div>
                 </main></body></html>"
            )
            .into_boxed_str(),
        );
        let (measured, browser) = found_on(page).await?;
        assert!(measured.faults.is_empty(), "{:#?}", measured.faults);
        assert_eq!(measured.controls, 4);
        assert!(measured.texts >= 5);
        let (kept, violations) = accessibility::check(&browser).await?;
        assert!(violations.is_empty(), "{violations:#?}");
        assert!(kept > 0);
        Ok(())
    })
}

#[test]
fn the_window_and_the_paper_are_what_they_say() -> Result<(), Fault> {
    in_browser(async {
        let browser = Browser::open().await?;
        browser
            .go(&still_page::serve(
                "<meta name=viewport content='width=device-width'><p>x",
            )?)
            .await?;
        for window in Window::ALL {
            for paper in Paper::ALL {
                browser.look(window, paper).await?;
                let seen = browser
                    .ask(
                        "return [innerWidth, matchMedia('(prefers-color-scheme: dark)').matches]",
                        vec![],
                    )
                    .await?;
                assert_eq!(
                    seen,
                    serde_json::json!([window.width(), paper == Paper::Dark])
                );
            }
        }
        Ok(())
    })
}

#[test]
fn scripts_can_be_turned_off() -> Result<(), Fault> {
    in_browser(async {
        let browser = Browser::open().await?;
        let address =
            still_page::serve("<p>by hand</p><script>document.body.append('by script')</script>")?;
        browser.go(&address).await?;
        assert!(browser.text().await?.contains("by script"));
        browser.scripts(false).await?;
        browser.go(&address).await?;
        let text = browser.text().await?;
        assert!(
            text.contains("by hand") && !text.contains("by script"),
            "{text}"
        );
        Ok(())
    })
}
