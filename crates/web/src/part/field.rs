//! Form fields: every one with its label, and with hint and error in words beside it.

use maud::{Markup, Render, html};

/// What a field shows besides its control.
#[derive(Debug, Clone, Copy, Default)]
pub struct Field<'a> {
    /// Name sent with the form; with the form's prefix it also makes the id.
    pub name: &'a str,
    /// The label.
    pub label: &'a str,
    /// A line of help, with an example that works.
    pub hint: &'a str,
    /// What was wrong with the last attempt, in words.
    pub wrong: Option<&'a str>,
    /// The value typed or proposed.
    pub value: &'a str,
    /// Makes ids unique when a page carries the same field more than once.
    pub prefix: &'a str,
    /// Must it be filled?
    pub required: bool,
}

impl Field<'_> {
    /// The control's id.
    pub fn id(&self) -> String {
        if self.prefix.is_empty() {
            format!("f-{}", self.name)
        } else {
            format!("f-{}-{}", self.prefix, self.name)
        }
    }

    fn described_by(&self) -> Option<String> {
        let id = self.id();
        let hint = (!self.hint.is_empty()).then(|| format!("{id}-hint"));
        let wrong = self.wrong.map(|_| format!("{id}-wrong"));
        match (hint, wrong) {
            (Some(hint), Some(wrong)) => Some(format!("{wrong} {hint}")),
            (hint, wrong) => wrong.or(hint),
        }
    }

    fn invalid(&self) -> Option<&'static str> {
        self.wrong.map(|_| "true")
    }

    fn below(&self) -> Markup {
        html! {
            @if let Some(wrong) = self.wrong { span.wrong id=(format!("{}-wrong", self.id())) { (wrong) } }
            @if !self.hint.is_empty() { span.hint id=(format!("{}-hint", self.id())) { (self.hint) } }
        }
    }

    /// Label, control, what was wrong and the hint. Where there is only a label, it stands around
    /// its control: a house has two hundred fields, and names said three times weigh.
    fn around(&self, control: impl Fn(Option<String>) -> Markup) -> Markup {
        if self.hint.is_empty() && self.wrong.is_none() {
            return html! { label.field { span { (self.label) } (control(None)) } };
        }
        html! {
            div.field {
                label for=(self.id()) { (self.label) }
                (control(Some(self.id())))
                (self.below())
            }
        }
    }

    /// A line of text. `mode` is the keyboard a phone shows: "text", "decimal", "numeric".
    pub fn text(&self, mode: &str) -> Markup {
        self.around(|id| html! {
            input type="text" inputmode=(mode) id=[&id] name=(self.name) value=(self.value)
                required[self.required] aria-invalid=[self.invalid()] aria-describedby=[self.described_by()];
        })
    }

    /// Several lines of text, `rows` of them in sight.
    pub fn lines(&self, rows: u8) -> Markup {
        self.around(|id| html! {
            textarea id=[&id] name=(self.name) rows=(rows) required[self.required]
                aria-invalid=[self.invalid()] aria-describedby=[self.described_by()] { "\n" (self.value) }
        })
    }

    /// A day.
    pub fn date(&self) -> Markup {
        self.around(|id| html! {
            input type="date" id=[&id] name=(self.name) value=(self.value)
                required[self.required] aria-invalid=[self.invalid()] aria-describedby=[self.described_by()];
        })
    }

    /// A time of day.
    pub fn time(&self) -> Markup {
        self.around(|id| html! {
            input type="time" id=[&id] name=(self.name) value=(self.value)
                required[self.required] aria-invalid=[self.invalid()] aria-describedby=[self.described_by()];
        })
    }

    /// A list of (key, words); `empty` is the first line that chooses nothing, where there is one.
    pub fn list(&self, choices: &[(&str, &str)], empty: Option<&str>) -> Markup {
        self.around(|id| html! {
            select id=[&id] name=(self.name) required[self.required]
                aria-invalid=[self.invalid()] aria-describedby=[self.described_by()] {
                @if let Some(empty) = empty { option value="" selected[self.value.is_empty()] { (capital(empty)) } }
                @for (key, words) in choices {
                    option value=(key) selected[*key == self.value] { (capital(words)) }
                }
            }
        })
    }

    /// A line of text that proposes (key, words) while one types; anything may be typed.
    pub fn suggest(&self, choices: &[(&str, &str)]) -> Markup {
        let list = format!("{}-list", self.id());
        self.around(|id| html! {
            input type="text" list=(list) id=[&id] name=(self.name) value=(self.value)
                required[self.required] aria-invalid=[self.invalid()] aria-describedby=[self.described_by()];
            datalist id=(list) {
                @for (key, words) in choices { option value=(key) { (words) } }
            }
        })
    }

    /// One of a few, all in sight: each a target of its own, with an optional drawing above the word.
    pub fn one_of(&self, choices: &[(&str, &str, Option<Markup>)]) -> Markup {
        html! {
            fieldset aria-describedby=[self.described_by()] {
                legend { (self.label) }
                div.picks {
                    @for (key, words, drawing) in choices {
                        label.pick {
                            input type="radio" name=(self.name) value=(key) checked[*key == self.value] required[self.required];
                            @if let Some(drawing) = drawing { (drawing) }
                            span { (words) }
                        }
                    }
                }
                (self.below())
            }
        }
    }

    /// A question on one line with its few answers beside it.
    pub fn ask(&self, answers: &[(&str, &str)]) -> Markup {
        html! {
            fieldset.ask aria-describedby=[self.described_by()] {
                legend { (self.label) }
                div.picks {
                    @for (key, words) in answers {
                        label.pick {
                            input type="radio" name=(self.name) value=(key) checked[*key == self.value];
                            span { (words) }
                        }
                    }
                }
                (self.below())
            }
        }
    }

    /// A count with minus and plus. The buttons need the script; the field itself does not.
    pub fn tally(&self, least: i64, most: Option<i64>) -> Markup {
        html! {
            div.field {
                label for=(self.id()) { (self.label) }
                div.tally {
                    button type="button" hidden data-by="-1" aria-label=(format!("one less: {}", self.label)) { "−" }
                    input type="number" inputmode="numeric" min=(least) max=[most] step="1" id=(self.id()) name=(self.name) value=(self.value)
                        required[self.required] aria-invalid=[self.invalid()] aria-describedby=[self.described_by()];
                    button type="button" hidden data-by="1" aria-label=(format!("one more: {}", self.label)) { "+" }
                }
                (self.below())
            }
        }
    }

    /// A tick: a row of its own; `small` says when and by whom once ticked, or what it starts.
    pub fn tick(&self, ticked: bool, small: &str) -> Markup {
        html! {
            label.tick {
                input type="checkbox" name=(self.name) value=(if self.value.is_empty() { "yes" } else { self.value }) checked[ticked];
                i {}
                span { (self.label) }
                @if !small.is_empty() { small { (small) } }
            }
        }
    }
}

