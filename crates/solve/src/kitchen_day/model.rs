//! The day as the search sees it: steps with fixed distances joined into blocks, all distances
//! closed, every use of a resource as a claim on a minute grid.

use plan::kitchen_day::{HANDS, Problem};

use super::closure::{Closure, NONE};

/// No day, however late it may end, is searched beyond this many minutes.
pub(super) const LONGEST_SPAN: i64 = 30_000;

/// A stretch of one resource that a block uses, relative to the start of its head.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Segment {
    pub resource: usize,
    pub offset: i32,
    pub minutes: i32,
    pub amount: i32,
}

/// A resource kept from `start(a) + a_offset` to `start(b) + b_offset`, `a` and `b` being blocks.
#[derive(Debug, Clone, Copy)]
pub(super) struct Keep {
    pub resource: usize,
    pub amount: i32,
    pub a: usize,
    pub a_offset: i32,
    pub b: usize,
    pub b_offset: i32,
}

/// `start(to) >= start(from) + length` between the heads of two blocks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Link {
    pub from: usize,
    pub to: usize,
    pub length: i32,
}

/// `points * max(0, start(to) - start(from) + shift)`.
#[derive(Debug, Clone, Copy)]
pub(super) struct Price {
    pub from: usize,
    pub to: usize,
    pub shift: i32,
    pub points: i64,
}

/// What one block knows of another: least distance there and back.
#[derive(Debug, Clone, Copy)]
pub(super) struct Neighbour {
    pub block: usize,
    /// `start(self) >= start(block) + after`.
    pub after: i32,
    /// `start(block) >= start(self) + before`.
    pub before: i32,
}

/// A kitchen day compiled for the search.
#[derive(Debug, Clone)]
pub(super) struct Model {
    pub block_of: Vec<usize>,
    pub offset: Vec<i32>,
    pub blocks: usize,
    pub segments: Vec<Vec<Segment>>,
    pub keeps: Vec<Keep>,
    pub keeps_from: Vec<Vec<usize>>,
    pub keeps_to: Vec<Vec<usize>>,
    /// When the last step of a block ends, relative to its head.
    pub end_offset: Vec<i32>,
    pub earliest: Vec<i32>,
    pub latest: Vec<i32>,
    pub distance: Closure,
    pub neighbours: Vec<Vec<Neighbour>>,
    /// Blocks that must be placed before and after a block, without those in between.
    pub before: Vec<Vec<usize>>,
    pub after: Vec<Vec<usize>>,
    pub links: Vec<Link>,
    pub prices: Vec<Price>,
    /// Points that no start can change.
    pub constant: i64,
    pub points_per_minute: i64,
    pub capacity: Vec<i32>,
    /// Free places per resource and minute when nothing is placed; breaks taken away.
    pub free: Vec<Vec<i32>>,
    /// What is missing from the capacity and when: `(from, to, amount)` per resource.
    pub away: Vec<Vec<(i32, i32, i32)>>,
    /// Minutes searched. At least as long as any sensible day.
    pub span: i32,
    /// Finish-by. Ends later than this are searched, but are no timetable.
    pub horizon: i32,
    /// Blocks whose own claims on one resource may meet, so that they must be tried as a whole.
    pub tangled: Vec<bool>,
}

/// Why a day cannot even be compiled; each is a proof that it has no timetable.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum NoModel {
    /// Lags that demand more than they allow: a way around through these steps.
    Contradiction(Vec<usize>),
    /// A step with a fixed start that the lags forbid.
    FixedTooEarly { step: usize, earliest: i64 },
    /// Lags alone make the day this long.
    TooLong { minutes: i64 },
}

