//! The tested process for one food, jar, canner and place: a look-up without a house (ruling 8);
//! with one, the gate's own answer as soon as it has been told enough.

mod address;
mod choose;
mod foods;
mod permit;
mod printed;
mod rows;

pub use foods::suggested_foods;
pub use printed::{PrintedSeries, printed_rows, printed_series};

use crate::error::AppError;
use crate::facts::Facts;
use crate::house::House;
use crate::read::{here, house::jar_words, verdict};
use crate::request::{AskProcess, Now};
use crate::view::Choice;
use crate::view::process::{AcidWords, Asked, OfferLine, ProcessView};
use crate::{App, balance};
use choose::{Chosen, Found};
use quantity::Elevation;
use reference::{FoodRow, Jar, Method, Pack, QuestionEffect, Reference};
use safety::{LookUp, Refusal};

/// What is known of the house where a question is asked.
#[derive(Default)]
struct Kitchen {
    /// The house, with an elevation; none without one.
    house: Option<House>,
    /// Day of the question, ISO.
    on: String,
    /// Foods in hand lately.
    recent: Vec<Choice>,
}

/// A question whose words have been understood.
struct Question<'a> {
    said: &'a AskProcess,
    food: &'a FoodRow,
    pack: Option<Pack>,
    jar: Option<Jar>,
    method: Option<Method>,
    elevation: Option<Elevation>,
    /// The elevation as it was typed, here or in the house.
    typed_elevation: String,
}

impl App {
    /// Answers from the printed tables with what the house is known to have; where it was told
    /// enough, the gate's permit.
    ///
    /// # Errors
    /// A word that is not understood, or those of reading the file. A refusal of the gate is part
    /// of the view.
    pub fn process(&self, now: &Now, request: &AskProcess) -> Result<ProcessView, AppError> {
        let facts = self.facts()?;
        let house = balance::house_now(&facts);
        let kitchen = Kitchen {
            house: (!house.elevation.trim().is_empty()).then_some(house),
            on: now.date.to_string(),
            recent: self.recent_foods(&facts),
        };
        view(request, &kitchen)
    }

    fn recent_foods(&self, facts: &Facts) -> Vec<Choice> {
        foods::recent(self.reference, &self.recipes, facts)
    }
}

/// Looks up the printed tables; needs no household.
///
/// # Errors
/// An unknown food (with the nearest names), pack, jar, method or elevation.
pub fn ask_process(request: &AskProcess) -> Result<ProcessView, AppError> {
    view(request, &Kitchen::default())
}

fn view(request: &AskProcess, kitchen: &Kitchen) -> Result<ProcessView, AppError> {
    let reference = Reference::embedded();
    let mut view = ProcessView {
        asked: asked(request),
        title: String::new(),
        filled_in: String::new(),
        house_known: kitchen.house.is_some(),
        recent: kitchen.recent.clone(),
        groups: foods::groups(reference),
        answer: None,
        offers: Vec::new(),
        switches: Vec::new(),
        open: None,
        bands: Vec::new(),
        beside: Vec::new(),
        rows: Vec::new(),
        headspace: String::new(),
        acid: Vec::new(),
        recipes: Vec::new(),
        questions: Vec::new(),
        here: Vec::new(),
        cautions: cautions(),
    };
    if request.food.trim().is_empty() {
        return Ok(view);
    }
    let food = foods::food_of(reference, request.food.trim())?;
    let question = Question {
        said: request,
        food,
        pack: parse(&request.pack, "pack", "raw or hot")?,
        jar: parse(&request.jar, "jar", "half-pint, pint, quart, ...")?,
        method: parse(
            &request.method,
            "method",
            "boiling-water, dial-gauge, weighted-gauge or steam",
        )?,
        elevation: elevation(request, kitchen)?,
        typed_elevation: typed_elevation(request, kitchen),
    };
    let (chosen, found) = choose::choose(reference, kitchen, &question)?;
    view.asked.food.clone_from(&food.food);
    chosen.pack.as_str().clone_into(&mut view.asked.pack);
    chosen.jar.as_str().clone_into(&mut view.asked.jar);
    chosen.method().as_str().clone_into(&mut view.asked.method);
    view.asked.canner = chosen
        .canner
        .map(|canner| canner.name.clone())
        .unwrap_or_default();
    view.title.clone_from(&food.title);
    view.filled_in = filled_in(reference, &question, &chosen);
    view.switches = choose::switches(reference, kitchen, &question, &chosen);
    answer(&mut view, reference, kitchen, &question, &chosen, found)?;
    let key = rows::answering(reference, &view, food, &chosen);
    rows::fill(&mut view, reference, &question, &chosen, key.as_deref());
    view.questions = permit::questions(reference, &question, &chosen);
    view.recipes = reference
        .recipes_for_food(&food.food)
        .into_iter()
        .map(|recipe| Choice::new(&recipe.key, &recipe.title))
        .collect();
    view.acid = acid(reference, food, chosen.jar)?;
    view.headspace = headspace(reference, &question, &chosen);
    if let Some(elevation) = &question.elevation {
        let psi: Vec<_> = view
            .answer
            .iter()
            .filter_map(|plate| plate.psi.as_deref())
            .filter_map(|psi| quantity::parse::number(psi).ok())
            .collect();
        view.here = here::of_place(elevation, &psi);
    }
    Ok(view)
}

