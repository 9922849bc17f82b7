//! Drawn marks. A mark never stands alone: its word is always beside it.
//!
//! The drawings live once in a sprite at the head of the page; each use is one short reference.

use super::place::Place;
use maud::{Markup, PreEscaped, html};

/// Something drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mark {
    /// A place.
    At(Place),
    /// The Counter page: a basket.
    Counter,
    /// The Plan page: one line that becomes several.
    Plan,
    /// The Batch page: a pot.
    Batch,
    /// The Kitchen day page: lanes and the now-line.
    Day,
    /// The Stores page: two boards with jars.
    Stores,
    /// The Process page: a gauge.
    Process,
    /// The House page.
    House,
    /// Due: a flagged post.
    Due,
    /// Can wait: a span between two posts.
    Wait,
    /// Tested: a scalloped seal.
    Tested,
    /// Household trial: a dashed box.
    Trial,
    /// Held: two bars.
    Held,
    /// Refused: a jar struck twice.
    Refused,
}

const JAR: &str = r#"<path d="M8 3h8v3H8z"/><path d="M7.5 6h9c0 1.6 1.5 2 1.5 4v9a2 2 0 0 1-2 2H8a2 2 0 0 1-2-2v-9c0-2 1.5-2.4 1.5-4z"/>"#;

impl Mark {
    const PAGES_AND_STATES: [Mark; 13] = [
        Mark::Counter,
        Mark::Plan,
        Mark::Batch,
        Mark::Day,
        Mark::Stores,
        Mark::Process,
        Mark::House,
        Mark::Due,
        Mark::Wait,
        Mark::Tested,
        Mark::Trial,
        Mark::Held,
        Mark::Refused,
    ];

    fn id(self) -> String {
        match self {
            Mark::At(place) => format!("m-{}", place.key()),
            Mark::Counter => "m-page-counter".into(),
            other => format!("m-{}", format!("{other:?}").to_lowercase()),
        }
    }