impl Model {
    /// Compiles a problem without flaws.
    pub fn build(problem: &Problem) -> Result<Model, NoModel> {
        let steps = problem.steps.len();
        let mut distance = Closure::new(steps);
        for lag in &problem.lags {
            distance.raise(lag.from, lag.to, lag.min);
            if let (Some(max), true) = (lag.max, lag.max_is_safety) {
                distance.raise(lag.to, lag.from, -max);
            }
        }
        for hold in problem.holds.iter().filter(|h| h.from_step != h.to_step) {
            let length = -problem.steps[hold.to_step].minutes;
            distance.raise(hold.from_step, hold.to_step, length);
        }
        let arcs = distance.arcs();
        distance.close();
        if let Some(step) = (0..steps).find(|&s| distance.get(s, s) > 0) {
            return Err(NoModel::Contradiction(distance.around(step)));
        }
        let (earliest, latest) = windows(problem, &distance)?;
        let span = span_of(problem, &earliest)?;

        let (block_of, offset, heads) = blocks_of(&distance);
        let blocks = heads.len();
        let mut model = Model {
            blocks,
            segments: vec![Vec::new(); blocks],
            keeps: Vec::new(),
            keeps_from: vec![Vec::new(); blocks],
            keeps_to: vec![Vec::new(); blocks],
            end_offset: vec![0; blocks],
            earliest: heads.iter().map(|&h| earliest[h] as i32).collect(),
            latest: vec![0; blocks],
            distance: distance.shrink(&heads, span),
            neighbours: Vec::new(),
            before: Vec::new(),
            after: Vec::new(),
            links: Vec::new(),
            prices: Vec::new(),
            constant: 0,
            points_per_minute: problem.points_per_minute,
            capacity: Vec::new(),
            free: Vec::new(),
            away: Vec::new(),
            span: span as i32,
            horizon: problem.horizon.min(span) as i32,
            tangled: vec![false; blocks],
            block_of,
            offset,
        };
        for (index, step) in problem.steps.iter().enumerate() {
            let block = model.block_of[index];
            let end = model.offset[index] + step.minutes as i32;
            model.end_offset[block] = model.end_offset[block].max(end);
        }
        for block in 0..blocks {
            let end = span - i64::from(model.end_offset[block]);
            model.latest[block] = latest[heads[block]].min(end) as i32;
        }
        for arc in arcs {
            model.add_link(arc.0, arc.1, arc.2 as i32);
        }
        model.add_prices(problem);
        model.add_resources(problem);
        model.add_claims(problem);
        model.refresh();
        Ok(model)
    }

    /// Starts of all steps from the starts of the blocks.
    pub fn step_starts(&self, starts: &[i32]) -> Vec<i64> {
        self.block_of
            .iter()
            .zip(&self.offset)
            .map(|(&block, &offset)| i64::from(starts[block] + offset))
            .collect()
    }

    /// Points of a schedule, as the problem counts them.
    pub fn cost(&self, starts: &[i32]) -> i64 {
        let mut points = self.constant + self.points_per_minute * i64::from(self.end(starts));
        for price in &self.prices {
            let minutes = starts[price.to] - starts[price.from] + price.shift;
            points += price.points * i64::from(minutes.max(0));
        }
        points
    }

    /// When the last block ends.
    pub fn end(&self, starts: &[i32]) -> i32 {
        starts
            .iter()
            .zip(&self.end_offset)
            .map(|(start, end)| start + end)
            .max()
            .unwrap_or(0)
    }

    fn add_link(&mut self, from: usize, to: usize, length: i32) {
        let length = length + self.offset[from] - self.offset[to];
        let (from, to) = (self.block_of[from], self.block_of[to]);
        if from == to {
            return;
        }
        match self.links.iter_mut().find(|l| l.from == from && l.to == to) {
            Some(link) => link.length = link.length.max(length),
            None => self.links.push(Link { from, to, length }),
        }
    }

