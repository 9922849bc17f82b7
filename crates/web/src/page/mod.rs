//! One module for each page: a read model and a frame in, the whole document out.

pub mod batch;
pub mod batch_forms;
pub mod batch_list;
pub mod batch_refused;
pub mod change;
pub mod counter;
pub mod day;
pub mod enter;
pub mod holding;
pub mod house;
pub mod house_lists;
pub mod incident;
pub mod incident_forms;
pub mod load;
pub mod lot;
pub mod message;
pub mod paper;
pub mod plan;
pub mod plan_tables;
pub mod process;
pub mod process_foods;
pub mod process_rows;
pub mod recipe;
pub mod stores;
pub mod verdict;
pub mod weigh_in;

use crate::frame::Frame;
use crate::part::{Page, Section, amount, page};
use app::view::{Both, Choice};
use maud::{Markup, html};

/// Puts a body into the shell with the page's frame: what was done or went wrong stands first, and
/// leads to the field it is about.
fn whole(frame: &Frame, title: &str, section: Section, body: Markup) -> Markup {
    let field = frame
        .filled
        .wrong
        .as_ref()
        .and_then(|error| message_id(&body.0, &error.field));
    page(Page {
        title,
        section,
        house: frame.house.as_deref(),
        body: html! { (frame.message(field.as_deref())) (body) },
    })
}

/// The id of the message beside a field, where the page shows one.
fn message_id(page: &str, field: &str) -> Option<String> {
    if field.is_empty() {
        return None;
    }
    let ending = format!("{field}-wrong\"");
    page.split("id=\"f-").skip(1).find_map(|rest| {
        let id = rest.split_inclusive('"').next()?;
        // A page may carry the field with a prefix of its form: "state-grade".
        let whole = id == ending || id.ends_with(&format!("-{ending}"));
        whole.then(|| format!("f-{}", id.trim_end_matches('"')))
    })
}

/// An amount of a view.
fn both(amounts: &Both) -> Markup {
    amount(&amounts.us, &amounts.metric)
}

/// Choices of a view as pairs for a list.
fn pairs(choices: &[Choice]) -> Vec<(&str, &str)> {
    choices
        .iter()
        .map(|choice| (choice.key.as_str(), choice.title.as_str()))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::message_id;

    #[test]
    fn a_message_leads_to_its_own_field_only() {
        let page = "<span id=\"f-amount-hint\"></span><span id=\"f-out-amount-wrong\"></span>";
        assert_eq!(
            message_id(page, "amount").as_deref(),
            Some("f-out-amount-wrong")
        );
        assert_eq!(message_id(page, "mount"), None);
        assert_eq!(message_id(page, ""), None);
        let house = "<span id=\"f-canners.0.kind-wrong\"></span>";
        assert_eq!(
            message_id(house, "canners.0.kind").as_deref(),
            Some("f-canners.0.kind-wrong")
        );
    }
}
