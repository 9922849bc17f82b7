//! Which jar to take next.

use crate::{Content, Place};
use jiff::civil::Date;
use serde::Serialize;

/// Something that stands somewhere and could be taken.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Holding {
    /// The lot or batch.
    pub content: Content,
    /// What people call it.
    pub name: String,
    /// Where it stands.
    pub place: Place,
    /// Container size; `None` for loose food.
    pub size: Option<String>,
    /// Whole containers; zero for loose food.
    pub count: i64,
    /// Milligrams.
    pub milligrams: i64,
    /// The day it was picked or put up.
    pub since: Date,
    /// Marked by the household to be used soon (a dent, a low fill, an early edge).
    pub flagged: bool,
    /// On hold: not to be eaten until released.
    pub held: bool,
}

/// The order in which to use what is there: flagged first, then the oldest. What is on hold is not
/// offered at all. Equal ones come in the order of their number, so the list never jumps about.
#[must_use]
pub fn use_first(holdings: &[Holding]) -> Vec<&Holding> {
    let mut order: Vec<&Holding> = holdings.iter().filter(|holding| !holding.held).collect();
    order.sort_by(|a, b| {
        b.flagged
            .cmp(&a.flagged)
            .then(a.since.cmp(&b.since))
            .then(a.content.cmp(&b.content))
            .then(a.place.cmp(&b.place))
            .then(a.size.cmp(&b.size))
    });
    order
}
