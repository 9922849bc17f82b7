//! A shelf count states what was found; the difference goes to or comes from `unaccounted`.

use crate::draw::{Draw, Mixture, Rooms, draw_containers, sizes_at};
use crate::{
    Balances, ContainerBalances, ContainerMovement, Content, LedgerError, Movement, Place, apply,
    apply_containers, draw_share,
};
use jiff::civil::Date;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// What a person found of one batch and size.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Found {
    /// The batch.
    pub batch: i64,
    /// Container size.
    pub size: String,
    /// How many were found, zero or more.
    pub count: i64,
}

/// A count as it is kept: what was found and what the record said before.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct CountLine {
    /// The entry of the count.
    pub entry: i64,
    /// Line within the entry.
    pub line: u16,
    /// Where was counted.
    pub place: Place,
    /// The batch.
    pub batch: i64,
    /// Container size.
    pub size: String,
    /// How many were found.
    pub found: i64,
    /// How many the record said.
    pub recorded: i64,
}

/// What a shelf count leads to: the count itself and the movements that make the record agree.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct ShelfDifference {
    /// The count, one line per finding, whether it differed or not.
    pub counts: Vec<CountLine>,
    /// Containers missing (to `unaccounted`) or found beyond the record (from `unaccounted`).
    pub containers: Vec<ContainerMovement>,
    /// What is in them, marked estimated.
    pub movements: Vec<Movement>,
}

/// Compares what was found at `place` with the record and gives the movements between them.
///
/// Only what is named in `found` is compared: a person who counts one shelf board has not said that
/// the rest is gone. A container too many carries the mass of an equal one still standing there;
/// where none stands, the mass that `unaccounted` holds of that batch, per container; where there is
/// neither, the container is counted and its mass stays unknown.
///
/// # Errors
/// [`LedgerError::AbsurdCount`] for a finding below zero; [`LedgerError::NoContainersThere`];
/// [`LedgerError::UnknownRoom`] as for [`draw_containers`].
pub fn shelf_difference(
    entry: i64,
    on: Date,
    place: Place,
    found: &[Found],
    standing: &ContainerBalances,
    masses: &Balances,
    rooms: &Rooms,
) -> Result<ShelfDifference, LedgerError> {
    if !place.holds_containers() {
        return Err(LedgerError::NoContainersThere(place));
    }
    // Two lines for the same batch and size are two boards of one shelf: they add up.
    let mut sums: BTreeMap<(i64, &str), i64> = BTreeMap::new();
    for finding in found {
        if !(0..=crate::MAX_CONTAINERS).contains(&finding.count) {
            return Err(LedgerError::AbsurdCount(finding.count));
        }
        *sums.entry((finding.batch, &finding.size)).or_default() += finding.count;
    }
    let mut standing = standing.clone();
    let mut masses = masses.clone();
    let mut answer = ShelfDifference::default();
    for (line, ((batch, size), count)) in (0_u16..).zip(sums) {
        let key = (batch, size.to_owned(), place);
        let recorded = standing.get(&key).copied().unwrap_or(0);
        answer.counts.push(CountLine {
            entry,
            line,
            place,
            batch,
            size: size.to_owned(),
            found: count,
            recorded,
        });
        if count == recorded {
            continue;
        }
        let (containers, movements) = if count < recorded {
            let draw = Draw {
                entry,
                on,
                batch,
                size: size.to_owned(),
                from: place,
                to: Place::Unaccounted,
                count: recorded - count,
            };
            let drawn = draw_containers(&draw, &standing, &masses, rooms)?;
            (drawn.containers, drawn.movements)
        } else {
            let extra = ContainerMovement {
                entry,
                line: 0,
                on,
                batch,
                size: size.to_owned(),
                from: Place::Unaccounted,
                to: place,
                count: count - recorded,
            };
            let movements = contents_of_extra(&extra, &standing, &masses, rooms)?;
            (extra, movements)
        };
        apply_containers(&mut standing, &containers);
        answer.containers.push(containers);
        for movement in movements {
            apply(&mut masses, &movement);
            answer.movements.push(movement);
        }
    }
    for (line, containers) in (0_u16..).zip(&mut answer.containers) {
        containers.line = line;
    }
    for (line, movement) in (0_u16..).zip(&mut answer.movements) {
        movement.line = line;
    }
    Ok(answer)
}

/// The mass that comes with containers found beyond the record.
fn contents_of_extra(
    extra: &ContainerMovement,
    standing: &ContainerBalances,
    masses: &Balances,
    rooms: &Rooms,
) -> Result<Vec<Movement>, LedgerError> {
    let model = [extra.to, Place::Unaccounted]
        .into_iter()
        .find(|place| !sizes_at(standing, extra.batch, *place).is_empty());
    let Some(model) = model else {
        return Ok(Vec::new());
    };
    let mixture = Mixture::at(extra.batch, model, &extra.size, standing, masses, rooms)?;
    let wanted = mixture.per_container.saturating_mul(extra.count);
    // More extra jars than the model has: whole copies of the model, then a share of it.
    let (copies, rest) = (wanted / mixture.of, wanted % mixture.of);
    let mut sums: BTreeMap<String, i64> = mixture
        .contents
        .iter()
        .filter(|_| copies > 0)
        .map(|(crop, milligrams)| (crop.clone(), milligrams.saturating_mul(copies)))
        .collect();
    for (crop, milligrams) in draw_share(&mixture.contents, rest, mixture.of)? {
        let sum = sums.entry(crop).or_default();
        *sum = sum.saturating_add(milligrams);
    }
    Ok(sums
        .into_iter()
        .map(|(crop, milligrams)| Movement {
            entry: extra.entry,
            line: 0,
            on: extra.on,
            crop,
            content: Content::Batch(extra.batch),
            becomes: None,
            from: extra.from,
            to: extra.to,
            milligrams,
            estimated: true,
        })
        .collect())
}
