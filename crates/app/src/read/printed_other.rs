//! Gift labels, seed packets, the load card, the disposal card, the test page, and what of all this
//! can be printed of a batch.

use super::printed_labels::{
    has_containers, laying, made_on, may_be_labelled, nothing_stands, printed, standing, wanted,
};
use crate::error::AppError;
use crate::facts::{BatchFact, BatchState, Facts};
use crate::read::batch::must_do_of;
use crate::read::counter::{capital, join};
use crate::read::enter::code_of_card;
use crate::request::{Now, PrintLabels};
use crate::view::Choice;
use crate::view::printed::{PrintOffer, Printed};
use crate::{App, balance, dates};
use kitchen::recipe::{Recipe, Route};
use ledger::Place;
use print::{Block, Card, Code, GiftLabel, Label, Paper, SeedLabel};

/// The sheets of labels to choose from.
pub fn print_sheets() -> Vec<Choice> {
    print::SHEETS
        .iter()
        .map(|sheet| Choice::new(sheet.key, sheet.title))
        .collect()
}

/// The outline page of a sheet: the edges of its labels and two rulers.
///
/// # Errors
/// A sheet or an offset that cannot be.
pub fn print_outline(request: &PrintLabels) -> Result<Printed, AppError> {
    let laying = laying(request)?;
    Ok(Printed {
        name: format!("outline-{}.pdf", laying.sheet.key),
        words: format!(
            "The outline of {}. Print it at 100 % on plain paper and hold it against the sheet.",
            laying.sheet.title
        ),
        labels: Vec::new(),
        card: None,
        bytes: print::outline_page(&laying)?,
    })
}

/// The disposal card on paper.
///
/// # Errors
/// A paper that is none, or a number of the card that is not in the tables.
pub fn print_disposal(paper: &str) -> Result<Printed, AppError> {
    let mut blocks = vec![Block::Large(
        "Not to be tasted, not to be eaten, not to be fed. A seal proves nothing.".to_owned(),
    )];
    for part in super::incident::disposal()?.parts {
        blocks.push(Block::Heading(part.title));
        for step in part.steps {
            blocks.push(Block::Tick(format!("{} ({})", step.text, step.source)));
        }
    }
    card_file(
        "disposal-card.pdf",
        Card {
            title: "Disposal card".to_owned(),
            subtitle: "How a jar that nobody may eat is thrown away".to_owned(),
            blocks,
            ..Card::default()
        },
        paper,
    )
}

/// A paper by its name; letter when nothing was said.
pub(super) fn paper(text: &str) -> Result<Paper, AppError> {
    match text.trim() {
        "" => Ok(Paper::Letter),
        text => Ok(text.parse()?),
    }
}

/// A card as a file.
pub(super) fn card_file(name: &str, card: Card, on: &str) -> Result<Printed, AppError> {
    let on = paper(on)?;
    Ok(Printed {
        name: name.to_owned(),
        words: format!("{}, on {}. Print at 100 %.", card.title, on.title()),
        labels: Vec::new(),
        bytes: print::card(&card, on)?,
        card: Some(card),
    })
}

impl App {
    /// What can be printed of a batch; asks the gate and writes nothing.
    ///
    /// # Errors
    /// No such batch.
    pub fn print_offer(&self, id: i64) -> Result<PrintOffer, AppError> {
        let facts = self.facts()?;
        let batch = facts.batch(id)?;
        let recipe = self.recipes.get(&batch.recipe)?;
        let seed = recipe.route == Route::Seed;
        let labels: i64 = if seed {
            1
        } else {
            standing(&facts, batch)
                .iter()
                .map(|line| line.count())
                .sum()
        };
        let why_not = match may_be_labelled(batch) {
            Err(error) => error.cause,
            Ok(()) => match self.label_refused(&facts, batch, recipe) {
                Some(why) => why,
                None if !seed && !has_containers(recipe) => {
                    "Nothing of it stands in jars or bags.".to_owned()
                }
                None if labels == 0 => nothing_stands(batch).cause,
                None => String::new(),
            },
        };
        let labels = if why_not.is_empty() { labels } else { 0 };
        let card = matches!(batch.state, BatchState::Planned | BatchState::Started);
        Ok(PrintOffer {
            batch: id,
            title: recipe.title.clone(),
            day: dates::day(batch.for_day),
            answer: match (card, labels) {
                (true, _) => "Its card can be printed; labels follow the outcome.".to_owned(),
                (false, 0) => "No label can be printed.".to_owned(),
                (false, 1) => "One label can be printed.".to_owned(),
                (false, count) => format!("{count} labels can be printed."),
            },
            card,
            code: code_of_card(id)?,
            labels,
            why_not,
            seed,
            square: !balance::house_now(&facts).address.is_empty(),
            sheets: print_sheets(),
            papers: Paper::ALL
                .into_iter()
                .map(|paper| Choice::new(paper.key(), paper.title()))
                .collect(),
        })
    }

