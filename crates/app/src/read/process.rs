//! The tested process for one food, jar, canner and place: a look-up, not a permit (ruling 8).

use crate::error::AppError;
use crate::read::house::jar_words;
use crate::read::verdict;
use crate::request::AskProcess;
use crate::view::Choice;
use crate::view::batch::VerdictView;
use crate::view::process::{Asked, ProcessView, RowLine};
use crate::{App, read};
use reference::{FoodRow, Jar, Mark, Method, Pack, ProcessRow, Reference};
use safety::LookUp;

impl App {
    /// Looks up the printed tables.
    ///
    /// # Errors
    /// A word that is not understood. A refusal of the gate is part of the view.
    pub fn process(&self, request: &AskProcess) -> Result<ProcessView, AppError> {
        ask_process(request)
    }
}

/// Looks up the printed tables; needs no household.
///
/// # Errors
/// An unknown food (with the nearest names), pack, jar, method or elevation.
pub fn ask_process(request: &AskProcess) -> Result<ProcessView, AppError> {
    let reference = Reference::embedded();
    let mut view = ProcessView {
        asked: Asked {
            food: request.food.trim().to_owned(),
            pack: request.pack.trim().to_owned(),
            jar: request.jar.trim().to_owned(),
            method: request.method.trim().to_owned(),
            elevation: request.elevation.trim().to_owned(),
        },
        foods: reference
            .foods()
            .iter()
            .map(|food| Choice::new(&food.food, &food.title))
            .collect(),
        packs: Pack::ALL
            .iter()
            .map(|pack| Choice::new(pack.as_str(), pack.as_str()))
            .collect(),
        jars: Jar::ALL
            .iter()
            .map(|jar| Choice::new(jar.as_str(), jar_words(*jar, 1)))
            .collect(),
        methods: Method::ALL
            .iter()
            .map(|method| Choice::new(method.as_str(), verdict::method_words(*method)))
            .collect(),
        answer: None,
        rows: Vec::new(),
        headspace: String::new(),
        acid: Vec::new(),
        cautions: cautions(),
    };
    if request.food.trim().is_empty() {
        return Ok(view);
    }
    let food = food_of(reference, request.food.trim())?;
    view.asked.food.clone_from(&food.food);
    view.headspace = food
        .headspace_in
        .as_ref()
        .map(|inches| {
            format!(
                "{} in, from the rim to the food ({})",
                quantity::show::number(inches.high()),
                food.source
            )
        })
        .unwrap_or_default();
    view.acid = reference
        .acid_for(&food.food)
        .into_iter()
        .map(|row| {
            format!(
                "{} {} {} for each {} ({})",
                quantity::show::number(row.amount.high()),
                row.unit,
                row.acid.replace("-5pct", " of 5 percent").replace('-', " "),
                jar_words(row.jar, 1),
                row.source
            )
        })
        .collect();
    let elevation = match request.elevation.trim() {
        "" => None,
        text => Some(quantity::parse::elevation(text).map_err(|error| {
            AppError::input(
                "elevation",
                error.to_string(),
                "Write it as «2500ft», «305 m» or «950 ft ± 60».",
            )
        })?),
    };
    let jar = parse(&view.asked.jar, "jar", "half-pint, pint, quart, ...")?;
    let method = parse(
        &view.asked.method,
        "method",
        "boiling-water, dial-gauge, weighted-gauge or steam",
    )?;
    let pack = match parse(&view.asked.pack, "pack", "raw or hot")? {
        Some(pack) => Some(pack),
        None => only_pack(reference, food),
    };
    let answered = match (pack, jar, method) {
        (Some(pack), Some(jar), Some(method)) => {
            let top = format!(
                "{}, {} pack, {}, {}",
                food.title,
                pack.as_str(),
                jar_words(jar, 1),
                verdict::method_words(method)
            );
            match safety::look_up(reference, &food.food, pack, jar, method, elevation) {
                Ok(found) => {
                    view.answer = Some(plate(&found, top, &view.asked.elevation));
                    found
                        .pairs
                        .iter()
                        .map(|shown| shown.pair.row_key.clone())
                        .collect()
                }
                Err(refusal) => {
                    view.answer = Some(verdict::refusal(&refusal, top));
                    Vec::new()
                }
            }
        }
        _ => {
            view.answer = missing(&view.asked, pack.is_some());
            Vec::new()
        }
    };
    view.rows = rows(reference, food, method, &answered);
    Ok(view)
}

fn parse<T: std::str::FromStr>(text: &str, field: &str, words: &str) -> Result<Option<T>, AppError>
where
    T::Err: std::fmt::Display,
{
    if text.is_empty() {
        return Ok(None);
    }
    text.parse().map(Some).map_err(|error: T::Err| {
        AppError::input(field, error.to_string(), format!("Choose {words}."))
    })
}

