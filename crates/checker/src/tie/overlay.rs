//! A text read as if one thing in it were written otherwise.

use super::Tie;
use crate::Place;
use crate::resolve::ThreadId;
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Chart, ChartRow, KnotKind, Mark, Sign};
use std::borrow::Cow;

/// One thing that is read otherwise than it is written.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Overlay {
    /// The number, the kind, the mark, the name, what names a side; the row of a chart, its `{`, or the whole statement.
    pub(crate) place: Place,
    pub(crate) change: Change,
}

/// How it is read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Change {
    /// A number, as this one.
    Number(i64),
    /// A kind of knot, as this one.
    Kind(KnotKind),
    /// Left for right, or right for left.
    Side,
    /// A mark of a chart, as this one.
    Mark(Sign),
    /// The name of a thread, as that of this one.
    Thread(ThreadId),
    /// A chart's row, edited.
    Row(RowEdit),
    /// `rows` for `rows offset`, or the other way round; the place is the chart's `{`.
    Offset,
    /// A statement, edited as a whole.
    Statement(StatementEdit),
}

/// What becomes of a row of a chart.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum RowEdit {
    /// It is left out.
    LeftOut,
    /// It and the next one change places.
    Swapped,
    /// A copy of the row of this number is put in before it.
    Before(u16),
    /// A copy of the row of this number is put in after it.
    After(u16),
    /// A mark is put in before the one of this number, or at its end.
    MarkPutIn(u8, Sign),
    /// The mark of this number is left out.
    MarkLeftOut(u8),
}

impl RowEdit {
    /// A row with a mark more or less; `None` if the edit does nothing within it.
    pub(crate) fn within(self, row: &ChartRow) -> Option<ChartRow> {
        let mut row = row.clone();
        match self {
            Self::MarkPutIn(before, sign) if usize::from(before) <= row.marks.len() => {
                let offset = row.marks.get(usize::from(before)).map_or(row.span.end, |mark| mark.offset);
                row.marks.insert(before.into(), Mark { offset, sign });
            }
            Self::MarkLeftOut(at) if usize::from(at) < row.marks.len() => drop(row.marks.remove(at.into())),
            _ => return None,
        }
        Some(row)
    }
}

/// What becomes of a statement.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum StatementEdit {
    /// It is left out.
    LeftOut,
    /// It is tied twice.
    Doubled,
    /// It and the one before it change places.
    Swapped,
    /// Its mirror image is tied after it.
    Both,
    /// Its mirror image is tied instead.
    Mirrored,
    /// Of a `both` or `mirrored` only what is in its braces is tied.
    Plain,
    /// A statement that stands elsewhere is tied before it too.
    CopyBefore(Copied),
    /// A statement that stands elsewhere is tied after it too.
    CopyAfter(Copied),
    /// A step is put in before it.
    Before(Added),
    /// A step is put in after it.
    After(Added),
}

/// A statement of the checked file that is tied once more in another place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Copied {
    /// The byte where it starts.
    pub(crate) start: u32,
    pub(crate) but: CopiedBut,
}

/// What is otherwise in a copy.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum CopiedBut {
    /// Nothing.
    Same,
    /// It is the mirror image.
    Mirrored,
    /// The argument at this span is that thread.
    Argument(Span, ThreadId),
}

/// A step that is put in: one strand, and what it ties. In the middle two of one color meet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Added {
    /// The strand, counted from 1 from the left of the range.
    pub(crate) at: u8,
    /// How many strands the range has; `None` if it has more of them at one time than at another.
    pub(crate) width: Option<u8>,
    pub(crate) runs: InHand,
    /// It is `meet center`.
    pub(crate) meets: bool,
    /// It is in `both { }`.
    pub(crate) both: bool,
}

/// The runs of a strand in hand, one after the other: up to three.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct InHand([(KnotKind, u8); Self::MOST]);

