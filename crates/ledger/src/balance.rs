//! Balances: sums of movements, recomputed whenever they are asked for.

use crate::{ContainerMovement, Content, Movement, Place};
use std::collections::BTreeMap;

/// Milligrams per content, crop and place. Sources run below zero; nothing stands for zero.
pub type Balances = BTreeMap<(Content, String, Place), i64>;

/// Whole containers per batch, size and place. The pot runs below zero; nothing stands for zero.
pub type ContainerBalances = BTreeMap<(i64, String, Place), i64>;

/// What stands where, in milligrams, after all these movements.
#[must_use]
pub fn balances(movements: &[Movement]) -> Balances {
    let mut sums = Balances::new();
    for movement in movements {
        apply(&mut sums, movement);
    }
    sums
}

/// How many containers stand where after all these movements.
#[must_use]
pub fn container_balances(movements: &[ContainerMovement]) -> ContainerBalances {
    let mut sums = ContainerBalances::new();
    for movement in movements {
        apply_containers(&mut sums, movement);
    }
    sums
}

/// Adds one movement to a set of balances.
pub fn apply(sums: &mut Balances, movement: &Movement) {
    let leaves = (movement.content, movement.crop.clone(), movement.from);
    let arrives = (movement.content_after(), movement.crop.clone(), movement.to);
    add(sums, leaves, movement.milligrams.saturating_neg());
    add(sums, arrives, movement.milligrams);
}

/// Adds one container movement to a set of balances.
pub fn apply_containers(sums: &mut ContainerBalances, movement: &ContainerMovement) {
    let leaves = (movement.batch, movement.size.clone(), movement.from);
    let arrives = (movement.batch, movement.size.clone(), movement.to);
    add(sums, leaves, movement.count.saturating_neg());
    add(sums, arrives, movement.count);
}

/// Saturates rather than wrapping: `MAX_MILLIGRAMS` keeps sound records millions of movements away
/// from the edge, and a damaged file must give a wrong figure that `check` names, not a crash.
fn add<K: Ord>(sums: &mut BTreeMap<K, i64>, key: K, amount: i64) {
    use std::collections::btree_map::Entry;
    match sums.entry(key) {
        Entry::Vacant(slot) => {
            if amount != 0 {
                slot.insert(amount);
            }
        }
        Entry::Occupied(mut slot) => {
            let sum = slot.get().saturating_add(amount);
            if sum == 0 {
                slot.remove();
            } else {
                *slot.get_mut() = sum;
            }
        }
    }
}
