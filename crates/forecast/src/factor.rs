//! A factor, such as pounds a quart, from a published value and what came of each batch.
//!
//! Each batch of `made` units took `used = factor x made`, give or take a scatter that grows with
//! the root of `made`. With a normal-inverse-gamma prior around the published factor both the
//! factor and the scatter have closed answers, and a new batch a Student's t.

use serde::Serialize;
use statrs::distribution::{ContinuousCDF, StudentsT};

/// Share of batches that an interval is meant to hold (our decision): four of five.
const HELD: f64 = 0.8;

/// How far one batch of the published size is expected to stray from the published factor before
/// anything was recorded, as a share (our decision; common practice, no source).
const STRAY: f64 = 0.1;

/// What the expected scatter counts for, in batches (our decision).
const SCATTER_WEIGHT: f64 = 2.0;

/// A batch that strays further than this from the estimate is marked (our decision).
const UNUSUAL: f64 = 0.15;

/// What came of one batch.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Seen {
    /// What went in, such as pounds.
    pub used: f64,
    /// What came out, such as quarts.
    pub made: f64,
}

/// A factor and how sure it is.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Estimate {
    /// The published factor it starts at.
    pub published: f64,
    /// The factor to reckon with: between the published and the plain one.
    pub value: f64,
    /// Lower end of the interval that holds the factor in four cases of five.
    pub low: f64,
    /// Upper end.
    pub high: f64,
    /// Sum used over sum made; none without a record.
    pub plain: Option<f64>,
    /// Smallest and largest of the batches.
    pub spread: Option<(f64, f64)>,
    /// Batches behind it.
    pub batches: usize,
    #[serde(skip)]
    weight: f64,
    #[serde(skip)]
    variance: f64,
    #[serde(skip)]
    quantile: f64,
}

/// What a new batch will come to.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Foreseen {
    /// Likely.
    pub likely: f64,
    /// Fewer in one batch of ten.
    pub low: f64,
    /// More in one batch of ten.
    pub high: f64,
}

/// A record that no factor can be learned from.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum ForecastError {
    /// An amount that is not above nought.
    #[error("a factor is learned from amounts above 0")]
    Amount,
}

/// The factor from a published one, which counts as much as `published_made` units of record, and
/// the batches seen. Error: an amount that is no number above 0.
pub fn factor(
    published: f64,
    published_made: f64,
    seen: &[Seen],
) -> Result<Estimate, ForecastError> {
    let sound = |value: f64| value.is_finite() && value > 0.0;
    let given = seen.iter().flat_map(|batch| [batch.used, batch.made]);
    if !given.chain([published, published_made]).all(sound) {
        return Err(ForecastError::Amount);
    }
    let (used, made) = seen.iter().fold((0.0, 0.0), |(used, made), batch| {
        (used + batch.used, made + batch.made)
    });
    let weight = published_made + made;
    let value = (published * published_made + used) / weight;
    // Scatter for each unit made: what was expected, and what the batches show.
    let expected = (published * STRAY).powi(2) * published_made;
    let strayed: f64 = seen
        .iter()
        .map(|batch| (batch.used - value * batch.made).powi(2) / batch.made)
        .sum::<f64>()
        + published_made * (published - value).powi(2);
    let count = f64::from(u32::try_from(seen.len()).unwrap_or(u32::MAX));
    let freedom = SCATTER_WEIGHT + count;
    let variance = (SCATTER_WEIGHT * expected + strayed) / freedom;
    let upper = 0.5 + HELD / 2.0;
    let quantile = StudentsT::new(0.0, 1.0, freedom)
        .map_err(|_| ForecastError::Amount)?
        .inverse_cdf(upper);
    let half = quantile * (variance / weight).sqrt();
    let ratios = || seen.iter().map(|batch| batch.used / batch.made);
    Ok(Estimate {
        published,
        value,
        low: (value - half).max(0.0),
        high: value + half,
        plain: (!seen.is_empty()).then(|| used / made),
        spread: ratios().reduce(f64::min).zip(ratios().reduce(f64::max)),
        batches: seen.len(),
        weight,
        variance,
        quantile,
    })
}

