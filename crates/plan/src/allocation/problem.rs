//! What a harvest plan has to work with: lots, outlets, limits by day and over all days, prices.

use jiff::ToSpan;
use jiff::civil::Date;
use serde::{Deserialize, Serialize};

/// Everything a solver may know. Plain integers and names; nothing of the kitchen's rules.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Problem {
    /// The date of day 0.
    pub first_day: Date,
    /// Limits of each day; their number is the horizon.
    pub days: Vec<DayLimit>,
    /// Names of the crop-and-grade classes that lots belong to and inputs accept.
    pub classes: Vec<String>,
    /// What was picked or will be.
    pub lots: Vec<Lot>,
    /// What a lot can become.
    pub outlets: Vec<Outlet>,
    /// Jars, lids and bags on hand, by size.
    pub containers: Vec<ContainerLimit>,
    /// Bought ingredients on hand.
    pub ingredients: Vec<IngredientLimit>,
    /// Free room in the freezer, millilitres.
    pub freezer_room_ml: i64,
    /// Names of the canners; `DayLimit::canner_loads` follows this order.
    pub canners: Vec<String>,
    /// Products wanted, with their falling worth.
    pub goods: Vec<Good>,
    /// What work, waste and waiting cost.
    pub prices: Prices,
}

/// What one day allows.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct DayLimit {
    /// Minutes of attended work.
    pub hands_minutes: i64,
    /// Whole loads per canner.
    pub canner_loads: Vec<i64>,
    /// Fresh food the freezer can freeze on this day, grams.
    pub freeze_grams: i64,
    /// Dryer trays.
    pub dryer_trays: i64,
}

/// One lot: one class, one weight, the days on which it can be used.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Lot {
    /// The caller's number for it.
    pub id: i64,
    /// Its name in kitchen words.
    pub name: String,
    /// Index into `Problem::classes`.
    pub kind: usize,
    /// Weight in grams.
    pub grams: i64,
    /// First day it can be used; negative when it could be used before day 0.
    pub first_day: i64,
    /// Last day it can be used, inclusive; may lie beyond the horizon.
    pub last_day: i64,
    /// Points lost per kilogram not used by `last_day`, when that day lies within the horizon.
    pub waste_points_per_kg: i64,
}

/// One use of produce, counted in whole batches.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Outlet {
    /// The caller's key.
    pub key: String,
    /// Its name in kitchen words.
    pub name: String,
    /// Where it leads (heat, freezer, dryer, ...); shown, never interpreted.
    pub route: String,
    /// Index into `Problem::goods`, when it makes one.
    pub good: Option<usize>,
    /// Units of the good per batch.
    pub yields: i64,
    /// Produce per batch.
    pub inputs: Vec<Input>,
    /// Fewest batches on a day on which it is made at all.
    pub min_per_day: i64,
    /// Most batches on a day.
    pub max_per_day: i64,
    /// Attended minutes once per day on which it is made.
    pub setup_minutes: i64,
    /// Attended minutes per batch.
    pub minutes_per_batch: i64,
    /// Index into `Problem::canners`, when it needs one.
    pub canner: Option<usize>,
    /// Hundredths of a canner load per batch. A day's batches of one outlet take whole loads:
    /// two outlets never share a load.
    pub loads_hundredths: i64,
    /// Containers per batch: index into `Problem::containers`, count.
    pub containers: Vec<(usize, i64)>,
    /// Ingredients per batch: index into `Problem::ingredients`, amount in that one's unit.
    pub ingredients: Vec<(usize, i64)>,
    /// Freezer room per batch, millilitres.
    pub freezer_ml: i64,
    /// Fresh food to be frozen per batch, grams.
    pub freeze_grams: i64,
    /// Dryer trays per batch.
    pub dryer_trays: i64,
    /// Which days it may be made; `None` for all.
    pub days_allowed: Option<Vec<bool>>,
    /// Worth of one batch beyond its good, points.
    pub value_points: i64,
}

/// Produce that one batch needs: any mix of these classes.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Input {
    /// Indices into `Problem::classes`.
    pub classes: Vec<usize>,
    /// Grams per batch.
    pub grams: i64,
}

/// Containers of one size.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ContainerLimit {
    /// Its name in kitchen words.
    pub name: String,
    /// How many are on hand.
    pub available: i64,
}

/// One bought ingredient.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct IngredientLimit {
    /// Its name in kitchen words.
    pub name: String,
    /// How much is on hand, in `unit`.
    pub available: i64,
    /// The unit, for showing.
    pub unit: String,
}

/// A product that is wanted, with a worth per unit that falls as more is made.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Good {
    /// Its name in kitchen words.
    pub name: String,
    /// The unit that is counted.
    pub unit: String,
    /// Units and points per unit, in the order in which they are filled; what lies beyond the
    /// last step is worth nothing.
    pub steps: Vec<(i64, i64)>,
}

/// What work and waiting cost. Waste is priced per lot.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Prices {
    /// Points per hour of attended work.
    pub points_per_hour: i64,
    /// Points per batch and day of delay (a batch on day 2 costs this twice).
    pub points_per_batch_day: i64,
    /// Points per set-up minute, beyond the hour's price.
    #[serde(default)]
    pub points_per_setup_minute: i64,
}

impl Problem {
    /// Number of days planned for.
    pub fn horizon(&self) -> i64 {
        self.days.len() as i64
    }

    /// The date of a day, or `None` when it lies outside the calendar.
    pub fn date(&self, day: i64) -> Option<Date> {
        self.first_day.checked_add(day_span(day)?).ok()
    }

    /// A day in words, like `Tue 2 Sep`.
    pub fn day_label(&self, day: i64) -> String {
        match self.date(day) {
            Some(date) => date.strftime("%a %-d %b").to_string(),
            None => format!("day {day}"),
        }
    }
}

/// A span of whole days; `None` when the calendar knows no such span.
fn day_span(day: i64) -> Option<jiff::Span> {
    // jiff panics on spans beyond its limit of some 7.3 million days, so they are refused here.
    (-3_000_000..=3_000_000).contains(&day).then(|| day.days())
}
