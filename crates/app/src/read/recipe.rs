//! The views of a household's own recipe: dry run, list, one recipe, and the export.

use crate::App;
use crate::change;
use crate::dates;
use crate::error::AppError;
use crate::household_recipe::{CameIn, Kept, answers, came_in, judged, key_of, to_json_ld};
use crate::request::{Now, ReadRecipe};
use crate::view::Choice;
use crate::view::recipe::{
    KeptView, RecipeAnswer, RecipeLine, RecipeListLine, RecipeQuestion, RecipeTrouble, RecipeView,
    RecipesView,
};
use kitchen::recipe_text::{Answers, Ask, LineState, ReadLine, Reading, WrittenRecipe};
use kitchen::{Amount, Recipe};
use quantity::{Exact, MassUnit, VolumeUnit, show};
use reference::Reference;
use safety::RecipeState;
use store::HouseholdRecipeRecord;

/// Shows what would be understood of a recipe. Needs no household and writes nothing.
///
/// # Errors
/// A card that is no JSON or holds no recipe; an answer that is none.
pub fn read_recipe(request: &ReadRecipe) -> Result<RecipeView, AppError> {
    let CameIn { recipe, not_kept } = came_in(&request.text)?;
    let mut view = view(&recipe, &answers(&request.answers)?);
    view.not_kept = not_kept;
    Ok(view)
}

impl App {
    /// The household's own recipes.
    ///
    /// # Errors
    /// Those of reading the file.
    pub fn household_recipes(&self, now: &Now) -> Result<RecipesView, AppError> {
        let records = self.store().household_recipes()?;
        let mut recipes = Vec::new();
        for (at, record) in records.iter().enumerate() {
            if records[at + 1..]
                .iter()
                .any(|later| later.key == record.key)
            {
                continue;
            }
            let kept = kept(record)?;
            let view = view(&kept.recipe, &kept.answers);
            let unread = view
                .lines
                .iter()
                .filter(|line| matches!(line.state.as_str(), "unreadable" | "partly"))
                .count();
            recipes.push(RecipeListLine {
                key: record.key.clone(),
                title: record.title.clone(),
                state_words: match view.state.as_str() {
                    "tested" => "a tested recipe within allowed changes".to_owned(),
                    _ => "refrigerator or freezer only".to_owned(),
                },
                state: view.state,
                on: dates::near(record.on, now.date),
                versions: records.iter().filter(|one| one.key == record.key).count(),
                lines: match unread {
                    0 => format!("{} lines", view.lines.len()),
                    unread => format!(
                        "{} lines, {unread} of them not understood in full",
                        view.lines.len()
                    ),
                },
            });
        }
        recipes.sort_by(|a, b| (&a.title, &a.key).cmp(&(&b.title, &b.key)));
        Ok(RecipesView { recipes })
    }

    /// One of the household's own recipes, read anew from its text.
    ///
    /// # Errors
    /// No such recipe; those of reading the file.
    pub fn household_recipe(&self, now: &Now, key: &str) -> Result<RecipeView, AppError> {
        let records = self.store().household_recipes()?;
        let versions: Vec<&HouseholdRecipeRecord> =
            records.iter().filter(|record| record.key == key).collect();
        let Some(record) = versions.last() else {
            return Err(no_such(key, &records));
        };
        let kept = kept(record)?;
        let mut view = view(&kept.recipe, &kept.answers);
        view.key.clone_from(&record.key);
        view.kept = Some(KeptView {
            on: dates::near(record.on, now.date),
            entry: record.entry,
            version: versions.len(),
            versions: versions.len(),
        });
        Ok(view)
    }

    /// A recipe as a text file or as a JSON-LD card: the household's own, or a tested one.
    ///
    /// # Errors
    /// No such recipe, a form there is not; those of reading the file.
    pub fn export_recipe(&self, key: &str, form: &str) -> Result<String, AppError> {
        let records = self.store().household_recipes()?;
        let own = records.iter().rev().find(|record| record.key == key);
        let (recipe, state, words) = match (own, self.recipes.get(key)) {
            (Some(record), _) => {
                let kept = kept(record)?;
                let view = view(&kept.recipe, &kept.answers);
                (kept.recipe, view.state, view.state_words)
            }
            (None, Ok(tested)) if tested.table_recipe.is_some() => (
                as_written(tested),
                "tested".to_owned(),
                "A tested recipe. Its process is asked for each batch by food, jar, canner and elevation; this card carries none."
                    .to_owned(),
            ),
            _ => return Err(no_such(key, &records)),
        };
        match form {
            "text" => Ok(recipe.to_text()),
            "json-ld" => serde_json::to_string_pretty(&to_json_ld(&recipe, key, &state, &words))
                .map(|text| text + "\n")
                .map_err(|error| {
                    AppError::failed(format!("The card cannot be written: {error}."), "")
                }),
            other => Err(AppError::input(
                "as",
                format!("«{other}» is no form of a recipe."),
                "Choose json-ld or text.",
            )),
        }
    }
}

