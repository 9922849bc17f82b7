//! Serial placement: takes blocks in the order of their keys and puts each at its first free
//! minute. A kept pot reserves as far as it could ever be kept and gives back the rest when its
//! last step is placed. A most time that would be passed is mended by taking the earlier block out
//! and asking it to start later.

use super::closure::FAR;
use super::model::Model;

pub(super) const UNPLACED: i32 = i32::MIN;

/// A minute grid of free places, with the blocks placed on it.
pub(super) struct Placer {
    pub start: Vec<i32>,
    pub(super) span: usize,
    pub(super) free: Vec<i32>,
    /// Earliest starts, raised by repairs.
    pub(super) earliest: Vec<i32>,
    /// For each keep whose first block is placed: the first minute no longer reserved.
    pub(super) reserved_to: Vec<i32>,
    /// Places of each resource reserved by keeps whose last block is not placed yet.
    pub(super) open: Vec<i32>,
    /// Blocks directly before this one that are not placed yet.
    pub(super) waiting_for: Vec<usize>,
    order: Vec<usize>,
    /// Wished earliest starts, kept where the windows allow.
    pub wish: Vec<i32>,
}

impl Placer {
    pub fn new(model: &Model) -> Placer {
        let span = model.span as usize;
        Placer {
            start: vec![UNPLACED; model.blocks],
            span,
            free: model.free.concat(),
            earliest: model.earliest.clone(),
            reserved_to: vec![0; model.keeps.len()],
            open: vec![0; model.capacity.len()],
            waiting_for: model.before.iter().map(Vec::len).collect(),
            order: (0..model.blocks).collect(),
            wish: vec![0; model.blocks],
        }
    }

    pub(super) fn clear(&mut self, model: &Model, floor: i32) {
        self.start.fill(UNPLACED);
        for (resource, free) in model.free.iter().enumerate() {
            self.free[resource * self.span..][..self.span].copy_from_slice(free);
        }
        for (own, earliest) in self.earliest.iter_mut().zip(&model.earliest) {
            *own = (*earliest).max(floor);
        }
        self.reserved_to.fill(0);
        self.open.fill(0);
        for (own, before) in self.waiting_for.iter_mut().zip(&model.before) {
            *own = before.len();
        }
    }

    pub(super) fn is_placed(&self, block: usize) -> bool {
        self.start[block] != UNPLACED
    }

    /// Places all blocks, smallest key first, none before `floor`. `false` if the repairs gave
    /// up; the starts then mean nothing.
    pub fn place_all(&mut self, model: &Model, keys: &[i32], floor: i32) -> bool {
        self.clear(model, floor);
        let mut order = std::mem::take(&mut self.order);
        order.clear();
        order.extend(0..model.blocks);
        order.sort_unstable_by_key(|&block| (keys[block], block));
        self.place_fixed(model);
        let done = self.place_in_order(model, &order);
        self.order = order;
        done
    }

    fn place_in_order(&mut self, model: &Model, order: &[usize]) -> bool {
        let mut repairs_left = 6 * model.blocks + 30;
        let mut first = 0;
        loop {
            while first < order.len() && self.is_placed(order[first]) {
                first += 1;
            }
            if first == order.len() {
                return true;
            }
            let Some(block) = self.choose(model, &order[first..]) else {
                return false;
            };
            let (low, high) = self.window(model, block);
            let wish = self.wish[block];
            let mut fit = None;
            if wish > low {
                fit = self.fit(model, block, wish, high);
            }
            if fit.is_none() {
                fit = self.fit(model, block, low, high);
            }
            if let Some(at) = fit {
                self.put(model, block, at);
                continue;
            }
            if repairs_left == 0 || !self.repair(model, block, low) {
                return false;
            }
            repairs_left -= 1;
            first = 0;
        }
    }

    /// The first block in order whose forerunners are placed and that does not need a pot which
    /// another batch still keeps open.
    fn choose(&self, model: &Model, order: &[usize]) -> Option<usize> {
        let mut fallback = None;
        for &block in order {
            if self.is_placed(block) || self.waiting_for[block] > 0 {
                continue;
            }
            if !self.is_locked(model, block) {
                return Some(block);
            }
            fallback = fallback.or(Some(block));
        }
        // No forerunner left to wait for is only possible while blocks are taken out and put back.
        fallback.or_else(|| order.iter().copied().find(|&b| !self.is_placed(b)))
    }

