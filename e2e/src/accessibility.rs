//! Runs the open accessibility checker axe-core in the page.

use serde_json::Value;

use crate::{Browser, Fault, here};

/// What the checker found, worst kinds only.
#[derive(Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Violation {
    /// The checker's name of the rule, for example `color-contrast`.
    pub rule: String,
    /// `serious` or `critical`.
    pub impact: String,
    /// The elements concerned, as written in the page.
    pub elements: Vec<String>,
}

/// The serious and critical violations on the page shown, and how many rules
/// were found kept.
pub async fn check(browser: &Browser) -> Result<(usize, Vec<Violation>), Fault> {
    let file = here().join("a11y/node_modules/axe-core/axe.min.js");
    let source = std::fs::read_to_string(&file).map_err(|cause| {
        format!(
            "{}: {cause}; run `npm ci --ignore-scripts` in e2e/a11y",
            file.display()
        )
    })?;
    browser.ask(&source, vec![]).await?;
    let answer = browser
        .client()
        .execute_async(
            "const done = arguments[arguments.length - 1];
             axe.run(document).then(
               found => done({ kept: found.passes.length, broken: found.violations
                 .filter(v => v.impact === 'serious' || v.impact === 'critical')
                 .map(v => ({ rule: v.id, impact: v.impact,
                              elements: v.nodes.map(n => n.html.slice(0, 160) + ' -- ' + (n.any[0] ? n.any[0].message : '')) })) }),
               cause => done({ fault: String(cause) }));",
            vec![],
        )
        .await?;
    if let Some(fault) = answer.get("fault") {
        return Err(format!("the accessibility checker failed: {fault}").into());
    }
    let kept = answer
        .get("kept")
        .and_then(Value::as_u64)
        .unwrap_or_default() as usize;
    let broken = answer
        .get("broken")
        .and_then(Value::as_array)
        .cloned()
        .unwrap_or_default();
    let text = |value: &Value| value.as_str().unwrap_or_default().to_owned();
    let violations = broken
        .iter()
        .map(|found| Violation {
            rule: text(&found["rule"]),
            impact: text(&found["impact"]),
            elements: found["elements"]
                .as_array()
                .map(|all| all.iter().map(text).collect())
                .unwrap_or_default(),
        })
        .collect();
    Ok((kept, violations))
}