/// What a row of the store holds.
pub(crate) fn kept(record: &HouseholdRecipeRecord) -> Result<Kept, AppError> {
    serde_json::from_str(&record.content).map_err(|error| {
        AppError::failed(
            format!(
                "Recipe {} cannot be read from the file: {error}.",
                record.key
            ),
            "Run `stillroom check`.",
        )
    })
}

fn no_such(key: &str, records: &[HouseholdRecipeRecord]) -> AppError {
    let mut keys: Vec<&str> = records.iter().map(|record| record.key.as_str()).collect();
    keys.sort_unstable();
    keys.dedup();
    AppError::missing(
        "key",
        format!("There is no recipe «{key}»."),
        if keys.is_empty() {
            "No recipe is kept yet: `stillroom recipe keep FILE`.".to_owned()
        } else {
            format!("The household's own are {}.", keys.join(", "))
        },
    )
}

/// A tested recipe as lines of text, amounts as printed.
fn as_written(recipe: &Recipe) -> WrittenRecipe {
    let rows = recipe
        .table_recipe
        .as_deref()
        .map_or(&[][..], |key| Reference::embedded().recipe_rows(key));
    let lines = rows
        .iter()
        .map(|row| {
            let high = row.amount_high.as_ref().map_or(String::new(), |most| {
                format!("-{}", show::number(most.high()))
            });
            let unit = match row.unit.as_str() {
                "each" => String::new(),
                unit => format!("{} ", unit.replace('-', " ")),
            };
            let name = row
                .ingredient
                .replace("5pct", "5 percent")
                .replace('-', " ");
            let mut line = format!("{}{high} {unit}{name}", show::number(row.amount.low()));
            if row.per != "batch" {
                line.push_str(&format!(", for each {}", row.per.replace('-', " ")));
            }
            if !row.choice.is_empty() {
                line.push_str(", one of the choices");
            }
            if row.optional {
                line.push_str(", optional");
            }
            line
        })
        .collect();
    WrittenRecipe {
        title: recipe.title.clone(),
        by: String::new(),
        from: recipe.source.clone(),
        makes: recipe.yields.as_ref().map_or(String::new(), |yields| {
            let high = if yields.high == yields.low {
                String::new()
            } else {
                format!("-{}", show::number(yields.high))
            };
            format!("{}{high} {}", show::number(yields.low), yields.container)
        }),
        lines,
        steps: Vec::new(),
    }
}

/// Says which steps read as ingredients; nothing where none does.
fn in_steps(reading: &Reading) -> String {
    let numbers: Vec<String> = reading.in_steps.iter().map(usize::to_string).collect();
    if numbers.is_empty() {
        return String::new();
    }
    format!(
        " Step {} reads as an ingredient: write every ingredient above the empty line.",
        numbers.join(", ")
    )
}

fn view(recipe: &WrittenRecipe, answers: &Answers) -> RecipeView {
    let (reading, verdict) = judged(recipe, answers);
    let state = verdict
        .as_ref()
        .map_or(RecipeState::Unknown, |verdict| verdict.state);
    RecipeView {
        key: key_of(&recipe.title),
        title: recipe.title.clone(),
        by: recipe.by.clone(),
        from: recipe.from.clone(),
        makes: recipe.makes.clone(),
        summary: summary(&reading) + &in_steps(&reading),
        lines: reading.lines.iter().map(line).collect(),
        steps: recipe.steps.clone(),
        questions: reading
            .open
            .iter()
            .map(|(ask, lines)| RecipeQuestion {
                key: ask.key().to_owned(),
                words: ask.words().to_owned(),
                lines: lines.clone(),
                choices: choices(*ask),
            })
            .collect(),
        answers: reading
            .answers
            .iter()
            .map(|(ask, answer)| RecipeAnswer {
                key: ask.key().to_owned(),
                words: ask.words().to_owned(),
                answer: answer.to_owned(),
                answer_words: choices(ask)
                    .into_iter()
                    .find(|choice| choice.key == answer)
                    .map_or_else(|| format!("{answer} percent"), |choice| choice.title),
            })
            .collect(),
        not_kept: Vec::new(),
        not_yet: not_yet(&reading),
        state: change::state_key(state).to_owned(),
        state_words: verdict.as_ref().map_or_else(
            || "It has no ingredient lines.".to_owned(),
            |verdict| verdict.why.clone(),
        ),
        nearest: verdict
            .as_ref()
            .and_then(|verdict| verdict.nearest.as_ref())
            .map(change::nearest),
        differences: verdict
            .as_ref()
            .and_then(|verdict| verdict.differences.as_ref())
            .map(change::answer),
        cold: verdict
            .as_ref()
            .and_then(|verdict| verdict.cold_only.as_ref())
            .map(change::cold),
        kept: None,
    }
}