/// The plate: a permit where the gate gives one, a refusal, or the printed row.
fn answer(
    view: &mut ProcessView,
    reference: &Reference,
    kitchen: &Kitchen,
    question: &Question<'_>,
    chosen: &Chosen<'_>,
    found: Found,
) -> Result<(), AppError> {
    let top = top(reference, question, chosen);
    if let Some(refusal) = permit::closed_by_answer(reference, question, chosen) {
        view.answer = Some(verdict::refusal(&refusal, top));
        return Ok(());
    }
    match found {
        Found::No(refusal) => {
            view.offers = offers(question, &refusal);
            view.answer = Some(verdict::refusal(&refusal, top));
        }
        Found::Barred(row, refusal) => {
            view.answer = Some(plate(&row, top, &question.typed_elevation));
            view.open = Some(permit::bar(&refusal));
        }
        Found::Row(row) => {
            view.answer = Some(plate(&row, top.clone(), &question.typed_elevation));
            // A permit belongs to the house and its own place.
            if chosen.canner.is_some() && question.said.elevation.trim().is_empty() {
                match permit::ask(reference, kitchen, question, chosen)? {
                    permit::Asked::Permit(mut permit) => {
                        permit.top = top;
                        view.answer = Some(*permit);
                    }
                    permit::Asked::Open(open) => view.open = Some(open),
                }
            }
        }
    }
    Ok(())
}

fn asked(request: &AskProcess) -> Asked {
    let word = |text: &str| text.trim().to_owned();
    Asked {
        food: word(&request.food),
        pack: word(&request.pack),
        jar: word(&request.jar),
        method: word(&request.method),
        canner: word(&request.canner),
        elevation: word(&request.elevation),
        acid: word(&request.acid),
        vinegar: word(&request.vinegar),
        sound: word(&request.sound),
        answers: request.answers.clone(),
    }
}

fn parse<T: std::str::FromStr>(text: &str, field: &str, words: &str) -> Result<Option<T>, AppError>
where
    T::Err: std::fmt::Display,
{
    let text = text.trim();
    if text.is_empty() {
        return Ok(None);
    }
    text.parse().map(Some).map_err(|error: T::Err| {
        AppError::input(field, error.to_string(), format!("Choose {words}."))
    })
}

fn typed_elevation(request: &AskProcess, kitchen: &Kitchen) -> String {
    match (request.elevation.trim(), &kitchen.house) {
        ("", Some(house)) => house.elevation.trim().to_owned(),
        (text, _) => text.to_owned(),
    }
}

fn elevation(request: &AskProcess, kitchen: &Kitchen) -> Result<Option<Elevation>, AppError> {
    let text = typed_elevation(request, kitchen);
    if text.is_empty() {
        return Ok(None);
    }
    quantity::parse::elevation(&text)
        .map(Some)
        .map_err(|error| {
            AppError::input(
                "elevation",
                error.to_string(),
                "Write it as «2500ft», «305 m» or «950 ft ± 60».",
            )
        })
}

/// "Tomato juice, hot pack, quart, boiling water".
fn top(reference: &Reference, question: &Question<'_>, chosen: &Chosen<'_>) -> String {
    format!(
        "{}, {}, {}, {}",
        question.food.title,
        pack_words(reference, question.food, chosen.pack),
        jar_words(chosen.jar, 1),
        verdict::method_words(chosen.method())
    )
}

/// "hot pack"; where the label takes either pack, what the label means (ruling 15).
fn pack_words(reference: &Reference, food: &FoodRow, pack: Pack) -> String {
    let label = reference
        .questions_for(&food.food)
        .into_iter()
        .find(|row| row.effect == QuestionEffect::EitherPack);
    match label {
        Some(row) => {
            let mut words = row.text.clone();
            if let Some(first) = words.get_mut(0..1) {
                first.make_ascii_lowercase();
            }
            words
        }
        None => format!("{} pack", pack.as_str()),
    }
}

/// What nobody said and the page filled in.
fn filled_in(reference: &Reference, question: &Question<'_>, chosen: &Chosen<'_>) -> String {
    let said = question.said;
    let mut words = Vec::new();
    if question.pack.is_none() {
        words.push(pack_words(reference, question.food, chosen.pack));
    }
    if question.jar.is_none() {
        words.push(jar_words(chosen.jar, 1));
    }
    if said.canner.trim().is_empty() && question.method.is_none() {
        words.push(match chosen.canner {
            Some(canner) => canner.name.clone(),
            None => verdict::method_words(chosen.method()).to_owned(),
        });
    }
    words.join(", ")
}

