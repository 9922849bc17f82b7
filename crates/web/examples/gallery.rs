//! Prints one page that shows every piece and picture once, with invented data, so that a
//! developer can look at them: `cargo run -p web --example gallery > gallery.html`.

use maud::{Markup, html};
use web::part::field::{Field, send};
use web::part::plate::{self, ProcessPlate, RefusalPlate};
use web::part::table::{Row, figures, table, words};
use web::part::{
    Mark, Opening, Page, Place, Section, amount, notice, opening, page, refusal_notice, spread,
};
use web::picture::canner::Vessel;
use web::picture::chest::{self, Layer, LayerLook};
use web::picture::flow::{self, Flow, Node, PlaceNode};
use web::picture::jar::{self, Filling, Jar};
use web::picture::lanes::{self, Block, Chart, Lane};
use web::picture::shelf::{self, Board, Group, JarLook, Tall};
use web::picture::strip::{self, Axis, Bar, Look};

fn main() {
    let section = match std::env::args().nth(1).as_deref() {
        Some("kitchen") => Section::Day,
        _ => Section::Outside,
    };
    let sheet = web::assets::style_sheet();
    let html = page_of_pieces(section);
    let start = html.find("<link rel=\"stylesheet\"").unwrap_or(0);
    let end = html[start..].find('>').map_or(start, |at| start + at + 1);
    println!("{}<style>{sheet}</style>{}", &html[..start], &html[end..]);
}

/// All pieces on one page of a section.
pub fn page_of_pieces(section: Section) -> String {
    let body = html! {
        (opening(Opening {
            day: "Thursday 3 September",
            verge: html! { p { "Every figure here is invented." } },
            question: "What does every piece look like?",
            answer: "Corn today, plums tomorrow. The other sixty pounds can wait.",
            lead: html! { "Seven lots, " (amount("112 lb", "50.8 kg")) " in all." },
            actions: html! { a.btn.first href="#" { "Plan the week" } a.btn href="#" { "Weigh in" } },
        }))
        (spread("By deadline", html! { p { "A bar runs from now to the post, the first day the lot may turn." } }, strips()))
        (spread("The flow", html! { p { "Width is weight." } }, flow::draw(&example_flow(), &weigh)))
        (spread("The day", html! { p { "Numbers are those of the steps." } }, html! { (lanes::draw(&example_day(Some(625)))) (lanes::key(true)) }))
        (spread("Plates", html! {}, plates()))
        (spread("Jar", html! {}, html! { div.pair { (a_jar()) (another_jar()) } }))
        (spread("Shelf", html! {}, shelves()))
        (spread("Freezer", html! {}, html! { div.pair { (chest::draw(&[Layer { share: 0.04, look: LayerLook::Oldest }, Layer { share: 0.2, look: LayerLook::Older }, Layer { share: 0.5, look: LayerLook::Young }], "room for 26 l", "The freezer: 100 litres, 74 used.")) p { "Beside it the list." } } }))
        (spread("Marks", html! {}, marks()))
        (spread("Fields", html! { p { "Label, control, error, hint." } }, form()))
        (spread("Table", html! {}, table("Needs of the winter", &[words("Need"), figures("wanted"), figures("stands"), figures("short")], vec![
            Row { cells: vec![html! { "Plum halves" }, html! { "14 quarts" }, html! { "2" }, html! { "5" }], this: false },
            Row { cells: vec![html! { "Snap beans" }, html! { "36 pints" }, html! { "11" }, html! { "16" }], this: true },
        ])))
        (spread("Notices", html! {}, html! { (notice("Lot 12 is on the counter.")) (refusal_notice("A weight is above zero; you typed -3 lb.", "Type it like 24 lb or 10.5 kg.")) }))
    };
    page(Page {
        title: "Gallery",
        section,
        house: Some("Millrace, 1,210 ft (369 m)"),
        body,
    })
    .into_string()
}

fn weigh(grams: i64) -> String {
    format!(
        "{:.1} lb ({:.1} kg)",
        grams as f64 / 453.59237,
        grams as f64 / 1000.0
    )
}

