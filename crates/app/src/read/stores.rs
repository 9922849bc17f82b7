//! The Stores' read model, from the facts.

use crate::action::lot::place_title;
use crate::error::AppError;
use crate::facts::{BatchFact, Facts};
use crate::read::counter::capital;
use crate::read::house::container_words;
use crate::request::Now;
use crate::view::plan::NeedView;
use crate::view::stores::{BalanceLine, FreezerView, HoldingLine, PlaceView, StoresView};
use crate::view::{Both, Choice};
use crate::{App, balance, dates};
use ledger::{Content, CropBalance, Place};

impl App {
    /// What stands where, what first, and whether the season adds up.
    ///
    /// # Errors
    /// Those of reading the file.
    pub fn stores(&self, now: &Now) -> Result<StoresView, AppError> {
        let facts = self.facts()?;
        let holdings = self.holding_lines(&facts, now)?;
        let mut places = Vec::new();
        for place in Place::ALL
            .into_iter()
            .filter(|place| place.holds_containers())
        {
            let standing: Vec<HoldingLine> = holdings
                .iter()
                .filter(|line| line.place == place.as_str())
                .cloned()
                .collect();
            if standing.is_empty() {
                continue;
            }
            let count: i64 = standing.iter().map(|line| line.count).sum();
            let bags = standing.iter().all(|line| balance::is_bag(&line.size));
            places.push(PlaceView {
                key: place.as_str().to_owned(),
                title: place_title(place).to_owned(),
                total: format!(
                    "{count} {}",
                    match (bags, count) {
                        (true, 1) => "bag",
                        (true, _) => "bags",
                        (false, 1) => "jar",
                        (false, _) => "jars",
                    }
                ),
                holdings: standing,
            });
        }
        let needs = self.needs(&facts, &[]);
        let jars: i64 = holdings
            .iter()
            .filter(|line| !balance::is_bag(&line.size))
            .map(|line| line.count)
            .sum();
        let bags: i64 = holdings
            .iter()
            .filter(|line| balance::is_bag(&line.size))
            .map(|line| line.count)
            .sum();
        let met = needs.iter().filter(|need| need.short == 0).count();
        Ok(StoresView {
            answer: if holdings.is_empty() {
                "Nothing is put up yet.".to_owned()
            } else {
                format!("{jars} jars and {bags} bags stand.")
            },
            lead: if needs.is_empty() {
                "Say on the House page what the winter should have, and the gaps show here."
                    .to_owned()
            } else {
                format!("{met} of {} needs of the winter are met.", needs.len())
            },
            places,
            use_first: use_first(&holdings),
            needs,
            freezer: self.freezer(&facts)?,
            balance: season_balance(&facts),
            ends: [
                Place::Eaten,
                Place::Given,
                Place::Fridge,
                Place::Freezer,
                Place::Discarded,
            ]
            .into_iter()
            .map(|place| Choice::new(place.as_str(), place_title(place)))
            .collect(),
        })
    }

    /// Needs against what stands, and what a plan adds: (recipe, container, count).
    pub(crate) fn needs(&self, facts: &Facts, added: &[(String, String, i64)]) -> Vec<NeedView> {
        let house = facts.house_or_empty();
        house
            .needs
            .iter()
            .map(|need| {
                let stands = balance::standing(facts, &need.product, &need.unit);
                let plan: i64 = added
                    .iter()
                    .filter(|(product, unit, _)| *product == need.product && *unit == need.unit)
                    .map(|(_, _, count)| count)
                    .sum();
                let wanted = i64::from(need.wanted);
                NeedView {
                    product: self.recipe_title(&need.product),
                    unit: container_words(&need.unit, 2),
                    wanted,
                    stands,
                    plan,
                    short: (wanted - stands - plan).max(0),
                }
            })
            .collect()
    }

    /// A recipe's title, or its key when the book no longer has it.
    pub(crate) fn recipe_title(&self, key: &str) -> String {
        self.recipes
            .get(key)
            .map_or_else(|_| key.replace('-', " "), |recipe| recipe.title.clone())
    }

