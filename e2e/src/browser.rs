//! A headless Chromium behind its driver, with the few moves the tests need.

use std::cell::Cell;
use std::time::{Duration, Instant};

use fantoccini::elements::Element;
use fantoccini::wd::{Capabilities, WebDriverCompatibleCommand};
use fantoccini::{Client, ClientBuilder, Locator};
use hyper_util::client::legacy::connect::HttpConnector;
use serde_json::{Value, json};

use crate::Fault;
use crate::driver::{Driver, from_base64};

/// How long a wait for something on a page may last.
const PATIENCE: Duration = Duration::from_secs(20);

/// The width of the window a page is looked at in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Window {
    /// 390 px, a phone in the hand.
    Phone,
    /// 820 px, a tablet on the kitchen shelf.
    Tablet,
    /// 1440 px, a laptop.
    Laptop,
}

impl Window {
    /// All three.
    pub const ALL: [Window; 3] = [Window::Phone, Window::Tablet, Window::Laptop];

    /// Width in CSS pixels.
    pub fn width(self) -> u32 {
        match self {
            Window::Phone => 390,
            Window::Tablet => 820,
            Window::Laptop => 1440,
        }
    }

    fn height(self) -> u32 {
        match self {
            Window::Phone => 844,
            Window::Tablet => 1180,
            Window::Laptop => 900,
        }
    }
}

/// What the device says it prefers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Paper {
    /// `prefers-color-scheme: light`
    Light,
    /// `prefers-color-scheme: dark`
    Dark,
}

impl Paper {
    /// Both.
    pub const ALL: [Paper; 2] = [Paper::Light, Paper::Dark];

    /// The word the style sheet is asked with.
    pub fn word(self) -> &'static str {
        match self {
            Paper::Light => "light",
            Paper::Dark => "dark",
        }
    }
}

/// One browser; closed when dropped, also after a failed test.
pub struct Browser {
    client: Client,
    window: Cell<Window>,
    scripts: Cell<bool>,
    _driver: Driver,
    // Removed after the driver has been stopped: fields drop in this order.
    _profile: tempfile::TempDir,
}

impl Browser {
    /// Starts a browser with a phone's window.
    pub async fn open() -> Result<Browser, Fault> {
        let driver = Driver::start()?;
        let profile = tempfile::tempdir()?;
        let phone = Window::Phone;
        let options = json!({
            // Longer than any page of ours takes on a busy machine; a page that never
            // comes must fail its test and not hold the whole run up.
            "timeouts": { "pageLoad": 60_000, "script": 60_000 },
            "goog:chromeOptions": {
                "args": [
                    "--headless=new",
                    // Tests visit only their own server on this machine, and a
                    // build container seldom offers a sandbox.
                    "--no-sandbox",
                    "--disable-gpu",
                    "--disable-quic",
                    "--no-first-run",
                    "--disable-background-networking",
                    "--disable-component-update",
                    "--disable-sync",
                    "--hide-scrollbars",
                    format!("--user-data-dir={}", profile.path().display()),
                ],
                "mobileEmulation": {
                    "deviceMetrics": {
                        "width": phone.width(),
                        "height": phone.height(),
                        "pixelRatio": 1,
                        "touch": true,
                    }
                }
            }
        });
        let capabilities: Capabilities = match options {
            Value::Object(map) => map,
            _ => return Err("browser options are an object".into()),
        };
        let client = ClientBuilder::new(HttpConnector::new())
            .capabilities(capabilities)
            .connect(&format!("http://127.0.0.1:{}", driver.port()))
            .await?;
        Ok(Browser {
            client,
            window: Cell::new(phone),
            scripts: Cell::new(true),
            _driver: driver,
            _profile: profile,
        })
    }

    /// The driver's client, for what has no name of its own here.
    pub fn client(&self) -> &Client {
        &self.client
    }

    /// Goes to an address.
    pub async fn go(&self, address: &str) -> Result<(), Fault> {
        Ok(self.client.goto(address).await?)
    }

    /// The path of the page shown, for example `/counter`.
    pub async fn path(&self) -> Result<String, Fault> {
        Ok(self.client.current_url().await?.path().to_owned())
    }

    /// Sets the window's width and the device's colour preference.
    pub async fn look(&self, window: Window, paper: Paper) -> Result<(), Fault> {
        self.window.set(window);
        self.size(window, window.height()).await?;
        let wish = json!({ "name": "prefers-color-scheme", "value": paper.word() });
        self.devtools("Emulation.setEmulatedMedia", json!({ "features": [wish] }))
            .await?;
        Ok(())
    }

