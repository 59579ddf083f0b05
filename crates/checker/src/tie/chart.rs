//! Charts: rows in bricks, and the straight rows of a leader, as marks or as letters.

use super::act::Act;
use super::{Done, Halt, Tie};
use crate::{Event, FactKind, Named, Phrase};
use knotwright_band::Kind;
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Chart, ChartRow, LeaderChart, Letters, Mark, Name, Sign, StrandRef};
use knotwright_lettering::Lettering;
use knotwright_numbers::ToNumber;
use std::borrow::Cow;

impl<'a> Tie<'a> {
    /// `rows`: pairs 1-2, 3-4, ... then 2-3, 4-5, ... in turn.
    pub(super) fn rows(&mut self, chart: &'a Chart, offset: bool) -> Done {
        let width = self.frame.width();
        let mut offset = self.offset_as_read(chart, offset);
        let rows = self.rows_as_read(chart);
        let first = |number: usize, offset: bool| if (number % 2 == 1) != offset { 2 } else { 1 };
        let wanted = |first: usize| (width + 1 - first) / 2;
        let mut is_said = false;
        let is_of_others = fits_others(&rows, wanted(first(0, offset)), wanted(first(1, offset)));
        for (number, row) in rows.iter().enumerate() {
            self.spend()?;
            self.study_row(row.span.start);
            let (first, after) = (first(number, offset), first(number + 1, offset));
            if !self.is_tieable(row, wanted(first), is_of_others && is_said) {
                is_said = true;
                // With a row too many or too few before it, each further one is as long as its neighbor should be: that is
                // one mistake. With a mark too many or too few in it, all further ones are as they should be.
                let fits = |next: &Cow<ChartRow>| next.marks.len() == wanted(first);
                offset ^= row.whole
                    && wanted(first) != wanted(after)
                    && row.marks.len() == wanted(after)
                    && rows.get(number + 1).is_none_or(fits);
                continue;
            }
            self.afford(wanted(first))?;
            self.studied_row(row.span, |tie| {
                tie.brick_row(row, first);
                Ok(())
            })?;
        }
        Ok(())
    }

    /// `first`: the strand on the left of its first pair.
    fn brick_row(&mut self, row: &ChartRow, first: usize) {
        self.begin(row.span, self.frame.low, Named::Row);
        for (pair, mark) in row.marks.iter().enumerate() {
            let local = first + 2 * pair;
            let gap = self.frame.position(local).min(self.frame.position(local + 1));
            self.recover_mark(mark, gap);
        }
    }

    /// Whether a row can be tied: read whole, as many marks as there are pairs, and the strands known. `is_said`: what is
    /// wrong with its length was said already.
    fn is_tieable(&mut self, row: &ChartRow, wanted: usize, is_said: bool) -> bool {
        let marks = row.marks.len();
        if row.whole && marks != wanted && !is_said {
            let width = self.frame.width();
            self.say(row.span, FactKind::RowLength { marks, wanted, width });
        }
        let tieable = row.whole && marks == wanted && !self.is_blind();
        if !tieable {
            self.lose();
            self.pass_blindly(row.span.start, self.clock, false);
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
                self.same_color(mark.span(), gap);
                return self.meeting_knot(gap);
            }
            // The others are refused by the grammar already.
            Sign::Dot | Sign::Hash | Sign::Any | Sign::Letter(_) => return,
        };
        self.mark_knot(gap, if self.frame.mirrored { kind.mirrored() } else { kind });
    }

    fn mark_knot(&mut self, gap: usize, kind: Kind) {
        self.study_act(Act::Knot { gap: gap.to_u8(), kind });
        self.knot(gap, kind);
    }

    /// A knot of two of one color.
    pub(super) fn meeting_knot(&mut self, gap: usize) {
        self.study_act(Act::Meet { gap: gap.to_u8() });
        self.knot(gap, Kind::Forward);
    }

    fn knot(&mut self, gap: usize, kind: Kind) {
        self.strands.tie(gap.to_u8(), kind);
        self.log.run(kind, 1, self.strands.knots().len());
    }

    /// `leader`: a strand at an edge goes across all others, row by row, to and fro.
    pub(super) fn leader(&mut self, LeaderChart { strand, promise, chart }: &'a LeaderChart) -> Done {
        let mut at = None;
        if !self.is_blind() {
            at = Some(self.lead(strand, promise.as_ref())?);
        }
        let rows = self.rows_as_read(chart);
        let wanted = self.frame.width() - 1;
        let mut is_said = false;
        let is_of_others = fits_others(&rows, wanted, wanted);
        for row in &rows {
            self.spend()?;
            self.study_row(row.span.start);
            if let Some(letters) = &row.letters {
                at = self.letters(row.span, letters, at)?;
                continue;
            }
            let tieable = self.is_tieable(row, wanted, is_of_others && is_said);
            is_said |= !tieable;
            if let Some(from) = at.filter(|_| tieable) {
                let leads = |tie: &Self, column: usize| {
                    let mark = &row.marks[column];
                    tie.mark_as_read(mark.offset, mark.sign) == Sign::Dot
                };
                at = Some(self.studied_row(row.span, |tie| tie.leader_row(row.span, from, leads))?);
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
        self.study_act(Act::IsAt(at.to_u8()));
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

/// Whether the rows of a chart fit one another, and another number of strands than hang there: then they are all wrong for
/// one and the same reason. `odd` and `even`: how many marks the first row needs, and the second one.
fn fits_others(rows: &[Cow<ChartRow>], odd: usize, even: usize) -> bool {
    let [first, second, ..] = rows else { return false };
    let (first, second) = (first.marks.len(), second.marks.len());
    let by_turns = |(number, row): (usize, &Cow<ChartRow>)| {
        row.letters.is_none() && row.marks.len() == if number.is_multiple_of(2) { first } else { second }
    };
    first.abs_diff(second) <= 1
        && (first, second) != (odd, even)
        && (first, second) != (even, odd)
        && rows.iter().enumerate().all(by_turns)
}