    fn add_prices(&mut self, problem: &Problem) {
        for wait in &problem.waits {
            let shift = -problem.steps[wait.from].minutes as i32;
            self.add_price(wait.from, wait.to, shift, wait.points_per_minute);
        }
        for lag in &problem.lags {
            if let (Some(max), false) = (lag.max, lag.max_is_safety) {
                let shift = -max.clamp(-LONGEST_SPAN, LONGEST_SPAN) as i32;
                self.add_price(lag.from, lag.to, shift, lag.points_per_minute_over);
            }
        }
    }

    fn add_price(&mut self, from: usize, to: usize, shift: i32, points: i64) {
        let shift = shift + self.offset[to] - self.offset[from];
        let (from, to) = (self.block_of[from], self.block_of[to]);
        if from == to {
            self.constant += points * i64::from(shift.max(0));
        } else if points > 0 {
            self.prices.push(Price {
                from,
                to,
                shift,
                points,
            });
        }
    }

    fn add_resources(&mut self, problem: &Problem) {
        let span = self.span as usize;
        for (index, resource) in problem.resources.iter().enumerate() {
            let mut free = vec![resource.capacity as i32; span];
            for pause in problem.breaks.iter().filter(|b| b.resource == index) {
                let from = pause.from.clamp(0, span as i64) as usize;
                let to = pause.to.clamp(0, span as i64) as usize;
                for minute in &mut free[from..to] {
                    *minute -= pause.amount as i32;
                }
            }
            for minute in &mut free {
                *minute = (*minute).max(0);
            }
            self.capacity.push(resource.capacity as i32);
            self.free.push(free);
        }
        // Steps that need somebody in the house, but no hands of their own, use a resource that
        // is there whenever anybody is.
        let watched = watched_steps(problem).count() as i32;
        if watched > 0 {
            let mut there = vec![0; span];
            for (index, resource) in problem.resources.iter().enumerate() {
                if resource.kind == HANDS {
                    for (minute, free) in there.iter_mut().zip(&self.free[index]) {
                        if *free > 0 {
                            *minute = watched;
                        }
                    }
                }
            }
            self.capacity.push(watched);
            self.free.push(there);
        }
    }

    fn add_claims(&mut self, problem: &Problem) {
        let mut raw: Vec<Vec<Segment>> = vec![Vec::new(); self.blocks];
        let mut claim = |step: usize, resource: usize, amount: i64, model: &Model| {
            let minutes = problem.steps[step].minutes as i32;
            if minutes > 0 && amount > 0 {
                raw[model.block_of[step]].push(Segment {
                    resource,
                    offset: model.offset[step],
                    minutes,
                    amount: amount as i32,
                });
            }
        };
        for (index, step) in problem.steps.iter().enumerate() {
            for &(resource, amount) in &step.demands {
                claim(index, resource, amount, self);
            }
        }
        for step in watched_steps(problem) {
            claim(step, problem.resources.len(), 1, self);
        }
        for hold in problem.holds.iter().filter(|h| h.amount > 0) {
            let (a, b) = (self.block_of[hold.from_step], self.block_of[hold.to_step]);
            let a_offset = self.offset[hold.from_step];
            let b_offset =
                self.offset[hold.to_step] + problem.steps[hold.to_step].minutes as i32;
            if a == b {
                if a_offset < b_offset {
                    raw[a].push(Segment {
                        resource: hold.resource,
                        offset: a_offset,
                        minutes: b_offset - a_offset,
                        amount: hold.amount as i32,
                    });
                }
            } else {
                self.keeps.push(Keep {
                    resource: hold.resource,
                    amount: hold.amount as i32,
                    a,
                    a_offset,
                    b,
                    b_offset,
                });
            }
        }
        self.segments = raw.iter().map(|list| flatten(list)).collect();
    }

