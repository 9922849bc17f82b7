//! The Counter's read model, from the facts.

use crate::action::lot::place_title;
use crate::action::picking::keep_place;
use crate::error::AppError;
use crate::facts::{Facts, LotFact};
use crate::harvest::FreshLot;
use crate::request::Now;
use crate::view::counter::{CounterView, HistoryLine, LotView, PickingForm};
use crate::view::{Both, Choice};
use crate::{App, dates};
use kitchen::history::{self, Question};
use kitchen::recipe::Route;
use quantity::Mass;

/// Days that the deadline strip shows.
const STRIP_DAYS: i64 = 9;

impl App {
    /// What lies fresh and how long it keeps, earliest edge first.
    ///
    /// # Errors
    /// Those of reading the file.
    pub fn counter(&self, now: &Now) -> Result<CounterView, AppError> {
        let facts = self.facts()?;
        let mut lots = Vec::new();
        for lot in facts.fresh_lots() {
            lots.push(self.lot_view(lot, now)?);
        }
        lots.sort_by_key(|lot| (lot.early_in.max(lot.ready_in), lot.late_in, lot.id));
        let total: i64 = facts.fresh_lots().map(|lot| lot.left).sum();
        Ok(CounterView {
            today: dates::long(now.date),
            answer: answer(&lots),
            lead: lead(&lots, total),
            reminders: crate::gauge::reminders(self.reference, &facts.house_or_empty(), now.date),
            total: Both::milligrams(total),
            strip_days: STRIP_DAYS,
            strip_labels: (0..STRIP_DAYS)
                .map(|day| dates::weekday_short(dates::plus_days(now.date, day)).to_owned())
                .collect(),
            form: self.picking_form(&facts, now),
            lots,
        })
    }

    /// The lots as the plan sees them.
    pub(crate) fn plan_lots(&self, facts: &Facts, now: &Now) -> Result<Vec<FreshLot>, AppError> {
        let mut lots = Vec::new();
        for lot in facts.fresh_lots() {
            let view = self.lot_view(lot, now)?;
            lots.push(FreshLot {
                id: lot.id,
                title: view.title,
                crop: lot.crop.clone(),
                grade: lot.grade.clone(),
                grams: lot.left / 1000,
                ready_in: view.ready_in,
                early_in: view.early_in,
                late_in: view.late_in,
                closed_routes: self
                    .closed_routes(lot)?
                    .into_iter()
                    .map(|(route, _)| route)
                    .collect(),
            });
        }
        Ok(lots)
    }

    fn lot_view(&self, lot: &LotFact, now: &Now) -> Result<LotView, AppError> {
        let failed = |error: kitchen::LotError| {
            AppError::failed(error.to_string(), "Correct the lot with `stillroom lot`.")
        };
        let crop = kitchen::crop(&lot.crop).map_err(failed)?;
        let grade = kitchen::grade(&lot.crop, &lot.grade).map_err(failed)?;
        let keeping = kitchen::keeping(
            self.reference,
            &lot.crop,
            &lot.grade,
            keep_place(lot.place),
            lot.temperature,
            lot.picked_on,
        )
        .map_err(failed)?;
        let ready_in = dates::days_between(now.date, keeping.ready_from).max(0);
        let early_in = dates::days_between(now.date, keeping.early);
        let late_in = dates::days_between(now.date, keeping.late);
        let (state_key, state) = match (ready_in, early_in, late_in) {
            (_, _, late) if late < 0 => ("past", "past its time".to_owned()),
            (ready, _, _) if ready > 0 => (
                "ripening",
                format!(
                    "not yet: ready about {}",
                    dates::near(keeping.ready_from, now.date)
                ),
            ),
            (_, early, _) if early <= 0 => ("due", "due today".to_owned()),
            (_, 1, _) => ("due", "due tomorrow".to_owned()),
            _ => ("waiting", "can wait".to_owned()),
        };
        Ok(LotView {
            id: lot.id,
            title: format!("{}: {}", capital(&crop.plural), grade.title),
            crop: lot.crop.clone(),
            grade: lot.grade.clone(),
            variety: lot.variety.clone(),
            weight: Both::milligrams(lot.left),
            grams: lot.left / 1000,
            how_weighed: lot.how_weighed.clone(),
            place: lot.place.as_str().to_owned(),
            where_it_lies: format!(
                "{}, {}",
                place_title(lot.place).to_lowercase(),
                quantity::show::temperature(lot.temperature)
            ),
            picked: format!("picked {}", dates::near(lot.picked_on, now.date)),
            ready_in,
            early_in,
            late_in,
            keeps: format!(
                "keeps until about {} to {}",
                dates::near(keeping.early, now.date),
                dates::near(keeping.late, now.date)
            ),
            state,
            state_key: state_key.to_owned(),
            look_again: format!("look again {}", dates::near(keeping.look_again, now.date)),
            reason: keeping.reason.clone(),
            basis: keeping.basis.word().to_owned(),
            source: keeping.source.clone(),
            grades: kitchen::grades_for(&lot.crop)
                .map_err(failed)?
                .into_iter()
                .map(|row| Choice::new(&row.key, capital(&row.title)))
                .collect(),
            history: Question::ALL
                .into_iter()
                .map(|question| HistoryLine {
                    key: question.key().to_owned(),
                    question: question.text().to_owned(),
                    answer: history::answer_word(lot.history.answer(question)).to_owned(),
                })
                .collect(),
            closed: self
                .closed_routes(lot)?
                .into_iter()
                .map(|(_, why)| why)
                .collect(),
        })
    }

