//! Where an edit lies: only what stands between the braces of one part or motif can be looked at by itself.

use crate::Source;
use knotwright_grammar::tree::Node;
use knotwright_grammar::{Difference, Span};

/// So many statements at the top, and those that tie: by number, what stands between their braces.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Bodies {
    statements: usize,
    between: Vec<(usize, Span)>,
}

impl Bodies {
    /// `None` if a brace is missing.
    pub(super) fn of(source: &Source) -> Option<Self> {
        let statements = &source.parsed.tree.statements;
        let mut between = Vec::new();
        for (at, statement) in statements.iter().enumerate() {
            let block = match &statement.node {
                Node::Opening(block) | Node::Set(block) | Node::Closing(block) => block,
                Node::Motif(motif) => &motif.block,
                _ => continue,
            };
            between.push((at, Span { start: block.open.end, end: block.close?.start }));
        }
        Some(Self { statements: statements.len(), between })
    }

    /// The number of the statement between whose braces the difference lies, if all else at the top is as it was.
    pub(super) fn around(&self, difference: Difference, now: &Self) -> Option<usize> {
        let (start, end) = (difference.start as u32, difference.before as u32);
        let (at, body) = self.between.iter().find(|(_, body)| body.start <= start && end <= body.end)?;
        let is_around = (*at, Span { start: body.start, end: body.end.wrapping_add_signed(difference.by()) });
        (now.statements == self.statements && now.between.contains(&is_around)).then_some(*at)
    }
}
