//! How much faster a crop lives when it is warmer: by its breathing where that is tabled, by the
//! general factor for ten degrees elsewhere.

use quantity::to_f64;
use reference::{Q10Row, Reference, RespirationRow};

/// How many times faster, between a low and a high reading.
pub(super) struct Growth {
    pub(super) low: f64,
    pub(super) high: f64,
    pub(super) remembered: bool,
    pub(super) source: String,
}

/// The figures of one crop.
pub(super) struct Warmth<'a> {
    breathing: Option<&'a RespirationRow>,
    /// (degrees C, rate) where the crop's breathing is tabled, coldest first; never falling.
    points: Vec<(f64, f64)>,
    general: &'a [Q10Row],
}

impl<'a> Warmth<'a> {
    pub(super) fn new(reference: &'a Reference, breathing: Option<&str>) -> Self {
        let row =
            breathing.and_then(|key| reference.respiration().iter().find(|row| row.crop == key));
        let mut points: Vec<(f64, f64)> = Vec::new();
        if let Some(row) = row {
            let cells = [&row.c0, &row.c5, &row.c10, &row.c15, &row.c20, &row.c25];
            for (place, cell) in cells.into_iter().enumerate() {
                if let Some(rate) = cell {
                    let rate = to_f64(rate.middle());
                    // A few crops are tabled as breathing less when warm; food does not keep
                    // longer for it, so the highest rate so far stands.
                    let highest = points.last().map_or(rate, |&(_, last)| rate.max(last));
                    points.push((place as f64 * 5.0, highest));
                }
            }
        }
        if points.len() < 2 {
            points.clear();
        }
        Self {
            breathing: row.filter(|_| !points.is_empty()),
            points,
            general: reference.q10(),
        }
    }

    /// The crop whose figures are used, when it is another than `storage_crop`.
    pub(super) fn stands_in_for(&self, storage_crop: &str) -> Option<&str> {
        let used = self.breathing?.crop.as_str();
        (!used.starts_with(storage_crop) && !storage_crop.starts_with(used)).then_some(used)
    }

    /// How many times faster it lives at `to` than at `from`, degrees F, `from <= to`; `None`
    /// above what the tables reach.
    pub(super) fn growth(&self, from_f: f64, to_f: f64) -> Option<Growth> {
        let from = celsius(from_f);
        let to = celsius(to_f);
        let mut growth = Growth {
            low: 1.0,
            high: 1.0,
            remembered: false,
            source: String::new(),
        };
        let (first, last) = match (self.points.first(), self.points.last()) {
            (Some(&(first, _)), Some(&(last, _))) => (first, last),
            // Nothing tabled: the general factor all the way.
            _ => (f64::INFINITY, f64::INFINITY),
        };
        self.general_growth(from, to.min(first), &mut growth)?;
        let (start, end) = (from.max(first), to.min(last));
        if start < end {
            let ratio = self.rate(end) / self.rate(start);
            growth.low *= ratio;
            growth.high *= ratio;
            if let Some(row) = self.breathing {
                growth.remembered |= row.basis.remembered();
                growth.source = row.source.clone();
            }
        }
        self.general_growth(from.max(last), to, &mut growth)?;
        Some(growth)
    }

    fn general_growth(&self, from: f64, to: f64, growth: &mut Growth) -> Option<()> {
        // Below freezing nothing is gained any more.
        let from = from.max(0.0);
        let mut reached = from;
        for row in self.general {
            let start = from.max(to_f64(row.temp_c_low.low()));
            let end = to.min(to_f64(row.temp_c_high.low()));
            if start >= end {
                continue;
            }
            let tens = (end - start) / 10.0;
            growth.low *= to_f64(row.q10_low.low()).powf(tens);
            growth.high *= to_f64(row.q10_high.low()).powf(tens);
            growth.remembered |= row.basis.remembered();
            if growth.source.is_empty() {
                growth.source = row.source.clone();
            }
            reached = reached.max(end);
        }
        (reached >= to - 1e-9 || to <= from).then_some(())
    }

    /// The rate at a temperature within the tabled points, straight between neighbours.
    fn rate(&self, degrees: f64) -> f64 {
        let mut rate = self.points.first().map_or(1.0, |&(_, rate)| rate);
        for pair in self.points.windows(2) {
            let [(cold, slow), (warm, fast)] = pair else {
                continue;
            };
            if degrees >= *cold {
                let part = ((degrees - cold) / (warm - cold)).min(1.0);
                rate = slow + (fast - slow) * part;
            }
        }
        rate
    }
}

fn celsius(fahrenheit: f64) -> f64 {
    (fahrenheit - 32.0) * 5.0 / 9.0
}
