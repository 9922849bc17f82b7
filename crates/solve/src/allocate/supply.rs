//! Whether the lots can feed a set of runs, and how much of what would be lost they save.
//!
//! Classes that never meet in one input are judged apart, as parts. Where every input of a part
//! takes the same classes, using the lot that ends first is exact and fast. Where grades may go
//! only to some uses, it is not, and a flow is computed instead: lots are added in falling order
//! of what their loss costs, each by augmenting paths. A path never takes a lot back out, so the
//! final flow both feeds every run (if that can be done at all) and saves the most.

use plan::allocation::Problem;

use super::shape::SCALE;

/// Lots that are alike for the search: same part, same uses, same days, same cost of loss.
#[derive(Debug, Clone)]
pub(super) struct Supply {
    /// Groups of classes that accept these lots, by their number within the part.
    accepted: Vec<bool>,
    pub(super) first: usize,
    pub(super) last: usize,
    pub(super) grams: i64,
    /// Scaled points lost per gram that is not used.
    pub(super) loss: i64,
    /// Indices of the lots, those that end first before the others.
    pub(super) lots: Vec<usize>,
}

impl Supply {
    /// Whether the supply may feed a group of the part on a day.
    pub(super) fn feeds(&self, group: usize, day: usize) -> bool {
        self.accepted[group] && (self.first..=self.last).contains(&day)
    }
}

/// Lots and groups of classes that are connected through inputs.
#[derive(Debug, Clone)]
pub(super) struct Part {
    /// Groups of classes, as numbered in the whole problem.
    pub(super) groups: Vec<usize>,
    /// In the order in which they are used up.
    pub(super) supplies: Vec<Supply>,
    /// Whether using the supply that ends first is exact here.
    in_order: bool,
}

/// All parts.
#[derive(Debug, Clone)]
pub(super) struct Supplies {
    pub(super) parts: Vec<Part>,
    pub(super) part_of_group: Vec<usize>,
}

/// How a part's demands are met: grams from each supply to each demand.
#[derive(Debug, Clone, Default)]
pub(super) struct Flow {
    /// Supply, group within the part, day, grams.
    pub(super) lines: Vec<(usize, usize, usize, i64)>,
}

/// What became of a part's demands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Fed {
    /// Every demand is met; scaled points of loss avoided.
    Yes(i64),
    /// A demand of this day cannot be met.
    No(usize),
}

/// Buffers that are kept between calls so that the search does not allocate.
#[derive(Debug, Clone, Default)]
pub(super) struct Scratch {
    left: Vec<i64>,
    demands: Vec<(usize, usize, i64)>,
    flow: Vec<i64>,
    seen_demand: Vec<bool>,
    closed: Vec<bool>,
    came_from_supply: Vec<usize>,
    came_from_demand: Vec<usize>,
    queue: Vec<usize>,
}

/// Every distinct set of classes that some input accepts.
pub(super) fn distinct_groups(problem: &Problem) -> Vec<Vec<usize>> {
    let mut groups: Vec<Vec<usize>> = problem
        .outlets
        .iter()
        .flat_map(|outlet| &outlet.inputs)
        .filter(|input| input.grams > 0)
        .map(|input| {
            let mut classes = input.classes.clone();
            classes.sort_unstable();
            classes.dedup();
            classes
        })
        .collect();
    groups.sort();
    groups.dedup();
    groups
}

impl Supplies {
    /// Splits lots and groups into parts.
    pub(super) fn new(problem: &Problem, groups: &[Vec<usize>]) -> Supplies {
        let part_of_group = parts_of(groups);
        let count = part_of_group.iter().max().map_or(0, |last| last + 1);
        let parts = (0..count)
            .map(|part| {
                let inside: Vec<usize> = (0..groups.len())
                    .filter(|group| part_of_group[*group] == part)
                    .collect();
                Part::new(problem, groups, inside)
            })
            .collect();
        Supplies {
            parts,
            part_of_group,
        }
    }

    /// Grams that could feed a group on a day if nothing else took them.
    pub(super) fn available(&self, group: usize, day: usize) -> i128 {
        let part = &self.parts[self.part_of_group[group]];
        let inner = part.groups.iter().position(|known| *known == group);
        let Some(inner) = inner else { return 0 };
        part.supplies
            .iter()
            .filter(|supply| supply.feeds(inner, day))
            .map(|supply| i128::from(supply.grams))
            .sum()
    }
}

