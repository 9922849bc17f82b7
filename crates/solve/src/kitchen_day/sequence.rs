//! Reads from a schedule who hands each pot, burner and pair of hands to whom. With these links
//! the blocks can be moved in time without any resource being overdrawn.

use super::model::{Link, Model};

/// Who begins or ends a claim: a block, or the clock itself.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Edge {
    Block { block: usize, offset: i32 },
    Clock(i32),
}

impl Edge {
    fn is_in(self, set: &[bool]) -> bool {
        matches!(self, Edge::Block { block, .. } if set[block])
    }
}

/// One use of one resource with both of its ends.
#[derive(Debug, Clone, Copy)]
pub(super) struct Claim {
    pub from: i32,
    pub to: i32,
    pub amount: i32,
    begin: Edge,
    end: Edge,
}

/// Links between blocks, and limits between blocks and the clock, that keep one sequence.
#[derive(Debug, Default, Clone)]
pub(super) struct Sequence {
    pub links: Vec<Link>,
    /// `(block, earliest)`.
    pub not_before: Vec<(usize, i32)>,
    /// `(block, latest)`.
    pub not_after: Vec<(usize, i32)>,
    claims: Vec<Claim>,
    /// Places free again, with the claim that gave them back.
    pool: Vec<(Claim, i32)>,
}

/// What must hold so that one claim comes before another.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Before {
    /// A link between two blocks.
    Link(Link),
    /// A block may not start before this minute.
    Earliest(usize, i32),
    /// A block may not start after this minute.
    Latest(usize, i32),
    /// Both ends are on the clock or in one block: it is so, or never.
    Settled(bool),
}

/// What must hold so that `first` is over when `second` begins.
pub(super) fn before(first: &Claim, second: &Claim) -> Before {
    between(first.end, second.begin, 0)
}

/// What must hold so that `first` is not over when `second` begins.
pub(super) fn not_before(first: &Claim, second: &Claim) -> Before {
    between(second.begin, first.end, 1)
}

/// `time(late) >= time(early) + gap`.
fn between(early: Edge, late: Edge, gap: i32) -> Before {
    match (early, late) {
        (
            Edge::Block { block, offset },
            Edge::Block {
                block: later,
                offset: shift,
            },
        ) => {
            let length = offset - shift + gap;
            if block == later {
                Before::Settled(length <= 0)
            } else {
                Before::Link(Link {
                    from: block,
                    to: later,
                    length,
                })
            }
        }
        (Edge::Clock(minute), Edge::Block { block, offset }) => {
            Before::Earliest(block, minute + gap - offset)
        }
        (Edge::Block { block, offset }, Edge::Clock(minute)) => {
            Before::Latest(block, minute - gap - offset)
        }
        (Edge::Clock(early), Edge::Clock(late)) => Before::Settled(late >= early + gap),
    }
}

/// All uses of one resource in a schedule, sorted by their beginning; breaks included.
pub(super) fn claims(model: &Model, starts: &[i32], resource: usize, claims: &mut Vec<Claim>) {
    claims.clear();
    for (block, segments) in model.segments.iter().enumerate() {
        for segment in segments.iter().filter(|s| s.resource == resource) {
            let from = starts[block] + segment.offset;
            let end = segment.offset + segment.minutes;
            claims.push(Claim {
                from,
                to: from + segment.minutes,
                amount: segment.amount,
                begin: Edge::Block {
                    block,
                    offset: segment.offset,
                },
                end: Edge::Block { block, offset: end },
            });
        }
    }
    for keep in model.keeps.iter().filter(|k| k.resource == resource) {
        let from = starts[keep.a] + keep.a_offset;
        let to = starts[keep.b] + keep.b_offset;
        if from < to {
            claims.push(Claim {
                from,
                to,
                amount: keep.amount,
                begin: Edge::Block {
                    block: keep.a,
                    offset: keep.a_offset,
                },
                end: Edge::Block {
                    block: keep.b,
                    offset: keep.b_offset,
                },
            });
        }
    }
    for &(from, to, amount) in &model.away[resource] {
        claims.push(Claim {
            from,
            to,
            amount,
            begin: Edge::Clock(from),
            end: Edge::Clock(to),
        });
    }
    claims.sort_by_key(|claim| (claim.from, claim.to));
}

