//! The card of a batch: what stands on the paper by the stove, with blanks for what is typed in
//! later. Every blank comes from the list that the page of the returning card asks from.

use super::enter::code_of_card;
use super::printed_other::{card_file, paper};
use crate::error::AppError;
use crate::facts::BatchState;
use crate::read::batch::hold_reason;
use crate::request::{Now, PrintCard};
use crate::view::batch::BatchView;
use crate::view::enter::{AskKind, EnterPart};
use crate::view::printed::Printed;
use crate::{App, balance};
use print::{Blank, Block, Card};

impl App {
    /// The card of a batch that is set up or begun: amounts, permit, ticks, blanks, clock.
    ///
    /// # Errors
    /// No such batch; one that is finished, held or called off; a gate that answers otherwise than
    /// when it was set up (the batch goes on hold).
    pub fn print_card(&self, now: &Now, request: &PrintCard) -> Result<Printed, AppError> {
        paper(&request.paper)?;
        let card = self.batch_card(now, request.batch)?;
        card_file(
            &format!("batch-{}-card.pdf", request.batch),
            card,
            &request.paper,
        )
    }

    /// The card as words.
    fn batch_card(&self, now: &Now, id: i64) -> Result<Card, AppError> {
        let facts = self.facts()?;
        let batch = facts.batch(id)?;
        match batch.state {
            BatchState::Planned | BatchState::Started => {}
            BatchState::Held => {
                return Err(AppError::refused(
                    format!("Batch {id} is on hold: {}", hold_reason(batch)),
                    "It gets no card. See the batch for what may be done with it.",
                ));
            }
            BatchState::Finished | BatchState::Cancelled => {
                return Err(AppError::input(
                    "batch",
                    format!("Batch {id} is {}: it needs no card.", batch.state.word()),
                    "Print the card of a batch that is set up or begun.",
                ));
            }
        }
        if let Some(why) = self.changed_since(&facts, batch, now)? {
            self.hold_batch(now, id, &why)?;
            return Err(AppError::refused(
                format!("The gate no longer answers as it did when batch {id} was set up: {why}"),
                "The batch is on hold and gets no card.",
            ));
        }
        let recipe = self.recipes.get(&batch.recipe)?;
        let house = balance::house_now(&facts);
        let parts = self.card_parts(&facts, &house, batch, recipe)?;
        let view = self.batch(now, id)?;
        let code = code_of_card(id)?;
        let address = if house.address.is_empty() {
            String::new()
        } else {
            format!("{}/jar/{code}", house.address)
        };
        Ok(Card {
            title: view.title.clone(),
            subtitle: format!("Batch {id} · {}", crate::dates::long(batch.for_day)),
            code,
            address,
            blocks: blocks(&view, &parts),
            foot: view.source,
        })
    }
}

fn blocks(view: &BatchView, parts: &[EnterPart]) -> Vec<Block> {
    let mut out = vec![Block::Large(view.answer.clone())];
    verdict(view, &mut out);
    take(view, &mut out);
    if !view.steps.is_empty() {
        out.push(Block::Heading("Step by step".to_owned()));
        for (index, step) in view.steps.iter().enumerate() {
            let stop = if step.stop.is_empty() {
                String::new()
            } else {
                format!(" {}", step.stop)
            };
            out.push(Block::Text(format!("{}. {}{stop}", index + 1, step.text)));
        }
    }
    out.extend(view.cautions.iter().cloned().map(Block::Small));
    for part in parts {
        blanks(part, &mut out);
    }
    out
}

/// The permit, or the verdict of another route, with its source.
fn verdict(view: &BatchView, out: &mut Vec<Block>) {
    let plate = &view.verdict;
    if plate.minutes.is_some() {
        out.push(Block::Text(format!("Permit: {}", plate.top)));
        let limits = [&plate.band, &plate.count_from]
            .into_iter()
            .filter(|text| !text.is_empty())
            .cloned()
            .collect::<Vec<_>>()
            .join(". ");
        out.push(Block::Text(limits));
    } else {
        out.push(Block::Text(plate.reason.clone()));
    }
    if let Some(days) = plate.eat_within_days {
        out.push(Block::Text(format!("Eat within {days} days.")));
    }
    for line in plate
        .other_pairs
        .iter()
        .chain(&plate.conditions)
        .chain(&plate.keep_to)
    {
        out.push(Block::Small(line.clone()));
    }
    out.push(Block::Small(format!("Read in: {}", plate.source)));
}

/// What is taken, jars, acid, headspace, loads.
fn take(view: &BatchView, out: &mut Vec<Block>) {
    if !view.takes.is_empty() || !view.lines.is_empty() {
        out.push(Block::Heading("What to take".to_owned()));
    }
    out.extend(view.takes.iter().cloned().map(Block::Text));
    for line in &view.lines {
        let note = [&line.per_jar, &line.role, &line.short]
            .into_iter()
            .filter(|text| !text.is_empty())
            .cloned()
            .collect::<Vec<_>>()
            .join("; ");
        out.push(Block::Amount {
            name: line.name.clone(),
            kitchen: line.kitchen.clone(),
            metric: line.metric.clone(),
            note,
        });
    }
    if view.jars.is_none() && view.acid.is_none() && view.headspace.is_none() {
        return;
    }
    out.push(Block::Heading("Jars and acid".to_owned()));
    if let Some(jars) = &view.jars {
        out.push(Block::Text(format!("Expect {}.", jars.words)));
    }
    if let Some(headspace) = &view.headspace {
        out.push(Block::Text(format!("Headspace {headspace}.")));
    }
    out.extend(view.loads.iter().cloned().map(Block::Text));
    if let Some(acid) = &view.acid {
        out.push(Block::Text("Acid, one of these, whole:".to_owned()));
        out.extend(acid.choices.iter().cloned().map(Block::Text));
        out.push(Block::Small(acid.source.clone()));
    }
    if let Some(jars) = &view.jars
        && !jars.partial.is_empty()
    {
        out.push(Block::Small(jars.partial.clone()));
    }
}

/// One part of the blanks: boxes, a line for the clock, or blanks side by side.
fn blanks(part: &EnterPart, out: &mut Vec<Block>) {
    if part.key.starts_with("load.") {
        out.push(Block::Timer {
            words: part.title.clone(),
            times: part.asks.iter().map(|ask| ask.label.clone()).collect(),
        });
        return;
    }
    out.push(Block::Heading(part.title.clone()));
    for ask in part.asks.iter().filter(|ask| ask.kind == AskKind::Tick) {
        out.push(Block::Tick(ask.label.clone()));
    }
    let lines: Vec<Blank> = part
        .asks
        .iter()
        .filter(|ask| ask.kind != AskKind::Tick)
        .map(|ask| Blank {
            label: ask.label.clone(),
            hint: ask.hint.clone(),
        })
        .collect();
    if !lines.is_empty() {
        out.push(Block::Blanks(lines));
    }
}