    /// Routes that grade or history close, each with the reason; jars, freezer and so on once.
    pub(crate) fn closed_routes(&self, lot: &LotFact) -> Result<Vec<(String, String)>, AppError> {
        let failed = |error: kitchen::LotError| AppError::failed(error.to_string(), "");
        let grade = kitchen::grade(&lot.crop, &lot.grade).map_err(failed)?;
        let mut closed: Vec<(String, String)> = Vec::new();
        for (route, words, may) in [
            (Route::Heat, "jars", grade.uses.jars),
            (Route::Freezer, "the freezer", grade.uses.freezer),
            (Route::Dryer, "the dryer", grade.uses.dryer),
            (Route::Crock, "the crock", grade.uses.crock),
            (Route::Fresh, "the table", grade.uses.fresh),
        ] {
            if !may.is_open() {
                closed.push((
                    route_key(route).to_owned(),
                    format!("not for {words}: not at this grade. {}", grade.note),
                ));
            }
        }
        for limit in history::route_limits(&lot.crop, &lot.history, None).map_err(failed)? {
            let key = route_key(limit.route);
            if limit.closed && !closed.iter().any(|(route, _)| route == key) {
                closed.push((
                    key.to_owned(),
                    format!("{} ({})", limit.reason, limit.source),
                ));
            }
        }
        Ok(closed)
    }

    fn picking_form(&self, facts: &Facts, now: &Now) -> PickingForm {
        let house = facts.house_or_empty();
        let mut crops: Vec<Choice> = kitchen::crops()
            .iter()
            .map(|crop| Choice::new(&crop.key, capital(&crop.plural)))
            .collect();
        crops.sort_by(|a, b| a.title.cmp(&b.title));
        let mut grades: Vec<Choice> = Vec::new();
        for row in kitchen::grade_lines() {
            if !grades.iter().any(|choice| choice.key == row.key) {
                grades.push(Choice::new(&row.key, grade_title(&row.key, &row.title)));
            }
        }
        grades.sort_by_key(|choice| choice.key != "sound");
        PickingForm {
            crops,
            grades,
            places: [
                ledger::Place::Counter,
                ledger::Place::ColdRoom,
                ledger::Place::Fridge,
            ]
            .into_iter()
            .map(|place| Choice::new(place.as_str(), place_title(place)))
            .collect(),
            crates: house
                .crates
                .iter()
                .map(|known| Choice::new(&known.name, &known.name))
                .collect(),
            shares: [
                ("1/4", "a quarter"),
                ("1/3", "a third"),
                ("1/2", "half"),
                ("2/3", "two thirds"),
                ("3/4", "three quarters"),
                ("full", "full"),
            ]
            .into_iter()
            .map(|(key, title)| Choice::new(key, title))
            .collect(),
            history: Question::ALL
                .into_iter()
                .map(|question| HistoryLine {
                    key: question.key().to_owned(),
                    question: question.text().to_owned(),
                    answer: "unknown".to_owned(),
                })
                .collect(),
            last_warmth: last_warmth(facts),
            picked_on: now.date.to_string(),
            animals: house
                .animals
                .iter()
                .map(|animal| Choice::new(animal, animal))
                .collect(),
        }
    }
}