    /// Recomputes what follows from distances, claims and links.
    pub(super) fn refresh(&mut self) {
        self.keeps_from = vec![Vec::new(); self.blocks];
        self.keeps_to = vec![Vec::new(); self.blocks];
        for (index, keep) in self.keeps.iter().enumerate() {
            self.keeps_from[keep.a].push(index);
            self.keeps_to[keep.b].push(index);
        }
        for block in 0..self.blocks {
            let mut used: Vec<usize> = self.segments[block].iter().map(|s| s.resource).collect();
            used.dedup();
            let kept = self.keeps_from[block].iter().chain(&self.keeps_to[block]);
            used.extend(kept.map(|&k| self.keeps[k].resource));
            let count = used.len();
            used.sort_unstable();
            used.dedup();
            self.tangled[block] = used.len() < count;
        }
        self.away = (0..self.capacity.len())
            .map(|resource| missing(&self.free[resource], self.capacity[resource]))
            .collect();
        self.neighbours = (0..self.blocks)
            .map(|block| self.distance.neighbours(block))
            .collect();
        (self.before, self.after) = self.distance.order();
    }

    /// The same day run backwards, for shifting a schedule to the right.
    pub fn mirrored(&self) -> Model {
        let mut mirror = self.clone();
        let turn = |block: usize, start: i32| self.span - start - self.end_offset[block];
        for block in 0..self.blocks {
            mirror.earliest[block] = turn(block, self.latest[block]);
            mirror.latest[block] = turn(block, self.earliest[block]);
            for segment in &mut mirror.segments[block] {
                segment.offset = self.end_offset[block] - segment.offset - segment.minutes;
            }
            mirror.segments[block].sort_by_key(|s| (s.resource, s.offset));
        }
        for (keep, old) in mirror.keeps.iter_mut().zip(&self.keeps) {
            keep.a = old.b;
            keep.a_offset = self.end_offset[old.b] - old.b_offset;
            keep.b = old.a;
            keep.b_offset = self.end_offset[old.a] - old.a_offset;
        }
        for free in &mut mirror.free {
            free.reverse();
        }
        mirror.distance = self.distance.mirrored(&self.end_offset);
        mirror.refresh();
        mirror
    }

    /// Least minutes a resource is kept, and at least 0.
    pub fn least_kept(&self, keep: &Keep) -> i32 {
        let distance = self.distance.near(keep.a, keep.b);
        (distance + keep.b_offset - keep.a_offset).max(0)
    }
}

/// Steps that may not be left alone and ask for no hands themselves.
pub(super) fn watched_steps(problem: &Problem) -> impl Iterator<Item = usize> + '_ {
    let is_hands = |resource: usize| problem.resources[resource].kind == HANDS;
    (0..problem.steps.len()).filter(move |&index| {
        let step = &problem.steps[index];
        let asks = step.demands.iter().any(|&(r, n)| n > 0 && is_hands(r));
        !step.unattended && !asks && step.minutes > 0
    })
}

/// Earliest and latest start of each step by lags, earliest and fixed starts.
fn windows(problem: &Problem, distance: &Closure) -> Result<(Vec<i64>, Vec<i64>), NoModel> {
    let steps = &problem.steps;
    let release = |index: usize| steps[index].fixed_start.unwrap_or(steps[index].not_before.max(0));
    let mut earliest: Vec<i64> = (0..steps.len()).map(release).collect();
    let mut latest = vec![LONGEST_SPAN * 2; steps.len()];
    for to in 0..steps.len() {
        for from in 0..steps.len() {
            if distance.get(from, to) > NONE {
                earliest[to] = earliest[to].max(release(from) + distance.get(from, to));
            }
            if let (Some(fixed), true) = (steps[from].fixed_start, distance.get(to, from) > NONE) {
                latest[to] = latest[to].min(fixed - distance.get(to, from));
            }
        }
        if let Some(fixed) = steps[to].fixed_start {
            latest[to] = latest[to].min(fixed);
        }
    }
    for step in 0..steps.len() {
        if earliest[step] > latest[step] {
            return Err(NoModel::FixedTooEarly {
                step,
                earliest: earliest[step],
            });
        }
    }
    Ok((earliest, latest))
}

