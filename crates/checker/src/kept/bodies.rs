//! Where an edit lies: only what is between the braces of one part or motif can be looked at by itself.

use crate::PartKind;
use crate::Source;
use knotwright_grammar::tree::Motif;
use knotwright_grammar::{Span, Splice};
use knotwright_numbers::ToNumber;

/// How many statements are at the top, and those that tie: by number, what is between their braces.
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
            let motif = statement.get::<Motif>().map(|motif| &motif.block);
            let part = PartKind::of(statement).and_then(|_| statement.node.block());
            let Some(block) = motif.or(part) else { continue };
            between.push((at, Span { start: block.open.end, end: block.close?.start }));
        }
        Some(Self { statements: statements.len(), between })
    }

    /// The number of the statement between whose braces the edit lies, if all else at the top is as it was.
    pub(super) fn around(&self, edit: Splice, now: &Self) -> Option<usize> {
        let (start, end) = (edit.start.to_u32(), edit.old_end.to_u32());
        let (at, body) = self.between.iter().find(|(_, body)| body.start <= start && end <= body.end)?;
        let is_around = (*at, Span { start: body.start, end: body.end.wrapping_add_signed(edit.by()) });
        (now.statements == self.statements && now.between.contains(&is_around)).then_some(*at)
    }
}
