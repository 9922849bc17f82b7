//! A household's own recipe: tested where it matches a tested recipe within allowed changes, else
//! a trial for the refrigerator or freezer.

use super::edit::{Amount, ChangeError, Edit, RecipeChange};
use super::fact::named;
use super::line::above_zero;
use super::nearest::{self, Fit};
use super::verdict::{self, ChangeVerdict, ColdOnly};
use quantity::{Exact, exact_text};
use reference::{ChangeAnswer, IngredientKind, Jar, Method, Pack, Reference};
use serde::Serialize;

/// One line of a household's recipe.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct HouseholdLine {
    /// The ingredient as written.
    pub name: String,
    /// How much.
    pub amount: Amount,
    /// `batch`, or the jar it goes into: `jar-pint`.
    pub per: String,
}

/// A household's own recipe, and how it would be put up.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct HouseholdRecipe {
    /// Its name.
    pub title: String,
    /// Its lines.
    pub lines: Vec<HouseholdLine>,
    /// The jar wished; `None` = as the tested recipe has it.
    pub jar: Option<Jar>,
    /// The pack wished.
    pub pack: Option<Pack>,
    /// The canner wished.
    pub canner: Option<Method>,
}

/// What a household's recipe is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum RecipeState {
    /// It matches a tested recipe within allowed changes.
    Tested,
    /// It is near a tested recipe and differs where it must not: refrigerator or freezer only.
    HouseholdTrial,
    /// No tested recipe is near enough to compare: refrigerator or freezer only.
    Unknown,
}

/// The nearest tested recipe.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Nearest {
    /// Its key.
    pub recipe: String,
    /// As printed.
    pub title: String,
    /// Where it was read.
    pub source: String,
    /// How many of the household's lines it shares.
    pub shared: usize,
    /// How far apart the two are: one for each line that only one of them has or that is another
    /// ingredient, and for each shared line the part by which its amounts differ.
    #[serde(with = "exact_text")]
    pub distance: Exact,
}

/// The answer to a household's recipe.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct HouseholdVerdict {
    /// Its name.
    pub title: String,
    /// What it is.
    pub state: RecipeState,
    /// Why, in words.
    pub why: String,
    /// The nearest tested recipe, where one is near enough to compare.
    pub nearest: Option<Nearest>,
    /// The differences from it as edits, each with its answer.
    pub differences: Option<ChangeVerdict>,
    /// Ingredients that no table knows.
    pub not_known: Vec<String>,
    /// Where it goes instead of the shelf; only when it is not tested.
    pub cold_only: Option<ColdOnly>,
}

/// What a household's own recipe is: tested, a household trial, or unknown.
///
/// Every tested recipe that shares at least half of its lines is held against it, the nearest
/// first (the distance is that of [`Nearest::distance`], after scaling evenly); the first whose
/// differences are all allowed makes it tested.
///
/// # Errors
/// No lines, a line without a name, an amount of nothing or too finely divided.
pub fn judge_household_recipe(
    reference: &Reference,
    recipe: &HouseholdRecipe,
) -> Result<HouseholdVerdict, ChangeError> {
    if recipe.lines.is_empty() {
        return Err(ChangeError::new(
            "lines",
            "The recipe has no lines.",
            "Write each ingredient with its amount, such as «onions» and «5 cups».",
        ));
    }
    for (index, line) in recipe.lines.iter().enumerate() {
        named(&line.name, &format!("lines.{}.name", index + 1))?;
        above_zero(&line.amount, &format!("lines.{}.amount", index + 1))?;
    }
    let mut nearest: Option<(Fit<'_>, ChangeVerdict)> = None;
    let mut tested = false;
    for fit in nearest::by_distance(reference, &recipe.lines, recipe.jar)? {
        let mut edits = fit.edits.clone();
        edits.extend(recipe.jar.map(|jar| Edit::Jar { jar }));
        edits.extend(recipe.pack.map(|pack| Edit::Pack { pack }));
        edits.extend(recipe.canner.map(|canner| Edit::Canner { canner }));
        let change = RecipeChange {
            recipe: fit.sheet.key.clone(),
            edits,
        };
        let judged = super::judge_change(reference, &change)?;
        // A recipe that is kept in the refrigerator has no process to put it up by.
        let food = judged.food.as_deref().unwrap_or_default();
        let has_process = !reference.processes_for(food).is_empty();
        tested = has_process && judged.answer != ChangeAnswer::Refuse;
        if tested || nearest.is_none() {
            nearest = Some((fit, judged));
        }
        if tested {
            break;
        }
    }
    let not_known: Vec<String> = recipe
        .lines
        .iter()
        .filter(|line| reference.ingredient(&line.name).is_none())
        .filter(|line| !prints(reference, nearest.as_ref(), &line.name))
        .map(|line| line.name.clone())
        .collect();
    let oil = recipe.lines.iter().any(|line| {
        reference
            .ingredient(&line.name)
            .is_some_and(|row| row.kind == IngredientKind::Oil)
    });
    let (state, why) = match (&nearest, tested) {
        (Some((fit, _)), true) => (
            RecipeState::Tested,
            format!(
                "It is the tested recipe {} within allowed changes. Put it up as that recipe: its jar, its pack, its process.",
                fit.sheet.title
            ),
        ),
        (Some((fit, judged)), false) => (
            RecipeState::HouseholdTrial,
            format!(
                "The nearest tested recipe is {}{}",
                fit.sheet.title,
                match judged.answer {
                    ChangeAnswer::Refuse => {
                        "; the differences below are not covered by its test."
                    }
                    ChangeAnswer::Allow | ChangeAnswer::AllowIf => {
                        ", and the tables have no process for it."
                    }
                }
            ),
        ),
        (None, _) => (
            RecipeState::Unknown,
            "No tested recipe shares half of its lines, so there is nothing to hold it against."
                .to_owned(),
        ),
    };
    let (nearest, differences) = nearest.map_or((None, None), |(fit, judged)| {
        let nearest = Nearest {
            recipe: fit.sheet.key.clone(),
            title: fit.sheet.title.clone(),
            source: fit.sheet.source.clone(),
            shared: fit.shared,
            distance: fit.distance,
        };
        (Some(nearest), Some(judged))
    });
    Ok(HouseholdVerdict {
        title: recipe.title.clone(),
        state,
        why,
        nearest,
        differences,
        not_known,
        cold_only: (!tested).then(|| verdict::cold_only(reference, &recipe.title, oil)),
    })
}

/// Whether the recipe beside it prints an ingredient of this name, whatever it may be.
fn prints(reference: &Reference, nearest: Option<&(Fit<'_>, ChangeVerdict)>, name: &str) -> bool {
    nearest.is_some_and(|(fit, _)| {
        let mut rows = fit.sheet.rows.iter();
        rows.any(|row| reference.same_ingredient(name, &row.ingredient))
    })
}
