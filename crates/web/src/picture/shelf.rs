//! The shelf: one jar drawn is one jar. Quarts stand taller than pints; age is fullness of ink;
//! held jars are slanted, eaten ones dashed.

use crate::part::Place;
use maud::{Markup, html};

/// How tall a jar is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tall {
    /// Half-gallon.
    HalfGallon,
    /// Quart, litre, pint and a half.
    Quart,
    /// Pint, half-litre.
    Pint,
    /// Half-pint, quarter-litre.
    HalfPint,
}

impl Tall {
    /// Height of a container size by its key; a size of no known kind is drawn as a pint.
    pub fn of(size: &str) -> Tall {
        match size {
            "half-gallon" => Tall::HalfGallon,
            "quart" | "litre-1" | "litre" | "pint-and-half" => Tall::Quart,
            "half-pint" | "ml-250" | "250-ml" => Tall::HalfPint,
            _ => Tall::Pint,
        }
    }

    fn class(self) -> &'static str {
        match self {
            Tall::HalfGallon => "jar xl",
            Tall::Quart => "jar",
            Tall::Pint => "jar s",
            Tall::HalfPint => "jar xs",
        }
    }
}

/// How a group of equal jars is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum JarLook {
    /// This season's.
    Young,
    /// Over half a year old.
    Older,
    /// Over a year old: open first.
    Oldest,
    /// On hold: not to be eaten.
    Held,
    /// Eaten or given: an empty outline.
    Gone,
}

/// Equal jars side by side.
#[derive(Debug, Clone)]
pub struct Group {
    /// How many.
    pub count: i64,
    /// Their look.
    pub look: JarLook,
}

/// One board of the shelf.
#[derive(Debug, Clone)]
pub struct Board<'a> {
    /// Product.
    pub name: &'a str,
    /// Below the name: size.
    pub detail: &'a str,
    /// Height of the jars.
    pub tall: Tall,
    /// Oldest first.
    pub groups: Vec<Group>,
    /// The count that stands, large.
    pub count: String,
    /// Below the count.
    pub say: &'a str,
}

/// At most this many jars are drawn on one board; the rest is said in words.
const DRAWN: i64 = 120;

/// The jar shapes, once for each page that draws a shelf.
pub fn shapes() -> Markup {
    html! {
        svg.ink aria-hidden="true" {
            symbol #jar viewBox="0 0 20 34" preserveAspectRatio="none" {
                path.lid d="M5 1h10v4H5z" {}
                path d="M4 6h12c2 2 3 4 3 6v18c0 2-1 3-3 3H4c-2 0-3-1-3-3V12c0-2 1-4 3-6z" {}
            }
        }
    }
}

/// One board with its jars.
pub fn board(board: &Board<'_>) -> Markup {
    let all = board.groups.iter().flat_map(|group| {
        std::iter::repeat_n(group.look, usize::try_from(group.count).unwrap_or(0))
    });
    let more = board
        .groups
        .iter()
        .map(|group| group.count.max(0))
        .sum::<i64>()
        > DRAWN;
    html! {
        div.board {
            div { (board.name) small { (board.detail) } }
            div.jars.(Place::Shelf.ink()) role="img" aria-label=(says(board)) {
                @for look in all.take(DRAWN as usize) { (one(board.tall, look)) }
                @if more { span.note { "and more" } }
            }
            div.ct { b { (board.count) } @if !board.say.is_empty() { small { (board.say) } } }
        }
    }
}

fn one(tall: Tall, look: JarLook) -> Markup {
    let (extra, fill) = match look {
        JarLook::Young => ("", "url(#h-young)"),
        JarLook::Older => ("", "url(#h-dense)"),
        JarLook::Oldest => ("", "currentColor"),
        JarLook::Held => (" heldj", "url(#h-held)"),
        JarLook::Gone => (" gone", "none"),
    };
    html! { svg class=(format!("{}{extra}", tall.class())) { use href="#jar" fill=(fill) {} } }
}

fn says(board: &Board<'_>) -> String {
    let of = |look: JarLook| {
        board
            .groups
            .iter()
            .filter(|group| group.look == look)
            .map(|group| group.count.max(0))
            .sum::<i64>()
    };
    let standing = of(JarLook::Young) + of(JarLook::Older) + of(JarLook::Oldest);
    let mut text = format!("{}, {}: {standing} standing", board.name, board.detail);
    for (look, words) in [
        (JarLook::Oldest, "over a year old"),
        (JarLook::Older, "over half a year old"),
        (JarLook::Held, "on hold"),
        (JarLook::Gone, "gone"),
    ] {
        let count = of(look);
        if count > 0 {
            text.push_str(&format!(", {count} {words}"));
        }
    }
    text.push('.');
    text
}

/// What the looks mean.
pub fn key() -> Markup {
    html! {
        ul.key.(Place::Shelf.ink()) aria-label="Looks of the jars" {
            li { (one(Tall::Pint, JarLook::Oldest)) "over a year, open next" }
            li { (one(Tall::Pint, JarLook::Older)) "over half a year" }
            li { (one(Tall::Pint, JarLook::Young)) "newer" }
            li { (one(Tall::Pint, JarLook::Held)) "held, do not eat" }
            li { (one(Tall::Pint, JarLook::Gone)) "gone" }
        }
    }
}
