//! How large a freezer bag should be, and how a session's food is shared out over bags.
//!
//! A bag that goes into every recipe a whole number of times is never half used. Both rules are
//! common practice, no source; the limits are our decision.

use quantity::{Exact, Mass, MassUnit, ceil, checked_div, checked_mul, floor, show, to_f64, whole};
use serde::{Deserialize, Serialize};

use crate::error::KitchenError;
use crate::recipe::Amount;

/// Smallest bag offered, in ounces (our decision): recipes weighed in different units share only
/// such crumbs as divisors.
const SMALLEST_OUNCES: i64 = 1;

/// Most bags believed in one session (our decision; no source).
const MOST_BAGS: i128 = 2_000;

/// The largest weight that goes into every recipe weight a whole number of times and is not above
/// the household's largest bag. Errors: no recipe, a weight not above zero, or no common divisor
/// of an ounce or more; overflow.
pub fn bag_weight(recipes: &[Mass], largest: Mass) -> Result<Mass, KitchenError> {
    let mut given = recipes.iter().chain([&largest]);
    if recipes.is_empty() || !given.all(|mass| mass.is_positive()) {
        return Err(KitchenError::BagAmount);
    }
    let mut common = Exact::from_integer(0);
    for recipe in recipes {
        common = common_divisor(common, recipe.in_unit(MassUnit::Ounce))?;
    }
    let limit = largest.in_unit(MassUnit::Ounce);
    let parts = ceil(checked_div(common, limit)?).max(1);
    let ounces = checked_div(common, Exact::from_integer(parts))?;
    if ounces < whole(SMALLEST_OUNCES) {
        return Err(KitchenError::NoCommonBag {
            recipes: recipes
                .iter()
                .map(|mass| show::mass(*mass).us)
                .collect::<Vec<_>>()
                .join(", "),
        });
    }
    Ok(Mass::new(ounces, MassUnit::Ounce)?)
}

/// Greatest number of which both are whole multiples; nought with anything is the other.
fn common_divisor(a: Exact, b: Exact) -> Result<Exact, KitchenError> {
    let (mut large, mut small) = (a, b);
    while small != Exact::from_integer(0) {
        let times = Exact::from_integer(floor(checked_div(large, small)?));
        let rest = quantity::checked_sub(large, checked_mul(times, small)?)?;
        (large, small) = (small, rest);
    }
    Ok(large)
}

/// A session's food shared out over bags.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct BagShare {
    /// Bags of one amount.
    pub even: u32,
    /// What each of them holds.
    pub each: Amount,
    /// A last, smaller bag where the rest could not be spread.
    pub last: Option<Amount>,
}

impl BagShare {
    /// All bags, the last one with them.
    pub fn number(&self) -> u32 {
        self.even.saturating_add(u32::from(self.last.is_some()))
    }
}

/// The last-bag rule: as many bags as are full, at least one; the rest is spread evenly over them
/// while none holds more than 1 1/3 of its size, else it goes into one more bag. Errors: an amount
/// not above zero, measured in two ways, or more bags than are believed; overflow.
pub fn share_out(total: Amount, size: Amount) -> Result<BagShare, KitchenError> {
    let sizes = total
        .ratio(size)
        .map_err(|_| KitchenError::BagAmount)?
        .ok_or(KitchenError::BagMeasure)?;
    if sizes <= whole(0) || !above_zero(size) {
        return Err(KitchenError::BagAmount);
    }
    if sizes > Exact::from_integer(MOST_BAGS) {
        return Err(KitchenError::TooManyBags {
            most: MOST_BAGS,
            asked: format!("{:.0}", to_f64(sizes)),
        });
    }
    let full = floor(sizes).max(1);
    let spread = checked_div(sizes, Exact::from_integer(full))?;
    let even = u32::try_from(full).unwrap_or(u32::MAX);
    if spread <= Exact::new(4, 3) {
        return Ok(BagShare {
            even,
            each: size.times(spread)?,
            last: None,
        });
    }
    let rest = quantity::checked_sub(sizes, Exact::from_integer(full))?;
    Ok(BagShare {
        even,
        each: size,
        last: Some(size.times(rest)?),
    })
}

fn above_zero(amount: Amount) -> bool {
    match amount {
        Amount::Mass(mass) => mass.is_positive(),
        Amount::Volume(volume) => volume.is_positive(),
        Amount::Count { .. } => false,
    }
}
