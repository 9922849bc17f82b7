//! May I change this? A tested recipe, what would be changed in it, and the answer to each change.

use super::{pairs, whole};
use crate::frame::Frame;
use crate::part::field::{Field, hidden, send};
use crate::part::{Mark, Opening, Section, asking, fractions, opening, spread};
use app::change::{AskEdit, edit_words};
use app::view::change::{AnswerView, ChangeView, EditAnswer, FindingView};
use maud::{Markup, html};

/// Draws the page; `edits` are those asked about, in order.
pub fn draw(frame: &Frame, view: &ChangeView, edits: &[AskEdit]) -> Markup {
    let title = if view.title.is_empty() {
        "May I change this?"
    } else {
        &view.title
    };
    whole(
        frame,
        title,
        Section::Process,
        html! {
            (opening(Opening {
                day: if view.title.is_empty() { "Tested recipes" } else { title },
                verge: html! { p { "Answered from published rules. What no rule names is untested." } p.src { (view.source) } },
                question: "May I change this?",
                answer: said(view),
                lead: html! { @if !view.recipe.is_empty() && view.answer.is_none() { "Amounts are those of one batch as printed. The whole recipe may be made larger or smaller." } },
                actions: html! { @if !view.recipe.is_empty() { a.btn href="/change" { "Another recipe" } } },
            }))
            @if let Some(answer) = &view.answer { (spread("Each change", html! { p { "This writes nothing." } }, answers(view, answer, edits))) }
            @if let Some(cold) = &view.cold {
                (spread("Instead of the shelf", html! { p.src { (cold.source) } }, html! { p.lead { (cold.fridge) } p.lead { (cold.freezer) } }))
            }
            @if view.recipe.is_empty() { (spread("The recipe", html! {}, choose(frame, view))) }
            @else {
                @if view.answer.as_ref().is_none_or(|answer| answer.edits.len() != edits.len()) && !edits.is_empty() {
                    (spread("Asked about", html! {}, asked(view, edits)))
                }
                (spread("What would be changed?", html! { p { "One change at a time; each is added to those above." } }, forms(frame, view, edits)))
            }
        },
    )
}

fn said(view: &ChangeView) -> &str {
    match &view.answer {
        Some(answer) => &answer.words,
        None if view.recipe.is_empty() => "Choose the recipe.",
        None => "Say what would be changed.",
    }
}

fn choose(frame: &Frame, view: &ChangeView) -> Markup {
    let filled = &frame.filled;
    html! {
        form.form method="get" action="/change" autocomplete="off" {
            (Field { name: "recipe", label: "Tested recipe, or a food of the tables", value: filled.value("recipe", ""), wrong: filled.wrong("recipe"), required: true, hint: "such as tomato-salsa-paste-tomatoes; type a part of its name", ..Field::default() }.suggest(&pairs(&view.recipes)))
            div.row { (send("Show its lines", true)) }
        }
    }
}

fn mark(answer: &str) -> (Mark, &'static str, &'static str) {
    match answer {
        "allow" => (Mark::Tested, "tested", "allowed"),
        "allow-if" => (Mark::Due, "due", "allowed if"),
        _ => (Mark::Refused, "held", "refused"),
    }
}

fn state(answer: &str) -> Markup {
    let (mark, class, words) = mark(answer);
    html! { span.mark.state.(class) { (mark) span { (words) } } }
}

/// The answer to each edit; where each stands for one that was asked, it can be taken back there.
fn answers(view: &ChangeView, answer: &AnswerView, edits: &[AskEdit]) -> Markup {
    let each = answer.edits.len() == edits.len();
    html! {
        ul.ruled {
            @for (at, edit) in answer.edits.iter().enumerate() {
                li { (one(edit)) @if each { div.row { (take_back(view, edits, at)) } } }
            }
            @if !answer.whole.is_empty() { li { h3 { "All changes together" } (findings(&answer.whole)) } }
        }
    }
}

fn one(edit: &EditAnswer) -> Markup {
    html! {
        h3 { (fractions(&edit.words)) }
        p { (state(&edit.answer)) }
        @if !edit.instead.is_empty() { p.lead { (fractions(&edit.instead)) } }
        (findings(&edit.findings))
    }
}

fn findings(findings: &[FindingView]) -> Markup {
    html! {
        ul.dash {
            @for finding in findings {
                li {
                    (fractions(&finding.text)) " " span.src { (finding.rule) ": " (finding.source) }
                    @if !finding.other_reading.is_empty() { p.note { "Read elsewhere: " (finding.other_reading) } }
                }
            }
        }
    }
}

/// The address of the page with these edits.
fn address(recipe: &str, edits: &[&AskEdit]) -> String {
    let mut fields = vec![("recipe".to_owned(), recipe.to_owned())];
    fields.extend(edits.iter().map(|edit| ("edit".to_owned(), edit.to_text())));
    asking("/change", &fields)
}