impl Sequence {
    /// Reads the sequence of a schedule that overdraws nothing.
    pub fn read(&mut self, model: &Model, starts: &[i32]) {
        self.read_without(model, starts, &[]);
    }

    /// Reads the sequence of all claims but those that begin or end with a block in `free`.
    pub fn read_without(&mut self, model: &Model, starts: &[i32], free: &[bool]) {
        self.links.clear();
        self.not_before.clear();
        self.not_after.clear();
        let mut list = std::mem::take(&mut self.claims);
        for resource in 0..model.capacity.len() {
            claims(model, starts, resource, &mut list);
            self.keep_empty(model, starts, resource, free);
            if !free.is_empty() {
                list.retain(|claim| !claim.begin.is_in(free) && !claim.end.is_in(free));
            }
            self.hand_over(model, &list, model.capacity[resource]);
        }
        self.claims = list;
    }

    /// A keep that begins and ends at one moment needs no place now; it must stay so, or it would
    /// need one that nobody gave it.
    fn keep_empty(&mut self, model: &Model, starts: &[i32], resource: usize, free: &[bool]) {
        for keep in model.keeps.iter().filter(|k| k.resource == resource) {
            let from = starts[keep.a] + keep.a_offset;
            let to = starts[keep.b] + keep.b_offset;
            let is_free = !free.is_empty() && (free[keep.a] || free[keep.b]);
            if from >= to && !is_free {
                self.links.push(Link {
                    from: keep.b,
                    to: keep.a,
                    length: keep.b_offset - keep.a_offset,
                });
            }
        }
    }

    /// Gives each claim its places from those that were given back before it begins: first from
    /// whom it follows anyway, then from whoever was last.
    fn hand_over(&mut self, model: &Model, list: &[Claim], capacity: i32) {
        let mut pool = std::mem::take(&mut self.pool);
        pool.clear();
        let mut fresh = capacity;
        for claim in list {
            let mut left = claim.amount;
            while left > 0 {
                let best = pool
                    .iter()
                    .enumerate()
                    .filter(|(_, (giver, places))| *places > 0 && giver.to <= claim.from)
                    .max_by_key(|(_, (giver, _))| (self.is_implied(model, giver, claim), giver.to))
                    .map(|(index, _)| index);
                let given = match best {
                    Some(index) if fresh == 0 || self.is_implied(model, &pool[index].0, claim) => {
                        self.add(model, before(&pool[index].0, claim));
                        let given = left.min(pool[index].1);
                        pool[index].1 -= given;
                        if pool[index].1 == 0 {
                            pool.swap_remove(index);
                        }
                        given
                    }
                    _ => {
                        let given = left.min(fresh);
                        fresh -= given;
                        given
                    }
                };
                if given == 0 {
                    // Overdrawn: not a schedule. The caller's checker says so.
                    break;
                }
                left -= given;
            }
            pool.push((*claim, claim.amount));
        }
        self.pool = pool;
    }

    fn is_implied(&self, model: &Model, giver: &Claim, taker: &Claim) -> bool {
        match before(giver, taker) {
            Before::Link(link) => model.distance.near(link.from, link.to) >= link.length,
            Before::Settled(holds) => holds,
            Before::Earliest(block, minute) => model.earliest[block] >= minute,
            Before::Latest(block, minute) => model.latest[block] <= minute,
        }
    }

    fn add(&mut self, model: &Model, before: Before) {
        match before {
            Before::Link(link) => {
                if model.distance.near(link.from, link.to) < link.length {
                    self.links.push(link);
                }
            }
            Before::Earliest(block, minute) => {
                if model.earliest[block] < minute {
                    self.not_before.push((block, minute));
                }
            }
            Before::Latest(block, minute) => {
                if model.latest[block] > minute {
                    self.not_after.push((block, minute));
                }
            }
            Before::Settled(_) => {}
        }
    }
}
