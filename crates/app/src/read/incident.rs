//! The answer to an incident in words, for a batch of the record or for a jar that was found.

use crate::App;
use crate::action::incident::yes_no;
use crate::action::lot::place_title;
use crate::action::settle::{NEW_LIDS, done_words, open_ticks};
use crate::error::AppError;
use crate::facts::{BatchFact, BatchState, Facts};
use crate::incident::{IncidentRecord, food_kind};
use crate::moment::{self, Moment};
use crate::read::batch::{hold_reason, must_do};
use crate::read::counter::capital;
use crate::read::house::container_words;
use crate::request::{AskIncident, Now};
use crate::view::Choice;
use crate::view::batch::{BatchView, TickLine};
use crate::view::incident::{
    DisposalPart, DisposalView, IncidentKindsView, IncidentView, KindGroup, KindLine, WayLine,
};
use reference::{
    IncidentAffects, IncidentClock, IncidentGroup, IncidentHold, IncidentWay, Reference,
};
use safety::{FoodKind, IncidentAnswer, IncidentError, IncidentQuestion, Statement};

/// The kinds to choose from, by when they are noticed.
pub fn incident_kinds() -> IncidentKindsView {
    let reference = Reference::embedded();
    let title = |group: IncidentGroup| match group {
        IncidentGroup::Canner => "While the load is in the canner",
        IncidentGroup::Process => "The process was wrong",
        IncidentGroup::Jar => "A jar came out wrong",
        IncidentGroup::Later => "Found on the shelf",
    };
    IncidentKindsView {
        groups: IncidentGroup::ALL
            .iter()
            .map(|group| KindGroup {
                title: title(*group).to_owned(),
                kinds: reference
                    .incidents()
                    .iter()
                    .filter(|row| row.group == *group)
                    .map(|row| KindLine {
                        kind: row.kind.clone(),
                        button: row.button.clone(),
                        title: row.title.clone(),
                        in_canner: row.clock == IncidentClock::Restart,
                        asks_process: row.right_process,
                        asks_sealed: row.clock == IncidentClock::Frozen,
                    })
                    .collect(),
            })
            .collect(),
    }
}

/// The published answer without any batch: a jar that was found, a load in another house.
///
/// # Errors
/// A kind that is none (with the nearest names), a time that is not understood or lies ahead.
pub fn ask_incident(now: &Now, request: &AskIncident) -> Result<IncidentView, AppError> {
    let reference = Reference::embedded();
    moment::read("noticed", &request.noticed, now)?;
    let lifted = moment::read("lifted", &request.lifted, now)?;
    let question = IncidentQuestion {
        kind: request.kind.trim().to_owned(),
        food: FoodKind::Unknown,
        minutes_since_lifted: lifted.map(|lifted| lifted.minutes_to(Moment::now(now))),
        in_canner: request.in_canner && lifted.is_none(),
        process_was_right: yes_no("process", &request.process)?,
        sealed: yes_no("sealed", &request.sealed)?,
    };
    let answer = judge(reference, &question)?;
    view(reference, &answer, lifted, now)
}

/// The disposal card.
///
/// # Errors
/// A number of the card that is not in the tables.
pub fn disposal() -> Result<DisposalView, AppError> {
    disposal_of(Reference::embedded())
}

fn disposal_of(reference: &Reference) -> Result<DisposalView, AppError> {
    let card = safety::disposal_card(reference)
        .map_err(|refusal| AppError::failed(refusal.reason, refusal.instead))?;
    let part = |title: &str, steps: Vec<Statement>| DisposalPart {
        title: title.to_owned(),
        steps: steps
            .into_iter()
            .map(|step| WayLine {
                way: step.key,
                text: step.text,
                source: step.source,
            })
            .collect(),
    };
    Ok(DisposalView {
        parts: vec![
            part("Every jar", card.all),
            part("Still sealed", card.sealed),
            part("Open or leaking", card.open),
            part("Afterwards", card.after),
        ],
    })
}

