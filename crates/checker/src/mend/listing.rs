//! The edits of each statement, listed as it is reached. In a long band it is known of most statements by then that all their
//! edits are in vain: those need no list.

use super::candidates::{Around, Candidate, EditedStatement, add_candidates, change_places};
use super::copies::FAR;
use super::search::Mistake;
use super::structure::{BlockKind, is_mirror};
use crate::Fact;
use crate::resolve::Script;
use crate::tie::{Echo, Studied};
use knotwright_grammar::Span;
use knotwright_grammar::tree::Block;
use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};
use std::sync::Arc;

/// Lists the edits of statements.
#[derive(Debug)]
pub(super) struct Listing {
    script: Arc<Script>,
    around: Around,
    mistake: Mistake,
    /// By the byte where they open, the blocks of a `both` or `mirrored`.
    mirrors: HashSet<u32>,
    /// By the byte where they open, what the edits of their statements depend on, and whether they are in motifs: of those that
    /// were reached.
    blocks: HashMap<u32, (BlockKind, bool)>,
    /// By the byte where they start, the statements that were reached.
    reached: HashMap<u32, Reached>,
}

/// A statement whose edits were listed.
#[derive(Debug, Clone, Copy)]
struct Reached {
    around: Neighbors,
    /// Within how many steps all edits go wrong, but for that with which it changes places with the one above it; `None` if some
    /// do not, or that is unknown.
    vain: Option<u16>,
}

/// The statements of a block on which the edits of one depend.
#[derive(Debug, Clone, Copy)]
struct Neighbors {
    /// Where the block opens.
    block: u32,
    /// Where they stand.
    span: Span,
    /// How many of them come before it.
    above: usize,
}

impl Neighbors {
    fn of(block: &Block, index: usize) -> Self {
        let first = index.saturating_sub(FAR);
        let last = (index + FAR).min(block.statements.len()) - 1;
        let span = block.statements[first].span.to(block.statements[last].span);
        Self { block: block.open.start, span, above: index - first }
    }
}

impl Listing {
    /// `facts`: what is wrong with the tie; `mistake`: where.
    pub(super) fn of(script: &Arc<Script>, facts: &[Fact], mistake: Mistake) -> Self {
        let mirrors = script.source().parsed.tree.walk().filter(|holder| is_mirror(holder));
        let mirrors = mirrors.filter_map(|holder| Some(holder.node.block()?.open.start)).collect();
        let (blocks, reached) = (HashMap::default(), HashMap::default());
        Self {
            script: Arc::clone(script),
            around: Around::of(script, facts),
            mistake,
            mirrors,
            blocks,
            reached,
        }
    }

    /// Only of lines that may be put in.
    pub(super) fn of_copies(self) -> Self {
        Self { around: self.around.of_copies(&self.script), ..self }
    }

    /// Whether the edits of the statement that starts there were listed.
    pub(super) fn has(&self, start: u32) -> bool {
        self.reached.contains_key(&start)
    }

    /// Adds the edits of the statement of that number in a block to those that were `found`. `echo`: where the same was tied
    /// before.
    pub(super) fn list(
        &mut self,
        block: &Block,
        index: usize,
        echo: Option<Echo>,
        studied: &Studied,
        found: &mut Vec<Candidate>,
    ) {
        let (kind, _) = *self.blocks.entry(block.open.start).or_insert_with(|| {
            let is_of_mirror = self.mirrors.contains(&block.open.start);
            let kind = BlockKind::new(self.script.source(), block, is_of_mirror);
            (kind, self.around.is_in_motif(block))
        });
        let edited = EditedStatement { block, kind, index, age: |start| self.mistake.age(studied, start) };
        let around = Neighbors::of(block, index);
        let vain = echo.and_then(|echo| self.in_vain(around, echo));
        match vain {
            Some(_) if self.around.is_of_copies() => {}
            Some(_) => found.extend(change_places(&self.script, &edited)),
            None => add_candidates(&self.script, &self.around, &edited, found),
        }
        self.reached.insert(block.statements[index].span.start, Reached { around, vain });
    }

    /// Within how many steps all edits of a statement go wrong, as they did where the same was tied before.
    fn in_vain(&self, around: Neighbors, echo: Echo) -> Option<u16> {
        let before = self.reached.get(&echo.start)?;
        let within = before.vain.filter(|&within| u32::from(within) <= echo.steps)?;
        (!self.around.is_uneven() && self.are_alike(around, before.around)).then_some(within)
    }

    /// Whether two statements that say the same have the same edits.
    fn are_alike(&self, one: Neighbors, other: Neighbors) -> bool {
        let text = |around: Neighbors| around.span.of(&self.script.source().text);
        one.above == other.above
            && self.blocks.get(&one.block) == self.blocks.get(&other.block)
            && text(one) == text(other)
    }

    /// All edits of the statement that starts there were tried. `vain`: within how many steps they went wrong, if all did.
    pub(super) fn note(&mut self, start: u32, vain: Option<u16>) {
        // Of a statement whose edits were not listed, that is known already.
        self.reached.entry(start).and_modify(|reached| reached.vain = reached.vain.or(vain));
    }
}
