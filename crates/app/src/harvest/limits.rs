//! What the house allows over the days of a plan: hands, loads, freezer, containers, needs.

use super::{HouseLimits, OpenNeed, Window};
use crate::error::AppError;
use crate::facts::Facts;
use crate::house::House;
use crate::read::house::{container_words, smallest_units};
use crate::request::Now;
use crate::{App, balance, day};
use quantity::Mass;

impl App {
    /// What the house allows over the window.
    pub(crate) fn limits(
        &self,
        facts: &Facts,
        house: &House,
        window: Window,
        now: &Now,
    ) -> Result<HouseLimits, AppError> {
        let hours = day::hours::of_house(house)?;
        let mut limits = HouseLimits {
            canners: house
                .canners
                .iter()
                .map(|canner| canner.name.clone())
                .collect(),
            trays: i64::from(house.dryer_trays),
            hour_pounds: number(&house.hour_worth_pounds, 12),
            ..HouseLimits::default()
        };
        for ahead in 0..window.days {
            let date = crate::dates::plus_days(window.first, ahead);
            let from = if date == now.date { now.minute } else { 0 };
            let hands = day::hours::bookable(house, date, &hours, from);
            limits.hands.push(hands);
            limits.loads.push(
                house
                    .canners
                    .iter()
                    .map(|_| loads_on(&hours, from, hands))
                    .collect(),
            );
        }
        if let Some(freezer) = &house.freezer {
            limits.freezer_room_ml = i64::from(freezer.free_litres) * 1000;
            limits.freeze_grams = self
                .daily_freezing(freezer.litres)?
                .map_or(0, |(mass, _)| mass.grams_rounded());
        }
        for jar in &house.jars {
            limits.containers.push((
                jar.jar.clone(),
                format!("empty {}", container_words(&jar.jar, 2)),
                i64::from(jar.count),
            ));
            let lid = if jar.mouth == "wide" {
                "lid-wide"
            } else {
                "lid-regular"
            };
            limits.lid_of.push((jar.jar.clone(), lid.to_owned()));
        }
        for (key, words, count) in [
            ("lid-regular", "regular lids", house.lids_regular),
            ("lid-wide", "wide lids", house.lids_wide),
            ("pint-bag", "pint bags", house.bags_pint),
            ("quart-bag", "quart bags", house.bags_quart),
        ] {
            limits
                .containers
                .push((key.to_owned(), words.to_owned(), i64::from(count)));
        }
        let fresh_pounds = number(&house.fresh_pounds_a_day, 0);
        limits.fresh_grams_a_day =
            Mass::of(fresh_pounds, quantity::MassUnit::Pound).grams_rounded();
        for ahead in 0..window.days {
            let day = crate::dates::plus_days(window.first, ahead);
            limits.containers.push((
                format!("table:{ahead}"),
                format!("grams at the table on {}", crate::dates::weekday(day)),
                limits.fresh_grams_a_day,
            ));
        }
        for have in &house.ingredients {
            limits.ingredients.push((
                have.key.clone(),
                have.key.replace('-', " "),
                smallest_units(&have.amount)?,
            ));
        }
        limits.needs = house
            .needs
            .iter()
            .map(|need| OpenNeed {
                product: need.product.clone(),
                container: need.unit.clone(),
                title: self.recipe_title(&need.product),
                wanted: i64::from(need.wanted),
                stands: balance::standing(facts, &need.product, &need.unit),
                priority: need.priority.clone(),
            })
            .collect();
        Ok(limits)
    }
}

/// Minutes that one load keeps a canner for a rough count of loads a day: half an hour of heating,
/// a process of middling length and the lifting (our own round figure; the timetable decides).
const LOAD_MINUTES: i64 = 110;

/// Loads a canner can take on a day: the hours left, and none without hands.
fn loads_on(hours: &day::hours::Hours, from: i64, hands: i64) -> i64 {
    if hands <= 0 {
        return 0;
    }
    (hours.ends - hours.starts.max(from)).max(0) / LOAD_MINUTES
}

/// A whole number as the house states it; checked when it was stated.
fn number(text: &str, otherwise: i64) -> i64 {
    if text.trim().is_empty() {
        return otherwise;
    }
    quantity::parse::number(text)
        .ok()
        .and_then(|number| i64::try_from(quantity::round_half_away(number)).ok())
        .unwrap_or(otherwise)
}
