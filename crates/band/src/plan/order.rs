//! Puts series in an order in which they can be tied.

use super::cut::Cuts;
use super::{Plan, Series};
use crate::{Layout, Piece};
use knotwright_numbers::ToNumber;
use std::cmp::Reverse;
use std::collections::BinaryHeap;

/// Of the series that wait for nothing, the one that begins topmost is tied first.
pub(super) fn in_order(piece: &Piece, layout: &Layout, cuts: &Cuts) -> Plan {
    let members = members(cuts);
    let mut waits = Waits::new(piece, cuts);
    let top = |series: u32| Reverse((layout.rows[members.of(series)[0].to_usize()], series));
    let mut ready: BinaryHeap<_> = waits.free().map(top).collect();
    let mut plan = Plan { knots: Vec::with_capacity(piece.knots().len()), series: Vec::new() };
    while let Some(Reverse((_, series))) = ready.pop() {
        let knots = members.of(series);
        let start = plan.knots.len().to_u32();
        plan.knots.extend_from_slice(knots);
        plan.series.push(Series {
            strand: piece.knots()[knots[0].to_usize()].working,
            knots: start..plan.knots.len().to_u32(),
            begins: cuts.begins[series.to_usize()],
        });
        waits.tied(series, |next| ready.push(top(next)));
    }
    plan
}

/// Items grouped by number: those of group `g` are `items[starts[g]..starts[g + 1]]`.
struct Grouped {
    starts: Vec<u32>,
    items: Vec<u32>,
}

impl Grouped {
    /// Groups `(group, item)` pairs; within a group they keep their order.
    fn new(groups: usize, pairs: impl Iterator<Item = (u32, u32)> + Clone) -> Self {
        let mut starts = vec![0_u32; groups + 1];
        pairs.clone().for_each(|(group, _)| starts[group.to_usize() + 1] += 1);
        (1..starts.len()).for_each(|at| starts[at] += starts[at - 1]);
        let mut next = starts.clone();
        let mut items = vec![0; starts[groups].to_usize()];
        for (group, item) in pairs {
            items[next[group.to_usize()].to_usize()] = item;
            next[group.to_usize()] += 1;
        }
        Self { starts, items }
    }

    fn of(&self, group: u32) -> &[u32] {
        let at = group.to_usize();
        &self.items[self.starts[at].to_usize()..self.starts[at + 1].to_usize()]
    }
}

/// By series, its knots in the order of the script.
fn members(cuts: &Cuts) -> Grouped {
    Grouped::new(cuts.begins.len(), cuts.series_of.iter().copied().zip(0..))
}

/// Which series wait for which.
struct Waits {
    followers: Grouped,
    waits_for: Vec<u32>,
}

impl Waits {
    fn new(piece: &Piece, cuts: &Cuts) -> Self {
        let pairs = pairs(piece, cuts);
        let mut waits_for = vec![0; cuts.begins.len()];
        pairs.iter().for_each(|&(_, later)| waits_for[later.to_usize()] += 1);
        Self { followers: Grouped::new(cuts.begins.len(), pairs.iter().copied()), waits_for }
    }

    fn free(&self) -> impl Iterator<Item = u32> {
        (0..).zip(&self.waits_for).filter(|(_, waits)| **waits == 0).map(|(series, _)| series)
    }

    fn tied(&mut self, series: u32, mut now_free: impl FnMut(u32)) {
        for &later in self.followers.of(series) {
            let waits = &mut self.waits_for[later.to_usize()];
            *waits -= 1;
            if *waits == 0 {
                now_free(later);
            }
        }
    }
}

/// Pairs of series, of which the second has a knot on a strand right after a knot of the first.
fn pairs(piece: &Piece, cuts: &Cuts) -> Vec<(u32, u32)> {
    let mut last: Vec<Option<u32>> = vec![None; piece.strands()];
    let mut pairs = Vec::new();
    for (knot, &series) in piece.knots().iter().zip(&cuts.series_of) {
        for strand in [knot.working, knot.base] {
            let before = last[usize::from(strand)].replace(series);
            pairs.extend(before.filter(|&before| before != series).map(|before| (before, series)));
        }
    }
    pairs
}