/// The ways that a refusal offers, each as a whole question.
fn offers(question: &Question<'_>, refusal: &Refusal) -> Vec<OfferLine> {
    refusal
        .offers
        .iter()
        .map(|offer| OfferLine {
            asks: match offer.kind {
                "pack" | "jar" => address::with(question, &[(offer.kind, &offer.value)]),
                // Another method is another canner.
                "method" => address::with(question, &[("method", &offer.value), ("canner", "")]),
                _ => Vec::new(),
            },
            text: offer.text.clone(),
        })
        .collect()
}

fn plate(found: &LookUp, top: String, elevation: &str) -> crate::view::batch::VerdictView {
    let words = |minutes: u32, psi: Option<String>| match psi {
        None => format!("{minutes} minutes"),
        Some(psi) => format!("{minutes} minutes at {psi} psi"),
    };
    let first = found
        .pairs
        .iter()
        .find(|shown| shown.pair.minutes == found.minutes && shown.pair.psi == found.psi);
    let shown_psi = |pair: &safety::Pair| match pair.dial_shows_psi {
        Some(shows) => Some(quantity::show::number(shows)),
        None => pair.psi.map(|psi| psi.to_string()),
    };
    let mut notes: Vec<String> = first
        .iter()
        .flat_map(|shown| &shown.marks)
        .map(|mark| format!("This cell is doubtful: {mark}."))
        .collect();
    notes.extend(
        found
            .notes
            .iter()
            .map(|note| format!("{} ({})", note.text, note.source)),
    );
    crate::view::batch::VerdictView {
        minutes: Some(i64::from(found.minutes)),
        psi: first.and_then(|shown| shown_psi(&shown.pair)),
        other_pairs: found
            .pairs
            .iter()
            .filter(|shown| (shown.pair.minutes, shown.pair.psi) != (found.minutes, found.psi))
            .map(|shown| {
                let mark = match (shown.show_only, shown.marks.first()) {
                    (true, Some(mark)) => format!(" (shown only, never a permit: {mark})"),
                    (false, Some(mark)) => format!(" ({mark})"),
                    _ => String::new(),
                };
                format!(
                    "or, as a whole: {}{mark}",
                    words(shown.pair.minutes, shown_psi(&shown.pair))
                )
            })
            .collect(),
        band: verdict::band_words(found.band_low_ft, found.band_high_ft, elevation),
        band_low_ft: Some(i64::from(found.band_low_ft)),
        band_high_ft: found.band_high_ft.map(i64::from),
        source: found.source.clone(),
        notes,
        cannot_know: found.does_not_know.clone(),
        count_from: verdict::count_from(found.method),
        water_over: verdict::water_over(found.method, found.minutes),
        ..verdict::plate("look-up", top)
    }
}

fn acid(reference: &Reference, food: &FoodRow, jar: Jar) -> Result<Vec<AcidWords>, AppError> {
    let lines = kitchen::card::acid_for_jar(reference, &food.food, jar)
        .map_err(|error| AppError::failed(error, "The tables are at fault: report it."))?;
    Ok(lines
        .into_iter()
        .map(|line| AcidWords {
            text: format!(
                "{} {} for each {}",
                line.per_jar,
                line.name,
                jar_words(jar, 1)
            ),
            mark: line.mark,
            source: line.source,
        })
        .collect())
}

/// Headspace as printed, or as an answer of the food sets it.
fn headspace(reference: &Reference, question: &Question<'_>, chosen: &Chosen<'_>) -> String {
    let by_answer = reference
        .questions_for(&question.food.food)
        .into_iter()
        .find(|row| {
            row.effect == QuestionEffect::Headspace
                && permit::raised(row, chosen)
                && question.said.answers.get(&row.question) == Some(&row.answer)
        })
        .and_then(|row| Some((quantity::parse::number(&row.value).ok()?, &row.source)));
    let printed = question
        .food
        .headspace_in
        .as_ref()
        .map(|inches| (inches.high(), &question.food.source));
    by_answer
        .or(printed)
        .map(|(inches, source)| {
            format!(
                "{} in, from the rim to the food ({source})",
                quantity::show::number(inches)
            )
        })
        .unwrap_or_default()
}

/// The usual cautions; whom to ask (AIB 539, 2015).
fn cautions() -> Vec<String> {
    vec![
        "A look-up is not a permit: the label, the batch and the load's clock need a house with its elevation and canner.".to_owned(),
        "A seal shows vacuum, not safety. What is not in the tables is frozen or refrigerated.".to_owned(),
        "Current advice of your extension service and local codes come before this program.".to_owned(),
    ]
}
