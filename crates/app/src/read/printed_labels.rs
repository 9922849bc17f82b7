//! Labels of a batch: for the jars and bags that stand, for jars that are given away, for seed.
//!
//! A label says that something may be eaten, so the gate is asked again before one is printed
//! (ruling 27), and a batch on hold gets none.

use crate::action::finish::{OutcomeRecord, outcome_place};
use crate::action::lot::place_title;
use crate::error::AppError;
use crate::facts::{BatchFact, BatchState, Facts};
use crate::read::batch::hold_reason;
use crate::read::counter::capital;
use crate::read::enter::scaled_card;
use crate::read::house::container_words;
use crate::request::{Now, PrintLabels};
use crate::view::printed::Printed;
use crate::{App, balance, dates};
use jiff::ToSpan;
use jiff::civil::Date;
use kitchen::recipe::{Recipe, Route};
use ledger::Place;
use print::{Code, JarLabel, Label, Laying};
use safety::Again;

/// More labels at once are a slipped digit (our decision): ten sheets of thirty.
const MOST_LABELS: i64 = 300;

/// An address longer than this makes the square on a label too fine to be read (our decision).
const LONGEST_ADDRESS: usize = 60;

/// Containers of one size that stand in one place and may be labelled.
pub(super) struct Standing {
    size: String,
    place: Place,
    count: i64,
}

impl Standing {
    /// Where they stand.
    pub(super) const fn place(&self) -> Place {
        self.place
    }

    /// How many.
    pub(super) const fn count(&self) -> i64 {
        self.count
    }
}

impl App {
    /// Labels for what stands of a batch.
    ///
    /// # Errors
    /// No such batch; a batch on hold, called off or without an outcome; a gate that answers
    /// otherwise than before (the batch goes on hold); nothing that stands; a sheet, a first label
    /// or an offset that cannot be.
    pub fn print_labels(&self, now: &Now, request: &PrintLabels) -> Result<Printed, AppError> {
        let facts = self.facts()?;
        let batch = facts.batch(request.batch)?;
        let recipe = self.recipes.get(&batch.recipe)?;
        let laying = laying(request)?;
        self.ask_for_label(&facts, batch, recipe, now)?;
        let made = made_on(batch);
        let standing = standing(&facts, batch);
        let all: i64 = standing.iter().map(|line| line.count).sum();
        let wanted = wanted(&request.count, all, Some(all))?;
        if all == 0 {
            return Err(nothing_stands(batch));
        }
        let house = balance::house_now(&facts);
        let capacity = scaled_card(&facts, &house, batch, recipe)?
            .loads
            .filter(|loads| loads.loads > 1)
            .map(|loads| i64::from(loads.capacity.max(1)));
        let mut labels = Vec::new();
        let mut number = 0;
        for line in &standing {
            let best = self.best(recipe, batch, line, made);
            for _ in 0..line.count {
                number += 1;
                let code = Code {
                    batch: batch.id,
                    container: number,
                }
                .to_text()?;
                let load = match (capacity, recipe.route) {
                    // Jars are counted load by load, as they were lifted.
                    (Some(capacity), Route::Heat) => {
                        format!(", load {}", (number - 1) / capacity + 1)
                    }
                    _ => String::new(),
                };
                labels.push(Label::Jar(JarLabel {
                    product: recipe.title.clone(),
                    container: format!(
                        "{} {number} of {all}",
                        capital(&container_words(&line.size, 1))
                    ),
                    batch: format!("batch {}{load}", batch.id),
                    made: format!("Made {}", dates::plain(made)),
                    ripen_until: self.ripen_until(recipe, line, made),
                    best: best.clone(),
                    place: place_title(line.place).to_lowercase(),
                    address: square(&house.address, &code),
                    code,
                }));
            }
        }
        labels.truncate(usize::try_from(wanted).unwrap_or(0));
        printed("labels", batch.id, labels, &laying, request.outline)
    }

    /// May a label be printed? The gate is asked again; another answer holds the batch.
    pub(super) fn ask_for_label(
        &self,
        facts: &Facts,
        batch: &BatchFact,
        recipe: &Recipe,
        now: &Now,
    ) -> Result<(), AppError> {
        may_be_labelled(batch)?;
        if let Some(why) = self.label_refused(facts, batch, recipe) {
            if batch.permit.is_some() {
                self.hold_batch(now, batch.id, &why)?;
            }
            return Err(AppError::refused(
                format!(
                    "The gate no longer answers as it did when batch {} was set up: {why}",
                    batch.id
                ),
                "It gets no label. See the batch for what may be done with it.",
            ));
        }
        Ok(())
    }

