//! The strand in hand while the runs of a `take` are being written.

use super::Here;
use crate::line::CursorLine;
use crate::views;
use knotwright_band::Kind;
use knotwright_checker::{Source, View};
use knotwright_grammar::tree::Statement;
use knotwright_grammar::{Span, TokenKind};

/// Where the strand in hand hangs, as the text counts.
pub(super) struct Hand {
    pub(super) view: View,
    /// Its place, from 1 from the left of the range.
    pub(super) at: usize,
}

impl Hand {
    /// The hand where the next run begins.
    pub(super) fn of(here: &Here) -> Option<Self> {
        if here.line.first() != "take" {
            return None;
        }
        let more = statements(&completed(&here.line)?);
        let view = here.checked.look(here.spot?, &more).filter(|view| !view.blind)?;
        let held = usize::from(view.held?);
        let at = views::local(&view, held);
        Some(Self { view, at })
    }

    /// How many strands it could tie over, one after another.
    pub(super) fn beyond(&self, kind: Kind) -> usize {
        if kind.left_works() {
            views::width(&self.view).saturating_sub(self.at)
        } else {
            self.at.saturating_sub(1)
        }
    }

    /// The place after a number of knots of a kind.
    pub(super) fn after(&self, kind: Kind, count: usize) -> usize {
        match kind {
            Kind::Forward => self.at + count,
            Kind::Backward => self.at - count,
            Kind::ForwardBackward | Kind::BackwardForward => self.at,
        }
    }

    /// The threads that it would tie over, the next one first.
    pub(super) fn ahead(&self, kind: Kind) -> Vec<u16> {
        let right = kind.left_works();
        (1..=self.beyond(kind))
            .map(|step| views::thread(&self.view, if right { self.at + step } else { self.at - step }))
            .collect()
    }
}

/// The statement up to the run being written, with a run of no knots in its place.
fn completed(line: &CursorLine) -> Option<String> {
    let text = &line.source.text;
    let mut depth = 0_i32;
    let mut cut = None;
    for token in &line.tokens {
        match token.kind {
            TokenKind::OpenParen => depth += 1,
            TokenKind::CloseParen => depth -= 1,
            TokenKind::Colon | TokenKind::Comma if depth == 0 => cut = Some(token.span.end),
            TokenKind::Word if token.span.of(text) == "then" => cut = Some(token.span.end),
            _ => {}
        }
    }
    let before = Span { start: line.start(), end: cut? }.of(text);
    Some(format!("{before} forward 0"))
}

/// Statements of a body, parsed by themselves.
pub(super) fn statements(text: &str) -> Vec<Statement> {
    let source = Source::new("", format!("set {{\n{text}\n}}\n"));
    let mut statements = source.parsed.tree.statements;
    let block = statements.first_mut().and_then(|set| set.node.block_mut());
    block.map(|block| std::mem::take(&mut block.statements)).unwrap_or_default()
}

/// The kind before the cursor.
pub(super) fn kind(word: &str) -> Option<Kind> {
    [Kind::Forward, Kind::Backward, Kind::ForwardBackward, Kind::BackwardForward]
        .into_iter()
        .find(|kind| crate::steps::kind_word(*kind) == word)
}