    fn holding_lines(&self, facts: &Facts, now: &Now) -> Result<Vec<HoldingLine>, AppError> {
        let mut lines = Vec::new();
        for batch in facts.batches.values() {
            for (size, place, count) in facts.standing(batch.id) {
                lines.push(self.holding_line(facts, batch, size, place, count, now));
            }
        }
        lines.sort_by(|a, b| {
            a.product
                .cmp(&b.product)
                .then(b.age_days.cmp(&a.age_days))
                .then(a.batch.cmp(&b.batch))
        });
        Ok(lines)
    }

    fn holding_line(
        &self,
        facts: &Facts,
        batch: &BatchFact,
        size: &str,
        place: Place,
        count: i64,
        now: &Now,
    ) -> HoldingLine {
        let made_on = facts
            .containers
            .iter()
            .find(|moved| moved.batch == batch.id && moved.from == Place::Pot)
            .map_or(batch.for_day, |moved| moved.on);
        let made: i64 = facts
            .containers
            .iter()
            .filter(|moved| {
                moved.batch == batch.id && moved.size == size && moved.from == Place::Pot
            })
            .map(|moved| moved.count)
            .sum();
        let here: i64 = facts
            .batch_weight(batch.id, place)
            .iter()
            .map(|(_, weight)| weight)
            .sum();
        let all_here: i64 = facts
            .standing(batch.id)
            .filter(|(_, at, _)| *at == place)
            .map(|(_, _, n)| n)
            .sum();
        let age_days = dates::days_between(made_on, now.date);
        HoldingLine {
            batch: batch.id,
            product: self.recipe_title(&batch.recipe),
            size: size.to_owned(),
            size_words: container_words(size, count),
            place: place.as_str().to_owned(),
            count,
            made,
            made_on: made_on.to_string(),
            age: format!("made {}", dates::plain(made_on)),
            age_days,
            held: if batch.holds(size, place) {
                crate::read::batch::hold_reason(batch)
            } else {
                String::new()
            },
            aside: match batch.set_aside().get(&(size.to_owned(), place)) {
                Some(aside) => format!(
                    "{aside} set aside: {}",
                    crate::read::incident::aside_reason(batch, size, place)
                ),
                None => String::new(),
            },
            eat_by: if place == Place::Fridge {
                self.fridge_words(facts, batch, size, now)
            } else {
                String::new()
            },
            // Several sizes in one place share the weight by count; the exact share is the ledger's.
            weight: Both::milligrams(if all_here == 0 {
                0
            } else {
                here * count / all_here
            }),
        }
    }

    /// Eat-by words for what was put into the fridge: the day it came there, plus the rule's days.
    fn fridge_words(&self, facts: &Facts, batch: &BatchFact, size: &str, now: &Now) -> String {
        let since = facts
            .containers
            .iter()
            .filter(|moved| {
                moved.batch == batch.id && moved.size == size && moved.to == Place::Fridge
            })
            .map(|moved| moved.on)
            .next_back()
            .unwrap_or(batch.for_day);
        let days = self
            .recipes
            .get(&batch.recipe)
            .map_or(0, |recipe| recipe.fridge_days);
        let by = dates::plus_days(since, days);
        if by < now.date {
            format!("past its day ({}): discard", dates::plain(by))
        } else {
            format!(
                "eat by {}, then freeze or discard",
                dates::near(by, now.date)
            )
        }
    }

    fn freezer(&self, facts: &Facts) -> Result<FreezerView, AppError> {
        let house = balance::house_now(facts);
        let Some(freezer) = house.freezer else {
            return Ok(FreezerView {
                known: false,
                litres: 0,
                used: 0,
                free: 0,
                daily: String::new(),
                source: String::new(),
            });
        };
        let limit = self.daily_freezing(freezer.litres)?;
        Ok(FreezerView {
            known: true,
            litres: i64::from(freezer.litres),
            used: i64::from(freezer.litres - freezer.free_litres),
            free: i64::from(freezer.free_litres),
            daily: limit
                .as_ref()
                .map(|(mass, _)| format!("Freeze at most {} a day.", Both::mass(*mass)))
                .unwrap_or_default(),
            source: limit.map(|(_, source)| source).unwrap_or_default(),
        })
    }