    fn is_locked(&self, model: &Model, block: usize) -> bool {
        let segments = model.segments[block].iter().map(|s| (s.resource, s.amount));
        let keeps = model.keeps_from[block]
            .iter()
            .map(|&k| (model.keeps[k].resource, model.keeps[k].amount));
        segments.chain(keeps).any(|(resource, amount)| {
            let open = self.open[resource];
            open > 0
                && open + amount > model.capacity[resource]
                && !self.helps_to_close(model, block, resource)
        })
    }

    /// Whether the block must come before the end of a keep that is open on the resource.
    fn helps_to_close(&self, model: &Model, block: usize, resource: usize) -> bool {
        model.keeps.iter().any(|keep| {
            keep.resource == resource
                && self.is_placed(keep.a)
                && !self.is_placed(keep.b)
                && (keep.b == block || model.distance.near(block, keep.b) > FAR)
        })
    }

    /// Earliest and latest start of a block, as far as the placed ones allow.
    fn window(&self, model: &Model, block: usize) -> (i32, i32) {
        let mut low = self.earliest[block];
        let mut high = model.latest[block];
        for near in &model.neighbours[block] {
            let start = self.start[near.block];
            if start != UNPLACED {
                low = low.max(start + near.after);
                high = high.min(start - near.before);
            }
        }
        for &index in &model.keeps_to[block] {
            let keep = &model.keeps[index];
            if self.is_placed(keep.a) && !model.tangled[block] {
                high = high.min(self.reserved_to[index] - keep.b_offset);
            }
        }
        (low, high)
    }