    async fn size(&self, window: Window, height: u32) -> Result<(), Fault> {
        let metrics = json!({
            "width": window.width(),
            "height": height,
            "deviceScaleFactor": 1,
            "mobile": window != Window::Laptop,
        });
        self.devtools("Emulation.setDeviceMetricsOverride", metrics)
            .await?;
        Ok(())
    }

    /// Turns the page's own scripts off or on; counts from the next page.
    pub async fn scripts(&self, on: bool) -> Result<(), Fault> {
        self.scripts.set(on);
        self.devtools(
            "Emulation.setScriptExecutionDisabled",
            json!({ "value": !on }),
        )
        .await?;
        Ok(())
    }

    /// Runs a script in the page and gives back what it returns.
    pub async fn ask(&self, script: &str, arguments: Vec<Value>) -> Result<Value, Fault> {
        Ok(self.client.execute(script, arguments).await?)
    }

    /// All text the page shows.
    pub async fn text(&self) -> Result<String, Fault> {
        Ok(self.client.find(Locator::Css("body")).await?.text().await?)
    }

    /// Waits until the page shows the text.
    pub async fn wait_for_text(&self, wanted: &str) -> Result<(), Fault> {
        let started = Instant::now();
        let mut last = String::new();
        while started.elapsed() < PATIENCE {
            // Between two pages there may be no body yet.
            if let Ok(text) = self.text().await {
                if text.contains(wanted) {
                    return Ok(());
                }
                last = text;
            }
            tokio::time::sleep(Duration::from_millis(100)).await;
        }
        Err(format!("the page never showed \"{wanted}\"; it shows:\n{last}").into())
    }

    /// The field with this label, the first on the page.
    pub async fn labelled(&self, label: &str) -> Result<Element, Fault> {
        let words = quoted(label);
        let path = format!(
            "//*[self::input or self::select or self::textarea]\
             [@id = //label[starts-with(normalize-space(.), {words})]/@for \
              or ancestor::label[starts-with(normalize-space(.), {words})]]"
        );
        self.found(&path, &format!("a field labelled \"{label}\""))
            .await
    }

    /// The field that is sent under this name, for rows whose labels repeat.
    pub async fn named(&self, name: &str) -> Result<Element, Fault> {
        let path = format!("//*[@name={} and not(@type='hidden')]", quoted(name));
        self.found(&path, &format!("a field named \"{name}\""))
            .await
    }

    /// Types into the field with this label, in place of what it held.
    pub async fn fill(&self, label: &str, text: &str) -> Result<(), Fault> {
        typed(&self.labelled(label).await?, text).await
    }

    /// Types into the field of this name, in place of what it held.
    pub async fn fill_named(&self, name: &str, text: &str) -> Result<(), Fault> {
        typed(&self.named(name).await?, text).await
    }

    /// Chooses from the list with this label the line that begins with `choice`, capitals or not.
    pub async fn choose(&self, label: &str, choice: &str) -> Result<(), Fault> {
        chosen(&self.labelled(label).await?, choice).await
    }

    /// Chooses from the list of this name the line that begins with `choice`.
    pub async fn choose_named(&self, name: &str, choice: &str) -> Result<(), Fault> {
        chosen(&self.named(name).await?, choice).await
    }

    /// Taps the answer `words` under the question that begins with `question`.
    pub async fn answer(&self, question: &str, words: &str) -> Result<(), Fault> {
        let path = format!(
            "//fieldset[legend[starts-with(normalize-space(.), {})]]//label[normalize-space(.)={}]",
            quoted(question),
            quoted(words)
        );
        self.tap(
            &self
                .found(&path, &format!("\"{words}\" under \"{question}\""))
                .await?,
        )
        .await
    }

    /// Taps the same answer to every question that offers it; gives how many there were.
    pub async fn answer_all(&self, words: &str) -> Result<usize, Fault> {
        let path = format!("//fieldset//label[normalize-space(.)={}]", quoted(words));
        let answers = self.client.find_all(Locator::XPath(&path)).await?;
        for answer in &answers {
            self.tap(answer).await?;
        }
        Ok(answers.len())
    }

    /// Ticks every open box of the form that is sent to the address ending in `form`.
    pub async fn tick_all(&self, form: &str) -> Result<usize, Fault> {
        let path = format!(
            "//form[contains(@action, {})]//label[input[@type='checkbox'][not(@checked)]]",
            quoted(form)
        );
        let boxes = self.client.find_all(Locator::XPath(&path)).await?;
        for one in &boxes {
            self.tap(one).await?;
        }
        Ok(boxes.len())
    }