    /// The daily freezing limit of a freezer: the lower published figure, pounds per cubic foot of
    /// freezer and day, times its volume.
    pub(crate) fn daily_freezing(
        &self,
        litres: u32,
    ) -> Result<Option<(quantity::Mass, String)>, AppError> {
        let Some(row) = self.reference.freezer_value("max_load_low") else {
            return Ok(None);
        };
        let failed = |error: quantity::QuantityError| AppError::failed(error.to_string(), "");
        // 1 cubic foot = 28.316846592 litres exactly (international foot).
        let cubic_feet = quantity::checked_div(
            quantity::whole(i64::from(litres)),
            quantity::exact(28_316_846_592, 1_000_000_000).map_err(failed)?,
        )
        .map_err(failed)?;
        let pounds = quantity::checked_mul(cubic_feet, row.value.low()).map_err(failed)?;
        let mass = quantity::Mass::new(pounds, quantity::MassUnit::Pound).map_err(failed)?;
        Ok(Some((mass, row.source.clone())))
    }
}

fn use_first(lines: &[HoldingLine]) -> Vec<HoldingLine> {
    let holdings: Vec<ledger::Holding> = lines
        .iter()
        .map(|line| ledger::Holding {
            content: Content::Batch(line.batch),
            name: line.product.clone(),
            place: line.place.parse().unwrap_or(Place::Shelf),
            size: Some(line.size.clone()),
            count: line.count,
            milligrams: 0,
            since: line.made_on.parse().unwrap_or(jiff::civil::Date::MAX),
            flagged: line.place == "fridge",
            held: !line.held.is_empty(),
        })
        .collect();
    ledger::use_first(&holdings)
        .into_iter()
        .filter_map(|holding| {
            lines.iter().find(|line| {
                Content::Batch(line.batch) == holding.content
                    && Some(&line.size) == holding.size.as_ref()
                    && line.place == holding.place.as_str()
            })
        })
        .cloned()
        .collect()
}

/// The season's mass balance, crop by crop; bought ingredients after the crops.
pub(crate) fn season_balance(facts: &Facts) -> Vec<BalanceLine> {
    let mut lines: Vec<(bool, BalanceLine)> = ledger::mass_balance(&facts.movements)
        .into_iter()
        .map(|balance| (balance.picked == 0, balance_line(&balance)))
        .collect();
    lines.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.crop.cmp(&b.1.crop)));
    lines.into_iter().map(|(_, line)| line).collect()
}

fn balance_line(balance: &CropBalance) -> BalanceLine {
    let crop = kitchen::crop(&balance.crop).map_or_else(
        |_| balance.crop.replace('-', " "),
        |crop| crop.plural.clone(),
    );
    let percent = if balance.came_in() == 0 {
        0.0
    } else {
        // For showing only: a share of whole milligrams.
        balance.unaccounted as f64 * 100.0 / balance.came_in() as f64
    };
    BalanceLine {
        crop: capital(&crop),
        came_in: Both::milligrams(balance.came_in()),
        places: balance
            .by_place
            .iter()
            .filter(|(place, weight)| !place.is_source() && **weight != 0)
            .map(|(place, weight)| {
                (
                    place_title(*place).to_lowercase(),
                    Both::milligrams(*weight),
                )
            })
            .collect(),
        unaccounted_percent: (percent * 10.0).round() / 10.0,
        warning: if balance.warning {
            format!(
                "more than {} % cannot be explained (common practice, no source)",
                ledger::UNACCOUNTED_WARNING_PERCENT
            )
        } else {
            String::new()
        },
        zero: balance.sum_is_zero,
    }
}