fn strips() -> Markup {
    let axis = Axis {
        days: [
            "Thu 3", "Fri 4", "Sat 5", "Sun 6", "Mon 7", "Tue 8", "Wed 9", "Thu 10",
        ]
        .map(String::from)
        .to_vec(),
        now: 0.4,
    };
    let lot = |rank: usize,
               name: &str,
               look,
               place: Place,
               ready,
               early,
               late,
               state: &str,
               keeps: &str| {
        let bar = Bar {
            look,
            place,
            ready,
            early,
            late,
            look_again: (look != Look::Due).then_some(early - 1),
            says: format!("{name}: {keeps}"),
        };
        html! {
            li.calm[look != Look::Due] {
                span.rank { (rank) }
                div.lot { h3 { (name) } p { (amount("24 lb", "10.9 kg")) } p.note { (place.tag(&format!("{}, 70 °F (21 °C)", place.word()))) } }
                div.run {
                    (strip::bar(&axis, &bar))
                    p.loose { span.mark.state.due[look == Look::Due] { (if look == Look::Due { Mark::Due } else { Mark::Wait }) (state) } span.note { (keeps) } }
                }
            }
        }
    };
    html! {
        (strip::axis(&axis))
        ol.ruled.lots {
            (lot(1, "Sweet corn, in husk", Look::Due, Place::Counter, 0, 0, 1, "due today", "keeps until about tonight to Friday"))
            (lot(2, "Plums, ripe", Look::Due, Place::Counter, 0, 1, 3, "due tomorrow", "keeps until about Friday to Sunday"))
            (lot(3, "Tomatoes, pink", Look::Ripening, Place::Counter, 3, 5, 6, "not yet", "red about Sunday"))
            (lot(4, "Cucumbers", Look::Keeps, Place::ColdRoom, 0, 4, 7, "can wait", "keeps until about Monday to Thursday"))
            (lot(5, "Beets, topped", Look::Keeps, Place::ColdRoom, 0, 30, 60, "can wait", "weeks"))
        }
        (strip::key(&[Place::Counter, Place::ColdRoom], true))
    }
}

fn example_flow() -> Flow {
    let node = |title: &str, detail: &str, day: &str| Node {
        title: title.into(),
        detail: detail.into(),
        day: day.into(),
    };
    let place = |place, detail: &str| PlaceNode {
        place,
        detail: detail.into(),
    };
    Flow {
        lots: vec![
            node("Tomatoes, paste: red", "46 lb, 20.9 kg", ""),
            node("Sweet corn", "38 lb, 17.2 kg", ""),
            node("Cucumbers", "11 lb, 5 kg", ""),
            node("Peppers, sweet", "9 lb, 4.1 kg", ""),
            node("Apples", "30 lb, 13.6 kg", ""),
        ],
        batches: vec![
            node("Corn kernels", "15 pint bags", "Thursday 3"),
            node("Fresh for the table", "8 ears", "Thursday 3"),
            node("Tomato juice", "14 quarts", "Friday 4"),
            node("Quick fresh-pack dill pickles", "8 pints", "Friday 4"),
            node("Peppers, frozen", "6 bags", "Friday 4"),
            node("Applesauce", "7 quarts", "Saturday 5"),
            node("Apple rings, dried", "2 trays", "Saturday 5"),
        ],
        places: vec![
            place(Place::Shelf, "80 lb, 36 kg"),
            place(Place::Freezer, "22 lb, 10 kg"),
            place(Place::Eaten, "4 lb, 1.8 kg"),
            place(Place::Compost, "20 lb, 9 kg"),
            place(Place::Animals, "6 lb"),
            place(Place::Dryer, "9 lb"),
            place(Place::Counter, "8 lb"),
        ],
        into: vec![
            (1, 0, 15_400),
            (1, 1, 1_800),
            (0, 2, 18_000),
            (2, 3, 4_900),
            (3, 4, 3_000),
            (3, 3, 400),
            (4, 5, 9_500),
            (4, 6, 4_000),
        ],
        out: vec![
            (0, 1, 6_800),
            (0, 3, 7_000),
            (0, 4, 1_600),
            (1, 2, 1_800),
            (2, 0, 15_500),
            (2, 3, 2_500),
            (3, 0, 5_300),
            (4, 1, 2_800),
            (4, 4, 200),
            (5, 0, 8_000),
            (5, 3, 1_500),
            (6, 5, 4_000),
        ],
        past: vec![(0, 6, 2_900), (3, 3, 700)],
    }
}

