//! The cheapest starts for one sequence: linear points under least distances. This is the dual of
//! a flow problem, solved by moving whole subtrees of a spanning tree of tight distances.

use super::closure::FAR;
use super::model::{Link, Model};
use super::sequence::Sequence;
use super::tree::Tree;

/// The starts of all blocks as a net: node 0 is the clock, then the blocks, the end of the day,
/// the end or finish-by whichever is later, and one node for each price that may be zero.
pub(super) struct Timing {
    weight: Vec<i64>,
    arcs: Vec<Link>,
    /// Arcs that belong to the model; those of a sequence come after them.
    own_arcs: usize,
    least_end: i32,
    /// Prices with a node of their own: `(node, index)`.
    bends: Vec<(usize, usize)>,
    at: Vec<i32>,
    tree: Tree,
}

impl Timing {
    /// A net for the model; `hard_end`: ends after the finish-by are forbidden rather than dear.
    /// No day ends before `least_end`.
    pub fn new(model: &Model, hard_end: bool, least_end: i32) -> Timing {
        let blocks = model.blocks;
        let (end, late) = (blocks + 1, blocks + 2);
        let mut timing = Timing {
            weight: vec![0; blocks + 3],
            arcs: Vec::new(),
            own_arcs: 0,
            least_end,
            bends: Vec::new(),
            at: Vec::new(),
            tree: Tree::default(),
        };
        timing.weight[end] += model.points_per_minute;
        timing.weight[late] += model.late_points;
        timing.arcs.extend(model.links.iter().map(|link| Link {
            from: link.from + 1,
            to: link.to + 1,
            length: link.length,
        }));
        for block in 0..blocks {
            timing.arc(0, block + 1, model.earliest[block]);
            let latest = if hard_end {
                model.latest[block].min(model.horizon - model.end_offset[block])
            } else {
                model.latest[block]
            };
            timing.arc(block + 1, 0, -latest);
            timing.arc(block + 1, end, model.end_offset[block]);
        }
        timing.arc(0, end, least_end);
        timing.arc(end, late, 0);
        timing.arc(0, late, model.horizon);
        for (index, price) in model.prices.iter().enumerate() {
            let (from, to) = (price.from + 1, price.to + 1);
            let distance = model.distance.near(price.from, price.to);
            if distance > FAR && distance + price.shift >= 0 {
                timing.weight[to] += price.points;
                timing.weight[from] -= price.points;
            } else {
                let node = timing.weight.len();
                timing.weight.push(price.points);
                timing.weight[from] -= price.points;
                timing.arc(to, node, price.shift);
                timing.arc(from, node, 0);
                timing.bends.push((node, index));
            }
        }
        timing.own_arcs = timing.arcs.len();
        timing
    }

    fn arc(&mut self, from: usize, to: usize, length: i32) {
        self.arcs.push(Link { from, to, length });
    }

    /// Forgets everything but the model.
    pub fn reset(&mut self) {
        self.arcs.truncate(self.own_arcs);
    }

    /// How many distances are in force.
    pub fn arcs_in_force(&self) -> usize {
        self.arcs.len()
    }

    /// Forgets the distances added since there were this many.
    pub fn cut_back(&mut self, arcs: usize) {
        self.arcs.truncate(arcs.max(self.own_arcs));
    }

    /// Adds the links and limits of a sequence.
    pub fn add_sequence(&mut self, sequence: &Sequence) {
        for link in &sequence.links {
            self.add_link(*link);
        }
        for &(block, earliest) in &sequence.not_before {
            self.add_not_before(block, earliest);
        }
        for &(block, latest) in &sequence.not_after {
            self.add_not_after(block, latest);
        }
    }

    pub fn add_link(&mut self, link: Link) {
        self.arc(link.from + 1, link.to + 1, link.length);
    }

    pub fn add_not_before(&mut self, block: usize, earliest: i32) {
        self.arc(0, block + 1, earliest);
    }

    pub fn add_not_after(&mut self, block: usize, latest: i32) {
        self.arc(block + 1, 0, -latest);
    }

    /// Moves the starts, which must keep every distance, to the cheapest ones. Returns whether
    /// they are known to be the cheapest; they keep every distance in any case.
    pub fn improve(&mut self, model: &Model, starts: &mut [i32]) -> bool {
        self.load(model, starts);
        let best = self.descend();
        starts.copy_from_slice(&self.at[1..=model.blocks]);
        best
    }

    /// The earliest starts that keep every distance; `false` if there are none.
    pub fn earliest(&self, starts: &mut [i32]) -> bool {
        starts.fill(0);
        self.raise(starts)
    }

    /// The earliest starts, none before those given, that keep every distance; `false` if there
    /// are none.
    pub fn raise(&self, starts: &mut [i32]) -> bool {
        let blocks = starts.len();
        // The newest distances first: they are the ones not kept yet.
        for _ in 0..=blocks + 1 {
            let mut changed = false;
            for arc in self.arcs.iter().rev() {
                // Arcs to the end and to prices follow from the starts.
                if arc.to > blocks || arc.from > blocks {
                    continue;
                }
                let from = if arc.from == 0 {
                    0
                } else {
                    starts[arc.from - 1]
                };
                let low = from + arc.length;
                if arc.to == 0 {
                    if low > 0 {
                        return false;
                    }
                } else if starts[arc.to - 1] < low {
                    starts[arc.to - 1] = low;
                    changed = true;
                }
            }
            if !changed {
                return true;
            }
        }
        false
    }

    /// Points of the nodes as they stand, without the constant of the model.
    pub fn points(&self) -> i64 {
        let nodes = self.weight.iter().zip(&self.at);
        nodes.map(|(weight, at)| weight * i64::from(*at)).sum()
    }

    /// The points of the finish-by node when the day keeps to it.
    pub fn points_of_finish_by(model: &Model) -> i64 {
        model.late_points * i64::from(model.horizon)
    }

    /// Points of linear prices are counted from the starts, not from the ends; what that leaves
    /// out is the same for all schedules.
    pub fn points_left_out(&self, model: &Model) -> i64 {
        let mut left_out = model.constant;
        for (index, price) in model.prices.iter().enumerate() {
            if self.bends.iter().all(|bend| bend.1 != index) {
                left_out += price.points * i64::from(price.shift);
            }
        }
        left_out
    }

    fn load(&mut self, model: &Model, starts: &[i32]) {
        let blocks = model.blocks;
        self.at.clear();
        self.at.push(0);
        self.at.extend_from_slice(starts);
        self.at.resize(self.weight.len(), 0);
        let end = model.end(starts).max(self.least_end);
        self.at[blocks + 1] = end;
        self.at[blocks + 2] = end.max(model.horizon);
        for &(node, index) in &self.bends {
            let price = &model.prices[index];
            self.at[node] = starts[price.from].max(starts[price.to] + price.shift);
        }
    }

    fn descend(&mut self) -> bool {
        self.tree.grow(&self.weight, &self.arcs, &self.at);
        for _ in 0..20 * self.weight.len() + 100 {
            let Some((top, right)) = self.tree.worst(&self.arcs) else {
                return true;
            };
            let (entering, least) = self.tree.first_met(top, right, &self.arcs, &self.at);
            // Every block is tied to the clock both ways, so something always enters.
            let Some(index) = entering else { break };
            let step = if right { least } else { -least };
            for &node in self.tree.inside() {
                self.at[node as usize] += step;
            }
            let arc = &self.arcs[index];
            let (inner, outer) = if right {
                (arc.from, arc.to)
            } else {
                (arc.to, arc.from)
            };
            self.tree.hang(top, inner, outer, index);
        }
        false
    }
}
