//! Undo: the opposite movements, and what stands in the way of them.

use crate::{
    Balances, ContainerBalances, ContainerMovement, CountLine, Movement, Place, apply,
    apply_containers,
};
use jiff::civil::Date;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt;

/// The lines that undo `lines`, as lines of `entry` on the day of the undoing. What became a batch
/// becomes its lot again.
#[must_use]
pub fn reverse(lines: &[Movement], entry: i64, on: Date) -> Vec<Movement> {
    lines
        .iter()
        .map(|line| Movement {
            entry,
            line: line.line,
            on,
            crop: line.crop.clone(),
            content: line.content_after(),
            becomes: line.becomes.map(|_| line.content),
            from: line.to,
            to: line.from,
            milligrams: line.milligrams,
            estimated: line.estimated,
        })
        .collect()
}

/// As [`reverse`], for containers.
#[must_use]
pub fn reverse_containers(
    lines: &[ContainerMovement],
    entry: i64,
    on: Date,
) -> Vec<ContainerMovement> {
    lines
        .iter()
        .map(|line| ContainerMovement {
            entry,
            line: line.line,
            on,
            batch: line.batch,
            size: line.size.clone(),
            from: line.to,
            to: line.from,
            count: line.count,
        })
        .collect()
}

/// Why an entry cannot be undone: a later one rests on it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Dependent {
    /// The later entry.
    pub entry: i64,
    /// In what way it rests on the one to undo.
    pub how: Dependence,
}

/// In what way a later entry rests on an earlier one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Dependence {
    /// Its food came from there: without the earlier entry the place would be below zero.
    Food {
        /// Crop or ingredient.
        crop: String,
        /// The place.
        place: Place,
    },
    /// Its containers came from there.
    Containers {
        /// The batch.
        batch: i64,
        /// Container size.
        size: String,
        /// The place.
        place: Place,
    },
    /// It counted the shelf after the containers had moved.
    Count {
        /// The batch.
        batch: i64,
        /// Container size.
        size: String,
        /// The place.
        place: Place,
    },
}

impl fmt::Display for Dependent {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let entry = self.entry;
        match &self.how {
            Dependence::Food { crop, place } => {
                write!(f, "entry {entry} has since moved {crop} on from {place}")
            }
            Dependence::Containers { batch, size, place } => {
                write!(
                    f,
                    "entry {entry} has since moved {size} of batch {batch} on from {place}"
                )
            }
            Dependence::Count { batch, size, place } => {
                write!(
                    f,
                    "entry {entry} has since counted {size} of batch {batch} at {place}"
                )
            }
        }
    }
}

/// The first later entry that rests on `entry`, if any: then `entry` cannot simply be undone.
///
/// The history without `entry` (and without what was undone before) is walked in the order of the
/// entries; the first entry that would take food or containers out of an empty place, or that
/// counted containers `entry` had moved, is the answer. `reversals` are pairs of (undoing entry,
/// undone entry).
#[must_use]
pub fn first_dependent(
    entry: i64,
    movements: &[Movement],
    containers: &[ContainerMovement],
    counts: &[CountLine],
    reversals: &[(i64, i64)],
) -> Option<Dependent> {
    let mut left_out: BTreeSet<i64> = reversals.iter().flat_map(|(by, of)| [*by, *of]).collect();
    left_out.insert(entry);
    let mut history: BTreeMap<i64, (Vec<&Movement>, Vec<&ContainerMovement>)> = BTreeMap::new();
    for movement in movements {
        history.entry(movement.entry).or_default().0.push(movement);
    }
    for movement in containers {
        history.entry(movement.entry).or_default().1.push(movement);
    }
    let counted: BTreeSet<(i64, &str, Place)> = history
        .get(&entry)
        .into_iter()
        .flat_map(|(_, moved)| moved)
        .flat_map(|c| {
            [
                (c.batch, c.size.as_str(), c.from),
                (c.batch, c.size.as_str(), c.to),
            ]
        })
        .collect();
    let first_count = counts
        .iter()
        .filter(|count| count.entry > entry && !left_out.contains(&count.entry))
        .filter(|count| counted.contains(&(count.batch, count.size.as_str(), count.place)))
        .min_by_key(|count| count.entry);
    let mut masses = Balances::new();
    let mut standing = ContainerBalances::new();
    for (later, (food, moved)) in history.iter().filter(|(id, _)| !left_out.contains(id)) {
        if first_count.is_some_and(|count| count.entry <= *later) {
            break;
        }
        for movement in food {
            apply(&mut masses, movement);
        }
        for movement in moved {
            apply_containers(&mut standing, movement);
        }
        for movement in food {
            let key = (movement.content, movement.crop.clone(), movement.from);
            if movement.from.is_touchable() && masses.get(&key).is_some_and(|sum| *sum < 0) {
                return Some(Dependent {
                    entry: *later,
                    how: Dependence::Food {
                        crop: movement.crop.clone(),
                        place: movement.from,
                    },
                });
            }
        }
        for movement in moved {
            let key = (movement.batch, movement.size.clone(), movement.from);
            if movement.from.holds_containers() && standing.get(&key).is_some_and(|sum| *sum < 0) {
                return Some(Dependent {
                    entry: *later,
                    how: Dependence::Containers {
                        batch: movement.batch,
                        size: movement.size.clone(),
                        place: movement.from,
                    },
                });
            }
        }
    }
    first_count.map(|count| Dependent {
        entry: count.entry,
        how: Dependence::Count {
            batch: count.batch,
            size: count.size.clone(),
            place: count.place,
        },
    })
}