pub(crate) fn unknown_kind(reference: &Reference, kind: &str) -> AppError {
    let near: Vec<&str> = reference
        .suggest_incident(kind)
        .into_iter()
        .map(|row| row.kind.as_str())
        .collect();
    AppError::input(
        "kind",
        format!("«{kind}» is no kind of incident."),
        if near.is_empty() {
            "See `stillroom incident list`.".to_owned()
        } else {
            format!(
                "Did you mean {}? See `stillroom incident list`.",
                near.join(", ")
            )
        },
    )
}

fn judge(reference: &Reference, question: &IncidentQuestion) -> Result<IncidentAnswer, AppError> {
    safety::judge_incident(reference, question).map_err(|error| match error {
        IncidentError::UnknownKind { kind, .. } => unknown_kind(reference, &kind),
        IncidentError::NoNumber(refusal) => AppError::failed(refusal.reason, refusal.instead),
    })
}

/// What to do now, as one sentence.
pub(crate) fn headline(answer: &IncidentAnswer) -> String {
    let words: Vec<&str> = answer
        .ways
        .iter()
        .filter_map(|line| match line.way {
            IncidentWay::Restart => Some("bring it back and count the full time again"),
            IncidentWay::Reprocess => Some("reprocess in full"),
            IncidentWay::Fridge => Some("refrigerate"),
            IncidentWay::Freeze => Some("freeze"),
            IncidentWay::Keep if answer.clock == IncidentClock::Broken => None,
            IncidentWay::Keep => Some("keep it closed and use it first"),
            IncidentWay::Look => Some("look at every lid, without opening"),
            IncidentWay::Bin => Some("throw the broken jar away, food and all"),
            IncidentWay::Discard => Some("discard it by the disposal card"),
            IncidentWay::Lost | IncidentWay::Looser => None,
        })
        .collect();
    match words.as_slice() {
        [] => "Discard it by the disposal card.".to_owned(),
        [one] => format!("{}.", capital(one)),
        [most @ .., last] => format!("{} or {last} now.", capital(&most.join(", "))),
    }
}

/// The view of an answer, as far as it needs no batch.
fn view(
    reference: &Reference,
    answer: &IncidentAnswer,
    lifted: Option<Moment>,
    now: &Now,
) -> Result<IncidentView, AppError> {
    let until = answer
        .minutes_left
        .zip(answer.limit_minutes)
        .zip(lifted)
        .map(|((left, limit), lifted)| (lifted.plus(limit), left));
    Ok(IncidentView {
        entry: None,
        batch: None,
        product: String::new(),
        kind: answer.kind.clone(),
        title: answer.title.clone(),
        now: headline(answer),
        answer: answer.answer.clone(),
        source: answer.source.clone(),
        clock: answer.clock.to_string(),
        phase: answer.phase.to_string(),
        until: until
            .map(|(end, _)| format!("before {}", end.words(now.date)))
            .unwrap_or_default(),
        left: until
            .map(|(_, left)| format!("{} left", quantity::show::minutes(left)))
            .unwrap_or_default(),
        ways: answer
            .ways
            .iter()
            .map(|line| WayLine {
                way: line.way.to_string(),
                text: line.text.clone(),
                source: line.source.clone(),
            })
            .collect(),
        looser: answer
            .looser
            .iter()
            .map(|line| WayLine {
                way: line.key.clone(),
                text: line.text.clone(),
                source: line.source.clone(),
            })
            .collect(),
        jars: match answer.affects {
            IncidentAffects::Jar => "This jar.",
            IncidentAffects::Load => "Every jar of the load.",
            IncidentAffects::Batch => "Every jar of the batch.",
            IncidentAffects::Gauge => "Every batch made with that gauge since its last test.",
        }
        .to_owned(),
        hold: match answer.hold {
            IncidentHold::None => "",
            IncidentHold::Jars => {
                "The jars concerned are set aside: not eaten, not given, not moved."
            }
            IncidentHold::Batch => "The whole batch goes on hold: not eaten, not given, not moved.",
        }
        .to_owned(),
        ask: answer.ask.clone(),
        notes: answer
            .notes
            .iter()
            .map(|note| format!("{} ({})", note.text, note.source))
            .collect(),
        disposal_only: answer.disposal_only,
        disposal: answer
            .disposal_only
            .then(|| disposal_of(reference))
            .transpose()?,
        settle: Vec::new(),
        open_count: 0,
        reprocess_ticks: Vec::new(),
    })
}