/// Numbers the groups by connection through shared classes.
fn parts_of(groups: &[Vec<usize>]) -> Vec<usize> {
    let mut part: Vec<usize> = (0..groups.len()).collect();
    let mut changed = true;
    while changed {
        changed = false;
        for a in 0..groups.len() {
            for b in 0..a {
                let meet = groups[a].iter().any(|class| groups[b].contains(class));
                if meet && part[a] != part[b] {
                    let (low, high) = (part[a].min(part[b]), part[a].max(part[b]));
                    part.iter_mut()
                        .filter(|p| **p == high)
                        .for_each(|p| *p = low);
                    changed = true;
                }
            }
        }
    }
    let mut known: Vec<usize> = Vec::new();
    part.iter()
        .map(|old| match known.iter().position(|k| k == old) {
            Some(new) => new,
            None => {
                known.push(*old);
                known.len() - 1
            }
        })
        .collect()
}

impl Part {
    fn new(problem: &Problem, groups: &[Vec<usize>], inside: Vec<usize>) -> Part {
        let horizon = problem.horizon();
        let mut supplies: Vec<Supply> = Vec::new();
        let mut order: Vec<usize> = (0..problem.lots.len()).collect();
        order.sort_by_key(|lot| (problem.lots[*lot].last_day, problem.lots[*lot].first_day));
        for index in order {
            let lot = &problem.lots[index];
            let accepted: Vec<bool> = inside
                .iter()
                .map(|group| groups[*group].contains(&lot.kind))
                .collect();
            let usable = lot.grams > 0 && lot.last_day >= 0 && lot.first_day < horizon;
            if !usable || !accepted.contains(&true) {
                continue;
            }
            let first = lot.first_day.max(0) as usize;
            let last = lot.last_day.min(horizon - 1) as usize;
            let loss = if lot.last_day < horizon {
                lot.waste_points_per_kg * (SCALE / 1000)
            } else {
                0
            };
            let alike = supplies.iter_mut().find(|s| {
                (s.first, s.last, s.loss) == (first, last, loss) && s.accepted == accepted
            });
            match alike {
                Some(supply) => {
                    supply.grams += lot.grams;
                    supply.lots.push(index);
                }
                None => supplies.push(Supply {
                    accepted,
                    first,
                    last,
                    grams: lot.grams,
                    loss,
                    lots: vec![index],
                }),
            }
        }
        let in_order = inside.len() == 1 && order_saves_most(&supplies, horizon);
        if in_order {
            // Of two that end together, the one whose loss costs something goes first.
            supplies.sort_by_key(|s| (s.last, std::cmp::Reverse(s.loss), s.first));
        } else {
            supplies.sort_by_key(|s| (std::cmp::Reverse(s.loss), s.last, s.first));
        }
        Part {
            groups: inside,
            supplies,
            in_order,
        }
    }

    /// Judges the demands `need[group][day]` (groups numbered within the part, days beside each
    /// other). Lines are written only when a flow is asked for.
    pub(super) fn feed(
        &self,
        need: &[&[i64]],
        scratch: &mut Scratch,
        lines: Option<&mut Flow>,
    ) -> Fed {
        if self.in_order {
            self.feed_in_order(need[0], scratch, lines)
        } else {
            self.feed_by_flow(need, scratch, lines)
        }
    }

    /// Uses the supply that ends first. Exact for one group of classes and equal losses.
    fn feed_in_order(
        &self,
        need: &[i64],
        scratch: &mut Scratch,
        mut lines: Option<&mut Flow>,
    ) -> Fed {
        scratch.left.clear();
        scratch.left.extend(self.supplies.iter().map(|s| s.grams));
        let mut saved = 0;
        for (day, grams) in need.iter().enumerate() {
            let mut missing = *grams;
            if missing == 0 {
                continue;
            }
            for (index, supply) in self.supplies.iter().enumerate() {
                let left = scratch.left[index];
                if left == 0 || day < supply.first || day > supply.last {
                    continue;
                }
                let taken = left.min(missing);
                scratch.left[index] -= taken;
                missing -= taken;
                saved += taken * supply.loss;
                if let Some(flow) = lines.as_deref_mut() {
                    flow.lines.push((index, 0, day, taken));
                }
                if missing == 0 {
                    break;
                }
            }
            if missing > 0 {
                return Fed::No(day);
            }
        }
        Fed::Yes(saved)
    }

