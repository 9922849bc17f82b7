//! Proves small days: takes the cheapest starts under the distances alone, looks for a resource
//! that is overdrawn, and branches on who comes before whom until nothing is. Every branch only
//! adds distances, so the cheapest starts of a node bound all below it.

use super::model::Model;
use super::search::Schedule;
use super::sequence::{Before, Claim, Sequence, before, claims, not_before};
use super::timing::Timing;

/// Whether the tree has been searched to its end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Progress {
    /// Nodes are left.
    Open,
    /// Nothing cheaper than the best schedule exists.
    Finished,
}

/// A depth-first search that can be paused.
pub(super) struct Exact<'m> {
    model: &'m Model,
    timing: Timing,
    stack: Vec<Node>,
    begun: bool,
    starts: Vec<i32>,
    list: Vec<Claim>,
    left_out: i64,
}

/// A node whose branches are being tried.
struct Node {
    /// Distances in force at the node.
    arcs: usize,
    /// Its cheapest starts: a good place to begin for the nodes below it.
    starts: Vec<i32>,
    /// Pairs of which one must come first; each is tried with all earlier ones denied.
    branches: Vec<(Claim, Claim)>,
    next: usize,
}

impl<'m> Exact<'m> {
    /// `hard_end`: ends after the finish-by are forbidden rather than dear.
    pub fn new(model: &'m Model, hard_end: bool, least_end: i32) -> Exact<'m> {
        let timing = Timing::new(model, hard_end, least_end);
        let left_out = timing.points_left_out(model) - Timing::points_of_finish_by(model);
        Exact {
            model,
            timing,
            stack: Vec::new(),
            begun: false,
            starts: vec![0; model.blocks],
            list: Vec::new(),
            left_out,
        }
    }

    /// Begins anew, with only the blocks marked `free` to be put in a new order: all others keep
    /// the order they have in `sequence`.
    pub fn begin_within(&mut self, sequence: &Sequence) {
        self.stack.clear();
        self.begun = false;
        self.timing.reset();
        self.timing.add_sequence(sequence);
    }

    /// Visits up to `nodes` nodes; `best` is replaced by whatever is found that is cheaper.
    pub fn run(&mut self, nodes: u64, best: &mut Option<Schedule>) -> Progress {
        if !self.begun {
            self.begun = true;
            self.visit(best);
        }
        for _ in 0..nodes {
            let Some(node) = self.stack.last_mut() else {
                return Progress::Finished;
            };
            if node.next == node.branches.len() {
                self.stack.pop();
                continue;
            }
            let arcs = node.arcs;
            let tried = node.next;
            node.next += 1;
            self.timing.cut_back(arcs);
            let branches = &self.stack[self.stack.len() - 1].branches;
            let (first, second) = branches[tried];
            let mut possible = add(&mut self.timing, before(&first, &second));
            for (first, second) in &branches[..tried] {
                possible &= add(&mut self.timing, not_before(first, second));
            }
            if possible {
                self.visit(best);
            }
        }
        if self.stack.is_empty() {
            Progress::Finished
        } else {
            Progress::Open
        }
    }

    /// Solves the distances in force; pushes a node if what comes out is cheap but overdrawn.
    fn visit(&mut self, best: &mut Option<Schedule>) {
        if let Some(node) = self.stack.last() {
            self.starts.copy_from_slice(&node.starts);
        }
        if !self.timing.raise(&mut self.starts) && !self.timing.earliest(&mut self.starts) {
            return;
        }
        let cheapest = self.timing.improve(self.model, &mut self.starts);
        let points = self.timing.points() + self.left_out;
        let limit = best.as_ref().map_or(i64::MAX, |best| best.points);
        // Without a proof of being cheapest the points bound nothing.
        if cheapest && points >= limit {
            return;
        }
        match self.overdrawn() {
            Some(branches) => self.stack.push(Node {
                arcs: self.timing.arcs_in_force(),
                starts: self.starts.clone(),
                branches,
                next: 0,
            }),
            None if points < limit => {
                *best = Some(Schedule {
                    starts: self.starts.clone(),
                    points,
                });
            }
            None => {}
        }
    }

    /// The pairs of the smallest set of claims that overdraw a resource at one moment. Intervals
    /// that meet pairwise meet at one moment, so in any schedule some pair of the set must part,
    /// or one of the set must be empty (a claim "before itself").
    fn overdrawn(&mut self) -> Option<Vec<(Claim, Claim)>> {
        let mut found: Option<Vec<(Claim, Claim)>> = None;
        let mut list = std::mem::take(&mut self.list);
        let mut score = (usize::MAX, 0);
        for resource in 0..self.model.capacity.len() {
            claims(self.model, &self.starts, resource, &mut list);
            let capacity = self.model.capacity[resource];
            for claim in &list {
                let now = claim.from;
                let mut set: Vec<&Claim> = list
                    .iter()
                    .filter(|c| c.from <= now && now < c.to && c.amount > 0)
                    .collect();
                if set.iter().map(|c| c.amount).sum::<i32>() <= capacity {
                    continue;
                }
                set.sort_by_key(|c| std::cmp::Reverse(c.amount));
                let mut sum = 0;
                let enough = set.iter().position(|c| {
                    sum += c.amount;
                    sum > capacity
                });
                set.truncate(enough.map_or(set.len(), |last| last + 1));
                let pairs = self.pairs(&set);
                // Fewest branches first, then those that move the most.
                let shift: i32 = pairs.iter().map(|p| p.0.to - p.1.from).sum();
                let new = (pairs.len(), -shift);
                if new < score {
                    score = new;
                    found = Some(pairs);
                }
            }
        }
        self.list = list;
        found
    }

    /// Every order of two claims of the set that the distances allow, least shift first.
    fn pairs(&self, set: &[&Claim]) -> Vec<(Claim, Claim)> {
        let mut pairs = Vec::new();
        for (index, one) in set.iter().enumerate() {
            if self.may_precede(one, one) {
                pairs.push((**one, **one));
            }
            for two in &set[index + 1..] {
                for (first, second) in [(*one, *two), (*two, *one)] {
                    if self.may_precede(first, second) {
                        pairs.push((*first, *second));
                    }
                }
            }
        }
        pairs.sort_by_key(|(first, second)| first.to - second.from);
        pairs
    }

    fn may_precede(&self, first: &Claim, second: &Claim) -> bool {
        match before(first, second) {
            Before::Settled(holds) => holds,
            Before::Link(link) => self.model.distance.near(link.to, link.from) + link.length <= 0,
            Before::Earliest(block, minute) => self.model.latest[block] >= minute,
            Before::Latest(block, minute) => self.model.earliest[block] <= minute,
        }
    }
}

/// Adds what must hold; `false` if it never can.
fn add(timing: &mut Timing, what: Before) -> bool {
    match what {
        Before::Link(link) => timing.add_link(link),
        Before::Earliest(block, minute) => timing.add_not_before(block, minute),
        Before::Latest(block, minute) => timing.add_not_after(block, minute),
        Before::Settled(holds) => return holds,
    }
    true
}
