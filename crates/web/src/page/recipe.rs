//! The household's own recipes: a text pasted, what was understood of it, and what is kept.

use super::whole;
use crate::frame::Frame;
use crate::part::field::Field;
use crate::part::{Mark, Opening, Section, fractions, opening, spread};
use app::view::recipe::{RecipeLine, RecipeQuestion, RecipeView, RecipesView};
use maud::{Markup, html};

/// The list, the text box, and above both what was understood of a text just sent.
pub fn list(frame: &Frame, view: &RecipesView, read: Option<&RecipeView>) -> Markup {
    let answer = match read {
        Some(read) => read.summary.clone(),
        None if view.recipes.is_empty() => "None yet. Paste one below.".to_owned(),
        None => format!("{} kept.", view.recipes.len()),
    };
    whole(
        frame,
        "Your own recipes",
        Section::Batch,
        html! {
            (opening(Opening {
                day: "Recipes",
                verge: html! { p { "Nothing is guessed, and no line is lost: what cannot be read is kept as written." } },
                question: if read.is_some() { "What was understood?" } else { "Which recipes are your own?" },
                answer: &answer,
                lead: html! { @if read.is_some() { "This writes nothing until you keep it." } },
                actions: html! { @if read.is_some() { a.btn href="/recipe" { "All your recipes" } } @else { a.btn.first href="#paste" { "Paste a recipe" } a.btn href="/change" { "May I change a recipe?" } } },
            }))
            @if let Some(read) = read {
                (spread("Line by line", html! {}, lines(read)))
                (spread("State of testing", html! {}, state(read)))
            } @else if !view.recipes.is_empty() {
                (spread("Kept", html! {}, html! {
                    ul.ruled {
                        @for line in &view.recipes {
                            li {
                                h3 { a.go href=(format!("/recipe/{}", line.key)) { (line.title) } }
                                p.loose { (state_mark(&line.state)) span { (line.state_words) } span.note { (line.lines) ", kept " (line.on) } }
                            }
                        }
                    }
                }))
            }
            (spread(if read.is_some() { "The text" } else { "Paste a recipe" }, html! { p { "Title first, then one ingredient on each line, an empty line, then the steps. A JSON-LD recipe card may be pasted too." } }, form(frame, read)))
        },
    )
}

fn form(frame: &Frame, read: Option<&RecipeView>) -> Markup {
    let filled = &frame.filled;
    let ready = read.is_some_and(|read| read.not_yet.is_empty());
    html! {
        form.form id="paste" method="post" action="/recipe" autocomplete="off" {
            (frame.token())
            @if let Some(read) = read {
                @for question in &read.questions { (ask(frame, question)) }
                @for given in &read.answers {
                    (Field { name: &format!("answers.{}", given.key), label: &given.words, value: &given.answer, wrong: filled.wrong(&format!("answers.{}", given.key)), hint: &format!("answered: {}; empty asks again", given.answer_words), ..Field::default() }.text("text"))
                }
                @if !read.not_yet.is_empty() { p.lead { (read.not_yet) } }
            }
            (Field { name: "text", label: "The recipe", value: filled.value("text", ""), wrong: filled.wrong("text"), hint: "such as 2 1/4 cups cider vinegar, 5 %", required: true, ..Field::default() }.lines(14))
            div.row {
                button.first[!ready] type="submit" name="act" value="read" { "Show what was understood" }
                @if ready { button.first type="submit" name="act" value="keep" { "Keep it" } }
            }
        }
    }
}

/// A question with its few answers; a percent may be typed.
fn ask(frame: &Frame, question: &RecipeQuestion) -> Markup {
    let name = format!("answers.{}", question.key);
    let choices: Vec<(&str, &str)> = question
        .choices
        .iter()
        .map(|choice| (choice.key.as_str(), choice.title.as_str()))
        .collect();
    let about: Vec<String> = question.lines.iter().map(ToString::to_string).collect();
    let hint = format!("line {}", about.join(", "));
    let field = Field {
        name: &name,
        label: &question.words,
        hint: &hint,
        value: frame.filled.value(&name, ""),
        wrong: frame.filled.wrong(&name),
        ..Field::default()
    };
    if question.key == "vinegar" {
        field.suggest(&choices)
    } else {
        field.list(&choices, Some("not answered yet"))
    }
}

