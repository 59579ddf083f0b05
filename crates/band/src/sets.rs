//! One set after another.

use crate::orders::{one_then, tied_over};
use crate::{MOST_KNOTS, Piece};
use knotwright_numbers::ToNumber;
use rustc_hash::FxHashMap as HashMap;

/// What is tied in the first set, the second, and so on without end.
///
/// Sets that pick strands by position are all alike. If strands are picked by color, the knots of a set depend on how
/// the colors hang as it begins; sooner or later that comes again, and the same sets from there on. Each set's strands
/// are named by their position as that set begins.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sets {
    run_in: Vec<Piece>,
    period: Vec<Piece>,
}

/// Why the sets are not known.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum SetsError<E> {
    /// A set cannot be tied.
    Set {
        /// Which, counted from 0.
        set: usize,
        /// What the one who ties it says.
        error: E,
    },
    /// A set has another number of strands than the order.
    OtherWidth {
        /// Which, counted from 0.
        set: usize,
    },
    /// Tied so far without the colors coming back to where they were before.
    TooLong {
        /// How many sets.
        sets: usize,
    },
}

impl Sets {
    /// The most sets that are looked at before the colors hang as they did before.
    pub const MOST_DIFFERENT: usize = 100_000;

    /// The same set every time.
    pub fn alike(set: Piece) -> Self {
        Self { run_in: Vec::new(), period: vec![set] }
    }

    /// Sets that depend on how the colors hang.
    ///
    /// `colors`: by position, the color that hangs there as the first set begins. `tie` is given these colors as a set
    /// begins and ties that set.
    ///
    /// # Errors
    /// [`SetsError`]: what `tie` says, or that [`Sets::MOST_DIFFERENT`] sets or [`MOST_KNOTS`] knots were not enough.
    pub fn by_color<E>(
        colors: &[u16],
        mut tie: impl FnMut(&[u16]) -> Result<Piece, E>,
    ) -> Result<Self, SetsError<E>> {
        let mut seen = HashMap::default();
        let mut sets: Vec<Piece> = Vec::new();
        let mut hang = colors.to_vec();
        let mut knots = 0;
        loop {
            if let Some(&first) = seen.get(&hang) {
                let period = sets.split_off(first);
                return Ok(Self { run_in: sets, period });
            }
            if sets.len() == Self::MOST_DIFFERENT || knots > MOST_KNOTS {
                return Err(SetsError::TooLong { sets: sets.len() });
            }
            let set = tie(&hang).map_err(|error| SetsError::Set { set: sets.len(), error })?;
            if set.strands() != hang.len() {
                return Err(SetsError::OtherWidth { set: sets.len() });
            }
            let after = set.threads_after(&hang);
            seen.insert(std::mem::replace(&mut hang, after), sets.len());
            knots += set.knots().len();
            sets.push(set);
        }
    }

    /// The sets before the ones that come again and again; none if sets are alike.
    pub fn run_in(&self) -> &[Piece] {
        &self.run_in
    }

    /// The sets that come again and again, at least one.
    pub fn period(&self) -> &[Piece] {
        &self.period
    }

    /// A set, counted from 0.
    pub fn set(&self, number: u64) -> &Piece {
        let first = self.first_like(number);
        self.run_in.get(first).unwrap_or_else(|| &self.period[first - self.run_in.len()])
    }

    /// The first set that is tied like set `number`, both counted from 0.
    pub fn first_like(&self, number: u64) -> usize {
        match usize::try_from(number) {
            Ok(number) if number < self.run_in.len() => number,
            _ => self.run_in.len() + self.periods(number).1,
        }
    }

    /// By position, which strand hangs there after `sets` sets; strands are named by their position as the first
    /// begins. Takes time in proportion to the strands and the sets that differ.
    pub fn order_after(&self, sets: u64) -> Vec<u8> {
        let (whole, rest) = self.periods(sets);
        let mut order: Vec<u8> = (0..self.period[0].strands().to_u8()).collect();
        for piece in self.run_in.iter().take(usize::try_from(sets).unwrap_or(usize::MAX)) {
            order = one_then(&order, piece.order());
        }
        order = one_then(&order, &tied_over(&self.period_order(), whole));
        for piece in &self.period[..rest] {
            order = one_then(&order, piece.order());
        }
        order
    }

