//! How many times the recipe: as typed, as the produce reaches, as jars, goods or a pot ask.

use crate::error::AppError;
use crate::request::NewBatch;
use kitchen::recipe::{Amount, Basis, Recipe};
use kitchen::scale::{BatchesPossible, batches_for_jars, batches_for_pot, batches_possible};
use quantity::{Exact, Mass, Volume};
use reference::Jar;

/// How many times the recipe; once when nothing is said. One way of saying it at a time: a number
/// of jars beside another is only held against what that makes.
///
/// # Errors
/// Two ways at once, a text that is not understood, an amount too small for the least that can be
/// made.
pub(crate) fn multiplier(
    recipe: &Recipe,
    request: &NewBatch,
    jar: Option<Jar>,
) -> Result<Exact, AppError> {
    let said: Vec<(&str, &str)> = [
        ("batches", request.batches.trim()),
        ("produce", request.produce.trim()),
        ("pot", request.pot.trim()),
        ("have", request.have.first().map_or("", |text| text.trim())),
    ]
    .into_iter()
    .filter(|(_, text)| !text.is_empty())
    .collect();
    if let [first, second, ..] = said.as_slice() {
        return Err(AppError::input(
            first.0,
            format!("Both {} and {} were given.", first.0, second.0),
            "Leave one of the two empty.",
        ));
    }
    match said.first() {
        Some(("batches", text)) => quantity::parse::number(text).map_err(|error| {
            AppError::input(
                "batches",
                error.to_string(),
                "Write a number such as «2» or «1 1/2».",
            )
        }),
        Some(("produce", text)) => by_produce(recipe, text),
        Some(("pot", text)) => Ok(batches_for_pot(recipe, pot(text)?)?),
        Some(_) => by_goods(recipe, request),
        None => match (jars(request)?, jar) {
            (None, _) => Ok(quantity::whole(1)),
            (Some(count), Some(jar)) => Ok(batches_for_jars(recipe, count, jar)?),
            (Some(_), None) => Err(AppError::input(
                "jars_count",
                format!("{} does not go into jars.", recipe.title),
                "Give the number of batches instead.",
            )),
        },
    }
}

/// The number of jars that was said, if any.
///
/// # Errors
/// A text that is no whole number above nought.
pub(crate) fn jars(request: &NewBatch) -> Result<Option<u32>, AppError> {
    match request.jars_count.trim() {
        "" => Ok(None),
        text => text
            .parse::<u32>()
            .ok()
            .filter(|count| *count > 0)
            .map(Some)
            .ok_or_else(|| {
                AppError::input(
                    "jars_count",
                    format!("«{text}» is no number of jars."),
                    "Write a whole number above 0, such as 10.",
                )
            }),
    }
}

/// A pot's volume.
///
/// # Errors
/// A text that is no volume.
pub(crate) fn pot(text: &str) -> Result<Volume, AppError> {
    quantity::parse::volume(text).map_err(|error| {
        AppError::input(
            "pot",
            error.to_string(),
            "Write it as «12 quarts» or «10 L».",
        )
    })
}

/// What the goods at hand allow; nothing where none were named.
///
/// # Errors
/// A text without «=», an amount that is not understood, an ingredient the recipe does not have.
pub(crate) fn possible(
    recipe: &Recipe,
    request: &NewBatch,
) -> Result<Option<BatchesPossible>, AppError> {
    let mut goods = Vec::new();
    for text in request.have.iter().filter(|text| !text.trim().is_empty()) {
        let wrong = |cause: String| {
            AppError::input("have", cause, "Write it as «cider-vinegar-5pct=3 cups».")
        };
        let (name, amount) = text
            .split_once('=')
            .ok_or_else(|| wrong(format!("«{text}» has no «=».")))?;
        let amount = quantity::parse::volume(amount.trim())
            .map(Amount::Volume)
            .or_else(|_| quantity::parse::mass(amount.trim()).map(Amount::Mass))
            .map_err(|error| wrong(error.to_string()))?;
        let nothing = match amount {
            Amount::Mass(mass) => mass <= Mass::ZERO,
            Amount::Volume(volume) => volume <= Volume::ZERO,
            Amount::Count { .. } => false,
        };
        if nothing {
            return Err(wrong(format!("«{text}» is nothing.")));
        }
        goods.push((ingredient_named(recipe, name.trim()), amount));
    }
    if goods.is_empty() {
        return Ok(None);
    }
    batches_possible(recipe, &goods)
        .map(Some)
        .map_err(|error| AppError::input("have", error.to_string(), ""))
}

/// The ingredient of that key, or the only one whose key ends or begins with it: "vinegar-5pct"
/// of a recipe that says which vinegar. Anything else stays as typed and is refused by name.
fn ingredient_named(recipe: &Recipe, name: &str) -> String {
    let keys = || recipe.ingredients.iter().map(|line| line.key.as_str());
    if keys().any(|key| key == name) {
        return name.to_owned();
    }
    let mut near: Vec<&str> = keys()
        .filter(|key| {
            key.strip_suffix(name)
                .is_some_and(|rest| rest.ends_with('-'))
                || key
                    .strip_prefix(name)
                    .is_some_and(|rest| rest.starts_with('-'))
        })
        .collect();
    near.dedup();
    match near.as_slice() {
        [only] => (*only).to_owned(),
        _ => name.to_owned(),
    }
}

fn by_goods(recipe: &Recipe, request: &NewBatch) -> Result<Exact, AppError> {
    let whole = possible(recipe, request)?.map_or(1, |found| found.whole);
    if whole == 0 {
        return Err(AppError::input(
            "have",
            format!("What there is does not make one batch of {}.", recipe.title),
            "Get more of it, or say which part of a batch with the number of batches.",
        ));
    }
    Ok(quantity::whole(i64::from(whole)))
}

fn by_produce(recipe: &Recipe, produce: &str) -> Result<Exact, AppError> {
    let mass = quantity::parse::mass(produce)
        .map_err(|error| AppError::input("produce", error.to_string(), ""))?;
    let main = recipe.main_produce();
    let batch = recipe
        .uses
        .iter()
        .find(|used| main.is_none_or(|main| main.key == used.ingredient))
        .map(|used| used.high)
        .or_else(|| recipe.batch_mass())
        .ok_or_else(|| {
            AppError::input(
                "produce",
                format!(
                    "{} is not reckoned by the weight of its produce.",
                    recipe.title
                ),
                "Give the number of batches instead.",
            )
        })?;
    let times = mass.ratio(batch)?;
    let times = if recipe.basis == Basis::Pounds && recipe.may_multiply {
        times
    } else {
        Exact::from_integer(quantity::floor(times))
    };
    if times <= quantity::whole(0) {
        return Err(AppError::input(
            "produce",
            format!(
                "{} does not make one batch of {}, which takes {}.",
                quantity::show::mass(mass),
                recipe.title,
                quantity::show::mass(batch)
            ),
            "Weigh in more, or use it another way.",
        ));
    }
    Ok(times)
}
