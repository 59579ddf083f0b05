//! Threads that change color along their length: what a strand has used up before each of its knots, and which color
//! that is.

use super::{Figures, JOIN_OVER};
use knotwright_numbers::ToNumber;

/// What knots and rows take of a strand, and what it gave before its first knot. In millimeters.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct TakenThread {
    /// By a knot that it ties.
    pub working: f64,
    /// By a knot that is tied over it.
    pub base: f64,
    /// By a row in which it is not tied.
    pub idle: f64,
    /// Before the first row: its free end, what is made of it there, and the knot that holds it.
    pub before: f64,
}

impl TakenThread {
    /// Of thread with these figures.
    pub fn of(figures: &Figures, before: f64) -> Self {
        Self { working: figures.working, base: figures.base, idle: figures.idle, before }
    }
}

/// Strands while knot after knot is tied; rows count from 0.
#[derive(Debug, Clone, PartialEq)]
pub struct UsedThread {
    taken: TakenThread,
    /// By strand: what its piece of thread has used, and the first row after its last knot; no row if the piece begins at
    /// the strand's next knot.
    strands: Vec<(f64, Option<u64>)>,
}

impl UsedThread {
    /// Nothing tied yet.
    pub fn new(strands: usize, taken: TakenThread) -> Self {
        Self { taken, strands: vec![(taken.before, Some(0)); strands] }
    }

    /// What a strand has used up of its piece of thread where a knot in that row begins.
    pub fn before(&self, strand: u8, row: u64) -> f64 {
        let (used, free) = self.strands.get(usize::from(strand)).copied().unwrap_or_default();
        used + self.taken.idle * row.saturating_sub(free.unwrap_or(row)).to_f64()
    }

    /// A strand goes on at its next knot with a new piece of thread, of which so far only what is over at the join is used.
    pub fn join(&mut self, strand: u8) {
        if let Some(of) = self.strands.get_mut(usize::from(strand)) {
            *of = (JOIN_OVER, None);
        }
    }

    /// Ties a knot in a row, and says what both strands, the working one first, had used up before it.
    pub fn tie(&mut self, row: u64, working: u8, base: u8) -> [f64; 2] {
        [(working, self.taken.working), (base, self.taken.base)].map(|(strand, takes)| {
            let before = self.before(strand, row);
            if let Some(of) = self.strands.get_mut(usize::from(strand)) {
                *of = (before + takes, of.1.max(Some(row + 1)));
            }
            before
        })
    }
}

