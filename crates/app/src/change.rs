//! May I change this? A typed question about a tested recipe, or about a household's own, put to
//! the gate; the file of `recipe check` is this question as JSON.

mod understand;

use crate::error::AppError;
use crate::view::Choice;
use crate::view::change::{
    AnswerView, ChangeView, ColdView, EditAnswer, FindingView, NearestView, PrintedLine,
};
use quantity::show;
use reference::{ChangeAnswer, Reference};
use safety::{ChangeVerdict, ColdOnly, Finding, HouseholdVerdict, RecipeState};
use serde::{Deserialize, Serialize};
pub use understand::edit_words;

/// A recipe and what would be changed in it: either `recipe` with `edits`, or a household's own
/// recipe as `lines`.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct AskChange {
    /// Key of a tested recipe, or of a food that is put up without one.
    pub recipe: String,
    /// The edits; amounts are those of one batch as printed.
    pub edits: Vec<AskEdit>,
    /// Name of the household's own recipe.
    pub title: String,
    /// Its lines.
    pub lines: Vec<AskLine>,
    /// The jar wished.
    pub jar: String,
    /// The pack wished, `raw` or `hot`.
    pub pack: String,
    /// The canner wished, by its method.
    pub canner: String,
}

/// One edit; which fields it has depends on its kind.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct AskEdit {
    /// One of [`KINDS`].
    pub kind: String,
    /// The line, by its ingredient or its number.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub line: String,
    /// The amount wished.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub amount: String,
    /// How much of the line is replaced; empty = all of it.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub replaced: String,
    /// What comes in its place, or is added.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub with: String,
    /// The jar, pack, canner or manner; how many times; the percent of a vinegar.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub to: String,
    /// Whether a stronger vinegar was diluted at home.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub diluted: bool,
}

/// One line of a household's own recipe.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct AskLine {
    /// The ingredient.
    pub name: String,
    /// How much.
    pub amount: String,
    /// `batch`, or the jar it goes into, such as `jar-pint`; empty = batch.
    pub per: String,
}

/// The kinds of edits, with words for a form.
pub const KINDS: &[(&str, &str)] = &[
    ("amount", "another amount of a line"),
    ("swap", "something in place of a line"),
    ("leave-out", "a line left out"),
    ("add", "something added"),
    ("scale", "the whole recipe, larger or smaller"),
    ("jar", "another jar"),
    ("pack", "another pack"),
    ("canner", "another canner"),
    ("vinegar", "a vinegar of another strength"),
    ("manner", "another way of working"),
];

impl AskChange {
    /// The question of a file.
    ///
    /// # Errors
    /// Text that is not this JSON: where it breaks, and an example that works.
    pub fn from_json(text: &str) -> Result<AskChange, AppError> {
        serde_json::from_str(text).map_err(|error| {
            AppError::input(
                "file",
                format!("The file is no question about a recipe: {error}."),
                r#"Write for example {"recipe": "tomato-salsa-paste-tomatoes", "edits": [{"kind": "leave-out", "line": "salt"}]}."#,
            )
        })
    }
}

impl AskEdit {
    /// The edit as text for an address, and back.
    pub fn to_text(&self) -> String {
        serde_json::to_string(self).unwrap_or_default()
    }

    /// The edit of such a text; one that cannot be read says nothing and is refused as such.
    pub fn from_text(text: &str) -> AskEdit {
        serde_json::from_str(text).unwrap_or_default()
    }
}

