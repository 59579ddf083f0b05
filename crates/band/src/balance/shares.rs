//! Levels what rounds use, exactly.
//!
//! As long as there is a chain of rounds from one with the largest use to one that would use less than it even with
//! one knot more, in which each round ties a free knot over the next, let along the chain the next one tie it: the
//! first has one knot less, the last one more, those between as many. Sorted from the largest, the uses fall with
//! each such step, so there is an end.
//!
//! The end is the least possible. Take a round S with the largest use, and let R be all rounds at the end of chains
//! from S, S included. The free knots that R ties are over strands of R, so all ways to tie leave to R at least as
//! many as it ties now. Then either each round of R ties as many as now, S too; or one of R ties more than now, and as
//! no chain could be used, with one knot more it uses at least as much as S. Either way the largest use is not less.

use super::Lengths;
use super::free::Counts;
use knotwright_numbers::ToNumber;

/// What rounds use.
#[derive(Debug, Clone)]
pub(super) struct Shares {
    /// As tied at first.
    used: Vec<f64>,
    /// By how much one knot more to tie makes it more.
    unit: Vec<f64>,
    /// How many knots more than at first.
    more: Vec<i64>,
}

impl Shares {
    /// The mean use of each round's strands.
    pub(super) fn new(rounds: &[Vec<u8>], lengths: Lengths<'_>) -> Self {
        let used = |strand: &u8| {
            lengths.used.get(usize::from(*strand)).copied().filter(|used| used.is_finite()).unwrap_or(0.0)
        };
        let mean = |round: &Vec<u8>| round.iter().map(used).sum::<f64>() / round.len().to_f64();
        let extra = if lengths.extra.is_finite() { lengths.extra.max(0.0) } else { 0.0 };
        Self {
            used: rounds.iter().map(mean).collect(),
            unit: rounds.iter().map(|round| extra / round.len().to_f64()).collect(),
            more: vec![0; rounds.len()],
        }
    }

    fn with(&self, round: usize, knots: i64) -> f64 {
        self.used[round] + self.unit[round] * (self.more[round] + knots).to_f64()
    }

    pub(super) fn largest(&self) -> f64 {
        (0..self.used.len()).map(|round| self.with(round, 0)).fold(0.0, f64::max)
    }

    /// Makes the largest use the least.
    pub(super) fn level(&mut self, counts: &mut Counts) {
        while let Some(chain) = self.chain(counts) {
            let steps = chain.windows(2);
            let there = steps.clone().map(|pair| counts.get(pair[0], pair[1])).min().unwrap_or(0);
            let knots = self.fair(chain[0], chain[chain.len() - 1]).min(there);
            steps.for_each(|pair| counts.turn(pair[0], pair[1], knots));
            self.shift(&chain, knots);
        }
    }

    /// Records that `knots` knots were turned along a chain.
    pub(super) fn shift(&mut self, chain: &[usize], knots: u32) {
        self.more[chain[0]] -= i64::from(knots);
        self.more[chain[chain.len() - 1]] += i64::from(knots);
    }

    /// How many knots to move so that the two meet; at least one.
    fn fair(&self, from: usize, to: usize) -> u32 {
        let apart = self.with(from, 0) - self.with(to, 0);
        (apart / (self.unit[from] + self.unit[to])).to_u32().max(1)
    }

    /// A chain that makes the largest use less: rounds from the one with the largest use to the one that would use
    /// the least with a knot more.
    pub(super) fn chain(&self, counts: &Counts) -> Option<Vec<usize>> {
        let rounds = 0..self.used.len();
        let from = rounds.max_by(|&a, &b| self.with(a, 0).total_cmp(&self.with(b, 0)))?;
        let (reached, came_from) = reach(counts, from);
        let with_one_more = |&a: &usize, &b: &usize| self.with(a, 1).total_cmp(&self.with(b, 1));
        let to = reached.into_iter().filter(|&round| round != from).min_by(with_one_more)?;
        // With a unit of nothing, turning would go on for ever.
        if self.with(to, 1) >= self.with(from, 0) || self.unit[from] <= 0.0 {
            return None;
        }
        let mut chain = vec![to];
        while chain[chain.len() - 1] != from {
            chain.push(came_from[chain[chain.len() - 1]]);
        }
        chain.reverse();
        Some(chain)
    }
}

/// All rounds at the end of chains, nearest first, and by round the one before it in its chain.
fn reach(counts: &Counts, from: usize) -> (Vec<usize>, Vec<usize>) {
    let mut came_from = vec![usize::MAX; counts.rounds];
    came_from[from] = from;
    let mut reached = vec![from];
    let mut at = 0;
    while at < reached.len() {
        let works = reached[at];
        for (other, before) in came_from.iter_mut().enumerate() {
            if *before == usize::MAX && counts.get(works, other) > 0 {
                *before = works;
                reached.push(other);
            }
        }
        at += 1;
    }
    (reached, came_from)
}
