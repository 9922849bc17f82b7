//! A strict reader of the pages we write: every tag closed in order, every attribute once, nothing
//! inline that the content policy forbids, a label for every field, every reference answered.

use std::collections::{BTreeMap, BTreeSet};

/// Elements that are never closed.
const VOID: [&str; 6] = ["meta", "link", "input", "br", "hr", "img"];

/// One element as it was opened.
#[derive(Debug, Clone)]
pub struct Element {
    pub name: String,
    pub attributes: BTreeMap<String, String>,
    /// Names of the elements around it, outermost first.
    pub inside: Vec<String>,
    /// Text and attribute words within it.
    pub text: String,
}

impl Element {
    pub fn get(&self, name: &str) -> &str {
        self.attributes.get(name).map_or("", String::as_str)
    }
}

/// Reads a whole document; the error names the first thing that is not well formed.
pub fn read(html: &str) -> Result<Vec<Element>, String> {
    let rest = html
        .strip_prefix("<!DOCTYPE html>")
        .ok_or("no doctype at the start")?;
    let mut elements: Vec<Element> = Vec::new();
    let mut open: Vec<usize> = Vec::new();
    let mut at = rest;
    while let Some(start) = at.find('<') {
        let text = &at[..start];
        if text.contains('>') {
            return Err(format!("a bare > in «{text}»"));
        }
        for index in &open {
            elements[*index].text.push_str(text);
        }
        let end = tag_end(&at[start..])
            .ok_or_else(|| format!("a tag is never finished: {:.60}", &at[start..]))?;
        let tag = &at[start + 1..start + end];
        at = &at[start + end + 1..];
        if let Some(name) = tag.strip_prefix('/') {
            let index = open
                .pop()
                .ok_or_else(|| format!("</{name}> closes nothing"))?;
            if elements[index].name != name {
                return Err(format!("</{name}> closes <{}>", elements[index].name));
            }
            continue;
        }
        // Only drawings may close themselves; in HTML the stroke would mean nothing.
        let drawn = tag
            .strip_suffix('/')
            .filter(|_| open.iter().any(|index| elements[*index].name == "svg"));
        let (name, attributes) = tag_parts(drawn.unwrap_or(tag))?;
        if ["style", "script"].contains(&name.as_str()) {
            let close = format!("</{name}>");
            let skip = at
                .find(&close)
                .ok_or_else(|| format!("<{name}> is never closed"))?;
            let inline = at[..skip].trim().to_owned();
            at = &at[skip + close.len()..];
            elements.push(Element {
                name,
                attributes,
                inside: names(&elements, &open),
                text: inline,
            });
            continue;
        }
        elements.push(Element {
            name: name.clone(),
            attributes,
            inside: names(&elements, &open),
            text: String::new(),
        });
        if !VOID.contains(&name.as_str()) && drawn.is_none() {
            open.push(elements.len() - 1);
        }
    }
    match open.last() {
        None => Ok(elements),
        Some(index) => Err(format!("<{}> is never closed", elements[*index].name)),
    }
}

fn names(elements: &[Element], open: &[usize]) -> Vec<String> {
    open.iter()
        .map(|index| elements[*index].name.clone())
        .collect()
}

/// The end of a tag, past any > within quotes.
fn tag_end(tag: &str) -> Option<usize> {
    let mut quoted = false;
    tag.char_indices().find_map(|(index, letter)| {
        if letter == '"' {
            quoted = !quoted;
        }
        (letter == '>' && !quoted).then_some(index)
    })
}

fn tag_parts(tag: &str) -> Result<(String, BTreeMap<String, String>), String> {
    let (name, mut rest) = tag.split_once(' ').unwrap_or((tag, ""));
    let mut attributes = BTreeMap::new();
    while !rest.trim().is_empty() {
        rest = rest.trim_start();
        let stop = rest.find(['=', ' ']).unwrap_or(rest.len());
        let key = rest[..stop].to_owned();
        rest = &rest[stop..];
        let value = if let Some(after) = rest.strip_prefix("=\"") {
            let end = after
                .find('"')
                .ok_or_else(|| format!("{key} of <{name}> has no closing quote"))?;
            rest = &after[end + 1..];
            after[..end].to_owned()
        } else {
            String::new()
        };
        if attributes.insert(key.clone(), value).is_some() {
            return Err(format!("<{name}> has {key} twice"));
        }
    }
    Ok((name.to_owned(), attributes))
}