/// Which of the colors of a thread, each as long as `lengths` says and all of them over and over, is seen where that much
/// of it is used. Of a strand that is turned, as the other half of a folded thread is, they come in the opposite order,
/// the last one first. 0 if there is no length to speak of.
pub fn find_shade(lengths: impl Iterator<Item = f64> + Clone, used: f64, is_turned: bool) -> usize {
    let whole: f64 = lengths.clone().sum();
    if !(whole > 0.0 && whole.is_finite() && used.is_finite()) {
        return 0;
    }
    // Turned around, a color begins just before where it ends.
    let along = if is_turned { -used - 1e-9 } else { used };
    let mut left = along.rem_euclid(whole);
    let mut last = 0;
    for (number, length) in lengths.enumerate() {
        if left < length {
            return number;
        }
        left -= length;
        last = number;
    }
    last
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::thread::Model;
    use crate::{Kind, Piece, Rows, total_uses};
    use proptest::prelude::*;

    fn kinds() -> impl Strategy<Value = Vec<(u8, Kind)>> {
        use Kind::{Backward, BackwardForward, Forward, ForwardBackward};
        let kind = prop::sample::select(vec![Forward, Backward, ForwardBackward, BackwardForward]);
        prop::collection::vec((0..4_u8, kind), 0..60)
    }

    proptest! {
        /// What is counted again for every knot, from nothing: the knots of the strand before it, and the rows without one.
        #[test]
        fn what_is_used_before_a_knot_is_the_sum_over_all_that_came_before(steps in kinds()) {
            let taken = TakenThread { working: 11.0, base: 3.0, idle: 0.7, before: 120.0 };
            let piece = Piece::tie(5, steps).unwrap();
            let rows = Rows::new(5).lay(&piece);
            let mut used = UsedThread::new(5, taken);
            for (at, knot) in piece.knots().iter().enumerate() {
                let found = used.tie(rows[at].into(), knot.working, knot.base);
                for (strand, found) in [knot.working, knot.base].into_iter().zip(found) {
                    let (mut sum, mut tied) = (taken.before, Vec::new());
                    for (other, row) in piece.knots()[..at].iter().zip(&rows) {
                        sum += if other.working == strand { taken.working } else { 0.0 };
                        sum += if other.base == strand { taken.base } else { 0.0 };
                        tied.extend([other.working, other.base].contains(&strand).then_some(*row));
                    }
                    sum += (0..rows[at]).filter(|row| !tied.contains(row)).count().to_f64() * taken.idle;
                    prop_assert!((sum - found).abs() < 1e-6, "knot {}: {} for {}", at, found, sum);
                }
            }
        }

        /// And at the end it is what `measure` counts for the whole strand.
        #[test]
        fn after_the_last_row_it_is_what_is_measured(steps in kinds()) {
            let piece = Piece::tie(5, steps).unwrap();
            let (mut laid, figures) = (Rows::new(5), Model::new(0.9).figures(0.0));
            let rows = laid.lay(&piece);
            let mut used = UsedThread::new(5, TakenThread::of(&figures, 0.0));
            for (knot, row) in piece.knots().iter().zip(rows) {
                used.tie(row.into(), knot.working, knot.base);
            }
            let none = Piece::empty(5);
            let uses = total_uses(&piece, &crate::Sets::alike(none.clone()), 1, &none);
            for (strand, of) in (0_u8..).zip(uses) {
                let measured = figures.used(of, laid.height());
                prop_assert!((used.before(strand, laid.height()) - measured).abs() < 1e-6);
            }
        }
    }

    #[test]
    fn a_leader_uses_one_row_for_all_its_knots() {
        let taken = TakenThread { working: 10.0, base: 1.0, idle: 100.0, before: 0.0 };
        let mut used = UsedThread::new(4, taken);
        let found: Vec<f64> = [1, 2, 3].map(|base| used.tie(0, 0, base)[0]).to_vec();
        assert_eq!(found, [0.0, 10.0, 20.0]);
        assert_eq!(used.tie(2, 0, 3), [130.0, 101.0], "row 1 is idle");
    }

    #[test]
    fn a_new_piece_begins_at_the_next_knot_with_what_is_over_at_the_join() {
        let taken = TakenThread { working: 10.0, base: 1.0, idle: 100.0, before: 7.0 };
        let mut used = UsedThread::new(3, taken);
        used.tie(0, 0, 1);
        used.join(0);
        assert_eq!(
            used.tie(4, 0, 1),
            [JOIN_OVER, 7.0 + 1.0 + 300.0],
            "the rows before are those of the old piece"
        );
        assert_eq!(used.tie(6, 0, 2), [JOIN_OVER + 10.0 + 100.0, 7.0 + 600.0]);
        used.join(2);
        assert_eq!(used.tie(6, 0, 2), [JOIN_OVER + 120.0, JOIN_OVER], "in the same row");
        assert_eq!(used.before(2, 7), JOIN_OVER + 1.0);
    }

    #[test]
    fn colors_come_over_and_over_and_backwards_on_the_other_half() {
        let lengths = || [10.0, 20.0, 5.0].into_iter();
        let at = |used: f64| find_shade(lengths(), used, false);
        assert_eq!([0.0, 9.9, 10.0, 29.9, 30.0, 34.9, 35.0, 3510.0].map(at), [0, 0, 1, 1, 2, 2, 0, 1]);
        let turned = |used: f64| find_shade(lengths(), used, true);
        assert_eq!([0.0, 4.9, 5.0, 24.9, 25.0, 34.9, 35.0].map(turned), [2, 2, 1, 1, 0, 0, 2]);
        assert_eq!(find_shade([].into_iter(), 3.0, false), 0);
        assert_eq!(find_shade([0.0, 0.0].into_iter(), 3.0, true), 0);
    }
}
