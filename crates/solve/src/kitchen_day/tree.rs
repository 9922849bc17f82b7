//! The spanning tree of tight distances that `timing` moves about: who hangs on whom, and the
//! summed weight of everything below.

use super::model::Link;

/// No node, no arc. A node that hangs on no arc may move either way with all below it.
const NO: u32 = u32::MAX;

/// A tree over all nodes with node 0 as its root.
#[derive(Default)]
pub(super) struct Tree {
    parent: Vec<u32>,
    /// The arc by which a node hangs on its parent.
    by_arc: Vec<u32>,
    child: Vec<u32>,
    next: Vec<u32>,
    previous: Vec<u32>,
    /// Weight of a node and all below it.
    sum: Vec<i64>,
    /// Arcs at each node, as ranges of `arc_list`.
    first_arc: Vec<u32>,
    arc_list: Vec<u32>,
    /// The subtree looked at last, and a mark for each of its nodes.
    inside: Vec<u32>,
    mark: Vec<u32>,
    stamp: u32,
}

impl Tree {
    /// A spanning tree of the distances that are tight; parts that no tight distance joins hang
    /// loose on the root.
    pub fn grow(&mut self, weight: &[i64], arcs: &[Link], at: &[i32]) {
        let nodes = weight.len();
        self.list_arcs(nodes, arcs);
        for list in [
            &mut self.parent,
            &mut self.by_arc,
            &mut self.child,
            &mut self.next,
            &mut self.previous,
        ] {
            list.clear();
            list.resize(nodes, NO);
        }
        self.mark.clear();
        self.mark.resize(nodes, 0);
        self.stamp = 0;
        let mut queue = std::mem::take(&mut self.inside);
        queue.clear();
        for root in 0..nodes {
            if self.parent[root] != NO {
                continue;
            }
            self.parent[root] = 0;
            let mut head = queue.len();
            queue.push(root as u32);
            while head < queue.len() {
                let node = queue[head] as usize;
                head += 1;
                for position in self.first_arc[node]..self.first_arc[node + 1] {
                    let index = self.arc_list[position as usize];
                    let arc = &arcs[index as usize];
                    let other = if arc.from == node { arc.to } else { arc.from };
                    if self.parent[other] == NO && at[arc.to] - at[arc.from] == arc.length {
                        self.parent[other] = node as u32;
                        self.by_arc[other] = index;
                        queue.push(other as u32);
                    }
                }
            }
        }
        self.sum.clear();
        self.sum.extend_from_slice(weight);
        for &node in queue[1..].iter().rev() {
            let parent = self.parent[node as usize] as usize;
            self.sum[parent] += self.sum[node as usize];
            self.add_child(parent, node);
        }
        self.inside = queue;
    }

    fn list_arcs(&mut self, nodes: usize, arcs: &[Link]) {
        self.first_arc.clear();
        self.first_arc.resize(nodes + 2, 0);
        // Each arc is listed at both of its ends. Counting two places up leaves room to fill in.
        for arc in arcs {
            self.first_arc[arc.from + 2] += 1;
            self.first_arc[arc.to + 2] += 1;
        }
        for node in 0..nodes {
            self.first_arc[node + 2] += self.first_arc[node + 1];
        }
        self.arc_list.clear();
        self.arc_list.resize(arcs.len() * 2, 0);
        for (index, arc) in arcs.iter().enumerate() {
            for node in [arc.from, arc.to] {
                let place = &mut self.first_arc[node + 1];
                self.arc_list[*place as usize] = index as u32;
                *place += 1;
            }
        }
    }

    fn add_child(&mut self, parent: usize, node: u32) {
        let after = self.child[parent];
        self.next[node as usize] = after;
        self.previous[node as usize] = NO;
        if after != NO {
            self.previous[after as usize] = node;
        }
        self.child[parent] = node;
    }

    fn drop_child(&mut self, parent: usize, node: u32) {
        let (previous, next) = (self.previous[node as usize], self.next[node as usize]);
        if previous == NO {
            self.child[parent] = next;
        } else {
            self.next[previous as usize] = next;
        }
        if next != NO {
            self.previous[next as usize] = previous;
        }
    }

    /// The subtree that gains most by moving, and whether it moves to the right.
    pub fn worst(&self, arcs: &[Link]) -> Option<(usize, bool)> {
        let mut worst = None;
        let mut most = 0;
        for (node, &sum) in self.sum.iter().enumerate().skip(1) {
            if sum.abs() <= most {
                continue;
            }
            let right = sum < 0;
            let arc = self.by_arc[node];
            if arc == NO || (arcs[arc as usize].to == node) == right {
                most = sum.abs();
                worst = Some((node, right));
            }
        }
        worst
    }

    /// The distance that stops a subtree from moving further, and how far it may move until then.
    pub fn first_met(
        &mut self,
        top: usize,
        right: bool,
        arcs: &[Link],
        at: &[i32],
    ) -> (Option<usize>, i32) {
        self.stamp += 1;
        self.inside.clear();
        self.inside.push(top as u32);
        let mut seen = 0;
        while seen < self.inside.len() {
            let node = self.inside[seen] as usize;
            self.mark[node] = self.stamp;
            seen += 1;
            let mut child = self.child[node];
            while child != NO {
                self.inside.push(child);
                child = self.next[child as usize];
            }
        }
        let (mut entering, mut least) = (None, i32::MAX);
        for &node in &self.inside {
            let node = node as usize;
            let (from, to) = (self.first_arc[node], self.first_arc[node + 1]);
            for &index in &self.arc_list[from as usize..to as usize] {
                let arc = &arcs[index as usize];
                let leaves = arc.from == node;
                let other = if leaves { arc.to } else { arc.from };
                if leaves != right || self.mark[other] == self.stamp {
                    continue;
                }
                let slack = at[arc.to] - at[arc.from] - arc.length;
                if slack < least {
                    least = slack;
                    entering = Some(index as usize);
                }
            }
        }
        (entering, least)
    }

    /// The nodes of the subtree that [`Tree::first_met`] looked at last.
    pub fn inside(&self) -> &[u32] {
        &self.inside
    }

    /// Turns the subtree of `top` so that `inner` becomes its root, and hangs it on `outer`.
    pub fn hang(&mut self, top: usize, inner: usize, outer: usize, arc: usize) {
        let whole = self.sum[top];
        let mut above = top;
        while above != 0 {
            above = self.parent[above] as usize;
            self.sum[above] -= whole;
        }
        let (mut node, mut parent, mut by) = (inner, outer, arc as u32);
        // What lies below the node just turned, as it was before.
        let mut below = 0;
        loop {
            let (old_parent, old_by) = (self.parent[node] as usize, self.by_arc[node]);
            self.drop_child(old_parent, node as u32);
            self.parent[node] = parent as u32;
            self.by_arc[node] = by;
            self.add_child(parent, node as u32);
            let old_sum = self.sum[node];
            self.sum[node] = whole - below;
            below = old_sum;
            if node == top {
                break;
            }
            parent = node;
            by = old_by;
            node = old_parent;
        }
        let mut above = outer;
        loop {
            self.sum[above] += whole;
            if above == 0 {
                break;
            }
            above = self.parent[above] as usize;
        }
    }
}
