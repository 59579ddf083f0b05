//! Charts: rows in bricks, and the straight rows of a leader, as marks or as letters.

use super::{Done, Halt, Tie};
use crate::{Event, FactKind, Named, Phrase};
use knotwright_band::Kind;
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Chart, ChartRow, LeaderChart, Letters, Mark, Name, Sign, StrandRef};
use knotwright_lettering::Lettering;
use knotwright_numbers::ToNumber;

impl<'a> Tie<'a> {
    /// `rows`: pairs 1-2, 3-4, ... then 2-3, 4-5, ... in turn.
    pub(super) fn rows(&mut self, chart: &'a Chart, offset: bool) -> Done {
        let width = self.frame.width();
        let mut offset = self.offset_as_read(chart, offset);
        for (number, row) in self.rows_as_read(chart).into_iter().enumerate() {
            self.spend()?;
            let first = if (number % 2 == 1) != offset { 2 } else { 1 };
            let wanted = (width + 1 - first) / 2;
            if !self.is_tieable(row, wanted) {
                // With a row too many or too few before it, each further one is as long as its neighbor should be: that is
                // one mistake.
                offset ^=
                    row.whole && row.marks.len() != wanted && row.marks.len() == (width - 2 + first) / 2;
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
            // The others are refused by the grammar already.
            Sign::Dot | Sign::Hash | Sign::Any | Sign::Letter(_) => return,
        };
        self.mark_knot(gap, if self.frame.mirrored { kind.mirrored() } else { kind });
    }

    fn mark_knot(&mut self, gap: usize, kind: Kind) {
        self.strands.tie(gap.to_u8(), kind);
        self.log.run(kind, 1, self.strands.knots().len());
    }

    /// `leader`: a strand at an edge goes across all others, row by row, to and fro.
    pub(super) fn leader(&mut self, LeaderChart { strand, promise, chart }: &'a LeaderChart) -> Done {
        let mut at = None;
        if !self.is_blind() {
            at = Some(self.lead(strand, promise.as_ref())?);
        }
        for row in self.rows_as_read(chart) {
            self.spend()?;
            if let Some(letters) = &row.letters {
                at = self.letters(row.span, letters, at)?;
                continue;
            }
            let wanted = self.frame.width() - 1;
            let tieable = self.is_tieable(row, wanted);
            if let Some(from) = at.filter(|_| tieable) {
                let leads = |tie: &Self, column: usize| {
                    let mark = &row.marks[column];
                    tie.mark_as_read(mark.offset, mark.sign) == Sign::Dot
                };
                at = Some(self.leader_row(row.span, from, leads)?);
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

    /// The rows of letters, each letter a section of its own. The leader comes back, so that letters which cannot be laid
    /// leave all strands where they are, and what follows is read as if they were tied.
    fn letters(&mut self, span: Span, letters: &Letters, at: Option<usize>) -> Done<Option<usize>> {
        let Letters { text, across, height } = letters;
        let wanted = Lettering {
            text: &text.value,
            across: across.is_some(),
            height: height.map(|height| height.value.to_usize()),
        };
        let laid = match wanted.lay(self.frame.width() - 1) {
            Ok(laid) => laid,
            Err(trouble) => {
                let place = height.filter(|_| trouble.is_of_height()).map_or(text.span, |height| height.span);
                self.say(place, FactKind::CannotLetter { trouble });
                return Ok(at);
            }
        };
        let Some(mut at) = at.filter(|_| !self.is_blind()) else { return Ok(at) };
        for letter in &laid.letters {
            let is_space = letter.text.trim().is_empty();
            if !is_space {
                self.event(|| Event::Section(Box::new(Phrase::from(letter.text.as_str()))));
            }
            for row in &letter.rows {
                self.spend()?;
                at = self.leader_row(span, at, |_, column| !row[column])?;
            }
            if !is_space {
                self.event(|| Event::SectionEnd);
            }
        }
        Ok(Some(at))
    }

    /// One row from edge to edge. Columns are those of the finished face, from left to right, in every row; `leads` says
    /// of each, counted from 0, whether the leader ties.
    fn leader_row(&mut self, row: Span, from: usize, leads: impl Fn(&Self, usize) -> bool) -> Done<usize> {
        let width = self.frame.width();
        self.afford(width - 1)?;
        self.begin(row, from, Named::Leader);
        let before = self.strands.knots().len();
        let rightward = from == self.frame.low;
        for step in 0..width - 1 {
            let gap = if rightward { from + step } else { from - step - 1 };
            let local = self.frame.local(gap).min(self.frame.local(gap + 1));
            let kind = if leads(self, local - 1) == rightward { Kind::Forward } else { Kind::Backward };
            self.mark_knot(gap, kind);
        }
        self.strands.lay_straight(before);
        Ok(if rightward { self.frame.high } else { self.frame.low })
    }
}
