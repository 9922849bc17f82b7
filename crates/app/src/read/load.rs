//! May the jars of several batches share one canner run? The gate is asked with today's facts.

use crate::error::AppError;
use crate::facts::{BatchFact, BatchState};
use crate::read::house::jar_words;
use crate::read::verdict;
use crate::request::Now;
use crate::view::batch::VerdictView;
use crate::view::load::{LoadLine, LoadView};
use crate::{App, balance};
use safety::{LoadRecord, LoadVerdict, PermitRecord};

impl App {
    /// The batches for jars, and the gate's answer for those chosen. Writes nothing.
    ///
    /// # Errors
    /// A number that is no batch, or a batch without jars to process. A refusal of the gate is
    /// part of the view.
    pub fn load_together(&self, now: &Now, chosen: &[i64]) -> Result<LoadView, AppError> {
        let facts = self.facts()?;
        let house = balance::house_now(&facts);
        let mut questions = Vec::new();
        let mut titles: Vec<String> = Vec::new();
        for id in chosen {
            let batch = facts.batch(*id)?;
            let Some(record) = open_jars(batch) else {
                return Err(AppError::input(
                    "batch",
                    format!(
                        "Batch {id} ({}) has no jars that wait for a canner.",
                        self.recipe_title(&batch.recipe)
                    ),
                    "Choose batches for jars that are set up or begun.",
                ));
            };
            let Some(question) = self.question_today(&facts, &house, batch, record, now)? else {
                return Err(AppError::input(
                    "batch",
                    format!("The house no longer has «{}».", batch.setup.canner),
                    "Set the batch up again with a canner that is there.",
                ));
            };
            titles.push(self.recipe_title(&batch.recipe));
            questions.push(question);
        }
        let verdict = (!questions.is_empty()).then(|| {
            let top = format!("One load: {}", titles.join(", "));
            match safety::judge_load(self.reference, &questions) {
                LoadVerdict::Permit(permit) => plate(permit.record(), top, &house.elevation),
                LoadVerdict::Refusal(refusal) => verdict::refusal(&refusal, top),
            }
        });
        Ok(LoadView {
            batches: facts
                .batches
                .values()
                .filter_map(|batch| {
                    let record = open_jars(batch)?;
                    Some(LoadLine {
                        id: batch.id,
                        title: self.recipe_title(&batch.recipe),
                        words: format!(
                            "{}, {}: {}",
                            jar_words(record.question.jar, 2),
                            batch.setup.canner,
                            verdict::pair_words(&record.chosen)
                        ),
                        chosen: chosen.contains(&batch.id),
                    })
                })
                .collect(),
            verdict,
        })
    }
}

/// The permit of a batch whose jars have not been through the canner.
fn open_jars(batch: &BatchFact) -> Option<&PermitRecord> {
    let open = matches!(batch.state, BatchState::Planned | BatchState::Started);
    batch.permit.as_ref().filter(|_| open)
}

/// The load's permit on the plate of its longest jar, with every jar's own line beside it.
fn plate(record: &LoadRecord, top: String, elevation: &str) -> VerdictView {
    let jars = || record.pairs.iter().zip(&record.permits);
    let Some((pair, longest)) = jars().max_by_key(|(pair, _)| pair.minutes) else {
        return verdict::plate("refusal", top);
    };
    // The load is the longest jar's permit at the load's own pair, under everyone's conditions.
    let load = PermitRecord {
        chosen: pair.clone(),
        pairs: vec![pair.clone()],
        conditions: record.conditions.clone(),
        ..longest.clone()
    };
    let base = verdict::permit(&load, elevation);
    let method = verdict::method_words(longest.question.canner.method());
    let own_lines = jars().map(|(pair, permit)| {
        format!(
            "{}, {}: its own line is {} ({})",
            permit.title,
            jar_words(permit.question.jar, 2),
            verdict::pair_words(pair),
            pair.source
        )
    });
    let rules = record
        .rules
        .iter()
        .map(|rule| format!("{} ({})", rule.text, rule.source));
    VerdictView {
        top: format!("{top}, {method}"),
        notes: own_lines.chain(rules).chain(base.notes.clone()).collect(),
        ..base
    }
}