/// The lines of a list begin with a capital, as its first line does.
fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

/// A value sent along unseen.
pub fn hidden(name: &str, value: impl Render) -> Markup {
    html! { input type="hidden" name=(name) value=(value); }
}

/// The button that sends the form; `name` and `value` tell apart two buttons of one form.
pub fn send(words: &str, first: bool) -> Markup {
    html! { button.first[first] type="submit" { (words) } }
}

#[cfg(test)]
mod tests {
    use super::Field;

    #[test]
    fn a_wrong_field_keeps_what_was_typed_and_says_so_beside_it() {
        let field = Field {
            name: "weight",
            label: "Weight",
            value: "-3 lb",
            wrong: Some("a weight is above zero"),
            hint: "such as 24 lb",
            required: true,
            ..Field::default()
        };
        let html = field.text("text").into_string();
        assert!(html.contains("value=\"-3 lb\""));
        assert!(html.contains("aria-describedby=\"f-weight-wrong f-weight-hint\""));
        assert!(
            html.contains(
                "<span class=\"wrong\" id=\"f-weight-wrong\">a weight is above zero</span>"
            )
        );
        assert!(html.contains("aria-invalid=\"true\"") && html.contains(" required"));
    }

    #[test]
    fn markup_in_a_value_is_text() {
        let field = Field {
            name: "variety",
            label: "Variety",
            value: "\"><script>",
            ..Field::default()
        };
        assert!(!field.text("text").into_string().contains("<script>"));
    }
}
