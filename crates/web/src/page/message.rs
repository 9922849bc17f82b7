//! A page that only says what went wrong and where to go on.

use super::whole;
use crate::frame::Frame;
use crate::part::{Section, refusal_notice};
use maud::{Markup, html};

/// Draws it.
pub fn draw(frame: &Frame, cause: &str, action: &str) -> Markup {
    whole(
        frame,
        "Not done",
        Section::Outside,
        html! {
            section.spread.opening {
                p.day { "Not done" }
                div.sheet {
                    h1 { "What went wrong?" }
                    (refusal_notice(cause, action))
                    div.row { a.btn.first href="/counter" { "To the Counter" } a.btn href="/process" { "Look a process up" } }
                }
            }
        },
    )
}
