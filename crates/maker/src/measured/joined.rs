//! Strands that go on with a new piece of thread: how long each of their pieces is.
//!
//! The band is laid knot by knot, and what a strand has done is noted where the knot lies that holds its next piece. A strand
//! of several pieces uses what a strand of one piece would; each piece is longer by what is left over at its joins.

use super::Held;
use crate::LengthUnit;
use crate::whole_band::WholeBand;
use knotwright_band::orders::one_then;
use knotwright_band::thread::{Figures, JOIN_OVER, StrandLength};
use knotwright_band::{Join, Knot, Piece, Rows, Use};
use knotwright_checker::Pattern;
use knotwright_numbers::ToNumber;

/// A band of more knots is not followed join by join.
pub(super) const MOST_KNOTS: u64 = 5_000_000;

/// One piece of a strand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StrandPiece {
    /// The strand, by where it hangs at the start.
    pub strand: u8,
    /// Which piece of it, from 0.
    pub number: u32,
    /// Its thread.
    pub thread: u16,
    /// How much it needs, with what is left over at its joins.
    pub need: StrandLength,
    /// How long it is cut.
    pub cut: f64,
}

/// What a strand has done from one row to another.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct PieceUse {
    /// Its knots.
    pub used: Use,
    /// How many rows.
    pub rows: u64,
}

impl PieceUse {
    /// What comes of it after an earlier one with the same beginning.
    pub(super) fn since(self, earlier: Self) -> Self {
        let used = Use {
            working: self.used.working - earlier.used.working,
            base: self.used.base - earlier.used.base,
            tied_rows: self.used.tied_rows - earlier.used.tied_rows,
            in_beads: self.used.in_beads - earlier.used.in_beads,
        };
        Self { used, rows: self.rows - earlier.rows }
    }
}

/// A strand while the band is laid.
#[derive(Debug, Clone, Default)]
pub(super) struct Followed {
    /// What its present piece has done.
    used: Use,
    /// The row in which that began.
    from: u64,
    /// The last row in which it is tied.
    last: Option<u64>,
    /// The thread it goes on with at its next knot.
    pending: Option<u16>,
    thread: u16,
    done: Vec<(u16, PieceUse)>,
}

impl Followed {
    fn of(thread: u16) -> Self {
        Self { thread, ..Self::default() }
    }

    /// What its present piece has done before a knot in that row.
    pub(super) fn before(&self, row: u64) -> PieceUse {
        let begins = row + u64::from(self.last == Some(row));
        PieceUse { used: self.used, rows: begins.saturating_sub(self.from) }
    }

    /// How many pieces it has behind it; `None` if the next one begins at its next knot.
    pub(super) fn pieces_before(&self) -> Option<usize> {
        self.pending.is_none().then_some(self.done.len())
    }

    /// Begins a new piece at a knot in that row.
    fn cut(&mut self, row: u64, thread: u16) {
        let stretch = self.before(row);
        self.done.push((self.thread, stretch));
        (self.thread, self.used, self.from) = (thread, Use::default(), self.from + stretch.rows);
    }

    fn tie(&mut self, row: u64, works: bool) {
        if let Some(thread) = self.pending.take() {
            self.cut(row, thread);
        }
        let knots = if works { &mut self.used.working } else { &mut self.used.base };
        *knots += 1;
        if self.last.replace(row) != Some(row) {
            self.used.tied_rows += 1;
        }
    }

    /// All its pieces in a band of that many rows.
    fn finish(mut self, rows: u64) -> Vec<(u16, PieceUse)> {
        let last = PieceUse { used: self.used, rows: rows.saturating_sub(self.from) };
        self.done.push((self.thread, last));
        self.done
    }
}

/// A knot as the band is laid; strands are those of the whole band.
pub(super) struct LaidKnot {
    /// Which set, from 0, if it is one of a set.
    pub(super) set: u64,
    /// Its number in its part.
    pub(super) number: u32,
    pub(super) row: u64,
    pub(super) knot: Knot,
}

/// Lays a band knot by knot, and follows its strands.
pub(super) struct LaidBand {
    pub(super) strands: Vec<Followed>,
    order: Vec<u8>,
    rows: Rows,
}

impl LaidBand {
    pub(super) fn new(pattern: &Pattern) -> Self {
        let strands: Vec<Followed> = pattern.strands.iter().map(|thread| Followed::of(*thread)).collect();
        let order = (0..strands.len().to_u8()).collect();
        Self { rows: Rows::new(strands.len()), strands, order }
    }

