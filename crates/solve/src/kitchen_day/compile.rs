//! Compiles a problem into the model that the search works on.

use plan::kitchen_day::{HANDS, Problem};

use super::closure::{Closure, NONE};
use super::model::{Keep, Link, Model, Price, Segment};

/// No day, however late it may end, is searched beyond this many minutes.
const LONGEST_SPAN: i64 = 30_000;

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
            late_points: 0,
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
        let dearest: i64 = model.prices.iter().map(|p| p.points).sum();
        model.late_points = 1_000_000.max(1_000 * (dearest + model.points_per_minute));
        model.add_resources(problem);
        model.add_claims(problem);
        model.refresh();
        Ok(model)
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
            let b_offset = self.offset[hold.to_step] + problem.steps[hold.to_step].minutes as i32;
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
    let release = |index: usize| {
        steps[index]
            .fixed_start
            .unwrap_or(steps[index].not_before.max(0))
    };
    let mut earliest: Vec<i64> = (0..steps.len()).map(release).collect();
    let mut latest = vec![LONGEST_SPAN * 2; steps.len()];
    for to in 0..steps.len() {
        for (from, other) in steps.iter().enumerate() {
            if distance.get(from, to) > NONE {
                earliest[to] = earliest[to].max(release(from) + distance.get(from, to));
            }
            if let (Some(fixed), true) = (other.fixed_start, distance.get(to, from) > NONE) {
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
    // Never shorter than the day itself: "none within the span" is then a proof.
    Ok(span
        .max(problem.horizon + 1)
        .clamp(last + 1, LONGEST_SPAN + 1))
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
            .min_by_key(|&other| {
                if other == step {
                    0
                } else {
                    distance.get(step, other)
                }
            })
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