/// How warm each place was at the newest lot that was laid there.
fn last_warmth(facts: &Facts) -> String {
    [
        ledger::Place::Counter,
        ledger::Place::ColdRoom,
        ledger::Place::Fridge,
    ]
    .into_iter()
    .filter_map(|place| {
        let lot = facts.lots.values().rfind(|lot| lot.place == place)?;
        let warm = quantity::show::temperature(lot.temperature).us;
        Some(format!("{} {warm}", place_title(place).to_lowercase()))
    })
    .collect::<Vec<_>>()
    .join(", ")
}

/// "Shelled (lima beans)": a grade that few crops have names them, so that nobody looks through
/// eighteen grades for the five that fit.
fn grade_title(key: &str, title: &str) -> String {
    const FEW: usize = 4;
    let title = capital(title);
    let crops: Vec<&str> = kitchen::crops()
        .iter()
        .filter(|crop| {
            kitchen::grades_for(&crop.key).is_ok_and(|rows| rows.iter().any(|row| row.key == key))
        })
        .map(|crop| crop.plural.as_str())
        .collect();
    if crops.len() > 1 && crops.iter().all(|crop| crop.ends_with("tomatoes")) {
        return format!("{title} (tomatoes)");
    }
    match crops.len() {
        1..=FEW => format!("{title} ({})", crops.join(", ")),
        _ => title,
    }
}

/// The key of a route, as stored and sent.
pub(crate) fn route_key(route: Route) -> &'static str {
    route.as_str()
}

/// A first capital letter.
pub(crate) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().collect::<String>() + letters.as_str()
    })
}

/// The lots due first, as one sentence.
fn answer(lots: &[LotView]) -> String {
    if lots.is_empty() {
        return "Nothing lies on the counter.".to_owned();
    }
    let name = |lot: &LotView| {
        lot.title
            .split(':')
            .next()
            .unwrap_or(&lot.title)
            .to_lowercase()
    };
    let list = |wanted: &dyn Fn(&LotView) -> bool| {
        let mut names: Vec<String> = Vec::new();
        for lot in lots.iter().filter(|lot| wanted(lot)) {
            let name = name(lot);
            if !names.contains(&name) {
                names.push(name);
            }
        }
        names
    };
    let today = list(&|lot| lot.state_key == "due" && lot.early_in <= 0);
    let tomorrow = list(&|lot| lot.state_key == "due" && lot.early_in == 1);
    let mut parts = Vec::new();
    if !today.is_empty() {
        parts.push(format!("{} today.", capital(&join(&today))));
    }
    if !tomorrow.is_empty() {
        parts.push(format!("{} tomorrow.", capital(&join(&tomorrow))));
    }
    let rest: i64 = lots
        .iter()
        .filter(|lot| lot.early_in > 1)
        .map(|lot| lot.grams)
        .sum();
    if rest > 0 {
        let pounds =
            quantity::to_f64(Mass::from_grams(rest).in_unit(quantity::MassUnit::Pound)).round();
        parts.push(format!(
            "{} {pounds:.0} pounds can wait.",
            if parts.is_empty() { "All" } else { "The other" }
        ));
    }
    if parts.is_empty() {
        "Everything here is past its time.".to_owned()
    } else {
        parts.join(" ")
    }
}

fn lead(lots: &[LotView], total: i64) -> String {
    if lots.is_empty() {
        return "Weigh in what was picked, and the plan can begin.".to_owned();
    }
    let count = if lots.len() == 1 {
        "One lot".to_owned()
    } else {
        format!("{} lots", lots.len())
    };
    format!("{count}, {} in all.", Both::milligrams(total))
}

/// "beans, corn and kale".
pub(crate) fn join(words: &[String]) -> String {
    match words {
        [] => String::new(),
        [one] => one.clone(),
        [front @ .., last] => format!("{} and {last}", front.join(", ")),
    }
}