impl Estimate {
    /// What so much will make. Error: an amount that is no number above 0.
    pub fn foresee(&self, used: f64) -> Result<Foreseen, ForecastError> {
        if !used.is_finite() || used <= 0.0 {
            return Err(ForecastError::Amount);
        }
        let likely = used / self.value;
        let scatter = (self.variance * (likely * likely / self.weight + likely)).sqrt();
        let half = self.quantile * scatter / self.value;
        Ok(Foreseen {
            likely,
            low: (likely - half).max(0.0),
            high: likely + half,
        })
    }

    /// Does this batch stray so far that it should say why?
    pub fn is_unusual(&self, batch: &Seen) -> bool {
        (batch.used / batch.made / self.value - 1.0).abs() > UNUSUAL
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn seen(used: f64, made: f64) -> Seen {
        Seen { used, made }
    }

    /// The household's own juice: 101 lb gave 31.40 qt. Figures common practice, no source.
    #[test]
    fn four_batches_of_juice_pull_the_factor_from_the_book_towards_their_own() {
        let batches = [
            seen(24.0, 6.75),
            seen(20.0, 7.40),
            seen(31.0, 9.50),
            seen(26.0, 7.75),
        ];
        let found = factor(3.25, 7.0, &batches).unwrap();
        let plain = found.plain.unwrap();
        assert!((plain - 3.217).abs() < 0.0005, "{plain}");
        assert!(plain < found.value && found.value < 3.25, "{found:?}");
        let (least, most) = found.spread.unwrap();
        assert!((least - 2.70).abs() < 0.005 && (most - 3.56).abs() < 0.005);
        assert!(found.low < found.value && found.value < found.high);
        let foreseen = found.foresee(24.0).unwrap();
        assert!((foreseen.likely - 7.4).abs() < 0.06, "{foreseen:?}");
        assert_eq!(
            (
                foreseen.low as u32,
                foreseen.likely as u32,
                foreseen.high as u32
            ),
            (6, 7, 8)
        );
        let unusual: Vec<bool> = batches.iter().map(|one| found.is_unusual(one)).collect();
        assert_eq!(unusual, [false, true, false, false]);
    }

    #[test]
    fn without_a_record_the_published_factor_stands() {
        let found = factor(3.25, 7.0, &[]).unwrap();
        assert!((found.value - 3.25).abs() < 1e-12);
        assert_eq!((found.plain, found.spread, found.batches), (None, None, 0));
    }

    #[test]
    fn amounts_of_nothing_teach_nothing() {
        for batch in [
            seen(0.0, 7.0),
            seen(24.0, 0.0),
            seen(-1.0, 7.0),
            seen(f64::NAN, 7.0),
        ] {
            assert_eq!(factor(3.25, 7.0, &[batch]), Err(ForecastError::Amount));
        }
        assert_eq!(factor(0.0, 7.0, &[]), Err(ForecastError::Amount));
        let found = factor(3.25, 7.0, &[]).unwrap();
        assert_eq!(found.foresee(0.0), Err(ForecastError::Amount));
    }

    proptest! {
        #[test]
        fn the_estimate_lies_between_the_book_and_the_plain_factor(
            batches in prop::collection::vec((1.0_f64..200.0, 1.0_f64..60.0), 1..20),
            published in 0.5_f64..10.0,
        ) {
            let batches: Vec<Seen> = batches.into_iter().map(|(used, made)| seen(used, made)).collect();
            let found = factor(published, 7.0, &batches).unwrap();
            let plain = found.plain.unwrap();
            let slack = 1e-9;
            prop_assert!(found.value >= plain.min(published) - slack);
            prop_assert!(found.value <= plain.max(published) + slack);
        }

        /// The same batch again and again: the interval closes.
        #[test]
        fn more_of_the_same_makes_it_surer(times in 2_usize..30) {
            let few = factor(3.25, 7.0, &vec![seen(24.0, 7.0); times]).unwrap();
            let more = factor(3.25, 7.0, &vec![seen(24.0, 7.0); times + 5]).unwrap();
            prop_assert!(more.high - more.low < few.high - few.low);
        }
    }
}