    /// Why the gate would not have it labelled; nothing when it answers as it did.
    pub(super) fn label_refused(
        &self,
        facts: &Facts,
        batch: &BatchFact,
        recipe: &Recipe,
    ) -> Option<String> {
        match &batch.permit {
            // The jars are made: the question is the one of their day, put to today's tables.
            Some(record) => match safety::ask_again(self.reference, record) {
                Again::Changed(why) => Some(why),
                _ => None,
            },
            None if recipe.route == Route::Heat => Some("it has no permit.".to_owned()),
            None => {
                let lots = batch.inputs.iter().map(|input| input.lot);
                let verdict = self.judge_cool(recipe, &crate::gate::histories(facts, lots));
                (!verdict.allowed).then_some(verdict.reason)
            }
        }
    }

    /// "Best by 27 August 2027": for quality, but in the fridge, where the day is for safety.
    fn best(&self, recipe: &Recipe, batch: &BatchFact, line: &Standing, made: Date) -> String {
        let whole = |months: quantity::Exact| i64::try_from(quantity::floor(months)).ok();
        match line.place {
            Place::Fridge => {
                let own = (recipe.route == Route::Fridge)
                    .then(|| self.judge_cool(recipe, &[]).eat_within_days)
                    .flatten();
                let days = own.map_or(recipe.fridge_days, |days| days.min(recipe.fridge_days));
                let from = batch.lifted().map_or(made, |lifted| lifted.date.min(made));
                format!("EAT BY {}", dates::plain(dates::plus_days(from, days)))
            }
            Place::Shelf if recipe.route == Route::Heat => self
                .reference
                .practice("use-within")
                .and_then(|row| row.value.trim().parse::<i64>().ok())
                .map(|years| {
                    format!(
                        "Best by {}",
                        dates::plain(made.saturating_add(years.years()))
                    )
                })
                .unwrap_or_default(),
            Place::Freezer | Place::Shelf => recipe
                .times
                .best_months
                .and_then(whole)
                .map(|months| {
                    format!(
                        "Best by {}",
                        dates::plain(made.saturating_add(months.months()))
                    )
                })
                .unwrap_or_default(),
            _ => String::new(),
        }
    }

    fn ripen_until(&self, recipe: &Recipe, line: &Standing, made: Date) -> String {
        kitchen::ripe::ripening(self.reference, &recipe.key)
            .filter(|_| line.place == Place::Shelf)
            .map(|weeks| {
                let until = dates::plus_days(made, weeks.most_weeks.saturating_mul(7));
                format!("Ripens until {}", dates::plain(until))
            })
            .unwrap_or_default()
    }
}

/// A batch that is held, called off or not finished gets no label.
pub(super) fn may_be_labelled(batch: &BatchFact) -> Result<(), AppError> {
    match batch.state {
        BatchState::Finished => Ok(()),
        BatchState::Held => Err(AppError::refused(
            format!("Batch {} is on hold: {}", batch.id, hold_reason(batch)),
            "It gets no label. See the batch for what may be done with it.",
        )),
        BatchState::Planned | BatchState::Started => Err(AppError::input(
            "batch",
            format!("Nothing has come out of batch {} yet.", batch.id),
            "Enter its outcome first; the card can be printed now.",
        )),
        BatchState::Cancelled => Err(AppError::input(
            "batch",
            format!("Batch {} was called off.", batch.id),
            "See the list of batches.",
        )),
    }
}

pub(super) fn nothing_stands(batch: &BatchFact) -> AppError {
    AppError::input(
        "batch",
        format!(
            "Nothing of batch {} stands anywhere that could be labelled.",
            batch.id
        ),
        "Jars set aside get no label; see the batch.",
    )
}

/// What stands of a batch in touchable places, its own place first, without what is set aside.
pub(super) fn standing(facts: &Facts, batch: &BatchFact) -> Vec<Standing> {
    let aside = batch.set_aside();
    let mut all: Vec<Standing> = facts
        .standing(batch.id)
        .map(|(size, place, count)| Standing {
            count: count - aside.get(&(size.to_owned(), place)).copied().unwrap_or(0),
            size: size.to_owned(),
            place,
        })
        .filter(|line| line.count > 0)
        .collect();
    all.sort_by_key(|line| (line.place == Place::Fridge, line.size != batch.container));
    all
}