    /// Gift labels: what is in the jar, and what some people must know of it.
    ///
    /// # Errors
    /// Those of [`App::print_labels`].
    pub fn print_gift(&self, now: &Now, request: &PrintLabels) -> Result<Printed, AppError> {
        let facts = self.facts()?;
        let batch = facts.batch(request.batch)?;
        let recipe = self.recipes.get(&batch.recipe)?;
        let laying = laying(request)?;
        self.ask_for_label(&facts, batch, recipe, now)?;
        let given: Vec<_> = standing(&facts, batch)
            .into_iter()
            .filter(|line| line.place() != Place::Fridge)
            .collect();
        let all: i64 = given.iter().map(|line| line.count()).sum();
        if all == 0 || !has_containers(recipe) {
            return Err(nothing_stands(batch));
        }
        let count = wanted(&request.count, all, Some(all))?;
        let (ingredients, flags) = contents(recipe, batch);
        let house = balance::house_now(&facts).name;
        let made = [dates::plain(made_on(batch)), house]
            .into_iter()
            .filter(|text| !text.is_empty())
            .collect::<Vec<_>>()
            .join(" · ");
        let frozen = given
            .first()
            .is_some_and(|line| line.place() == Place::Freezer);
        let labels = (1..=count)
            .map(|container| {
                Ok(Label::Gift(GiftLabel {
                    product: recipe.title.clone(),
                    made: made.clone(),
                    ingredients: format!("Contains: {ingredients}."),
                    flags: flags.clone(),
                    keep: if frozen {
                        "Keep frozen.".to_owned()
                    } else {
                        "Keep cool and dark; once open, in the fridge.".to_owned()
                    },
                    code: Code {
                        batch: batch.id,
                        container,
                    }
                    .to_text()?,
                }))
            })
            .collect::<Result<_, AppError>>()?;
        printed("gift", batch.id, labels, &laying, request.outline)
    }

    /// Seed packets of a batch of saved seed: one for each lot that went in, or so many as asked.
    ///
    /// # Errors
    /// Those of [`App::print_labels`], and a batch that is not kept for seed.
    pub fn print_seed(&self, now: &Now, request: &PrintLabels) -> Result<Printed, AppError> {
        let facts = self.facts()?;
        let batch = facts.batch(request.batch)?;
        let recipe = self.recipes.get(&batch.recipe)?;
        if recipe.route != Route::Seed {
            return Err(AppError::input(
                "batch",
                format!("Batch {} is {}, not saved seed.", batch.id, recipe.title),
                "Print its labels instead.",
            ));
        }
        let laying = laying(request)?;
        self.ask_for_label(&facts, batch, recipe, now)?;
        let sorts = self.seed_sorts(&facts, batch);
        if sorts.is_empty() {
            return Err(nothing_stands(batch));
        }
        let usual = i64::try_from(sorts.len()).unwrap_or(1);
        let count = wanted(&request.count, usual, None)?;
        let labels = sorts
            .iter()
            .cycle()
            .take(usize::try_from(count).unwrap_or(0))
            .map(|sort| Label::Seed(sort.clone()))
            .collect();
        printed("seed", batch.id, labels, &laying, request.outline)
    }

    /// One packet for each crop and variety that went in.
    fn seed_sorts(&self, facts: &Facts, batch: &BatchFact) -> Vec<SeedLabel> {
        let mut sorts: Vec<SeedLabel> = Vec::new();
        for lot in batch
            .inputs
            .iter()
            .filter_map(|input| facts.lots.get(&input.lot))
        {
            let title = kitchen::crop(&lot.crop).map_or(lot.crop.as_str(), |crop| &crop.title);
            let mut notes = Vec::new();
            if let Some(row) = self.reference.seed(&lot.crop.replace('-', "_")) {
                if let Some(years) = &row.seed_viability_years {
                    notes.push(format!("Sow within about {years} years."));
                }
                if !row.pollination.is_empty() {
                    notes.push(format!("{} pollinated.", capital(&row.pollination)));
                }
            }
            notes.push(format!("Batch {}. For sowing, not for eating.", batch.id));
            let sort = SeedLabel {
                crop: capital(title),
                variety: lot.variety.clone(),
                saved: format!("Saved {}", dates::plain(made_on(batch))),
                amount: String::new(),
                notes,
                place: String::new(),
            };
            if !sorts.contains(&sort) {
                sorts.push(sort);
            }
        }
        sorts
    }