    /// The pen strokes on a square of 24.
    fn strokes(self) -> String {
        let path = |d: &str| format!("<path d=\"{d}\"/>");
        match self {
            Mark::Counter | Mark::At(Place::Counter) => path("M3 10h18l-2.2 9.5H5.2zM7 10l2.6-5.5M17 10l-2.6-5.5M4.2 14.7h15.6M12 10v9.5"),
            Mark::Plan => path("M2.5 12H21M8 12c5 0 4-6.5 10-6.5h3M8 12c5 0 4 6.5 10 6.5h3"),
            Mark::Batch | Mark::At(Place::Pot) => path("M5 10.5h14V18a2.5 2.5 0 0 1-2.5 2.5h-9A2.5 2.5 0 0 1 5 18zM2.5 13H5M19 13h2.5M4 10.5h16M10 7.5h4M12 7.5v3"),
            Mark::Day => path("M2.5 6H11M7 12h14.5M3.5 18H16M14 2.5v19"),
            Mark::Stores => path("M2.5 20.5h19M2.5 10.5h19M5 10.5v-5h3.5v5M11 10.5V7h3v3.5M16.5 10.5v-6H19v6M5.5 20.5V16h3v4.5M11 20.5v-6h3.5v6M17 20.5v-4h2.5v4"),
            Mark::Process => path("M20.5 12a8.5 8.5 0 1 1-17 0 8.5 8.5 0 0 1 17 0zM12 12l3.7-4M12 3.5V6M3.5 12H6M18 12h2.5M9.5 16.5h5"),
            Mark::House => path("M2.5 11.5L12 3.5l9.5 8M5.5 9.5v11h13v-11M10 20.5V15h4v5.5"),
            Mark::Due => path("M6 2.5v19M6 4h12l-3.5 4 3.5 4H6"),
            Mark::Wait => path("M4 7v10M20 7v10M4 12h16"),
            Mark::Tested => path("M12 2.5a3 3 0 0 0 4.1 1.7 3 3 0 0 0 3.7 3.7A3 3 0 0 0 21.5 12a3 3 0 0 0-1.7 4.1 3 3 0 0 0-3.7 3.7A3 3 0 0 0 12 21.5a3 3 0 0 0-4.1-1.7 3 3 0 0 0-3.7-3.7A3 3 0 0 0 2.5 12a3 3 0 0 0 1.7-4.1 3 3 0 0 0 3.7-3.7A3 3 0 0 0 12 2.5zM8 12.2l2.8 2.8 5.2-6"),
            Mark::Trial => r#"<path stroke-dasharray="3 2.3" d="M3.5 3.5h17v17h-17z"/><path d="M9.5 9.5a2.6 2.6 0 1 1 3.7 2.400c-.9.5-1.2 1-1.2 2M12 17v.1"/>"#.into(),
            Mark::Held => path("M8.5 5v14M15.5 5v14"),
            Mark::Refused => format!("{JAR}{}", path("M3 4l18 17M21 4L3 21")),
            Mark::At(Place::Shelf) => format!("{JAR}{}", path("M6 12.5h12")),
            Mark::At(Place::Freezer) => path("M3.5 8.5h17v12h-17zM3.5 8.5l1.7-4h13.6l1.7 4M12 11v7M9 12.7l6 3.6M15 12.7l-6 3.6"),
            Mark::At(Place::Fridge) => path("M6 2.5h12v19H6zM6 9.5h12M9 5.5v1.7M9 12.5v3.5"),
            Mark::At(Place::ColdRoom) => path("M4 20.5V12a8 8 0 0 1 16 0v8.5M8.5 20.5V13a3.5 3.5 0 0 1 7 0v7.5M2.5 20.5h19"),
            Mark::At(Place::Crock) => path("M6 8h12v9a4 4 0 0 1-4 4h-4a4 4 0 0 1-4-4zM4.5 8h15M6 11H4.5a1.7 1.7 0 0 0 0 3.5H6M18 11h1.5a1.7 1.7 0 0 1 0 3.5H18M8.5 5h7"),
            Mark::At(Place::Dryer) => path("M4 3.5v17M20 3.5v17M4 7.5h16M4 13h16M4 18.5h16M7.5 10.2h2M12.5 10.2h3.5M8 15.7h3M14 15.7h2"),
            Mark::At(Place::Eaten) => r#"<circle cx="12" cy="12" r="9"/><circle cx="12" cy="12" r="5"/>"#.into(),
            Mark::At(Place::Given) => path("M4 9.5h16v11H4zM12 9.5v11M12 9.5C8.5 9.5 7 8.3 7 6.5 7 4 11.5 3.5 12 9.5c.5-6 5-5.5 5-3 0 1.8-1.5 3-5 3z"),
            Mark::At(Place::Animals) => path("M3 8.5l3-1.2V5.5a2.3 2.3 0 0 1 4.4-.8c.8 2.3.6 4 2.6 5 2.4 1 5-.7 7.5-4.2.9 7.5-2 11.5-7.7 11.5C8 17 5 13.5 6 7.3M11 17v4M14.5 16.8V21M9.5 21h3M13 21h3"),
            Mark::At(Place::Compost) => path("M2.5 20h19M4 20c2-7.5 4.5-13 8-13s6 5.5 8 13M9 15.5h2.5M13.5 11.5l1.5 1.5M14 17h2M10.5 11.5l.7-1.5"),
            Mark::At(Place::Seed) => path("M12 21.5c-5.5-2.5-7-7.5-5-12.5 1-2.7 3-5 5-6.5 2 1.5 4 3.8 5 6.5 2 5 .5 10-5 12.5zM12 8v9"),
            Mark::At(Place::Garden) => path("M12 20.5V11M12 14.5c-4.2 0-7-2.5-7-6.5 4.5 0 7 2.5 7 6.5zM12 11.5c0-4.2 2.8-7 7.5-7 0 4.5-3 7-7.5 7zM5.5 20.5h13"),
            Mark::At(Place::Trimmings) => path("M4.5 6.5c6-2.5 14 0 14 6s-6.5 8-10 6.2c-3.3-1.8-2-7 2-7s4 4 1.4 4.5"),
            Mark::At(Place::CookedOff) => path("M7 20.5c-2.5-3 2-5 0-8.5s2-5 0-8.5M12.5 20.5c-2.5-3 2-5 0-8.5s2-5 0-8.5M18 20.5c-2.5-3 2-5 0-8.5s2-5 0-8.5"),
            Mark::At(Place::Discarded) => format!("{JAR}{}", path("M3 4l18 17")),
            Mark::At(Place::Bought) => path("M5.5 8.5h13l1.5 12H4zM8.5 8.5V7a3.5 3.5 0 0 1 7 0v1.5"),
            Mark::At(Place::Unaccounted) => r#"<circle cx="12" cy="12" r="9" stroke-dasharray="3.5 2.5"/><path d="M9.5 9.7a2.6 2.6 0 1 1 3.7 2.400c-.9.5-1.2 1-1.2 2M12 17v.1"/>"#.into(),
        }
    }
}

impl maud::Render for Mark {
    fn render(&self) -> Markup {
        html! {
            svg.mk viewBox="0 0 24 24" aria-hidden="true" { use href=(format!("#{}", self.id())) {} }
        }
    }
}

/// The drawings and hatchings that a page uses, once. `page` is everything on it.
pub fn sprite(page: &str) -> Markup {
    let all = Mark::PAGES_AND_STATES
        .into_iter()
        .chain(Place::ALL.into_iter().map(Mark::At));
    html! {
        svg.ink aria-hidden="true" {
            @for mark in all.filter(|mark| page.contains(&format!("\"#{}\"", mark.id()))) {
                symbol id=(mark.id()) viewBox="0 0 24 24" { (PreEscaped(mark.strokes())) }
            }
            (crate::picture::hatching::defs(page))
        }
    }
}
