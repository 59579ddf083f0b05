//! The knots that either strand may tie.

use crate::Piece;
use rustc_hash::FxHashMap as HashMap;

/// A knot that the other strand may tie as well.
#[derive(Debug, Clone, Copy)]
pub(super) struct FreeKnot {
    /// Its number in the piece.
    pub(super) number: u32,
    /// The round of the strand that works now.
    pub(super) works: usize,
    /// The round of the other.
    pub(super) other: usize,
}

/// All of them whose strands belong to different rounds; between strands of one round nothing is gained.
pub(super) struct Free {
    rounds: usize,
    pub(super) knots: Vec<FreeKnot>,
}

/// How many free knots each round ties over each other one.
#[derive(Debug, Clone)]
pub(super) struct Counts {
    pub(super) rounds: usize,
    of: Vec<u32>,
}

impl Counts {
    pub(super) fn get(&self, works: usize, other: usize) -> u32 {
        self.of[works * self.rounds + other]
    }

    /// Lets the other round tie `knots` of them.
    pub(super) fn turn(&mut self, works: usize, other: usize, knots: u32) {
        self.of[works * self.rounds + other] -= knots;
        self.of[other * self.rounds + works] += knots;
    }

    /// Counts one knot less.
    pub(super) fn block(&mut self, works: usize, other: usize) {
        self.of[works * self.rounds + other] -= 1;
    }
}

impl Free {
    pub(super) fn new(piece: &Piece, rounds: &[Vec<u8>], mut alike: impl FnMut(u8, u8) -> bool) -> Self {
        let mut round_of = [0_usize; 256];
        for (round, strands) in rounds.iter().enumerate() {
            strands.iter().for_each(|&strand| round_of[usize::from(strand)] = round);
        }
        let mut knots = Vec::new();
        for (number, knot) in (0..).zip(piece.knots()) {
            let (works, other) = (round_of[usize::from(knot.working)], round_of[usize::from(knot.base)]);
            if works != other && alike(knot.working, knot.base) {
                knots.push(FreeKnot { number, works, other });
            }
        }
        Self { rounds: rounds.len(), knots }
    }

    /// As tied now.
    pub(super) fn counts(&self) -> Counts {
        let mut of = vec![0; self.rounds * self.rounds];
        self.knots.iter().for_each(|knot| of[knot.works * self.rounds + knot.other] += 1);
        Counts { rounds: self.rounds, of }
    }

    /// Which knots to turn to get from one set of counts to another: no more than needed, the first ones.
    pub(super) fn turned(&self, now: &Counts, then: &Counts) -> Vec<u32> {
        let mut left = now.clone();
        left.of.iter_mut().zip(&then.of).for_each(|(now, then)| *now = now.saturating_sub(*then));
        let mut turned = Vec::new();
        for knot in &self.knots {
            if left.get(knot.works, knot.other) > 0 {
                left.block(knot.works, knot.other);
                turned.push(knot.number);
            }
        }
        turned
    }
}

/// Whether two positions have strands of one color as every set begins. Two strands meet again after the least common
/// multiple of their rounds' lengths, at most 200 * 200 sets.
pub(super) fn alike_in_every_set(rounds: &[Vec<u8>], colors: &[u16]) -> impl FnMut(u8, u8) -> bool {
    let mut place = [(0_usize, 0_usize); 256];
    for (round, positions) in rounds.iter().enumerate() {
        positions.iter().enumerate().for_each(|(at, &p)| place[usize::from(p)] = (round, at));
    }
    let color = |position: u8| colors.get(usize::from(position)).copied().unwrap_or(0);
    let colors: Vec<Vec<u16>> =
        rounds.iter().map(|round| round.iter().map(|&p| color(p)).collect()).collect();
    let mut known = HashMap::default();
    move |a, b| {
        *known.entry((a, b)).or_insert_with(|| {
            let ((round, at), (other, other_at)) = (place[usize::from(a)], place[usize::from(b)]);
            let (one, two) = (&colors[round], &colors[other]);
            // Set by set, the strand at a place came from one place further back in the round.
            (0..one.len() * two.len())
                .all(|sets| one[(at + sets) % one.len()] == two[(other_at + sets) % two.len()])
        })
    }
}
