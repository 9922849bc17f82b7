//! The blanks of a card as text, in their order.

use super::{heading, pad};
use app::view::enter::{AskKind, EnterAsk, EnterView};

/// The open blanks, each with the name that `--blank` takes.
pub fn card_to_enter(view: &EnterView) -> String {
    let mut out = String::new();
    heading(
        &mut out,
        &format!("{} · batch {} · {}", view.code, view.batch, view.title),
    );
    if view.parts.is_empty() {
        out.push_str("Everything of this card is in the record.\n");
    }
    for part in &view.parts {
        out.push_str(&format!("\n{}\n", part.title));
        for ask in &part.asks {
            let option = match ask.kind {
                AskKind::Tick => format!("--tick {}", ask.name),
                _ => format!("--blank {}=", ask.name),
            };
            out.push_str(&format!("  {} {}\n", pad(&option, 30), blank_words(ask)));
        }
    }
    out
}

/// What a blank asks, with what helps to answer.
pub fn blank_words(ask: &EnterAsk) -> String {
    let hint = match (ask.kind, ask.hint.as_str()) {
        (AskKind::Tick, "") => "yes or no",
        (AskKind::Day, "" | "day") => "such as 2026-08-27",
        (AskKind::Time, "") => "such as 14:05",
        (_, hint) => hint,
    };
    if hint.is_empty() {
        ask.label.clone()
    } else {
        format!("{} ({hint})", ask.label)
    }
}
