//! A batch that was asked for and is refused before it could be drawn up: as large as a permit.

use super::batch_list::{Offers, try_form};
use super::whole;
use crate::frame::Frame;
use crate::part::plate::{self, RefusalPlate};
use crate::part::{Opening, Section, opening, spread};
use app::error::AppError;
use maud::{Markup, html};

/// Draws the refusal and the form to ask otherwise.
pub fn draw(frame: &Frame, offers: &Offers<'_>, refused: &AppError) -> Markup {
    let words = |choices: &[app::view::Choice], name: &str| {
        let key = frame.filled.value(name, "").to_owned();
        choices
            .iter()
            .find(|choice| choice.key == key)
            .map_or(key, |choice| choice.title.clone())
    };
    let (recipe, jar) = (words(offers.recipes, "recipe"), words(offers.jars, "jar"));
    whole(
        frame,
        &recipe,
        Section::Batch,
        html! {
            (opening(Opening {
                day: "Tried out",
                verge: html! { p { "Nothing was written." } },
                question: "How exactly is this batch made?",
                answer: &format!("{recipe}: not as asked."),
                lead: html! {},
                actions: html! { a.btn href="/batch" { "All batches" } },
            }))
            (spread("The verdict", html! { p { "A refusal is as large as a permit." } }, plate::refusal(&RefusalPlate {
                asked: &recipe,
                with: &jar,
                headline: "Refused. Not like this.",
                reason: &refused.cause,
                instead: if refused.action.is_empty() { vec![] } else { vec![refused.action.as_str()] },
                foot: vec![("Not known", vec!["anything published after the tables were read; your extension service can be asked"])],
            })))
            (spread("Try it otherwise", html! { p { "This writes nothing." } }, try_form(frame, offers)))
        },
    )
}
