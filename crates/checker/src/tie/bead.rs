//! `bead`: a bead is threaded on strands that hang side by side.

use super::{Done, Halt, Tie};
use crate::{FactKind, FileId, Named};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{BeadPlace, Name};
use knotwright_numbers::ToNumber;

/// A bead that is in no list: the reason has been reported.
const UNKNOWN_BEAD: u16 = u16::MAX;

impl<'a> Tie<'a> {
    /// No strand changes its place by it, so that nothing is lost where it cannot be done.
    pub(super) fn bead(&mut self, place: &'a BeadPlace, span: Span) -> Done {
        if self.is_blind() {
            return Ok(());
        }
        let mut positions = Vec::with_capacity(place.strands.len());
        for strand in &place.strands {
            self.spend()?;
            match self.strand(strand) {
                Ok((position, _)) => positions.push(position),
                Err(Halt::Lost) => return Ok(()),
                Err(Halt::Stop) => return Err(Halt::Stop),
            }
        }
        self.study_bead(place);
        positions.sort_unstable();
        if positions.windows(2).any(|pair| pair[0] + 1 != pair[1]) {
            let positions = positions.iter().map(|position| position + 1).collect();
            self.say(self.strands_named(place), FactKind::BeadStrandsApart { positions });
            return Ok(());
        }
        let (Some(&first), strands) = (positions.first(), positions.len()) else { return Ok(()) };
        let bead = self.known_bead(&place.bead);
        if let Some(trouble) = self.script.beads().in_the_way(bead, strands) {
            self.say(span, FactKind::BeadHole(trouble));
        }
        self.begin(span, first, Named::Bead { bead, strands: strands.to_u8() });
        Ok(())
    }

    fn strands_named(&self, place: &BeadPlace) -> Span {
        let ends = place.strands.first().zip(place.strands.last());
        ends.map_or(place.bead.span, |(first, last)| first.span.to(last.span))
    }

    /// The bead of that name. The size of a bead of another file is not said in this one.
    fn known_bead(&mut self, name: &Name) -> u16 {
        let found = self.script.bead(self.file, &name.text);
        if self.file == FileId::CHECKED || found.is_none() {
            return found.unwrap_or(UNKNOWN_BEAD);
        }
        let motif = self.motifs.last().and_then(|motif| self.script.motif_at(*motif));
        let motif = motif.map(|motif| motif.name.text.clone()).unwrap_or_default();
        self.say(name.span, FactKind::BeadOfOtherFile { name: name.text.clone(), motif });
        UNKNOWN_BEAD
    }
}
