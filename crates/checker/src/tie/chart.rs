//! Charts: rows in bricks, and the straight rows of a leader.

use super::{Done, Halt, Tie};
use crate::{FactKind, Named};
use knotwright_band::Kind;
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Chart, ChartRow, Mark, Name, Sign, StrandRef};

impl<'a> Tie<'a> {
    /// `rows`: pairs 1-2, 3-4, ... then 2-3, 4-5, ... in turn.
    pub(super) fn rows(&mut self, chart: &'a Chart, offset: bool) -> Done {
        let width = self.frame.width();
        for (number, row) in chart.rows.iter().enumerate() {
            self.spend()?;
            let first = if (number % 2 == 1) != offset { 2 } else { 1 };
            let wanted = (width + 1 - first) / 2;
            if !self.is_tieable(row, wanted) {
                continue;
            }
            self.afford(wanted)?;
            self.begin(row.span, self.frame.low, Named::Row);
            for (pair, mark) in row.marks.iter().enumerate() {
                let local = first + 2 * pair;
                let gap = self.frame.position(local).min(self.frame.position(local + 1));
                self.recover_mark(mark, gap);
            }
        }
        Ok(())
    }

    /// Whether a row can be tied: read whole, as many marks as there are pairs, and the strands known.
    fn is_tieable(&mut self, row: &ChartRow, wanted: usize) -> bool {
        let marks = row.marks.len();
        if row.whole && marks != wanted {
            let width = self.frame.width();
            self.say(row.span, FactKind::RowLength { marks, wanted, width });
        }
        let tieable = row.whole && marks == wanted && !self.is_blind();
        if !tieable {
            self.lose();
        }
        tieable
    }

    fn recover_mark(&mut self, mark: &Mark, gap: usize) {
        let kind = match self.mark_as_read(mark.offset, mark.sign) {
            Sign::Forward => Kind::Forward,
            Sign::Backward => Kind::Backward,
            Sign::ForwardBackward => Kind::ForwardBackward,
            Sign::BackwardForward => Kind::BackwardForward,
            Sign::Same => {
                self.same_color(Span { start: mark.offset, end: mark.offset + 1 }, gap);
                return self.mark_knot(gap, Kind::Forward);
            }
            // A `#` is refused by the grammar already.
            Sign::Dot | Sign::Hash => return,
        };
        self.mark_knot(gap, if self.frame.mirrored { kind.mirrored() } else { kind });
    }

    fn mark_knot(&mut self, gap: usize, kind: Kind) {
        self.strands.knot(gap, kind);
        self.log.run(kind, 1, self.strands.knots().len());
    }

    /// `leader`: a strand at an edge goes across all others, row by row, to and fro.
    pub(super) fn leader(
        &mut self,
        strand: &'a StrandRef,
        promise: Option<&'a Name>,
        chart: &'a Chart,
    ) -> Done {
        let mut at = None;
        if !self.is_blind() {
            at = Some(self.lead(strand, promise)?);
        }
        for row in &chart.rows {
            self.spend()?;
            let wanted = self.frame.width() - 1;
            let tieable = self.is_tieable(row, wanted);
            if let Some(from) = at.filter(|_| tieable) {
                at = Some(self.leader_row(row, from)?);
            }
        }
        Ok(())
    }

    /// The leader's position: one of the two edges.
    fn lead(&mut self, strand: &'a StrandRef, promise: Option<&'a Name>) -> Done<usize> {
        let (at, _) = self.strand(strand)?;
        if at != self.frame.low && at != self.frame.high {
            let (position, width) = (self.frame.local(at), self.frame.width());
            self.say(strand.span, FactKind::LeaderNotAtEdge { position, width });
            return Err(Halt::Lost);
        }
        if let Some(promise) = promise {
            self.promise(promise, at);
        }
        Ok(at)
    }

    /// One row from edge to edge. Columns are those of the finished face, from left to right, in every row.
    fn leader_row(&mut self, row: &ChartRow, from: usize) -> Done<usize> {
        let width = self.frame.width();
        self.afford(width - 1)?;
        self.begin(row.span, from, Named::Leader);
        let before = self.strands.knots().len() as u32;
        let rightward = from == self.frame.low;
        for step in 0..width - 1 {
            let gap = if rightward { from + step } else { from - step - 1 };
            let local = self.frame.local(gap).min(self.frame.local(gap + 1));
            let mark = &row.marks[local - 1];
            let leads = self.mark_as_read(mark.offset, mark.sign) == Sign::Dot;
            let kind = if leads == rightward { Kind::Forward } else { Kind::Backward };
            self.mark_knot(gap, kind);
        }
        if self.limits.keep {
            self.log.straight.push(before..self.strands.knots().len() as u32);
        }
        Ok(if rightward { self.frame.high } else { self.frame.low })
    }
}