/// The link to the same page without one of the edits.
fn take_back(view: &ChangeView, edits: &[AskEdit], at: usize) -> Markup {
    let rest = edits.iter().enumerate().filter(|(other, _)| *other != at);
    let rest: Vec<&AskEdit> = rest.map(|(_, edit)| edit).collect();
    html! { a.btn href=(address(&view.recipe, &rest)) { "Take it back" } }
}

fn asked(view: &ChangeView, edits: &[AskEdit]) -> Markup {
    html! {
        ul.ruled {
            @for (at, edit) in edits.iter().enumerate() {
                li { p { (edit_words(edit)) } (take_back(view, edits, at)) }
            }
        }
    }
}

fn forms(frame: &Frame, view: &ChangeView, edits: &[AskEdit]) -> Markup {
    let filled = &frame.filled;
    let field =
        |prefix: &'static str, name: &'static str, label: &'static str, hint: &'static str| Field {
            name,
            label,
            hint,
            prefix,
            // What could not be taken is shown again where it was typed.
            value: if filled.value("new.form", "") == prefix {
                filled.value(name, "")
            } else {
                ""
            },
            wrong: if filled.value("new.form", "") == prefix {
                filled.wrong(name)
            } else {
                None
            },
            ..Field::default()
        };
    let numbers: Vec<String> = view
        .printed
        .iter()
        .map(|line| line.number.to_string())
        .collect();
    let lines: Vec<(&str, &str)> = numbers
        .iter()
        .zip(&view.printed)
        .map(|(number, line)| (number.as_str(), line.words.as_str()))
        .collect();
    let manners: Vec<(String, &str)> = view
        .manners
        .iter()
        .map(|choice| (format!("manner={}", choice.key), choice.title.as_str()))
        .collect();
    let mut ways: Vec<(&str, &str)> = WAYS.to_vec();
    ways.extend(manners.iter().map(|(key, words)| (key.as_str(), *words)));
    let form = |name: &'static str, title: &'static str, body: Markup| {
        html! {
            form.form method="get" action="/change" autocomplete="off" {
                h3 { (title) }
                (hidden("recipe", &view.recipe))
                @for edit in edits { (hidden("edit", edit.to_text())) }
                (hidden("new.form", name))
                (body)
                div.row { (send("Ask", false)) }
            }
        }
    };
    html! {
        @if !lines.is_empty() {
            (form("line", "A line", html! {
                (Field { required: true, ..field("line", "new.line", "Line", "") }.list(&lines, Some("choose a line")))
                (field("line", "new.kind", "What of it", "").list(&LINE_KINDS, None))
                (field("line", "new.amount", "Amount wished", "such as 1 1/2 cups; empty for the same amount of something else").text("text"))
                (field("line", "new.with", "Something else in its place", "such as bell peppers").text("text"))
            }))
            (form("add", "Something added", html! {
                (Field { required: true, ..field("add", "new.with", "What", "such as black beans") }.text("text"))
                (Field { required: true, ..field("add", "new.amount", "How much", "such as 1 cup") }.text("text"))
            }))
        }
        (form("way", "Jar, pack, canner or way of working", html! {
            (Field { required: true, ..field("way", "new.way", "What", "") }.list(&ways, Some("choose one")))
        }))
        (form("vinegar", "The vinegar at hand", html! {
            (field("vinegar", "new.to", "Percent on its label", "empty when nobody knows").text("decimal"))
            (field("vinegar", "new.diluted", "Diluted at home to the strength the recipe asks", "").tick(false, ""))
        }))
        (form("scale", "The whole recipe", html! {
            (Field { required: true, ..field("scale", "new.to", "How many times", "such as 2 or 1/2") }.text("text"))
        }))
    }
}

/// What may be done to a line.
const LINE_KINDS: [(&str, &str); 3] = [
    ("amount", "another amount"),
    ("swap", "something else in its place"),
    ("leave-out", "left out"),
];

/// Jars, packs and canners; the manners of the tables follow.
const WAYS: [(&str, &str); 14] = [
    ("jar=half-pint", "half-pint jars"),
    ("jar=12-ounce", "12-ounce jars"),
    ("jar=pint", "pint jars"),
    ("jar=pint-and-half", "pint-and-half jars"),
    ("jar=quart", "quart jars"),
    ("jar=half-gallon", "half-gallon jars"),
    ("jar=250-ml", "250 ml jars"),
    ("jar=500-ml", "500 ml jars"),
    ("jar=1-litre", "1 litre jars"),
    ("pack=raw", "packed raw"),
    ("pack=hot", "packed hot"),
    ("canner=boiling-water", "in boiling water"),
    ("canner=steam", "in a steam canner"),
    ("canner=weighted-gauge", "under pressure"),
];