impl App {
    /// The published answer to what was stated, as of now.
    pub(crate) fn incident_answer(
        &self,
        record: &IncidentRecord,
        lifted: Option<Moment>,
        food: FoodKind,
        now: &Now,
    ) -> Result<IncidentAnswer, AppError> {
        judge(
            self.reference,
            &record.question(lifted, food, Moment::now(now)),
        )
    }

    /// One incident of a batch, with the clock as it stands now.
    ///
    /// # Errors
    /// No such batch or incident.
    pub fn incident(&self, now: &Now, batch: i64, entry: i64) -> Result<IncidentView, AppError> {
        let facts = self.facts()?;
        let batch = facts.batch(batch)?;
        self.incident_views(&facts, batch, now)?
            .into_iter()
            .find(|view| view.entry == Some(entry))
            .ok_or_else(|| {
                AppError::missing(
                    "incident",
                    format!("Batch {} has no incident {entry}.", batch.id),
                    "See the batch for what was stated.",
                )
            })
    }

    /// Every incident of a batch, newest first.
    pub(crate) fn incident_views(
        &self,
        facts: &Facts,
        batch: &BatchFact,
        now: &Now,
    ) -> Result<Vec<IncidentView>, AppError> {
        let food = food_kind(self.reference, batch);
        let mut views = Vec::new();
        for (entry, record) in batch.incidents() {
            let answer = self.incident_answer(&record, batch.lifted(), food, now)?;
            let mut view = view(self.reference, &answer, batch.lifted(), now)?;
            view.entry = Some(entry);
            view.batch = Some(batch.id);
            view.product = format!("{}, batch {}", self.recipe_title(&batch.recipe), batch.id);
            self.fill_settle(&mut view, facts, batch, &record, &answer);
            if !record.note.is_empty() {
                view.notes.push(format!("Noted: {}", record.note));
            }
            views.push(view);
        }
        views.reverse();
        Ok(views)
    }

    /// Which jars are still concerned, and what can be written down as done.
    fn fill_settle(
        &self,
        view: &mut IncidentView,
        facts: &Facts,
        batch: &BatchFact,
        record: &IncidentRecord,
        answer: &IncidentAnswer,
    ) {
        let Some(place) = record.place else {
            return;
        };
        view.open_count = match record.hold {
            IncidentHold::None => 0,
            IncidentHold::Jars => batch
                .set_aside()
                .get(&(record.size.clone(), place))
                .copied()
                .unwrap_or(0),
            IncidentHold::Batch if batch.state == BatchState::Held => facts
                .container_balances
                .get(&(batch.id, record.size.clone(), place))
                .copied()
                .unwrap_or(0),
            IncidentHold::Batch => 0,
        };
        if view.open_count > 0 {
            view.jars = format!(
                "{} {}, {}.",
                view.open_count,
                container_words(&record.size, view.open_count),
                place_title(place).to_lowercase()
            );
            let mut ways: Vec<IncidentWay> = answer
                .ways
                .iter()
                .map(|line| line.way)
                .filter(|way| !done_words(*way).is_empty())
                .collect();
            if answer.offers(IncidentWay::Look) {
                ways.push(IncidentWay::Keep);
            }
            if !ways.contains(&IncidentWay::Discard) && !ways.contains(&IncidentWay::Bin) {
                ways.push(IncidentWay::Discard);
            }
            if answer.clock == IncidentClock::Broken {
                ways.retain(|way| *way == IncidentWay::Bin);
            }
            view.settle = ways
                .into_iter()
                .map(|way| Choice::new(way.as_str(), capital(done_words(way))))
                .collect();
        }
        if answer.offers(IncidentWay::Reprocess)
            && let (Ok(recipe), Some(permit)) = (self.recipes.get(&batch.recipe), &batch.permit)
        {
            view.reprocess_ticks = must_do(recipe, permit);
            view.reprocess_ticks.push(TickLine {
                key: NEW_LIDS.to_owned(),
                text: "Every jar has a new lid".to_owned(),
                done: String::new(),
            });
        }
    }
}

