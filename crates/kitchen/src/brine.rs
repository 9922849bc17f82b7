//! A brine held against the share of the jar that the tested recipe gives it.
//!
//! `jars::brine_reach` reckons from the volume of the solids; where nobody measured that, the
//! tested recipe's own brine and yield say how much of a jar its brine has to fill (common
//! practice, no source). More is made at the tested ratio and never with plain water.

use quantity::{
    Exact, Rounding, Volume, VolumeUnit, ceil, checked_div, checked_mul, checked_sub, exact_text,
    floor, kitchen_measure::measure, show, whole,
};
use reference::Jar;
use serde::{Deserialize, Serialize};

use crate::error::KitchenError;
use crate::jars::{about, jar_name};

/// A brine as it would be mixed, and the jars it should fill.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ShareQuestion {
    /// The brine, as mixed.
    pub brine: Volume,
    /// Jars to fill.
    pub jars: u32,
    /// Their size.
    pub jar: Jar,
    /// The brine of the tested recipe.
    pub tested_brine: Volume,
    /// All its jars together: 4 US pints.
    pub tested_jars: Volume,
}

/// Whether a brine has the share of the jars that the tested recipe has.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct BrineShare {
    /// Brine over jar volume, as asked.
    #[serde(with = "exact_text")]
    pub share: Exact,
    /// The same of the tested recipe.
    #[serde(with = "exact_text")]
    pub tested: Exact,
    /// Jars the brine is enough for at the tested share.
    #[serde(with = "exact_text")]
    pub enough_for: Exact,
    /// What is wanting; nothing where it reaches.
    pub short: Volume,
    /// In words.
    pub words: String,
}

impl BrineShare {
    /// Does it reach?
    pub fn reaches(&self) -> bool {
        self.short.is_zero()
    }
}

/// Brine / jar volume against the tested recipe's. Errors: no jars, or a brine or tested recipe of
/// nothing; overflow.
pub fn brine_share(question: &ShareQuestion) -> Result<BrineShare, KitchenError> {
    let given = [question.brine, question.tested_brine, question.tested_jars];
    if question.jars == 0 || !given.into_iter().all(Volume::is_positive) {
        return Err(KitchenError::BrineAmount);
    }
    let all = question
        .jar
        .volume()
        .checked_mul(whole(i64::from(question.jars)))?;
    let share = question.brine.ratio(all)?;
    let tested = question.tested_brine.ratio(question.tested_jars)?;
    let jars = Exact::from_integer(i128::from(question.jars));
    let enough_for = checked_div(checked_mul(jars, share)?, tested)?;
    let short = if share < tested {
        all.checked_mul(checked_sub(tested, share)?)?
    } else {
        Volume::of(0, VolumeUnit::Cup)
    };
    let words = if short.is_zero() {
        format!(
            "The brine reaches for {} {}.",
            question.jars,
            jar_name(question.jar, question.jars)
        )
    } else {
        let full = u32::try_from(floor(enough_for).max(0)).unwrap_or(question.jars);
        // To the next quarter cup: the nearest could fall short once more.
        let quarters = ceil(checked_mul(short.in_unit(VolumeUnit::Cup), whole(4))?);
        let mix = Volume::new(Exact::new(quarters, 4), VolumeUnit::Cup)?;
        format!(
            "The brine falls short before it is made: {} % of the jars, where the tested recipe \
             has {} %. It is enough for {full} {}, not {}: {} short. Mix {} more at the same \
             ratio; never top up with water.",
            show::decimal(checked_mul(share, whole(100))?, 1),
            show::decimal(checked_mul(tested, whole(100))?, 1),
            jar_name(question.jar, full),
            question.jars,
            about(short),
            measure(mix, Rounding::Up)
        )
    };
    Ok(BrineShare {
        share,
        tested,
        enough_for,
        short,
        words,
    })
}

/// Acid percent of vinegar with water: vinegar x its percent / (vinegar + water). Errors: a volume
/// below zero, or nothing mixed; overflow.
pub fn acid_percent(
    vinegar: Volume,
    vinegar_percent: Exact,
    water: Volume,
) -> Result<Exact, KitchenError> {
    let mixed = vinegar.checked_add(water)?;
    if vinegar.is_negative() || water.is_negative() || mixed.is_zero() {
        return Err(KitchenError::BrineAmount);
    }
    Ok(checked_mul(vinegar.ratio(mixed)?, vinegar_percent)?)
}
