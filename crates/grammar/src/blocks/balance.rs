//! Whether each `{` has its `}`, before anything else is read.
//!
//! Indentation is asked only where the braces alone do not say it: after the first `{` that is never closed,
//! and before a `}` too many, as any `}` above it may be the one. Elsewhere a file may be indented as it likes.

use crate::{Token, TokenKind};
use std::ops::Range;

/// Where the braces of a file do not pair up. All numbers are places in the list of tokens.
#[derive(Debug, Default)]
pub(crate) struct Balance {
    unclosed: Option<usize>,
    /// Where each `}` too many may stand, in order; emptied once it is found.
    surplus: Vec<Range<usize>>,
}

impl Balance {
    pub(crate) fn of(tokens: &[Token]) -> Self {
        let mut balance = Self::default();
        let mut open = Vec::new();
        let mut last_stray = 0;
        for (at, token) in tokens.iter().enumerate() {
            match token.kind {
                TokenKind::OpenBrace => open.push(at),
                TokenKind::CloseBrace if open.pop().is_none() => {
                    balance.surplus.push(last_stray..at);
                    last_stray = at;
                }
                _ => {}
            }
        }
        balance.unclosed = open.first().copied();
        balance
    }

    /// Whether all pair up.
    pub(crate) fn is_whole(&self) -> bool {
        self.unclosed.is_none() && self.surplus.is_empty()
    }

    /// Whether the `{` at `open`, or one before it, is never closed.
    pub(crate) fn lacks_close(&self, open: usize) -> bool {
        self.unclosed.is_some_and(|first| first <= open)
    }

    /// Whether a `}` too many may be this one; each is granted once.
    pub(crate) fn take_surplus(&mut self, at: usize) -> bool {
        let index = self.surplus.partition_point(|range| range.end <= at);
        let Some(range) = self.surplus.get_mut(index).filter(|range| range.contains(&at)) else {
            return false;
        };
        range.start = range.end;
        true
    }
}
