//! A proposed harvest plan: runs, what they use, what it is worth, what was left out and why.

use serde::{Deserialize, Serialize};

/// A proposal. It is shown or stored only after [`super::check`] found nothing.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Plan {
    /// Batches by day and outlet, ordered by day, then outlet.
    pub runs: Vec<Run>,
    /// Which lot goes into which run.
    pub uses: Vec<Use>,
    /// Points; the sum of `parts`.
    pub value: i64,
    /// Where the points come from.
    pub parts: ValueParts,
    /// No plan of this problem is worth more points than this.
    pub bound: i64,
    /// Whether no better plan exists.
    pub proven: bool,
    /// Every lot of which something is left, with the reason.
    pub left_out: Vec<LeftOut>,
    /// Limits that are used up or stood in the way.
    pub binding: Vec<Binding>,
}

/// Batches of one outlet on one day.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Run {
    /// Day, from 0.
    pub day: usize,
    /// Index into `Problem::outlets`.
    pub outlet: usize,
    /// Whole batches, at least one.
    pub batches: i64,
}

/// Grams of one lot that go into one input of one run.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Use {
    /// Day of the run.
    pub day: usize,
    /// Outlet of the run.
    pub outlet: usize,
    /// Index into the outlet's inputs.
    pub input: usize,
    /// Index into `Problem::lots`.
    pub lot: usize,
    /// Grams, above zero.
    pub grams: i64,
}

/// The parts of the value, all in points.
///
/// `value = goods + extra - waste - work - delay`. Waste and work are fractions of a point; their
/// sum is rounded up once, and the two figures shown add up to it.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct ValueParts {
    /// Worth of the goods made.
    pub goods: i64,
    /// Worth of batches beyond their goods.
    pub extra: i64,
    /// Lost by lots not used by their last day.
    pub waste: i64,
    /// Price of the attended work.
    pub work: i64,
    /// Price of waiting.
    pub delay: i64,
}

impl ValueParts {
    /// The sum of the parts.
    pub fn total(&self) -> i128 {
        i128::from(self.goods) + i128::from(self.extra)
            - i128::from(self.waste)
            - i128::from(self.work)
            - i128::from(self.delay)
    }
}

/// A lot, or the rest of one, that the plan does not use.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct LeftOut {
    /// Index into `Problem::lots`.
    pub lot: usize,
    /// Grams left.
    pub grams: i64,
    /// Why.
    pub reason: ReasonCode,
    /// Why, in a sentence.
    pub text: String,
}

/// Why a lot is left out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ReasonCode {
    /// No outlet accepts this crop and grade.
    NoOutletTakesThisGrade,
    /// It can be used only before day 0.
    PastItsDay,
    /// It can be used only after the last day planned for.
    NotHereYet,
    /// It keeps longer than the plan looks ahead; nothing is lost yet.
    KeepsBeyondPlan,
    /// Its outlets may not be made on its days.
    DayNotAllowed,
    /// The hours of a day are used up.
    Hands,
    /// The canner's loads of a day are used up.
    Canner,
    /// The freezer cannot freeze more on a day.
    FreezingLimit,
    /// The dryer's trays of a day are used up.
    Dryer,
    /// The freezer is full.
    FreezerRoom,
    /// Jars, lids or bags have run out.
    Containers,
    /// A bought ingredient has run out.
    Ingredient,
    /// The outlet's most per day is reached.
    OutletMaximum,
    /// What is left does not fill a batch.
    LessThanOneBatch,
    /// Another crop the recipe needs has run out.
    AnotherCropIsShort,
    /// One more batch would cost more than it is worth.
    NotWorthTheWork,
    /// One more batch would fit and be worth it, but only by changing other batches; the search
    /// ended before it was placed.
    NotFoundInTime,
}

/// A limit of the problem.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(tag = "limit", rename_all = "kebab-case")]
pub enum Limit {
    /// Minutes of attended work on a day.
    Hands {
        /// The day.
        day: usize,
    },
    /// Loads of one canner on a day.
    CannerLoads {
        /// The day.
        day: usize,
        /// Index into `Problem::canners`.
        canner: usize,
    },
    /// Grams the freezer can freeze on a day.
    FreezeGrams {
        /// The day.
        day: usize,
    },
    /// Dryer trays on a day.
    DryerTrays {
        /// The day.
        day: usize,
    },
    /// Millilitres of freezer room.
    FreezerRoom,
    /// Containers of one size.
    Container {
        /// Index into `Problem::containers`.
        container: usize,
    },
    /// One bought ingredient.
    Ingredient {
        /// Index into `Problem::ingredients`.
        ingredient: usize,
    },
    /// Most batches of one outlet on a day.
    OutletMaximum {
        /// The day.
        day: usize,
        /// Index into `Problem::outlets`.
        outlet: usize,
    },
}

/// A limit that is used up, or that one more batch would breach.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Binding {
    /// Which limit.
    pub limit: Limit,
    /// How much of it the plan uses.
    pub used: i64,
    /// How much there is.
    pub available: i64,
    /// The same in a sentence.
    pub text: String,
}

/// How far the plan may be from the best: (bound - value) / bound, zero when they are equal.
///
/// When the bound is not above zero the same distance is measured against its size (at least one
/// point), so the figure stays positive.
pub fn gap(plan: &Plan) -> f64 {
    let distance = i128::from(plan.bound) - i128::from(plan.value);
    if distance == 0 {
        return 0.0;
    }
    distance as f64 / i128::from(plan.bound).abs().max(1) as f64
}