impl App {
    /// What a batch shows of its incidents: each with its answer, the ticks that can still be
    /// answered, and, on hold without another way, the disposal card alone.
    pub(crate) fn fill_incidents(
        &self,
        view: &mut BatchView,
        facts: &Facts,
        batch: &BatchFact,
        now: &Now,
    ) -> Result<(), AppError> {
        view.incidents = self.incident_views(facts, batch, now)?;
        view.may_go_wrong = batch.permit.is_some()
            && !matches!(batch.state, BatchState::Planned | BatchState::Cancelled);
        view.aside = aside_words(batch);
        if batch.state != BatchState::Held {
            return Ok(());
        }
        let recipe = self.recipes.get(&batch.recipe)?;
        let open = open_ticks(recipe, batch);
        if let Some(permit) = &batch.permit {
            view.late = must_do(recipe, permit)
                .into_iter()
                .filter(|tick| open.contains(&tick.key))
                .collect();
        }
        view.answer = format!("On hold: {}", hold_reason(batch));
        let another_way = view
            .incidents
            .iter()
            .any(|incident| incident.open_count > 0 && !incident.disposal_only);
        view.disposal_only = view.late.is_empty() && !another_way && view.outcome.is_some();
        if view.disposal_only {
            // Whoever opens the card of a jar past help finds no recipe on it and no seals to check.
            view.seal_check_due = false;
            view.takes.clear();
            view.lines.clear();
            view.steps.clear();
            view.ticks.clear();
            view.cautions.clear();
            view.acid = None;
            view.jars = None;
            view.loads = None;
            view.headspace = None;
        }
        view.lead = if view.disposal_only {
            "Nothing of it is eaten, given or moved: it is discarded by the disposal card, sealed or not."
        } else {
            "Nothing of it is eaten, given or moved until the answer below is carried out."
        }
        .to_owned();
        Ok(())
    }
}

/// "1 quart set aside", for each size and place.
fn aside_words(batch: &BatchFact) -> Vec<String> {
    batch
        .set_aside()
        .iter()
        .map(|((size, place), count)| {
            format!(
                "{count} {} set aside, {}: {}",
                container_words(size, *count),
                place_title(*place).to_lowercase(),
                aside_reason(batch, size, *place)
            )
        })
        .collect()
}

/// Why jars are set aside.
pub(crate) fn aside_reason(batch: &BatchFact, size: &str, place: ledger::Place) -> String {
    batch
        .incidents()
        .filter(|(_, record)| {
            record.hold == IncidentHold::Jars && record.size == size && record.place == Some(place)
        })
        .last()
        .and_then(|(_, record)| Reference::embedded().incident(&record.kind))
        .map(|row| row.title.to_lowercase())
        .unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_kind_stands_in_one_group_with_a_short_button() {
        let view = incident_kinds();
        let kinds: Vec<&KindLine> = view.groups.iter().flat_map(|group| &group.kinds).collect();
        assert_eq!(kinds.len(), Reference::embedded().incidents().len());
        assert!(kinds.iter().all(|line| line.button.chars().count() <= 30));
    }
}