    /// Lays a part; `before` sees each knot before it is tied.
    pub(super) fn part(
        &mut self,
        piece: &Piece,
        set: u64,
        mut before: impl FnMut(&mut [Followed], &LaidKnot),
    ) {
        let base = self.rows.lay(piece);
        let mut joins = piece.joins().iter().filter(|join| join.is_in(set)).peekable();
        for ((number, knot), row) in (0..).zip(piece.knots()).zip(base) {
            while let Some(join) = joins.next_if(|join| join.knot <= number) {
                self.join(join);
            }
            let name = |strand: u8| self.order[usize::from(strand)];
            let knot = Knot { working: name(knot.working), base: name(knot.base), ..*knot };
            let laid = LaidKnot { set, number, row: row.into(), knot };
            before(&mut self.strands, &laid);
            self.strands[usize::from(knot.working)].tie(laid.row, true);
            self.strands[usize::from(knot.base)].tie(laid.row, false);
        }
        joins.for_each(|join| self.strands[usize::from(self.order[usize::from(join.strand)])].join(join));
        self.order = one_then(&self.order, piece.order());
    }

    fn join(&mut self, join: &Join) {
        let strand = self.order[usize::from(join.strand)];
        self.strands[usize::from(strand)].join(join);
    }
}

impl Followed {
    fn join(&mut self, join: &Join) {
        self.pending = Some(join.thread.or(self.pending).unwrap_or(self.thread));
    }
}

/// Whether strands are joined somewhere.
pub(super) fn has_joins(whole: &WholeBand) -> bool {
    let pieces = [&whole.opening, &whole.closing].into_iter();
    pieces.chain(whole.sets.run_in()).chain(whole.sets.period()).any(|piece| !piece.joins().is_empty())
}

/// By strand, its pieces, the first one first; `None` if the band has too many knots to follow.
pub(super) fn stretches(pattern: &Pattern, whole: &WholeBand) -> Option<Vec<Vec<(u16, PieceUse)>>> {
    if !has_joins(whole) {
        let single =
            |(used, thread): (&Use, &u16)| vec![(*thread, PieceUse { used: *used, rows: whole.rows })];
        return Some(whole.uses.iter().zip(&pattern.strands).map(single).collect());
    }
    let following = follow(pattern, whole, |_, _, _| {})?;
    let mut all: Vec<Vec<(u16, PieceUse)>> =
        following.strands.into_iter().map(|strand| strand.finish(whole.rows)).collect();
    // What beads take is a few millimeters; it is all in the first piece.
    for (pieces, used) in all.iter_mut().zip(&whole.uses) {
        pieces.iter_mut().take(1).for_each(|(_, first)| first.used.in_beads = used.in_beads);
    }
    Some(all)
}

/// Which part a knot is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum PartLaid {
    Opening,
    Set,
    Closing,
}

/// Lays the whole band; `None` if it has too many knots.
pub(super) fn follow(
    pattern: &Pattern,
    whole: &WholeBand,
    mut before: impl FnMut(&mut [Followed], PartLaid, &LaidKnot),
) -> Option<LaidBand> {
    let times = whole.times.unwrap_or(1);
    let longest = whole.sets.run_in().iter().chain(whole.sets.period()).map(|set| set.knots().len());
    let knots = longest.max().unwrap_or(0).to_u64().saturating_mul(times);
    if knots > MOST_KNOTS {
        return None;
    }
    let mut following = LaidBand::new(pattern);
    following.part(&whole.opening, 0, |strands, knot| before(strands, PartLaid::Opening, knot));
    for set in 0..times {
        following.part(whole.sets.set(set), set, |strands, knot| before(strands, PartLaid::Set, knot));
    }
    following.part(&whole.closing, 0, |strands, knot| before(strands, PartLaid::Closing, knot));
    Some(following)
}

/// What a piece has at its two ends: what the ends of the band take, or what is over at a join.
pub(super) fn piece_ends(held: &Held, is_first: bool, is_last: bool) -> f64 {
    let end = |is_one: bool, held: f64| if is_one { held } else { JOIN_OVER };
    end(is_first, held.above) + end(is_last, held.below)
}

/// By strand, its pieces as they are cut.
pub(super) fn cut_pieces(
    stretches: &[Vec<(u16, PieceUse)>],
    figures: Figures,
    held: &Held,
    unit: LengthUnit,
) -> Vec<Vec<StrandPiece>> {
    let of_strand = |(strand, pieces): (u8, &Vec<(u16, PieceUse)>)| {
        let piece = |(number, (thread, stretch)): (usize, &(u16, PieceUse))| {
            let ends = piece_ends(held, number == 0, number + 1 == pieces.len());
            let need = figures.length(stretch.used, stretch.rows, ends);
            let cut = unit.to_cut(need.high);
            StrandPiece { strand, number: number.to_u32(), thread: *thread, need, cut }
        };
        pieces.iter().enumerate().map(piece).collect()
    };
    (0..).zip(stretches).map(of_strand).collect()
}
