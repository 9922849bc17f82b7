//! Taking some of a batch's containers moves the right share of every crop in them.

use crate::{
    Balances, ContainerBalances, ContainerMovement, Content, LedgerError, Movement, Place,
};
use jiff::civil::Date;
use std::collections::BTreeMap;

/// How much each container size holds, in millilitres. Needed only where one batch stands in
/// containers of different sizes at one place.
pub type Rooms = BTreeMap<String, i64>;

/// Splits `taken` out of `of` equal parts from a mixture: each crop gives its share and the shares
/// sum to the whole share, rounded once, half up; the odd milligrams go to the crops with the
/// largest remainder, first named first. Taking all of it takes everything that is there, so no
/// milligram is ever left behind. Crops whose share is nothing are left out.
///
/// # Errors
/// [`LedgerError::NoShare`] unless `0 <= taken <= of` and `of > 0`; [`LedgerError::AbsurdMass`] for
/// a crop below zero.
pub fn draw_share(
    contents: &[(String, i64)],
    taken: i64,
    of: i64,
) -> Result<Vec<(String, i64)>, LedgerError> {
    if of <= 0 || taken < 0 || taken > of {
        return Err(LedgerError::NoShare { taken, of });
    }
    if let Some((_, below)) = contents.iter().find(|(_, milligrams)| *milligrams < 0) {
        return Err(LedgerError::AbsurdMass(*below));
    }
    let (taken, of) = (i128::from(taken), i128::from(of));
    let whole: i128 = contents.iter().map(|(_, mg)| i128::from(*mg)).sum();
    let target = (whole * taken * 2 + of) / (of * 2);
    let mut parts: Vec<(usize, i128, i128)> = contents
        .iter()
        .enumerate()
        .map(|(at, (_, mg))| {
            let share = i128::from(*mg) * taken;
            (at, share / of, share % of)
        })
        .collect();
    let mut rest = target - parts.iter().map(|(_, floor, _)| floor).sum::<i128>();
    parts.sort_by(|a, b| b.2.cmp(&a.2).then(a.0.cmp(&b.0)));
    for part in &mut parts {
        if rest > 0 && part.2 > 0 {
            part.1 += 1;
            rest -= 1;
        }
    }
    parts.sort_by_key(|part| part.0);
    Ok(parts
        .into_iter()
        .filter(|(_, share, _)| *share > 0)
        // A share is at most the mass it is a share of, so it fits an i64.
        .map(|(at, share, _)| {
            (
                contents[at].0.clone(),
                i64::try_from(share).unwrap_or(i64::MAX),
            )
        })
        .collect())
}

/// A wish to move some containers of one batch.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Draw {
    /// The entry the movements will belong to.
    pub entry: i64,
    /// The day it happens.
    pub on: Date,
    /// The batch.
    pub batch: i64,
    /// Container size.
    pub size: String,
    /// Where they stand.
    pub from: Place,
    /// Where they go.
    pub to: Place,
    /// How many.
    pub count: i64,
}

/// The movements a [`Draw`] leads to. Lines are numbered from zero.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Drawn {
    /// The containers.
    pub containers: ContainerMovement,
    /// What is in them, one line per crop, marked estimated: a jar is counted, not weighed. Taking
    /// the last container of a batch takes the rest, whatever it is.
    pub movements: Vec<Movement>,
}

/// Works out the movements for taking `draw.count` containers out of what stands there.
///
/// # Errors
/// [`LedgerError::NotThatMany`], [`LedgerError::AbsurdCount`], [`LedgerError::GoesNowhere`], or
/// [`LedgerError::UnknownRoom`] when different sizes stand together and one has no known room.
pub fn draw_containers(
    draw: &Draw,
    standing: &ContainerBalances,
    masses: &Balances,
    rooms: &Rooms,
) -> Result<Drawn, LedgerError> {
    let containers = ContainerMovement {
        entry: draw.entry,
        line: 0,
        on: draw.on,
        batch: draw.batch,
        size: draw.size.clone(),
        from: draw.from,
        to: draw.to,
        count: draw.count,
    };
    containers.sound()?;
    let there = sizes_at(standing, draw.batch, draw.from)
        .get(draw.size.as_str())
        .copied()
        .unwrap_or(0);
    if draw.count > there {
        return Err(LedgerError::NotThatMany {
            batch: draw.batch,
            size: draw.size.clone(),
            place: draw.from,
            there,
            asked: draw.count,
        });
    }
    let mixture = Mixture::at(draw.batch, draw.from, &draw.size, standing, masses, rooms)?;
    let taken = mixture.per_container.saturating_mul(draw.count);
    let movements = draw_share(&mixture.contents, taken, mixture.of)?
        .into_iter()
        .zip(0_u16..)
        .map(|((crop, milligrams), line)| Movement {
            entry: draw.entry,
            line,
            on: draw.on,
            crop,
            content: Content::Batch(draw.batch),
            becomes: None,
            from: draw.from,
            to: draw.to,
            milligrams,
            estimated: true,
        })
        .collect();
    Ok(Drawn {
        containers,
        movements,
    })
}

/// Counts per size of one batch at one place, above zero only.
pub(crate) fn sizes_at(
    standing: &ContainerBalances,
    batch: i64,
    place: Place,
) -> BTreeMap<&str, i64> {
    standing
        .iter()
        .filter(|((of, _, at), count)| *of == batch && *at == place && **count > 0)
        .map(|((_, size, _), count)| (size.as_str(), *count))
        .collect()
}

/// One batch at one place: its masses, and its containers as parts of equal size.
pub(crate) struct Mixture {
    /// Milligrams per crop, above zero.
    pub contents: Vec<(String, i64)>,
    /// Parts that one container of the size asked about makes up.
    pub per_container: i64,
    /// Parts of all containers together.
    pub of: i64,
}

impl Mixture {
    /// Every container is one part as long as only the size asked about stands there; otherwise a
    /// part is a millilitre and every size must have a known room.
    pub fn at(
        batch: i64,
        place: Place,
        size: &str,
        standing: &ContainerBalances,
        masses: &Balances,
        rooms: &Rooms,
    ) -> Result<Self, LedgerError> {
        let here = sizes_at(standing, batch, place);
        let alone = here.keys().all(|other| *other == size);
        let room_of = |size: &str| -> Result<i64, LedgerError> {
            if alone {
                return Ok(1);
            }
            rooms
                .get(size)
                .copied()
                .filter(|room| *room > 0)
                .ok_or_else(|| LedgerError::UnknownRoom(size.to_owned()))
        };
        let mut of = 0_i64;
        for (size, count) in &here {
            of = of.saturating_add(room_of(size)?.saturating_mul(*count));
        }
        let contents = masses
            .iter()
            .filter(|((content, _, at), milligrams)| {
                *content == Content::Batch(batch) && *at == place && **milligrams > 0
            })
            .map(|((_, crop, _), milligrams)| (crop.clone(), *milligrams))
            .collect();
        Ok(Self {
            contents,
            per_container: room_of(size)?,
            of,
        })
    }
}