/// The day a batch was made: its jars were lifted, else its outcome was entered.
pub(super) fn made_on(batch: &BatchFact) -> Date {
    let outcome = batch.last("outcome");
    let lifted = outcome
        .and_then(|event| serde_json::from_value::<OutcomeRecord>(event.content.clone()).ok())
        .and_then(|record| record.lifted);
    match (lifted, outcome) {
        (Some(lifted), _) => lifted.date,
        (None, Some(event)) => event.on,
        (None, None) => batch.for_day,
    }
}

/// How many labels are wanted: `usual` when nothing was typed, never more than `most`.
pub(super) fn wanted(text: &str, usual: i64, most: Option<i64>) -> Result<i64, AppError> {
    if text.trim().is_empty() {
        return Ok(usual.min(MOST_LABELS));
    }
    let count = crate::action::stores::count("count", text)?;
    let most = most.unwrap_or(MOST_LABELS).min(MOST_LABELS);
    if count == 0 || count > most {
        return Err(AppError::input(
            "count",
            format!("{count} labels are not wanted here: from 1 to {most} are possible."),
            "Leave it empty for one for each container.",
        ));
    }
    Ok(count)
}

/// Where the labels lie on their sheet.
pub(super) fn laying(request: &PrintLabels) -> Result<Laying, AppError> {
    let sheet = match request.sheet.trim() {
        "" => print::SHEETS[0].key,
        sheet => sheet,
    };
    let mut laying = Laying::on(sheet)?;
    laying.from = match request.from.trim() {
        "" => 1,
        text => text.parse().map_err(|_| {
            AppError::input(
                "from",
                format!("«{text}» is no place on a sheet."),
                "Count along the rows from 1.",
            )
        })?,
    };
    laying.offset_x = offset("offset_x", &request.offset_x)?;
    laying.offset_y = offset("offset_y", &request.offset_y)?;
    laying.check()?;
    Ok(laying)
}

fn offset(field: &str, text: &str) -> Result<f64, AppError> {
    let text = text.trim().replace('−', "-").replace(',', ".");
    if text.is_empty() {
        return Ok(0.0);
    }
    text.parse::<f64>()
        .ok()
        .filter(|offset| offset.abs() <= print::MOST_OFFSET)
        .ok_or_else(|| {
            AppError::input(
                field,
                format!("«{text}» is no offset."),
                format!(
                    "Write millimetres up to {} either way, such as 0.5 or -0.3.",
                    print::MOST_OFFSET
                ),
            )
        })
}

/// The address that a label's square leads to; empty where the house has none.
pub(super) fn square(address: &str, code: &str) -> String {
    if address.is_empty() {
        String::new()
    } else {
        format!("{address}/jar/{code}")
    }
}

/// A sheet of labels as a file.
pub(super) fn printed(
    what: &str,
    batch: i64,
    labels: Vec<Label>,
    laying: &Laying,
    outline: bool,
) -> Result<Printed, AppError> {
    let bytes = print::labels(&labels, laying, outline)?;
    Ok(Printed {
        name: format!("batch-{batch}-{what}.pdf"),
        words: format!(
            "{} of batch {batch} on {}. Print at 100 %.",
            match (what, labels.len()) {
                ("seed", 1) => "1 seed packet".to_owned(),
                ("seed", count) => format!("{count} seed packets"),
                (_, 1) => "1 label".to_owned(),
                (_, count) => format!("{count} labels"),
            },
            laying.sheet.title
        ),
        labels,
        card: None,
        bytes,
    })
}

/// Holds an address against what fits into the square of a label.
///
/// # Errors
/// No web address, or one too long.
pub(crate) fn sound_address(address: &str) -> Result<(), AppError> {
    let rest = address
        .strip_prefix("http://")
        .or_else(|| address.strip_prefix("https://"));
    let sound = |rest: &str| {
        !rest.is_empty()
            && address.len() <= LONGEST_ADDRESS
            && rest
                .chars()
                .all(|sign| sign.is_ascii_alphanumeric() || ".-:[]/_".contains(sign))
    };
    if address.is_empty() || rest.is_some_and(sound) {
        return Ok(());
    }
    Err(AppError::input(
        "address",
        format!("«{address}» is no address for the square on a label."),
        format!(
            "Write it as http://stillroom.home.arpa:7310, up to {LONGEST_ADDRESS} signs, or leave it empty."
        ),
    ))
}

/// Is a batch of this recipe kept where jars and bags stand?
pub(super) fn has_containers(recipe: &Recipe) -> bool {
    outcome_place(recipe.route).is_touchable() && recipe.route != Route::Seed
}
