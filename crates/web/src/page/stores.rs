//! Stores: what have we got, will it last, what first?

use super::{plan_tables, whole};
use crate::frame::Frame;
use crate::part::field::hidden;
use crate::part::table::{Row, figures, stacked, words};
use crate::part::{Mark, Opening, Place, Section, opening, spread};
use crate::picture::chest::{self, Layer, LayerLook};
use crate::picture::shelf::{self, Board, Group, JarLook, Tall};
use app::view::stores::{HoldingLine, PlaceView, StoresView};
use maud::{Markup, html};

/// Draws the page; `day` is today in words.
pub fn draw(frame: &Frame, view: &StoresView, day: &str) -> Markup {
    whole(
        frame,
        "Stores",
        Section::Stores,
        html! {
            (opening(Opening {
                day,
                verge: html! {},
                question: "What have we got, will it last, what first?",
                answer: &view.answer,
                lead: html! { (view.lead) },
                actions: html! { @if view.places.is_empty() { a.btn.first href="/counter" { "To the Counter" } } },
            }))
            @if !view.use_first.is_empty() {
                (spread("Use first", html! { p { "Oldest first; what has an eat-by before that. Take one with one tap, or open the line for more." } }, html! {
                    ol.ruled.holdings { @for line in view.use_first.iter().take(8) { (holding(frame, line, true)) } }
                }))
            }
            @for place in &view.places { (spread(&place.title, verge(view, place), one_place(frame, view, place))) }
            @if view.freezer.known && !view.places.iter().any(|place| place.key == "freezer") {
                (spread("Freezer", html! { p { (view.freezer.daily) } p.src { (view.freezer.source) } }, freezer(view)))
            }
            @if !view.needs.is_empty() { (spread("The winter's needs", html! {}, plan_tables::needs(&view.needs, false))) }
            @if !view.balance.is_empty() { (spread("Does it add up?", html! { p { "Every pound that came in is somewhere: the places of a crop sum to what came in." } }, balance(view))) }
        },
    )
}

fn verge(view: &StoresView, place: &PlaceView) -> Markup {
    html! {
        p { (Place::of(&place.key).tag(&place.total)) }
        @if place.key == "shelf" { p { "One jar drawn is one jar. Oldest left, in the fullest ink." } }
        @if place.key == "freezer" { p { (view.freezer.daily) } p.src { (view.freezer.source) } }
    }
}

/// A place's picture, where it has one, then its list.
fn one_place(frame: &Frame, view: &StoresView, place: &PlaceView) -> Markup {
    html! {
        @if place.key == "shelf" && !place.holdings.is_empty() { (boards(place)) }
        @if place.key == "freezer" && view.freezer.known { (freezer(view)) }
        ul.ruled.holdings { @for line in &place.holdings { (holding(frame, line, false)) } }
    }
}

/// The address of one holding's own page.
pub fn address(line: &HoldingLine) -> String {
    format!("/stores/{}/{}/{}", line.place, line.batch, line.size)
}

fn holding(frame: &Frame, line: &HoldingLine, quick: bool) -> Markup {
    html! {
        li {
            div {
                h3 { a.go href=(address(line)) { (line.product) ", " (line.count) " " (line.size_words) } }
                p.loose.note {
                    @if quick { (Place::of(&line.place).tag(Place::of(&line.place).word())) }
                    span { (line.age) }
                    @if !line.eat_by.is_empty() { span.mark.state.due { (Mark::Due) span { (line.eat_by) } } }
                    @if !line.held.is_empty() { span.mark.state.held { (Mark::Held) span { "held: " (line.held) } } }
                    @if !line.aside.is_empty() { span.mark.state.held { (Mark::Held) span { (line.aside) } } }
                    @if !line.held.is_empty() || !line.aside.is_empty() { a.btn href="/incident/disposal" { "Disposal card" } }
                }
            }
            @if quick && line.held.is_empty() && line.count > 0 {
                form autocomplete="off" method="post" action="/stores/take" {
                    (frame.token())
                    (hidden("batch", line.batch)) (hidden("size", &line.size)) (hidden("place", &line.place)) (hidden("count", "1")) (hidden("to", "eaten"))
                    button type="submit" { "Take one " span.unseen { (line.product) ", " (line.size_words) ", " (line.age) } }
                }
            }
        }
    }
}

/// Look of jars by their age.
fn look(line: &HoldingLine) -> JarLook {
    match (line.held.is_empty(), line.age_days) {
        (false, _) => JarLook::Held,
        (true, days) if days > 365 => JarLook::Oldest,
        (true, days) if days > 182 => JarLook::Older,
        _ => JarLook::Young,
    }
}