/// One kept recipe.
pub fn one(frame: &Frame, view: &RecipeView) -> Markup {
    whole(
        frame,
        &view.title,
        Section::Batch,
        html! {
            (opening(Opening {
                day: "Your own recipe",
                verge: html! {
                    @if !view.by.is_empty() { p { "By " (view.by) } }
                    @if !view.from.is_empty() { p.src { (view.from) } }
                    @if let Some(kept) = &view.kept { p.note { "Kept " (kept.on) ", version " (kept.version) " of " (kept.versions) } }
                },
                question: &view.title,
                answer: if view.state == "tested" { "A tested recipe within allowed changes." } else { "Refrigerator or freezer only." },
                lead: html! { @if !view.makes.is_empty() { "Makes " (view.makes) ". " } (view.summary) },
                actions: html! { a.btn href="/recipe" { "All your recipes" } },
            }))
            (spread("What goes in", html! {}, lines(view)))
            @if !view.steps.is_empty() { (spread("Steps, as written", html! {}, html! { ol.ruled { @for step in &view.steps { li { p { (step) } } } } })) }
            @if !view.answers.is_empty() { (spread("Answered", html! {}, html! { ul.dash { @for given in &view.answers { li { (given.words) " " (given.answer_words) } } } })) }
            (spread("State of testing", html! {}, state(view)))
        },
    )
}

fn state_mark(state: &str) -> Markup {
    let (mark, class, words) = match state {
        "tested" => (Mark::Tested, "tested", "tested"),
        "household-trial" => (Mark::Due, "due", "household trial"),
        _ => (Mark::Refused, "held", "unknown"),
    };
    html! { span.mark.state.(class) { (mark) span { (words) } } }
}

fn lines(view: &RecipeView) -> Markup {
    html! {
        ol.ruled { @for line in &view.lines { li { (line_of(line)) } } }
        @if !view.not_kept.is_empty() { p.note { "Of the card not kept: " (view.not_kept.join(", ")) "." } }
    }
}

fn line_of(line: &RecipeLine) -> Markup {
    let read: Vec<&str> = [&line.amount, &line.ingredient, &line.strength, &line.note]
        .into_iter()
        .map(String::as_str)
        .filter(|part| !part.is_empty())
        .collect();
    html! {
        h3 { (line.text) }
        @match line.state.as_str() {
            "heading" => p.note { "a heading" },
            "unreadable" => p { span.mark.state.held { (Mark::Refused) span { "not read; kept as written" } } },
            _ => {
                p { (fractions(&read.join(", "))) }
                p.loose {
                    @if line.role.is_empty() { span.mark.state.held { (Mark::Refused) span { "no role" } } }
                    @else { span { (line.role) } span.src { (line.source) } }
                    @if !line.asks.is_empty() { span.mark.state.due { (Mark::Due) span { "to be answered below" } } }
                }
            }
        }
        @for trouble in &line.troubles { p.note { strong { (trouble.cause) } " " (trouble.action) } }
    }
}

fn state(view: &RecipeView) -> Markup {
    html! {
        p { (state_mark(&view.state)) }
        p.lead { (view.state_words) }
        @if let Some(nearest) = &view.nearest {
            p.note { "Nearest tested recipe: " a.go href=(format!("/change?recipe={}", nearest.recipe)) { (nearest.title) } ", " (nearest.shared) " lines shared. " span.src { (nearest.source) } }
        }
        @if let Some(found) = &view.differences {
            @if view.state != "tested" {
                ul.dash {
                    @for edit in &found.edits { li { (fractions(&edit.words)) ": " (edit.answer) @for finding in &edit.findings { " " (fractions(&finding.text)) " " span.src { (finding.source) } } } }
                    @for finding in &found.whole { li { (fractions(&finding.text)) " " span.src { (finding.source) } } }
                }
            }
        }
        @if let Some(cold) = &view.cold { p.lead { (cold.fridge) } p.lead { (cold.freezer) } p.src { (cold.source) } }
    }
}
