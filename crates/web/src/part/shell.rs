//! The shell of every page: head of the document, masthead, bottom bar, spreads, notices.

use super::mark::{Mark, sprite};
use crate::assets;
use maud::{DOCTYPE, Markup, html};

/// A page of the program, as the navigation knows it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Section {
    /// What is on the counter and how long will it keep?
    Counter,
    /// What becomes what, on which day?
    Plan,
    /// How exactly is this batch made?
    Batch,
    /// When does each step start?
    Day,
    /// What have we got, what first?
    Stores,
    /// How long, and at what pressure?
    Process,
    /// What is the house like?
    House,
    /// A page outside the navigation, such as a message.
    Outside,
}

impl Section {
    const DAILY: [Section; 5] = [
        Section::Counter,
        Section::Plan,
        Section::Batch,
        Section::Day,
        Section::Stores,
    ];
    const ASIDE: [Section; 2] = [Section::Process, Section::House];

    /// The page's address.
    pub fn address(self) -> &'static str {
        match self {
            Section::Counter | Section::Outside => "/counter",
            Section::Plan => "/plan",
            Section::Batch => "/batch",
            Section::Day => "/day",
            Section::Stores => "/stores",
            Section::Process => "/process",
            Section::House => "/house",
        }
    }

    fn word(self) -> &'static str {
        match self {
            Section::Counter => "Counter",
            Section::Plan => "Plan",
            Section::Batch => "Batch",
            Section::Day => "Kitchen day",
            Section::Stores => "Stores",
            Section::Process => "Process",
            Section::House => "House",
            Section::Outside => "",
        }
    }

    fn short(self) -> &'static str {
        if self == Section::Day {
            "Day"
        } else {
            self.word()
        }
    }

    fn mark(self) -> Mark {
        match self {
            Section::Counter | Section::Outside => Mark::Counter,
            Section::Plan => Mark::Plan,
            Section::Batch => Mark::Batch,
            Section::Day => Mark::Day,
            Section::Stores => Mark::Stores,
            Section::Process => Mark::Process,
            Section::House => Mark::House,
        }
    }

    /// Is it read at the stove and the sink, where nothing may be smaller than 16 px?
    fn in_kitchen(self) -> bool {
        matches!(self, Section::Batch | Section::Day)
    }
}

/// A page to be put into the shell.
pub struct Page<'a> {
    /// Title of the window.
    pub title: &'a str,
    /// Where it stands in the navigation.
    pub section: Section,
    /// House and elevation for the masthead, when known.
    pub house: Option<&'a str>,
    /// Everything inside `main`.
    pub body: Markup,
}

/// The whole document.
pub fn page(page: Page<'_>) -> Markup {
    let here = |section: Section| (section == page.section).then_some("page");
    let body = html! {
        header.mast {
            a.brand href="/counter" { "Stillroom" }
            nav.pages aria-label="Pages" {
                @for section in Section::DAILY {
                    a href=(section.address()) aria-current=[here(section)] { (section.word()) }
                }
            }
            nav.aside aria-label="Look up and set up" {
                @for section in Section::ASIDE {
                    a href=(section.address()) aria-current=[here(section)] { (section.word()) }
                }
            }
            @if let Some(house) = page.house { span.where { (house) } }
        }
        main id="page" { (page.body) }
        nav.foot aria-label="Pages, at the thumb" {
            @for section in Section::DAILY {
                a href=(section.address()) aria-current=[here(section)] { (section.mark()) span { (section.short()) } }
            }
        }
    };
    html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width,initial-scale=1";
                meta name="color-scheme" content="light dark";
                title { (page.title) " · Stillroom" }
                link rel="stylesheet" href=(assets::address("style.css"));
                link rel="icon" type="image/svg+xml" href=(assets::address("mark.svg"));
                script defer src=(assets::address("stillroom.js")) {}
            }
            body class=[page.section.in_kitchen().then_some("kitchen")] {
                a.skip href="#page" { "To the page" }
                (sprite(&body.0))
                (body)
            }
        }
    }
}

/// The first spread of a page: the question small and slanted, the answer large.
pub struct Opening<'a> {
    /// Date or span in the verge.
    pub day: &'a str,
    /// Notes in the verge.
    pub verge: Markup,
    /// The question the page answers.
    pub question: &'a str,
    /// The answer as a sentence a person could say.
    pub answer: &'a str,
    /// One line below it.
    pub lead: Markup,
    /// At most two buttons, the first one filled; may be empty.
    pub actions: Markup,
}

/// Lays an opening out.
pub fn opening(opening: Opening<'_>) -> Markup {
    let Opening {
        day,
        verge,
        question,
        answer,
        lead,
        actions,
    } = opening;
    html! {
        section.spread.opening {
            p.day { (day) }
            div.sheet {
                h1 { (question) }
                p.say { (answer) }
                @if !lead.0.is_empty() { p.lead { (lead) } }
                @if !actions.0.is_empty() { div.row { (actions) } }
            }
            @if !verge.0.is_empty() { div.verge { (verge) } }
        }
    }
}

/// A spread: its heading and notes in the verge, its matter on the sheet.
pub fn spread(heading: &str, verge: Markup, sheet: Markup) -> Markup {
    html! {
        section.spread {
            h2 { (heading) }
            div.sheet { (sheet) }
            @if !verge.0.is_empty() { div.verge { (verge) } }
        }
    }
}

/// A quiet message that something was done.
pub fn notice(words: &str) -> Markup {
    html! { div.notice role="status" { p { (words) } } }
}

/// A message that something was not done: what is wrong, and what to do.
pub fn refusal_notice(wrong: &str, instead: &str) -> Markup {
    html! {
        div.notice.bad role="alert" {
            p { (wrong) }
            @if !instead.is_empty() { p { (instead) } }
        }
    }
}
