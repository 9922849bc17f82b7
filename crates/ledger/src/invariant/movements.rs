//! Rules about movements and the sums they make.

use super::{End, EntrySum, Finding, Leg, LotWeight};
use crate::{
    Balances, ContainerBalances, ContainerMovement, Content, Movement, Place, apply,
    apply_containers, mass_balance,
};
use std::collections::{BTreeMap, BTreeSet};

/// What leaves one place of an entry arrives at another. A leg at a place nobody knows is food
/// that went nowhere, so its entry does not sum to zero.
#[must_use]
pub fn entry_sums_to_zero(legs: &[Leg]) -> Finding {
    let mut sums: BTreeMap<(i64, &str), (i128, BTreeSet<&str>)> = BTreeMap::new();
    for leg in legs {
        let (sum, strange) = sums.entry((leg.entry, &leg.crop)).or_default();
        if leg.place.parse::<Place>().is_ok() {
            *sum += match leg.end {
                End::Leaves => -i128::from(leg.milligrams),
                End::Arrives => i128::from(leg.milligrams),
            };
        } else {
            strange.insert(&leg.place);
        }
    }
    let broken = sums
        .iter()
        .filter(|(_, (sum, strange))| *sum != 0 || !strange.is_empty())
        .map(|((entry, crop), (sum, strange))| {
            let mut text = format!("entry {entry}, {crop}: must sum to 0 mg, is {sum} mg");
            for place in strange {
                text.push_str(&format!("; \"{place}\" is no place"));
            }
            text
        })
        .collect();
    Finding {
        invariant: "entry-sums-to-zero",
        examined: sums.len(),
        broken,
    }
}

/// Every entry still has the lines it had when it was closed.
#[must_use]
pub fn entry_is_whole(
    entries: &[i64],
    sums: &[EntrySum],
    legs: &[Leg],
    containers: &[ContainerMovement],
) -> Finding {
    let mut counted: BTreeMap<i64, [i128; 4]> = BTreeMap::new();
    for leg in legs.iter().filter(|leg| leg.end == End::Arrives) {
        let sum = counted.entry(leg.entry).or_default();
        sum[0] += 1;
        sum[1] += i128::from(leg.milligrams);
    }
    for movement in containers {
        let sum = counted.entry(movement.entry).or_default();
        sum[2] += 1;
        sum[3] += i128::from(movement.count);
    }
    let said: BTreeMap<i64, [i128; 4]> = sums
        .iter()
        .map(|sum| {
            let said = [
                sum.lines,
                sum.milligrams,
                sum.container_lines,
                sum.containers,
            ];
            (sum.entry, said.map(i128::from))
        })
        .collect();
    let known: BTreeSet<i64> = entries.iter().copied().collect();
    let every: BTreeSet<i64> = known
        .iter()
        .chain(counted.keys())
        .chain(said.keys())
        .copied()
        .collect();
    let mut broken = Vec::new();
    for entry in &every {
        if !known.contains(entry) {
            broken.push(format!("entry {entry}: has lines but is not there itself"));
            continue;
        }
        let Some(said) = said.get(entry) else {
            broken.push(format!(
                "entry {entry}: was never closed, its sums are missing"
            ));
            continue;
        };
        let found = counted.get(entry).copied().unwrap_or_default();
        if *said != found {
            broken.push(format!(
                "entry {entry}: closed with {} movements of {} mg and {} container movements of {}, \
                 has {} of {} mg and {} of {}",
                said[0], said[1], said[2], said[3], found[0], found[1], found[2], found[3],
            ));
        }
    }
    Finding {
        invariant: "entry-is-whole",
        examined: every.len(),
        broken,
    }
}

/// Every movement carries something, goes somewhere, and neither leaves an end nor enters a source
/// unless it undoes another.
#[must_use]
pub fn movement_is_sound(
    movements: &[Movement],
    containers: &[ContainerMovement],
    reversals: &[(i64, i64)],
) -> Finding {
    let undoing: BTreeSet<i64> = reversals.iter().map(|(by, _)| *by).collect();
    let mut broken = Vec::new();
    for movement in movements {
        let answer = if undoing.contains(&movement.entry) {
            movement.sound_as_reversal()
        } else {
            movement.sound()
        };
        if let Err(error) = answer {
            broken.push(format!(
                "movement {}/{}: {error}",
                movement.entry, movement.line
            ));
        }
    }
    for movement in containers {
        let answer = if undoing.contains(&movement.entry) {
            movement.sound_as_reversal()
        } else {
            movement.sound()
        };
        if let Err(error) = answer {
            let (entry, line) = (movement.entry, movement.line);
            broken.push(format!("container movement {entry}/{line}: {error}"));
        }
    }
    Finding {
        invariant: "movement-is-sound",
        examined: movements.len() + containers.len(),
        broken,
    }
}

