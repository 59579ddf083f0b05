//! What rules about the text look for, found in one walk over the statements of a file.

use crate::Source;
use crate::reflection::NearMirrors;
use knotwright_grammar::tree::{Bead, Block, ForBlock, Import, Motif, Name, Statement, Take, Thread, Tree};

/// Statements of a file by what they say, each list in order.
#[derive(Debug, Default)]
pub(crate) struct Contents<'a> {
    /// Those that give names.
    pub(crate) naming: Vec<&'a Statement>,
    pub(crate) labels: Vec<Label<'a>>,
    /// Those with a text in other languages.
    pub(crate) translated: Vec<&'a Statement>,
    /// Those with statements in braces.
    pub(crate) blocks: Vec<&'a Statement>,
    /// Those with a chart in braces.
    pub(crate) charts: Vec<&'a Statement>,
    /// Pieces that nearly mirror each other, once somebody has asked for them.
    pub(crate) near_mirrors: NearMirrors,
}

/// A label that a `take` gives.
#[derive(Debug)]
pub(crate) struct Label<'a> {
    pub(crate) name: &'a Name,
    /// It can be called from this byte on, up to the end of its block; `None` if that is not known.
    pub(crate) from: u32,
    pub(crate) end: Option<u32>,
}

impl<'a> Contents<'a> {
    pub(crate) fn of(source: &'a Source) -> Self {
        let mut contents = Self::default();
        let Tree { statements } = &source.parsed.tree;
        contents.add(statements, None);
        contents
    }

    fn add(&mut self, statements: &'a [Statement], end: Option<u32>) {
        for statement in statements {
            if let Some(take) = statement.get::<Take>() {
                if let Some(name) = &take.label {
                    self.labels.push(Label { name, from: statement.span.end, end });
                    self.naming.push(statement);
                }
                continue;
            }
            let names = statement.is::<Thread>()
                || statement.is::<ForBlock>()
                || statement.is::<Motif>()
                || statement.is::<Bead>()
                || statement.is::<Import>();
            if names {
                self.naming.push(statement);
            }
            if !statement.node.translations().is_empty() {
                self.translated.push(statement);
            }
            if let Some(block) = statement.node.block() {
                self.blocks.push(statement);
                self.add(&block.statements, end_of(block));
            } else if statement.node.chart().is_some() {
                self.charts.push(statement);
            }
        }
    }
}

fn end_of(block: &Block) -> Option<u32> {
    block.close.map(|close| close.start).or(block.statements.last().map(|last| last.span.end))
}