fn food_of<'a>(reference: &'a Reference, text: &str) -> Result<&'a FoodRow, AppError> {
    if let Some(food) = reference.food(text) {
        return Ok(food);
    }
    let near: Vec<&str> = reference
        .suggest_food(text)
        .into_iter()
        .take(5)
        .map(|food| food.food.as_str())
        .collect();
    Err(AppError::input(
        "food",
        format!("«{text}» is not in the tested tables."),
        if near.is_empty() {
            "See the list of foods; what is not in it is frozen or refrigerated.".to_owned()
        } else {
            format!(
                "Did you mean {}? What is not in the tables is frozen or refrigerated.",
                near.join(", ")
            )
        },
    ))
}

/// The pack, where the food is printed for one pack only: asking would be idle.
fn only_pack(reference: &Reference, food: &FoodRow) -> Option<Pack> {
    let fits = |pack: Pack| {
        reference
            .processes_for(&food.food)
            .iter()
            .any(|row| row.pack.serves(pack))
    };
    match (fits(Pack::Hot), fits(Pack::Raw)) {
        (true, false) => Some(Pack::Hot),
        (false, true) => Some(Pack::Raw),
        _ => None,
    }
}

/// A plate that says what was not asked yet.
fn missing(asked: &Asked, pack_known: bool) -> Option<VerdictView> {
    let mut open = Vec::new();
    if !pack_known && asked.pack.is_empty() {
        open.push("the pack (raw or hot)".to_owned());
    }
    for (text, words) in [(&asked.jar, "the jar"), (&asked.method, "the canner")] {
        if text.is_empty() {
            open.push(words.to_owned());
        }
    }
    if asked.jar.is_empty() && asked.method.is_empty() {
        // Only a food was named: its rows are shown, nothing was refused.
        return None;
    }
    let mut plate = verdict::plate("refusal", asked.food.clone());
    plate.reason = format!("Not said yet: {}.", read::counter::join(&open));
    "Say it, and the row is shown. Nothing is assumed.".clone_into(&mut plate.instead);
    "question-incomplete".clone_into(&mut plate.code);
    Some(plate)
}

fn plate(found: &LookUp, top: String, elevation: &str) -> VerdictView {
    let words = |minutes: u32, psi: Option<u32>| match psi {
        None => format!("{minutes} minutes"),
        Some(psi) => format!("{minutes} minutes at {psi} psi"),
    };
    let first = (found.minutes, found.psi);
    VerdictView {
        minutes: Some(i64::from(found.minutes)),
        psi: found.psi.map(|psi| psi.to_string()),
        other_pairs: found
            .pairs
            .iter()
            .filter(|shown| (shown.pair.minutes, shown.pair.psi) != first)
            .map(|shown| {
                let mark = match (shown.show_only, shown.marks.first()) {
                    (true, Some(mark)) => format!(" (shown only, never a permit: {mark})"),
                    (false, Some(mark)) => format!(" ({mark})"),
                    _ => String::new(),
                };
                format!(
                    "or, as a whole: {}{mark}",
                    words(shown.pair.minutes, shown.pair.psi)
                )
            })
            .collect(),
        band: verdict::band_words(found.band_low_ft, found.band_high_ft, elevation),
        band_low_ft: Some(i64::from(found.band_low_ft)),
        band_high_ft: found.band_high_ft.map(i64::from),
        source: found.source.clone(),
        notes: found
            .notes
            .iter()
            .map(|note| format!("{} ({})", note.text, note.source))
            .collect(),
        cannot_know: found.does_not_know.clone(),
        count_from: verdict::count_from(found.method),
        ..verdict::plate("look-up", top)
    }
}

fn rows(
    reference: &Reference,
    food: &FoodRow,
    method: Option<Method>,
    answered: &[String],
) -> Vec<RowLine> {
    let read_method = method.map(|method| {
        if method == Method::Steam {
            Method::BoilingWater
        } else {
            method
        }
    });
    reference
        .processes_for(&food.food)
        .into_iter()
        .filter(|row| read_method.is_none_or(|method| row.method == method))
        .map(|row| row_line(row, answered))
        .collect()
}

fn row_line(row: &ProcessRow, answered: &[String]) -> RowLine {
    RowLine {
        pack: row.pack.as_str().to_owned(),
        jar: jar_words(row.jar, 1),
        method: verdict::method_words(row.method).to_owned(),
        band: verdict::band_words(row.low_ft, row.high_ft, ""),
        minutes: i64::from(row.minutes),
        psi: row.psi.map(|psi| psi.to_string()).unwrap_or_default(),
        page: format!("p. {}", row.page),
        mark: if row.mark == Mark::Text2015 {
            String::new()
        } else {
            "older copy".to_owned()
        },
        answers: answered.contains(&row.key()),
    }
}

/// The usual cautions; whom to ask (AIB 539, 2015).
fn cautions() -> Vec<String> {
    vec![
        "A look-up is not a permit: the label, the batch and the load's clock need a house with its elevation and canner.".to_owned(),
        "A seal shows vacuum, not safety. What is not in the tables is frozen or refrigerated.".to_owned(),
        "Current advice of your extension service and local codes come before this program.".to_owned(),
    ]
}