/// No place a hand can reach is below zero at the end of any day.
#[must_use]
pub fn no_place_below_zero(movements: &[Movement]) -> Finding {
    let mut by_day: Vec<&Movement> = movements.iter().collect();
    by_day.sort_by_key(|movement| movement.on);
    let mut sums = Balances::new();
    let mut examined = 0;
    let mut broken = Vec::new();
    for day in by_day.chunk_by(|a, b| a.on == b.on) {
        let mut touched = BTreeSet::new();
        for movement in day {
            apply(&mut sums, movement);
            touched.insert((movement.content, movement.crop.clone(), movement.from));
            touched.insert((movement.content_after(), movement.crop.clone(), movement.to));
        }
        for key in touched
            .into_iter()
            .filter(|(_, _, place)| place.is_touchable())
        {
            examined += 1;
            let sum = sums.get(&key).copied().unwrap_or(0);
            if sum < 0 {
                let (content, crop, place) = key;
                let on = day[0].on;
                broken.push(format!(
                    "{crop} of {content} at {place} is {sum} mg on {on}"
                ));
            }
        }
    }
    Finding {
        invariant: "no-place-below-zero",
        examined,
        broken,
    }
}

/// No place where containers stand has fewer than none at the end of any day.
#[must_use]
pub fn no_containers_below_zero(containers: &[ContainerMovement]) -> Finding {
    let mut by_day: Vec<&ContainerMovement> = containers.iter().collect();
    by_day.sort_by_key(|movement| movement.on);
    let mut sums = ContainerBalances::new();
    let mut examined = 0;
    let mut broken = Vec::new();
    for day in by_day.chunk_by(|a, b| a.on == b.on) {
        let mut touched = BTreeSet::new();
        for movement in day {
            apply_containers(&mut sums, movement);
            touched.insert((movement.batch, movement.size.clone(), movement.from));
            touched.insert((movement.batch, movement.size.clone(), movement.to));
        }
        for key in touched
            .into_iter()
            .filter(|(_, _, place)| place.holds_containers())
        {
            examined += 1;
            let sum = sums.get(&key).copied().unwrap_or(0);
            if sum < 0 {
                let (batch, size, place) = key;
                let on = day[0].on;
                broken.push(format!(
                    "{size} of batch {batch} at {place} is {sum} on {on}"
                ));
            }
        }
    }
    Finding {
        invariant: "no-containers-below-zero",
        examined,
        broken,
    }
}

/// What came in of a crop equals what became of it, `unaccounted` included, and nothing of a lot is
/// booked under another crop than the lot's own.
#[must_use]
pub fn balance_per_crop_is_zero(movements: &[Movement], lots: &[LotWeight]) -> Finding {
    let crops = mass_balance(movements);
    let mut broken: Vec<String> = crops
        .iter()
        .filter(|crop| !crop.sum_is_zero)
        .map(|crop| {
            let came_in = crop.came_in();
            format!(
                "{}: {came_in} mg came in, but its places do not sum to that",
                crop.crop
            )
        })
        .collect();
    let crop_of: BTreeMap<i64, &str> = lots
        .iter()
        .map(|lot| (lot.lot, lot.crop.as_str()))
        .collect();
    for movement in movements {
        for content in BTreeSet::from([movement.content, movement.content_after()]) {
            if let Content::Lot(lot) = content
                && let Some(crop) = crop_of.get(&lot)
                && *crop != movement.crop
            {
                broken.push(format!(
                    "lot {lot} is {crop}, but movement {}/{} books {} mg of it as {}",
                    movement.entry, movement.line, movement.milligrams, movement.crop,
                ));
            }
        }
    }
    Finding {
        invariant: "balance-per-crop-is-zero",
        examined: crops.len(),
        broken,
    }
}
