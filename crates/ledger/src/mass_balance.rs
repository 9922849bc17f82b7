//! The season's account per crop: picked = eaten + stored + given + ... + unaccounted.

use crate::{Movement, Place};
use serde::Serialize;
use std::collections::BTreeMap;

/// Above this share of what came in, the unexplained part is worth a warning.
/// Common practice, no source.
pub const UNACCOUNTED_WARNING_PERCENT: i64 = 5;

/// Where one crop (or bought ingredient) came from and where it is now, in milligrams.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct CropBalance {
    /// The crop or bought ingredient.
    pub crop: String,
    /// Out of the garden.
    pub picked: i64,
    /// Bought.
    pub bought: i64,
    /// Still in the house: counter, cold room, fridge, shelf, freezer, crock, dryer.
    pub stored: i64,
    /// On the stove, neither raw nor put up yet.
    pub in_work: i64,
    /// Eaten.
    pub eaten: i64,
    /// Given away.
    pub given: i64,
    /// Fed to animals.
    pub animals: i64,
    /// On the compost.
    pub compost: i64,
    /// Kept as seed.
    pub seed: i64,
    /// Peel, cores, stems.
    pub trimmings: i64,
    /// Water driven off.
    pub cooked_off: i64,
    /// Thrown away.
    pub discarded: i64,
    /// Unexplained: above zero = missing, below zero = found beyond the record.
    pub unaccounted: i64,
    /// Every place with its balance, for a full print-out (sources below zero).
    pub by_place: BTreeMap<Place, i64>,
    /// Milligrams of all movements that were computed, not weighed.
    pub estimated: i64,
    /// Unexplained mass in hundredths of a percent of what came in; `None` when nothing came in.
    pub unaccounted_share: Option<i64>,
    /// The share is above [`UNACCOUNTED_WARNING_PERCENT`], or mass turned up of a crop that never
    /// came in.
    pub warning: bool,
    /// What came in equals the sum of everything it became.
    pub sum_is_zero: bool,
}

impl CropBalance {
    /// What came in: picked and bought, in milligrams.
    #[must_use]
    pub const fn came_in(&self) -> i64 {
        self.picked.saturating_add(self.bought)
    }

    /// The unexplained share as people read it, for example "3.20 %".
    #[must_use]
    pub fn share_text(&self) -> String {
        match self.unaccounted_share {
            Some(share) => format!("{}.{:02} %", share / 100, share % 100),
            None => "nothing came in".to_owned(),
        }
    }
}

/// The account of every crop named in these movements, in crop order.
#[must_use]
pub fn mass_balance(movements: &[Movement]) -> Vec<CropBalance> {
    let mut crops: BTreeMap<&str, (BTreeMap<Place, i64>, i64)> = BTreeMap::new();
    for movement in movements {
        let (by_place, estimated) = crops.entry(&movement.crop).or_default();
        let leaves = by_place.entry(movement.from).or_default();
        *leaves = leaves.saturating_sub(movement.milligrams);
        let arrives = by_place.entry(movement.to).or_default();
        *arrives = arrives.saturating_add(movement.milligrams);
        if movement.estimated {
            *estimated = estimated.saturating_add(movement.milligrams);
        }
    }
    crops
        .into_iter()
        .map(|(crop, (by_place, estimated))| account(crop, by_place, estimated))
        .collect()
}

fn account(crop: &str, by_place: BTreeMap<Place, i64>, estimated: i64) -> CropBalance {
    let at = |place: Place| by_place.get(&place).copied().unwrap_or(0);
    let stored = by_place
        .iter()
        .filter(|(place, _)| place.holds_containers())
        .map(|(_, milligrams)| milligrams)
        .sum();
    let mut row = CropBalance {
        crop: crop.to_owned(),
        picked: at(Place::Garden).saturating_neg(),
        bought: at(Place::Bought).saturating_neg(),
        stored,
        in_work: at(Place::Pot),
        eaten: at(Place::Eaten),
        given: at(Place::Given),
        animals: at(Place::Animals),
        compost: at(Place::Compost),
        seed: at(Place::Seed),
        trimmings: at(Place::Trimmings),
        cooked_off: at(Place::CookedOff),
        discarded: at(Place::Discarded),
        unaccounted: at(Place::Unaccounted),
        by_place,
        estimated,
        unaccounted_share: None,
        warning: false,
        sum_is_zero: false,
    };
    let came_in = i128::from(row.came_in());
    let unexplained = i128::from(row.unaccounted).abs();
    if came_in > 0 {
        // Rounded half up; the warning itself compares exactly.
        let share = (unexplained * 10_000 + came_in / 2) / came_in;
        row.unaccounted_share = Some(i64::try_from(share).unwrap_or(i64::MAX));
        row.warning = unexplained * 100 > came_in * i128::from(UNACCOUNTED_WARNING_PERCENT);
    } else {
        row.warning = unexplained > 0;
    }
    let became: i128 = [
        row.stored,
        row.in_work,
        row.eaten,
        row.given,
        row.animals,
        row.compost,
        row.seed,
        row.trimmings,
        row.cooked_off,
        row.discarded,
        row.unaccounted,
    ]
    .into_iter()
    .map(i128::from)
    .sum();
    row.sum_is_zero = came_in == became;
    row
}
