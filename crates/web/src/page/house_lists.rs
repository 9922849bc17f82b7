//! The lists of the house's form: each shows what is known and offers two empty rows more.

use super::house::{count, text};
use super::pairs;
use crate::frame::Frame;
use crate::part::field::{Field, hidden};
use crate::part::spread;
use app::house::{Canner, Crate, Freezer, GaugeTest, Ingredient, JarCount, Need, Person, Pot};
use app::house_fields::WEEKDAYS;
use app::view::Choice;
use app::view::house::HouseView;
use maud::{Markup, html};

/// Empty rows offered below what is known.
const MORE: usize = 2;

/// Of lists whose rows choose among all recipes, which weigh a page down.
const MORE_OF_RECIPES: usize = 1;

/// What a need can be worth.
const PRIORITIES: [(&str, &str); 3] =
    [("must", "must"), ("want", "want"), ("nice", "nice to have")];

/// Mouths of jars.
const MOUTHS: [(&str, &str); 2] = [("regular", "regular mouth"), ("wide", "wide mouth")];

/// Containers a need can be counted in, besides jars.
const BAGS: [(&str, &str); 2] = [("pint-bag", "pint bags"), ("quart-bag", "quart bags")];

/// Draws all lists as spreads.
pub fn draw(frame: &Frame, view: &HouseView) -> Markup {
    let house = &view.house;
    html! {
        (spread("Canners", html! { p { "A dial gauge is tested every year; without a test it permits nothing under pressure." } p { "Empty the name and the kind to drop a row." } p { "Dial and weights are asked for where a canner has them." } }, rows("canners", &house.canners, |index, canner, known| canner_row(frame, view, index, canner, known))))
        (spread("Pots", html! {}, rows("pots", &house.pots, |index, pot, _| pot_row(frame, index, pot))))
        (spread("Freezers", html! { p { "All freezers taken together." } }, freezer(frame, house.freezer.as_ref())))
        (spread("People", html! { p { "Hours each can give, by weekday: 6 h or 2 h 30 min." } }, rows("people", &house.people, |index, person, _| person_row(frame, index, person))))
        (spread("Jars and lids", html! { p { "Empty and clean, as they stand now." } }, html! {
            (rows("jars", &house.jars, |index, jar, _| jar_row(frame, view, index, jar)))
            div.form {
                (count(frame, "lids_regular", "New lids, regular", house.lids_regular))
                (count(frame, "lids_wide", "New lids, wide", house.lids_wide))
                (count(frame, "bags_pint", "Freezer bags, pint", house.bags_pint))
                (count(frame, "bags_quart", "Freezer bags, quart", house.bags_quart))
            }
        }))
        (spread("Pantry", html! { p { "What recipes need besides produce." } }, rows("pantry", &house.ingredients, |index, ingredient, known| ingredient_row(frame, view, index, ingredient, known))))
        (spread("The winter's needs", html! { p { "What the winter should have, in containers." } }, rows("needs", &house.needs, |index, need, known| need_row(frame, view, index, need, known))))
        (spread("Crates", html! { p { "A known crate saves the scale: its litres, or what it weighs when full of one crop." } }, rows("crates", &house.crates, |index, known, _| crate_row(frame, index, known))))
    }
}

/// Known rows, then the empty ones; a row is told whether it is known.
fn rows<T: Default>(what: &str, known: &[T], row: impl Fn(usize, &T, bool) -> Markup) -> Markup {
    let empty = T::default();
    let more = if what == "needs" {
        MORE_OF_RECIPES
    } else {
        MORE
    };
    html! {
        div.ruled {
            @for (index, line) in known.iter().enumerate() { div.form.line { (row(index, line, true)) } }
            // Folded away where something is known; the fields are sent all the same.
            details open[known.is_empty()] {
                summary { "Add another" span.unseen { " to: " (what) } }
                @for more in 0..more { div.form.line { (row(known.len() + more, &empty, false)) } }
            }
        }
    }
}