fn example_day(now: Option<i64>) -> Chart {
    let block = |from: i64, to: i64, title: &str, number: usize| Block {
        from,
        to,
        title: title.into(),
        number: Some(number),
        alone: false,
        hold: false,
    };
    let lane = |name: &str, detail: &str, blocks: Vec<Block>| Lane {
        name: name.into(),
        detail: detail.into(),
        blocks,
    };
    Chart {
        from: 480,
        to: 820,
        now,
        lanes: vec![
            lane(
                "Hands",
                "two people",
                vec![
                    block(480, 525, "wash and core", 1),
                    block(490, 520, "husk corn", 2),
                    block(560, 620, "mill", 4),
                    block(620, 632, "fill, lid", 6),
                    block(700, 710, "lift", 9),
                    block(720, 780, "cut kernels", 10),
                ],
            ),
            lane(
                "Boiling-water canner",
                "7 quarts a load",
                vec![
                    Block {
                        hold: true,
                        ..block(590, 632, "heats", 5)
                    },
                    Block {
                        alone: true,
                        ..block(632, 700, "process load 1", 7)
                    },
                    block(705, 770, "process load 2", 11),
                ],
            ),
            lane(
                "Burner 1",
                "",
                vec![
                    block(525, 560, "simmer", 3),
                    Block {
                        alone: true,
                        ..block(632, 700, "process load 1", 7)
                    },
                ],
            ),
            lane("Food mill", "", vec![block(560, 620, "mill", 4)]),
        ],
    }
}

fn plates() -> Markup {
    html! {
        (plate::process(&ProcessPlate {
            food: "Example food, hot pack, quarts", canner: "pressure canner, weighted gauge", minutes: 30, psi: Some("15"),
            count_from: "Count from the moment the weight moves as its maker says. If the pressure drops, bring it back and count all thirty again.",
            conditions: &["Jars boiled ten minutes first.".to_string()],
            foot: vec![("Band used", vec!["above 1,000 ft; you gave 1,210 ft"]), ("Read in", vec!["an invented table, p. 0-0"]), ("Cannot know", vec!["whether steam left the vent for its full time", "whether the weight is the right one"])],
            vessel: Some(Vessel::Weighted), water: None, look_up: false,
        }))
        (plate::process(&ProcessPlate {
            food: "Example pickles, raw pack, pints", canner: "boiling-water canner", minutes: 10, psi: None,
            count_from: "Count from a full rolling boil.", conditions: &[],
            foot: vec![("Band used", vec!["1,001 to 6,000 ft"]), ("Read in", vec!["an invented table"]), ("Cannot know", vec!["whether the vinegar is 5 %"])],
            vessel: Some(Vessel::BoilingWater), water: Some("1 in"), look_up: true,
        }))
        (plate::refusal(&RefusalPlate {
            asked: "Example purée, half-gallon", with: "any canner", headline: "Not for the shelf, at any time or pressure.",
            reason: "No process for this jar has been worked out. A longer time is not an answer; nobody has tested one.",
            instead: vec!["Freeze it.", "Or use quarts, which have a row."],
            foot: vec![("Refused by", vec!["jar-larger-than-tested"]), ("Read in", vec!["an invented table"])],
        }))
    }
}

fn a_jar() -> Markup {
    jar::draw(&Jar {
        size: "one pint, 473 ml",
        quarts: 0.5,
        headspace_hundredths: 50,
        headspace: "1/2 in",
        headspace_metric: "13 mm",
        filling: Filling::Pieces,
        holds: vec!["brine over everything", "beans upright", "dill head below"],
    })
}

