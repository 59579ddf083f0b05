//! Rewrites the text between two tokens.

use crate::breaks::{Breaks, line_end};
use crate::edit::{Edit, Edits};
use crate::piece::{LineStart, Piece};
use crate::plan::Plan;
use crate::spacing::spaces;
use knotwright_grammar::{Span, TokenKind};
use knotwright_numbers::ToNumber;

/// May come before everything else, and stays there.
const BYTE_ORDER_MARK: char = '\u{feff}';

/// The edits that set `text` as planned.
pub(crate) fn edits(text: &str, plan: &Plan) -> Vec<Edit> {
    let mut setter = Setter { text, plan, edits: Edits::new(text) };
    let mut done = if text.starts_with(BYTE_ORDER_MARK) { BYTE_ORDER_MARK.len_utf8().to_u32() } else { 0 };
    for (index, piece) in plan.pieces.iter().enumerate() {
        setter.before(index, Span { start: done, end: piece.span.start });
        done = piece.span.end;
    }
    setter.at_end(Span { start: done, end: text.len().to_u32() });
    setter.edits.done()
}

struct Setter<'a> {
    text: &'a str,
    plan: &'a Plan,
    edits: Edits<'a>,
}

impl Setter<'_> {
    /// Sets the gap before piece `index`.
    fn before(&mut self, index: usize, gap: Span) {
        let piece = &self.plan.pieces[index];
        let breaks = Breaks::find(self.text, gap);
        match (index.checked_sub(1), breaks) {
            // A byte-order mark in the wrong place: at the start of the file it would be in the right one.
            (None, _) if piece.span.of(self.text).starts_with(BYTE_ORDER_MARK) => {}
            (None, None) => self.indent(piece, gap),
            (None, Some(breaks)) => {
                self.edits.replace(Span { start: gap.start, end: breaks.end }, "");
                self.indent(piece, Span { start: breaks.end, end: gap.end });
            }
            (Some(above), None) => self.on_line(&self.plan.pieces[above], piece, gap),
            (Some(above), Some(breaks)) => {
                self.line_tail(&self.plan.pieces[above], Span { start: gap.start, end: breaks.first.start });
                self.blank_lines(index, breaks);
                self.indent(piece, Span { start: breaks.end, end: gap.end });
            }
        }
    }

    /// Sets the gap between two pieces on one line; breaks the line where it must be broken.
    fn on_line(&mut self, before: &Piece, after: &Piece, gap: Span) {
        if self.plan.kept.keeps(after.line) {
            return;
        }
        if after.start == LineStart::Always && !self.plan.held {
            let new = format!("{}{}", line_end(self.text), " ".repeat(after.column));
            self.edits.replace(gap, &new);
        } else {
            self.edits.space(gap, spaces(before, after));
        }
    }

    /// Clears the white space at the end of the line of `last`.
    fn line_tail(&mut self, last: &Piece, tail: Span) {
        if !self.plan.kept.keeps(last.line) {
            self.edits.replace(tail, "");
        }
    }

    /// Leaves at most one blank line above piece `index`, and that one empty.
    fn blank_lines(&mut self, index: usize, breaks: Breaks) {
        let above = self.plan.pieces[index - 1].line;
        let below = self.plan.pieces[index].line;
        if above + 1 < below && self.plan.kept.keeps(above + 1) {
            return;
        }
        match breaks.second {
            Some(second) if self.may_be_blank(index) => {
                self.edits.replace(Span { start: breaks.first.end, end: second.start }, "");
                self.edits.replace(Span { start: second.end, end: breaks.end }, "");
            }
            _ => self.edits.replace(Span { start: breaks.first.end, end: breaks.end }, ""),
        }
    }

    /// Whether a blank line may be above piece `index`: not below a line that opens a block, nor above the `}`.
    fn may_be_blank(&self, index: usize) -> bool {
        let pieces = &self.plan.pieces;
        let above = &pieces[index - 1];
        let last_word = match index.checked_sub(2).map(|at| &pieces[at]) {
            Some(word) if above.kind == TokenKind::Comment && word.line == above.line => word,
            _ => above,
        };
        let opened = last_word.kind == TokenKind::OpenBrace;
        !opened && pieces[index].kind != TokenKind::CloseBrace
    }

    /// Sets the white space before a piece that begins a line.
    fn indent(&mut self, piece: &Piece, indent: Span) {
        if !self.plan.held && !self.plan.kept.keeps(piece.line) {
            self.edits.space(indent, piece.column);
        }
    }

    /// Sets what comes after the last piece: its line end if it has one, and no more.
    fn at_end(&mut self, gap: Span) {
        let last = self.plan.pieces.last();
        let breaks = Breaks::find(self.text, gap);
        let Some(last) = last else { return self.edits.replace(gap, "") };
        let tail = Span { start: gap.start, end: breaks.map_or(gap.end, |breaks| breaks.first.start) };
        self.line_tail(last, tail);
        if let Some(breaks) = breaks {
            self.edits.replace(Span { start: breaks.first.end, end: gap.end }, "");
        }
    }
}
