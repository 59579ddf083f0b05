//! Which colors touch where threads change color along their length: all knots of the band, not of one set alone, for
//! the same knots have other colors each time.

use crate::held::{Held, USUAL_ENDS, USUAL_LENGTH};
use crate::woven::Woven;
use crate::{Extent, Part, PartKind, PatternThread, Place, StartForm};
use knotwright_band::thread::{Figures, TakenThread, UsedThread, find_shade};
use knotwright_band::{Join, Piece, Rows, orders::one_then};
use knotwright_numbers::ToNumber;
use std::collections::BTreeMap;

/// A thread, and which of its colors.
pub(crate) type Shown = (u16, usize);

/// More knots are not looked at: by then most of what touches has touched, and somebody may be writing.
const MOST_KNOTS: usize = 100_000;

/// Pairs of colors of two threads of which knots touch, the smaller number first, each with the step at which they first
/// do. `threads`: those of the pattern in some of its colors.
pub(crate) fn touching_colors(
    woven: &Woven,
    threads: &[PatternThread],
) -> BTreeMap<(Shown, Shown), Option<Place>> {
    let pattern = woven.pattern;
    let Some(figures) = woven.figures() else { return BTreeMap::new() };
    let held = Held::of(pattern, figures, pattern.ends.unwrap_or(USUAL_ENDS), false);
    let taken = TakenThread::of(&figures, held.above);
    let mut look = NeighborSearch {
        woven,
        threads,
        used: UsedThread::new(pattern.strands.len(), taken),
        pieces: (0..=u8::MAX)
            .take(pattern.strands.len())
            .map(|strand| ThreadPiece::first(woven, strand))
            .collect(),
        rows: Rows::new(pattern.strands.len()),
        order: (0..=u8::MAX).take(pattern.strands.len()).collect(),
        last: vec![None; pattern.strands.len()],
        left: MOST_KNOTS,
        found: BTreeMap::new(),
    };
    look.band(&figures);
    look.found
}

/// A piece of thread.
#[derive(Clone, Copy)]
struct ThreadPiece {
    thread: u16,
    /// Whether its colors come in the opposite order: it is the other half of a folded thread.
    is_turned: bool,
}

impl ThreadPiece {
    /// That with which a strand begins.
    fn first(woven: &Woven, strand: u8) -> Self {
        let is_turned = match &woven.pattern.start {
            StartForm::Loose => false,
            StartForm::Folded(pairs) | StartForm::Loop(_, pairs) => {
                pairs.iter().any(|(one, other)| *one.max(other) == strand)
            }
        };
        Self { thread: woven.thread(strand), is_turned }
    }
}

struct NeighborSearch<'a> {
    woven: &'a Woven<'a>,
    threads: &'a [PatternThread],
    used: UsedThread,
    /// By strand, the piece of thread that it is now.
    pieces: Vec<ThreadPiece>,
    rows: Rows,
    order: Vec<u8>,
    /// By gap, the color and the row of its last knot.
    last: Vec<Option<(Shown, u32)>>,
    /// How many more knots are looked at.
    left: usize,
    found: BTreeMap<(Shown, Shown), Option<Place>>,
}

impl NeighborSearch<'_> {
    fn band(&mut self, figures: &Figures) {
        let pattern = self.woven.pattern;
        self.part(&self.woven.opening, 0, pattern.part(PartKind::Opening));
        let wanted = match pattern.extent {
            Extent::Open => USUAL_LENGTH,
            Extent::Length(length) => length,
            Extent::Sets(_) => f64::INFINITY,
        };
        let most = if let Extent::Sets(sets) = pattern.extent { sets.into() } else { u64::MAX };
        let (sets, set) = (self.woven.sets(), pattern.part(PartKind::Set));
        for number in (0..most).take_while(|_| set.is_some()) {
            let before = self.rows.height();
            let is_long = number > 0 && before.to_f64() * figures.pitch >= wanted;
            let Some(piece) = sets.map(|sets| sets.set(number)).filter(|_| !is_long && self.left > 0) else {
                break;
            };
            // The steps of a set that picks strands by color are others each time: then no step is named.
            let part = set.filter(|set| set.piece == *piece);
            self.part(piece, number, part);
            if piece.knots().is_empty() {
                break;
            }
        }
        self.part(&self.woven.closing, 0, pattern.part(PartKind::Closing));
    }

    /// Ties a part; `set`: which set it is, from 0.
    fn part(&mut self, piece: &Piece, set: u64, part: Option<&Part>) {
        if piece.strands() != self.order.len() {
            return;
        }
        let rows = self.rows.lay(piece);
        let mut joins = piece.joins().iter().filter(|join| join.is_in(set)).peekable();
        for (number, (knot, row)) in piece.knots().iter().zip(rows).take(self.left).enumerate() {
            while let Some(join) = joins.next_if(|join| join.knot.to_usize() <= number) {
                self.join(join);
            }
            let [working, base] = [knot.working, knot.base].map(|strand| self.order[usize::from(strand)]);
            let [along, _] = self.used.tie(row.into(), working, base);
            let own = self.shown(working, along);
            let step = part.and_then(|part| Some(part.steps[part.step_of(number.to_u32())?].place));
            self.knot(usize::from(knot.gap), row, own, step);
        }
        joins.for_each(|join| self.join(join));
        self.left = self.left.saturating_sub(piece.knots().len());
        self.order = one_then(&self.order, piece.order());
    }

    fn join(&mut self, join: &Join) {
        let strand = self.order[usize::from(join.strand)];
        self.used.join(strand);
        if let Some(piece) = self.pieces.get_mut(usize::from(strand)) {
            *piece = ThreadPiece { thread: join.thread.unwrap_or(piece.thread), is_turned: false };
        }
    }

    fn knot(&mut self, gap: usize, row: u32, own: Shown, step: Option<Place>) {
        let first = gap.saturating_sub(1);
        for (beside, last) in (first..).zip(&self.last[first..self.last.len().min(gap + 2)]) {
            // Beside it a knot touches if it lies one row higher, in its own gap two rows.
            let reach = if beside == gap { 2 } else { 1 };
            if let Some((other, above)) = *last
                && other.0 != own.0
                && row - above.min(row) <= reach
            {
                self.found.entry((own.min(other), own.max(other))).or_insert(step);
            }
        }
        self.last[gap] = Some((own, row));
    }

    fn shown(&self, strand: u8, used: f64) -> Shown {
        let Some(ThreadPiece { thread, is_turned }) = self.pieces.get(usize::from(strand)).copied() else {
            return (u16::MAX, 0);
        };
        let shades = self.threads.get(usize::from(thread)).map_or(&[][..], |of| &of.shades);
        (thread, find_shade(shades.iter().map(|shade| shade.length), used, is_turned))
    }
}
