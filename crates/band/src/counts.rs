//! How often each strand is tied, works, and lies idle.

use crate::orders::find_cycles;
use crate::{Piece, Sets};
use knotwright_numbers::ToNumber;

/// What one strand does in some piece of band.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Use {
    /// Knots it ties.
    pub working: u64,
    /// Knots tied over it.
    pub base: u64,
    /// Rows in which it has a knot: one for each brick, one for all its knots in a straight row.
    pub tied_rows: u64,
    /// How far it runs through beads, in micrometers.
    pub in_beads: u64,
}

impl Use {
    /// Rows in which the strand is not tied, in a band of `height` rows: above its first knot, between its knots
    /// and below the last. (In a brick row a strand has one knot at most; at the edges it misses every second row.)
    pub fn idle_rows(self, height: u64) -> u64 {
        height.saturating_sub(self.tied_rows)
    }

    fn add(&mut self, other: Self, times: u64) {
        self.working += other.working * times;
        self.base += other.base * times;
        self.tied_rows += other.tied_rows * times;
        self.in_beads += other.in_beads * times;
    }
}

/// By strand, what it does in a piece; strands are named by their position as it begins.
pub fn count_uses(piece: &Piece) -> Vec<Use> {
    // Strands are bytes, so that no index needs to be tested.
    let (mut working, mut base) = ([0_u32; 256], [0_u32; 256]);
    for knot in piece.knots() {
        working[usize::from(knot.working)] += 1;
        base[usize::from(knot.base)] += 1;
    }
    let of = |(&working, &base): (&u32, &u32)| {
        let (working, base) = (u64::from(working), u64::from(base));
        Use { working, base, tied_rows: working + base, in_beads: 0 }
    };
    let mut uses: Vec<Use> = working.iter().zip(&base).take(piece.strands()).map(of).collect();
    for range in piece.straight() {
        once_a_row(&mut uses, &piece.knots()[range.start.to_usize()..range.end.to_usize()]);
    }
    uses
}

/// Takes back all but one tied row of each strand of a straight row.
fn once_a_row(uses: &mut [Use], knots: &[crate::Knot]) {
    let mut seen = [false; 256];
    for strand in knots.iter().flat_map(|knot| [knot.working, knot.base]) {
        let again = std::mem::replace(&mut seen[usize::from(strand)], true);
        uses[usize::from(strand)].tied_rows -= u64::from(again);
    }
}

/// By strand, what it does in an opening, a number of sets and a closing. Strands are named by their position as
/// the opening begins; `closing` is tied as it comes after those sets. Pieces of another width are left out.
///
/// Takes time in proportion to the knots of the pieces and to the strands, however many sets there are: the strand at
/// a place of a round does there, and on the places that follow, what sums along the round say.
pub fn total_uses(opening: &Piece, sets: &Sets, times: u64, closing: &Piece) -> Vec<Use> {
    total_uses_with(TiedPieces { opening, sets, closing }, times, |_, piece| count_uses(piece))
}

/// Which piece of a band it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PieceOf {
    /// Tied once, at the start.
    Opening,
    /// The set of that number, one of those that differ.
    Set(usize),
    /// Tied once, at the end.
    Closing,
}

/// What a band is tied from.
#[derive(Debug, Clone, Copy)]
pub struct TiedPieces<'a> {
    /// Tied once, at the start.
    pub opening: &'a Piece,
    /// Tied over and over.
    pub sets: &'a Sets,
    /// Tied once, at the end.
    pub closing: &'a Piece,
}

/// As [`total_uses`], where `count` says what the strands do in a piece.
pub fn total_uses_with(
    TiedPieces { opening, sets, closing }: TiedPieces<'_>,
    times: u64,
    count: impl Fn(PieceOf, &Piece) -> Vec<Use>,
) -> Vec<Use> {
    let counted = |number: usize, set| Counted { piece: set, uses: count(PieceOf::Set(number), set) };
    let mut total = count(PieceOf::Opening, opening);
    let mut order = opening.order().to_vec();
    let run_in = sets.run_in().iter().enumerate().take(usize::try_from(times).unwrap_or(usize::MAX));
    run_in.for_each(|(number, set)| follow(&mut total, &mut order, &counted(number, set)));
    let first = sets.run_in().len();
    let period: Vec<Counted> =
        sets.period().iter().enumerate().map(|(number, set)| counted(first + number, set)).collect();
    let (whole, rest) = sets.periods(times);
    if sets.period()[0].strands() == order.len() && whole > 0 {
        follow_periods(&mut total, &mut order, &period, whole);
    }
    period[..rest].iter().for_each(|set| follow(&mut total, &mut order, set));
    follow(&mut total, &mut order, &Counted { piece: closing, uses: count(PieceOf::Closing, closing) });
    total
}

/// A piece, and what the strands do in it.
struct Counted<'a> {
    piece: &'a Piece,
    uses: Vec<Use>,
}

/// Adds what the strands do in a piece that follows when they hang in `order`.
fn follow(total: &mut [Use], order: &mut Vec<u8>, counted: &Counted) {
    if counted.piece.strands() != order.len() {
        return;
    }
    for (position, more) in counted.uses.iter().enumerate() {
        total[usize::from(order[position])].add(*more, 1);
    }
    *order = crate::orders::one_then(order, counted.piece.order());
}

/// Adds what the strands do in `times` whole periods.
fn follow_periods(total: &mut [Use], order: &mut Vec<u8>, period: &[Counted], times: u64) {
    let mut once = vec![Use::default(); order.len()];
    let mut within: Vec<u8> = (0..order.len().to_u8()).collect();
    period.iter().for_each(|set| follow(&mut once, &mut within, set));
    for round in find_cycles(&within) {
        for (at, sum) in sums_along(&round, &once, times).into_iter().enumerate() {
            total[usize::from(order[usize::from(round[at])])].add(sum, 1);
        }
    }
    *order = crate::orders::one_then(order, &crate::orders::tied_over(&within, times));
}

/// By place of a round, the sum of `once` over the `times` places that begin there.
fn sums_along(round: &[u8], once: &[Use], times: u64) -> Vec<Use> {
    let (whole, rest) = (times / round.len().to_u64(), (times % round.len().to_u64()).to_usize());
    let at = |&position: &u8| once[usize::from(position)];
    let mut sum = Use::default();
    round.iter().for_each(|position| sum.add(at(position), whole));
    round[..rest].iter().for_each(|position| sum.add(at(position), 1));
    let mut sums = Vec::with_capacity(round.len());
    for (gone, new) in round.iter().zip(round.iter().cycle().skip(rest)) {
        sums.push(sum);
        let (gone, new) = (at(gone), at(new));
        sum = Use {
            working: sum.working + new.working - gone.working,
            base: sum.base + new.base - gone.base,
            tied_rows: sum.tied_rows + new.tied_rows - gone.tied_rows,
            in_beads: sum.in_beads + new.in_beads - gone.in_beads,
        };
    }
    sums
}