fn another_jar() -> Markup {
    jar::draw(&Jar {
        size: "one quart, 946 ml",
        quarts: 1.0,
        headspace_hundredths: 25,
        headspace: "1/4 in",
        headspace_metric: "6 mm",
        filling: Filling::Smooth,
        holds: vec!["juice", "2 tbsp lemon juice first"],
    })
}

fn shelves() -> Markup {
    let board = |name, detail, tall, groups: &[(i64, JarLook)], count: &str, say| {
        shelf::board(&Board {
            name,
            detail,
            tall,
            groups: groups
                .iter()
                .map(|&(count, look)| Group { count, look })
                .collect(),
            count: count.into(),
            say,
        })
    };
    html! {
        (shelf::shapes())
        (board("Tomato juice", "quarts", Tall::Quart, &[(3, JarLook::Oldest), (14, JarLook::Young), (17, JarLook::Gone)], "17", "eat first: 3 from last year"))
        (board("Dilled beans", "pints", Tall::Pint, &[(2, JarLook::Oldest), (9, JarLook::Older), (4, JarLook::Held)], "11", "4 more on hold"))
        (board("Berry jam", "half-pints", Tall::HalfPint, &[(22, JarLook::Young)], "22", ""))
        (shelf::key())
    }
}

fn marks() -> Markup {
    html! {
        ul.key { @for place in Place::ALL { li { (place.tag(place.word())) } } }
        ul.key { @for place in Place::ALL { li { svg { rect.out.(place.ink()) fill=(place.hatching()) x="1" y="1" width="34" height="16" {} } (place.word()) } } }
        ul.key {
            @for (mark, class, word) in [(Mark::Due, "due", "due today"), (Mark::Wait, "", "can wait"), (Mark::Tested, "tested", "tested"), (Mark::Trial, "trial", "household trial"), (Mark::Held, "held", "held"), (Mark::Refused, "refused", "refused")] {
                li { span class=(format!("mark state {class}")) { (mark) (word) } }
            }
        }
        ul.key { @for (mark, word) in [(Mark::Counter, "Counter"), (Mark::Plan, "Plan"), (Mark::Batch, "Batch"), (Mark::Day, "Day"), (Mark::Stores, "Stores"), (Mark::Process, "Process"), (Mark::House, "House")] { li { span.mark { (mark) (word) } } } }
    }
}

fn form() -> Markup {
    let answers = [("yes", "yes"), ("no", "no"), ("unknown", "unknown")];
    html! {
        form.form method="get" action="#" {
            (Field { name: "crop", label: "Crop", value: "apple", ..Field::default() }.list(&[("apple", "Apples"), ("plum", "Plums")], Some("choose")))
            (Field { name: "weight", label: "Weight", value: "-3 lb", hint: "such as 24 lb or 10.5 kg", wrong: Some("a weight is above zero"), ..Field::default() }.text("text"))
            (Field { name: "picked", label: "Picked on", value: "2026-09-03", ..Field::default() }.date())
            (Field { name: "share", label: "How full is the green crate?", value: "two-thirds", ..Field::default() }.one_of(&[("third", "a third", None), ("half", "half", None), ("two-thirds", "two thirds", None), ("full", "full", None)]))
            div.all.asks { (Field { name: "frost", label: "From a dead or frosted vine?", value: "unknown", ..Field::default() }.ask(&answers)) (Field { name: "split", label: "Split or fallen?", value: "no", ..Field::default() }.ask(&answers)) }
            (Field { name: "count", label: "Quarts on the shelf", value: "7", ..Field::default() }.tally(0, Some(40)))
            ul.ticks.all { li { (Field { name: "t1", label: "Jars sterile and hot, eight of them", ..Field::default() }.tick(true, "10:20, you")) } li { (Field { name: "t2", label: "Half an inch left at the top, bubbles out", ..Field::default() }.tick(false, "")) } }
            div.row { (send("Put it on the counter", true)) button type="button" aria-disabled="true" data-waits { "Start load 2: four ticks to go" } }
        }
    }
}
