//! A household's own recipe as text.

use super::{change, heading, pad};
use app::view::recipe::{RecipeLine, RecipeView, RecipesView};

/// Line by line what was understood, what is asked, what was not read.
pub fn recipe(view: &RecipeView) -> String {
    let mut out = String::new();
    heading(
        &mut out,
        if view.title.is_empty() {
            "A recipe without a title"
        } else {
            &view.title
        },
    );
    for (word, text) in [
        ("By", &view.by),
        ("From", &view.from),
        ("Makes", &view.makes),
    ] {
        if !text.is_empty() {
            out.push_str(&format!("{word}: {text}\n"));
        }
    }
    match &view.kept {
        Some(kept) => out.push_str(&format!(
            "Kept as {} {} (entry {}), version {} of {}.\n",
            view.key, kept.on, kept.entry, kept.version, kept.versions
        )),
        None => out.push_str("A dry run: nothing is written.\n"),
    }
    out.push_str(&format!("{}\n\n", view.summary));
    for line in &view.lines {
        one_line(&mut out, line);
    }
    if !view.steps.is_empty() {
        out.push_str("\nSteps, as written\n");
        for (index, step) in view.steps.iter().enumerate() {
            out.push_str(&format!("  {}. {step}\n", index + 1));
        }
    }
    if !view.not_kept.is_empty() {
        out.push_str(&format!(
            "\nOf the card not kept: {}.\n",
            view.not_kept.join(", ")
        ));
    }
    questions(&mut out, view);
    for answer in &view.answers {
        out.push_str(&format!("{} {}.\n", answer.words, answer.answer_words));
    }
    change::state(
        &mut out,
        &view.state,
        &view.state_words,
        view.nearest.as_ref(),
    );
    if let Some(found) = &view.differences {
        change::answer(&mut out, found);
    }
    change::cold(&mut out, view.cold.as_ref());
    out
}

fn one_line(out: &mut String, line: &RecipeLine) {
    let state = match line.state.as_str() {
        "understood" | "heading" => "",
        "asked" => "asked",
        "partly" => "in part",
        _ => "NOT READ",
    };
    out.push_str(&format!(
        "{:>3}  {}  {}\n",
        line.number,
        pad(state, 8),
        line.text
    ));
    if line.state == "heading" {
        return;
    }
    let mut parts: Vec<String> = Vec::new();
    for part in [&line.amount, &line.ingredient, &line.strength, &line.note] {
        if !part.is_empty() {
            parts.push(part.clone());
        }
    }
    if line.state != "unreadable" {
        parts.push(if line.role.is_empty() {
            "no role".to_owned()
        } else {
            format!("{} ({})", line.role, line.source)
        });
        out.push_str(&format!("               {}\n", parts.join(" | ")));
    }
    for trouble in &line.troubles {
        out.push_str(&format!(
            "               ! {} {}\n",
            trouble.cause, trouble.action
        ));
    }
    if !line.asks.is_empty() {
        out.push_str(&format!("               ? {}\n", line.asks.join(", ")));
    }
}

fn questions(out: &mut String, view: &RecipeView) {
    if view.questions.is_empty() {
        out.push('\n');
        return;
    }
    out.push_str("\nAsked once for the whole recipe\n");
    for question in &view.questions {
        let lines: Vec<String> = question.lines.iter().map(ToString::to_string).collect();
        out.push_str(&format!(
            "  {} (line {})\n",
            question.words,
            lines.join(", ")
        ));
        for choice in &question.choices {
            out.push_str(&format!(
                "    {}{}\n",
                pad(&format!("--answer {}={}", question.key, choice.key), 32),
                choice.title
            ));
        }
    }
}

/// The list.
pub fn household_recipes(view: &RecipesView) -> String {
    if view.recipes.is_empty() {
        return "No recipe of your own is kept yet: `stillroom recipe read FILE` shows what would be understood, `recipe keep FILE` keeps it.\n".to_owned();
    }
    let mut out = String::new();
    heading(&mut out, "Your own recipes");
    for line in &view.recipes {
        out.push_str(&format!(
            "{}  {}\n    {}; {} ({}); kept {}{}\n",
            line.key,
            line.title,
            line.lines,
            line.state,
            line.state_words,
            line.on,
            if line.versions > 1 {
                format!(", {} versions", line.versions)
            } else {
                String::new()
            }
        ));
    }
    out
}