/// Minutes to search: long enough to do everything one after another once all breaks are over.
fn span_of(problem: &Problem, earliest: &[i64]) -> Result<i64, NoModel> {
    let mut longest: Vec<i64> = problem.steps.iter().map(|s| s.minutes).collect();
    for lag in &problem.lags {
        longest[lag.from] = longest[lag.from].max(lag.min);
    }
    let ends = problem.steps.iter().zip(earliest);
    let last = ends.map(|(s, e)| s.minutes + e).max().unwrap_or(0);
    if last > LONGEST_SPAN {
        return Err(NoModel::TooLong { minutes: last });
    }
    let breaks = problem.breaks.iter().map(|b| b.to).max().unwrap_or(0);
    let span = last.max(breaks.min(LONGEST_SPAN)) + longest.iter().sum::<i64>() + 1;
    Ok(span.max(last + 1).min(LONGEST_SPAN + 1))
}

/// Joins steps whose distance is fixed. The head of a block is its earliest step.
fn blocks_of(distance: &Closure) -> (Vec<usize>, Vec<i32>, Vec<usize>) {
    let steps = distance.size();
    let mut block_of = vec![usize::MAX; steps];
    let mut offset = vec![0; steps];
    let mut heads = Vec::new();
    for step in 0..steps {
        if block_of[step] != usize::MAX {
            continue;
        }
        let fixed: Vec<usize> = (0..steps)
            .filter(|&other| {
                let there = distance.get(step, other);
                let back = distance.get(other, step);
                other == step || (there > NONE && back > NONE && there + back == 0)
            })
            .collect();
        let head = fixed
            .iter()
            .copied()
            .min_by_key(|&other| if other == step { 0 } else { distance.get(step, other) })
            .unwrap_or(step);
        for other in fixed {
            block_of[other] = heads.len();
            if other != head {
                offset[other] = distance.get(head, other) as i32;
            }
        }
        heads.push(head);
    }
    (block_of, offset, heads)
}

/// Stretches in which less than the capacity is free.
fn missing(free: &[i32], capacity: i32) -> Vec<(i32, i32, i32)> {
    let mut stretches: Vec<(i32, i32, i32)> = Vec::new();
    for (minute, free) in free.iter().enumerate() {
        let amount = capacity - free;
        let minute = minute as i32;
        match stretches.last_mut().filter(|s| s.1 == minute && s.2 == amount) {
            Some(stretch) => stretch.1 += 1,
            None if amount > 0 => stretches.push((minute, minute + 1, amount)),
            None => {}
        }
    }
    stretches
}

/// The same use of resources as stretches that do not overlap, sorted.
fn flatten(claims: &[Segment]) -> Vec<Segment> {
    let mut flat: Vec<Segment> = Vec::new();
    let mut resources: Vec<usize> = claims.iter().map(|c| c.resource).collect();
    resources.sort_unstable();
    resources.dedup();
    for resource in resources {
        let own: Vec<&Segment> = claims.iter().filter(|c| c.resource == resource).collect();
        let mut cuts: Vec<i32> = own
            .iter()
            .flat_map(|c| [c.offset, c.offset + c.minutes])
            .collect();
        cuts.sort_unstable();
        cuts.dedup();
        for pair in cuts.windows(2) {
            let amount = own
                .iter()
                .filter(|c| c.offset <= pair[0] && pair[0] < c.offset + c.minutes)
                .map(|c| c.amount)
                .sum();
            let grows = flat.last_mut().filter(|last| {
                last.resource == resource
                    && last.amount == amount
                    && last.offset + last.minutes == pair[0]
            });
            match grows {
                Some(last) => last.minutes += pair[1] - pair[0],
                None if amount > 0 => flat.push(Segment {
                    resource,
                    offset: pair[0],
                    minutes: pair[1] - pair[0],
                    amount,
                }),
                None => {}
            }
        }
    }
    flat
}
