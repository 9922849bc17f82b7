//! Rules that hold records of another kind (counts, lots, batches, undoings) against movements.

use super::{Finding, LotWeight};
use crate::{
    ContainerBalances, ContainerMovement, Content, CountLine, Movement, Place, apply_containers,
    balances, reverse, reverse_containers,
};
use std::collections::{BTreeMap, BTreeSet};

/// After a shelf count the record says what was found.
#[must_use]
pub fn count_matches_movements(counts: &[CountLine], containers: &[ContainerMovement]) -> Finding {
    let mut history: Vec<&ContainerMovement> = containers.iter().collect();
    history.sort_by_key(|movement| movement.entry);
    let mut order: Vec<&CountLine> = counts.iter().collect();
    order.sort_by_key(|count| (count.entry, count.line));
    let mut sums = ContainerBalances::new();
    let mut next = history.into_iter().peekable();
    let mut broken = Vec::new();
    for counted in order.chunk_by(|a, b| a.entry == b.entry) {
        let entry = counted[0].entry;
        while let Some(movement) = next.next_if(|movement| movement.entry < entry) {
            apply_containers(&mut sums, movement);
        }
        let before = sums.clone();
        while let Some(movement) = next.next_if(|movement| movement.entry == entry) {
            apply_containers(&mut sums, movement);
        }
        for count in counted {
            let key = (count.batch, count.size.clone(), count.place);
            let said = before.get(&key).copied().unwrap_or(0);
            let after = sums.get(&key).copied().unwrap_or(0);
            if count.recorded != said || count.found != after {
                broken.push(format!(
                    "count {entry}/{}: {} of batch {} at {}: found {} against a record of {}, but the \
                     movements say {said} before and {after} after",
                    count.line, count.size, count.batch, count.place, count.found, count.recorded,
                ));
            }
        }
    }
    Finding {
        invariant: "count-matches-movements",
        examined: counts.len(),
        broken,
    }
}

/// A lot's first weight is what its own entry moved into it.
#[must_use]
pub fn lot_weight_matches_movements(lots: &[LotWeight], movements: &[Movement]) -> Finding {
    let mut moved: BTreeMap<(i64, i64), i128> = BTreeMap::new();
    for movement in movements {
        let arrives = movement.content_after();
        if let Content::Lot(lot) = arrives
            && (movement.from.is_source() || movement.content != arrives)
        {
            *moved.entry((movement.entry, lot)).or_default() += i128::from(movement.milligrams);
        }
    }
    let broken = lots
        .iter()
        .filter_map(|lot| {
            let sum = moved.get(&(lot.entry, lot.lot)).copied().unwrap_or(0);
            (sum != i128::from(lot.milligrams)).then(|| {
                format!(
                    "lot {}: taken down as {} mg, but entry {} moved {sum} mg into it",
                    lot.lot, lot.milligrams, lot.entry,
                )
            })
        })
        .collect();
    Finding {
        invariant: "lot-weight-matches-movements",
        examined: lots.len(),
        broken,
    }
}

/// Once a batch's outcome is taken down nothing of it is left in the pot.
#[must_use]
pub fn pot_empty_after_outcome(finished_batches: &[i64], movements: &[Movement]) -> Finding {
    let finished: BTreeSet<i64> = finished_batches.iter().copied().collect();
    let broken = balances(movements)
        .into_iter()
        .filter_map(|((content, crop, place), milligrams)| match content {
            Content::Batch(batch) if place == Place::Pot && finished.contains(&batch) => {
                Some(format!(
                    "batch {batch} is finished, but {milligrams} mg of {crop} are still in the pot"
                ))
            }
            _ => None,
        })
        .collect();
    Finding {
        invariant: "pot-empty-after-outcome",
        examined: finished.len(),
        broken,
    }
}

/// An undoing moves exactly the opposite of what it undoes; an entry is undone once, by a later
/// entry, and an undoing is not undone itself.
#[must_use]
pub fn reversal_mirrors_entry(
    reversals: &[(i64, i64)],
    movements: &[Movement],
    containers: &[ContainerMovement],
) -> Finding {
    let involved: BTreeSet<i64> = reversals.iter().flat_map(|(by, of)| [*by, *of]).collect();
    let mut food: BTreeMap<i64, Vec<Movement>> = BTreeMap::new();
    for movement in movements
        .iter()
        .filter(|line| involved.contains(&line.entry))
    {
        food.entry(movement.entry)
            .or_default()
            .push(movement.clone());
    }
    let mut moved: BTreeMap<i64, Vec<ContainerMovement>> = BTreeMap::new();
    for movement in containers
        .iter()
        .filter(|line| involved.contains(&line.entry))
    {
        moved
            .entry(movement.entry)
            .or_default()
            .push(movement.clone());
    }
    let undoing: BTreeSet<i64> = reversals.iter().map(|(by, _)| *by).collect();
    let mut undone = BTreeSet::new();
    let mut broken = Vec::new();
    for (by, of) in reversals {
        if by <= of {
            broken.push(format!(
                "entry {by} undoes entry {of}, which is not earlier"
            ));
        }
        if undoing.contains(of) {
            broken.push(format!(
                "entry {by} undoes entry {of}, which is itself an undoing"
            ));
        }
        if !undone.insert(*of) {
            broken.push(format!(
                "entry {of} is undone more than once, again by entry {by}"
            ));
        }
        let original = food.get(of).map_or(&[][..], Vec::as_slice);
        let opposite = food.get(by).map_or(&[][..], Vec::as_slice);
        let original_moved = moved.get(of).map_or(&[][..], Vec::as_slice);
        let opposite_moved = moved.get(by).map_or(&[][..], Vec::as_slice);
        if !same_food(original, opposite, *by)
            || !same_containers(original_moved, opposite_moved, *by)
        {
            broken.push(format!(
                "entry {by} does not move exactly the opposite of entry {of}"
            ));
        }
    }
    Finding {
        invariant: "reversal-mirrors-entry",
        examined: reversals.len(),
        broken,
    }
}

fn same_food(original: &[Movement], opposite: &[Movement], by: i64) -> bool {
    let key = |line: &Movement| {
        let (content, after) = (line.content, line.content_after());
        (
            line.crop.clone(),
            content,
            after,
            line.from,
            line.to,
            line.milligrams,
        )
    };
    let mut wanted: Vec<_> = original
        .iter()
        .flat_map(|line| reverse(std::slice::from_ref(line), by, line.on))
        .map(|line| key(&line))
        .collect();
    let mut found: Vec<_> = opposite.iter().map(key).collect();
    wanted.sort();
    found.sort();
    wanted == found
}

fn same_containers(
    original: &[ContainerMovement],
    opposite: &[ContainerMovement],
    by: i64,
) -> bool {
    let key = |line: &ContainerMovement| {
        (
            line.batch,
            line.size.clone(),
            line.from,
            line.to,
            line.count,
        )
    };
    let mut wanted: Vec<_> = original
        .iter()
        .flat_map(|line| reverse_containers(std::slice::from_ref(line), by, line.on))
        .map(|line| key(&line))
        .collect();
    let mut found: Vec<_> = opposite.iter().map(key).collect();
    wanted.sort();
    found.sort();
    wanted == found
}
