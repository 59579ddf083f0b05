//! Which `work` statements led to a knot, if its step stands in a motif.

use crate::resolve::{MotifRef, Script, Slot};
use crate::{FileId, PartKind, Pattern, Place, Spot};
use knotwright_grammar::tree::{Block, Statement, Work};
use rustc_hash::FxHashSet as HashSet;
use std::cell::Cell;

/// To see when a statement is tied, its part is tied again up to there: this many knots altogether, and no more such looks.
const MOST_KNOTS: usize = 2_000_000;
const MOST_LOOKS: usize = 64;

/// A knot of a part, and where the step stands that tied it.
#[derive(Debug, Clone, Copy)]
pub(crate) struct PartKnot {
    pub(crate) part: PartKind,
    pub(crate) number: u32,
    pub(crate) step: Place,
}

/// Looks for the statements that led to a knot.
struct Seeker<'a> {
    pattern: &'a Pattern,
    script: &'a Script,
    knot: PartKnot,
    /// How many looks may still be taken.
    looks: &'a Cell<usize>,
}

/// A statement that works a motif, and before which statement of a block it stands.
struct Site<'a> {
    spot: Spot,
    place: Place,
    work: &'a Work,
}

/// How many looks a pattern affords.
pub(crate) fn affordable_looks(pattern: &Pattern) -> usize {
    let knots: usize = pattern.parts().map(|(_, part)| part.piece.knots().len()).sum();
    (MOST_KNOTS / knots.max(1)).min(MOST_LOOKS)
}

/// The statements that led to a knot of a part, the outermost first, as far as that can be said; none for a step that stands
/// in no motif.
pub(crate) fn worked_at(pattern: &Pattern, knot: PartKnot, looks: &Cell<usize>) -> Vec<Place> {
    let script = pattern.script();
    let seeker = Seeker { pattern, script, knot, looks };
    let is_part = |statement: &&Statement| PartKind::of(statement) == Some(knot.part);
    let block = script.source().parsed.tree.statements.iter().find(is_part);
    let mut within = block.and_then(|part| part.node.block()).map(|block| (FileId::CHECKED, block));
    let mut places = Vec::new();
    while let Some((file, block)) = within.filter(|(file, block)| !seeker.is_in(*file, block)) {
        let Some(site) = seeker.site(file, block) else { break };
        places.push(site.place);
        within = seeker.motif(file, site.work).and_then(|motif| seeker.block(motif));
    }
    places
}

impl<'a> Seeker<'a> {
    fn is_in(&self, file: FileId, block: &Block) -> bool {
        let end = block.close.map_or(u32::MAX, |close| close.end);
        let step = self.knot.step;
        step.file == file && block.open.start <= step.span.start && step.span.end <= end
    }

    fn motif(&self, file: FileId, work: &Work) -> Option<MotifRef> {
        match self.script.file(file)?.motifs.get(&work.motif.text)? {
            Slot::Known(motif) => Some(*motif),
            Slot::Unknown => None,
        }
    }

    fn block(&self, motif: MotifRef) -> Option<(FileId, &'a Block)> {
        Some((motif.file, &self.script.motif_at(motif)?.block))
    }

    /// The statement of a block by which the knot was tied.
    fn site(&self, file: FileId, block: &'a Block) -> Option<Site<'a>> {
        let mut sites = Vec::new();
        list_sites(file, block, &mut sites);
        let mut in_vain = HashSet::default();
        sites.retain(|site| self.leads(file, site.work, &mut in_vain));
        if sites.len() == 1 {
            return sites.pop();
        }
        // Of several, the one that was being worked; in later passes of a loop, it cannot be told from another one.
        sites.into_iter().find(|site| self.is_tied_at(site.spot))
    }

    /// Whether a statement works the motif, directly or not. `in_vain`: those that do not.
    fn leads(&self, file: FileId, work: &Work, in_vain: &mut HashSet<MotifRef>) -> bool {
        let Some(motif) = self.motif(file, work).filter(|motif| in_vain.insert(*motif)) else { return false };
        let Some((file, block)) = self.block(motif) else { return false };
        let mut sites = Vec::new();
        list_sites(file, block, &mut sites);
        let leads = self.is_in(file, block) || sites.iter().any(|site| self.leads(file, site.work, in_vain));
        if leads {
            in_vain.remove(&motif);
        }
        leads
    }

    /// Whether the knot is tied between a spot and the one behind it, as the tie comes there for the first time.
    fn is_tied_at(&self, spot: Spot) -> bool {
        let knots = |index: usize| {
            self.looks.set(self.looks.get().checked_sub(1)?);
            let view = self.pattern.look(Spot { index, ..spot }, &[])?;
            (view.part == self.knot.part).then_some(view.knots)
        };
        let own = u64::from(self.knot.number);
        let before = knots(spot.index).is_some_and(|before| before <= own);
        before && knots(spot.index + 1).is_some_and(|behind| own < behind)
    }
}

/// All statements of a block, and of those in it, that work something.
fn list_sites<'a>(file: FileId, block: &'a Block, sites: &mut Vec<Site<'a>>) {
    for (index, statement) in block.statements.iter().enumerate() {
        if let Some(work) = statement.get::<Work>() {
            let spot = Spot { file, block: block.open.start, index };
            sites.push(Site { spot, place: Place { file, span: statement.span }, work });
        } else if let Some(inner) = statement.node.block() {
            list_sites(file, inner, sites);
        }
    }
}
