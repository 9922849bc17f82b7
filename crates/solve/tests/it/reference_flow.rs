//! A plain flow of highest worth, by shortest augmenting paths. It shares no code with the solver
//! and is slow on purpose: nothing in it is clever.

/// One source of grams: how much, what each gram used is worth, which demands it may feed.
pub struct Source {
    pub grams: i64,
    pub worth: i64,
    pub feeds: Vec<bool>,
}

struct Edge {
    from: usize,
    to: usize,
    left: i64,
    cost: i64,
}

/// Feeds every demand so that the grams used are worth the most; `None` when some demand cannot
/// be fed.
pub fn highest_worth(sources: &[Source], demands: &[i64]) -> Option<i64> {
    let start = sources.len() + demands.len();
    let end = start + 1;
    let mut edges: Vec<Edge> = Vec::new();
    let mut add = |from: usize, to: usize, left: i64, cost: i64| {
        edges.push(Edge {
            from,
            to,
            left,
            cost,
        });
        edges.push(Edge {
            from: to,
            to: from,
            left: 0,
            cost: -cost,
        });
    };
    for (index, source) in sources.iter().enumerate() {
        add(start, index, source.grams, -source.worth);
        for (demand, feeds) in source.feeds.iter().enumerate() {
            if *feeds {
                add(index, sources.len() + demand, i64::MAX, 0);
            }
        }
    }
    for (demand, grams) in demands.iter().enumerate() {
        add(sources.len() + demand, end, *grams, 0);
    }
    let (mut moved, mut worth) = (0, 0);
    loop {
        // Bellman and Ford: costs may be negative.
        let mut distance = vec![None; end + 1];
        let mut came_by = vec![None; end + 1];
        distance[start] = Some(0i64);
        for _ in 0..=end {
            for (index, edge) in edges.iter().enumerate() {
                let Some(here) = distance[edge.from] else {
                    continue;
                };
                let there = here + edge.cost;
                if edge.left > 0 && distance[edge.to].is_none_or(|known| there < known) {
                    distance[edge.to] = Some(there);
                    came_by[edge.to] = Some(index);
                }
            }
        }
        let Some(cost) = distance[end] else { break };
        let mut most = i64::MAX;
        let mut node = end;
        while let Some(index) = came_by[node] {
            most = most.min(edges[index].left);
            node = edges[index].from;
        }
        node = end;
        while let Some(index) = came_by[node] {
            edges[index].left -= most;
            let back = &mut edges[index ^ 1].left;
            *back = back.saturating_add(most);
            node = edges[index].from;
        }
        moved += most;
        worth -= cost * most;
    }
    (moved == demands.iter().sum::<i64>()).then_some(worth)
}