    /// The flow. Demands are kept by day, so that an earlier day is fed first.
    fn feed_by_flow(
        &self,
        need: &[&[i64]],
        scratch: &mut Scratch,
        lines: Option<&mut Flow>,
    ) -> Fed {
        let days = need.first().map_or(0, |group| group.len());
        scratch.demands.clear();
        for day in 0..days {
            for (group, row) in need.iter().enumerate() {
                if row[day] > 0 {
                    scratch.demands.push((group, day, row[day]));
                }
            }
        }
        let count = scratch.demands.len();
        scratch.flow.clear();
        scratch.flow.resize(count * self.supplies.len(), 0);
        scratch.closed.clear();
        scratch.closed.resize(count, false);
        let mut missing: i64 = scratch.demands.iter().map(|demand| demand.2).sum();
        let mut saved = 0;
        for (index, supply) in self.supplies.iter().enumerate() {
            if missing == 0 {
                break;
            }
            let mut left = supply.grams;
            for (position, demand) in scratch.demands.iter_mut().enumerate() {
                if demand.2 > 0 && supply.feeds(demand.0, demand.1) {
                    let taken = left.min(demand.2);
                    demand.2 -= taken;
                    left -= taken;
                    scratch.flow[index * count + position] += taken;
                    if left == 0 {
                        break;
                    }
                }
            }
            while left > 0 {
                let moved = self.augment(index, left, count, scratch);
                if moved == 0 {
                    break;
                }
                left -= moved;
            }
            missing -= supply.grams - left;
            saved += (supply.grams - left) * supply.loss;
        }
        if missing > 0 {
            let short = scratch.demands.iter().find(|demand| demand.2 > 0);
            return Fed::No(short.map_or(0, |demand| demand.1));
        }
        if let Some(flow) = lines {
            for index in 0..self.supplies.len() {
                for position in 0..count {
                    let grams = scratch.flow[index * count + position];
                    if grams > 0 {
                        let (group, day, _) = scratch.demands[position];
                        flow.lines.push((index, group, day, grams));
                    }
                }
            }
        }
        Fed::Yes(saved)
    }

    /// Moves up to `left` grams from a supply to an unmet demand along a shortest path through
    /// demands that other supplies feed. Gives the grams moved; zero when there is no path.
    fn augment(&self, from: usize, left: i64, count: usize, scratch: &mut Scratch) -> i64 {
        const START: usize = usize::MAX;
        let supplies = self.supplies.len();
        scratch.seen_demand.clear();
        scratch.seen_demand.resize(count, false);
        scratch.came_from_supply.clear();
        scratch.came_from_supply.resize(count, START);
        scratch.came_from_demand.clear();
        scratch.came_from_demand.resize(supplies, START);
        scratch.queue.clear();
        scratch.queue.push(from);
        let mut next = 0;
        let mut reached = None;
        'search: while next < scratch.queue.len() {
            let supply = scratch.queue[next];
            next += 1;
            for position in 0..count {
                let (group, day, unmet) = scratch.demands[position];
                if scratch.seen_demand[position]
                    || scratch.closed[position]
                    || !self.supplies[supply].feeds(group, day)
                {
                    continue;
                }
                scratch.seen_demand[position] = true;
                scratch.came_from_supply[position] = supply;
                if unmet > 0 {
                    reached = Some(position);
                    break 'search;
                }
                for other in 0..supplies {
                    let fresh = other != from && scratch.came_from_demand[other] == START;
                    if fresh && scratch.flow[other * count + position] > 0 {
                        scratch.came_from_demand[other] = position;
                        scratch.queue.push(other);
                    }
                }
            }
        }
        let Some(end) = reached else {
            // Nothing beyond these demands is open, now or later.
            for position in 0..count {
                scratch.closed[position] |= scratch.seen_demand[position];
            }
            return 0;
        };
        let mut moved = left.min(scratch.demands[end].2);
        let mut position = end;
        loop {
            let supply = scratch.came_from_supply[position];
            if supply == from {
                break;
            }
            position = scratch.came_from_demand[supply];
            moved = moved.min(scratch.flow[supply * count + position]);
        }
        scratch.demands[end].2 -= moved;
        position = end;
        loop {
            let supply = scratch.came_from_supply[position];
            scratch.flow[supply * count + position] += moved;
            if supply == from {
                break;
            }
            position = scratch.came_from_demand[supply];
            scratch.flow[supply * count + position] -= moved;
        }
        moved
    }
}

/// Whether using the supply that ends first also saves the most: every loss costs the same, and
/// what costs nothing ends on the last day, so it is used last anyway.
fn order_saves_most(supplies: &[Supply], horizon: i64) -> bool {
    let cost = supplies.iter().map(|s| s.loss).max().unwrap_or(0);
    supplies
        .iter()
        .all(|s| s.loss == cost || (s.loss == 0 && s.last as i64 == horizon - 1))
}

#[cfg(test)]
mod tests;