/// Asks the gate. Needs no household and writes nothing; without a recipe it lists the choices.
///
/// # Errors
/// A recipe, line, amount or word that is not understood, by its field.
pub fn ask_change(request: &AskChange) -> Result<ChangeView, AppError> {
    let reference = Reference::embedded();
    let mut view = ChangeView {
        recipe: request.recipe.trim().to_owned(),
        title: String::new(),
        source: String::new(),
        recipes: reference
            .recipes()
            .iter()
            .map(|sheet| Choice::new(&sheet.key, &sheet.title))
            .collect(),
        printed: Vec::new(),
        manners: safety::manners(reference)
            .iter()
            .map(|word| Choice::new(word, word.replace('-', " ")))
            .collect(),
        answer: None,
        state: String::new(),
        state_words: String::new(),
        nearest: None,
        not_known: Vec::new(),
        cold: None,
    };
    if !request.lines.is_empty() {
        let asked = understand::household(request)?;
        let found = safety::judge_household_recipe(reference, &asked).map_err(wrong)?;
        household(&mut view, &found);
        return Ok(view);
    }
    if view.recipe.is_empty() {
        return Ok(view);
    }
    let verdict = safety::judge_change(reference, &understand::change(request)?).map_err(wrong)?;
    view.title.clone_from(&verdict.title);
    view.source.clone_from(&verdict.source);
    view.printed = printed(reference, &view.recipe);
    if !verdict.edits.is_empty() {
        view.cold = verdict.cold_only.as_ref().map(cold);
        view.answer = Some(answer(&verdict));
    }
    Ok(view)
}

fn wrong(error: safety::ChangeError) -> AppError {
    AppError::input(&error.field, error.cause, error.example)
}

fn printed(reference: &Reference, recipe: &str) -> Vec<PrintedLine> {
    reference
        .recipe_rows(recipe)
        .iter()
        .enumerate()
        .map(|(index, row)| PrintedLine {
            number: index + 1,
            ingredient: row.ingredient.clone(),
            words: format!(
                "{} {} {}",
                show::number(row.amount.low()),
                row.unit,
                row.ingredient.replace('-', " ")
            ),
        })
        .collect()
}

pub(crate) fn answer(verdict: &ChangeVerdict) -> AnswerView {
    AnswerView {
        answer: verdict.answer.as_str().to_owned(),
        words: words(verdict.answer, verdict.food.is_some()).to_owned(),
        edits: verdict
            .edits
            .iter()
            .map(|edit| EditAnswer {
                words: edit.words.clone(),
                answer: edit.answer.as_str().to_owned(),
                findings: edit.findings.iter().map(finding).collect(),
                instead: edit.instead.clone(),
            })
            .collect(),
        whole: verdict.whole.iter().map(finding).collect(),
    }
}

fn words(answer: ChangeAnswer, has_process: bool) -> &'static str {
    match (answer, has_process) {
        (ChangeAnswer::Refuse, _) => "No: changed like this it has no shelf.",
        (_, false) => "Allowed, and as the recipe prints it for the refrigerator.",
        (ChangeAnswer::AllowIf, true) => {
            "Only if what stands below is so. Jar, canner and place are asked of the gate as ever."
        }
        (ChangeAnswer::Allow, true) => "Yes. Jar, canner and place are asked of the gate as ever.",
    }
}

fn finding(finding: &Finding) -> FindingView {
    FindingView {
        rule: finding.rule.clone(),
        answer: finding.answer.as_str().to_owned(),
        text: finding.text.clone(),
        source: finding.source.clone(),
        other_reading: finding.other_reading.clone().unwrap_or_default(),
    }
}

pub(crate) fn cold(cold: &ColdOnly) -> ColdView {
    ColdView {
        fridge: format!("{} {}", cold.fridge.reason, cold.fridge.instead)
            .trim()
            .to_owned(),
        fridge_days: cold.fridge.eat_within_days,
        freezer: cold.freezer.reason.clone(),
        source: cold.fridge.source.clone(),
    }
}

fn household(view: &mut ChangeView, found: &HouseholdVerdict) {
    view.title.clone_from(&found.title);
    state_key(found.state).clone_into(&mut view.state);
    view.state_words.clone_from(&found.why);
    view.not_known.clone_from(&found.not_known);
    view.nearest = found.nearest.as_ref().map(nearest);
    view.answer = found.differences.as_ref().map(answer);
    view.cold = found.cold_only.as_ref().map(cold);
}