impl InHand {
    pub(crate) const MOST: usize = 3;

    pub(crate) fn one(kind: KnotKind, count: u8) -> Self {
        let none = (kind, 0);
        Self([(kind, count), none, none])
    }

    /// `None` if they are too many.
    pub(crate) fn of(runs: &[(KnotKind, u8)]) -> Option<Self> {
        let mut all = [(KnotKind::Forward, 0); Self::MOST];
        all.get_mut(..runs.len())?.copy_from_slice(runs);
        Some(Self(all))
    }

    pub(crate) fn runs(self) -> impl Iterator<Item = (KnotKind, u8)> {
        self.0.into_iter().filter(|run| run.1 > 0)
    }
}

impl Tie<'_> {
    fn change_at(&self, span: Span) -> Option<Change> {
        let overlay = self.overlay?;
        (overlay.place.span == span && overlay.place.file == self.file).then_some(overlay.change)
    }

    /// The number at `span` as it is to be read.
    pub(super) fn number_as_read(&self, span: Span, written: u32) -> i64 {
        match self.change_at(span) {
            Some(Change::Number(number)) => number,
            _ => i64::from(written),
        }
    }

    pub(super) fn kind_as_read(&self, span: Span, written: KnotKind) -> KnotKind {
        match self.change_at(span) {
            Some(Change::Kind(kind)) => kind,
            _ => written,
        }
    }

    pub(super) fn mark_as_read(&self, offset: u32, written: Sign) -> Sign {
        match self.change_at(Span { start: offset, end: offset + 1 }) {
            Some(Change::Mark(sign)) => sign,
            _ => written,
        }
    }

    /// Whether left and right change places in what is at `span`.
    pub(super) fn is_turned(&self, span: Span) -> bool {
        self.change_at(span) == Some(Change::Side)
    }

    /// Another thread than the one that is named at `span`.
    pub(super) fn thread_as_read(&self, span: Span) -> Option<ThreadId> {
        match self.change_at(span) {
            Some(Change::Thread(thread)) => Some(thread),
            _ => None,
        }
    }

    /// What becomes of the whole statement at `span`.
    pub(super) fn edit_of(&self, span: Span) -> Option<StatementEdit> {
        match self.change_at(span) {
            Some(Change::Statement(edit)) => Some(edit),
            _ => None,
        }
    }

    /// Whether a chart begins with the pairs 2-3, ...
    pub(super) fn offset_as_read(&self, chart: &Chart, written: bool) -> bool {
        written != (self.change_at(chart.open) == Some(Change::Offset))
    }

    /// The rows of a chart as they are to be read.
    pub(super) fn rows_as_read<'c>(&self, chart: &'c Chart) -> Vec<Cow<'c, ChartRow>> {
        let mut rows: Vec<Cow<ChartRow>> = chart.rows.iter().map(Cow::Borrowed).collect();
        let at = chart.rows.iter().position(|row| matches!(self.change_at(row.span), Some(Change::Row(_))));
        let Some((at, Change::Row(edit))) = at.zip(self.overlay.map(|overlay| overlay.change)) else {
            return rows;
        };
        let copied = |number: u16| chart.rows.get(usize::from(number)).map(Cow::Borrowed);
        match edit {
            RowEdit::LeftOut => drop(rows.remove(at)),
            RowEdit::Swapped if at + 1 < rows.len() => rows.swap(at, at + 1),
            RowEdit::Swapped => {}
            RowEdit::Before(number) => rows.splice(at..at, copied(number)).for_each(drop),
            RowEdit::After(number) => rows.splice(at + 1..at + 1, copied(number)).for_each(drop),
            RowEdit::MarkPutIn(..) | RowEdit::MarkLeftOut(_) => {
                rows[at] = edit.within(&chart.rows[at]).map_or(Cow::Borrowed(&chart.rows[at]), Cow::Owned);
            }
        }
        rows
    }
}