    /// The card of one canner run for several batches, where the gate permits it.
    ///
    /// # Errors
    /// Those of [`App::load_together`], no batch chosen, or a refusal of the gate.
    pub fn print_load_card(
        &self,
        now: &Now,
        batches: &[i64],
        on: &str,
    ) -> Result<Printed, AppError> {
        let view = self.load_together(now, batches)?;
        let Some(plate) = view.verdict else {
            return Err(AppError::input(
                "batch",
                "No batch was chosen.",
                "Name the batches that share the canner.",
            ));
        };
        if plate.kind == "refusal" {
            return Err(AppError::refused(plate.reason, plate.instead));
        }
        let facts = self.facts()?;
        let time = match (plate.minutes, &plate.psi) {
            (Some(minutes), Some(psi)) => format!("{minutes} minutes at {psi} pounds"),
            (Some(minutes), None) => format!("{minutes} minutes"),
            _ => String::new(),
        };
        let mut blocks = vec![
            Block::Large(capital(&time)),
            Block::Text(plate.count_from.clone()),
            Block::Small(format!("{}. Read in: {}", plate.band, plate.source)),
            Block::Heading("What goes in".to_owned()),
        ];
        for line in view.batches.iter().filter(|line| line.chosen) {
            blocks.push(Block::Text(format!(
                "Batch {}, {}: {}",
                line.id, line.title, line.words
            )));
            blocks.push(Block::Small(format!(
                "Code of its card: {}",
                code_of_card(line.id)?
            )));
        }
        blocks.push(Block::Heading("Before the clock starts".to_owned()));
        let mut seen: Vec<String> = Vec::new();
        for id in batches {
            let batch = facts.batch(*id)?;
            if let Some(permit) = &batch.permit {
                for tick in must_do_of(self.recipes.get(&batch.recipe)?, batch, permit) {
                    if !seen.contains(&tick.text) {
                        seen.push(tick.text);
                    }
                }
            }
        }
        blocks.extend(seen.into_iter().map(Block::Tick));
        blocks.push(Block::Heading("The clock".to_owned()));
        blocks.extend(plate.keep_to.iter().cloned().map(Block::Text));
        blocks.push(Block::Timer {
            words: time,
            times: ["Counting from", "Heat off at", "Jars lifted at"]
                .map(str::to_owned)
                .to_vec(),
        });
        blocks.extend(
            plate
                .conditions
                .iter()
                .chain(&plate.notes)
                .cloned()
                .map(Block::Small),
        );
        card_file(
            "load-card.pdf",
            Card {
                title: "One canner load".to_owned(),
                subtitle: format!("Printed {}", dates::long(now.date)),
                blocks,
                foot: "What is written here goes onto the card of each batch.".to_owned(),
                ..Card::default()
            },
            on,
        )
    }
}

/// What is in the jar, as one list, and what some people must know of it.
fn contents(recipe: &Recipe, batch: &BatchFact) -> (String, Vec<String>) {
    let acid = batch
        .permit
        .as_ref()
        .and_then(|permit| permit.question.acid.as_ref())
        .and_then(|acid| acid.portions.first())
        .map(|portion| portion.acid.clone());
    let mut names: Vec<String> = Vec::new();
    // Of the acids that a recipe names, the one goes in that the permit was given for.
    let other_acid = |key: &str| {
        recipe.acid_choices.iter().any(|choice| choice.acid == key) && acid.as_deref() != Some(key)
    };
    let lines: Vec<_> = recipe
        .ingredients
        .iter()
        .filter(|line| !other_acid(&line.key))
        .collect();
    for line in lines.iter().filter(|line| !line.drained_off) {
        let name = match (line.optional, &line.choice) {
            (true, _) => format!("{} (perhaps)", line.name),
            (false, Some(_)) if acid.as_ref() != Some(&line.key) => {
                format!("{} (or another)", line.name)
            }
            _ => line.name.clone(),
        };
        if !names.contains(&name) {
            names.push(name);
        }
    }
    if let Some(acid) = &acid {
        let name = recipe
            .acid_choices
            .iter()
            .find(|choice| choice.acid == *acid)
            .map_or_else(|| acid.replace('-', " "), |choice| choice.name.clone());
        if !names.contains(&name) {
            names.push(name);
        }
    }
    if names.is_empty() {
        names.push(recipe.title.to_lowercase());
    }
    // What is poured off has touched the food: it is not listed, but it is warned of.
    let keys = lines
        .iter()
        .map(|line| line.key.as_str())
        .chain(acid.as_deref())
        .chain(recipe.food.as_deref());
    let flags = kitchen::flags::flags_of(keys)
        .into_iter()
        .map(|row| row.text.clone())
        .collect();
    (join(&names), flags)
}