    /// By position, the color that hangs there after `sets` sets; `colors`: as the first begins.
    pub fn threads_after(&self, colors: &[u16], sets: u64) -> Vec<u16> {
        if !self.run_in.iter().chain(&self.period).any(Piece::changes_threads) {
            let color = |&strand: &u8| colors.get(usize::from(strand)).copied().unwrap_or(u16::MAX);
            return self.order_after(sets).iter().map(color).collect();
        }
        let (mut hang, mut seen) = (colors.to_vec(), HashMap::default());
        let mut number = 0;
        while number < sets {
            // What comes again, at the same set of a period, is not gone through again.
            let (_, within) = self.periods(number);
            if number >= self.run_in.len().to_u64()
                && let Some(before) = seen.insert((within, hang.clone()), number)
            {
                let round: u64 = number - before;
                number += (sets - number) / round * round;
                seen.clear();
                if number == sets {
                    break;
                }
            }
            hang = self.set(number).threads_after(&hang);
            number += 1;
        }
        hang
    }

    /// The order that all sets of the period, tied once, lead to.
    pub(crate) fn period_order(&self) -> Vec<u8> {
        let start = self.period[0].order().to_vec();
        self.period[1..].iter().fold(start, |order, piece| one_then(&order, piece.order()))
    }

    /// How many whole periods `sets` sets contain after the run-in, and how many sets come after those.
    pub(crate) fn periods(&self, sets: u64) -> (u64, usize) {
        let after = sets.saturating_sub(self.run_in.len().to_u64());
        let length = self.period.len().to_u64();
        (after / length, (after % length).to_usize())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Kind::Forward;
    use std::convert::Infallible;

    /// Takes the leftmost strand of color 1 to the right edge.
    fn first_of_color_1(colors: &[u16]) -> Result<Piece, Infallible> {
        let at = colors.iter().position(|&color| color == 1).unwrap_or(0).to_u8();
        let last = colors.len().to_u8() - 1;
        Ok(Piece::tie(colors.len(), (at..last).map(|gap| (gap, Forward))).unwrap())
    }

    #[test]
    fn sets_that_pick_by_color_have_a_run_in_and_a_period() {
        // 1 1 0 0 -> 1 0 0 1 -> 0 0 1 1 -> 0 0 1 1 (the strands change places, the colors do not).
        let sets = Sets::by_color(&[1, 1, 0, 0], first_of_color_1).unwrap();
        assert_eq!((sets.run_in().len(), sets.period().len()), (2, 1));
        assert_eq!(sets.order_after(2), [2, 3, 0, 1]);
        assert_eq!(sets.order_after(3), [2, 3, 1, 0]);
        assert_eq!(sets.order_after(1_000_000_000_000), [2, 3, 0, 1]);
    }

    #[test]
    fn a_set_tied_over_and_over_leads_where_tying_it_leads() {
        let sets = Sets::by_color(&[0, 1, 0, 1, 1], first_of_color_1).unwrap();
        let mut all = Piece::empty(5);
        for number in 0..12 {
            assert_eq!(sets.order_after(number), all.order(), "after {number}");
            all = all.then(sets.set(number)).unwrap();
        }
    }

    #[test]
    fn a_set_that_cannot_be_tied_is_named() {
        let mut left = 2;
        let tie = |colors: &[u16]| {
            left -= 1;
            let at = left.to_u8();
            if left > 0 { Ok(Piece::tie(colors.len(), [(at, Forward)]).unwrap()) } else { Err("no") }
        };
        assert_eq!(Sets::by_color(&[0, 1, 2], tie), Err(SetsError::Set { set: 1, error: "no" }));
    }
}
