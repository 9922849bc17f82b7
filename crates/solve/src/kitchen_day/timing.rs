//! The cheapest starts for one sequence: linear points under least distances. This is the dual of
//! a flow problem, solved by moving whole subtrees of a spanning tree of tight distances.

use super::closure::FAR;
use super::model::{Link, Model};
use super::sequence::Sequence;

/// A tree node that hangs on no distance: its subtree may move either way.
const LOOSE: u32 = u32::MAX;

/// Points for each minute past the finish-by while the search goes on: far above all else, so that
/// the search first comes back within the day.
pub(super) const LATE_POINTS: i64 = 1_000_000;

/// The starts of all blocks as a net: node 0 is the clock, then the blocks, the end of the day,
/// the end or finish-by whichever is later, and one node for each price that may be zero.
pub(super) struct Timing {
    weight: Vec<i64>,
    arcs: Vec<Link>,
    /// Arcs that belong to the model; those of a sequence come after them.
    own_arcs: usize,
    /// Prices with a node of their own: `(node, index)`.
    bends: Vec<(usize, usize)>,
    at: Vec<i32>,
    tree: Tree,
}

#[derive(Default)]
struct Tree {
    parent: Vec<u32>,
    by_arc: Vec<u32>,
    order: Vec<u32>,
    place: Vec<u32>,
    size: Vec<u32>,
    sum: Vec<i64>,
    child: Vec<u32>,
    sibling: Vec<u32>,
    first_arc: Vec<u32>,
    arc_list: Vec<u32>,
}