/// A hint stands only in the first row of a list; the rows below are read after it.
fn first(index: usize, hint: &'static str) -> &'static str {
    if index == 0 { hint } else { "" }
}

fn list(
    frame: &Frame,
    name: &str,
    label: &str,
    now: &str,
    choices: &[(&str, &str)],
    empty: Option<&str>,
) -> Markup {
    Field {
        name,
        label,
        value: frame.filled.value(name, now),
        wrong: frame.filled.wrong(name),
        ..Field::default()
    }
    .list(choices, empty)
}

/// A row's head: a known row keeps its key and can be dropped, an empty one chooses.
fn key(
    frame: &Frame,
    name: &str,
    label: &str,
    now: &str,
    choices: &[Choice],
    known: bool,
) -> Markup {
    if !known {
        return list(
            frame,
            name,
            label,
            now,
            &pairs(choices),
            Some("nothing more"),
        );
    }
    let title = choices
        .iter()
        .find(|choice| choice.key == now)
        .map_or(now, |choice| choice.title.as_str());
    html! {
        div.field {
            (hidden(name, now))
            p.lead { (title) }
            // An unticked box sends nothing; ticked, its empty value follows the hidden one and drops the row.
            label.tick { input type="checkbox" name=(name) value=""; i {} span.note { "drop this row" span.unseen { ": " (title) } } }
        }
    }
}

fn canner_row(
    frame: &Frame,
    view: &HouseView,
    index: usize,
    canner: &Canner,
    known: bool,
) -> Markup {
    let at = |field: &str| format!("canners.{index}.{field}");
    let says = if known {
        String::new()
    } else {
        " (another)".into()
    };
    html! {
        (was(&at("name"), &canner.name))
        (text(frame, &at("name"), &format!("Canner{says}"), "", &canner.name))
        (list(frame, &at("kind"), "Kind", &canner.kind, &pairs(&view.canner_kinds), Some("none")))
        (count(frame, &at("quarts"), "Quarts a load", canner.quarts))
        (count(frame, &at("pints"), "Pints a load", canner.pints))
        (count(frame, &at("half_pints"), "Half-pints a load", canner.half_pints))
        @if known {
            @if has_dial(canner) { (gauge(frame, index, canner)) }
            @if has_weights(canner) { (weights_row(frame, index, canner)) }
            @if !has_dial(canner) { (kept_tests(index, canner)) }
        } @else {
            // Which kind it will be is not known yet; a kettle has neither dial nor weights.
            details.all { summary { "A pressure canner: dial and weights" }
                div.form.line { (gauge(frame, index, canner)) (weights_row(frame, index, canner)) }
            }
        }
    }
}

fn has_dial(canner: &Canner) -> bool {
    matches!(canner.kind.as_str(), "dial-gauge" | "dial-with-weight")
}

fn has_weights(canner: &Canner) -> bool {
    matches!(canner.kind.as_str(), "weighted-gauge" | "dial-with-weight")
}

fn weights_row(frame: &Frame, index: usize, canner: &Canner) -> Markup {
    let weights = canner
        .weights_psi
        .iter()
        .map(u32::to_string)
        .collect::<Vec<_>>()
        .join(", ");
    text(
        frame,
        &format!("canners.{index}.weights_psi"),
        "Weights owned, psi",
        "such as 5, 10, 15",
        &weights,
    )
}

/// The tests of a dial: those known, each of which can be dropped, and a new one.
fn gauge(frame: &Frame, index: usize, canner: &Canner) -> Markup {
    let at = |field: &str| format!("canners.{index}.{field}");
    html! {
        @if !canner.gauge_tests.is_empty() {
            div.all {
                p.note { "Gauge tests" }
                (kept_tests(index, canner))
                ul.plain {
                    @for (row, test) in canner.gauge_tests.iter().enumerate() {
                        li {
                            (gauge_words(test))
                            label.tick { input type="checkbox" name=(at(&format!("gauge_tests.{row}.on"))) value=""; i {} span.note { "drop this test" span.unseen { " of " (test.on) } } }
                        }
                    }
                }
            }
        }
        (Field { name: &at("gauge_tested_on"), label: "New gauge test: day", value: frame.filled.value(&at("gauge_tested_on"), &canner.gauge_tested_on), wrong: frame.filled.wrong(&at("gauge_tested_on")), ..Field::default() }.date())
        (text(frame, &at("gauge_error_psi"), "Shown minus true, psi", "as the test said, such as 1, -1/2 or 0", &canner.gauge_error_psi))
        (text(frame, &at("gauge_tested_by"), "Tested by", "", &canner.gauge_tested_by))
    }
}

/// One test in words.
fn gauge_words(test: &GaugeTest) -> String {
    app::gauge::words(test)
}

/// Tests sent along unseen, so that writing the house down keeps them.
fn kept_tests(index: usize, canner: &Canner) -> Markup {
    html! {
        @for (row, test) in canner.gauge_tests.iter().enumerate() {
            @for (field, word) in [("on", &test.on), ("error_psi", &test.error_psi), ("by", &test.by)] {
                (hidden(&format!("canners.{index}.gauge_tests.{row}.{field}"), word))
            }
        }
    }
}

/// The name a row had, sent before the field that may empty it: so a row that is dropped can be
/// told from half a row.
fn was(name: &str, now: &str) -> Markup {
    html! { @if !now.is_empty() { (hidden(name, now)) } }
}

fn pot_row(frame: &Frame, index: usize, pot: &Pot) -> Markup {
    html! {
        (text(frame, &format!("pots.{index}.name"), "Pot", "", &pot.name))
        (text(frame, &format!("pots.{index}.litres"), "Litres", "", &pot.litres))
    }
}

fn freezer(frame: &Frame, freezer: Option<&Freezer>) -> Markup {
    html! {
        div.form {
            (count(frame, "freezer.litres", "Litres in all", freezer.map_or(0, |freezer| freezer.litres)))
            (count(frame, "freezer.free_litres", "Litres free now", freezer.map_or(0, |freezer| freezer.free_litres)))
        }
    }
}

fn person_row(frame: &Frame, index: usize, person: &Person) -> Markup {
    html! {
        (was(&format!("people.{index}.name"), &person.name))
        div.all { (text(frame, &format!("people.{index}.name"), "Person", "", &person.name)) }
        div.week.all {
            @for (day, minutes) in WEEKDAYS.iter().zip(person.minutes) {
                (text(frame, &format!("people.{index}.{day}"), &day_word(day), "", &hours(minutes)))
            }
        }
    }
}

fn day_word(day: &str) -> String {
    let mut letters = day.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

fn hours(minutes: u32) -> String {
    if minutes == 0 {
        String::new()
    } else {
        quantity::show::minutes(i64::from(minutes))
    }
}

fn jar_row(frame: &Frame, view: &HouseView, index: usize, jar: &JarCount) -> Markup {
    html! {
        (was(&format!("jars.{index}.jar"), &jar.jar))
        (list(frame, &format!("jars.{index}.jar"), "Jar", &jar.jar, &pairs(&view.jars), Some("none")))
        (count(frame, &format!("jars.{index}.count"), "How many", jar.count))
        (list(frame, &format!("jars.{index}.mouth"), "Mouth", if jar.mouth.is_empty() { "regular" } else { &jar.mouth }, &MOUTHS, None))
    }
}

fn ingredient_row(
    frame: &Frame,
    view: &HouseView,
    index: usize,
    ingredient: &Ingredient,
    known: bool,
) -> Markup {
    html! {
        (key(frame, &format!("ingredients.{index}.key"), "Ingredient", &ingredient.key, &view.ingredients, known))
        (text(frame, &format!("ingredients.{index}.amount"), "Amount", first(index, "such as 11 cups or 4 lb"), &ingredient.amount))
    }
}

fn need_row(frame: &Frame, view: &HouseView, index: usize, need: &Need, known: bool) -> Markup {
    let mut units = pairs(&view.jars);
    units.extend(BAGS);
    html! {
        (key(frame, &format!("needs.{index}.product"), "Product", &need.product, &view.products, known))
        (count(frame, &format!("needs.{index}.wanted"), "How many", need.wanted))
        (list(frame, &format!("needs.{index}.unit"), "Container", if need.unit.is_empty() { "quart" } else { &need.unit }, &units, None))
        (list(frame, &format!("needs.{index}.priority"), "How much it matters", if need.priority.is_empty() { "want" } else { &need.priority }, &PRIORITIES, None))
    }
}

fn crate_row(frame: &Frame, index: usize, known: &Crate) -> Markup {
    html! {
        (was(&format!("crates.{index}.name"), &known.name))
        (text(frame, &format!("crates.{index}.name"), "Crate", first(index, "such as green crate"), &known.name))
        (text(frame, &format!("crates.{index}.litres"), "Litres when level full", "", &known.litres))
        // Own weights by crop are learned elsewhere; sending them along keeps them.
        @for (crop, weight) in &known.full_weights {
            (text(frame, &format!("crates.{index}.full.{crop}"), &format!("Full of {}", crop.replace('-', " ")), "", weight))
        }
    }
}