fn boards(place: &PlaceView) -> Markup {
    // One board for each product and size, oldest jars first, what is gone last.
    let mut boards: Vec<(&str, &str, &str, Vec<&HoldingLine>)> = Vec::new();
    for line in &place.holdings {
        match boards
            .iter_mut()
            .find(|board| board.0 == line.product && board.1 == line.size)
        {
            Some(board) => board.3.push(line),
            None => boards.push((&line.product, &line.size, &line.size_words, vec![line])),
        }
    }
    html! {
        (shelf::shapes())
        @for (product, size, size_words, lines) in &mut boards {
            (one_board(product, size, size_words, lines))
        }
        (shelf::key())
    }
}

fn one_board(product: &str, size: &str, size_words: &str, lines: &mut [&HoldingLine]) -> Markup {
    lines.sort_by_key(|line| (look(line) == JarLook::Held, -line.age_days));
    let mut groups: Vec<Group> = lines
        .iter()
        .map(|line| Group {
            count: line.count,
            look: look(line),
        })
        .collect();
    let gone: i64 = lines
        .iter()
        .map(|line| (line.made - line.count).max(0))
        .sum();
    groups.push(Group {
        count: gone,
        look: JarLook::Gone,
    });
    let held: i64 = lines
        .iter()
        .filter(|line| !line.held.is_empty())
        .map(|line| line.count)
        .sum();
    let standing: i64 = lines.iter().map(|line| line.count).sum::<i64>() - held;
    let say = if held > 0 {
        format!("{held} more on hold")
    } else {
        String::new()
    };
    shelf::board(&Board {
        name: product,
        detail: size_words,
        tall: Tall::of(size),
        groups,
        count: standing.to_string(),
        say: &say,
    })
}

fn freezer(view: &StoresView) -> Markup {
    let freezer = &view.freezer;
    let share = |litres: i64| litres as f64 / freezer.litres.max(1) as f64;
    let lines: Vec<&HoldingLine> = view
        .places
        .iter()
        .filter(|place| place.key == "freezer")
        .flat_map(|place| &place.holdings)
        .collect();
    let count: i64 = lines.iter().map(|line| line.count).sum::<i64>().max(1);
    let aged = |look: LayerLook| -> i64 {
        lines
            .iter()
            .filter(|line| match look {
                LayerLook::Oldest => line.age_days > 365,
                LayerLook::Older => (183..=365).contains(&line.age_days),
                LayerLook::Young => line.age_days < 183,
            })
            .map(|line| line.count)
            .sum()
    };
    // What is known by age fills its part; the rest of the used room was there before the records.
    let known = lines.iter().map(|line| line.count).sum::<i64>() > 0;
    let layers: Vec<Layer> = if known {
        [LayerLook::Oldest, LayerLook::Older, LayerLook::Young]
            .into_iter()
            .map(|look| Layer {
                share: share(freezer.used) * aged(look) as f64 / count as f64,
                look,
            })
            .collect()
    } else {
        vec![Layer {
            share: share(freezer.used),
            look: LayerLook::Young,
        }]
    };
    let room = format!("room for {} litres", freezer.free);
    html! {
        div.pair {
            (chest::draw(&layers, &room, &format!("The freezer: {} litres, {} in use, {} free.", freezer.litres, freezer.used, freezer.free)))
            dl.facts {
                div { dt { "In all" } dd { (freezer.litres) small { "litres" } } }
                div { dt { "In use" } dd { (freezer.used) small { "litres" } } }
                div { dt { "Free" } dd { (freezer.free) small { "litres" } } }
            }
        }
    }
}

fn balance(view: &StoresView) -> Markup {
    let rows = view
        .balance
        .iter()
        .map(|line| Row {
            cells: vec![
                html! { (line.crop) },
                html! { (line.came_in.us) " " span.note { (line.came_in.metric) } },
                html! {
                    (line.places.iter().map(|(place, weight)| format!("{place} {}", weight.us)).collect::<Vec<_>>().join(", "))
                    @if !line.warning.is_empty() { " " strong { (line.warning) } }
                },
                html! { (format!("{:.1} %", line.unaccounted_percent)) span.tell { " unaccounted" } },
                html! { span.tell { "adds up: " } @if line.zero { "yes" } @else { strong { "no" } } },
            ],
            this: !line.zero,
        })
        .collect();
    stacked(
        "The season, crop by crop",
        &[
            words("Crop"),
            figures("came in"),
            words("is or went"),
            figures("unaccounted"),
            words("adds up"),
        ],
        rows,
    )
}