/// The state's key: tested, household-trial or unknown.
pub(crate) fn state_key(state: RecipeState) -> &'static str {
    match state {
        RecipeState::Tested => "tested",
        RecipeState::HouseholdTrial => "household-trial",
        RecipeState::Unknown => "unknown",
    }
}

/// The nearest tested recipe.
pub(crate) fn nearest(nearest: &safety::Nearest) -> NearestView {
    NearestView {
        recipe: nearest.recipe.clone(),
        title: nearest.title.clone(),
        source: nearest.source.clone(),
        shared: nearest.shared,
        distance: show::number(nearest.distance),
    }
}

#[cfg(test)]
mod tests {
    use super::{AskChange, AskEdit, AskLine, ask_change};

    fn edit(kind: &str, line: &str, with: &str, amount: &str) -> AskEdit {
        AskEdit {
            kind: kind.to_owned(),
            line: line.to_owned(),
            with: with.to_owned(),
            amount: amount.to_owned(),
            ..AskEdit::default()
        }
    }

    fn salsa(edits: Vec<AskEdit>) -> AskChange {
        AskChange {
            recipe: "tomato-salsa-paste-tomatoes".to_owned(),
            edits,
            ..AskChange::default()
        }
    }

    #[test]
    fn a_pepper_for_a_pepper_is_allowed_and_an_onion_is_not() {
        let line = "jalapeno-peppers-finely-chopped";
        let yes = ask_change(&salsa(vec![edit("swap", line, "bell peppers", "")])).unwrap();
        assert_eq!(yes.answer.unwrap().answer, "allow");
        assert!(yes.cold.is_none());
        let no = ask_change(&salsa(vec![edit("swap", line, "onions", "")])).unwrap();
        let answer = no.answer.unwrap();
        assert_eq!(answer.answer, "refuse");
        let finding = &answer.edits[0].findings[0];
        assert_eq!(finding.rule, "hot-pepper-to-onion");
        assert!(!finding.source.is_empty() && !finding.other_reading.is_empty());
        assert_eq!(no.cold.unwrap().fridge_days, Some(3));
    }

    #[test]
    fn what_is_not_understood_is_named_by_its_field() {
        let field = |edit: AskEdit| {
            let error = ask_change(&salsa(vec![edit])).unwrap_err();
            assert!(!error.cause.is_empty() && !error.action.is_empty());
            error.field
        };
        assert_eq!(field(edit("stir", "", "", "")), "edits.1.kind");
        assert_eq!(
            field(edit("amount", "turnips", "", "1 cup")),
            "edits.1.line"
        );
        assert_eq!(
            field(edit("amount", "onions-chopped", "", "some")),
            "edits.1.amount"
        );
        assert_eq!(
            field(edit("amount", "onions-chopped", "", "2 lb")),
            "edits.1.amount"
        );
        assert_eq!(field(edit("add", "", "", "1 cup")), "edits.1.ingredient");
        let jar = AskEdit {
            kind: "jar".to_owned(),
            to: "bucket".to_owned(),
            ..AskEdit::default()
        };
        assert_eq!(field(jar), "edits.1.to");
        let recipe = AskChange {
            recipe: "tomato-salsa".to_owned(),
            ..AskChange::default()
        };
        let error = ask_change(&recipe).unwrap_err();
        assert_eq!(error.field, "recipe");
        assert!(error.action.contains("tomato-salsa-"), "{}", error.action);
    }

    #[test]
    fn a_household_recipe_names_its_nearest_and_where_it_goes() {
        let line = |name: &str, amount: &str| AskLine {
            name: name.to_owned(),
            amount: amount.to_owned(),
            per: String::new(),
        };
        let asked = AskChange {
            title: "Porch rings".to_owned(),
            lines: vec![
                line("carrots", "3 lb"),
                line("olive oil", "2 cups"),
                line("garlic", "9 cloves"),
            ],
            ..AskChange::default()
        };
        let view = ask_change(&asked).unwrap();
        assert_ne!(view.state, "tested");
        assert!(
            view.cold.is_some_and(|cold| cold.fridge_days.is_none()),
            "oil goes to no fridge"
        );
    }
}
