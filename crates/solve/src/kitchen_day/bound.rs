//! What no timetable can beat: the longest way through the lags, the work each resource has to
//! carry between heads and tails, and the waits that no start can avoid.

use super::model::Model;
use super::timing::Timing;

/// A claim by the least it asks: not before `head`, and `tail` minutes of day after it.
struct Work {
    head: i32,
    tail: i32,
    energy: i64,
}

/// A minute before which no schedule of a model can end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct LeastEnd {
    pub minute: i32,
    pub forced_by: ForcedBy,
}

/// What forces the day to be that long.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum ForcedBy {
    /// The longest way through the lags, which leads through this block.
    WayThrough(usize),
    /// The work that this resource has to carry.
    Resource(usize),
}

/// The latest of all minutes before which no schedule of the model can end.
pub(super) fn least_end(model: &Model) -> LeastEnd {
    let tails = tails(model);
    let mut least = LeastEnd {
        minute: 0,
        forced_by: ForcedBy::WayThrough(0),
    };
    let mut raise = |minute: i32, forced_by: ForcedBy| {
        if minute > least.minute {
            least = LeastEnd { minute, forced_by };
        }
    };
    for (block, tail) in tails.iter().enumerate() {
        raise(model.earliest[block] + tail, ForcedBy::WayThrough(block));
    }
    for resource in 0..model.capacity.len() {
        let minute = least_end_of(model, &tails, resource);
        raise(minute, ForcedBy::Resource(resource));
    }
    least
}

/// Points that no timetable can go below. `end` as given by [`least_end`].
pub(super) fn least_points(model: &Model, end: i32) -> i64 {
    let mut timing = Timing::new(model, false, end);
    let mut starts = vec![0; model.blocks];
    if timing.earliest(&mut starts) && timing.improve(model, &mut starts) {
        return timing.points() - Timing::points_of_finish_by(model)
            + timing.points_left_out(model);
    }
    // The pivots ran out: count the parts one by one.
    let mut points = model.constant + model.points_per_minute * i64::from(end);
    for price in &model.prices {
        let minutes = model.distance.near(price.from, price.to) + price.shift;
        points += price.points * i64::from(minutes.max(0));
    }
    points
}

/// For each block the least time from its start to the end of the day.
fn tails(model: &Model) -> Vec<i32> {
    (0..model.blocks)
        .map(|block| {
            let ways = model.neighbours[block]
                .iter()
                .map(|near| near.before + model.end_offset[near.block]);
            ways.fold(model.end_offset[block], i32::max)
        })
        .collect()
}

/// For each head and tail: everything that starts after the one and before the other has to pass
/// through the resource between them.
fn least_end_of(model: &Model, tails: &[i32], resource: usize) -> i32 {
    let mut work = Vec::new();
    for (block, segments) in model.segments.iter().enumerate() {
        for segment in segments.iter().filter(|s| s.resource == resource) {
            work.push(Work {
                head: model.earliest[block] + segment.offset,
                tail: tails[block] - segment.offset - segment.minutes,
                energy: i64::from(segment.minutes) * i64::from(segment.amount),
            });
        }
    }
    for keep in model.keeps.iter().filter(|k| k.resource == resource) {
        work.push(Work {
            head: model.earliest[keep.a] + keep.a_offset,
            tail: tails[keep.b] - keep.b_offset,
            energy: i64::from(model.least_kept(keep)) * i64::from(keep.amount),
        });
    }
    work.sort_by_key(|w| std::cmp::Reverse(w.tail));
    let mut heads: Vec<i32> = work.iter().map(|w| w.head).collect();
    heads.sort_unstable();
    heads.dedup();
    // Free places from the start of the day to each minute.
    let mut supply = vec![0i64];
    for free in &model.free[resource] {
        supply.push(supply.last().copied().unwrap_or(0) + i64::from(*free));
    }
    let mut least = 0;
    for head in heads {
        let mut energy = 0;
        for w in work.iter().filter(|w| w.head >= head && w.energy > 0) {
            energy += w.energy;
            let wanted = supply[head.clamp(0, model.span) as usize] + energy;
            let over = supply.partition_point(|&s| s < wanted) as i32;
            least = least.max(over + w.tail);
        }
    }
    least
}