    /// Presses the first button or link whose words begin with `words`. What
    /// follows is a new page: wait for something that only it shows.
    pub async fn press(&self, words: &str) -> Result<(), Fault> {
        let path = format!(
            "//*[self::button or self::a or self::summary][starts-with(normalize-space(.), {})]",
            quoted(words)
        );
        self.tap(
            &self
                .found(&path, &format!("anything to press called \"{words}\""))
                .await?,
        )
        .await
    }

    /// Presses the link called exactly `words` that this window shows; pages
    /// carry one bar for narrow windows and one for wide ones.
    pub async fn press_shown(&self, words: &str) -> Result<(), Fault> {
        let path = format!("//nav//a[normalize-space(.) = {}]", quoted(words));
        for link in self.client.find_all(Locator::XPath(&path)).await? {
            if link.is_displayed().await? {
                return self.tap(&link).await;
            }
        }
        Err(format!("no bar leads to \"{words}\" here").into())
    }

    async fn found(&self, path: &str, what: &str) -> Result<Element, Fault> {
        self.client
            .wait()
            .at_most(PATIENCE)
            .for_element(Locator::XPath(path))
            .await
            .map_err(|cause| format!("the page has not {what}: {cause}").into())
    }

    /// Brings a control to the middle and taps it, so that a bar fixed to the
    /// window's edge is never over it: a person would scroll the same way.
    async fn tap(&self, control: &Element) -> Result<(), Fault> {
        let this = vec![serde_json::to_value(control)?];
        let to_middle = "arguments[0].scrollIntoView({block: 'center', behavior: 'instant'})";
        self.client.execute(to_middle, this.clone()).await?;
        if self.scripts.get() {
            Ok(control.click().await?)
        } else {
            // The driver's own click waits for a timer of the page, which never
            // rings in a page that may run none.
            self.client.execute("arguments[0].click()", this).await?;
            Ok(())
        }
    }

    /// Writes a picture of the whole page to the shots folder.
    pub async fn shot(&self, name: &str) -> Result<(), Fault> {
        let window = self.window.get();
        // As high as the page, so that a bar at the window's edge stands at the page's end.
        let height = self
            .ask("return document.documentElement.scrollHeight", vec![])
            .await?;
        let height = u32::try_from(height.as_u64().unwrap_or_default())?;
        self.size(window, height.clamp(window.height(), 16_000))
            .await?;
        let answer = self
            .devtools("Page.captureScreenshot", json!({ "format": "png" }))
            .await?;
        self.size(window, window.height()).await?;
        let text = answer
            .get("data")
            .and_then(Value::as_str)
            .ok_or("a screenshot without data")?;
        std::fs::write(
            crate::shots()?.join(format!("{name}.png")),
            from_base64(text)?,
        )?;
        Ok(())
    }

    async fn devtools(&self, method: &str, parameters: Value) -> Result<Value, Fault> {
        Ok(self
            .client
            .issue_cmd(DevTools {
                method: method.to_owned(),
                parameters,
            })
            .await?)
    }
}

async fn typed(field: &Element, text: &str) -> Result<(), Fault> {
    field.clear().await?;
    Ok(field.send_keys(text).await?)
}

async fn chosen(list: &Element, choice: &str) -> Result<(), Fault> {
    let path = format!(
        ".//option[starts-with(translate(normalize-space(.), {CAPITALS}, {SMALL}), {})]",
        quoted(&choice.to_lowercase())
    );
    let line = list
        .find(Locator::XPath(&path))
        .await
        .map_err(|cause| format!("the list offers no \"{choice}\": {cause}"))?;
    Ok(line.click().await?)
}

/// XPath has no lower case of its own.
const CAPITALS: &str = "'ABCDEFGHIJKLMNOPQRSTUVWXYZ'";
const SMALL: &str = "'abcdefghijklmnopqrstuvwxyz'";

/// One message to the browser's own tools, passed through by the driver.
#[derive(Debug)]
struct DevTools {
    method: String,
    parameters: Value,
}

impl WebDriverCompatibleCommand for DevTools {
    fn endpoint(
        &self,
        base: &url::Url,
        session: Option<&str>,
    ) -> Result<url::Url, url::ParseError> {
        base.join(&format!(
            "session/{}/goog/cdp/execute",
            session.unwrap_or_default()
        ))
    }

    fn method_and_body(&self, _: &url::Url) -> (http::Method, Option<String>) {
        let body = json!({ "cmd": self.method, "params": self.parameters });
        (http::Method::POST, Some(body.to_string()))
    }
}

/// A text as an XPath literal; the words of our pages hold at most one kind of quote.
fn quoted(text: &str) -> String {
    if text.contains('\'') {
        format!("\"{text}\"")
    } else {
        format!("'{text}'")
    }
}