    /// First minute from `low` to `high` at which everything the block uses is free.
    pub fn fit(&mut self, model: &Model, block: usize, low: i32, high: i32) -> Option<i32> {
        let mut at = low.max(0);
        let span = self.span as i32;
        'again: while at <= high {
            for segment in &model.segments[block] {
                let from = at + segment.offset;
                let to = from + segment.minutes;
                if to > span {
                    return None;
                }
                if model.tangled[block] {
                    continue;
                }
                let row = &self.free[segment.resource * self.span..][from as usize..to as usize];
                if let Some(taken) = row.iter().rposition(|&free| free < segment.amount) {
                    at += taken as i32 + 1;
                    continue 'again;
                }
            }
            for &index in &model.keeps_from[block] {
                let keep = &model.keeps[index];
                let from = at + keep.a_offset;
                let to = if self.is_placed(keep.b) {
                    self.start[keep.b] + keep.b_offset
                } else {
                    from + model.least_kept(keep)
                };
                if to > span {
                    return None;
                }
                if from >= to || model.tangled[block] {
                    continue;
                }
                let row = &self.free[keep.resource * self.span..][from as usize..to as usize];
                if let Some(taken) = row.iter().rposition(|&free| free < keep.amount) {
                    at += taken as i32 + 1;
                    continue 'again;
                }
            }
            if model.tangled[block] && !self.fits_as_a_whole(model, block, at) {
                at += 1;
                continue;
            }
            return Some(at);
        }
        None
    }

    /// Tries a block whose own claims meet by putting it there and looking at what is left.
    fn fits_as_a_whole(&mut self, model: &Model, block: usize, at: i32) -> bool {
        self.put(model, block, at);
        let mut fits = true;
        for segment in &model.segments[block] {
            let from = at + segment.offset;
            fits &= self.least_free(segment.resource, from, from + segment.minutes) >= 0;
        }
        for &index in &model.keeps_from[block] {
            let keep = &model.keeps[index];
            let from = at + keep.a_offset;
            let to = if self.is_placed(keep.b) {
                self.reserved_to[index]
            } else {
                fits &= self.reserved_to[index] >= from + model.least_kept(keep);
                from + model.least_kept(keep)
            };
            fits &= self.least_free(keep.resource, from, to) >= 0;
        }
        for &index in &model.keeps_to[block] {
            let keep = &model.keeps[index];
            if self.is_placed(keep.a) {
                let from = self.start[keep.a] + keep.a_offset;
                fits &= self.least_free(keep.resource, from, self.reserved_to[index]) >= 0;
            }
        }
        self.take_out(model, block);
        fits
    }

    fn least_free(&self, resource: usize, from: i32, to: i32) -> i32 {
        if from >= to {
            return 0;
        }
        let (from, to) = (from as usize, (to as usize).min(self.span));
        let row = &self.free[resource * self.span..][from..to];
        row.iter().copied().min().unwrap_or(0)
    }

    /// Adds `amount` (negative: takes) to what is free from one minute to another.
    pub(super) fn change(&mut self, resource: usize, from: i32, to: i32, amount: i32) {
        if from < to {
            let (from, to) = (from as usize, (to as usize).min(self.span));
            for free in &mut self.free[resource * self.span..][from..to] {
                *free += amount;
            }
        }
    }

    /// Reserves an open keep from `from` on, as far as it is free and could ever be kept.
    pub(super) fn reserve(&mut self, model: &Model, index: usize, from: i32) -> i32 {
        let keep = &model.keeps[index];
        let most = (model.latest[keep.b] + keep.b_offset).min(self.span as i32);
        let back = model.distance.near(keep.b, keep.a);
        let most = most.min(self.start[keep.a] - back + keep.b_offset);
        if from >= most {
            return from;
        }
        let row = &mut self.free[keep.resource * self.span..][from as usize..most as usize];
        let mut to = from;
        for free in row {
            if *free < keep.amount {
                break;
            }
            *free -= keep.amount;
            to += 1;
        }
        to
    }

    fn put(&mut self, model: &Model, block: usize, at: i32) {
        self.start[block] = at;
        for &later in &model.after[block] {
            self.waiting_for[later] -= 1;
        }
        for &index in &model.keeps_to[block] {
            let keep = &model.keeps[index];
            if self.is_placed(keep.a) {
                let to = at + keep.b_offset;
                let begin = self.start[keep.a] + keep.a_offset;
                let reserved = self.reserved_to[index];
                if to < reserved {
                    self.change(keep.resource, to.max(begin), reserved, keep.amount);
                } else {
                    self.change(keep.resource, reserved, to, -keep.amount);
                }
                self.reserved_to[index] = to.max(begin);
                self.open[keep.resource] -= keep.amount;
            }
        }
        for segment in &model.segments[block] {
            let from = at + segment.offset;
            self.change(
                segment.resource,
                from,
                from + segment.minutes,
                -segment.amount,
            );
        }
        // What each keep needs for certain comes before what it may need: two keeps of one block
        // must not starve each other.
        for &index in &model.keeps_from[block] {
            let keep = &model.keeps[index];
            let from = at + keep.a_offset;
            let to = if self.is_placed(keep.b) {
                (self.start[keep.b] + keep.b_offset).max(from)
            } else {
                self.open[keep.resource] += keep.amount;
                from + model.least_kept(keep)
            };
            self.change(keep.resource, from, to, -keep.amount);
            self.reserved_to[index] = to;
        }
        for &index in &model.keeps_from[block] {
            if !self.is_placed(model.keeps[index].b) {
                let from = self.reserved_to[index];
                self.reserved_to[index] = self.reserve(model, index, from);
            }
        }
    }

    pub(super) fn take_out(&mut self, model: &Model, block: usize) {
        let at = self.start[block];
        for &index in &model.keeps_from[block] {
            let keep = &model.keeps[index];
            let from = at + keep.a_offset;
            self.change(keep.resource, from, self.reserved_to[index], keep.amount);
            if !self.is_placed(keep.b) {
                self.open[keep.resource] -= keep.amount;
            }
        }
        for segment in &model.segments[block] {
            let from = at + segment.offset;
            self.change(
                segment.resource,
                from,
                from + segment.minutes,
                segment.amount,
            );
        }
        self.start[block] = UNPLACED;
        for &index in &model.keeps_to[block] {
            let keep = &model.keeps[index];
            if self.is_placed(keep.a) {
                // Open again: reserve anew from its beginning.
                let from = self.start[keep.a] + keep.a_offset;
                self.change(keep.resource, from, self.reserved_to[index], keep.amount);
                self.reserved_to[index] = self.reserve(model, index, from);
                self.open[keep.resource] += keep.amount;
            }
        }
        for &later in &model.after[block] {
            self.waiting_for[later] += 1;
        }
    }
}
