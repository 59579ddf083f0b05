//! A text read as if one thing in it were written otherwise.

use super::Tie;
use crate::Place;
use knotwright_grammar::Span;
use knotwright_grammar::tree::{KnotKind, Sign};

/// One thing that is read otherwise than it is written.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Overlay {
    /// The number, the kind, the mark, or what names a side.
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

    /// Whether left and right change places in what stands at `span`.
    pub(super) fn is_turned(&self, span: Span) -> bool {
        self.change_at(span) == Some(Change::Side)
    }
}
