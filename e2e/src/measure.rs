//! Measures a page as it is drawn: widths, targets, labels, text sizes, cover.

use std::fmt;

use serde::Deserialize;
use serde_json::json;

use crate::{Browser, Fault, Window};

/// What a page is held to.
#[derive(Clone, Copy, Debug)]
pub struct Demands {
    /// The window it was drawn in.
    pub window: Window,
    /// The least text size in CSS pixels; `None` where no such rule holds.
    pub least_text: Option<f64>,
}

/// The least width and height of a control, in CSS pixels.
pub const LEAST_CONTROL: f64 = 48.0;

/// What was measured.
#[derive(Debug, Deserialize)]
pub struct Measured {
    /// How many controls were looked at.
    pub controls: usize,
    /// How many pieces of text were looked at.
    pub texts: usize,
    /// The largest text on the page, in CSS pixels.
    pub largest_text: f64,
    /// What breaks a rule.
    pub faults: Vec<Found>,
}

/// One broken rule.
#[derive(Debug, Deserialize)]
pub struct Found {
    /// Short name of the rule: `wide`, `small`, `unnamed`, `overlap`,
    /// `covered`, `text`, `order`.
    pub rule: String,
    /// The element, described so that a person finds it.
    pub place: String,
    /// What was measured.
    pub detail: String,
}

impl fmt::Display for Found {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{}: {} ({})", self.rule, self.place, self.detail)
    }
}

/// Measures the page shown. Folded parts are measured folded and unfolded.
pub async fn page(browser: &Browser, demands: Demands) -> Result<Measured, Fault> {
    let answer = browser
        .ask(
            include_str!("measure.js"),
            vec![json!({
                "width": demands.window.width(),
                "least_control": LEAST_CONTROL,
                "least_text": demands.least_text.unwrap_or(0.0),
            })],
        )
        .await?;
    Ok(serde_json::from_value(answer)?)
}
