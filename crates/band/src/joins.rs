//! Where strands go on with a new piece of thread, and with which.

use crate::Piece;
use knotwright_numbers::ToNumber;

/// A strand that goes on with a new piece of thread. Nothing of the knots changes by it, only the thread that they are
/// tied of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Join {
    /// How many knots of the piece are tied before.
    pub knot: u32,
    /// The strand, by its position as the piece begins.
    pub strand: u8,
    /// The thread that it is from here on, if that is another one.
    pub thread: Option<u16>,
    /// The only set in which it is joined, counted from 0; in each, if it is not said.
    pub set: Option<u64>,
}

/// A join, however the knots are ordered: the strand, how many of its knots come before, and the thread and the set that the
/// join says.
pub type JoinMark = (u8, u32, Option<u16>, Option<u64>);

impl Join {
    /// Whether it is joined in the set of that number, counted from 0.
    pub fn is_in(&self, set: u64) -> bool {
        self.set.is_none_or(|only| only == set)
    }
}

impl Piece {
    /// Whether some strand goes on with another thread.
    pub fn changes_threads(&self) -> bool {
        self.joins().iter().any(|join| join.thread.is_some())
    }

    /// By position, the thread that hangs there afterwards; `threads`: as the piece begins. One that is not given is
    /// `T`'s default.
    pub fn threads_after<T: Copy + Default + From<u16>>(&self, threads: &[T]) -> Vec<T> {
        let mut threads = threads.to_vec();
        for join in self.joins() {
            if let (Some(thread), Some(at)) = (join.thread, threads.get_mut(usize::from(join.strand))) {
                *at = thread.into();
            }
        }
        self.order()
            .iter()
            .map(|&strand| threads.get(usize::from(strand)).copied().unwrap_or_default())
            .collect()
    }

    /// Joins in a form that does not depend on the order in which knots are tied.
    pub fn join_marks(&self) -> Vec<JoinMark> {
        let mut marks: Vec<JoinMark> = self.joins().iter().map(|join| self.join_mark(join)).collect();
        marks.sort_unstable();
        marks
    }

    fn join_mark(&self, join: &Join) -> JoinMark {
        let before = &self.knots()[..join.knot.to_usize().min(self.knots().len())];
        let its = before.iter().filter(|knot| knot.working == join.strand || knot.base == join.strand);
        (join.strand, its.count().to_u32(), join.thread, join.set)
    }

    /// The first knot of the strand after a join, by its number.
    pub fn knot_after(&self, join: &Join) -> Option<u32> {
        let from = join.knot.to_usize().min(self.knots().len());
        let is_its = |knot: &crate::Knot| knot.working == join.strand || knot.base == join.strand;
        self.knots()[from..].iter().position(is_its).map(|after| (from + after).to_u32())
    }

    /// By knot, the threads of the strand that ties it and of the one it is tied over; `threads` as the piece begins.
    pub fn threads_of_knots(&self, threads: &[u16]) -> Vec<(u16, u16)> {
        let mut walk = ThreadWalk::new(self, threads);
        let of_knot = |(number, knot): (usize, &crate::Knot)| {
            walk.go_to(number.to_u32());
            (walk.of(knot.working), walk.of(knot.base))
        };
        self.knots().iter().enumerate().map(of_knot).collect()
    }
}

/// The threads of the strands of a piece, from one knot to a later one.
#[derive(Debug, Clone)]
pub struct ThreadWalk<'a> {
    joins: &'a [Join],
    threads: Vec<u16>,
}

impl<'a> ThreadWalk<'a> {
    /// Before the first knot; `threads`: by position as the piece begins.
    pub fn new(piece: &'a Piece, threads: &[u16]) -> Self {
        Self { joins: piece.joins(), threads: threads.to_vec() }
    }

    /// Goes on to the knot of that number. Numbers must not go back.
    #[inline]
    pub fn go_to(&mut self, knot: u32) {
        while let Some((join, rest)) = self.joins.split_first().filter(|(join, _)| join.knot <= knot) {
            if let (Some(thread), Some(at)) = (join.thread, self.threads.get_mut(usize::from(join.strand))) {
                *at = thread;
            }
            self.joins = rest;
        }
    }

    /// The thread of a strand now; `u16::MAX` if there is no such strand.
    #[inline]
    pub fn of(&self, strand: u8) -> u16 {
        self.threads.get(usize::from(strand)).copied().unwrap_or(u16::MAX)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Kind, Tying};

    /// Strands 0, 1, 2: 0 goes right over both, and 1 is joined between the two knots.
    fn joined(thread: Option<u16>) -> Piece {
        let mut tying = Tying::new(3);
        tying.tie_run(0, Kind::Forward, 2).unwrap();
        tying.join(1, thread, None);
        tying.tie_run(0, Kind::Forward, 2).unwrap();
        tying.finish()
    }

    #[test]
    fn a_strand_shows_its_new_thread_from_its_next_knot_on() {
        let piece = joined(Some(7));
        assert_eq!(piece.threads_of_knots(&[4, 5, 6]), [(4, 5), (4, 6), (7, 6), (7, 4)]);
        assert_eq!(piece.threads_after(&[4_u16, 5, 6]), [6, 4, 7]);
        assert_eq!(piece.knot_after(&piece.joins()[0]), Some(2));
        assert_eq!(joined(None).threads_of_knots(&[4, 5, 6]), [(4, 5), (4, 6), (5, 6), (5, 4)]);
    }

    #[test]
    fn joins_go_along_with_their_strand() {
        let piece = joined(Some(7));
        let mirrored = piece.mirrored();
        assert_eq!(mirrored.threads_after(&[6_u16, 5, 4]), [7, 4, 6]);
        let twice = piece.then(&piece).unwrap();
        assert_eq!(
            twice.threads_after(&[4_u16, 5, 6]),
            piece.threads_after(&piece.threads_after(&[4_u16, 5, 6]))
        );
        assert_eq!(twice.joins()[1], Join { knot: 6, strand: 0, thread: Some(7), set: None });
        let other_order = piece.in_order(&[0, 1, 2, 3]);
        assert_eq!(other_order, piece);
    }
}