fn choices(ask: Ask) -> Vec<Choice> {
    ask.choices()
        .iter()
        .map(|(key, words)| Choice::new(*key, *words))
        .collect()
}

/// Why a recipe cannot be kept yet; empty when it can.
pub(crate) fn not_yet(reading: &Reading) -> String {
    if reading.recipe.title.trim().is_empty() {
        return "It has no title.".to_owned();
    }
    if reading
        .lines
        .iter()
        .all(|line| line.state == LineState::Heading)
    {
        return "It has no ingredient lines.".to_owned();
    }
    match reading.open.len() {
        0 => String::new(),
        1 => "One question is open.".to_owned(),
        more => format!("{more} questions are open."),
    }
}

fn summary(reading: &Reading) -> String {
    let lines = reading.lines.len();
    let mut parts = Vec::new();
    for (state, words) in [
        (LineState::Understood, "understood"),
        (LineState::Asked, "to be asked about"),
        (LineState::Partly, "in part"),
        (LineState::Unreadable, "not read, kept as written"),
        (
            LineState::Heading,
            if reading.count(LineState::Heading) == 1 {
                "heading"
            } else {
                "headings"
            },
        ),
    ] {
        match reading.count(state) {
            0 => {}
            count => parts.push(format!("{count} {words}")),
        }
    }
    let noun = if lines == 1 { "line" } else { "lines" };
    format!("{lines} {noun}: {}.", parts.join(", "))
}

fn line(line: &ReadLine) -> RecipeLine {
    RecipeLine {
        number: line.number,
        text: line.text.clone(),
        state: match line.state {
            LineState::Heading => "heading",
            LineState::Understood => "understood",
            LineState::Asked => "asked",
            LineState::Partly => "partly",
            LineState::Unreadable => "unreadable",
        }
        .to_owned(),
        amount: match (line.low, line.high) {
            (Some(low), Some(high)) => amount(&line.measured, low, high),
            _ => String::new(),
        },
        ingredient: line.name.clone(),
        note: line.note.clone(),
        strength: line.strength.map_or(String::new(), |percent| {
            format!("{} %", show::decimal(percent, 2))
        }),
        role: line
            .role
            .map_or(String::new(), |role| role.as_str().to_owned()),
        source: line.source.clone(),
        asks: line.asks.iter().map(|ask| ask.key().to_owned()).collect(),
        troubles: line
            .troubles
            .iter()
            .map(|trouble| RecipeTrouble {
                code: trouble.code.to_owned(),
                cause: trouble.cause.clone(),
                action: trouble.action.clone(),
            })
            .collect(),
    }
}

/// "2 1/4 cups = 532.32 mL": as written, and what that is, to two places.
fn amount(measured: &str, low: Amount, high: Amount) -> String {
    let (low_size, unit) = size(low);
    let (high_size, _) = size(high);
    let range = if low_size == high_size {
        show::decimal(low_size, 2)
    } else {
        format!(
            "{} to {}",
            show::decimal(low_size, 2),
            show::decimal(high_size, 2)
        )
    };
    format!("{measured} = {range}{unit}")
}

fn size(amount: Amount) -> (Exact, &'static str) {
    use kitchen::recipe::CountWord;
    match amount {
        Amount::Mass(mass) => (mass.in_unit(MassUnit::Gram), " g"),
        Amount::Volume(volume) => (volume.in_unit(VolumeUnit::Millilitre), " mL"),
        Amount::Count { number, of } => (
            number,
            match of {
                CountWord::Each => "",
                CountWord::Clove => " cloves",
                CountWord::Drop => " drops",
            },
        ),
    }
}
