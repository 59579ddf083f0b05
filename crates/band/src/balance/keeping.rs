//! Levels without more pick-ups, one chain of knots after another.

use super::free::{Counts, Free};
use super::shares::Shares;

/// How many knots may be looked at, over all tries.
const MOST_LOOKED_AT: usize = 50_000_000;

/// A search in progress.
struct Search<'a> {
    free: &'a Free,
    counts: Counts,
    /// By free knot: turned already.
    turned: Vec<bool>,
    /// By free knot: turning it (again) was tried in vain.
    blocked: Vec<bool>,
    tries: usize,
}

/// Turns chains of knots as long as `keeps` says yes to all knots turned so far; knots at which it says no are left.
/// The knots turned, and the largest use then.
pub(super) fn turn_chains(
    free: &Free,
    mut shares: Shares,
    knots: usize,
    keeps: impl Fn(&[u32]) -> bool,
) -> (Vec<u32>, f64) {
    let all = free.knots.len();
    let tries = MOST_LOOKED_AT / knots.max(1);
    let counts = free.counts();
    let mut search = Search { free, counts, turned: vec![false; all], blocked: vec![false; all], tries };
    while search.tries > 0
        && let Some(chain) = shares.chain(&search.counts)
    {
        let picked = search.pick(&chain);
        if search.keeps_with(&picked, &keeps) {
            picked.iter().for_each(|&knot| search.turn(knot));
            shares.shift(&chain, 1);
        } else {
            search.block(&picked, &keeps);
        }
    }
    (search.numbers(), shares.largest())
}

impl Search<'_> {
    /// Who works in a free knot now, and who is the base.
    fn now(&self, knot: usize) -> (usize, usize) {
        let this = self.free.knots[knot];
        if self.turned[knot] { (this.other, this.works) } else { (this.works, this.other) }
    }

    /// A free knot for each step of a chain.
    fn pick(&self, chain: &[usize]) -> Vec<usize> {
        let fits = |pair: &[usize]| {
            (0..self.turned.len()).find(|&knot| !self.blocked[knot] && self.now(knot) == (pair[0], pair[1]))
        };
        chain.windows(2).filter_map(fits).collect()
    }

    fn turn(&mut self, knot: usize) {
        let (works, other) = self.now(knot);
        self.counts.turn(works, other, 1);
        self.turned[knot] = !self.turned[knot];
    }

    /// The numbers of the knots turned.
    fn numbers(&self) -> Vec<u32> {
        let turned = self.free.knots.iter().zip(&self.turned).filter(|(_, turned)| **turned);
        turned.map(|(knot, _)| knot.number).collect()
    }

    fn keeps_with(&mut self, picked: &[usize], keeps: &impl Fn(&[u32]) -> bool) -> bool {
        self.tries = self.tries.saturating_sub(1);
        picked.iter().for_each(|&knot| self.turned[knot] = !self.turned[knot]);
        let yes = keeps(&self.numbers());
        picked.iter().for_each(|&knot| self.turned[knot] = !self.turned[knot]);
        yes
    }

    /// Leaves those of the picked knots that cannot be turned alone, or the first.
    fn block(&mut self, picked: &[usize], keeps: &impl Fn(&[u32]) -> bool) {
        let mut alone: Vec<usize> = picked.to_vec();
        if picked.len() > 1 {
            alone.retain(|&knot| !self.keeps_with(&[knot], keeps));
        }
        for &knot in if alone.is_empty() { &picked[..1] } else { &alone } {
            let (works, other) = self.now(knot);
            self.counts.block(works, other);
            self.blocked[knot] = true;
        }
    }
}
