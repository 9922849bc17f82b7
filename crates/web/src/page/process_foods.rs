//! Finding a food on the Process page: by typing, among those lately in hand, by group.

use crate::frame::Frame;
use crate::page::pairs;
use crate::part::field::{Field, send};
use crate::part::{asking, spread};
use app::view::Choice;
use app::view::process::ProcessView;
use maud::{Markup, html};

/// The form, the foods lately in hand, and all foods by group, folded.
pub fn find(frame: &Frame, view: &ProcessView) -> Markup {
    let filled = &frame.filled;
    let all: Vec<Choice> = view
        .groups
        .iter()
        .flat_map(|group| group.foods.iter().cloned())
        .collect();
    let first = view.answer.is_none();
    let recent = html! {
        @if !view.recent.is_empty() {
            (spread("Lately in hand", html! { p { "From the batches and the winter's needs." } }, links(view, &view.recent)))
        }
    };
    let groups = spread(
        "By group",
        html! { p { "Every food of the tables. What is not here is frozen or refrigerated." } },
        html! {
            @for group in &view.groups {
                details { summary { (group.title) span.note { " " (group.foods.len()) } } (links(view, &group.foods)) }
            }
        },
    );
    let form = spread(
        if first { "Find a food" } else { "Another food" },
        html! { p { @if view.house_known { "The house's own elevation counts unless another is typed." } @else { "Only the elevation must be typed; there is no default." } } },
        html! {
            form.form autocomplete="off" method="get" action="/process" {
                (Field { name: "food", label: "Food", hint: "such as tomato juice", value: if first { &view.asked.food } else { "" }, wrong: filled.wrong("food"), required: true, ..Field::default() }.suggest(&pairs(&all)))
                (Field { name: "elevation", label: "Elevation", hint: if view.house_known { "empty: the house's own" } else { "such as 2500ft, 305 m or 950 ft ± 60" }, value: &view.asked.elevation, wrong: filled.wrong("elevation"), ..Field::default() }.text("text"))
                div.row { (send("Look it up", first)) }
            }
        },
    );
    // A thumb reaches the lists before the keyboard comes up.
    html! { @if first && filled.wrong.is_none() { (recent) (groups) (form) } @else { (form) (recent) (groups) } }
}

/// Foods as links that keep the elevation typed and let everything else be filled in anew.
pub fn links(view: &ProcessView, foods: &[Choice]) -> Markup {
    let address = |food: &Choice| {
        let mut fields = vec![("food".to_owned(), food.key.clone())];
        if !view.asked.elevation.is_empty() {
            fields.push(("elevation".to_owned(), view.asked.elevation.clone()));
        }
        asking("/process", &fields)
    };
    html! {
        ul.plain.foods { @for food in foods { li { a.go href=(address(food)) { (food.title) } } } }
    }
}