impl Timing {
    /// A net for the model; `hard_end`: ends after the finish-by are forbidden rather than dear.
    pub fn new(model: &Model, hard_end: bool) -> Timing {
        let blocks = model.blocks;
        let (end, late) = (blocks + 1, blocks + 2);
        let mut timing = Timing {
            weight: vec![0; blocks + 3],
            arcs: Vec::new(),
            own_arcs: 0,
            bends: Vec::new(),
            at: Vec::new(),
            tree: Tree::default(),
        };
        timing.weight[end] += model.points_per_minute;
        timing.weight[late] += LATE_POINTS;
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
        timing.arc(0, end, 0);
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

    /// The day ends no earlier than this, whatever the blocks do.
    pub fn add_least_end(&mut self, model: &Model, end: i32) {
        self.arc(0, model.blocks + 1, end);
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
        let blocks = starts.len();
        starts.fill(0);
        for _ in 0..=blocks + 1 {
            let mut changed = false;
            for arc in &self.arcs {
                // Arcs to the end and to prices follow from the starts.
                if arc.to > blocks || arc.from > blocks {
                    continue;
                }
                let from = if arc.from == 0 { 0 } else { starts[arc.from - 1] };
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
        LATE_POINTS * i64::from(model.horizon)
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
        let mut end = model.end(starts);
        // A least end may have been added after the model's own arcs.
        for arc in &self.arcs[self.own_arcs..] {
            if arc.from == 0 && arc.to == blocks + 1 {
                end = end.max(arc.length);
            }
        }
        self.at[blocks + 1] = end;
        self.at[blocks + 2] = end.max(model.horizon);
        for &(node, index) in &self.bends {
            let price = &model.prices[index];
            self.at[node] = starts[price.from].max(starts[price.to] + price.shift);
        }
    }

    fn slack(&self, arc: &Link) -> i32 {
        self.at[arc.to] - self.at[arc.from] - arc.length
    }

    fn descend(&mut self) -> bool {
        let mut tree = std::mem::take(&mut self.tree);
        self.grow(&mut tree);
        let mut best = false;
        for _ in 0..20 * self.weight.len() + 100 {
            tree.measure(&self.weight);
            let Some((top, right)) = tree.worst(&self.arcs) else {
                best = true;
                break;
            };
            let inside = |node: usize| {
                tree.place[node].wrapping_sub(tree.place[top]) < tree.size[top]
            };
            let mut entering = None;
            let mut least = i32::MAX;
            for (index, arc) in self.arcs.iter().enumerate() {
                let (from, to) = (inside(arc.from), inside(arc.to));
                if from != to && from == right {
                    let slack = self.slack(arc);
                    if slack < least {
                        least = slack;
                        entering = Some(index);
                    }
                }
            }
            // Every block is tied to the clock both ways, so something always enters.
            let Some(index) = entering else { break };
            let step = if right { least } else { -least };
            let from = tree.place[top] as usize;
            for &node in &tree.order[from..from + tree.size[top] as usize] {
                self.at[node as usize] += step;
            }
            let arc = &self.arcs[index];
            let (inner, outer) = if right {
                (arc.from, arc.to)
            } else {
                (arc.to, arc.from)
            };
            tree.hang(top, inner, outer, index);
        }
        self.tree = tree;
        best
    }

    /// A spanning forest of the distances that are tight.
    fn grow(&self, tree: &mut Tree) {
        let nodes = self.weight.len();
        tree.first_arc.clear();
        tree.first_arc.resize(nodes + 1, 0);
        // Each arc is listed at both of its ends.
        for arc in &self.arcs {
            tree.first_arc[arc.from + 1] += 1;
            tree.first_arc[arc.to + 1] += 1;
        }
        for node in 0..nodes {
            tree.first_arc[node + 1] += tree.first_arc[node];
        }
        tree.arc_list.clear();
        tree.arc_list.resize(self.arcs.len() * 2, 0);
        let mut next = tree.first_arc.clone();
        for (index, arc) in self.arcs.iter().enumerate() {
            for node in [arc.from, arc.to] {
                tree.arc_list[next[node] as usize] = index as u32;
                next[node] += 1;
            }
        }
        tree.parent.clear();
        tree.parent.resize(nodes, LOOSE);
        tree.by_arc.clear();
        tree.by_arc.resize(nodes, LOOSE);
        for list in [
            &mut tree.order,
            &mut tree.place,
            &mut tree.size,
            &mut tree.child,
            &mut tree.sibling,
        ] {
            list.clear();
            list.resize(nodes, 0);
        }
        tree.sum.clear();
        tree.sum.resize(nodes, 0);
        let mut queue = Vec::with_capacity(nodes);
        for root in 0..nodes {
            if tree.parent[root] != LOOSE {
                continue;
            }
            tree.parent[root] = 0;
            queue.clear();
            queue.push(root);
            let mut head = 0;
            while head < queue.len() {
                let node = queue[head];
                head += 1;
                let (from, to) = (tree.first_arc[node], tree.first_arc[node + 1]);
                for position in from..to {
                    let index = tree.arc_list[position as usize];
                    let arc = &self.arcs[index as usize];
                    let other = if arc.from == node { arc.to } else { arc.from };
                    if tree.parent[other] == LOOSE && self.slack(arc) == 0 {
                        tree.parent[other] = node as u32;
                        tree.by_arc[other] = index;
                        queue.push(other);
                    }
                }
            }
        }
    }
}

impl Tree {
    /// Lists the nodes from the root down, with the size and the summed weight of each subtree.
    fn measure(&mut self, weight: &[i64]) {
        let nodes = self.parent.len();
        self.child.fill(LOOSE);
        for node in 1..nodes {
            let parent = self.parent[node] as usize;
            self.sibling[node] = self.child[parent];
            self.child[parent] = node as u32;
        }
        let mut at = 0u32;
        let mut count = 0;
        loop {
            self.order[count] = at;
            self.place[at as usize] = count as u32;
            count += 1;
            if self.child[at as usize] != LOOSE {
                at = self.child[at as usize];
                continue;
            }
            while at != 0 && self.sibling[at as usize] == LOOSE {
                at = self.parent[at as usize];
            }
            if at == 0 {
                break;
            }
            at = self.sibling[at as usize];
        }
        self.sum.copy_from_slice(weight);
        self.size.fill(1);
        for &node in self.order[1..].iter().rev() {
            let (node, parent) = (node as usize, self.parent[node as usize] as usize);
            self.sum[parent] += self.sum[node];
            self.size[parent] += self.size[node];
        }
    }

    /// The subtree that gains most by moving, and whether it moves to the right.
    fn worst(&self, arcs: &[Link]) -> Option<(usize, bool)> {
        let mut worst = None;
        let mut most = 0;
        for node in 1..self.parent.len() {
            let sum = self.sum[node];
            if sum.abs() <= most {
                continue;
            }
            let right = sum < 0;
            let arc = self.by_arc[node];
            let may_move = arc == LOOSE || (arcs[arc as usize].to == node) == right;
            if may_move {
                most = sum.abs();
                worst = Some((node, right));
            }
        }
        worst
    }

    /// Turns the subtree of `top` so that `inner` becomes its root, and hangs it on `outer`.
    fn hang(&mut self, top: usize, inner: usize, outer: usize, arc: usize) {
        let (mut node, mut parent, mut by) = (inner, outer as u32, arc as u32);
        loop {
            let (old_parent, old_by) = (self.parent[node], self.by_arc[node]);
            self.parent[node] = parent;
            self.by_arc[node] = by;
            if node == top {
                break;
            }
            parent = node as u32;
            by = old_by;
            node = old_parent as usize;
        }
    }
}