/// Everything about a page that breaks a rule of ours, in words.
pub fn faults(html: &str) -> Vec<String> {
    let elements = match read(html) {
        Ok(elements) => elements,
        Err(fault) => return vec![fault],
    };
    let mut faults = Vec::new();
    let mut ids = BTreeSet::new();
    for element in &elements {
        let id = element.get("id");
        if !id.is_empty() && !ids.insert(id.to_owned()) {
            faults.push(format!("id {id} twice"));
        }
    }
    let labelled: BTreeSet<&str> = elements
        .iter()
        .filter(|element| element.name == "label")
        .map(|element| element.get("for"))
        .collect();
    for element in &elements {
        let Element {
            name,
            attributes,
            inside,
            text,
        } = element;
        for key in attributes.keys() {
            if key == "style" || key.starts_with("on") {
                faults.push(format!("<{name}> carries {key}"));
            }
        }
        if name == "style" || (name == "script" && !text.is_empty()) {
            faults.push(format!("<{name}> holds something inline"));
        }
        for value in attributes.values() {
            for reference in value.split("url(#").skip(1) {
                let wanted = reference.split(')').next().unwrap_or_default();
                if !ids.contains(wanted) {
                    faults.push(format!(
                        "<{name}> paints with #{wanted}, which is not on the page"
                    ));
                }
            }
        }
        let points = [
            ("href", element.get("href").strip_prefix('#')),
            ("list", attributes.get("list").map(String::as_str)),
        ];
        for (key, target) in points {
            if let Some(target) = target.filter(|target| !target.is_empty())
                && !ids.contains(target)
            {
                faults.push(format!(
                    "<{name} {key}> leads to #{target}, which is not on the page"
                ));
            }
        }
        for target in element.get("aria-describedby").split_whitespace() {
            if !ids.contains(target) {
                faults.push(format!(
                    "<{name}> is described by #{target}, which is not on the page"
                ));
            }
        }
        let field = ["input", "select", "textarea"].contains(&name.as_str())
            && element.get("type") != "hidden";
        if field
            && !inside.iter().any(|outer| outer == "label")
            && (element.get("id").is_empty() || !labelled.contains(element.get("id")))
        {
            faults.push(format!("field {} has no label", element.get("name")));
        }
        if name == "svg" && !inside.iter().any(|outer| outer == "svg") {
            let hidden = element.get("aria-hidden") == "true" || within_words(element);
            if !hidden && (element.get("role") != "img" || element.get("aria-label").len() < 8) {
                faults.push(format!("a picture says nothing: {:?}", element.attributes));
            }
        }
        if ["a", "button"].contains(&name.as_str())
            && text.trim().is_empty()
            && element.get("aria-label").is_empty()
        {
            faults.push(format!("<{name}> has no words: {attributes:?}"));
        }
        if name == "form" && element.get("method") == "post" && element.get("action").is_empty() {
            faults.push("a form leads nowhere".into());
        }
        if name == "table" && !html.contains("<caption>") {
            faults.push("a table has no caption".into());
        }
    }
    if elements
        .iter()
        .filter(|element| element.name == "h1")
        .count()
        != 1
    {
        faults.push("not exactly one h1".into());
    }
    faults
}

/// Little drawings in a key, a row of jars: the words or the sentence stand around them.
fn within_words(element: &Element) -> bool {
    element.inside.iter().any(|outer| outer == "li") || element.get("class").starts_with("jar")
}

#[cfg(test)]
mod tests {
    use super::{faults, read};

    #[test]
    fn what_is_not_well_formed_is_found() {
        for (html, wanted) in [
            ("<p>x</p>", "no doctype"),
            ("<!DOCTYPE html><p><b>x</p></b>", "closes"),
            ("<!DOCTYPE html><p class=\"a\" class=\"b\"></p>", "twice"),
            ("<!DOCTYPE html><p>", "never closed"),
        ] {
            assert!(
                read(html).is_err_and(|fault| fault.contains(wanted)),
                "{html}"
            );
        }
    }

    #[test]
    fn what_our_rules_forbid_is_found() {
        let page = |inner: &str| format!("<!DOCTYPE html><html><h1>q</h1>{inner}</html>");
        for (inner, wanted) in [
            ("<p style=\"color:red\">x</p>", "style"),
            ("<script>alert(1)</script>", "inline"),
            ("<input type=\"text\" name=\"weight\">", "no label"),
            (
                "<svg><rect fill=\"url(#gone)\"></rect></svg>",
                "not on the page",
            ),
            ("<a href=\"#gone\">x</a>", "not on the page"),
            ("<button></button>", "no words"),
            ("<p id=\"a\"></p><p id=\"a\"></p>", "twice"),
            ("<h1>again</h1>", "h1"),
        ] {
            assert!(
                faults(&page(inner))
                    .iter()
                    .any(|fault| fault.contains(wanted)),
                "{inner}: {:?}",
                faults(&page(inner))
            );
        }
        assert_eq!(
            faults(&page(
                "<label for=\"f\">l</label><input id=\"f\" type=\"text\">"
            )),
            Vec::<String>::new()
        );
    }
}
